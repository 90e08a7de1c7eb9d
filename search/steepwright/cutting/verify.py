"""Checks a cut plan by carrying it out, cut by cut; shares only the record types with the solvers.

Each function returns the faults found, in plain words; an empty tuple means that the plan cuts
exactly what is asked from what is there, at the price it states. That it is the cheapest plan is
not checked here.
"""

from __future__ import annotations

import itertools
from collections import Counter

from steepwright.cutting.records import (
    BarLayout,
    BarPart,
    BarPlan,
    BarStock,
    PlacedPart,
    SawCut,
    SheetLayout,
    SheetPart,
    SheetPlan,
    SheetStock,
)

Rectangle = tuple[int, int, int, int]
"""Left, lower, right and upper edge [mm]."""


def verify_sheet_plan(
    plan: SheetPlan, parts: tuple[SheetPart, ...], stocks: tuple[SheetStock, ...], kerf_mm: int
) -> tuple[str, ...]:
    """Return every fault of a sheet plan; empty when it is right.

    Checked: each cut runs edge to edge through a block that exists at that moment and takes one
    kerf; the blocks left are the placed parts or waste; parts lie in the sheet, apart by a kerf,
    with the grain as asked; the parts are those asked for; limits, prices and charges.
    """
    faults = _sku_faults(tuple(s.sku for s in stocks))
    by_sku = {stock.sku: stock for stock in stocks}
    laid: Counter[tuple[str, int, int]] = Counter()
    sheet_cents = cut_cents = 0
    for number, layout in enumerate(plan.layouts, 1):
        where = f"sheet {number} ({layout.sku})"
        stock = by_sku.get(layout.sku)
        if stock is None:
            faults.append(f"{where}: no such stock")
            continue
        faults += [f"{where}: {fault}" for fault in _layout_faults(layout, stock, kerf_mm)]
        sheet_cents += stock.price_cents
        cut_cents += stock.cut_cents * max(0, len(layout.cuts) - stock.free_cuts)
        for placed in layout.parts:
            sides = (placed.length_mm, placed.width_mm)
            along, across = sides if stock.face_grain == "length" else sides[::-1]
            laid[placed.name, along, across] += 1
    faults += _demand_faults(laid, parts)
    faults += _limit_faults([x.sku for x in plan.layouts], [(s.sku, s.limit) for s in stocks])
    if plan.sheet_cents != sheet_cents:
        faults.append(f"sheets cost {sheet_cents} cents, the plan says {plan.sheet_cents}")
    if plan.cut_cents != cut_cents:
        faults.append(f"cuts cost {cut_cents} cents, the plan says {plan.cut_cents}")
    return tuple(faults)


def _sku_faults(skus: tuple[str, ...]) -> list[str]:
    return [f"stock {sku} is listed {n} times" for sku, n in Counter(skus).items() if n > 1]


def _limit_faults(used: list[str], limits: list[tuple[str, int | None]]) -> list[str]:
    times = Counter(used)
    return [
        f"{times[sku]} of {sku} are used, there are {limit}"
        for sku, limit in limits
        if limit is not None and times[sku] > limit
    ]


def _layout_faults(layout: SheetLayout, stock: SheetStock, kerf_mm: int) -> list[str]:
    faults = []
    if (layout.length_mm, layout.width_mm) != (stock.length_mm, stock.width_mm):
        faults.append(
            f"is drawn {layout.length_mm} x {layout.width_mm} mm, "
            f"the stock is {stock.length_mm} x {stock.width_mm} mm"
        )
    if layout.kerf_mm != kerf_mm:
        faults.append(f"is drawn with a kerf of {layout.kerf_mm} mm, the saw takes {kerf_mm} mm")
    sheet = (0, 0, stock.length_mm, stock.width_mm)
    blocks, cut_faults = _sawn(sheet, layout.cuts, kerf_mm)
    return faults + cut_faults + _placing_faults(layout.parts, sheet, blocks, kerf_mm)


def _sawn(
    sheet: Rectangle, cuts: tuple[SawCut, ...], kerf_mm: int
) -> tuple[Counter[Rectangle], list[str]]:
    """Return the blocks that are left after the cuts, and the cuts that can't be made."""
    blocks = Counter([sheet])
    faults = []
    for number, cut in enumerate(cuts, 1):
        (left, right), (low, high) = cut.x_mm, cut.y_mm
        block = (left, low, right, high)
        start, end = (left, right) if cut.axis == "x" else (low, high)
        if blocks[block] == 0:
            faults.append(f"cut {number}: there is no block {block} to cut")
            continue
        if not start < cut.at_mm < end:
            faults.append(f"cut {number}: {cut.axis} = {cut.at_mm} is not inside {block}")
            continue
        blocks[block] -= 1
        after = cut.at_mm + kerf_mm
        if cut.axis == "x":
            halves = [(left, low, cut.at_mm, high), (after, low, right, high)]
        else:
            halves = [(left, low, right, cut.at_mm), (left, after, right, high)]
        # The far half is gone when the rest is not wider than the kerf.
        blocks.update(halves if after < end else halves[:1])
    return blocks, faults


