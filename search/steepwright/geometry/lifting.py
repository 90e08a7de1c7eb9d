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
    way = -sign(facing)
    anchors = [(i, b) for i, b in enumerate(room.beams) if b.kind in ("beam", "joist")]
    behind = sorted((way * (b.x_mm - room.beams[beam].x_mm), i) for i, b in anchors)
    for distance, index in behind:
        over = room.beams[index]
        near = distance - (over.width_mm / 2.0 + rules.beside_mm) * over.seen
        under = np.minimum(outermost, float(distance))
        usable = (distance > 0) & (near <= outermost) & (under >= rules.least_share * reach)
        eye, above = np.where(usable, under, eye), np.where(usable, index, above)
    return eye, above
