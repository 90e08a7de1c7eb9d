"""Cut lists of bars: the proven cheapest plan, and its cost."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache

from steepwright.cutting.alike import BarsAlike, bars_alike
from steepwright.cutting.barlist import BarOffer, BarType
from steepwright.cutting.barsearch import solve_bars
from steepwright.cutting.records import BarLayout, BarPart, BarPlan, BarStock

KEPT_COSTS = 32768
KEPT_COVERS = 8192


def cut_bars(
    parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int
) -> BarPlan | None:
    """Return the proven cheapest way to cut the lengths from bars, None when there is none.

    Any mix of stock lengths; n pieces of a bar need n - 1 kerfs between them. Among plans of
    equal cost always the same one is returned.

    Parameters
    ----------
    parts
        What is needed [mm].
    stocks
        What can be bought, or lies there (a limit) [mm, cents].
    kerf_mm
        Width of the saw cut [mm].

    Raises
    ------
    ValueError
        When a length is not positive, a count, price, limit or the kerf is negative, or two
        stocks share a sku.
    """
    _check(parts, stocks, kerf_mm)
    types = _types(parts, kerf_mm)
    stocks = tuple(sorted(stocks, key=lambda s: (s.length_mm, s.price_cents, s.sku)))
    if not types:
        return BarPlan((), 0)
    solved = solve_bars(types, _offers(stocks, kerf_mm))
    if solved is None:
        return None
    waiting = _waiting(parts)
    layouts = []
    for offer, pieces in solved.bars:
        stock = stocks[offer]
        cut = []
        for (length, _), number in zip(types, pieces, strict=True):
            names = waiting[length - kerf_mm]
            cut += [(names.pop(), length - kerf_mm) for _ in range(number)]
        layouts.append(BarLayout(stock.sku, stock.length_mm, kerf_mm, tuple(cut)))
    return BarPlan(tuple(layouts), solved.cents)


def bar_cost_cents(
    parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int
) -> int | None:
    """Return what the cheapest plan costs [cents], without the plan; None when there is none.

    Kept by lengths and prices alone. Never falls when a part gets longer or one more is needed.
    """
    return cost_of(_types(parts, kerf_mm), _offers(stocks, kerf_mm))


@lru_cache(maxsize=KEPT_COSTS)
def cost_of(types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> int | None:
    """Return the least cost [cents] of a canonical list; remembered."""
    return cents_of(bars_alike(types, offers)) if types else 0


@lru_cache(maxsize=KEPT_COVERS)
def cents_of(alike: BarsAlike) -> int | None:
    """Return the least cost [cents] of all lists that are alike; remembered."""
    solved = solve_bars(alike.types, alike.offers)
    return None if solved is None else solved.cents


def _types(parts: tuple[BarPart, ...], kerf_mm: int) -> tuple[BarType, ...]:
    counts: Counter[int] = Counter()
    for part in parts:
        if part.count:
            counts[part.length_mm + kerf_mm] += part.count
    return tuple(BarType(length, n) for length, n in sorted(counts.items(), reverse=True))


@lru_cache(maxsize=256)
def _offers(stocks: tuple[BarStock, ...], kerf_mm: int) -> tuple[BarOffer, ...]:
    return tuple(BarOffer(s.length_mm + kerf_mm, s.price_cents, s.limit) for s in stocks)


def _waiting(parts: tuple[BarPart, ...]) -> dict[int, list[str]]:
    """Return the names that wait for a piece of each length, the first in order last."""
    waiting: dict[int, list[str]] = {}
    for part in sorted(parts, reverse=True):
        waiting.setdefault(part.length_mm, []).extend([part.name] * part.count)
    return waiting


def _check(parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int) -> None:
    repeated = [sku for sku, n in Counter(s.sku for s in stocks).items() if n > 1]
    wrong = [f"two stocks share the sku {sku!r}" for sku in repeated]
    items: list[BarPart | BarStock] = [*parts, *stocks]
    wrong += [f"a length is not positive: {item}" for item in items if item.length_mm <= 0]
    wrong += [f"a count is negative: {p}" for p in parts if p.count < 0]
    wrong += [
        f"a price or limit is negative: {s}" for s in stocks if min(s.price_cents, s.limit or 0) < 0
    ]
    if kerf_mm < 0:
        wrong.append(f"the kerf is negative: {kerf_mm}")
    if wrong:
        raise ValueError("; ".join(wrong))
