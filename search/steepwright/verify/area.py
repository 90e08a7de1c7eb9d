"""Lower bounds that need no cutting: sheets by area and pieces, bars by length. Whole cents."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.divisions import Sheeting, divided
from steepwright.verify.packs import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

UNIT_MM2 = 2500
"""Areas are counted in units of this: sheets rounded up, pieces rounded down."""


def area_costs(stock: list[Document], kerf_mm: int, most: int) -> IntArray:
    """Return the least price [cents] of sheets that hold 0 ... `most` units of area.

    A piece of l x w takes at least (l + kerf)(w + kerf) of a sheet that counts as one kerf
    longer and wider, so no plan buys less area than that.
    """
    sized = [
        (
            -(-(s["length_mm"] + kerf_mm) * (s["width_mm"] + kerf_mm) // UNIT_MM2),
            s["price_cents"],
            s["limit"],
        )
        for s in stock
    ]
    free = [(units, price) for units, price, limit in sized if limit is None]
    values = [0]
    for count in range(1, most + 1):
        options = [price + values[max(0, count - units)] for units, price in free]
        values.append(min(options, default=UNAVAILABLE_CENTS))
    cost = np.minimum(np.array(values, dtype=np.int64), UNAVAILABLE_CENTS)
    rest = np.arange(most + 1)
    for units, price, limit in sized:
        for _ in range(min(limit or 0, most)):
            cost = np.minimum(cost, cost[np.maximum(rest - units, 0)] + price)
    return cost


def least_cuts_cents(
    sheeting: Sheeting, width_mm: int, least_mm: int, stocks: tuple[list[Document], list[Document]]
) -> tuple[int, int]:
    """Return what the cuts of board and kicker cost at least [cents].

    A piece whose width is no side of any sheet is no whole sheet, so at least one cut frees it;
    n pieces on a sheet that is not used up take n cuts. Where cuts are free it comes to nothing.
    `stocks` are the sheets that board and kicker may come from.
    """
    columns = divided(width_mm, sheeting.columns, sheeting.full_column_mm, least_mm)
    if columns is None:
        return 0, 0
    charges = []
    for stock, rows in zip(stocks, (sheeting.rows, 1), strict=True):
        sides = {side for s in stock for side in (s["length_mm"], s["width_mm"])}
        cut = sum(width not in sides for width in columns)
        charges.append(
            rows
            * cut
            * min((0 if s.get("free_cuts") else s["cut_cents"] for s in stock), default=0)
        )
    return charges[0], charges[1]


def stands_in(panels: Document, other: str, own: str) -> bool:
    """Tell whether a kicker of one panel may go with a board of another.

    It must be at least as strong and stiff in its weaker direction as the board's in its
    stronger one, for the checks only look at the board's.
    """

    def figures(panel: Document, pick: Any) -> tuple[float, ...]:
        t, along = panel["mean_thickness_mm"], panel["fv_planar_mpa"]
        return (
            pick(panel["fm_along_mpa"], panel["fm_across_mpa"]) * t**2,
            pick(panel["e_along_mpa"], panel["e_across_mpa"]) * t**3,
            pick(along, panel["fv_planar_across_mpa"] or along) * t,
            panel["fv_panel_mpa"] * t,
        )

    weak, strong = figures(panels[other], min), figures(panels[own], max)
    return all(a >= b for a, b in zip(weak, strong, strict=True))


@dataclass(frozen=True, slots=True)
class BarRates:
    """Bars by section, delivery and number: price [cents], length with one kerf [mm]."""

    price: IntArray
    room: IntArray

    def cost_cents(
        self, section: IntArray, delivered: IntArray, total_mm: IntArray, longest_mm: IntArray
    ) -> IntArray:
        """Return the least cost of bars for a length, were they sold by the millimetre.

        Nothing buys them when the longest piece, one kerf added, is longer than every bar.
        """
        price, room = self.price[section, delivered], self.room[section, delivered]
        cents = (-(-total_mm[:, None] * price // room)).min(axis=1)
        short = longest_mm > room.max(axis=1)
        return np.asarray(np.where(short, UNAVAILABLE_CENTS, np.minimum(cents, UNAVAILABLE_CENTS)))


def bar_stock(section: Document, vehicle_mm: list[int] | None, delivered: int) -> list[Document]:
    """Return the bars that can be taken home: any with delivery, else what the vehicle takes."""
    if delivered or vehicle_mm is None:
        return list(section["stock"])
    return [bar for bar in section["stock"] if bar["length_mm"] <= max(vehicle_mm)]


def bar_rates(sections: list[Document], vehicle_mm: list[int] | None, kerf_mm: int) -> BarRates:
    """Set the bars' prices out as arrays."""
    stocks = [[bar_stock(s, vehicle_mm, d) for d in (0, 1)] for s in sections]
    most = max([1, *(len(bars) for pair in stocks for bars in pair)])
    price = np.full((len(sections), 2, most), UNAVAILABLE_CENTS, dtype=np.int64)
    room = np.ones((len(sections), 2, most), dtype=np.int64)
    for i, pair in enumerate(stocks):
        for delivered, bars in enumerate(pair):
            for n, bar in enumerate(bars):
                price[i, delivered, n] = bar["price_cents"]
                room[i, delivered, n] = bar["length_mm"] + kerf_mm
    return BarRates(price, room)
