"""Cheap lower bounds in integers: what must be bought by length or by area alone."""

from __future__ import annotations

from functools import lru_cache

from steepwright.cutting.fits import part_type, sheet_size
from steepwright.cutting.records import BarPart, BarStock, SheetPart, SheetStock

Capacity = tuple[int, int, int | None]
"""Capacity of one piece of stock, its price [cents], and how many there are (None: any)."""


def fill_bound(need: int, stocks: tuple[Capacity, ...]) -> int | None:
    """Return the least cents that buy the capacity `need` when stock may be bought by fractions.

    Cheapest per capacity first: the greedy solution of the continuous covering problem, rounded
    up because prices are whole cents. None when the limits don't reach `need`.
    """
    cents = 0
    for capacity, price, limit in _by_rate(stocks):
        if limit is None or limit * capacity >= need:
            return cents - (-need * price // capacity)
        need -= limit * capacity
        cents += limit * price
    return None if need > 0 else cents


@lru_cache(maxsize=256)
def _by_rate(stocks: tuple[Capacity, ...]) -> tuple[Capacity, ...]:
    # The sums stay exact: rates are compared by integers scaled far beyond any two that differ.
    scale = max((c for c, _, _ in stocks), default=1) ** 2
    return tuple(sorted(stocks, key=lambda s: (s[1] * scale // s[0], -s[0], s[2] or 0)))


@lru_cache(maxsize=256)
def _bar_capacities(stocks: tuple[BarStock, ...], kerf_mm: int) -> tuple[Capacity, ...]:
    return tuple((s.length_mm + kerf_mm, s.price_cents, s.limit) for s in stocks)


@lru_cache(maxsize=256)
def _sheet_capacities(stocks: tuple[SheetStock, ...], kerf_mm: int) -> tuple[Capacity, ...]:
    return tuple(
        ((s.length_mm + kerf_mm) * (s.width_mm + kerf_mm), s.price_cents, s.limit) for s in stocks
    )


def bar_bound_cents(parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int) -> int:
    """Return a lower bound [cents] on the cheapest bars, by length alone.

    Every piece takes its length and one kerf from a bar that is one kerf longer. When the
    limited stock is too short for all pieces, what it costs altogether is returned.
    """
    need = sum(p.count * (p.length_mm + kerf_mm) for p in parts)
    bound = fill_bound(need, _bar_capacities(stocks, kerf_mm))
    if bound is None:
        return sum(s.price_cents * (s.limit or 0) for s in stocks)
    return bound


def sheet_lower_bound_cents(
    parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int
) -> int | None:
    """Return a lower bound [cents] on the cheapest sheets, by area alone; charges for cuts apart.

    None when a part fits no sheet or the limits give too little area: then nothing can be cut.
    """
    sizes = {sheet_size(s) for s in stocks}
    need = 0
    for part in parts:
        if not part.count:
            continue
        u, v, _, _, turns = part_type(part, part)
        if not any((u <= a and v <= b) or (turns and v <= a and u <= b) for a, b in sizes):
            return None
        need += part.count * (u + kerf_mm) * (v + kerf_mm)
    return fill_bound(need, _sheet_capacities(stocks, kerf_mm))
