"""A board folded up about its pivot: where it parks and what its sweep has to miss.

Seen along the beam, the pivot is the origin, p runs from it away from the climber (against the
facing direction) and z up. At overhang angle t the board is a rectangle turned by t: its
thickness lies along p and its length along z when t is 0, and t grows until the board is level
with its face down, its foot swung back and up. Everything is exact for the rectangle and the
room's boxes (`sweep`).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry.space import sign
from steepwright.geometry.surroundings import Surroundings
from steepwright.geometry.sweep import (
    TOUCH_MM,
    Box,
    first_touch_rad,
    still_distance_mm,
    swept_bounds,
    swept_distance_mm,
    turned_corners,
)
from steepwright.room.types import Beam, Facing, Room

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Range = tuple[npt.ArrayLike, npt.ArrayLike]


@dataclass(frozen=True, slots=True)
class HungBoard:
    """Boards as they stand, by their section about the pivot; the fields broadcast.

    Attributes
    ----------
    board_mm, angle_rad
        Length up the slope [mm] and standing overhang angle [rad].
    pivot_height_mm
        Height of the pivot above the floor [mm].
    setback_mm, behind_mm
        From the lip to the pivot along the board, and from the face to the pivot [mm].
    depth_mm
        From the face to the back of the frame: sheet and stud [mm].
    front_mm
        What stands proud of the face when folded: the kicker laid flat, holds [mm].
    """

    board_mm: npt.ArrayLike
    angle_rad: npt.ArrayLike
    pivot_height_mm: npt.ArrayLike
    setback_mm: npt.ArrayLike
    behind_mm: npt.ArrayLike
    depth_mm: npt.ArrayLike
    front_mm: npt.ArrayLike = 0.0


@dataclass(frozen=True, slots=True)
class Parked:
    """Where boards come to rest; arrays with one entry per candidate.

    `headroom_mm` is the height of the lowest point of the parked board, `x_from_mm` and
    `x_to_mm` the range of the room it hangs over. `stop` is an index into `stops` (``level``,
    ``ceiling`` or a beam's name): what ended the turn. A board that meets a stop where it
    stands keeps its standing angle.
    """

    angle_rad: FloatArray
    headroom_mm: FloatArray
    x_from_mm: FloatArray
    x_to_mm: FloatArray
    stop: IntArray
    stops: tuple[str, ...]


def park(room: Room, beam: Beam, facing: Facing, board: HungBoard, y_mm: Range) -> Parked:
    """Turn boards up until they are level or meet the ceiling or a beam (their own included).

    `y_mm` is the wall's range across the room. NaN angles give NaN results.
    """
    shape, section, start, around = _scene(room, beam, facing, board, y_mm)
    level = np.full(start.shape, np.pi / 2)
    first, stop = level - start, np.zeros(start.shape, dtype=np.int64)
    bounds, stops = swept_bounds(section, start, level), ["level"]
    for name, solid in around.overhead():
        stops.append(name)
        index = np.flatnonzero(bounds.gap(solid) == 0.0)
        if not len(index):
            continue
        near, turned = solid.rows(index).shrunk(TOUCH_MM), section.rows(index)
        touch = np.full(start.shape, np.inf)
        touch[index] = first_touch_rad(turned, start[index], level[index], near)
        stop = np.where(touch < first, len(stops) - 1, stop)
        first = np.minimum(first, touch)
    p, z = turned_corners(section, start + first)
    x = beam.x_mm - sign(facing) * p
    answers = (start + first, z.min(0) + around.pivot_mm, x.min(0), x.max(0))
    angle, headroom, low, high = (answer.reshape(shape) for answer in answers)
    return Parked(angle, headroom, low, high, stop.reshape(shape), tuple(stops))


def sweep_clear_mm(
    room: Room,
    beam: Beam,
    facing: Facing,
    board: HungBoard,
    parked_rad: npt.ArrayLike,
    y_mm: Range,
) -> FloatArray:
    """Return the least clearance of the sweep from standing to parked [mm].

    Against every solid that overlaps the wall's range `y_mm` and the room's two end walls.
    (Beams and ceiling end the sweep; see `park`.) 0 when it touches. Negative when it
    collides: the value is how far the solid reaches into the circle of the board's far corner,
    so a board shorter by that much would miss it at any angle.
    """
    shape, section, start, around = _scene(room, beam, facing, board, y_mm)
    end = np.broadcast_to(np.asarray(parked_rad, dtype=np.float64), shape).ravel()
    clear = _clearance(section, start, end, around.end_walls(), around.solids())
    return clear.reshape(shape)


def sweep_clear_apart_mm(
    room: Room,
    beam: Beam,
    facing: Facing,
    board: HungBoard,
    parked_rad: npt.ArrayLike,
    y_mm: Range,
) -> tuple[FloatArray, FloatArray]:
    """Return the least clearance of the sweep from the solids and from the end walls, apart [mm].

    Both are negative where `sweep_clear_mm` is for that reason. From solids the values are as
    there, inf without any; from end walls minus the room that is missing for that very sweep.
    """
    shape, section, start, around = _scene(room, beam, facing, board, y_mm)
    end = np.broadcast_to(np.asarray(parked_rad, dtype=np.float64), shape).ravel()
    solids = _clearance(section, start, end, (), around.solids())
    bounds, (back, front) = swept_bounds(section, start, end), around.end_walls()
    room_mm = np.minimum(back.u0 - bounds.u1, bounds.u0 - front.u1)
    ends = np.where(np.abs(room_mm) <= TOUCH_MM, 0.0, room_mm)
    return solids.reshape(shape), ends.reshape(shape)


def sweep_is_clear(
    room: Room, beam: Beam, facing: Facing, board: HungBoard, parked_rad: npt.ArrayLike, y_mm: Range
) -> npt.NDArray[np.bool_]:
    """Tell where `sweep_clear_mm` isn't negative: distances are measured only in doubt."""
    shape, section, start, around = _scene(room, beam, facing, board, y_mm)
    end = np.broadcast_to(np.asarray(parked_rad, dtype=np.float64), shape).ravel()
    bounds = swept_bounds(section, start, end)
    radius, origin = section.radius(), np.zeros(start.shape)
    clear = ~np.isnan(start + end)
    for wall in around.end_walls():
        clear &= bounds.gap(wall.shrunk(TOUCH_MM)) > 0.0
    for box in around.solids():
        near = (bounds.gap(box) == 0.0) & (box.distance(origin, origin) <= radius + TOUCH_MM)
        index = np.flatnonzero(clear & near)
        if not len(index):
            continue
        solid, turned = box.rows(index).shrunk(TOUCH_MM), section.rows(index)
        clear[index] = swept_distance_mm(turned, start[index], end[index], solid) > 0.0
    return clear.reshape(shape)


def standing_clear_mm(
    room: Room, beam: Beam, facing: Facing, board: HungBoard, y_mm: Range
) -> FloatArray:
    """Return the clearance of the standing board [mm]; negative when it does not fit.

    Against everything: solids, end walls, ceiling and beams, its own beam included.
    Values as in `sweep_clear_mm`.
    """
    shape, section, start, around = _scene(room, beam, facing, board, y_mm)
    boxes = around.solids() + tuple(box for _, box in around.overhead())
    return _clearance(section, start, None, around.end_walls(), boxes).reshape(shape)


def _clearance(
    section: Box,
    start: FloatArray,
    end: FloatArray | None,
    walls: tuple[Box, ...],
    boxes: tuple[Box, ...],
) -> FloatArray:
    """Return the least clearance from all walls and boxes; without an end of boards at rest.

    A wall is a half-plane, so the bounds of the sweep settle it. A box is looked at only where
    the bounds come nearer to it than the least clearance so far, or meet it.
    """
    last = start if end is None else end
    bounds = swept_bounds(section, start, last)
    radius = section.radius()
    best = np.where(np.isnan(start + last), np.nan, np.inf)
    for wall in walls:
        distance = bounds.gap(wall.shrunk(TOUCH_MM))
        best = np.minimum(best, _signed(distance, wall, radius))
    for box in boxes:
        gap = bounds.gap(box)
        index = np.flatnonzero((gap < best) | (gap == 0.0))
        if not len(index):
            continue
        near, turned, first = box.rows(index), section.rows(index), start[index]
        solid = near.shrunk(TOUCH_MM)
        distance = (
            still_distance_mm(turned, first, solid)
            if end is None
            else swept_distance_mm(turned, first, end[index], solid)
        )
        best[index] = np.minimum(best[index], _signed(distance, near, radius[index]))
    return best


def _signed(distance: FloatArray, solid: Box, radius: FloatArray) -> FloatArray:
    """Return the clearance, or minus how far the solid reaches into the far corner's circle."""
    origin = np.zeros_like(radius)
    inside = np.minimum(solid.distance(origin, origin) - radius, -TOUCH_MM)
    return np.where(distance > 0.0, np.maximum(distance - TOUCH_MM, 0.0), inside)


def _scene(
    room: Room, beam: Beam, facing: Facing, board: HungBoard, y_mm: Range
) -> tuple[tuple[int, ...], Box, FloatArray, Surroundings]:
    """Return the common shape and, flat, the board in its own axes, its angle and the room."""
    fields = (board.board_mm, board.angle_rad, board.pivot_height_mm, board.setback_mm)
    values = (*fields, board.behind_mm, board.depth_mm, board.front_mm, *y_mm)
    arrays = np.broadcast_arrays(*(np.asarray(value, dtype=np.float64) for value in values))
    length, angle, pivot, setback, behind, depth, front, y0, y1 = (a.ravel() for a in arrays)
    section = Box(-behind - front, depth - behind, setback - length, setback)
    return arrays[0].shape, section, angle, Surroundings(room, beam, facing, pivot, y0, y1)
