"""A cut list of sheets in its canonical form: types of parts by size, with counts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from steepwright.cutting.records import Grain, SheetPart, SheetStock
from steepwright.cutting.shapes import PartType, SheetSize


@dataclass(frozen=True, slots=True)
class CutList:
    """Part types with counts, sorted; equal sizes merged whatever their names."""

    types: tuple[PartType, ...]
    counts: tuple[int, ...]


PartRange = tuple[tuple[int, int], tuple[int, int], Grain]
"""A part's least and greatest (length, width) [mm] and its grain need."""

KEPT_TYPES = 65_536


@lru_cache(maxsize=KEPT_TYPES)
def part_type(low: tuple[int, int], high: tuple[int, int], grain: Grain) -> PartType:
    """Return a part's type, for the sizes from `low` to `high`, in the grain's frame; remembered.

    Sizes are (length, width) [mm].
    """
    along, across = (low[0], high[0]), (low[1], high[1])
    turns = grain == "any" and along != across
    if grain == "width" or (turns and along < across):
        along, across = across, along
    return PartType(along[0], across[0], along[1], across[1], turns)


def sheet_size(stock: SheetStock) -> SheetSize:
    """Return the sheet's size in the grain's frame."""
    if stock.face_grain == "length":
        return SheetSize(stock.length_mm, stock.width_mm)
    return SheetSize(stock.width_mm, stock.length_mm)


def ranged_list(ranges: Iterable[PartRange]) -> CutList:
    """Return the canonical cut list of one part for each range of sizes."""
    counts: dict[PartType, int] = {}
    for one in ranges:
        kind = part_type(*one)
        counts[kind] = counts.get(kind, 0) + 1
    return _in_order(counts)


def cut_list(low: tuple[SheetPart, ...], high: tuple[SheetPart, ...]) -> CutList:
    """Return the canonical cut list of parts whose sizes run from `low` to `high`."""
    counts: Counter[PartType] = Counter()
    for small, large in zip(low, high, strict=True):
        if small.count:
            counts[type_between(small, large)] += small.count
    return _in_order(counts)


def type_between(low: SheetPart, high: SheetPart) -> PartType:
    """Return the type of a part whose sizes run from those of one to those of another."""
    sizes = ((part.length_mm, part.width_mm) for part in (low, high))
    return part_type(*sizes, low.grain)


def _in_order(counts: Mapping[PartType, int]) -> CutList:
    pairs = sorted(counts.items(), reverse=True)
    return CutList(tuple(t for t, _ in pairs), tuple(n for _, n in pairs))


def with_free_trims(parts: CutList) -> CutList:
    """Return the list with parts that may keep any rest: what fits stays, trims cost nothing.

    Then all blocks of the same parts have the same cuts, and far fewer have to be kept.
    """
    counts: Counter[PartType] = Counter()
    for kind, count in zip(parts.types, parts.counts, strict=True):
        counts[kind._replace(u_hi=math.inf, v_hi=math.inf)] += count
    return _in_order(counts)
