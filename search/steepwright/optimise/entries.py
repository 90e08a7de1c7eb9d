"""Rows of the branch and bound: one choice of everything that is not a length, on one box."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

_MOST_KEYS = int(np.iinfo(np.int64).max)


@dataclass(frozen=True, slots=True)
class Entries:
    """Columns of equal length.

    Attributes
    ----------
    place, mount, sheeting, section
        Indices into the space's places, the catalogue's mounts, the space's sheetings and the
        market's sections.
    delivered
        1 when delivery is paid for.
    row, column
        Grid indices of the box's least corner (board length, kicker).
    bound_cents
        A proven lower bound of the cost anywhere in the box [cents].
    fixing
        Number, in `Space.fixings`, of one that costs no more than any that holds in the box; the
        first of them until that is looked at.
    width, widest
        Numbers, in `Space.widths_mm`, of the least and the greatest width that it stands for.
    """

    place: IntArray
    mount: IntArray
    sheeting: IntArray
    section: IntArray
    delivered: IntArray
    row: IntArray
    column: IntArray
    bound_cents: IntArray
    fixing: IntArray
    width: IntArray
    widest: IntArray

    def __len__(self) -> int:
        """Return the number of rows."""
        return len(self.place)

    def take(self, index: IntArray | BoolArray) -> Entries:
        """Return the rows picked by an index or a mask."""
        where = np.flatnonzero(index) if index.dtype == np.bool_ else index
        return Entries(*(getattr(self, name)[where] for name in self.__slots__))

    def with_bound(self, bound_cents: IntArray) -> Entries:
        """Return the rows with new lower bounds."""
        return replace(self, bound_cents=bound_cents)

    def with_fixing(self, fixing: IntArray) -> Entries:
        """Return the rows with other fixings."""
        return replace(self, fixing=fixing)

    def between(self, width: IntArray, widest: IntArray) -> Entries:
        """Return the rows over other ranges of widths."""
        return replace(self, width=width, widest=widest)

    def on(self, place: IntArray) -> Entries:
        """Return the rows at other places."""
        return replace(self, place=place)

    def at(self, row: IntArray, column: IntArray) -> Entries:
        """Return the rows with other boxes, where nothing is known of the fixings yet."""
        return replace(self, row=row, column=column, fixing=np.zeros_like(self.fixing))


def joined(parts: list[Entries]) -> Entries:
    """Return several tables under one another."""
    return Entries(
        *(np.concatenate([getattr(p, field.name) for p in parts]) for field in fields(Entries))
    )


def children(entries: Entries, size: int, shape: tuple[int, int]) -> Entries:
    """Split every box of `size` cells a side into its quarters that lie on the grid."""
    half = size // 2
    parts = []
    for down, right in ((0, 0), (0, half), (half, 0), (half, half)):
        row, column = entries.row + down, entries.column + right
        inside = (row < shape[0]) & (column < shape[1])
        parts.append(entries.at(row, column).take(inside))
    return joined(parts)


def row_keys(columns: Sequence[IntArray]) -> IntArray:
    """Return a number per row, in the rows' order, equal where all columns are.

    The columns' numbers are 0 or more. On a grid of 1 mm there may be more rows than 64 bits tell
    apart; before that the keys so far give way to their ranks, no more of them than rows.
    """
    keys, count = columns[0], int(columns[0].max(initial=0)) + 1
    for column in columns[1:]:
        size = int(column.max(initial=0)) + 1
        if count * size > _MOST_KEYS:
            every, keys = np.unique(keys, return_inverse=True)
            count = len(every)
        keys, count = keys * size + column, count * size
    return keys


def steepest_first(grid: tuple[int, int], size: int) -> list[tuple[int, int]]:
    """Return the least corners of the boxes that cover a grid, longest boards first."""
    boxes = [(r, c) for r in range(0, grid[0], size) for c in range(0, grid[1], size)]
    return sorted(boxes, key=lambda box: (-(box[0] + box[1]), box))