def _edges(placed: PlacedPart) -> Rectangle:
    return (
        placed.x_mm,
        placed.y_mm,
        placed.x_mm + placed.length_mm,
        placed.y_mm + placed.width_mm,
    )


def _placing_faults(
    parts: tuple[PlacedPart, ...], sheet: Rectangle, blocks: Counter[Rectangle], kerf_mm: int
) -> list[str]:
    faults = []
    free = Counter(blocks)
    for placed in parts:
        left, low, right, high = edges = _edges(placed)
        if left < sheet[0] or low < sheet[1] or right > sheet[2] or high > sheet[3]:
            faults.append(f"part {placed.name} at {edges} is not inside the sheet")
        if free[edges] == 0:
            faults.append(f"part {placed.name} at {edges} is not a block that the cuts leave")
        else:
            free[edges] -= 1
    for one, other in itertools.combinations(parts, 2):
        a, b = _edges(one), _edges(other)
        apart = max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])
        if apart < kerf_mm:
            faults.append(
                f"parts {one.name} at {a} and {other.name} at {b} are closer than the kerf"
            )
    return faults


def _demand_faults(laid: Counter[tuple[str, int, int]], parts: tuple[SheetPart, ...]) -> list[str]:
    """Compare what is laid (name, size along and across the grain) with what is asked for.

    Fixed parts take what lies their way first; parts that may turn take the rest of either way.
    """
    left = Counter(laid)
    faults = []
    for part in sorted(parts, key=lambda p: p.grain == "any"):
        along, across = part.length_mm, part.width_mm
        if part.grain == "width":
            along, across = across, along
        ways = {(part.name, along, across)}
        if part.grain == "any":
            ways.add((part.name, across, along))
        found = 0
        for way in sorted(ways):
            taken = min(part.count - found, left[way])
            left[way] -= taken
            found += taken
        if found != part.count:
            faults.append(
                f"{found} of {part.count} parts {part.name} "
                f"({part.length_mm} x {part.width_mm} mm, grain {part.grain}) are laid"
            )
    faults += [
        f"{n} parts {name} ({along} mm along the grain, {across} mm across) are not asked for"
        for (name, along, across), n in sorted(left.items())
        if n > 0
    ]
    return faults


def verify_bar_plan(
    plan: BarPlan, parts: tuple[BarPart, ...], stocks: tuple[BarStock, ...], kerf_mm: int
) -> tuple[str, ...]:
    """Return every fault of a bar plan; empty when it is right.

    Checked: the pieces and the kerfs between them fit each bar; the pieces are those asked for;
    limits and the price.
    """
    faults = _sku_faults(tuple(s.sku for s in stocks))
    by_sku = {stock.sku: stock for stock in stocks}
    cut: Counter[tuple[str, int]] = Counter()
    cost_cents = 0
    for number, layout in enumerate(plan.layouts, 1):
        where = f"bar {number} ({layout.sku})"
        stock = by_sku.get(layout.sku)
        if stock is None:
            faults.append(f"{where}: no such stock")
            continue
        faults += [f"{where}: {fault}" for fault in _bar_faults(layout, stock, kerf_mm)]
        cost_cents += stock.price_cents
        cut.update(layout.pieces)
    asked: Counter[tuple[str, int]] = Counter()
    for part in parts:
        asked[part.name, part.length_mm] += part.count
    faults += [
        f"{cut[piece]} of {asked[piece]} pieces {piece[0]} of {piece[1]} mm are cut"
        for piece in sorted(cut.keys() | asked.keys())
        if cut[piece] != asked[piece]
    ]
    faults += _limit_faults([x.sku for x in plan.layouts], [(s.sku, s.limit) for s in stocks])
    if plan.cost_cents != cost_cents:
        faults.append(f"bars cost {cost_cents} cents, the plan says {plan.cost_cents}")
    return tuple(faults)


def _bar_faults(layout: BarLayout, stock: BarStock, kerf_mm: int) -> list[str]:
    faults = []
    if layout.stock_mm != stock.length_mm:
        faults.append(f"is drawn {layout.stock_mm} mm long, the stock is {stock.length_mm} mm")
    if layout.kerf_mm != kerf_mm:
        faults.append(f"is drawn with a kerf of {layout.kerf_mm} mm, the saw takes {kerf_mm} mm")
    if not layout.pieces:
        faults.append("is bought and not cut")
    used = sum(length for _, length in layout.pieces) + kerf_mm * (len(layout.pieces) - 1)
    if used > stock.length_mm:
        faults.append(f"pieces and kerfs take {used} mm of {stock.length_mm} mm")
    return faults
