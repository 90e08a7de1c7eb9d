"""Proof that no bars for a list of lengths cost less than stated, by piece prices and trial.

Piece prices come from the certificate. The checker makes sure that no bar can hold pieces worth
more than it costs; then what is still to be cut costs at least its worth, rounded up to a sum of
bar prices. Where that is not enough it tries every way to fill bars, the longest piece first,
and gives up a way as soon as what is spent and the worth of the rest reach the stated cost.
Limits on the number of bars are left out, which only lowers the cost.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache
from typing import NamedTuple

import numpy as np

SCALE = 1 << 20
"""Piece prices are in units of 1 / SCALE cent."""

MOST_TRIALS = 200_000
"""Ways to fill bars that are tried before the proof counts as not done."""

MOST_SUMS = 100_000
"""Sums of bar prices that are kept; with more of them costs are not rounded up to one."""

Counts = tuple[int, ...]


class Need(NamedTuple):
    """Lengths with one kerf each [mm], longest first, and how many of each are needed."""

    lengths: tuple[int, ...]
    counts: Counts


class Bars(NamedTuple):
    """Bars with one kerf each [mm], and their prices [cents]."""

    lengths: tuple[int, ...]
    prices: tuple[int, ...]


def worths_hold(need: Need, bars: Bars, worths: tuple[int, ...]) -> bool:
    """Tell whether no bar holds pieces worth more than its price: a knapsack per length.

    `value[l]` is the largest worth of pieces, each at most as often as needed, within l mm.
    """
    if len(worths) != len(need.lengths) or any(w < 0 for w in worths):
        return False
    value = np.zeros(max(bars.lengths) + 1, dtype=np.int64)
    for length, count, worth in zip(*need, worths, strict=True):
        for times in range(min(count, (len(value) - 1) // length)):
            grown = value.copy()
            np.maximum(value[length:], value[:-length] + worth, out=grown[length:])
            if times and np.array_equal(grown, value):
                break
            value = grown
    pairs = zip(bars.lengths, bars.prices, strict=True)
    return all(int(value[length]) <= price * SCALE for length, price in pairs)


@lru_cache(maxsize=256)
def _sums(prices: tuple[int, ...], most: int) -> tuple[int, ...]:
    """Return every sum of bar prices up to `most` and one beyond; none if they are too many."""
    reached = {0}
    front = {0}
    while front:
        front = {s + p for s in front for p in prices if p and s <= most} - reached
        reached |= front
        if len(reached) > MOST_SUMS:
            return ()
    return tuple(sorted(reached))


def cost_at_least(need: Need, bars: Bars, worths: tuple[int, ...], cents: int) -> bool:
    """Tell whether it is proven that the lengths cost at least so much [cents]."""
    if not bars.lengths or need.lengths[0] > max(bars.lengths):
        return True
    return worths_hold(need, bars, worths) and _Trial(need, bars, worths, cents).nothing_cheaper()


class _Trial:
    """Every way to fill bars with what is needed, given up where it can't be cheaper."""

    def __init__(self, need: Need, bars: Bars, worths: tuple[int, ...], cents: int) -> None:
        self._need, self._worths = need, worths
        self._bars = sorted(zip(bars.lengths, bars.prices, strict=True), key=lambda b: -b[0])
        self._cents = cents
        self._sums = _sums(tuple(sorted(set(bars.prices))), cents + max(bars.prices))
        self._tried = 0
        self._shown: dict[Counts, int] = {}

    def nothing_cheaper(self) -> bool:
        """Tell whether no way costs less than the stated cents."""
        return self._shows(self._need.counts, 0)

    def _shows(self, left: Counts, spent: int) -> bool:
        if not any(left):
            return spent >= self._cents
        worth = self._worth(left)
        if spent + self._least(worth) >= self._cents:
            return True
        if self._shown.get(left, self._cents + 1) <= spent:
            return True
        self._tried += 1
        if self._tried > MOST_TRIALS:
            return False
        for length, price in self._bars:
            for taken in fillings(self._need.lengths, left, length):
                if spent + price + self._least(worth - self._worth(taken)) >= self._cents:
                    continue
                rest = tuple(a - b for a, b in zip(left, taken, strict=True))
                if not self._shows(rest, spent + price):
                    return False
        self._shown[left] = spent
        return True

    def _worth(self, pieces: Counts) -> int:
        return sum(n * w for n, w in zip(pieces, self._worths, strict=True))

    def _least(self, worth: int) -> int:
        """Return the least sum of bar prices [cents] that pieces of some worth can cost."""
        cents = -(-worth // SCALE)
        at = bisect_left(self._sums, cents)
        return self._sums[at] if at < len(self._sums) else cents


def fillings(lengths: tuple[int, ...], left: Counts, room: int) -> list[Counts]:
    """Return the fillings of a bar with a longest piece to which no piece left can be added."""
    first = next(i for i, n in enumerate(left) if n)
    found: list[tuple[Counts, int]] = [((), room)]
    for i, (length, count) in enumerate(zip(lengths, left, strict=True)):
        grown = []
        for taken, free in found:
            least = 1 if i == first else 0
            most = min(count, free // length)
            grown += [((*taken, n), free - n * length) for n in range(least, most + 1)]
        found = grown
    return [
        taken
        for taken, free in found
        if all(t == n or length > free for t, n, length in zip(taken, left, lengths, strict=True))
    ]
