"""Open choices on boxes: how they lie in boxes, how boxes are divided, in which order all stand.

A box is a square of the grid of lengths with a range of widths; the number of the range's first
width is a multiple of its size. A choice lies in the part of it that it can be made at.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]

LARGEST = 64
"""Cells along a side of the largest boxes."""

BITS = 20
"""More grid points or widths than this many bits can tell apart are not on any grid."""


class Size(NamedTuple):
    """How large boxes are: cells along a side, and widths."""

    cells: int
    widths: int

    def __str__(self) -> str:
        """Return it in words."""
        return f"{self.cells} with {self.widths} width{'s' * (self.widths > 1)}"


@dataclass(frozen=True, slots=True)
class Choices:
    """Open choices, arrays of one length: indices and the least corner of each one's box.

    `width` is the number of the least width in it that the choice can be made at.
    """

    beam: IntArray
    mount: IntArray
    sheeting: IntArray
    section: IntArray
    delivered: IntArray
    row: IntArray
    column: IntArray
    width: IntArray

    def __len__(self) -> int:
        """Return the number of choices."""
        return len(self.beam)

    def take(self, index: Any) -> Choices:
        """Return some of the choices."""
        return Choices(*(getattr(self, name)[index] for name in Choices.__slots__))

    def at(self, row: IntArray, column: IntArray, width: IntArray) -> Choices:
        """Return the choices on other boxes."""
        made = self.beam, self.mount, self.sheeting, self.section, self.delivered
        return Choices(*made, row, column, width)

    def first_width(self, size: Size) -> IntArray:
        """Return the number of the first width of each one's box."""
        return np.asarray(self.width // size.widths * size.widths)

    def boxes(self, size: Size) -> IntArray:
        """Return a number for each one's box, ascending by row, column and width."""
        places = (self.row << BITS) + self.column
        return np.asarray((places << BITS) + self.first_width(size))


def place_of(box: int) -> tuple[int, int, int]:
    """Return row, column and width's number of a box."""
    last = (1 << BITS) - 1
    return box >> 2 * BITS, box >> BITS & last, box & last


def number_of(row: int, column: int, width: int) -> int:
    """Return the number of a box."""
    return (((row << BITS) + column) << BITS) + width


def largest_of(widths: int) -> Size:
    """Return the size of the largest boxes: their range holds so many widths, a power of two."""
    held = 1
    while held < widths:
        held *= 2
    return Size(LARGEST, held)


def next_of(size: Size) -> Size | None:
    """Return the size of the parts of a box; None when it can't be divided any more."""
    if size.cells > 1:
        return Size(size.cells // 2, size.widths)
    return Size(1, size.widths // 2) if size.widths > 1 else None


def parts_of(c: Choices, size: Size, ends: tuple[int, int, int]) -> Choices:
    """Return choices on the parts of their boxes, in order; `ends` are the grid's numbers."""
    parts = []
    if size.cells > 1:
        half = size.cells // 2
        for down, right in ((0, 0), (0, half), (half, 0), (half, half)):
            row, column = c.row + down, c.column + right
            inside = (row < ends[0]) & (column < ends[1])
            parts.append(c.at(row, column, c.width).take(inside))
    else:
        middle = c.first_width(size) + size.widths // 2
        parts.append(c.take(c.width < middle))
        upper = c.at(c.row, c.column, np.maximum(c.width, middle))
        parts.append(upper.take(middle < ends[2]))
    made = next_of(size)
    assert made is not None
    return in_order(joined(parts), made)


def joined(parts: list[Choices]) -> Choices:
    """Return several sets of choices as one."""
    names = Choices.__slots__
    return Choices(*(np.concatenate([getattr(p, name) for p in parts]) for name in names))


def in_order(c: Choices, size: Size) -> Choices:
    """Return choices by box, then beam, mount, sheeting, section, delivery: masks count on it."""
    keys = (c.delivered, c.section, c.sheeting, c.mount, c.beam, c.boxes(size))
    return c.take(np.lexsort(keys))
