"""Cut lists that are alike: their sizes differ, but not what fits where nor by how many cuts.

Sheets
------
A row of parts is some of a list's parts side by side, each along one of its two sides; its length
is the sum of these sides, inflated by the kerf. It has a least and a greatest length, for a part
may have a range of sizes. Two lists are alike when they have the same counts, the same types may
be turned, and along both axes the same is true of which sheet sides

* each row's least and greatest length reach, and
* which row's greatest length is no less than another's least one, for rows without a common part;

rows too long for all sheets are left out of both.

Claim: lists that are alike have the same table of fits (`steepwright.cutting.fits`). Follow the
recursion (`steepwright.cutting.shapes`) without dropping blocks that others stand in for, which
changes no table. A block's lower end along an axis is the largest of the least lengths of rows of
its parts, its upper end some smallest and largest of the greatest lengths of the same rows, by
induction: a part is a row of one; where a join adds ends, it adds row to row, each time of
different parts, and sums of largest ones are the largest of the sums, of smallest ones likewise;
where it takes the larger or smaller end, it takes from rows that are there. What the recursion
asks is whether a lower end fits a sheet's side; in a join whether each half's lower end is within
the other's upper end, so of rows of different parts; and at last whether an upper end is less than
a sheet's side. Every answer follows from those for single rows, which are the same for lists that
are alike. (Which upper end is the smaller only names it; when both are equal a needless block is
left out.) Areas leave out early what fits nowhere.

Where trims are free (`with_free_trims`) all greatest lengths are infinite, and what the least ones
reach tells all.

Bars
----
Two lists of bars are alike when they have the same counts and the same choices of pieces fit the
same stock lengths: then any plan for the one, its pieces exchanged type by type, is one for the
other, at the same cost.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import product

import numpy as np
import numpy.typing as npt

from steepwright.cutting.barlist import BarOffer, BarType
from steepwright.cutting.cutlist import CutList
from steepwright.cutting.shapes import SheetSize

IntArray = npt.NDArray[np.int64]

MOST_PAIRS = 65_536
"""Lists with more pairs of rows of parts than this are only alike when they are equal."""

MOST_CHOICES = 8192
"""Lists of bars with more choices of pieces than this are only alike when they are equal."""


@dataclass(frozen=True, slots=True)
class Alike:
    """A cut list on sheets [mm]; two are equal when they are alike on the same sheets.

    `marks` tells what the rows of parts reach, or is the list itself when it has too many.
    """

    counts: tuple[int, ...]
    turns: tuple[bool, ...]
    sheets: tuple[SheetSize, ...]
    marks: bytes | CutList
    parts: CutList = field(compare=False)
    kerf_mm: int = field(compare=False)


def alike(parts: CutList, sheets: tuple[SheetSize, ...], kerf_mm: int) -> Alike:
    """Return what stands for all lists that are alike to this one on these sheets."""
    turns = tuple(part.turns for part in parts.types)
    rows = _rows(parts.counts, turns)
    marks = parts if rows is None else _marks(*rows, parts, sheets, kerf_mm)
    return Alike(parts.counts, turns, sheets, marks, parts, kerf_mm)


@lru_cache(maxsize=256)
def _rows(
    counts: tuple[int, ...], turns: tuple[bool, ...]
) -> tuple[IntArray, tuple[IntArray, IntArray]] | None:
    """Return every row of parts, and all pairs of rows without a common part.

    A row tells for each type how many lie along and how many turned. None when there are more
    than `MOST_PAIRS` pairs.
    """
    kinds = tuple(zip(counts, turns, strict=True))
    if math.prod(math.comb(n + 4, 4) if turn else math.comb(n + 2, 2) for n, turn in kinds) > (
        MOST_PAIRS
    ):
        return None
    lying = [
        [(along, turned) for along in range(n + 1) for turned in range((n - along) * turn + 1)]
        for n, turn in kinds
    ]
    rows = np.array([sum(row, ()) for row in product(*lying)], dtype=np.int64)
    number = rows[:, ::2] + rows[:, 1::2]
    some = number.sum(axis=1) > 0
    apart = (number[:, None] + number <= np.array(counts)).all(axis=2)
    one, other = np.nonzero(apart & some[:, None] & some)
    return rows, (one, other)


def _marks(
    rows: IntArray,
    pairs: tuple[IntArray, IntArray],
    parts: CutList,
    sheets: tuple[SheetSize, ...],
    kerf_mm: int,
) -> bytes:
    sides = _sides(sheets, kerf_mm)
    if all(math.isinf(part.u_hi) and math.isinf(part.v_hi) for part in parts.types):
        ends = np.array([(p.u_lo, p.v_lo, p.v_lo, p.u_lo) for p in parts.types], dtype=np.int64)
        least = rows @ (ends.reshape(-1, 2) + kerf_mm)
        fits = (one.searchsorted(least[:, axis]) for axis, one in enumerate(sides))
        return b"".join(one.astype(np.uint16).tobytes() for one in fits)
    beyond, kinds = max(int(one[-1]) for one in sides), []
    for u, v, u_hi, v_hi, _ in parts.types:
        most_u, most_v = min(u_hi, beyond), min(v_hi, beyond)
        kinds.append((u, v, most_u, most_v, v, u, most_v, most_u))
    lengths = rows @ (np.array(kinds, dtype=np.int64).reshape(-1, 4) + kerf_mm)
    marks, (row, other) = [], pairs
    for one, least, most in zip(sides, lengths.T[:2], lengths.T[2:], strict=True):
        fits = one.searchsorted(least)
        short = fits < len(one)
        reach = one.searchsorted(most, side="right") * short
        meet = (least[row] <= most[other]) & short[row] & short[other]
        marks += [fits.astype(np.uint16), reach.astype(np.uint16), np.packbits(meet)]
    return b"".join(mark.tobytes() for mark in marks)


@lru_cache(maxsize=256)
def _sides(sheets: tuple[SheetSize, ...], kerf_mm: int) -> tuple[IntArray, IntArray]:
    """Return the sheets' sides along and across their grain, ascending, inflated [mm]."""
    along, across = (np.unique([sheet[axis] + kerf_mm for sheet in sheets]) for axis in (0, 1))
    return along, across


@dataclass(frozen=True, slots=True)
class BarsAlike:
    """A list of bars; two are equal when they are alike with the same offers.

    `marks` tells for every choice of pieces which stock lengths hold it, or is the list itself
    when there are too many.
    """

    counts: tuple[int, ...]
    offers: tuple[BarOffer, ...]
    marks: bytes | tuple[BarType, ...]
    types: tuple[BarType, ...] = field(compare=False)


def bars_alike(types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> BarsAlike:
    """Return what stands for all lists of bars that are alike to this one."""
    counts = tuple(kind.needed for kind in types)
    choices = _choices(counts)
    if choices is None:
        return BarsAlike(counts, offers, types, types)
    stock = sorted({offer.length for offer in offers})
    fits = np.searchsorted(stock, choices @ [kind.length for kind in types])
    return BarsAlike(counts, offers, fits.astype(np.uint16).tobytes(), types)


@lru_cache(maxsize=256)
def _choices(counts: tuple[int, ...]) -> IntArray | None:
    """Return every choice of pieces, None when there are more than `MOST_CHOICES`."""
    if math.prod(n + 1 for n in counts) > MOST_CHOICES:
        return None
    return np.indices([n + 1 for n in counts], dtype=np.int64).reshape(len(counts), -1).T
