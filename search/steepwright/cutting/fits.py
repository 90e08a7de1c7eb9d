"""What fits on which sheet, and with how many saw cuts: the part that prices don't touch.

The tables are kept by sizes alone (no names, no prices), so a price edit and every cut list that
is alike (`steepwright.cutting.alike`) reuse them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from steepwright.cutting.alike import Alike
from steepwright.cutting.cutlist import CutList
from steepwright.cutting.lattice import Lattice, lattice
from steepwright.cutting.shapes import SheetSize, least_cuts, shape_sets

KEPT_TABLES = 1024
"""Costs are remembered by themselves; more tables only take memory."""


@dataclass(frozen=True, slots=True)
class Fits:
    """For each sub-multiset that fits somewhere, the fewest cuts on each sheet size (or None)."""

    grid: Lattice
    rows: tuple[tuple[int, tuple[int | None, ...]], ...]


@lru_cache(maxsize=KEPT_TABLES)
def fits_of(alike: Alike) -> Fits:
    """Return the table of fits of a cut list, and of all that are alike, on each sheet size.

    The shape sets themselves are dropped: they are large, and only a plan needs some again.
    """
    parts, sheets, kerf_mm = alike.parts, alike.sheets, alike.kerf_mm
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
