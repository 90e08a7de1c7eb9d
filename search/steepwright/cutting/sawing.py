"""From a shape to a plan for the saw: which block is parted where, in order, and what lies there.

The shape sets hold sizes only; the tree of splits behind one block is found again by looking for
two halves whose join it is. That is done for the few plans that are shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from steepwright.cutting.lattice import Lattice
from steepwright.cutting.shapes import Block, PartType, SheetSize


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


@dataclass(slots=True)
class Sawing:
    """Cuts in order, and the parts they free as (type index, region)."""

    cuts: list[Cut]
    parts: list[tuple[int, Region]]


class Sawyer:
    """Lays out blocks of exact sizes (ranges of one value)."""

    def __init__(
        self,
        types: tuple[PartType, ...],
        grid: Lattice,
        shapes: dict[int, list[Block]],
        kerf_mm: int,
    ) -> None:
        self._types = types
        self._grid = grid
        self._shapes = shapes
        self._kerf_mm = kerf_mm

    def saw(self, code: int, sheet: SheetSize, cuts: int) -> Sawing:
        """Return how to free the sub-multiset `code` from a sheet with exactly `cuts` cuts."""
        u, v = sheet.u + self._kerf_mm, sheet.v + self._kerf_mm
        block = next(
            b
            for b in self._shapes[code]
            if b[1] <= u and b[2] <= v and b[0] + (b[1] < u) + (b[2] < v) == cuts
        )
        sawing = Sawing([], [])
        self._place(code, block, Region(0, 0, sheet.u, sheet.v), sawing)
        return sawing

    def _place(self, code: int, block: Block, region: Region, sawing: Sawing) -> None:
        region = self._trimmed(block, region, sawing)
        if code in self._grid.units:
            sawing.parts.append((self._grid.units.index(code), region))
            return
        across_u, (first, second) = self._halves(code, block)
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
        sawing.cuts.append(Cut(across_u, (u if across_u else v) + at, region))
        self._place(*first, near, sawing)
        self._place(*second, far, sawing)

    def _trimmed(self, block: Block, region: Region, sawing: Sawing) -> Region:
        size_u, size_v = block[1] - self._kerf_mm, block[2] - self._kerf_mm
        if size_u < region.size_u:
            sawing.cuts.append(Cut(True, region.u + size_u, region))
            region = region._replace(size_u=size_u)
        if size_v < region.size_v:
            sawing.cuts.append(Cut(False, region.v + size_v, region))
            region = region._replace(size_v=size_v)
        return region

    def _halves(
        self, code: int, block: Block
    ) -> tuple[bool, tuple[tuple[int, Block], tuple[int, Block]]]:
        """Return the direction and the halves whose join is `block`; the larger half first."""
        cuts, w, h = block[:3]
        for one, other in self._grid.splits(code):
            for left in self._shapes.get(one, ()):
                for right in self._shapes.get(other, ()):
                    halves = ((other, right), (one, left))
                    if _join_of(left, right, 1, 2) == (cuts, w, h):
                        return True, halves
                    if _join_of(left, right, 2, 1) == (cuts, h, w):
                        return False, halves
        message = f"no two halves make the block {block} of the state {code}"
        raise AssertionError(message)


def _join_of(left: Block, right: Block, joined: int, shared: int) -> tuple[int, int, int]:
    """Return cuts, joined side and shared side of two blocks of exact size, put side by side."""
    trim = left[shared] != right[shared]
    return (
        left[0] + right[0] + 1 + trim,
        left[joined] + right[joined],
        max(left[shared], right[shared]),
    )
