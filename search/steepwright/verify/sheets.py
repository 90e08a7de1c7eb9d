"""The least cost of sheets for a cut list whose sizes may lie in ranges, by exhaustion.

Every saw pattern is a tree of two-way cuts. For each choice of parts the checker keeps what can
be sawn from them as blocks (cuts, w, h, W, H): with that many cuts at any size from w x h to
W x H, and with one cut more per side that is larger still. Joining two blocks side by side adds
one side and takes the larger of the other; when that is more than one of them reaches, a trim
is added. A block is dropped when another needs no more room, and no more cuts wherever it can
be made. Parts in ranges may each take any size of theirs, so the cost found bounds every cut
list within the ranges from below; sides count one kerf more, so joined sides simply add.
"""

from __future__ import annotations

from collections import Counter
from functools import lru_cache
from math import inf
from typing import Any, NamedTuple

Document = dict[str, Any]

Block = tuple[int, float, float, float, float]
"""Cuts, least sides, greatest sides."""

Counts = tuple[int, ...]


class Part(NamedTuple):
    """Least and greatest sides along and across the face grain [mm]; `turns` if either way."""

    u: int
    v: int
    u_most: float
    v_most: float
    turns: bool


class Stock(NamedTuple):
    """A sheet: sides along and across its face grain [mm], prices [cents], how many there are.

    Of the cuts in each of them the first `free_cuts` cost nothing.
    """

    u: int
    v: int
    price_cents: int
    cut_cents: int
    limit: int | None
    free_cuts: int = 0


def stock_of(row: Document) -> Stock:
    """Return one offer of sheets in the grain's frame."""
    sides = row["length_mm"], row["width_mm"]
    u, v = sides if row["face_grain"] == "length" else sides[::-1]
    return Stock(u, v, row["price_cents"], row["cut_cents"], row["limit"], row.get("free_cuts", 0))


def part_of(least: tuple[int, int], most: tuple[int, int], grain: str) -> Part:
    """Return a part from its least and greatest (length, width) [mm] and its grain need."""
    (u, v), (u_most, v_most) = least, most
    if grain == "width":
        u, v, u_most, v_most = v, u, v_most, u_most
    turns = grain == "any" and (u, u_most) != (v, v_most)
    if turns and (u, u_most) < (v, v_most):
        u, v, u_most, v_most = v, u, v_most, u_most
    return Part(u, v, u_most, v_most, turns)


def least_cost(parts: list[Part], stocks: tuple[Stock, ...], kerf_mm: int) -> int | None:
    """Return the least cost [cents] of sheets and cuts; None when the parts can't be sawn."""
    if not parts:
        return 0
    if not any(stock.cut_cents for stock in stocks):
        parts = [part._replace(u_most=inf, v_most=inf) for part in parts]
    counted = sorted(Counter(parts).items(), reverse=True)
    kinds, counts = tuple(p for p, _ in counted), tuple(n for _, n in counted)
    return _cost(kinds, counts, stocks, kerf_mm)


@lru_cache(maxsize=4096)
def _cost(
    kinds: tuple[Part, ...], counts: Counts, stocks: tuple[Stock, ...], kerf_mm: int
) -> int | None:
    sizes = tuple(sorted({(stock.u, stock.v) for stock in stocks}))
    if not sizes:
        return None
    cuts = _cuts(kinds, counts, sizes, kerf_mm)
    return _cheapest(counts, tuple(sorted(cuts.items())), sizes, stocks)


@lru_cache(maxsize=4096)
def _cheapest(
    counts: Counts,
    cuts: tuple[tuple[int, tuple[int | None, ...]], ...],
    sizes: tuple[tuple[int, int], ...],
    stocks: tuple[Stock, ...],
) -> int | None:
    """Return the least cost; lists of other sizes whose parts go together alike share it."""
    return _Cover(counts, dict(cuts), sizes, stocks).least()


