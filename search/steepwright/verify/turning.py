"""Whether a rectangle that turns about the origin meets an upright box: corners on their arcs.

Two convex shapes that don't overlap at first and do later come together at a corner of one of
them: a corner of the rectangle runs into the box along an arc about the origin, or, seen from the
rectangle, one of the box's corners runs into it along an arc the other way round.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Length = FloatArray | float

TURN = 2 * np.pi


class Box(NamedTuple):
    """Rectangles with sides along the axes: from u to u_to, from v to v_to [mm]; they broadcast."""

    u: Length
    u_to: Length
    v: Length
    v_to: Length

    def corners(self) -> list[tuple[FloatArray, FloatArray]]:
        """Return the four corners."""
        return [
            (np.asarray(u, dtype=np.float64), np.asarray(v, dtype=np.float64))
            for u in (self.u, self.u_to)
            for v in (self.v, self.v_to)
        ]

    def holds(self, u: FloatArray, v: FloatArray) -> BoolArray:
        """Tell which points lie inside, not on a side."""
        return np.asarray((u > self.u) & (u < self.u_to) & (v > self.v) & (v < self.v_to))


def meet(turned: Box, start_rad: FloatArray, end_rad: FloatArray, still: Box) -> BoolArray:
    """Tell which rectangles share more than a side with a box, somewhere from start to end.

    Angles count counterclockwise, u being to the right and v up; `end_rad` is not below the start.
    """
    found = overlap(turned, start_rad, still)
    for u, v in turned.corners():
        at = np.arctan2(v, u)
        found = found | _arc_enters(np.hypot(u, v), at + start_rad, at + end_rad, still)
    for u, v in still.corners():
        at = np.arctan2(v, u)
        found = found | _arc_enters(np.hypot(u, v), at - end_rad, at - start_rad, turned)
    return found


def comes_near(
    turned: Box, start_rad: FloatArray, end_rad: FloatArray, still: Box, by_mm: Length
) -> BoolArray:
    """Tell which rectangles come nearer to a box than a distance [mm], somewhere from start to end.

    Where they do one of the two, so much wider or higher, meets the other, or two corners are near.
    """
    found = np.zeros(np.shape(start_rad), dtype=np.bool_)
    for wide, high in ((by_mm, 0.0), (0.0, by_mm)):
        found |= meet(turned, start_rad, end_rad, _grown(still, wide, high))
        found |= meet(_grown(turned, wide, high), start_rad, end_rad, still)
    for x, y in still.corners():
        for u, v in turned.corners():
            radius, at, there = np.hypot(u, v), np.arctan2(v, u), np.arctan2(y, x)
            far = [np.hypot(x - radius * np.cos(at + t), y - radius * np.sin(at + t))
                   for t in (start_rad, end_rad)]  # fmt: skip
            past = _passes(at + start_rad, at + end_rad, there)
            least = np.where(past, np.abs(np.hypot(x, y) - radius), np.minimum(*far))
            found |= least < by_mm
    return found


def _grown(box: Box, wide: Length, high: Length) -> Box:
    return Box(box.u - wide, box.u_to + wide, box.v - high, box.v_to + high)


def overlap(turned: Box, angle_rad: FloatArray, still: Box) -> BoolArray:
    """Tell which rectangles at an angle overlap a box: no side of either parts them."""
    sine, cosine = np.sin(angle_rad), np.cos(angle_rad)
    there = [(u * cosine - v * sine, u * sine + v * cosine) for u, v in turned.corners()]
    here = [(u * cosine + v * sine, v * cosine - u * sine) for u, v in still.corners()]
    return _reach_into(there, still) & _reach_into(here, turned)


def reach(turned: Box, start_rad: FloatArray, end_rad: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the least and the greatest u that rectangles reach from start to end."""
    low, high = [], []
    for u, v in turned.corners():
        radius, at = np.hypot(u, v), np.arctan2(v, u)
        ends = [radius * np.cos(at + start_rad), radius * np.cos(at + end_rad)]
        right = _passes(at + start_rad, at + end_rad, np.zeros_like(radius))
        left = _passes(at + start_rad, at + end_rad, np.full_like(radius, np.pi))
        low.append(np.where(left, -radius, np.minimum(*ends)))
        high.append(np.where(right, radius, np.maximum(*ends)))
    return np.min(low, axis=0), np.max(high, axis=0)


def _reach_into(points: list[tuple[FloatArray, FloatArray]], box: Box) -> BoolArray:
    """Tell where the span of some points overlaps a box along both of its axes."""
    us, vs = np.stack([u for u, _ in points]), np.stack([v for _, v in points])
    beside = (us.max(axis=0) <= box.u) | (us.min(axis=0) >= box.u_to)
    above = (vs.max(axis=0) <= box.v) | (vs.min(axis=0) >= box.v_to)
    return np.asarray(~beside & ~above)


def _passes(start: FloatArray, end: FloatArray, angle: FloatArray) -> BoolArray:
    """Tell where an arc from start to end passes an angle."""
    return np.asarray((angle - start) % TURN <= end - start)


def _arc_enters(radius: FloatArray, start: FloatArray, end: FloatArray, box: Box) -> BoolArray:
    """Tell which arcs about the origin get inside a box: they begin in it, or cross a side."""
    found = box.holds(radius * np.cos(start), radius * np.sin(start))
    safe = np.maximum(radius, 1e-12)
    for side, low, high in ((box.u, box.v, box.v_to), (box.u_to, box.v, box.v_to)):
        share = np.asarray(side) / safe
        half = np.arccos(np.clip(share, -1.0, 1.0))
        for angle in (half, -half):
            v = radius * np.sin(angle)
            crosses = (np.abs(share) < 1) & (v > low) & (v < high)
            found = found | (crosses & _passes(start, end, angle))
    for side, low, high in ((box.v, box.u, box.u_to), (box.v_to, box.u, box.u_to)):
        share = np.asarray(side) / safe
        up = np.arcsin(np.clip(share, -1.0, 1.0))
        for angle in (up, np.pi - up):
            u = radius * np.cos(angle)
            crosses = (np.abs(share) < 1) & (u > low) & (u < high)
            found = found | (crosses & _passes(start, end, angle))
    return np.asarray(found)
