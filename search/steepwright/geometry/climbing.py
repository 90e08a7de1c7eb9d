"""What a wall offers to climb: length, moves by the climber's span, where the hands start.

Rough measures to compare walls with. No source gives a length per move; it is an assumption.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Factors
from steepwright.geometry.holds import HoldGrid, hold_rows

FloatArray = npt.NDArray[np.float64]


class HoldEnds(NamedTuple):
    """How far up the board its lowest and its highest row of holds are [mm], per wall."""

    lowest_mm: npt.ArrayLike
    highest_mm: npt.ArrayLike


@lru_cache(maxsize=65536)
def hold_ends(row_lengths_mm: tuple[int, ...], stud_width_mm: float, grid: HoldGrid) -> HoldEnds:
    """Return the ends of the rows that `hold_rows` leaves free; at the lip where it leaves none."""
    up_mm, free = hold_rows(row_lengths_mm, stud_width_mm, grid)
    rows = up_mm[free].tolist() or [float(sum(row_lengths_mm))]
    return HoldEnds(rows[0], rows[-1])


def widest_hold_ends(board_mm: npt.ArrayLike, stud_width_mm: float, grid: HoldGrid) -> HoldEnds:
    """Return ends that no board's rows exceed, however it is divided, with studs at least so wide.

    Rows lie between the rails at foot and lip, each a number of spacings above the lowest.
    """
    lowest = max(stud_width_mm + grid.clear_mm, grid.edge_mm)
    room = np.maximum(np.asarray(board_mm, dtype=np.float64) - 2 * lowest, 0.0)
    return HoldEnds(lowest, lowest + grid.spacing_mm * np.floor(room / grid.spacing_mm))


def moves(ends: HoldEnds, span_mm: float, factors: Factors) -> FloatArray:
    """Return how many moves of the hands lead from the lowest row of holds to the highest [-].

    Each gains ``move_span_share`` of the climber's span (assumption). Rounded down.
    """
    between = np.subtract(ends.highest_mm, ends.lowest_mm, dtype=np.float64)
    gain = factors["move_span_share"] * span_mm
    return np.asarray(np.floor(between / gain + 1e-9), dtype=np.float64)


def start_height_mm(
    lowest_mm: npt.ArrayLike, kicker_mm: npt.ArrayLike, angle_rad: npt.ArrayLike
) -> FloatArray:
    """Return the height above the floor of the lowest row of holds [mm], k + u cos t."""
    up = np.asarray(lowest_mm) * np.cos(np.asarray(angle_rad, dtype=np.float64))
    return np.asarray(np.asarray(kicker_mm, dtype=np.float64) + up, dtype=np.float64)
