"""Cut lists that are alike: their sizes differ, but not what fits where nor by how many cuts.

Sheets
------
A row of parts is some of a list's parts side by side, each along one of its two sides; its length
is the sum of these sides, inflated by the kerf. It has a least and a greatest length, for a part
may have a range of sizes. Two lists are alike when they have the same counts, the same types may
be turned, and along both axes the least and greatest lengths of all rows and the sheets' sides
stand in the same order, equal ones at the same places; lengths beyond the longest sheet side
count as one.

Claim: lists that are alike have the same table of fits (`steepwright.cutting.fits`). Every side
of a block (`steepwright.cutting.shapes`) is the length of a row or the larger or smaller of two,
by induction: a part's own sides are rows of one; a join adds sides along one axis, which is the
row of both rows' parts, and takes the larger or smaller along the other. The recursion compares
sides along one axis with each other and with sheets, and does nothing else with them. So with two
lists that are alike it goes the same way, step by step, and counts the same cuts. Areas only
leave out early what fits nowhere. A least side beyond the longest sheet's is dropped whatever it
is, and a greatest side there asks for no trim on any sheet, so which of two such is larger never
matters to the cuts.

Where trims are free (`with_free_trims`) all greatest lengths are infinite and no block costs more
cuts than another of the same parts. Then a list fits a sheet when some pattern's least sides do.
A least side is the largest of the rows that lie across it, so it fits when each of these rows
does, and lists are alike when the same rows fit the same sheet sides.

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

MOST_ROWS = 1024
"""Lists with more rows of parts than this are only alike when they are equal."""

MOST_CHOICES = 8192
"""Lists of bars with more choices of pieces than this are only alike when they are equal."""


@dataclass(frozen=True, slots=True)
class Alike:
    """A cut list on sheets [mm]; two are equal when they are alike on the same sheets.

    `marks` is the order of the lengths of all rows of parts among themselves and the sheets'
    sides, or the list itself when it has too many.
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
    marks = parts if rows is None else _marks(rows, parts, sheets, kerf_mm)
    return Alike(parts.counts, turns, sheets, marks, parts, kerf_mm)


@lru_cache(maxsize=256)
def _rows(counts: tuple[int, ...], turns: tuple[bool, ...]) -> IntArray | None:
    """Return every row of parts: for each type how many lie along and how many turned.

    None when there are more than `MOST_ROWS`.
    """
    kinds = tuple(zip(counts, turns, strict=True))
    if math.prod((n + 1) * (n + 2) // 2 if turn else n + 1 for n, turn in kinds) > MOST_ROWS:
        return None
    lying = [
        [
            (along, turned)
            for along in range(n + 1)
            for turned in range(n + 1 - along if turn else 1)
        ]
        for n, turn in kinds
    ]
    return np.array([sum(row, ()) for row in product(*lying)], dtype=np.int64)


def _marks(rows: IntArray, parts: CutList, sheets: tuple[SheetSize, ...], kerf_mm: int) -> bytes:
    free = all(math.isinf(part.u_hi) and math.isinf(part.v_hi) for part in parts.types)
    marks = []
    for axis in (0, 1):
        sides = sorted({sheet[axis] + kerf_mm for sheet in sheets})
        turned = 1 - axis
        least = rows @ [part[side] + kerf_mm for part in parts.types for side in (axis, turned)]
        if free:
            marks.append(np.searchsorted(sides, least))
            continue
        beyond = sides[-1] + 1
        most = rows @ [
            min(part[2 + side] + kerf_mm, beyond) for part in parts.types for side in (axis, turned)
        ]
        lengths = np.concatenate((np.minimum(least, beyond), np.minimum(most, beyond), sides))
        marks.append(np.unique(lengths, return_inverse=True)[1])
    return np.concatenate(marks).astype(np.uint16).tobytes()


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
