"""A rectangle that turns about a fixed point, against upright boxes: exact, by arcs.

The plane has the pivot at its origin. The rectangle is given in its own axes (u, v) at angle 0
and turns counterclockwise through angles [start, end]; the box keeps still. Two convex shapes
that do not overlap are nearest, and first touch, at a corner of one of them. Seen from the
box, the rectangle's corners run on arcs about the pivot; seen from the rectangle, the box's
corners do, the other way round. So eight arcs against a rectangle with upright sides settle
both the least distance and the first touch, and no step width is needed.

Along an arc the distance to a rectangle can be least only at an end of the arc, where the arc
is nearest to one of the four corners or square to one of the four sides, or where the circle
cuts the line of a side (`_candidates`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

TOUCH_MM = 1e-6
"""A solid is taken this much smaller on all sides, so that touching is not meeting."""

_SLACK_MM = 1e-7
_FULL_TURN = 2.0 * np.pi


@dataclass(frozen=True, slots=True)
class Box:
    """Rectangles with upright sides, [u0, u1] x [v0, v1]; the fields are arrays of one shape."""

    u0: FloatArray
    u1: FloatArray
    v0: FloatArray
    v1: FloatArray

    def corners(self) -> Iterator[tuple[FloatArray, FloatArray]]:
        """Yield the four corners (u, v)."""
        for u in (self.u0, self.u1):
            for v in (self.v0, self.v1):
                yield u, v

    def shrunk(self, by_mm: float) -> Box:
        """Return the boxes made smaller on all sides, at most to a line or a point."""
        du, dv = (np.minimum(by_mm, (hi - lo) / 2) for lo, hi in self._sides())
        return Box(self.u0 + du, self.u1 - du, self.v0 + dv, self.v1 - dv)

    def rows(self, index: npt.NDArray[np.intp]) -> Box:
        """Return the boxes of some rows."""
        return Box(self.u0[index], self.u1[index], self.v0[index], self.v1[index])

    def distance(self, u: FloatArray, v: FloatArray) -> FloatArray:
        """Return the distance of points to the boxes, 0 inside."""
        du = np.maximum(np.maximum(self.u0 - u, u - self.u1), 0.0)
        dv = np.maximum(np.maximum(self.v0 - v, v - self.v1), 0.0)
        return np.asarray(np.hypot(du, dv), dtype=np.float64)

    def gap(self, other: Box) -> FloatArray:
        """Return the distance between two boxes, 0 where they meet."""
        du = np.maximum(np.maximum(self.u0 - other.u1, other.u0 - self.u1), 0.0)
        dv = np.maximum(np.maximum(self.v0 - other.v1, other.v0 - self.v1), 0.0)
        return np.asarray(np.hypot(du, dv), dtype=np.float64)

    def _sides(self) -> tuple[tuple[FloatArray, FloatArray], ...]:
        return (self.u0, self.u1), (self.v0, self.v1)


def swept_distance_mm(board: Box, start: FloatArray, end: FloatArray, solid: Box) -> FloatArray:
    """Return the least distance between the turning boards and still solids; 0 if they meet."""
    turn = end - start
    least = np.where(_overlap(board, start, solid), 0.0, np.inf)
    for u, v in board.corners():
        least = np.minimum(least, _arc_distance(u, v, start, turn, solid))
    for u, v in solid.corners():
        least = np.minimum(least, _arc_distance(u, v, -end, turn, board))
    return least


def first_touch_rad(board: Box, start: FloatArray, end: FloatArray, solid: Box) -> FloatArray:
    """Return the turn [rad] after which the boards first meet the solids; inf if they don't."""
    turn = end - start
    first = np.where(_overlap(board, start, solid), 0.0, np.inf)
    for u, v in board.corners():
        first = np.minimum(first, _arc_entry(u, v, start, 1.0, solid))
    for u, v in solid.corners():
        first = np.minimum(first, _arc_entry(u, v, -start, -1.0, board))
    return np.asarray(np.where(first <= turn, first, np.inf), dtype=np.float64)


