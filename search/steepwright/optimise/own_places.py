"""Places of a wall's own for what hangs elsewhere in the search: ties and lifting eyes.

The search fixes ties half-way up the board, and eyes below the farthest beam. A wall that a
builder has in mind, or a sampled one, may have them elsewhere within the ranges here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from steepwright.findings import Finding
from steepwright.optimise.lift import eye_range_mm, eye_spans, lifting
from steepwright.optimise.space import Space
from steepwright.pricing.wall import Wall

PARTS = 10_000
"""A place is chosen as a whole number of so many parts of its range."""

_Places = npt.NDArray[np.int64]


def tie_range_mm(space: Space, wall: Wall) -> tuple[int, int]:
    """Return the least and the greatest height up the board where ties may be fixed [mm]."""
    least = math.ceil(space.market.catalog.materials.factors["tie_place_least"] * wall.board_mm)
    return least, wall.board_mm - least


def tied_at(space: Space, wall: Wall, part: int) -> Wall:
    """Return the wall with its ties so many parts up their range; the middle is the search's."""
    low, high = tie_range_mm(space, wall)
    at = low + round((high - low) * part / PARTS)
    return replace(wall, tie_at_mm=None if abs(2 * at - wall.board_mm) <= 1 else at)


def tie_part(space: Space, wall: Wall, at_mm: int) -> int:
    """Return the parts after which `tied_at` has the ties at a place."""
    low, high = tie_range_mm(space, wall)
    return round((at_mm - low) * PARTS / max(high - low, 1))


def lifted_at(space: Space, place: int, wall: Wall, part: int) -> Wall:
    """Return the wall with its eyes so many parts along the places where they may be.

    They stay below beams if there are any to stay below. The search's place is kept where it is
    less than a millimetre away.
    """
    places = _eye_places(space, place, wall)
    if not len(places):
        return replace(wall, eye_mm=None)
    eye = int(places[round((len(places) - 1) * part / PARTS)])
    usual, _ = lifting(space, place, wall.mount, float(wall.board_mm))
    return replace(wall, eye_mm=None if abs(eye - float(usual)) < 1 else eye)


def eye_part(space: Space, place: int, wall: Wall, eye_mm: float) -> int:
    """Return the parts after which `lifted_at` has the eyes nearest to a place."""
    places = _eye_places(space, place, wall)
    if len(places) < 2:
        return PARTS
    return round(int(np.abs(places - eye_mm).argmin()) * PARTS / (len(places) - 1))


def _eye_places(space: Space, place: int, wall: Wall) -> _Places:
    """Return all whole mm from the pivot where eyes may be, from the least on."""
    spans = [(s.low_mm, s.high_mm) for s in eye_spans(space, place, wall)]
    spans = spans or [eye_range_mm(space, wall)]
    rows = [np.arange(math.ceil(low), math.floor(high) + 1) for low, high in spans]
    return np.unique(np.concatenate(rows)).astype(np.int64)


def place_problems(space: Space, wall: Wall) -> Iterator[Finding]:
    """Yield a finding for each place of the wall's own where there can be none."""
    if wall.tie_at_mm is not None:
        low, high = tie_range_mm(space, wall)
        if wall.tie is None:
            yield _problem("tie_at_mm", wall.tie_at_mm, "a set of ties in tie_back as well")
        elif not low <= wall.tie_at_mm <= high:
            yield _problem("tie_at_mm", wall.tie_at_mm, f"from {low} to {high} for this board")
    if wall.eye_mm is not None:
        least, most = eye_range_mm(space, wall)
        if not space.market.room.wall.fold_up:
            yield _problem("eye_mm", wall.eye_mm, "no eye: fold_up is false, this wall stays down")
        elif not least <= wall.eye_mm <= most:
            words = f"from {math.ceil(least)} to {math.floor(most)} for this board and mount"
            yield _problem("eye_mm", wall.eye_mm, words)


def _problem(key: str, seen: int, expected: str) -> Finding:
    say = "this can't be built"
    return Finding("design-value", "error", say, key=key, seen=str(seen), expected=expected)
