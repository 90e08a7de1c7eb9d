"""What pads cost at least over boxes of lengths, where the room has them on the bill."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.fit import room_fit
from steepwright.optimise.pad_widths import MOST_CENTS, PadsByWidth, Stretch, Walls, pads_by_width
from steepwright.optimise.reach import Reach, box_maxima
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, hanging, stand

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class PadTables:
    """Per box size, the least cost of pads [cents] by mounting over boxes; empty: not counted.

    At single cells it is the cost itself, or with several widths the least one. Where no wall of
    a box fits the room it is 0. `by_width` is what pads of single cells cost at each width, where
    there are several, and `cheaper` are those that may cost less than narrower walls'.
    """

    cents: dict[int, IntArray]
    by_width: PadsByWidth | None = None
    cheaper: tuple[Stretch, ...] = ()

    def least(self, mounting: IntArray, entries: Entries, size: int) -> IntArray | int:
        """Return the least cost [cents] over each entry's box; of single cells, over its widths."""
        if not self.cents:
            return 0
        if size == 1 and self.by_width is not None:
            at = mounting, entries.row, entries.column
            return self.by_width.between(at, entries.width, entries.widest)
        return np.asarray(self.cents[size][mounting, entries.row // size, entries.column // size])

    def in_box(self, mounting: IntArray, corner: tuple[int, int], size: int) -> IntArray:
        """Return the least cost [cents] over one box, for some mountings."""
        if not self.cents:
            return np.zeros(mounting.shape, dtype=np.int64)
        return np.asarray(self.cents[size][mounting, corner[0] // size, corner[1] // size])


def build_pad_tables(space: Space, reach: Reach) -> PadTables:
    """Lay pads for every wall that fits the room, if their cost is part of the bill."""
    if not space.market.room.yard.pads_on_bill:
        return PadTables({})
    angle, walls = reach.angle_mdeg[1], []
    for place, mount, number in np.ndindex(reach.index.shape):
        at = int(reach.index[place, mount, number])
        row, column = np.nonzero(angle[at] >= 0)
        if len(row):
            hangs = hanging(space, place, mount, reach.thicknesses_mm[number])
            some = stand(place, hangs, space.boards_mm[row], space.kickers_mm[column])
            walls.append(Walls((at, row, column), some))

    def fit(some: Standing, width_mm: int) -> tuple[BoolArray, FloatArray]:
        how = room_fit(space, some, None, width_mm)
        return how.fits, how.fall_mm

    pads = pads_by_width(space, angle.shape, walls, fit)
    least = pads.least_cents()
    cents = {size: box_minima(least, angle >= 0, size) for size in reach.angle_mdeg}
    return PadTables(cents, pads, pads.cheaper()) if space.searched > 1 else PadTables(cents)


def box_minima(cents: IntArray, there: npt.NDArray[np.bool_], size: int) -> IntArray:
    """Return the least cost over boxes of `size` x `size` cells that are there, 0 for none."""
    turned = np.where(there, MOST_CENTS - cents, -1).astype(np.int32)
    most = box_maxima(turned, size).astype(np.int64)
    return np.where(most >= 0, MOST_CENTS - most, 0)
