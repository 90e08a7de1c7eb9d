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
Point = tuple[FloatArray, FloatArray]

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

    def points(self) -> Point:
        """Return the four corners (u, v), on a new first axis."""
        corners = list(self.corners())
        return np.stack([u for u, _ in corners]), np.stack([v for _, v in corners])

    def radius(self) -> FloatArray:
        """Return how far the farthest corner is from the origin."""
        return np.asarray(np.max([np.hypot(u, v) for u, v in self.corners()], axis=0))

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

    def square(self, u: FloatArray, v: FloatArray) -> FloatArray:
        """Return the square of the distance of points to the boxes, 0 inside."""
        du = np.maximum(np.maximum(self.u0 - u, u - self.u1), 0.0)
        dv = np.maximum(np.maximum(self.v0 - v, v - self.v1), 0.0)
        return np.asarray(du * du + dv * dv, dtype=np.float64)

    def gap(self, other: Box) -> FloatArray:
        """Return the distance between two boxes, 0 where they meet."""
        du = np.maximum(np.maximum(self.u0 - other.u1, other.u0 - self.u1), 0.0)
        dv = np.maximum(np.maximum(self.v0 - other.v1, other.v0 - self.v1), 0.0)
        return np.asarray(np.hypot(du, dv), dtype=np.float64)

    def _sides(self) -> tuple[tuple[FloatArray, FloatArray], ...]:
        return (self.u0, self.u1), (self.v0, self.v1)


def swept_distance_mm(board: Box, start: FloatArray, end: FloatArray, solid: Box) -> FloatArray:
    """Return the least distance between the turning boards and still solids; 0 if they meet.

    The angles [rad] turn by at most 90 degrees.
    """
    ways = _Turn.of(start, end), _Turn.of(-end, -start)
    square = np.where(_overlap(board, start, solid), 0.0, np.inf)
    for (corners, box), way in zip(((board, solid), (solid, board)), ways, strict=True):
        u, v = corners.points()
        arcs = _arc_square(way.begin(u, v), way.finish(u, v), box)
        square = np.minimum(square, arcs.min(axis=0))
    return np.asarray(np.sqrt(square), dtype=np.float64)


def still_distance_mm(board: Box, angle: FloatArray, solid: Box) -> FloatArray:
    """Return the distance between boards turned by an angle [rad] and solids; 0 if they meet.

    Of two rectangles that don't meet a corner of one or the other is nearest.
    """
    square = np.where(_overlap(board, angle, solid), 0.0, np.inf)
    for corners, box, turn in ((board, solid, angle), (solid, board, -angle)):
        square = np.minimum(square, box.square(*turned_corners(corners, turn)).min(axis=0))
    return np.asarray(np.sqrt(square), dtype=np.float64)


def first_touch_rad(board: Box, start: FloatArray, end: FloatArray, solid: Box) -> FloatArray:
    """Return the turn [rad] after which the boards first meet the solids; inf if they don't.

    The angles [rad] turn by at most 90 degrees.
    """
    first = np.where(_overlap(board, start, solid), 0.0, np.inf)
    there, back = _Turn.of(start, end), _Turn.of(-end, -start)
    u, v = board.points()
    _note_entries(first, there.begin(u, v), there.finish(u, v), solid, backwards=False)
    u, v = solid.points()
    _note_entries(first, back.begin(u, v), back.finish(u, v), board, backwards=True)
    return first


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
    return _turned(*board.points(), angle)


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


@dataclass(frozen=True, slots=True)
class _Turn:
    """Sines and cosines of the two ends of a turn."""

    first: tuple[FloatArray, FloatArray]
    last: tuple[FloatArray, FloatArray]

    @classmethod
    def of(cls, start: FloatArray, end: FloatArray) -> _Turn:
        return cls((np.sin(start), np.cos(start)), (np.sin(end), np.cos(end)))

    def begin(self, u: FloatArray, v: FloatArray) -> Point:
        sine, cosine = self.first
        return u * cosine - v * sine, u * sine + v * cosine

    def finish(self, u: FloatArray, v: FloatArray) -> Point:
        sine, cosine = self.last
        return u * cosine - v * sine, u * sine + v * cosine


def _arc_square(begin: Point, finish: Point, box: Box) -> FloatArray:
    """Squares of the least distances from the arcs between two points to their boxes."""
    radius = np.hypot(*begin)
    least = np.minimum(box.square(*begin), box.square(*finish))
    for point in _candidates(radius, box):
        inside = _on_arc(point, begin, finish)
        least = np.minimum(least, np.where(inside, box.square(*point), np.inf))
    return least


def _note_entries(
    first: FloatArray, begin: Point, finish: Point, box: Box, *, backwards: bool
) -> None:
    """Lower `first` to the turn at which one of the points on their arcs reaches its box.

    `backwards` counts the turn from the arc's end, for a solid's corner seen from the board.
    """
    radius = np.hypot(*begin)
    for point in _crossings(radius, box):
        u, v = np.broadcast_arrays(*point, radius)[:2]
        index = np.nonzero((box.square(u, v) <= _SLACK_MM**2) & _on_arc((u, v), begin, finish))
        one, two = ((u, v), finish) if backwards else (begin, (u, v))
        one, two = (one[0][index], one[1][index]), (two[0][index], two[1][index])
        turn = np.arctan2(one[0] * two[1] - one[1] * two[0], one[0] * two[0] + one[1] * two[1])
        np.minimum.at(first, index[-1], turn)


def _on_arc(point: Point, begin: Point, finish: Point) -> BoolArray:
    """Whether a point of the circle lies on the arc, which spans at most 90 degrees."""
    u, v = point
    after = begin[0] * v - begin[1] * u >= 0.0
    before = u * finish[1] - v * finish[0] >= 0.0
    return np.asarray(after & before & (begin[0] * u + begin[1] * v >= 0.0))


def _candidates(radius: FloatArray, box: Box) -> Iterator[Point]:
    zero = np.zeros_like(radius)
    yield from ((radius, zero), (zero, radius), (-radius, zero), (zero, -radius))
    for u, v in box.corners():
        size = np.hypot(u, v)
        scale = np.divide(radius, size, out=np.full_like(radius, np.nan), where=size > 0.0)
        yield u * scale, v * scale
    yield from _crossings(radius, box)


def _crossings(radius: FloatArray, box: Box) -> Iterator[Point]:
    """Points where the circle cuts the lines of the box's sides; NaN where it does not."""
    for u in (box.u0, box.u1):
        v = _other_leg(radius, u)
        yield u, v
        yield u, -v
    for v in (box.v0, box.v1):
        u = _other_leg(radius, v)
        yield u, v
        yield -u, v


def _other_leg(radius: FloatArray, leg: FloatArray) -> FloatArray:
    square = (radius - leg) * (radius + leg)
    return np.sqrt(square, out=np.full_like(radius, np.nan), where=square >= 0.0)
