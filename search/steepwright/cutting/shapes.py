"""Which rectangles a list of parts can be sawn from: the shape-function recursion.

Every guillotine pattern is a tree of two-way splits, so the blocks that yield a list of parts
are found from the blocks of its two halves, joined along or across with one kerf between. For
each sub-multiset only the blocks that no other can stand in for are kept. Sides are held
inflated by the kerf (a block by one kerf, a sheet too), so that joined sides simply add.

Parts with a range of sizes
---------------------------
A part may be given as a range of lengths and widths. The model then lets *each copy* take any
size in its range; that relaxes every list inside the range, so the least cost found is a lower
bound for all of them, and with ranges of one value it is the cost itself.

A block is ``(cuts, w, h, -W, -H)``: with `cuts` saw cuts it can be made at any size from w x h to
W x H inclusive, and by one trim per side that goes beyond, at any larger size. Its price at a
size s = (x, y) >= (w, h) is F(s) = cuts + [x > W] + [y > H].

Claim: for every saw pattern of a region of size s with c cuts that yields a multiset m, the kept
blocks of m hold one with F(s) <= c. By induction over the pattern:

* one part, no cut: the part's own block, F = 0;
* a trim from s' to s, which differs in one side: F(s) <= F(s') + 1;
* a parting cut of (x + x', y) into (x, y) and (x', y), blocks A and B: the join has the range
  [w + w', W + W'] across, and [x + x' > W + W'] <= [x > W] + [x' > W']. Along, y must be at least
  the larger lower end. If y exceeds neither upper end, both ranges hold y, and the join with no
  trim (lower end to smaller upper end) holds it. If y exceeds one, the join with one trim (lower
  end to larger upper end) holds it. If y exceeds both, that join pays its second trim. So
  F_join(s) <= F_A + F_B + 1 in each case;
* dropping: X may stand in for Y when F_X <= F_Y wherever Y can be made, which is when
  w_X <= w_Y, h_X <= h_Y and cuts_X + [W_X < W_Y] + [H_X < H_Y] <= cuts_Y (compare at Y's own
  upper corner, where F_Y is least and F_X largest within Y's range; beyond it F_Y rises first).
  The relation is a comparison of functions, hence transitive, and the claim survives.

The other way round, every block kept is a real pattern for some choice of sizes. Hence the least
F at a sheet's size is the least number of saw cuts that frees the parts from it.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import NamedTuple

from steepwright.cutting.lattice import Lattice

Block = tuple[int, int, int, float, float]
"""Cuts, least sides, greatest sides negated; a greatest side is an integer or infinite."""


class PartType(NamedTuple):
    """Equal parts by size alone, in the grain's frame: u along the face grain, v across it [mm].

    `turns` says that the part may also lie the other way.
    """

    u_lo: int
    v_lo: int
    u_hi: float
    v_hi: float
    turns: bool


class SheetSize(NamedTuple):
    """A sheet's sides along and across its face grain [mm]."""

    u: int
    v: int


class Room(NamedTuple):
    """The sheets, inflated by the kerf, none within another: what a block must fit one of.

    `us` ascends, and ``v_for_u[i]`` is the widest sheet at least ``us[i]`` long; -1 behind the
    last. `vs` and `u_for_v` are the same the other way.
    """

    us: list[int]
    v_for_u: list[int]
    vs: list[int]
    u_for_v: list[int]

    def holds(self, u: int, v: int) -> bool:
        """Tell whether a block of this size fits a sheet."""
        return v <= self.v_for_u[bisect_left(self.us, u)]


def room_of(sheets: tuple[SheetSize, ...], kerf_mm: int) -> Room:
    """Return the room that sheets [mm] give."""
    largest: list[SheetSize] = []
    for u, v in sorted(sheets, reverse=True):
        if not largest or v + kerf_mm > largest[-1].v:
            largest.append(SheetSize(u + kerf_mm, v + kerf_mm))
    us, vs = [s.u for s in largest], [s.v for s in largest]
    return Room(us[::-1], [*vs[::-1], -1], vs, [*us, -1])