def swept_bounds(board: Box, start: FloatArray, end: FloatArray) -> Box:
    """Return the smallest upright boxes round all positions of the turning boards."""
    ends = [_turned(u, v, angle) for u, v in board.corners() for angle in (start, end)]
    us, vs = np.stack([p[0] for p in ends]), np.stack([p[1] for p in ends])
    bounds = [us.min(0), us.max(0), vs.min(0), vs.max(0)]
    for u, v in board.corners():
        radius, first = np.hypot(u, v), np.arctan2(v, u) + start
        for side, quarter in enumerate((2, 0, 3, 1)):
            met = np.mod(quarter * np.pi / 2 - first, _FULL_TURN) <= end - start
            pick = np.maximum if side % 2 else np.minimum
            extreme = radius if side % 2 else -radius
            bounds[side] = np.where(met, pick(bounds[side], extreme), bounds[side])
    return Box(*bounds)


def turned_corners(board: Box, angle: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the corners (u, v) of the boards turned by an angle, on a new first axis of 4."""
    points = [_turned(u, v, angle) for u, v in board.corners()]
    return np.stack([p[0] for p in points]), np.stack([p[1] for p in points])


def _turned(u: FloatArray, v: FloatArray, angle: FloatArray) -> tuple[FloatArray, FloatArray]:
    sine, cosine = np.sin(angle), np.cos(angle)
    return u * cosine - v * sine, u * sine + v * cosine


def _overlap(board: Box, angle: FloatArray, solid: Box) -> BoolArray:
    """Separating axes: two rectangles meet unless a side's direction of one parts them."""
    u, v = turned_corners(board, angle)
    meet = (u.max(0) >= solid.u0) & (u.min(0) <= solid.u1)
    meet &= (v.max(0) >= solid.v0) & (v.min(0) <= solid.v1)
    u, v = turned_corners(solid, -angle)
    meet &= (u.max(0) >= board.u0) & (u.min(0) <= board.u1)
    meet &= (v.max(0) >= board.v0) & (v.min(0) <= board.v1)
    return np.asarray(meet)


def _arc_distance(
    u: FloatArray, v: FloatArray, start: FloatArray, turn: FloatArray, box: Box
) -> FloatArray:
    """Least distance from the arc of a point turned by start ... start + turn to the box."""
    radius, first = np.hypot(u, v), np.arctan2(v, u) + start
    least = np.minimum(
        box.distance(*_turned(u, v, start)), box.distance(*_turned(u, v, start + turn))
    )
    for angle in _candidates(radius, box):
        inside = np.mod(angle - first, _FULL_TURN) <= turn
        point = box.distance(radius * np.cos(angle), radius * np.sin(angle))
        least = np.minimum(least, np.where(inside, point, np.inf))
    return least


def _arc_entry(u: FloatArray, v: FloatArray, start: FloatArray, way: float, box: Box) -> FloatArray:
    """Turn (counterclockwise for way 1, clockwise for -1) at which a point reaches the box."""
    radius, begin = np.hypot(u, v), np.arctan2(v, u) + start
    first = np.full(np.shape(radius + begin), np.inf)
    for angle in _crossings(radius, box):
        near = box.distance(radius * np.cos(angle), radius * np.sin(angle)) <= _SLACK_MM
        first = np.minimum(first, np.where(near, np.mod(way * (angle - begin), _FULL_TURN), np.inf))
    return first


def _candidates(radius: FloatArray, box: Box) -> Iterator[FloatArray]:
    for quarter in range(4):
        yield np.full(np.shape(radius), quarter * np.pi / 2)
    for u, v in box.corners():
        yield np.arctan2(v, u)
    yield from _crossings(radius, box)


def _crossings(radius: FloatArray, box: Box) -> Iterator[FloatArray]:
    """Polar angles where the circle cuts the lines of the box's sides; NaN where it does not."""
    size = np.where(radius > 0.0, radius, np.nan)
    for u in (box.u0, box.u1):
        ratio = u / size
        angle = np.arccos(np.where(np.abs(ratio) <= 1.0, ratio, np.nan))
        yield angle
        yield -angle
    for v in (box.v0, box.v1):
        ratio = v / size
        angle = np.arcsin(np.where(np.abs(ratio) <= 1.0, ratio, np.nan))
        yield angle
        yield np.pi - angle