@lru_cache(maxsize=4096)
def _cuts(
    kinds: tuple[Part, ...], counts: Counts, sizes: tuple[tuple[int, int], ...], kerf_mm: int
) -> dict[int, tuple[int | None, ...]]:
    """Return per choice of parts, by code, the fewest cuts that free them from each sheet."""
    rooms = [(u + kerf_mm, v + kerf_mm) for u, v in sizes]
    large = _largest(rooms)
    blocks: dict[int, list[Block]] = {}
    found: dict[int, tuple[int | None, ...]] = {}
    for code, singles, halves in _choices(counts):
        made: set[Block] = set()
        if not halves:
            lying = _lying(kinds[singles[0]], kerf_mm)
            made.update(block for block in lying if _goes_in(block[1], block[2], large))
        for one, other in halves:
            if one in blocks and other in blocks:
                _join(blocks[one], blocks[other], large, made)
        kept = _undominated(made)
        if kept:
            blocks[code] = kept
            found[code] = tuple(_fewest(kept, room) for room in rooms)
    return found


Rooms = list[tuple[int, int]]


def _largest(rooms: Rooms) -> Rooms:
    """Return the rooms that lie within no other: the longest first, the widest last."""
    kept: Rooms = []
    for u, v in sorted(set(rooms), reverse=True):
        if not kept or v > kept[-1][1]:
            kept.append((u, v))
    return kept


def _goes_in(u: float, v: float, rooms: Rooms) -> bool:
    for most_u, most_v in rooms:  # noqa: SIM110  asked a million times, a generator takes twice as long
        if u <= most_u and v <= most_v:
            return True
    return False


def _lying(part: Part, kerf_mm: int) -> list[Block]:
    u, v = part.u + kerf_mm, part.v + kerf_mm
    u_most, v_most = part.u_most + kerf_mm, part.v_most + kerf_mm
    ways: list[Block] = [(0, u, v, u_most, v_most)]
    return [*ways, (0, v, u, v_most, u_most)] if part.turns else ways


def _join(left: list[Block], right: list[Block], rooms: Rooms, made: set[Block]) -> None:
    """Add all joins of two lists of blocks, across and along, that go into some room."""
    most_u, most_v = rooms[0][0], rooms[-1][1]
    add = made.add
    for c, w, h, big_w, big_h in left:
        for d, x, y, big_x, big_y in right:
            side, low = w + x, h if h > y else y
            if side <= most_u and low <= most_v and _goes_in(side, low, rooms):
                near, far = (big_h, big_y) if big_h < big_y else (big_y, big_h)
                if low <= near:
                    add((c + d + 1, side, low, big_w + big_x, near))
                if near < far:
                    add((c + d + 2, side, low, big_w + big_x, far))
            side, low = h + y, w if w > x else x
            if low <= most_u and side <= most_v and _goes_in(low, side, rooms):
                near, far = (big_w, big_x) if big_w < big_x else (big_x, big_w)
                if low <= near:
                    add((c + d + 1, low, side, near, big_h + big_y))
                if near < far:
                    add((c + d + 2, low, side, far, big_h + big_y))


def _undominated(blocks: set[Block]) -> list[Block]:
    kept: list[Block] = []
    for block in sorted(blocks, key=lambda b: (b[0], b[1], b[2], -b[3], -b[4])):
        cuts, w, h, big_w, big_h = block
        for c, x, y, big_x, big_y in kept:
            if x <= w and y <= h and c + (big_x < big_w) + (big_y < big_h) <= cuts:
                break
        else:
            kept.append(block)
    return kept


def _fewest(blocks: list[Block], room: tuple[int, int]) -> int | None:
    u, v = room
    fits = [c + (w < u) + (h < v) for c, x, y, w, h in blocks if x <= u and y <= v]
    return min(fits, default=None)


Choice = tuple[int, tuple[int, ...], tuple[tuple[int, int], ...]]


