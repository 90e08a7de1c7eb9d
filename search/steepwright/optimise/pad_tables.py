"""What pads cost at least over boxes of lengths, where the room has them on the bill."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry import wall_y_range_mm
from steepwright.geometry.stand_parts import stand_solids
from steepwright.optimise.entries import Entries
from steepwright.optimise.fit import room_fit
from steepwright.optimise.pad_floor import least_pads_from_cents, pads_cents
from steepwright.optimise.reach import Reach, box_maxima
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, hanging, stand

IntArray = npt.NDArray[np.int64]

MOST_CENTS = 2_000_000_000
"""Above the cost of all pads that a room can hold; less than the largest 32-bit number."""


@dataclass(frozen=True, slots=True)
class PadTables:
    """Per box size, the least cost of pads [cents] by mounting over boxes; empty: not counted.

    At single cells it is the cost itself, or with several widths no more than that of any. Where
    no wall of a box fits the room it is 0.
    """

    cents: dict[int, IntArray]

    def least(self, mounting: IntArray, entries: Entries, size: int) -> IntArray | int:
        """Return the least cost [cents] over each entry's box."""
        if not self.cents:
            return 0
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
    angle, fall = reach.angle_mdeg[1], reach.fall_mm[1]
    cells = np.zeros(angle.shape, dtype=np.int64)
    for place, mount, number in np.ndindex(reach.index.shape):
        at = int(reach.index[place, mount, number])
        row, column = np.nonzero(angle[at] >= 0)
        if len(row):
            hangs = hanging(space, place, mount, reach.thicknesses_mm[number])
            walls = stand(place, hangs, space.boards_mm[row], space.kickers_mm[column])
            if space.searched > 1:
                cells[at, row, column] = _least_of_all_widths_cents(space, walls)
            else:
                fall_mm = fall[at, row, column]
                cells[at, row, column] = pads_cents(space, walls, fall_mm, space.width_mm)
    return PadTables({size: box_minima(cells, angle >= 0, size) for size in reach.angle_mdeg})


def _least_of_all_widths_cents(space: Space, walls: Standing) -> IntArray:
    """Return what the pads of each wall cost at least [cents], at whichever width it fits.

    More may stand in front of a wider wall, and then there is less to pad: the bound from a width
    on is taken anew at each width where a wall comes beside or before something.
    """
    least = np.full(walls.board.shape, MOST_CENTS, dtype=np.int64)
    for width_mm in _turning_points_mm(space, walls.place):
        fit = room_fit(space, walls, None, width_mm)
        rows = np.flatnonzero(fit.fits)
        cents = least_pads_from_cents(space, walls.take(rows), fit.fall_mm[rows], width_mm)
        least[rows] = np.minimum(least[rows], cents)
    return np.where(least < MOST_CENTS, least, 0)


def _turning_points_mm(space: Space, place: int) -> list[int]:
    """Return the least width, and each at which a wall comes beside or before something else."""
    room = space.market.room
    solids = (*room.solids, *stand_solids(room, room.beams[space.places[place][0]]))
    sides = np.array([solid.y_mm for solid in solids]).reshape(-1)
    found, before = [], None
    for width_mm in space.widths_mm[: space.searched].tolist():
        ends = np.array(wall_y_range_mm(room, width_mm))
        ends = np.append(ends, np.rint(ends))[:, None]  # pads are laid in whole millimetres
        now = np.stack([sides < ends, sides > ends]).tobytes()
        if now != before:
            found.append(width_mm)
        before = now
    return found


def box_minima(cents: IntArray, there: npt.NDArray[np.bool_], size: int) -> IntArray:
    """Return the least cost over boxes of `size` x `size` cells that are there, 0 for none."""
    turned = np.where(there, MOST_CENTS - cents, -1).astype(np.int32)
    most = box_maxima(turned, size).astype(np.int64)
    return np.where(most >= 0, MOST_CENTS - most, 0)
