"""The cheapest bars for a list of lengths: best-first search over what is still to be cut.

A state is what is still needed of each type, then how many bars are left of each limited offer.
Every solution has a bar with a piece of the longest type still needed, so only the patterns
with such a piece are tried next. The piece prices of `steepwright.cutting.dual` give a bound on
the rest of any state, so the first complete state taken from the queue is a proven optimum (A*;
Hart, Nilsson and Raphael 1968). Pieces beyond the need are waste, so maximal patterns suffice.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left
from functools import lru_cache

import numpy as np

from steepwright.cutting.dual import SCALE, IntArray, maximise, piece_prices
from steepwright.cutting.patterns import BarOffer, BarType, Pattern, all_patterns

BARRED = 1 << 60
"""More cents than any plan costs: marks a bar of which none is left."""

State = tuple[int, ...]


@lru_cache(maxsize=64)
def price_sums(prices: tuple[int, ...], top: int) -> tuple[int, ...]:
    """Return all sums of the prices, each taken any number of times, from 0 to `top` cents."""
    reached = {0}
    front = [0]
    while front:
        front = sorted({s + p for s in front for p in prices if s + p <= top} - reached)
        reached.update(front)
    return tuple(sorted(reached))


class BarSearch:
    """One list of lengths, its patterns and piece prices, and the search over it."""

    def __init__(self, types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> None:
        self.patterns = all_patterns(types, offers)
        self._capped = [i for i, o in enumerate(offers) if o.limit is not None]
        self._types = len(types)
        self.start: State = (
            *(t.needed for t in types),
            *(offers[i].limit or 0 for i in self._capped),
        )
        self._rows = self._matrix(self.patterns)
        self._cents: IntArray = np.array(
            [offers[p.offer].price for p in self.patterns], dtype=np.int64
        )
        self._signs = np.array([1] * len(types) + [-1] * len(self._capped), dtype=np.int64)
        self._prices = self._dual()
        self._sums = self._price_sums(offers)
        self._with = [np.flatnonzero(self._rows[:, t] > 0) for t in range(len(types))]

    def _matrix(self, patterns: list[Pattern]) -> IntArray:
        rows = np.zeros((len(patterns), len(self.start)), dtype=np.int64)
        for row, (pieces, offer) in zip(rows, patterns, strict=True):
            row[: self._types] = pieces
            if offer in self._capped:
                row[self._types + self._capped.index(offer)] = 1
        return rows

    def _dual(self) -> IntArray:
        if not self.patterns:
            return np.zeros(len(self.start), dtype=np.int64)
        rows, gains = self._rows * self._signs, np.array(self.start, dtype=np.int64) * self._signs
        proposal, _ = maximise(rows, self._cents, gains)
        return piece_prices(rows, self._cents, proposal) * self._signs

    def _price_sums(self, offers: tuple[BarOffer, ...]) -> tuple[int, ...]:
        prices = sorted({offers[p.offer].price for p in self.patterns} - {0})
        return price_sums(tuple(prices), 3 * prices[-1]) if prices else (0,)

    def _at_least(self, worth: int) -> int:
        """Return the least cents that bars can cost when the pieces left are worth `worth`."""
        cents = max(0, -(-worth // SCALE))
        if cents > self._sums[-1]:
            return cents
        return self._sums[bisect_left(self._sums, cents)]

    def lower_bound_cents(self) -> int:
        """Return the bound [cents] that the piece prices prove for the whole list."""
        return self._at_least(int(np.dot(self._prices, self.start)))

    def solve(self) -> tuple[int, tuple[int, ...]] | None:
        """Return the least cost [cents] and the patterns that make it, None when there is none."""
        self._came: dict[State, tuple[State, int] | None] = {self.start: None}
        spent = {self.start: 0}
        queue = [(self.lower_bound_cents(), sum(self.start), 0, self.start)]
        while queue:
            least, _, cents, state = heapq.heappop(queue)
            if cents > spent[state]:
                continue
            if not any(state[: self._types]):
                return cents, self._chain(state)
            later = BARRED
            for total, after, index in self._steps(state, cents):
                if total > least:
                    later = min(later, total)
                    continue
                paid = cents + int(self._cents[index])
                if paid < spent.get(after, BARRED):
                    spent[after] = paid
                    self._came[after] = (state, index)
                    heapq.heappush(queue, (total, sum(after[: self._types]), paid, after))
            if later < BARRED:
                heapq.heappush(queue, (int(later), sum(state[: self._types]), cents, state))
        return None

    def _steps(self, state: State, cents: int) -> list[tuple[int, State, int]]:
        lead = next(i for i, n in enumerate(state) if n)
        which = self._with[lead]
        rest = np.array(state, dtype=np.int64) - self._rows[which]
        np.maximum(rest[:, : self._types], 0, out=rest[:, : self._types])
        allowed = (rest >= 0).all(axis=1)
        which, rest = which[allowed], rest[allowed]
        worth = rest @ self._prices
        return [
            (cents + int(self._cents[i]) + self._at_least(w), tuple(r), int(i))
            for i, w, r in zip(which, worth.tolist(), rest.tolist(), strict=True)
        ]

    def _chain(self, state: State) -> tuple[int, ...]:
        chain = []
        step = self._came[state]
        while step is not None:
            state, index = step
            chain.append(index)
            step = self._came[state]
        return tuple(reversed(chain))
