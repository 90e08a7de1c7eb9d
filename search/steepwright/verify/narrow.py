"""The narrow places on the way in, and which pieces pass them: by formulas of the checker's own.

A piece is a cuboid; it is turned about one of its own edges at a time. A place is passed when one
of the three ways to do that lets it through. What passes one of the windows needs to pass nothing
else.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]
Sides = tuple[FloatArray, FloatArray, FloatArray]

WAYS = ((0, 1, 2), (1, 0, 2), (2, 0, 1))
"""Each side of a piece once, with the other two."""

GOLDEN = (math.sqrt(5) - 1) / 2
NARROWINGS = 60
"""So many times the angle is shut in, by the golden section: to 1e-12."""


def gets_in(access: Document, sides: Sides) -> BoolArray:
    """Tell which pieces get in; a known greatest piece is held against the first two sides."""
    passed = np.ones(sides[0].shape, dtype=np.bool_)
    if access["max_piece_mm"] is not None:
        least, most = sorted(access["max_piece_mm"])
        passed &= (np.maximum(*sides[:2]) <= most) & (np.minimum(*sides[:2]) <= least)
    for table, passes in PLACES.items():
        for place in access.get(table, []):
            passed &= np.logical_or.reduce([passes(place, sides, way) for way in WAYS])
    for window in access.get("windows", []):
        passed |= np.logical_or.reduce([_window(window, sides, way) for way in WAYS])
    return passed


Way = tuple[int, int, int]


def _door(door: Document, sides: Sides, way: Way) -> BoolArray:
    leaned = leaned_mm(sides[way[1]], sides[way[2]], door["height_mm"])
    return np.asarray(leaned <= door["width_mm"])


def _window(window: Document, sides: Sides, way: Way) -> BoolArray:
    deep = sides[way[0]] <= window["inside_mm"]
    return np.asarray(deep & _door(window, sides, way))


def _corner(corner: Document, sides: Sides, way: Way) -> BoolArray:
    upright = leaned_mm(sides[way[1]], sides[way[2]], corner["height_mm"])
    return _round(corner["width_a_mm"], corner["width_b_mm"], sides[way[0]], upright)


def _stair(stair: Document, sides: Sides, way: Way) -> BoolArray:
    """Seen from the side, the way bends by the slope where the flight begins and where it ends."""
    slope = math.atan2(stair["rise_mm"], stair["going_mm"])
    flight = stair["headroom_mm"] * math.cos(slope)
    along, deep = sides[way[0]], leaned_mm(sides[way[1]], sides[way[2]], stair["width_mm"])
    foot = _round(stair["height_below_mm"], flight, along, deep, slope)
    return foot & _round(flight, stair["height_above_mm"], along, deep, slope)


def _landing(landing: Document, sides: Sides, way: Way) -> BoolArray:
    """Held level while it turns, a piece reaches out over the flights and loses height there.

    By sqrt(2) (L + w) - a - b over both at most, hypot(L, w) - min(a, b) over one; a step each
    and the slope times that.
    """
    a, b = landing["width_a_mm"], landing["width_b_mm"]
    high, long, wide = (sides[n] for n in way)
    slope = landing["rise_mm"] / landing["going_mm"]
    lost = np.zeros_like(high)
    for out, steps in (
        (math.sqrt(2) * (long + wide) - a - b, 2),
        (np.hypot(long, wide) - min(a, b), 1),
    ):
        climbs = np.where(out > 0, steps * landing["rise_mm"] + slope * out, 0.0)
        lost = np.maximum(lost, climbs)
    return np.asarray((high + lost <= landing["height_mm"]) & _round(a, b, long, wide))


def _lift(lift: Document, sides: Sides, way: Way) -> BoolArray:
    """Straight through the door, with any side of the piece along any of the cage's."""
    room = (
        min(lift["width_mm"], lift["door_width_mm"]),
        min(lift["height_mm"], lift["door_height_mm"]),
        lift["depth_mm"],
    )
    passed = np.zeros(sides[0].shape, dtype=np.bool_)
    for along, up, across in WAYS:
        leaned = leaned_mm(sides[way[1]], sides[way[2]], room[up])
        passed |= (sides[way[0]] <= room[along]) & (leaned <= room[across])
    return passed


PLACES: dict[str, Callable[[Document, Sides, Way], BoolArray]] = {
    "doors": _door,
    "corridors": _corner,
    "stairs": _stair,
    "landings": _landing,
    "lifts": _lift,
}


def leaned_mm(one_mm: FloatArray, other_mm: FloatArray, height_mm: float) -> FloatArray:
    """Return the least width a rectangle takes below a height [mm]; infinite where it never fits.

    Upright, leaned until it just fits, or lying: in between the width is concave in the angle.
    """
    long, short = np.maximum(one_mm, other_mm), np.minimum(one_mm, other_mm)
    across = np.maximum(np.hypot(long, short), 1e-9)
    lean = np.arctan2(short, long) + np.arccos(np.minimum(height_mm / across, 1.0))
    leaned = np.minimum(long * np.sin(lean) + short * np.cos(lean), long)
    fits = np.where(long <= height_mm, short, leaned)
    return np.asarray(np.where(short <= height_mm, fits, np.inf))


def _round(
    a_mm: float, b_mm: float, one_mm: FloatArray, other_mm: FloatArray, turn: float = math.pi / 2
) -> BoolArray:
    """Tell which rectangles get round a corner where the way turns, from one width to another."""
    width, index = np.unique(np.minimum(one_mm, other_mm), return_inverse=True)
    return np.asarray(
        np.maximum(one_mm, other_mm) <= longest_mm(a_mm, b_mm, width, turn)[index.reshape(-1)]
    )


def longest_mm(a_mm: float, b_mm: float, width_mm: FloatArray, turn: float) -> FloatArray:
    """Return the longest rectangle of each width that gets round a corner [mm].

    It turns while it touches both outer walls and the inner corner: at an angle t to the first
    wall it may be (a - w cos t) / sin t + (b - w cos s) / sin s long, s being the rest of the
    turn. That is convex in t, so the golden section finds the least. Or it slides through one
    part sideways.
    """
    sine, cosine = math.sin(turn), max(math.cos(turn), 0.0)
    if turn == math.pi / 2:
        sine, cosine = 1.0, 0.0
    through_b = np.where(width_mm <= a_mm, (b_mm - width_mm * cosine) / sine, 0.0)
    through_a = np.where(width_mm <= b_mm, (a_mm - width_mm * cosine) / sine, 0.0)
    slides = np.maximum(np.maximum(through_a, through_b), 0.0)
    turns = width_mm < min(a_mm, b_mm)
    w = np.where(turns, width_mm, 0.0)

    def length(t: FloatArray) -> FloatArray:
        rest = turn - t
        first = (a_mm - w * np.cos(t)) / np.sin(t)
        return np.asarray(first + (b_mm - w * np.cos(rest)) / np.sin(rest))

    low, high = np.zeros_like(w), np.full_like(w, turn)
    for _ in range(NARROWINGS):
        left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        shorter = length(left) < length(right)
        low, high = np.where(shorter, low, left), np.where(shorter, right, high)
    least = length((low + high) / 2)
    return np.where(turns, np.maximum(least, slides), slides)
