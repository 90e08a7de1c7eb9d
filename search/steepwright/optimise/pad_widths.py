"""What pads cost at every width asked for, where the room has them on the bill.

A wider wall has more to pad at its sides, and less where more stands in front of it: so its pads
may cost more or less. Between two widths at which a wall comes beside or before something new (a
stretch) only the share of its sides changes, and floors that are alike are laid together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.geometry import wall_y_range_mm
from steepwright.geometry.stand_parts import stand_solids
from steepwright.optimise.pad_floor import floor_of, kinds_at_hand, priced, whole_range_mm
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

MOST_CENTS = 2_000_000_000
"""Above the cost of all pads that a room can hold; less than the largest 32-bit number."""

NO_FLOOR = -1


class Walls(NamedTuple):
    """Walls that hang alike: where they stand in tables of the grid, and how."""

    at: tuple[IntArray | int, ...]
    walls: Standing


class Stretch(NamedTuple):
    """Walls' floors over some widths.

    Attributes
    ----------
    start
        Number of the first width.
    floor, fall_mm
        Number of each wall's floor, over the whole tables; `NO_FLOOR` where none fits. And its
        fall space [mm].
    cents
        What pads cost [cents], by floor and width.
    least
        The least of that by floor; the last one, `MOST_CENTS`, stands for no floor.
    """

    start: int
    floor: npt.NDArray[np.int32]
    fall_mm: npt.NDArray[np.int32]
    cents: IntArray
    least: IntArray


@dataclass(frozen=True, slots=True)
class PadsByWidth:
    """What the pads of walls cost at every width; at least, where they do not fit."""

    stretches: tuple[Stretch, ...]

    def cheaper(self) -> tuple[Stretch, ...]:
        """Return the stretches in which some wall's pads cost less than in all before."""
        found, least = [], np.full(self.stretches[0].floor.shape, MOST_CENTS, dtype=np.int64)
        for one in self.stretches:
            cents = one.least[one.floor]
            if (cents < least).any():
                found.append(one)
                np.minimum(least, cents, out=least)
        return tuple(found)

    def least_cents(self) -> IntArray:
        """Return the least cost [cents] over all widths that fit, `MOST_CENTS` where none does."""
        least = np.full(self.stretches[0].floor.shape, MOST_CENTS, dtype=np.int64)
        for one in self.stretches:
            np.minimum(least, one.least[one.floor], out=least)
        return least

    def fall_mm(self, at: tuple[IntArray, ...], first: IntArray) -> IntArray:
        """Return the fall space [mm] of walls of some widths, below 0 where none fits."""
        fall = np.full(len(first), NO_FLOOR, dtype=np.int64)
        for one in self.stretches:
            fall = np.where(first >= one.start, one.fall_mm[at], fall)
        return fall

    def between(self, at: tuple[IntArray, ...], first: IntArray, last: IntArray) -> IntArray:
        """Return the least cost [cents] of walls over ranges of widths, told by their numbers."""
        least = np.full(len(first), MOST_CENTS, dtype=np.int64)
        for one in self.stretches:
            low = np.maximum(first - one.start, 0)
            high = np.minimum(last - one.start, one.cents.shape[1] - 1)
            floor = one.floor[at]
            rows = np.flatnonzero((low <= high) & (floor != NO_FLOOR))
            keys = np.stack([floor[rows], low[rows], high[rows]])
            every, which = np.unique(keys, axis=1, return_inverse=True)
            some = [one.cents[n, a : b + 1].min() for n, a, b in every.T.tolist()]
            found = np.array(some, dtype=np.int64)[which.ravel()]
            least[rows] = np.minimum(least[rows], found)
        return least


def pads_by_width(
    space: Space,
    shape: tuple[int, ...],
    walls: Iterable[Walls],
    fit: Callable[[Standing, int], tuple[BoolArray, FloatArray]],
) -> PadsByWidth:
    """Lay pads for walls over all widths that the space looks at.

    Parameters
    ----------
    shape
        That of the tables that the walls stand in.
    fit
        Returns which walls of a width [mm] fit, a wider one never where a narrower one doesn't,
        and their fall space [mm].
    """
    found, left = [], list(walls)
    starts = turning_points(space)
    for start, end in pairwise([*starts, space.searched]):
        width_mm, kept = int(space.widths_mm[start]), []
        for at, some in left:
            fits, fall_mm = fit(some, width_mm)
            rows = np.flatnonzero(fits)
            if len(rows):
                here = tuple(np.broadcast_to(a, fits.shape)[rows] for a in at)
                kept.append((Walls(here, some.take(rows)), fall_mm[rows]))
        found.append(_stretch(space, shape, kept, (start, end)))
        left = [one for one, _ in kept]
    return PadsByWidth(tuple(found))


def _stretch(
    space: Space,
    shape: tuple[int, ...],
    kept: list[tuple[Walls, FloatArray]],
    widths: tuple[int, int],
) -> Stretch:
    start, end = widths
    width_mm, kinds = int(space.widths_mm[start]), kinds_at_hand(space)
    table = np.full(shape, NO_FLOOR, dtype=np.int32)
    fall = np.full(shape, NO_FLOOR, dtype=np.int32)
    if not kept:
        nothing = np.zeros((0, end - start), dtype=np.int64)
        return Stretch(start, table, fall, nothing, np.array([MOST_CENTS]))
    told = [floor_of(space, one.walls, fall_mm, width_mm) for (one, fall_mm) in kept]
    alike = [floor.alike(kinds) for floor in told]
    floors = np.concatenate([some for some, _ in alike], axis=1)
    floors, number = np.unique(floors, axis=1, return_inverse=True)
    first = 0
    for (one, fall_mm), (some, which) in zip(kept, alike, strict=True):
        table[one.at], fall[one.at] = number.ravel()[first + which], fall_mm
        first += some.shape[1]
    widths_mm = space.widths_mm[start:end].tolist()
    ranges = [whole_range_mm(space.market.room, mm) for mm in widths_mm]
    cents = priced(kinds, floors, told[0], ranges)
    return Stretch(start, table, fall, cents, np.append(cents.min(axis=1), MOST_CENTS))


def turning_points(space: Space) -> list[int]:
    """Return the least width's number and each at which a wall comes beside or before something.

    Pads are laid in whole millimetres, so where the wall's rounded ends do counts as well.
    """
    room = space.market.room
    stands = [solid for beam in room.beams for solid in stand_solids(room, beam)]
    sides = np.array([solid.y_mm for solid in (*room.solids, *stands)]).reshape(-1)
    found, before = [], None
    for number, width_mm in enumerate(space.widths_mm[: space.searched].tolist()):
        ends = np.array(wall_y_range_mm(room, width_mm))
        ends = np.append(ends, np.rint(ends))[:, None]
        now = np.stack([sides < ends, sides > ends]).tobytes()
        if now != before:
            found.append(number)
        before = now
    return found
