"""From a shape to a plan for the saw: which block is parted where, in order, and what lies there.

The shape sets hold sizes only; the tree of splits behind one block is found again by looking for
two halves whose join it is. That is done for the few plans that are shown.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from steepwright.cutting.cutlist import CutList
from steepwright.cutting.lattice import lattice
from steepwright.cutting.shapes import Block, PartType, SheetSize, least_cuts, shape_sets

KEPT_SAWINGS = 256


class Region(NamedTuple):
    """A rectangle in the grain's frame: corner and size [mm]."""

    u: int
    v: int
    size_u: int
    size_v: int


class Cut(NamedTuple):
    """A cut through a region: across u (at a fixed u) or across v, where the kerf begins."""

    across_u: bool
    at: int
    region: Region


class Sawing(NamedTuple):
    """Cuts in order, and the parts they free."""

    cuts: tuple[Cut, ...]
    parts: tuple[tuple[PartType, Region], ...]


@lru_cache(maxsize=KEPT_SAWINGS)
def saw(parts: CutList, sheet: SheetSize, kerf_mm: int) -> Sawing:
    """Return how to free parts of exact sizes, known to fit, from one sheet by the fewest cuts."""
    return _Sawyer(parts, sheet, kerf_mm).saw()


class _Sawyer:
    """Finds the splits behind the best block of the whole list, and saws them one by one."""

    def __init__(self, parts: CutList, sheet: SheetSize, kerf_mm: int) -> None:
        self._types = parts.types
        self._grid = lattice(parts.counts)
        self._shapes = shape_sets(parts.types, self._grid, (sheet,), kerf_mm)
        self._sheet = sheet
        self._kerf_mm = kerf_mm
        self._cuts: list[Cut] = []
        self._parts: list[tuple[PartType, Region]] = []

    def saw(self) -> Sawing:
        """Return the cuts and the parts."""
        u, v = self._sheet.u + self._kerf_mm, self._sheet.v + self._kerf_mm
        blocks = self._shapes[self._grid.full]
        fewest = least_cuts(blocks, self._sheet, self._kerf_mm)
        block = next(b for b in blocks if b[0] + (b[1] < u) + (b[2] < v) == fewest)
        self._place(self._grid.full, block, Region(0, 0, *self._sheet))
        return Sawing(tuple(self._cuts), tuple(self._parts))

    def _place(self, code: int, block: Block, region: Region) -> None:
        if code in self._grid.units:
            part = self._trimmed(block, region, (True, False))
            self._parts.append((self._types[self._grid.units.index(code)], part))
            return
        across_u, (first, second) = self._halves(code, block)
        # What the block leaves over along the split goes with the far half, and is trimmed last:
        # equal strips are then sawn at one setting of the fence, whatever the saw's kerf.
        region = self._trimmed(block, region, (not across_u,))
        kerf = self._kerf_mm
        u, v, size_u, size_v = region
        if across_u:
            at = first[1][1] - kerf
            near = Region(u, v, at, size_v)
            far = Region(u + at + kerf, v, size_u - at - kerf, size_v)
        else:
            at = first[1][2] - kerf
            near = Region(u, v, size_u, at)
            far = Region(u, v + at + kerf, size_u, size_v - at - kerf)
        self._cuts.append(Cut(across_u, (u if across_u else v) + at, region))
        self._place(*first, near)
        self._place(*second, far)

    def _trimmed(self, block: Block, region: Region, ways: tuple[bool, ...]) -> Region:
        """Saw a region down to a block's size across u, across v or both; return what is left."""
        sizes = block[1] - self._kerf_mm, block[2] - self._kerf_mm
        for across_u in ways:
            u, v, size_u, size_v = region
            if across_u and sizes[0] < size_u:
                self._cuts.append(Cut(True, u + sizes[0], region))
                region = Region(u, v, sizes[0], size_v)
            elif not across_u and sizes[1] < size_v:
                self._cuts.append(Cut(False, v + sizes[1], region))
                region = Region(u, v, size_u, sizes[1])
        return region

    def _halves(
        self, code: int, block: Block
    ) -> tuple[bool, tuple[tuple[int, Block], tuple[int, Block]]]:
        """Return the direction and the halves whose join is `block`; the smaller half first."""
        cuts, w, h = block[:3]
        for one, other in self._grid.splits(code):
            for left in self._shapes.get(one, ()):
                for right in self._shapes.get(other, ()):
                    halves = ((one, left), (other, right))
                    if _join_of(left, right, 1, 2) == (cuts, w, h):
                        return True, halves
                    if _join_of(left, right, 2, 1) == (cuts, h, w):
                        return False, halves
        message = f"no two halves make the block {block} of the state {code}"
        raise AssertionError(message)


def _join_of(left: Block, right: Block, joined: int, shared: int) -> tuple[float, ...]:
    """Return cuts, joined side and shared side of two blocks of exact size, put side by side."""
    trim = left[shared] != right[shared]
    return (
        left[0] + right[0] + 1 + trim,
        left[joined] + right[joined],
        max(left[shared], right[shared]),
    )
