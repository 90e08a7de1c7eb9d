"""Where the lowest and the highest rows of holds of walls are: what their limits go by."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import product

import numpy as np
import numpy.typing as npt

from steepwright.geometry import HoldEnds, HoldGrid, hold_ends, widest_hold_ends
from steepwright.geometry.layout import Split
from steepwright.optimise.space import Space
from steepwright.pricing.wall import Wall, rows_of
from steepwright.room.types import Room

IntArray = npt.NDArray[np.int64]


def asks_for_rows(room: Room) -> bool:
    """Tell whether the builder limits what the rows of holds decide."""
    return bool(room.wall.min_moves) or room.wall.max_start_mm is not None


def any_ends(space: Space, board_mm: npt.ArrayLike) -> HoldEnds:
    """Return ends that no wall's rows exceed, whatever it is made of."""
    thinnest = min(section.width_mm for section in space.market.sections)
    return widest_hold_ends(board_mm, thinnest, hold_grid(space))


def best_ends(space: Space, board_mm: IntArray) -> HoldEnds:
    """Return the lowest row, and the most from there to the highest, of all ways to make boards."""
    splits = {replace(s.split, columns=1, full_column_mm=0) for s in space.sheetings}
    studs = {section.width_mm for section in space.market.sections}
    every = list(product(sorted(splits), sorted(studs)))
    boards, at = np.unique(board_mm, return_inverse=True)
    found = []
    for board in boards.tolist():
        ends = np.array([_ends(space, split, stud, board) for split, stud in every])
        lowest = ends[:, 0].min()
        found.append((lowest, lowest + (ends[:, 1] - ends[:, 0]).max()))
    lowest_mm, highest_mm = np.array(found)[at.reshape(board_mm.shape)].T
    return HoldEnds(lowest_mm.T, highest_mm.T)


def ends_of_walls(space: Space, made: Iterable[tuple[Split, int, int]]) -> HoldEnds:
    """Return the ends of walls' rows by their split, studs' width [mm] and board [mm].

    At the lip where a board can't be divided like that.
    """
    ends = [_ends(space, *one) for one in made]
    return HoldEnds(*np.array(ends, dtype=np.float64).reshape(-1, 2).T)


def ends_of(space: Space, wall: Wall) -> HoldEnds:
    """Return the ends of one wall's rows, as they are drawn."""
    return _ends(space, wall.split, wall.section.width_mm, wall.board_mm)


def _ends(space: Space, split: Split, stud_mm: int, board_mm: int) -> HoldEnds:
    rows = rows_of(split, board_mm, space.market.limits)
    if rows is None:
        return HoldEnds(float(board_mm), float(board_mm))
    return hold_ends(rows, float(stud_mm), hold_grid(space))


def hold_grid(space: Space) -> HoldGrid:
    """Return what the holds of a space's walls keep to."""
    factors = space.market.catalog.materials.factors
    spacing_mm = float(space.market.room.wall.hold_spacing_mm)
    return HoldGrid(spacing_mm, factors["hold_clear_mm"], factors["hold_edge_margin_mm"])
