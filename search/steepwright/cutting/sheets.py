"""Cut lists of sheets: the proven cheapest plan, its cost, and a bound for a range of sizes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from functools import lru_cache

from steepwright.cutting.alike import Alike, alike
from steepwright.cutting.cover import CENTS_SHIFT, Offer, Use, best_cover, least_weight
from steepwright.cutting.cutlist import (
    CutList,
    PartRange,
    cut_list,
    ranged_list,
    sheet_size,
    type_between,
    with_free_trims,
)
from steepwright.cutting.fits import fits_of, least_trims
from steepwright.cutting.records import (
    PlacedPart,
    SawCut,
    SheetLayout,
    SheetPart,
    SheetPlan,
    SheetStock,
)
from steepwright.cutting.sawing import Sawing, saw
from steepwright.cutting.shapes import PartType, SheetSize

KEPT_COSTS = 32768
KEPT_COVERS = 8192


def cut_sheets(
    parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int
) -> SheetPlan | None:
    """Return the proven cheapest way to saw the parts from sheets, None when there is none.

    Every cut runs edge to edge (guillotine, any number of stages) and takes a kerf. The cost is
    the sheets' prices and a charge for each saw cut; of the cheapest plans one with the fewest
    sheets, then (where cuts are charged for) the fewest cuts is returned, and always the same.
    Each sheet is sawn by the fewest cuts in any case.

    Parameters
    ----------
    parts
        What is needed [mm]. Parts of equal size and grain count as equal, whatever their names.
    stocks
        What can be bought, or lies there (a limit) [mm, cents].
    kerf_mm
        Width of the saw cut [mm].

    Raises
    ------
    ValueError
        When a size is not positive, a count, price, limit or the kerf is negative, or two
        stocks share a sku.
    """
    _check(parts, stocks, kerf_mm)
    stocks = tuple(sorted(stocks, key=lambda s: s.sku))
    listed = cut_list(parts, parts)
    sizes, offers = _offers(stocks)
    if not listed.counts:
        return SheetPlan((), 0, 0)
    if not sizes:
        return None
    fits = fits_of(alike(_priced_list(listed, offers), sizes, kerf_mm))
    uses = best_cover(fits, offers)
    if uses is None:
        return None
    names = _names(parts)
    layouts = []
    for use in uses:
        counts = fits.grid.digits(use.code)
        taken = [(t, n) for t, n in zip(listed.types, counts, strict=True) if n]
        on_sheet = CutList(tuple(t for t, _ in taken), tuple(n for _, n in taken))
        sawing = saw(on_sheet, sizes[offers[use.offer].size], kerf_mm)
        layouts.append(_layout(stocks[use.offer], kerf_mm, sawing, names))
    return SheetPlan(tuple(layouts), *_bill(uses, stocks, layouts))


def sheet_bound_cents(
    parts_lo: tuple[SheetPart, ...],
    parts_hi: tuple[SheetPart, ...],
    stocks: tuple[SheetStock, ...],
    kerf_mm: int,
) -> int | None:
    """Return a lower bound [cents] on every cut list from `parts_lo` to `parts_hi`.

    The two lists have the same parts in the same order; part i may have any length and width
    between the two. None when not even `parts_lo` can be cut. When both are equal it is the
    cost of the cheapest plan itself. The proof is in `steepwright.cutting.shapes`.
    """
    return _bound_cents(cut_list(parts_lo, parts_hi), stocks, kerf_mm, quick=False)


def ranged_bound_cents(
    ranges: Iterable[PartRange], stocks: tuple[SheetStock, ...], kerf_mm: int, *, quick: bool
) -> int | None:
    """Return the bound [cents] for one part of each range, the `quick` one or the other."""
    return _bound_cents(ranged_list(ranges), stocks, kerf_mm, quick=quick)


def _bound_cents(
    listed: CutList, stocks: tuple[SheetStock, ...], kerf_mm: int, *, quick: bool
) -> int | None:
    if not listed.counts:
        return 0
    sizes, offers = _offers(stocks)
    bound = quick_cost_of if quick else cost_of
    return bound(listed, sizes, offers, kerf_mm) if sizes else None


def sheet_cost_cents(
    parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int
) -> int | None:
    """Return what the cheapest plan costs [cents], without the plan; None when there is none."""
    return sheet_bound_cents(parts, parts, stocks, kerf_mm)


def sheet_quick_bound_cents(
    parts_lo: tuple[SheetPart, ...],
    parts_hi: tuple[SheetPart, ...],
    stocks: tuple[SheetStock, ...],
    kerf_mm: int,
) -> int | None:
    """Return a lower bound as `sheet_bound_cents` does, mostly as high and found much sooner.

    Which parts go together on a sheet is exact for `parts_lo`. Of the cuts only those that part
    n pieces (n - 1) and the trims that no pattern avoids (`least_trims`) are counted. Then sizes
    other than the least don't matter to the tables, which serve many ranges.
    """
    return _bound_cents(cut_list(parts_lo, parts_hi), stocks, kerf_mm, quick=True)


@lru_cache(maxsize=KEPT_COSTS)
def quick_cost_of(
    listed: CutList, sizes: tuple[SheetSize, ...], offers: tuple[Offer, ...], kerf_mm: int
) -> int | None:
    """Return the quick bound [cents] of a canonical list; remembered."""
    if any(offer.cut_cents for offer in offers):
        trims = least_trims(listed, sizes, kerf_mm)
        offers = tuple(offer._replace(trims=trims[offer.size]) for offer in offers)
    return cents_of(alike(with_free_trims(listed), sizes, kerf_mm), offers)


@lru_cache(maxsize=KEPT_COSTS)
def cost_of(
    listed: CutList, sizes: tuple[SheetSize, ...], offers: tuple[Offer, ...], kerf_mm: int
) -> int | None:
    """Return the least cost [cents] of a canonical list; remembered."""
    return cents_of(alike(_priced_list(listed, offers), sizes, kerf_mm), offers)


@lru_cache(maxsize=KEPT_COVERS)
def cents_of(alike: Alike, offers: tuple[Offer, ...]) -> int | None:
    """Return the least cost [cents] of all lists that are alike; remembered."""
    weight = least_weight(fits_of(alike), offers)
    return None if weight is None else weight >> CENTS_SHIFT


def _priced_list(listed: CutList, offers: tuple[Offer, ...]) -> CutList:
    """Return the list to be priced: where no stock charges for cuts, trims need no counting."""
    return listed if any(offer.cut_cents for offer in offers) else with_free_trims(listed)


@lru_cache(maxsize=256)
def _offers(
    stocks: tuple[SheetStock, ...],
) -> tuple[tuple[SheetSize, ...], tuple[Offer, ...]]:
    """Return the distinct sheet sizes, and each stock as an offer of one of them."""
    sizes = tuple(sorted({sheet_size(stock) for stock in stocks}))
    offers = tuple(
        Offer(sizes.index(sheet_size(s)), s.price_cents, s.cut_cents, s.limit, 0, s.free_cuts)
        for s in stocks
    )
    return sizes, offers


def _names(parts: tuple[SheetPart, ...]) -> dict[PartType, list[SheetPart]]:
    """Return who is waiting for a part of each type, the first in order last."""
    waiting: dict[PartType, list[SheetPart]] = {}
    for part in sorted(parts, reverse=True):
        waiting.setdefault(type_between(part, part), []).extend([part] * part.count)
    return waiting


def _layout(
    stock: SheetStock,
    kerf_mm: int,
    sawing: Sawing,
    names: dict[PartType, list[SheetPart]],
) -> SheetLayout:
    swap = stock.face_grain == "width"
    placed = []
    for kind, region in sawing.parts:
        name = names[kind].pop().name
        u, v, size_u, size_v = region
        placed.append(
            PlacedPart(name, v, u, size_v, size_u)
            if swap
            else PlacedPart(name, u, v, size_u, size_v)
        )
    cuts = []
    for cut in sawing.cuts:
        u, v, size_u, size_v = cut.region
        spans = ((u, u + size_u), (v, v + size_v))
        x, y = spans[::-1] if swap else spans
        cuts.append(SawCut("x" if cut.across_u != swap else "y", cut.at, x, y))
    return SheetLayout(
        stock.sku, stock.length_mm, stock.width_mm, kerf_mm, tuple(placed), tuple(cuts)
    )


def _bill(
    uses: tuple[Use, ...], stocks: tuple[SheetStock, ...], layouts: list[SheetLayout]
) -> tuple[int, int]:
    sheet_cents = sum(stocks[use.offer].price_cents for use in uses)
    cut_cents = sum(
        stocks[use.offer].charge_cents(len(layout.cuts))
        for use, layout in zip(uses, layouts, strict=True)
    )
    return sheet_cents, cut_cents


def _check(parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int) -> None:
    repeated = [sku for sku, n in Counter(s.sku for s in stocks).items() if n > 1]
    wrong = [f"two stocks share the sku {sku!r}" for sku in repeated]
    items: list[SheetPart | SheetStock] = [*parts, *stocks]
    wrong += [
        f"a side is not positive: {item}"
        for item in items
        if min(item.length_mm, item.width_mm) <= 0
    ]
    wrong += [f"a count is negative: {p}" for p in parts if p.count < 0]
    wrong += [
        f"a price or limit is negative: {s}"
        for s in stocks
        if min(s.price_cents, s.cut_cents, s.limit or 0, s.free_cuts) < 0
    ]
    if kerf_mm < 0:
        wrong.append(f"the kerf is negative: {kerf_mm}")
    if wrong:
        raise ValueError("; ".join(wrong))
