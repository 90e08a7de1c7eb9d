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

from typing import NamedTuple

from steepwright.cutting.lattice import Lattice

Block = tuple[int, int, int, int, int]


class PartType(NamedTuple):
    """Equal parts by size alone, in the grain's frame: u along the face grain, v across it [mm].

    `turns` says that the part may also lie the other way.
    """

    u_lo: int
    v_lo: int
    u_hi: int
    v_hi: int
    turns: bool


class SheetSize(NamedTuple):
    """A sheet's sides along and across its face grain [mm]."""

    u: int
    v: int


def part_blocks(part: PartType, kerf_mm: int) -> list[Block]:
    """Return the blocks that are the part itself, one for each way it may lie."""
    u, v, big_u, big_v = (side + kerf_mm for side in part[:4])
    blocks = [(0, u, v, -big_u, -big_v)]
    if part.turns:
        blocks.append((0, v, u, -big_v, -big_u))
    return blocks


def joined(left: list[Block], right: list[Block], room: SheetSize) -> set[Block]:
    """Return all joins of two lists of blocks, across and along, that are within `room`."""
    made: set[Block] = set()
    add = made.add
    most_u, most_v = room
    for c, w, h, nw, nh in left:
        for d, x, y, nx, ny in right:
            cuts = c + d + 1
            if w + x <= most_u:
                low = h if h > y else y
                if nh == ny:
                    add((cuts, w + x, low, nw + nx, nh))
                else:
                    small, large = (nh, ny) if nh > ny else (ny, nh)
                    if low + small <= 0:
                        add((cuts, w + x, low, nw + nx, small))
                    add((cuts + 1, w + x, low, nw + nx, large))
            if h + y <= most_v:
                low = w if w > x else x
                if nw == nx:
                    add((cuts, low, h + y, nw, nh + ny))
                else:
                    small, large = (nw, nx) if nw > nx else (nx, nw)
                    if low + small <= 0:
                        add((cuts, low, h + y, small, nh + ny))
                    add((cuts + 1, low, h + y, large, nh + ny))
    return made


def undominated(blocks: set[Block] | list[Block], sheets: tuple[SheetSize, ...]) -> list[Block]:
    """Return the blocks that fit a sheet (sides inflated) and that no other stands in for.

    Sorted, a block that stands in for another comes before it, so one pass is enough.
    """
    kept: list[Block] = []
    for block in sorted(blocks):
        cuts, w, h, nw, nh = block
        for u, v in sheets:
            if w <= u and h <= v:
                break
        else:
            continue
        for c, x, y, nx, ny in kept:
            if x <= w and y <= h and c + (nx > nw) + (ny > nh) <= cuts:
                break
        else:
            kept.append(block)
    return kept


def largest_sheets(sheets: tuple[SheetSize, ...], kerf_mm: int) -> tuple[SheetSize, ...]:
    """Return the sheets, inflated by the kerf, that lie within no other."""
    sizes = sorted({SheetSize(u + kerf_mm, v + kerf_mm) for u, v in sheets}, reverse=True)
    kept: list[SheetSize] = []
    for size in sizes:
        if not kept or size.v > kept[-1].v:
            kept.append(size)
    return tuple(kept)


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
    room = largest_sheets(sheets, kerf_mm)
    box = SheetSize(max(s.u for s in room), max(s.v for s in room))
    most_area = max(s.u * s.v for s in room)
    areas = [(p.u_lo + kerf_mm) * (p.v_lo + kerf_mm) for p in parts]
    found: dict[int, list[Block]] = {}
    for unit, part in zip(grid.units, parts, strict=True):
        leaves = undominated(part_blocks(part, kerf_mm), room)
        if leaves:
            found[unit] = leaves
    for code in grid.states:
        if code == 0 or code in grid.units:
            continue
        # A list fits only if it still fits with any one part taken away, and by area.
        if not all(fewer in found for fewer in grid.one_fewer(code)):
            continue
        if sum(n * a for n, a in zip(grid.digits(code), areas, strict=True)) > most_area:
            continue
        made: set[Block] = set()
        for one, other in grid.splits(code):
            if one in found and other in found:
                made |= joined(found[one], found[other], box)
        kept = undominated(made, room)
        if kept:
            found[code] = kept
    return found


def least_cuts(blocks: list[Block], sheet: SheetSize, kerf_mm: int) -> int | None:
    """Return the fewest cuts that free the parts from one sheet, None when they don't fit it."""
    best = None
    u, v = sheet.u + kerf_mm, sheet.v + kerf_mm
    for c, w, h, nw, nh in blocks:
        if w <= u and h <= v:
            cuts = c + (-nw < u) + (-nh < v)
            if best is None or cuts < best:
                best = cuts
    return best
