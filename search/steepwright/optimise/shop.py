"""Who makes which saw cut: the shop within its saw's limits, the builder at home for the rest."""

from __future__ import annotations

from collections import Counter
from typing import Any

from steepwright.catalog.types import OFFCUT
from steepwright.cutting.records import SawCut, SheetLayout
from steepwright.geometry.access import passes_mask
from steepwright.optimise.access import bar_gets_in
from steepwright.optimise.evaluate import Priced
from steepwright.optimise.space import Space
from steepwright.room.types import Yard

Document = dict[str, Any]
Size = tuple[int, int]

SHOP, HOME = "shop", "home"


def cut_makers(layout: SheetLayout, yard: Yard) -> tuple[str, ...]:
    """Return for each cut of a sheet, in the saw's order, whether shop or home makes it.

    The shop makes a cut when its saw takes the block, when neither part that is kept is narrower
    than its least strip, and when the block has come from the shop's own cuts (or is the whole
    sheet). The builder's own offcuts are sawn at home.
    """
    own = _is_own(layout.sku, yard)
    makers: list[str] = []
    for number, cut in enumerate(layout.cuts):
        before = [makers[i] for i in range(number) if _holds(layout.cuts[i], cut)]
        can = not own and HOME not in before and _shop_can(layout, cut, yard)
        makers.append(SHOP if can else HOME)
    return tuple(makers)


def shop_document(space: Space, priced: Priced) -> Document:
    """Return how many cuts are left for home, and whether the blocks taken home get there.

    ``largest_home_mm`` is the largest block that still has to be cut at home. The bill charges
    for every cut of a bought sheet; those made at home would save at most ``charged_cents``.
    ``bars_too_long`` are the bought bars that don't get in whole, wall's and frame's, counted.
    """
    yard, access = space.market.room.yard, space.market.room.access
    home, charged = 0, 0
    blocks: list[Size] = []
    for layout in (layout for plan in priced.sheet_plans for layout in plan.layouts):
        makers = cut_makers(layout, yard)
        own = _is_own(layout.sku, yard)
        home += makers.count(HOME)
        charged += 0 if own else makers.count(HOME) * yard.cut_price_cents
        blocks += [] if own else _left_whole(layout, makers)
    thickness = max(family.thickness_mm for family in space.market.families)
    largest: Size | None = max(blocks, key=_area, default=None)
    return {
        "home_cuts": home,
        "charged_cents": charged,
        "largest_home_mm": list(largest) if largest else None,
        "blocks_fit_vehicle": all(space.market.fits_vehicle(*block) for block in blocks),
        "blocks_get_in": all(bool(passes_mask(access, *block, thickness)) for block in blocks),
        "bars_too_long": _bars_too_long(space, priced),
    }


def _bars_too_long(space: Space, priced: Priced) -> list[Document]:
    catalog = space.market.catalog
    known = {bar.sku: bar for bar in catalog.timber}
    layouts = (*priced.bar_plan.layouts, *priced.stand.layouts)
    bought = Counter((known[layout.sku], layout.stock_mm) for layout in layouts)
    return [
        {"sku": bar.sku, "stock_mm": stock_mm, "count": count}
        for (bar, stock_mm), count in bought.items()
        if not bar_gets_in(space, bar, stock_mm)
    ]


def _area(block: Size) -> tuple[int, Size]:
    return block[0] * block[1], block


def _is_own(sku: str, yard: Yard) -> bool:
    """Tell whether a sheet is an offcut that the builder has already."""
    if not sku.startswith(OFFCUT):
        return False
    return not yard.offcuts[int(sku.removeprefix(OFFCUT)) - 1].price_cents


def _block(cut: SawCut) -> Size:
    return cut.x_mm[1] - cut.x_mm[0], cut.y_mm[1] - cut.y_mm[0]


def _holds(outer: SawCut, inner: SawCut) -> bool:
    """Tell whether the block of one cut lies within that of another, made before it."""
    return all(
        have[0] <= want[0] and want[1] <= have[1]
        for have, want in ((outer.x_mm, inner.x_mm), (outer.y_mm, inner.y_mm))
    )


def _shop_can(layout: SheetLayout, cut: SawCut, yard: Yard) -> bool:
    sides = _block(cut)
    most = yard.saw_max_mm
    if most is not None and (max(sides) > max(most) or min(sides) > min(most)):
        return False
    span = cut.x_mm if cut.axis == "x" else cut.y_mm
    far_from = cut.at_mm + layout.kerf_mm
    kept = [cut.at_mm - span[0]]
    if any(_lies_beyond(part, cut, far_from) for part in _boxes(layout)):
        kept.append(span[1] - far_from)
    return min(kept) >= yard.saw_least_mm


Box = tuple[tuple[int, int], tuple[int, int]]


def _boxes(layout: SheetLayout) -> list[Box]:
    return [((p.x_mm, p.x_mm + p.length_mm), (p.y_mm, p.y_mm + p.width_mm)) for p in layout.parts]


def _lies_beyond(part: Box, cut: SawCut, far_from_mm: int) -> bool:
    inside = all(
        block[0] <= side[0] and side[1] <= block[1]
        for side, block in zip(part, (cut.x_mm, cut.y_mm), strict=True)
    )
    return inside and part[0 if cut.axis == "x" else 1][0] >= far_from_mm


def _left_whole(layout: SheetLayout, makers: tuple[str, ...]) -> list[Size]:
    """Return the blocks that leave the shop and still have to be cut."""
    cuts = layout.cuts
    return [
        _block(cut)
        for n, cut in enumerate(cuts)
        if makers[n] == HOME
        and not any(makers[i] == HOME and _holds(cuts[i], cut) for i in range(n))
    ]