@lru_cache(maxsize=256)
def _choices(counts: Counts) -> tuple[Choice, ...]:
    """Return every choice of parts, parts before wholes: its code, its kinds, its two halves.

    A code is a number in mixed radix, one digit per kind.
    """
    weights = _weights(counts)
    every = [0]
    for count, weight in zip(counts, weights, strict=True):
        every = [code + n * weight for n in range(count + 1) for code in every]
    digits = {code: _digits(code, counts) for code in every}
    found = []
    for code in sorted(every, key=lambda c: (sum(digits[c]), c))[1:]:
        has = digits[code]
        kinds = tuple(i for i, n in enumerate(has) if n)
        inside = [c for c in every if all(a <= b for a, b in zip(digits[c], has, strict=True))]
        halves = tuple((c, code - c) for c in inside if 0 < c <= code - c)
        found.append((code, kinds, halves))
    return tuple(found)


def _weights(counts: Counts) -> list[int]:
    weights = [1]
    for count in counts[:-1]:
        weights.append(weights[-1] * (count + 1))
    return weights


def _digits(code: int, counts: Counts) -> Counts:
    digits = []
    for count in counts:
        code, digit = divmod(code, count + 1)
        digits.append(digit)
    return tuple(digits)


@lru_cache(maxsize=4096)
def _within(code: int, counts: Counts) -> frozenset[int]:
    """Return the codes of all choices inside one."""
    codes = [0]
    for digit, weight in zip(_digits(code, counts), _weights(counts), strict=True):
        codes = [c + n * weight for n in range(digit + 1) for c in codes]
    return frozenset(codes)


class _Cover:
    """The cheapest sheets that hold every part: any number of some, single copies of others."""

    def __init__(
        self,
        counts: Counts,
        cuts: dict[int, tuple[int | None, ...]],
        sizes: tuple[tuple[int, int], ...],
        stocks: tuple[Stock, ...],
    ) -> None:
        self._counts = counts
        self._full = sum(n * w for n, w in zip(counts, _weights(counts), strict=True))
        parts = sum(counts)
        free = [s for s in stocks if s.limit is None or s.limit >= parts]
        self._free = self._prices(cuts, sizes, free)
        self._copies: list[dict[int, int]] = []
        for stock in stocks:
            if stock not in free:
                self._copies += [self._prices(cuts, sizes, [stock])] * (stock.limit or 0)
        self._known: dict[tuple[int, int], int | None] = {}

    @staticmethod
    def _prices(
        cuts: dict[int, tuple[int | None, ...]],
        sizes: tuple[tuple[int, int], ...],
        stocks: list[Stock],
    ) -> dict[int, int]:
        """Return what one sheet with a choice of parts costs at least, by the choice's code."""
        found = {}
        for code, per_size in cuts.items():
            costs = []
            for stock in stocks:
                number = per_size[sizes.index((stock.u, stock.v))]
                if number is not None:
                    charged = max(0, number - stock.free_cuts)
                    costs.append(stock.price_cents + stock.cut_cents * charged)
            if costs:
                found[code] = min(costs)
        return found

    def least(self) -> int | None:
        """Return the least cost of all parts."""
        return self._least(len(self._copies), self._full)

    def _least(self, copies: int, code: int) -> int | None:
        if code == 0:
            return 0
        key = copies, code
        if key not in self._known:
            self._known[key] = self._solve(copies, code)
        return self._known[key]

    def _solve(self, copies: int, code: int) -> int | None:
        inside = _within(code, self._counts)
        if copies:
            prices, after, best = (
                self._copies[copies - 1],
                copies - 1,
                self._least(copies - 1, code),
            )
            tried = [c for c in inside if c in prices]
        else:
            # Some sheet holds a part of the first kind that is still there.
            prices, after, best = self._free, 0, None
            digits = _digits(code, self._counts)
            first = next(i for i, n in enumerate(digits) if n)
            tried = [c for c in inside if c in prices and _digits(c, self._counts)[first]]
        for choice in tried:
            rest = self._least(after, code - choice)
            if rest is not None and (best is None or prices[choice] + rest < best):
                best = prices[choice] + rest
        return best