def part_blocks(part: PartType, kerf_mm: int, room: Room) -> list[Block]:
    """Return the blocks that are the part itself, one for each way it may lie and fits."""
    u, v = part.u_lo + kerf_mm, part.v_lo + kerf_mm
    big_u, big_v = part.u_hi + kerf_mm, part.v_hi + kerf_mm
    blocks: list[Block] = [(0, u, v, -big_u, -big_v)]
    if part.turns:
        blocks.append((0, v, u, -big_v, -big_u))
    return undominated({b for b in blocks if room.holds(b[1], b[2])})


def join(left: list[Block], right: list[Block], room: Room, made: set[Block]) -> None:
    """Add to `made` all joins of two lists of blocks, across and along, that fit `room`."""
    add = made.add
    us, v_for_u, vs, u_for_v = room
    for c, w, h, nw, nh in left:
        for d, x, y, nx, ny in right:
            side, low = w + x, h if h > y else y
            if low <= v_for_u[bisect_left(us, side)]:
                if nh == ny:
                    add((c + d + 1, side, low, nw + nx, nh))
                else:
                    small, large = (nh, ny) if nh > ny else (ny, nh)
                    if low + small <= 0:
                        add((c + d + 1, side, low, nw + nx, small))
                    add((c + d + 2, side, low, nw + nx, large))
            side, low = h + y, w if w > x else x
            if low <= u_for_v[bisect_left(vs, side)]:
                if nw == nx:
                    add((c + d + 1, low, side, nw, nh + ny))
                else:
                    small, large = (nw, nx) if nw > nx else (nx, nw)
                    if low + small <= 0:
                        add((c + d + 1, low, side, small, nh + ny))
                    add((c + d + 2, low, side, large, nh + ny))


def undominated(blocks: set[Block]) -> list[Block]:
    """Return the blocks that no other stands in for, fewest cuts first.

    Sorted, a block that stands in for another comes before it, so one pass is enough.
    """
    kept: list[Block] = []
    for block in sorted(blocks):
        cuts, w, h, nw, nh = block
        for c, x, y, nx, ny in kept:
            if x <= w and y <= h and c + (nx > nw) + (ny > nh) <= cuts:
                break
        else:
            kept.append(block)
    return kept


def shape_sets(
    parts: tuple[PartType, ...], grid: Lattice, sheets: tuple[SheetSize, ...], kerf_mm: int
) -> dict[int, list[Block]]:
    """Return, for each sub-multiset that fits some sheet, the blocks it can be sawn from.

    Parameters
    ----------
    parts
        The part types, in the order of the lattice's counts.
    grid
        The lattice of their counts.
    sheets
        Sheet sizes [mm].
    kerf_mm
        Width of the saw cut [mm].
    """
    room = room_of(sheets, kerf_mm)
    most_area = max((u + kerf_mm) * (v + kerf_mm) for u, v in sheets)
    found: dict[int, list[Block]] = {}
    areas: dict[int, int] = {}
    for unit, part in zip(grid.units, parts, strict=True):
        leaves = part_blocks(part, kerf_mm, room)
        if leaves:
            found[unit] = leaves
            areas[unit] = (part.u_lo + kerf_mm) * (part.v_lo + kerf_mm)
    for code, fewer in grid.wholes:
        # A list fits only if it still fits with any one part taken away, and by area.
        if any(less not in found for less in fewer):
            continue
        area = areas[fewer[0]] + areas[code - fewer[0]]
        if area > most_area:
            continue
        made: set[Block] = set()
        for one, other in grid.splits(code):
            # Both halves are there: taking more parts away never hurts.
            join(found[one], found[other], room, made)
        kept = undominated(made)
        if kept:
            found[code] = kept
            areas[code] = area
    return found


def least_cuts(blocks: list[Block], sheet: SheetSize, kerf_mm: int) -> int | None:
    """Return the fewest cuts that free the parts from one sheet, None when they don't fit it.

    The blocks are sorted, fewest cuts first.
    """
    best = None
    u, v = sheet.u + kerf_mm, sheet.v + kerf_mm
    for c, w, h, nw, nh in blocks:
        if best is not None and c >= best:
            break
        if w <= u and h <= v:
            cuts = c + (-nw < u) + (-nh < v)
            if best is None or cuts < best:
                best = cuts
    return best
