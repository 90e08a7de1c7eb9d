"""What fits on which sheet, and with how many saw cuts: the part that prices don't touch.

The tables are kept by sizes alone (no names, no prices), so a price edit and every cut list of
the same sizes reuse them.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from steepwright.cutting.lattice import Lattice, lattice
from steepwright.cutting.records import SheetPart, SheetStock
from steepwright.cutting.shapes import PartType, SheetSize, least_cuts, shape_sets

KEPT_TABLES = 1024
"""Few are asked for twice: costs are remembered by themselves. More only takes memory."""


@dataclass(frozen=True, slots=True)
class CutList:
    """Part types with counts, sorted; equal sizes merged whatever their names."""

    types: tuple[PartType, ...]
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Fits:
    """For each sub-multiset that fits somewhere, the fewest cuts on each sheet size (or None)."""

    grid: Lattice
    rows: tuple[tuple[int, tuple[int | None, ...]], ...]


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


@lru_cache(maxsize=KEPT_TABLES)
def fits_of(parts: CutList, sheets: tuple[SheetSize, ...], kerf_mm: int) -> Fits:
    """Return the table of fits of a cut list on each sheet size.

    The shape sets themselves are dropped: they are large, and only a plan needs some again.
    """
    grid = lattice(parts.counts)
    shared: dict[tuple[int | None, ...], tuple[int | None, ...]] = {}
    rows = []
    for code, blocks in shape_sets(parts.types, grid, sheets, kerf_mm).items():
        cuts = tuple(least_cuts(blocks, sheet, kerf_mm) for sheet in sheets)
        rows.append((code, shared.setdefault(cuts, cuts)))
    return Fits(grid, tuple(rows))


@lru_cache(maxsize=KEPT_TABLES)
def least_trims(parts: CutList, sheets: tuple[SheetSize, ...], kerf_mm: int) -> tuple[int, ...]:
    """Return, for each sheet size, trims that no list of these parts can do without.

    A block's greatest side W is the sum of the greatest sides of some parts in a row, and its
    least side w is at least the sum of their least sides: by induction, a join across adds both,
    and a join along takes each of them from one half, W with a w no smaller than that half's. So
    a sheet whose side X lies between the two sums of no row of parts is filled by no block, and
    F(X) counts a trim along this side (see `steepwright.cutting.shapes`).
    """
    longest = (max(sheet.u for sheet in sheets), max(sheet.v for sheet in sheets))
    rows = [_row_sums(parts, side, kerf_mm, axis) for axis, side in enumerate(longest)]
    return tuple(
        sum(
            not any(low <= side + kerf_mm <= high for low, high in sums)
            for side, sums in zip(sheet, rows, strict=True)
        )
        for sheet in sheets
    )


def _row_sums(parts: CutList, longest_mm: int, kerf_mm: int, axis: int) -> set[tuple[int, float]]:
    """Return the least and greatest lengths of all rows of parts that a sheet's side may hold."""
    sums: set[tuple[int, float]] = {(0, 0)}
    for part, count in zip(parts.types, parts.counts, strict=True):
        sides = {(part.u_lo + kerf_mm, part.u_hi + kerf_mm)}
        across = (part.v_lo + kerf_mm, part.v_hi + kerf_mm)
        sides = sides | {across} if part.turns else [sides, {across}][axis]
        for _ in range(count):
            sums |= {
                (low + least, high + most)
                for low, high in sums
                for least, most in sides
                if low + least <= longest_mm + kerf_mm
            }
    return sums
