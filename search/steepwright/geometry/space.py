"""Room in front of, behind, under and beside a wall; every length broadcasts over candidates.

Solids are the boxes of the room. Two ranges overlap when they share more than a point, so a
solid that just touches is no obstacle. Where a bound in height is given, a solid counts when any
part of it is lower: furniture, a stair and a low shelf count, a lamp overhead does not.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.room.types import Facing, Room

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Stance:
    """How walls stand along the room; the fields broadcast with each other.

    Attributes
    ----------
    x_foot_mm
        The kicker's face along the room [mm].
    angle_rad
        Overhang angle from the vertical [rad].
    board_mm, kicker_mm
        Length of the board and height of the kicker [mm].
    depth_mm
        From the climbing face to the back of the frame [mm].
    """

    x_foot_mm: npt.ArrayLike
    angle_rad: npt.ArrayLike
    board_mm: npt.ArrayLike
    kicker_mm: npt.ArrayLike
    depth_mm: npt.ArrayLike = 0.0


def sign(facing: Facing) -> int:
    """Return +1 when the climber falls towards +x, else -1."""
    return 1 if facing == "+x" else -1


def along_facing(x_mm: tuple[float, float], facing: Facing) -> tuple[float, float]:
    """Return a range of x as a range [from, to] of s, which grows in the facing direction."""
    return (x_mm[0], x_mm[1]) if facing == "+x" else (-x_mm[1], -x_mm[0])


def wall_y_range_mm(room: Room, width_mm: npt.ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Return where a wall of some width lies across the room, (y0, y1) [mm].

    By the room's ``align``: against the left (y = 0) or right side, or in the middle. A wall
    wider than the room sticks out of it; the caller's width range forbids that.
    """
    width = np.asarray(width_mm, dtype=np.float64)
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[room.wall.align]
    start = share * (room.width_mm - width)
    return start, start + width


def fall_space_mm(
    room: Room,
    facing: Facing,
    x_lip_mm: npt.ArrayLike,
    y0_mm: npt.ArrayLike,
    y1_mm: npt.ArrayLike,
    lip_height_mm: npt.ArrayLike = np.inf,
) -> FloatArray:
    """Return the clear floor in front of the lip's plumb line [mm].

    To the room's wall in the facing direction or the nearest solid that overlaps the wall
    across the room and is in part lower than the lip. 0 when the plumb line goes through such
    a solid; negative when it lies outside the room.
    """
    lip = sign(facing) * np.asarray(x_lip_mm, dtype=np.float64)
    space = along_facing((0, room.length_mm), facing)[1] - lip
    for solid in room.solids:
        near, far = along_facing(solid.x_mm, facing)
        hit = _overlap(solid.y_mm, y0_mm, y1_mm) & (solid.z_mm[0] < np.asarray(lip_height_mm))
        gap = np.where(far > lip, np.maximum(near - lip, 0.0), np.inf)
        space = np.minimum(space, np.where(hit, gap, np.inf))
    return space


def foot_room_mm(
    room: Room,
    facing: Facing,
    x_foot_mm: npt.ArrayLike,
    depth_behind_mm: npt.ArrayLike,
    y0_mm: npt.ArrayLike,
    y1_mm: npt.ArrayLike,
) -> FloatArray:
    """Return the clearance behind the kicker's frame [mm]; negative when it does not fit.

    `depth_behind_mm` is the depth of the frame behind the kicker's face. Every solid that
    begins behind the face counts at any height, because the board's frame stands there as well.
    """
    foot = sign(facing) * np.asarray(x_foot_mm, dtype=np.float64)
    space = foot - along_facing((0, room.length_mm), facing)[0]
    for solid in room.solids:
        near, far = along_facing(solid.x_mm, facing)
        hit = _overlap(solid.y_mm, y0_mm, y1_mm) & (near < foot)
        space = np.minimum(space, np.where(hit, foot - far, np.inf))
    return space - np.asarray(depth_behind_mm, dtype=np.float64)


