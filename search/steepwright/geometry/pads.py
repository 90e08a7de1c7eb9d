"""Pads laid in rows over a rectangle of floor: as much of it as can be, at the least cost.

Pads are not cut, all lie square to the wall, and all pads of a row are equally deep, so that no
gap is left inside the rows. Rows may run either way. Among all such layouts the best is found:
first the one that covers most of what is to be padded, then the cheapest, then the one with the
fewest pads. What hangs over is taken to be cut off the row where least is lost; with little clear
floor at both ends a little more may be. A layout that isn't in rows may be cheaper; it isn't looked
for.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

Range = tuple[int, int]
Used = tuple[int, ...]


class Pad(NamedTuple):
    """A kind of pad: sides [mm], price [cents], how many there are (None: any number)."""

    name: str
    length_mm: int
    width_mm: int
    price_cents: int
    limit: int | None


class Span(NamedTuple):
    """One direction of the floor: what is to be padded, and what is clear, around it [mm].

    Pads begin at the near end when `anchored`, else they lie in the middle.
    """

    wanted: Range
    clear: Range
    anchored: bool = False

    @property
    def size_mm(self) -> int:
        """Length to be padded [mm]."""
        return self.wanted[1] - self.wanted[0]

    @property
    def clear_mm(self) -> int:
        """Clear length [mm]."""
        return self.clear[1] - self.clear[0]

    def start_mm(self, length_mm: int) -> int:
        """Return where something begins that is to cover as much of the span as it can [mm]."""
        at = self.wanted[0] if self.anchored else (sum(self.wanted) - length_mm) // 2
        return self.pushed_in_mm(at, length_mm)

    def pushed_in_mm(self, at_mm: int, length_mm: int) -> int:
        """Return where something begins that is moved no further than the clear floor asks [mm]."""
        return max(self.clear[0], min(at_mm, self.clear[1] - length_mm))


class Laid(NamedTuple):
    """One pad on the floor: its kind and its ranges along both directions [mm]."""

    name: str
    out_mm: Range
    across_mm: Range


class Padding(NamedTuple):
    """A layout: pads, their price [cents] and the area covered of what was wanted [mm2]."""

    pads: tuple[Laid, ...]
    cost_cents: int
    covered_mm2: int


class _Row(NamedTuple):
    """A row: its depth, the pads in it (kind, run), and what it costs and covers."""

    depth_mm: int
    pads: tuple[tuple[int, int], ...]
    cost_cents: int
    covered_mm: int


@lru_cache(maxsize=4096)
def lay_pads(pads: tuple[Pad, ...], out: Span, across: Span) -> Padding:
    """Return the best layout of pads in rows.

    Parameters
    ----------
    pads
        Kinds of one thickness.
    out, across
        The floor away from the wall's foot and along it [mm].
    """
    covers, one = _stacked(pads, out, across)
    covers_turned, other = _stacked(pads, across, out)
    turned = Padding(
        tuple(Laid(p.name, p.across_mm, p.out_mm) for p in other.pads),
        other.cost_cents,
        other.covered_mm2,
    )
    ways = (covers, one), (covers_turned, turned)
    return min(ways, key=lambda way: (-way[0], way[1].cost_cents, len(way[1].pads)))[1]


@dataclass(frozen=True, slots=True)
class _Stack:
    """Rows laid so far: area, price, number of pads; the best of its depth and pads used."""

    covered_mm2: int
    cost_cents: int
    count: int
    rows: tuple[_Row, ...]

    @property
    def rank(self) -> tuple[object, ...]:
        """Better stacks have a smaller rank."""
        return (-self.covered_mm2, self.cost_cents, self.count, self.rows)


def _stacked(pads: tuple[Pad, ...], stack: Span, run: Span) -> tuple[int, Padding]:
    """Return the best stack of rows, and what it covers if it hangs over at one end alone."""
    depths = sorted({side for pad in pads for side in (pad.length_mm, pad.width_mm)})
    rows = [row for depth in depths for row in _rows(pads, depth, run)]
    none = tuple(0 for _ in pads)
    open_stacks: dict[tuple[int, Used], _Stack] = {(0, none): _Stack(0, 0, 0, ())}
    done: list[tuple[int, _Stack]] = []
    while open_stacks:
        depth, used = min(open_stacks)
        laid = open_stacks.pop((depth, used))
        done.append((depth, laid))
        if depth >= stack.size_mm:
            continue
        for row in rows:
            longer, more = depth + row.depth_mm, _plus(used, _kinds(row), pads)
            if longer > stack.clear_mm or more is None:
                continue
            fresh = min(row.depth_mm, stack.size_mm - depth) * row.covered_mm
            grown = _Stack(
                laid.covered_mm2 + fresh,
                laid.cost_cents + row.cost_cents,
                laid.count + len(row.pads),
                (*laid.rows, row),
            )
            known = open_stacks.get((longer, more))
            if known is None or grown.rank < known.rank:
                open_stacks[longer, more] = grown
    best_rank = min((-laid.covered_mm2, laid.cost_cents) for _, laid in done)
    arranged = [
        (depth, laid, *_arranged(laid.rows, stack))
        for depth, laid in done
        if (-laid.covered_mm2, laid.cost_cents) == best_rank
    ]
    _, best, covered, at, order = min(
        arranged, key=lambda item: (-item[2], item[1].count, item[4], item[0])
    )
    return best.covered_mm2, Padding(_placed(pads, order, at, run), best.cost_cents, covered)


def _arranged(rows: tuple[_Row, ...], stack: Span) -> tuple[int, int, tuple[_Row, ...]]:
    """Return the area that rows cover [mm2], where they begin [mm], and their order.

    What is too deep hangs over at both ends alike; or at one end alone, and there with the row
    that was laid last, where that covers more.
    """
    depth = sum(row.depth_mm for row in rows)
    ways = [(stack.start_mm(depth), rows)]
    if depth > stack.size_mm:
        ends = stack.wanted[0], stack.wanted[1] - depth
        near, far = (stack.pushed_in_mm(at, depth) for at in ends)
        ways += [(near, rows), (far, rows[::-1])]
    return max(((_covered_mm2(*way, stack), *way) for way in ways), key=lambda way: way[0])


def _covered_mm2(at: int, rows: tuple[_Row, ...], stack: Span) -> int:
    area = 0
    for row in rows:
        within = min(at + row.depth_mm, stack.wanted[1]) - max(at, stack.wanted[0])
        area += max(0, within) * row.covered_mm
        at += row.depth_mm
    return area


def _kinds(row: _Row) -> list[int]:
    return [kind for kind, _ in row.pads]


def _plus(used: Used, kinds: Iterable[int], pads: tuple[Pad, ...]) -> Used | None:
    """Return how many of each limited kind are used with some more; None when too many."""
    counts = list(used)
    for kind in kinds:
        limit = pads[kind].limit
        if limit is not None:
            counts[kind] += 1
            if counts[kind] > limit:
                return None
    return tuple(counts)


def _rows(pads: tuple[Pad, ...], depth_mm: int, run: Span) -> list[_Row]:
    """Return the rows of one depth worth laying: the cheapest per limited pads and cover."""
    options = [
        (kind, pad.width_mm if pad.length_mm == depth_mm else pad.length_mm)
        for kind, pad in enumerate(pads)
        if depth_mm in (pad.length_mm, pad.width_mm)
    ]
    none = tuple(0 for _ in pads)
    open_rows: dict[tuple[int, Used], _Row] = {(0, none): _Row(depth_mm, (), 0, 0)}
    best: dict[tuple[int, Used], _Row] = {}
    while open_rows:
        length, used = min(open_rows)
        row = open_rows.pop((length, used))
        if row.pads:
            key = row.covered_mm, used
            best[key] = min(best.get(key, row), row, key=_rank)
        if length >= run.size_mm:
            continue
        for kind, width in options:
            longer, more = length + width, _plus(used, (kind,), pads)
            if longer <= run.clear_mm and more is not None:
                chosen, cost = (*row.pads, (kind, width)), row.cost_cents + pads[kind].price_cents
                grown = _Row(depth_mm, chosen, cost, min(longer, run.size_mm))
                open_rows[longer, more] = min(
                    open_rows.get((longer, more), grown), grown, key=_rank
                )
    return [best[key] for key in sorted(best)]


def _rank(row: _Row) -> tuple[object, ...]:
    return (row.cost_cents, len(row.pads), row.pads)


def _placed(pads: tuple[Pad, ...], rows: tuple[_Row, ...], at: int, run: Span) -> tuple[Laid, ...]:
    laid = []
    for row in rows:
        along = run.start_mm(sum(width for _, width in row.pads))
        for kind, width in row.pads:
            laid.append(Laid(pads[kind].name, (at, at + row.depth_mm), (along, along + width)))
            along += width
        at += row.depth_mm
    return tuple(laid)
