"""Lower bounds that need no cutting: sheets by area and pieces, bars by length. Whole cents."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.packs import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

UNIT_MM2 = 2500
"""Areas are counted in units of this: sheets rounded up, pieces rounded down."""


def piece_charge_cents(stock: list[Document]) -> int:
    """Return what every piece brings in charges for cuts, if each sheet counts for less by it.

    n pieces on one sheet take n - 1 cuts or more. With c no more than any charge the sheet costs
    no less than (price - c) + c n. Of what there is without limit c is no more than the price
    either, so that sheets more than needed cost nothing less. Where cuts are free c is nothing.
    """
    least = []
    for sheet in stock:
        charge = 0 if sheet.get("free_cuts") else sheet["cut_cents"]
        least.append(charge if sheet["limit"] else min(charge, sheet["price_cents"]))
    return min(least, default=0)


def area_costs(stock: list[Document], kerf_mm: int, most: int) -> IntArray:
    """Return the least price [cents] of sheets that hold 0 ... `most` units of area.

    A piece of l x w takes at least (l + kerf)(w + kerf) of a sheet that counts as one kerf
    longer and wider, so no plan buys less area than that. Each sheet counts for less than its
    price by what a piece brings (`piece_charge_cents`).
    """
    charge = piece_charge_cents(stock)
    sized = [
        (
            -(-(s["length_mm"] + kerf_mm) * (s["width_mm"] + kerf_mm) // UNIT_MM2),
            s["price_cents"] - charge,
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
            before = cost[np.maximum(rest - units, 0)]
            bought = np.where(before < UNAVAILABLE_CENTS, before + price, UNAVAILABLE_CENTS)
            cost = np.minimum(cost, bought)
    return cost


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
    """Bars by length: the least cost [cents] and the longest one, one kerf added [mm].

    `cents` is over [section, delivery, length in mm], `longest_mm` over the first two.
    """

    cents: IntArray
    longest_mm: IntArray

    def cost_cents(
        self, section: IntArray, delivered: IntArray, total_mm: IntArray, longest_mm: IntArray
    ) -> IntArray:
        """Return the least cost of bars for a length, were they sold by the millimetre.

        Nothing buys them when the longest piece, one kerf added, is longer than every bar.
        """
        cents = self.cents[section, delivered, np.maximum(total_mm, 0)]
        short = longest_mm > self.longest_mm[section, delivered]
        return np.asarray(np.where(short, UNAVAILABLE_CENTS, cents))


def bar_stock(section: Document, vehicle_mm: list[int] | None, delivered: int) -> list[Document]:
    """Return the bars that can be taken home: any with delivery, else what the vehicle takes."""
    if delivered or vehicle_mm is None:
        return list(section["stock"])
    return [bar for bar in section["stock"] if bar["length_mm"] <= max(vehicle_mm)]


def bar_rates(
    sections: list[Document], vehicle_mm: list[int] | None, kerf_mm: int, most_mm: int
) -> BarRates:
    """Work the rates out for all lengths up to the greatest."""
    total = np.arange(most_mm + 1, dtype=np.int64)
    cents = np.full((len(sections), 2, most_mm + 1), UNAVAILABLE_CENTS, dtype=np.int64)
    longest = np.ones((len(sections), 2), dtype=np.int64)
    for i, section in enumerate(sections):
        for delivered in (0, 1):
            for bar in bar_stock(section, vehicle_mm, delivered):
                room, price = bar["length_mm"] + kerf_mm, bar["price_cents"]
                longest[i, delivered] = max(longest[i, delivered], room)
                here = cents[i, delivered]
                np.minimum(here, -(-total * price // room), out=here)
    return BarRates(cents, longest)