def floor_clear(
    room: Room, facing: Facing, stance: Stance, y0_mm: npt.ArrayLike, y1_mm: npt.ArrayLike
) -> BoolArray:
    """Tell whether nothing stands in the wedge under the board or in the board itself.

    A solid that overlaps the floor run in plan is in the way when its underside is lower than
    the back of the frame at the end of their overlap nearest to the lip, where the board is
    highest. (The back lies depth / sin t above the face there, and never above the lip's back.)
    """
    angle = np.asarray(stance.angle_rad, dtype=np.float64)
    board, kicker = (np.asarray(v, dtype=np.float64) for v in (stance.board_mm, stance.kicker_mm))
    depth = np.asarray(stance.depth_mm, dtype=np.float64)
    foot = sign(facing) * np.asarray(stance.x_foot_mm, dtype=np.float64)
    sine, cosine = np.sin(angle), np.cos(angle)
    lip, top = foot + board * sine, kicker + board * cosine + depth * sine
    shape = np.broadcast(lip, top, y0_mm, y1_mm).shape
    clear = np.ones(shape, dtype=np.bool_)
    for solid in room.solids:
        near, far = along_facing(solid.x_mm, facing)
        hit = _overlap(solid.y_mm, y0_mm, y1_mm) & (near < lip) & (far > foot)
        run = np.minimum(far, lip) - foot
        back = kicker + (run * cosine + depth) / np.maximum(sine, 1e-12)
        clear = clear & ~(hit & (solid.z_mm[0] < np.minimum(back, top)))
    return clear


def side_space_mm(
    room: Room,
    y0_mm: npt.ArrayLike,
    y1_mm: npt.ArrayLike,
    x_range_mm: tuple[npt.ArrayLike, npt.ArrayLike] | None = None,
    below_mm: npt.ArrayLike = np.inf,
) -> tuple[FloatArray, FloatArray]:
    """Return the clear floor to the left (towards y = 0) and right of a wall [mm].

    To the room's walls or the nearest solid that overlaps the wall's range of x (all of the
    room when None) and is in part lower than `below_mm`. 0 when a solid reaches into the wall.
    """
    y0, y1 = np.asarray(y0_mm, dtype=np.float64), np.asarray(y1_mm, dtype=np.float64)
    left, right = y0 + 0.0, room.width_mm - y1
    for solid in room.solids:
        hit = _beside(room, solid.x_mm, x_range_mm) & (solid.z_mm[0] < np.asarray(below_mm))
        low, high = solid.y_mm
        left = np.minimum(left, np.where(hit & (low < y0), np.maximum(y0 - high, 0.0), np.inf))
        right = np.minimum(right, np.where(hit & (high > y1), np.maximum(low - y1, 0.0), np.inf))
    return left, right


def passage_mm(
    room: Room,
    y0_mm: npt.ArrayLike,
    y1_mm: npt.ArrayLike,
    x_range_mm: tuple[npt.ArrayLike, npt.ArrayLike] | None = None,
    below_mm: npt.ArrayLike = np.inf,
) -> FloatArray:
    """Return the width of the widest straight way past the wall, on either side [mm].

    The way runs along x past the wall's whole range of x; it may lie beyond a solid that stands
    beside the wall. Solids that begin at `below_mm` or higher can be walked under.
    """
    y0, y1 = np.asarray(y0_mm, dtype=np.float64), np.asarray(y1_mm, dtype=np.float64)
    bars: list[tuple[FloatArray, FloatArray]] = [(y0, y1)]
    for solid in room.solids:
        hit = _beside(room, solid.x_mm, x_range_mm) & (solid.z_mm[0] < np.asarray(below_mm))
        bars.append((np.where(hit, solid.y_mm[0], np.inf), np.where(hit, solid.y_mm[1], np.inf)))
    best = np.asarray(0.0, dtype=np.float64)
    for edge in (np.zeros(()), *(high for _, high in bars)):
        start = np.minimum(edge, room.width_mm)
        gap = room.width_mm - start
        for low, high in bars:
            gap = np.where(high > start, np.minimum(gap, low - start), gap)
        best = np.maximum(best, gap)
    return best


def _overlap(
    range_mm: tuple[float, float], low_mm: npt.ArrayLike, high_mm: npt.ArrayLike
) -> BoolArray:
    low, high = np.asarray(low_mm), np.asarray(high_mm)
    return np.asarray((range_mm[0] < high) & (range_mm[1] > low))


def _beside(
    room: Room,
    x_mm: tuple[float, float],
    x_range_mm: tuple[npt.ArrayLike, npt.ArrayLike] | None,
) -> BoolArray:
    start, end = x_range_mm if x_range_mm is not None else (0.0, float(room.length_mm))
    return _overlap(x_mm, np.minimum(start, end), np.maximum(start, end))
