"""Ways into a room with narrow places of all kinds, and pieces to bring in, at random."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.room.types import Access, Corridor, Door, Landing, Lift, Stair, Window

FloatArray = npt.NDArray[np.float64]
PIECES = 300


def random_access(seed: int) -> Access:
    """Return a way in with up to two places of a kind, and mostly none."""
    r = random.Random(seed)
    mm = r.randrange

    def some(make: Callable[[], Any]) -> tuple[Any, ...]:
        return tuple(make() for _ in range(r.choice([0, 0, 0, 1, 2])))

    return Access(
        max_piece_mm=r.choice([None, None, (2500, 1250), (3000, 900)]),
        doors=some(lambda: Door("door", mm(600, 1000), mm(1800, 2200))),
        corridors=some(lambda: Corridor("turn", mm(700, 1300), mm(700, 1300), mm(1900, 2500))),
        stairs=some(
            lambda: Stair(
                "up",
                mm(650, 1100),
                mm(1800, 2200),
                mm(160, 220),
                mm(200, 300),
                mm(2000, 2600),
                mm(2000, 2600),
            )
        ),
        landings=some(
            lambda: Landing("half-way", mm(700, 1300), mm(700, 1300), mm(1900, 2500), 190, 240)
        ),
        lifts=some(
            lambda: Lift(
                "lift", mm(700, 1000), mm(1900, 2100), mm(800, 1300), mm(900, 2100), mm(2000, 2300)
            )
        ),
        windows=some(lambda: Window("window", mm(500, 1200), mm(500, 1400), mm(1500, 4000))),
    )


def random_pieces(seed: int) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return lengths, widths and thicknesses [mm]."""
    r = np.random.default_rng(seed)
    return (
        r.integers(300, 3200, PIECES).astype(float),
        r.integers(100, 1300, PIECES).astype(float),
        r.choice([12.0, 18.0, 22.0, 45.0, 60.0, 100.0], PIECES),
    )
