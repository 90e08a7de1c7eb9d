"""The cheapest bars for a list of lengths: best-first over what is still to be cut.

Every plan has a bar with a piece of the longest type still needed, so only the uses with such a
piece are tried next. Piece prices (`steepwright.cutting.dual`) bound the rest of any state from
below, so the first finished state taken from the queue has the least cost (A*; Hart, Nilsson
and Raphael 1968) of all plans in which short pieces are poured. When they really fit, that plan
is a proven optimum. When not, all plans of that cost are tried, then all of the next possible
cost, and so on.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left, bisect_right
from typing import NamedTuple

from steepwright.cutting.barlist import BarList, BarOffer, BarType, Counts, bar_list
from steepwright.cutting.barpack import pack
from steepwright.cutting.bartable import BarTable, Option, State, Step
from steepwright.cutting.pouring import by_length, by_worth

BARRED = 1 << 60
"""More cents than any plan costs."""

MANY_BARS = 8
"""From this many whole bars in the linear program's solution on, rounding it is tried first."""


class Bar(NamedTuple):
    """One bar of a plan: the offer, and the pieces of each type, long and short."""

    offer: int
    pieces: Counts


class BarSolution(NamedTuple):
    """A proven cheapest set of bars and its cost [cents]."""

    cents: int
    bars: tuple[Bar, ...]


