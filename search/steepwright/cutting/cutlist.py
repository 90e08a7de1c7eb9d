"""A cut list of sheets in its canonical form: types of parts by size, with counts."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from steepwright.cutting.records import SheetPart, SheetStock
from steepwright.cutting.shapes import PartType, SheetSize


@dataclass(frozen=True, slots=True)
class CutList:
    """Part types with counts, sorted; equal sizes merged whatever their names."""

    types: tuple[PartType, ...]
    counts: tuple[int, ...]


def part_type(low: SheetPart, high: SheetPart) -> PartType:
    """Return the part's type, for the sizes from `low` to `high`, in the grain's frame."""
    along = (low.length_mm, high.length_mm)
    across = (low.width_mm, high.width_mm)
    turns = low.grain == "any" and along != across
    if low.grain == "width" or (turns and along < across):
        along, across = across, along
    return PartType(along[0], across[0], along[1], across[1], turns)


def sheet_size(stock: SheetStock) -> SheetSize:
    """Return the sheet's size in the grain's frame."""
    if stock.face_grain == "length":
        return SheetSize(stock.length_mm, stock.width_mm)
    return SheetSize(stock.width_mm, stock.length_mm)


def cut_list(low: tuple[SheetPart, ...], high: tuple[SheetPart, ...]) -> CutList:
    """Return the canonical cut list of parts whose sizes run from `low` to `high`."""
    counts: Counter[PartType] = Counter()
    for small, large in zip(low, high, strict=True):
        if small.count:
            counts[part_type(small, large)] += small.count
    pairs = sorted(counts.items(), reverse=True)
    return CutList(tuple(t for t, _ in pairs), tuple(n for _, n in pairs))


def with_free_trims(parts: CutList) -> CutList:
    """Return the list with parts that may keep any rest: what fits stays, trims cost nothing.

    Then all blocks of the same parts have the same cuts, and far fewer have to be kept.
    """
    counts: Counter[PartType] = Counter()
    for kind, count in zip(parts.types, parts.counts, strict=True):
        counts[kind._replace(u_hi=math.inf, v_hi=math.inf)] += count
    pairs = sorted(counts.items(), reverse=True)
    return CutList(tuple(t for t, _ in pairs), tuple(n for _, n in pairs))
