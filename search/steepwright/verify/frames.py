"""How boards are divided across and framed, at every width: columns, bays, blocking."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.choices import Choices
from steepwright.verify.divisions import Sheeting, divided, least_total_mm, stud_middles_mm

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]


class Frames:
    """Tables over sheetings, sections and widths, each told by its number.

    Of a board that is divided as wide as it is no column gets narrower when the board gets
    wider, and so no bay: what can be framed at some width can be at every greater one.

    Attributes
    ----------
    split
        Per sheeting the number of its way to divide the width.
    columns_mm
        Per such way the columns' widths, from the least width on at which it is one.
    narrowest
        By sheeting and section, the least width at which the frame can be made; where it can at
        none, the greatest one.
    makeable
        Whether it can at some.
    """

    def __init__(self, given: Document, sheetings: list[Sheeting], widths_mm: IntArray) -> None:
        self._widths_mm, self._sheetings = widths_mm, sheetings
        least = int(given["factors"]["layout_min_piece_mm"])
        ways = [(s.columns, s.full_column_mm) for s in sheetings]
        every = sorted(set(ways))
        self.split = [every.index(way) for way in ways]
        self._first = [_first_width(widths_mm, *way, least) for way in every]
        self.columns_mm = [
            _columns_mm(widths_mm[first:], *way, least)
            for first, way in zip(self._first, every, strict=True)
        ]
        studs = sorted({int(s["width_mm"]) for s in given["sections"]})
        self._stud = np.array([studs.index(s["width_mm"]) for s in given["sections"]])
        self._lay_out(studs, int(given["factors"]["layout_min_upright_mm"]))

    def _lay_out(self, studs_mm: list[int], least_bar_mm: int) -> None:
        """Set out, by way to divide and bays, by stud and width: largest bay, shortest block."""
        kinds = [(n, s.bays) for n, s in zip(self.split, self._sheetings, strict=True)]
        every = sorted(set(kinds))
        self._kind = np.array([every.index(kind) for kind in kinds], dtype=np.int64)
        count = len(self._widths_mm)
        self._bay = np.zeros((len(every), len(studs_mm), count))
        first = np.zeros((len(every), len(studs_mm)), dtype=np.int64)
        self._blocks = np.zeros((len(every), len(studs_mm), 2), dtype=np.int64)
        for i, (split, bays) in enumerate(every):
            start, columns = self._first[split], self.columns_mm[split]
            for j, stud in enumerate(studs_mm):
                gaps = _gaps_mm(columns, bays, stud)
                self._bay[i, j, start:] = gaps.max(axis=1)
                blocks = np.trunc(gaps - stud).astype(np.int64)
                self._blocks[i, j] = np.maximum(blocks[0], 0).sum(), blocks.shape[1]
                good = np.flatnonzero(blocks.min(axis=1) >= least_bar_mm)
                first[i, j] = start + good[0] if len(good) else count
        found = first[self._kind][:, self._stud]
        self.makeable: BoolArray = found < count
        self.narrowest: IntArray = np.minimum(found, count - 1)

    def columns_at(self, sheeting: int, width: int) -> tuple[int, ...]:
        """Return the columns' widths [mm] at a width.

        Raises
        ------
        IndexError
            When the board can't be divided so there.
        """
        split = self.split[sheeting]
        at = width - self._first[split]
        if at < 0:
            message = f"a board can't be divided so at width {width}"
            raise IndexError(message)
        return tuple(self.columns_mm[split][at].tolist())

    def ends_mm(self, sheeting: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Return the columns at the least width possible and at the greatest."""
        columns = self.columns_mm[self.split[sheeting]]
        return tuple(columns[0].tolist()), tuple(columns[-1].tolist())

    def range_mm(self, sheeting: int, least: int, most: int) -> list[tuple[int, int]]:
        """Return each column's least and greatest width between two widths."""
        ends = self.columns_at(sheeting, least), self.columns_at(sheeting, most)
        return list(zip(*ends, strict=True))

    def widest_mm(self, sheeting: int, width: int) -> int:
        """Return the width of the widest column."""
        return max(self.columns_at(sheeting, width))

    def bay_mm(self, c: Choices) -> FloatArray:
        """Return the largest distance of neighbouring studs' middles, at each one's least width."""
        return np.asarray(self._bay[self._kind[c.sheeting], self._stud[c.section], c.width])

    def blocking_mm(self, c: Choices, kerf_mm: int) -> IntArray:
        """Return the least length of blocking along one seam, a kerf added to each piece."""
        length, pieces = np.moveaxis(self._blocks, 2, 0)
        where = self._kind[c.sheeting], self._stud[c.section]
        return np.asarray(length[where] + kerf_mm * pieces[where])


def _first_width(widths_mm: IntArray, parts: int, full_mm: int, least_mm: int) -> int:
    """Return the number of the least width that can be divided so.

    Raises
    ------
    ValueError
        When none can.
    """
    first = int(np.searchsorted(widths_mm, least_total_mm(parts, full_mm, least_mm)))
    if first == len(widths_mm):
        message = f"no width can be divided into {parts} columns, of {full_mm} mm but the last"
        raise ValueError(message)
    return first


def _columns_mm(widths_mm: IntArray, parts: int, full_mm: int, least_mm: int) -> IntArray:
    rows = [divided(width, parts, full_mm, least_mm) for width in widths_mm.tolist()]
    return np.array(rows, dtype=np.int64)


def _gaps_mm(columns_mm: IntArray, bays: int, stud_mm: int) -> FloatArray:
    """Return the distances of neighbouring studs' middles, by width."""
    middles: list[Any] = stud_middles_mm(tuple(columns_mm.T), bays, stud_mm)
    gaps = [right - left + np.zeros(len(columns_mm)) for left, right in pairwise(middles)]
    return np.stack(gaps, axis=1)