def solve_bars(types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> BarSolution | None:
    """Return the cheapest bars for the types, None when there are none.

    Parameters
    ----------
    types
        Lengths inflated by the kerf, longest first, with their counts.
    offers
        Stock lengths inflated by the kerf, prices and limits.
    """
    bars = bar_list(types, offers)
    table = BarTable(bars, by_length(bars))
    rounded = _rounded(bars, table)
    if rounded is not None:
        return rounded
    solution, least = _poured(bars, table, 0)
    if solution is not None or least >= BARRED or not bars.short:
        return solution
    table = BarTable(bars, by_worth(bars))
    solution, better = _poured(bars, table, least)
    if solution is not None:
        return solution
    return _swept(bars, table, max(least, better))


def _poured(bars: BarList, table: BarTable, least: int) -> tuple[BarSolution | None, int]:
    """Return the cheapest plan with short pieces poured, if they really fit, and its cost.

    No real plan costs less than `least`.
    """
    found = _cheapest(table, table.start, least)
    if found is None:
        return None, BARRED
    cents, options = found
    fitted = _fitted(bars, options)
    return (None if fitted is None else BarSolution(cents, fitted)), cents


def _swept(bars: BarList, table: BarTable, cents: int) -> BarSolution | None:
    """Return the cheapest plan, known to cost at least `cents`, by trying all plans."""
    return _Sweep(bars, table).run(cents)


def _cheapest(table: BarTable, start: State, least: int) -> tuple[int, tuple[Option, ...]] | None:
    """Return cost and uses of the cheapest plan from a state on, short pieces poured.

    Bounds below `least` count as `least`, so a plan of that cost is found straight on.
    """
    came: dict[State, tuple[State, Option] | None] = {start: None}
    spent = {start: 0}
    settled: dict[int, _Staircase] = {}
    queue = [(max(least, table.least_cents(start)), start[2], 0, start)]
    while queue:
        _, _, cents, state = heapq.heappop(queue)
        if table.finished(state):
            return cents, _chain(came, state)
        if not settled.setdefault(state[0], _Staircase()).improved_by(cents, state[1]):
            continue
        for bound, after, option in table.steps(state):
            paid = cents + option.price
            if paid < spent.get(after, BARRED):
                spent[after] = paid
                came[after] = (state, option)
                heapq.heappush(queue, (max(least, paid + bound), after[2], paid, after))
    return None


class _Staircase:
    """Pairs (cost, still to be poured) none of which is at least as good as another in both."""

    __slots__ = ("_costs", "_pours")

    def __init__(self) -> None:
        self._costs: list[int] = []
        self._pours: list[int] = []

    def improved_by(self, cost: int, pour: int) -> bool:
        """Add a pair unless one is at least as good; costs ascend, so pours descend."""
        costs, pours = self._costs, self._pours
        place = bisect_right(costs, cost)
        if place and pours[place - 1] <= pour:
            return False
        worse = bisect_left(costs, cost)
        end = worse
        while end < len(pours) and pours[end] >= pour:
            end += 1
        costs[worse:end], pours[worse:end] = [cost], [pour]
        return True


def _chain(came: dict[State, tuple[State, Option] | None], state: State) -> tuple[Option, ...]:
    chain = []
    step = came[state]
    while step is not None:
        state, option = step
        chain.append(option)
        step = came[state]
    return tuple(reversed(chain))


def _fitted(bars: BarList, options: tuple[Option, ...]) -> tuple[Bar, ...] | None:
    """Return the bars with short pieces in their rooms, None when these don't fit."""
    uses = [bars.uses[o.use] for o in options]
    packed = pack(bars.short, tuple(use.room for use in uses))
    if packed is None:
        return None
    return tuple(
        Bar(use.offer, use.pieces + short) for use, short in zip(uses, packed, strict=True)
    )


def _rounded(bars: BarList, table: BarTable) -> BarSolution | None:
    """Return the linear program's whole bars with the rest solved, if that meets the bound."""
    if sum(table.whole) < MANY_BARS:
        return None
    chosen: list[Option] = []
    state = table.start
    for option in table.all_options():
        for _ in range(table.whole[option.use]):
            for _, after, _ in table.steps(state, [option]):
                state = after
                chosen.append(option)
    found = _cheapest(table, state, 0)
    if found is None:
        return None
    cents = sum(o.price for o in chosen) + found[0]
    if cents > table.least_cents(table.start):
        return None
    fitted = _fitted(bars, (*chosen, *found[1]))
    return None if fitted is None else BarSolution(cents, fitted)


class _Sweep:
    """Goes through the plans with short pieces poured, the cheapest first, each in one order.

    A plan's uses come in the order of the list, so from use `first` on only later ones follow.
    """

    def __init__(self, bars: BarList, table: BarTable) -> None:
        self._bars, self._table = bars, table
        # No plan needs more bars than pieces, not even where a bar is free.
        self._most_bars = sum(t.needed for t in bars.long + bars.short)
        self._floors: dict[tuple[State, int], int] = {}
        self._done_for: dict[tuple[State, int], int] = {}
        self._next: dict[State, list[Step]] = {}

    def run(self, least: int) -> BarSolution | None:
        """Return the first plan whose short pieces really fit; it costs at least `least`."""
        start = self._table.start
        queue: list[tuple[int, int, int, State, tuple[Option, ...]]] = [(least, 0, 0, start, ())]
        number = 0
        while queue:
            least, _, paid, state, chosen = heapq.heappop(queue)
            first = chosen[-1].use if chosen else 0
            floor = self._floor(state, first, least - paid)
            if floor > least - paid:
                if floor < BARRED:
                    number -= 1
                    heapq.heappush(queue, (paid + floor, number, paid, state, chosen))
                continue
            options = None
            if self._table.finished(state):
                fitted = _fitted(self._bars, chosen)
                if fitted is not None:
                    return BarSolution(paid, fitted)
                # Short pieces that don't fit may want one more bar than the liquid does.
                options = self._table.fillers()
            if len(chosen) == self._most_bars:
                continue
            for bound, after, option in self._table.steps(state, options):
                if option.use >= first:
                    total = max(least, paid + option.price + bound)
                    number -= 1
                    heapq.heappush(
                        queue, (total, number, paid + option.price, after, (*chosen, option))
                    )
        return None

    def _floor(self, state: State, first: int, budget: int) -> int:
        """Return a lower bound on finishing the state; if not above `budget`, it can be done."""
        key = state, first
        known = self._floors.get(key)
        if known is None:
            known = self._table.least_cents(state)
        if known > budget or self._table.finished(state):
            return known
        if self._done_for.get(key, BARRED) <= budget:
            return known
        least = BARRED
        for bound, after, option in self._steps(state):
            left = budget - option.price
            # A use that leaves all as it was (short pieces worth nothing) only costs.
            if option.use < first or after == state:
                continue
            floor = bound if bound > left else self._floor(after, option.use, left)
            if floor <= left:
                self._done_for[key] = budget
                return known
            least = min(least, option.price + floor)
        self._floors[key] = least
        return least

    def _steps(self, state: State) -> list[Step]:
        """Return the next steps, the most hopeful first; kept, for states come up often."""
        steps = self._next.get(state)
        if steps is None:
            steps = sorted(self._table.steps(state), key=lambda s: s[0] + s[2].price)
            self._next[state] = steps
        return steps
