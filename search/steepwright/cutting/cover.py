"""The cheapest set of sheets that together hold a cut list, given what fits on which sheet.

A cover's weight is one integer that orders plans by cents, then sheets, then saw cuts, and adds
up like money: ``cents << 32 | sheets << 16 | cuts``.
"""

from __future__ import annotations

from typing import NamedTuple

from steepwright.cutting.fits import Fits

CENTS_SHIFT = 32
SHEET_WEIGHT = 1 << 16

NO_COVER = 1 << 100
"""Above the weight of every cover."""


class Offer(NamedTuple):
    """One stock as the cover sees it: which size it has, and what it costs."""

    size: int
    price_cents: int
    cut_cents: int
    limit: int | None
    trims: int = 0
    """Cuts that every sheet of it needs beyond those that the table of fits counts."""
    free_cuts: int = 0
    """Cuts in each sheet that are not charged for; fewest cuts stay cheapest."""


class Use(NamedTuple):
    """One sheet of a cover: its weight, what is cut from it and which offer it is."""

    weight: int
    code: int
    offer: int


class _Cover:
    """The two-step recursion: unlimited stocks first, then one copy of a limited one at a time.

    Every cover has a sheet that holds a part of the lowest type still to be covered, so only
    the sheets that hold such a part are tried next; that leaves each cover in just one order.
    Lighter ones are tried first, up to those that outweigh the best cover found.
    """

    def __init__(self, fits: Fits, offers: tuple[Offer, ...]) -> None:
        self._guards = fits.grid.guards
        self._units = fits.grid.units
        self._lowest = fits.grid.lowest
        parts = sum(fits.grid.counts)
        limited = [i for i, o in enumerate(offers) if o.limit is not None and o.limit < parts]
        unlimited = [i for i in range(len(offers)) if i not in limited]
        self._by_lowest = self._grouped(self._cheapest(fits, offers, unlimited))
        self._copies: list[list[Use]] = []
        for i in limited:
            uses = self._cheapest(fits, offers, [i])
            self._copies.extend([uses] * (offers[i].limit or 0))
        self._memo: list[dict[int, tuple[int, Use | None] | None]] = [
            {} for _ in range(len(self._copies) + 1)
        ]

    @staticmethod
    def _cheapest(fits: Fits, offers: tuple[Offer, ...], which: list[int]) -> list[Use]:
        known: dict[tuple[int | None, ...], tuple[int, int]] = {}
        uses = []
        for code, cuts in fits.rows:
            if cuts not in known:
                known[cuts] = _cheapest_offer(cuts, offers, which)
            weight, offer = known[cuts]
            if weight < NO_COVER:
                uses.append(Use(weight, code, offer))
        return sorted(uses)

    def _grouped(self, uses: list[Use]) -> list[list[Use]]:
        groups: list[list[Use]] = [[] for _ in self._units]
        for use in uses:
            groups[self._lowest(use.code)].append(use)
        return groups

    def best(self, stage: int, code: int) -> tuple[int, Use | None] | None:
        """Return the least weight that covers `code` with `stage` limited copies, and a use."""
        if code == 0:
            return 0, None
        memo = self._memo[stage]
        if code not in memo:
            memo[code] = self._solve(stage, code)
        return memo[code]

    def _solve(self, stage: int, code: int) -> tuple[int, Use | None] | None:
        guarded, guards = code | self._guards, self._guards
        best = self.best
        least, chosen = NO_COVER, None
        if stage == 0:
            uses, after = self._by_lowest[self._lowest(code)], 0
        else:
            without = self.best(stage - 1, code)
            if without is not None:
                least = without[0]
            uses, after = self._copies[stage - 1], stage - 1
        for use in uses:
            weight, taken, _ = use
            if weight >= least:
                break
            if guarded - taken & guards != guards:
                continue
            rest = best(after, code - taken)
            if rest is not None and weight + rest[0] < least:
                least, chosen = weight + rest[0], use
        return None if least == NO_COVER else (least, chosen)

    def stages(self) -> int:
        """Return how many limited copies there are."""
        return len(self._copies)


def _cheapest_offer(
    cuts: tuple[int | None, ...], offers: tuple[Offer, ...], which: list[int]
) -> tuple[int, int]:
    """Return the least weight of one sheet sawn by so many cuts per size, and its offer."""
    best = NO_COVER, -1
    for i in which:
        size, price, cut_price, _, trims, free = offers[i]
        number = cuts[size]
        if number is not None:
            number += trims
            cents = price + cut_price * max(0, number - free)
            best = min(best, ((cents << CENTS_SHIFT) + SHEET_WEIGHT + number, i))
    return best


def least_weight(fits: Fits, offers: tuple[Offer, ...]) -> int | None:
    """Return the least weight of a cover of the whole list, None when there is none."""
    solver = _Cover(fits, offers)
    best = solver.best(solver.stages(), fits.grid.full)
    return None if best is None else best[0]


def best_cover(fits: Fits, offers: tuple[Offer, ...]) -> tuple[Use, ...] | None:
    """Return the sheets of the least cover, None when there is none."""
    solver = _Cover(fits, offers)
    stage, code = solver.stages(), fits.grid.full
    if solver.best(stage, code) is None:
        return None
    uses = []
    while code:
        best = solver.best(stage, code)
        if best is not None and best[1] is not None:
            uses.append(best[1])
            code -= best[1].code
        stage = max(stage - 1, 0)
    return tuple(uses)
