"""Bounds of cost in whole cents, in the three parts that the certificate gives reasons for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import (
    Rates,
    area_bound_cents,
    bars_length_mm,
    frame_cost_cents,
    least_kicker_mm,
)
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model
from steepwright.pricing.hardware import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Costs:
    """Looks up bounds over boxes; every array has one value [cents] per entry.

    Attributes
    ----------
    bar_price, bar_room
        Price [cents] and length with one kerf [mm] of every bar by section, delivery and
        number; where there is none the price is `UNAVAILABLE_CENTS`.
    """

    model: Model
    rates: Rates
    bar_price: IntArray
    bar_room: IntArray

    def sheets_by_area(self, entries: Entries) -> IntArray:
        """Return the sheets' bound by area and by the cuts that pieces need."""
        return area_bound_cents(self.model, self.rates, entries)

    def bars_by_length(self, entries: Entries) -> IntArray:
        """Return the bars' bound by their length with one kerf each.

        Nothing buys them when the longest piece is longer than every bar.
        """
        model, space = self.model, self.model.space
        total = bars_length_mm(model, entries)
        where = (entries.section, entries.delivered)
        price, room = self.bar_price[where], self.bar_room[where]
        cents = np.minimum((-(-total[:, None] * price // room)).min(axis=1), UNAVAILABLE_CENTS)
        stud = space.boards_mm[entries.row] - 2 * model.section_mm[entries.section]
        longest = np.maximum(stud, space.widths_mm[entries.width]) + space.market.kerf_mm
        return np.asarray(np.where(longest > room.max(axis=1), UNAVAILABLE_CENTS, cents))

    def the_rest(self, entries: Entries) -> IntArray:
        """Return the least cost of small parts, a frame, trips and delivery over each box."""
        small = self.model.pricer.cost_cents(
            self.model.sheetings.family[entries.sheeting],
            entries.section,
            entries.mount,
            self.model.counts(entries),
        )
        delivery = self.model.space.market.delivery_cents
        stand = self.model.stand_cents[entries.place, entries.delivered]
        return np.asarray(small + stand + entries.delivered * delivery, dtype=np.int64)

    def sheets_solved(self, key: tuple[int, ...], size: int, widths: int) -> int:
        """Return the sheets' bound from a corner to the end of its box by the exact solver.

        `key` is sheeting, row, column and the number of the width; boxes are `size` cells a side
        and have so many widths.
        """
        sheeting, row, column, width = key
        space = self.model.space
        last_row = min(row + size, len(space.boards_mm)) - 1
        last_column = min(column + size, len(space.kickers_mm)) - 1
        widest = min(width // widths * widths + widths, space.searched) - 1
        least = int(space.boards_mm[row]), int(space.kickers_mm[column])
        most = int(space.boards_mm[last_row]), int(space.kickers_mm[last_column])
        return self.model.exact.sheet_bound(
            space.sheetings[sheeting],
            self.model.kickers[sheeting],
            (*least, int(space.widths_mm[width])),
            (*most, int(space.widths_mm[widest])),
            quick=False,
        )

    def kicker_at(self, section: int, column: int) -> int:
        """Return the kicker [mm] that stands for a box: none lower can be framed."""
        kicker = int(self.model.space.kickers_mm[column])
        return max(kicker, least_kicker_mm(self.model, section)) if kicker else 0

    def bars_solved(
        self, sheeting: int, section: int, delivered: int, row: int, column: int, width: int
    ) -> int:
        """Return the bars' exact cost at a box's least corner."""
        board = int(self.model.space.boards_mm[row])
        kicker = self.kicker_at(section, column)
        lengths = board, kicker, width
        cents = frame_cost_cents(self.model, (sheeting, section, bool(delivered)), lengths)
        return UNAVAILABLE_CENTS if cents is None else cents


def build_costs(model: Model, rates: Rates) -> Costs:
    """Set the bars' prices out as arrays."""
    market = model.space.market
    stocks = [[market.bar_stock(s, bool(d)) for d in (0, 1)] for s in market.sections]
    most = max([1, *(len(bars) for pair in stocks for bars in pair)])
    shape = (len(market.sections), 2, most)
    price = np.full(shape, UNAVAILABLE_CENTS, dtype=np.int64)
    room = np.ones(shape, dtype=np.int64)
    for i, pair in enumerate(stocks):
        for delivered, bars in enumerate(pair):
            for n, bar in enumerate(bars):
                price[i, delivered, n] = bar.price_cents
                room[i, delivered, n] = bar.length_mm + market.kerf_mm
    return Costs(model, rates, price, room)
