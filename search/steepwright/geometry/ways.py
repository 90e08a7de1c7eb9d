"""The narrow places on the way into a room, each with the pieces that pass it.

A piece is a cuboid. It may be turned about one of its own edges (leaned in a doorway, tilted
along a stair, raised at one end under a corner's ceiling) and is then judged by the upright
cuboid round it. A piece that passes here passes; one that does not may still be coaxed through
by turning it two ways at once. A smaller piece always passes where a larger one does.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.geometry.corner import corner_length_mm
from steepwright.geometry.lean import leaned_mm
from steepwright.room.types import Corridor, Door, Landing, Lift, Stair, Window

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Sides = tuple[FloatArray, FloatArray, FloatArray]

_AXES = ((0, 1, 2), (1, 0, 2), (2, 0, 1))
"""One side, and the two others that a turn about it moves."""

FEW = 8
"""So many widths are looked up one by one."""

ROUNDING_MM = 1e-3
"""Far more than the error of a length round a corner."""


def passes_door(door: Door, sides: Sides) -> BoolArray:
    """Tell which pieces pass a doorway: two sides fit the opening, leaned or not."""
    return _any(
        leaned_mm(sides[one], sides[two], door.height_mm) <= door.width_mm for _, one, two in _AXES
    )


def passes_window(window: Window, sides: Sides) -> BoolArray:
    """Tell which pieces go straight in through a window, with room behind it to take them."""
    return _any(
        (leaned_mm(sides[one], sides[two], window.height_mm) <= window.width_mm)
        & (sides[through] <= window.inside_mm)
        for through, one, two in _AXES
    )


def passes_corner(corner: Corridor, sides: Sides) -> BoolArray:
    """Tell which pieces get round a level right-angled corner below its ceiling."""
    return _any(
        _goes_round(
            corner.width_a_mm,
            corner.width_b_mm,
            (sides[level], leaned_mm(sides[one], sides[two], corner.height_mm)),
        )
        for level, one, two in _AXES
    )


def passes_stair(stair: Stair, sides: Sides) -> BoolArray:
    """Tell which pieces go up a straight flight, tilted with it, and in and out at its ends.

    Seen from the side, the way bends by the stair's slope where the flight begins (round the
    edge of the ceiling) and where it ends (over the top step): two corners between a level
    corridor and one of height headroom x cos(slope).
    """
    slope = math.atan2(stair.rise_mm, stair.going_mm)
    flight = stair.headroom_mm * math.cos(slope)

    def fits(along: int, one: int, two: int) -> BoolArray:
        seen = sides[along], leaned_mm(sides[one], sides[two], stair.width_mm)
        foot = _goes_round(stair.height_below_mm, flight, seen, slope)
        head = _goes_round(flight, stair.height_above_mm, seen, slope)
        return np.asarray(foot & head)

    return _any(fits(*axes) for axes in _AXES)


def passes_landing(landing: Landing, sides: Sides) -> BoolArray:
    """Tell which pieces can be turned, held level, on a square landing between two flights.

    While it turns, a piece of plan L x w reaches beyond the landing over the flights, by e and f.
    Held clear of the rising flight's steps and of the falling flight's ceiling it has
    one step and (e + f) tan(slope) less height than the landing, two steps where it is over both.
    With t its direction, e + f <= (L + w)(sin t + cos t) - a - b <= sqrt(2) (L + w) - a - b where
    it reaches over both, and hypot(L, w) - min(a, b) where over one.
    """
    a, b = landing.width_a_mm, landing.width_b_mm
    fits = []
    for upright, one, two in _AXES:
        both = math.sqrt(2) * (sides[one] + sides[two]) - a - b
        single = np.hypot(sides[one], sides[two]) - min(a, b)
        lost = np.maximum(_climbed(landing, both, 2), _climbed(landing, single, 1))
        fits.append(
            (sides[upright] + lost <= landing.height_mm)
            & _goes_round(a, b, (sides[one], sides[two]))
        )
    return _any(fits)


def _climbed(landing: Landing, reach_mm: FloatArray, steps: int) -> FloatArray:
    """Return the height lost to steps under a piece that reaches so far over the flights [mm]."""
    rises = steps * landing.rise_mm + reach_mm * (landing.rise_mm / landing.going_mm)
    return np.where(reach_mm > 0, rises, 0.0)


def passes_lift(lift: Lift, sides: Sides) -> BoolArray:
    """Tell which pieces slide straight through a lift's door into the cage and stand there."""
    width, height = min(lift.width_mm, lift.door_width_mm), min(lift.height_mm, lift.door_height_mm)
    box = (width, height, lift.depth_mm)
    return _any(
        (sides[axis] <= box[along]) & (leaned_mm(sides[one], sides[two], box[up]) <= box[across])
        for axis, one, two in _AXES
        for along, up, across in _AXES
    )


def _goes_round(
    a_mm: float, b_mm: float, plan: tuple[FloatArray, FloatArray], turn_rad: float = math.pi / 2
) -> BoolArray:
    length, width = np.maximum(*plan), np.minimum(*plan)
    # However narrow, no piece gets round that is longer than a rod which does.
    possible = length <= _longest_mm(a_mm, b_mm, 0.0, turn_rad) + ROUNDING_MM
    # Pieces of many lengths have few widths.
    widths, each = np.unique(np.where(possible, width, 0.0), return_inverse=True)
    if len(widths) > FEW:
        longest = corner_length_mm(a_mm, b_mm, widths, turn_rad)
    else:
        longest = np.array([_longest_mm(a_mm, b_mm, w, turn_rad) for w in widths.tolist()])
    return np.asarray(possible & (length <= longest[each]))


@lru_cache(maxsize=16_384)
def _longest_mm(a_mm: float, b_mm: float, width_mm: float, turn_rad: float) -> float:
    """Return the length for one width: thicknesses and columns' widths are asked for often."""
    return float(corner_length_mm(a_mm, b_mm, width_mm, turn_rad))


def _any(masks: Iterable[BoolArray]) -> BoolArray:
    """Tell what passes one way or another; ways that nothing is left for aren't looked at."""
    found: BoolArray | None = None
    for mask in masks:
        found = np.asarray(mask if found is None else found | mask)
        if found.all():
            break
    assert found is not None
    return found
