"""Which walls fit the room as they are framed: how deep they are, and where their holds can go."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.geometry.layout import Split
from steepwright.optimise.entries import Entries
from steepwright.optimise.fit import room_fit
from steepwright.optimise.hold_ends import asks_for_rows, ends_of_walls
from steepwright.optimise.model import Model
from steepwright.optimise.standing import hanging, stand

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


def fits_with_depth(model: Model, entries: Entries, width_mm: int = 0) -> BoolArray:
    """Return which walls fit the room with the frame's depth behind the face.

    They are so wide, or with 0 as wide as they must be.
    """
    fits = np.zeros(len(entries), dtype=np.bool_)
    for place in np.unique(entries.place).tolist():
        there = entries.place == place
        fits[there] = _fits_at(model, place, entries.take(there), width_mm)
    return fits


def _fits_at(model: Model, place: int, entries: Entries, width_mm: int) -> BoolArray:
    space = model.space
    market = space.market
    families = model.sheetings.family[entries.sheeting]
    sheet = np.array([f.thickness_mm for f in market.families])[families]
    depth = sheet + np.array([s.depth_mm for s in market.sections])[entries.section]
    columns = (entries.mount, sheet, depth, entries.row, entries.column)
    made = [table * asks_for_rows(market.room) for table in _rows_made(model, entries)]
    sizes = tuple(int(column.max()) + 1 for column in (*columns, *made))
    keys, inverse = np.unique(np.ravel_multi_index((*columns, *made), sizes), return_inverse=True)
    mount, sheet, depth, row, column, *made = np.unravel_index(keys, sizes)
    walls = stand(
        place, hanging(space, place, mount, sheet), space.boards_mm[row], space.kickers_mm[column]
    )
    ends = None
    if asks_for_rows(market.room):
        boards = space.boards_mm[row]
        rows = (table.tolist() for table in (*made, boards))
        kinds = (
            (Split(1, 0, n, full), stud, board) for n, full, stud, board in zip(*rows, strict=True)
        )
        ends = ends_of_walls(space, kinds)
    return np.asarray(room_fit(space, walls, depth, width_mm, ends).fits[inverse])


def _rows_made(model: Model, entries: Entries) -> tuple[IntArray, IntArray, IntArray]:
    """Return what the entries' rows of holds go by beside the board: rows, full row, stud [mm]."""
    s, made = model.sheetings, entries.sheeting
    return s.rows[made], s.full_row_mm[made], model.section_mm[entries.section]
