"""Cheap lower bounds in integers: what must be bought by length or by area alone."""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache

from steepwright.cutting.cutlist import sheet_size
from steepwright.cutting.records import BarPart, BarStock, SheetPart, SheetStock
from steepwright.cutting.shapes import Room, room_of

Capacity = tuple[int, int, int | None]
"""Capacity of one piece of stock, its price [cents], and how many there are (None: any)."""


def fill_bound(need: int, stocks: tuple[Capacity, ...]) -> int | None:
    """Return the least cents that buy the capacity `need` when stock may be bought by fractions.

    `stocks` come cheapest per capacity first (`by_rate`): then taking them in that order solves
    the continuous covering problem, rounded up because prices are whole cents. None when the
    limits don't reach `need`.
    """
    cents = 0
    for capacity, price, limit in stocks:
        if limit is None or limit * capacity >= need:
            return cents - (-need * price // capacity)
        need -= limit * capacity
        cents += limit * price
    return None if need > 0 else cents


def by_rate(stocks: tuple[Capacity, ...]) -> tuple[Capacity, ...]:
    """Return the stocks, cheapest per capacity first.

    Rates are compared as integers; two that differ do so by at least one over the product of
    their capacities, so scaled by that they stay apart.
    """
    scale = max((c for c, _, _ in stocks), default=1) ** 2
    return tuple(sorted(stocks, key=lambda s: (s[1] * scale // s[0], -s[0], s[2] or 0)))


@lru_cache(maxsize=256)
def _bar_capacities(stocks: tuple[BarStock, ...], kerf_mm: int) -> tuple[Capacity, ...]:
    return by_rate(tuple((s.length_mm + kerf_mm, s.price_cents, s.limit) for s in stocks))


@lru_cache(maxsize=256)
def _cheapest_long_enough(stocks: tuple[BarStock, ...]) -> tuple[list[int], list[int]]:
    """Return the stock lengths, ascending, and the least price of a bar at least so long."""
    ordered = sorted(stocks, key=lambda s: s.length_mm)
    prices = [min(s.price_cents for s in ordered[i:]) for i in range(len(ordered))]
    return [s.length_mm for s in ordered], prices


def bar_bound_cents(parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int) -> int:
    """Return a lower bound [cents] on the cheapest bars: by length, or by the longest pieces.

    By length, every piece takes its own and one kerf from a bar that is one kerf longer. By the
    longest pieces, no bar holds two that are each longer than half of the longest bar, so each
    needs the cheapest bar that is long enough. A list that can't be cut has a bound as well.
    """
    lengths, prices = _cheapest_long_enough(stocks)
    if not lengths:
        return 0
    need = own = 0
    half = lengths[-1] + kerf_mm
    for part in parts:
        inflated = part.length_mm + kerf_mm
        need += part.count * inflated
        if 2 * inflated > half:
            shortest = min(bisect_left(lengths, part.length_mm), len(prices) - 1)
            own += part.count * prices[shortest]
    bound = fill_bound(need, _bar_capacities(stocks, kerf_mm))
    return own if bound is None else max(own, bound)


@lru_cache(maxsize=256)
def _sheet_capacities(
    stocks: tuple[SheetStock, ...], kerf_mm: int
) -> tuple[tuple[Capacity, ...], int, Room]:
    """Return areas with prices, the charge that every part brings, and the room for a part.

    A sheet with n parts takes at least n - 1 cuts. With c at most every charge and every price
    it costs at least (price - c) + c n; c is nothing where some cuts are free.
    """
    charge = min(0 if s.free_cuts else min(s.cut_cents, s.price_cents) for s in stocks)
    areas = (
        ((s.length_mm + kerf_mm) * (s.width_mm + kerf_mm), s.price_cents - charge, s.limit)
        for s in stocks
    )
    return by_rate(tuple(areas)), charge, room_of(tuple(map(sheet_size, stocks)), kerf_mm)


def sheet_lower_bound_cents(
    parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int
) -> int | None:
    """Return a lower bound [cents] on the cheapest sheets, by area and number of parts.

    None when a part fits no sheet or the limits give too little area: then nothing can be cut.
    """
    wanted = [part for part in parts if part.count]
    if not wanted or not stocks:
        return None if wanted else 0
    capacities, charge, room = _sheet_capacities(stocks, kerf_mm)
    need = number = 0
    for part in wanted:
        length, width = part.length_mm + kerf_mm, part.width_mm + kerf_mm
        fits = (part.grain != "width" and room.holds(length, width)) or (
            part.grain != "length" and room.holds(width, length)
        )
        if not fits:
            return None
        need += part.count * length * width
        number += part.count
    area = fill_bound(need, capacities)
    return None if area is None else area + charge * number
