"""How choices on boxes are ordered, told apart and divided, down to single lengths and widths.

A box is a square of the grid of lengths with a range of widths, whose numbers begin at a multiple
of the range's size. A choice has the part of it at which its board can be divided.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.levels import Level
from steepwright.optimise.entries import Entries, children, joined

IntArray = npt.NDArray[np.int64]

_BITS = 20


def all_widths(searched: int) -> int:
    """Return the size of the range that holds so many widths: a power of two."""
    return 1 << (searched - 1).bit_length()


def first_width(entries: Entries, widths: int) -> IntArray:
    """Return the number of the first width of each entry's box, of so many widths."""
    return np.asarray(entries.width // widths * widths)


def in_order(entries: Entries, widths: int) -> IntArray:
    """Return the entries' order by box, then by choice: the certificate counts on it."""
    keys = (
        entries.delivered,
        entries.section,
        entries.sheeting,
        entries.mount,
        entries.place,
        first_width(entries, widths),
        entries.column,
        entries.row,
    )
    return np.asarray(np.lexsort(keys), dtype=np.int64)


def boxes_of(entries: Entries, size: int, widths: int) -> tuple[Level, IntArray]:
    """Return the boxes that entries lie in as a level, and each one's number in it."""
    key = (entries.row << 2 * _BITS) + (entries.column << _BITS) + first_width(entries, widths)
    keys, box = np.unique(key, return_inverse=True)
    last = (1 << _BITS) - 1
    row, column, width = keys >> 2 * _BITS, keys >> _BITS & last, keys & last
    return Level(size, widths, row.tolist(), column.tolist(), width.tolist()), box


def divided(
    entries: Entries, size: int, widths: int, grid: tuple[int, int]
) -> tuple[Entries, int, int]:
    """Return the choices on the parts of their boxes, in order, and the parts' size.

    Lengths are quartered; at single ones the range of widths is halved.
    """
    if size > 1:
        entries, size = children(entries, size, grid), size // 2
    else:
        start, half = first_width(entries, widths), widths // 2
        low, high = entries.width < start + half, entries.widest >= start + half
        lower, upper = entries.take(low), entries.take(high)
        entries = joined(
            [
                lower.between(lower.width, np.minimum(lower.widest, start[low] + half - 1)),
                upper.between(np.maximum(upper.width, start[high] + half), upper.widest),
            ]
        )
        # Nothing is known of the fixings that hold there.
        entries, widths = entries.with_fixing(np.zeros_like(entries.fixing)), half
    return entries.take(in_order(entries, widths)), size, widths
