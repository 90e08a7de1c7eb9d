"""Where the lifting lines of a wall that folds up go: the eye on the board, the beam above it.

The lines go straight up from the level board, so that the anchor lies over the eye. Then the
line's lever arm about the pivot is never less than eye x sin t on the way up, t the angle from
the vertical, and the force in the lines is largest when the board lies level.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry.space import sign
from steepwright.room.types import Facing, Room

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]

NO_BEAM = -1
"""Stands for lines that go up to the ceiling because no beam lies over the eye."""


@dataclass(frozen=True, slots=True)
class LiftRules:
    """What decides on the lifting lines' place.

    `margin_mm` from the board's foot to the outermost eye, `beside_mm` from a beam's side to a
    block that hangs beside it; the eye lies at `least_share` of the board or more.
    """

    margin_mm: float
    beside_mm: float
    least_share: float


def lift_points(
    room: Room, beam: int, facing: Facing, reach_mm: npt.ArrayLike, rules: LiftRules
) -> tuple[FloatArray, IntArray]:
    """Return the eye's distance from the pivot along the board [mm] and the beam above it.

    `reach_mm` is the distance from the pivot to the board's foot. The farthest beam behind the
    pivot that a block under or beside it brings over the board (only under a hidden joist, for
    beside it there is but the ceiling's lining; a slab's places are for mounts); `NO_BEAM` when
    there is none, then the eye lies as far out as it may. The eye's distance never falls as the
    reach grows: it is the outermost place or the last beam before it.
    """
    reach = np.asarray(reach_mm, dtype=np.float64)
    eye = reach - rules.margin_mm
    outermost, above = eye, np.full(reach.shape, NO_BEAM, dtype=np.int64)
    for distance, beside, index in _behind(room, beam, facing, rules):
        near = distance - beside
        under = np.minimum(outermost, float(distance))
        usable = (distance > 0) & (near <= outermost) & (under >= rules.least_share * reach)
        eye, above = np.where(usable, under, eye), np.where(usable, index, above)
    return eye, above


@dataclass(frozen=True, slots=True)
class EyeSpan:
    """From where to where eyes may lie under a beam's blocks, and right under it [mm]."""

    low_mm: float
    high_mm: float
    under_mm: float
    beam: int


def usable_spans(
    room: Room, beam: int, facing: Facing, least_mm: float, most_mm: float, rules: LiftRules
) -> tuple[EyeSpan, ...]:
    """Return, nearest beam first, the spans between two distances from the pivot [mm]."""
    spans = (
        EyeSpan(max(at - beside, least_mm), min(at + beside, most_mm), float(at), index)
        for at, beside, index in _behind(room, beam, facing, rules)
        if at > 0
    )
    return tuple(span for span in spans if span.low_mm <= span.high_mm)


def _behind(
    room: Room, beam: int, facing: Facing, rules: LiftRules
) -> list[tuple[int, float, int]]:
    """Return the beams' distances behind the pivot, how far to a side blocks hang, and indices."""
    way, own = -sign(facing), room.beams[beam].x_mm
    rows = (
        (way * (b.x_mm - own), (b.width_mm / 2.0 + rules.beside_mm) * b.seen, index)
        for index, b in enumerate(room.beams)
        if b.kind in ("beam", "joist")
    )
    return sorted(rows, key=lambda row: row[::2])
