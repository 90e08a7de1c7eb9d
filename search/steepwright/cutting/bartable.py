"""The bar search's table: every use of a bar, packed, and prices that bound the rest."""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from steepwright.cutting.barlist import BarList
from steepwright.cutting.dual import SHIFT, IntArray, maximise, piece_prices
from steepwright.cutting.lattice import Packing
from steepwright.cutting.pouring import Pour

State = tuple[int, int, int]
"""What is left: long pieces and limited bars (packed), short pieces to be poured, their worth.

The worth, in units of 2**-SHIFT cent at the piece prices, bounds the cost of the rest. A plain
tuple, because the search makes hundreds of thousands.
"""


class Option(NamedTuple):
    """A use of a bar: what it takes from a state (packed), what it pours, its price [cents].

    `worth` is what its long pieces are worth, less the worth of a limited bar; `use` says
    which use of the list it is.
    """

    code: int
    amount: int
    price: int
    worth: int
    use: int


Step = tuple[int, State, Option]
"""A lower bound on the cost of the rest after a use [cents], the state after it, and the use."""


@lru_cache(maxsize=64)
def price_sums(prices: tuple[int, ...]) -> tuple[int, ...]:
    """Return all sums of the prices, each taken any number of times, up to 3 x the largest."""
    top = 3 * max(prices, default=0)
    reached = {0}
    front = {0}
    while front:
        front = {s + p for s in front for p in prices if s + p <= top} - reached
        reached |= front
    return tuple(sorted(reached))


class BarTable:
    """All uses of a bar for a list of lengths, with short pieces poured.

    Attributes
    ----------
    start
        The state in which nothing is cut.
    whole
        For each use, how often the linear program's solution takes it, rounded down.
    """

    def __init__(self, bars: BarList, pour: Pour) -> None:
        self._bars, self._pour = bars, pour
        self._long, self._capped = bars.long, bars.capped
        self._counts = (
            *(t.needed for t in bars.long),
            *(bars.offers[i].limit or 0 for i in self._capped),
        )
        self._packing = Packing(self._counts)
        self._guards = self._packing.guards
        # The long types' fields come first, so they are the bits below the first limit's field.
        beyond = (*self._packing.units, 1 << self._packing.full.bit_length())
        self._long_mask = beyond[len(self._long)] - 1
        self._type_bit = {
            unit << bit: unit
            for unit, count in zip(self._packing.units, self._counts, strict=True)
            for bit in range(count.bit_length())
        }
        self._sums = price_sums(tuple(sorted({u.price for u in bars.uses} - {0})))
        rows = self._rows()
        prices = self._piece_prices(rows)
        self._per_mm = int(prices[-1])
        gains = [n * s for n, s in zip(self._counts, self._signs(), strict=True)]
        worth = int(prices[:-1] @ np.array(gains, dtype=np.int64)) + self._per_mm * pour.total
        self.start: State = (self._packing.full, pour.total, worth)
        self._options = self._grouped((rows[:, :-1] @ prices[:-1]).tolist())

    def _signs(self) -> list[int]:
        return [1] * len(self._long) + [-1] * len(self._capped)

    def _rows(self) -> IntArray:
        """Return for each use its long pieces, -1 at its limited offer, and what it pours."""
        uses = self._bars.uses
        rows = np.zeros((len(uses), len(self._counts) + 1), dtype=np.int64)
        rows[:, -1] = self._pour.amounts
        for row, use in zip(rows, uses, strict=True):
            row[: len(self._long)] = use.pieces
            if use.offer in self._capped:
                row[len(self._long) + self._capped.index(use.offer)] = -1
        return rows

    def _piece_prices(self, rows: IntArray) -> IntArray:
        self.whole: list[int] = []
        if not self._bars.uses:
            return np.zeros(rows.shape[1], dtype=np.int64)
        cents = np.array([use.price for use in self._bars.uses], dtype=np.int64)
        signs = np.array([*self._signs(), 1], dtype=np.int64)
        gains = np.array([*self._counts, self._pour.total], dtype=np.int64) * signs
        proposal, times = maximise(rows, cents, gains)
        self.whole = np.floor(times + 1e-6).astype(np.int64).tolist()
        return piece_prices(rows, cents, proposal)

    def _grouped(self, worths: list[int]) -> dict[int, list[Option]]:
        """Return the options by the longest type they hold."""
        options: dict[int, list[Option]] = {}
        uses, amounts = self._bars.uses, self._pour.amounts
        for index, (use, amount, worth) in enumerate(zip(uses, amounts, worths, strict=True)):
            limited = (int(use.offer == i) for i in self._capped)
            code = self._packing.code((*use.pieces, *limited))
            option = Option(code, amount, use.price, worth, index)
            options.setdefault(self._lead(code), []).append(option)
        return options

    def _lead(self, code: int) -> int:
        """Return the lowest bit of the longest type in a code, 0 when it has no long piece."""
        code &= self._long_mask
        return self._type_bit[code & -code] if code else 0

    def all_options(self) -> list[Option]:
        """Return all uses, by the longest type they hold, longest first."""
        return [o for lead in sorted(self._options) for o in self._options[lead]]

    def steps(self, state: State, options: list[Option] | None = None) -> list[Step]:
        """Return what may be done next: one of these uses is in every way to finish the state.

        `options` restricts the uses to some.
        """
        if options is None:
            options = self._options.get(self._lead(state[0]), [])
        found = []
        whole, pour, worth = state
        guards, per_mm, sums = self._guards, self._per_mm, self._sums
        guarded, last = whole | guards, sums[-1]
        for option in options:
            code, amount, _, use_worth, _ = option
            rest = guarded - code
            if rest & guards != guards:
                continue
            poured = amount if amount < pour else pour
            left = worth - use_worth - per_mm * poured
            cents = -(-left >> SHIFT)
            if cents <= 0:
                cents = 0
            elif cents <= last:
                cents = sums[bisect_left(sums, cents)]
            found.append((cents, (rest ^ guards, pour - poured, left), option))
        return found

    def fillers(self) -> list[Option]:
        """Return the uses that hold short pieces alone."""
        return self._options.get(0, [])

    def finished(self, state: State) -> bool:
        """Tell whether nothing is left to cut."""
        return state[1] == 0 and not state[0] & self._long_mask

    def least_cents(self, state: State) -> int:
        """Return a lower bound [cents] on the cost of the rest: a sum that prices can make."""
        cents = -(-state[2] >> SHIFT)
        if cents <= 0:
            return 0
        if cents > self._sums[-1]:
            return cents
        return self._sums[bisect_left(self._sums, cents)]
