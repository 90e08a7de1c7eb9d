"""The bill of one wall: every article bought, in whole packs, with charges, in integer cents."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from steepwright.catalog.families import ties_on_offer
from steepwright.catalog.types import OFFCUT, Hardware
from steepwright.cutting.records import BarPlan, SheetPlan
from steepwright.pricing.hardware import Counts, HardwarePricer, quantities
from steepwright.pricing.market import Market
from steepwright.pricing.naming import bar_name, sheet_name
from steepwright.pricing.packs import CheapestOf, PackTable
from steepwright.pricing.stands import StandPlan
from steepwright.pricing.wall import Wall


@dataclass(frozen=True, slots=True)
class BillLine:
    """One article or charge; `amount_cents` is quantity x unit price."""

    sku: str
    what: str
    quantity: int
    unit_cents: int
    group: str
    yard: str = ""

    @property
    def amount_cents(self) -> int:
        """Quantity x unit price [cents]."""
        return self.quantity * self.unit_cents


def total_cents(lines: tuple[BillLine, ...]) -> int:
    """Return the bill's sum [cents]."""
    return sum(line.amount_cents for line in lines)


@dataclass(frozen=True, slots=True)
class Timber:
    """How the wall's bars are cut, and what a freestanding frame below its beam is made of."""

    wall: BarPlan
    stand: StandPlan


def make_bill(
    market: Market,
    pricer: HardwarePricer,
    wall: Wall,
    sheet_plans: tuple[SheetPlan, ...],
    timber: Timber,
) -> tuple[BillLine, ...]:
    """Return the bill's lines: sheets, timber, hardware, charges."""
    lines = [*_sheet_lines(market, sheet_plans), *_bar_lines(market, timber)]
    lines += _hardware_lines(market, pricer, wall)
    lines += _stand_bolt_lines(market, pricer, timber.stand)
    yard = market.room.yard
    charged = _charged_cuts(sheet_plans, yard.cut_price_cents)
    if charged:
        lines.append(
            BillLine("cut", "saw cut at the yard", charged, yard.cut_price_cents, "charges")
        )
    return (*lines, *_transport_lines(market, wall.delivered))


def _transport_lines(market: Market, delivered: bool) -> list[BillLine]:
    """Return one line per way that is paid for; yards are named where there are several."""
    charges = [one for one in market.delivery_charges if delivered and one[1]]
    named = bool(market.trips) or len(charges) > 1
    lines = [
        BillLine(f"delivery {name}", f"delivery from {name}", 1, cents, "charges", name)
        if named and name
        else BillLine("delivery", "delivery", 1, cents, "charges")
        for name, cents in charges
    ]
    brought = {name for name, _ in charges}
    lines += [
        BillLine(f"trip {name}", f"trip to {name}", 1, price_cents, "charges", name)
        for name, price_cents in market.trips
        if name not in brought
    ]
    return lines


def _charged_cuts(plans: tuple[SheetPlan, ...], cut_cents: int) -> int:
    return sum(plan.cut_cents for plan in plans) // cut_cents if cut_cents else 0


def _sheet_lines(market: Market, plans: tuple[SheetPlan, ...]) -> list[BillLine]:
    named = {p.sku: (sheet_name(p), p.yard) for family in market.families for p in family.products}
    price = {stock.sku: stock.price_cents for group in market.sheet_stock for stock in group}
    for stock_group in market.sheet_stock:
        for stock in stock_group:
            if stock.sku.startswith(OFFCUT):
                offcut = market.room.yard.offcuts[int(stock.sku.removeprefix(OFFCUT)) - 1]
                named[stock.sku] = (f"offcut: {offcut.name}", "")
    counts = Counter(layout.sku for plan in plans for layout in plan.layouts)
    return [
        BillLine(sku, named[sku][0], count, price[sku], "sheets", named[sku][1])
        for sku, count in sorted(counts.items())
    ]


def _bar_lines(market: Market, timber: Timber) -> list[BillLine]:
    known = {p.sku: p for p in market.catalog.timber}
    layouts = (*timber.wall.layouts, *timber.stand.layouts)
    counts = Counter(layout.sku for layout in layouts)
    return [
        BillLine(
            sku,
            bar_name(known[sku]),
            count,
            known[sku].price_cents,
            "timber",
            known[sku].yard,
        )
        for sku, count in sorted(counts.items())
    ]


def _stand_bolt_lines(market: Market, pricer: HardwarePricer, stand: StandPlan) -> list[BillLine]:
    yards = {row.sku: row.yard for row in market.catalog.hardware}
    return [
        line
        for bolt in stand.bolts
        for line in _pack_lines(bolt.table, bolt.needed, pricer.names, yards)
    ]


def counts_of(market: Market, wall: Wall) -> Counts:
    """Return what one wall's small parts depend on, as arrays of one row."""

    def row(value: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
        return np.array([value], dtype=np.int64)

    return Counts(
        studs=row(wall.stud_count),
        columns=row(wall.split.columns),
        rows=row(wall.split.rows),
        mounts=row(wall.mount_count),
        board_mm=row(wall.board_mm),
        kicker_mm=row(wall.kicker_mm),
        width_mm=row(wall.width_mm),
        screw_mm=row(wall.screw_mm),
        tie=row(0 if wall.tie is None else 1 + ties_on_offer(market.catalog).index(wall.tie)),
    )


def _tie_line(tie: Hardware, studs: int) -> BillLine:
    size = tie.pack_quantity
    what = f"{tie.name} (pack of {size} pieces, {studs} needed)" if size > 1 else tie.name
    return BillLine(tie.sku, what, -(-studs // size), tie.price_cents, "hardware", tie.yard)


def _hardware_lines(market: Market, pricer: HardwarePricer, wall: Wall) -> list[BillLine]:
    need = quantities(pricer.rules, counts_of(market, wall))
    yards = {row.sku: row.yard for row in market.catalog.screws}
    yards |= {row.sku: row.yard for row in market.catalog.hardware}
    lines = [
        BillLine(
            wall.mount.sku,
            wall.mount.name,
            wall.mount_count,
            wall.mount.price_cents,
            "hardware",
            wall.mount.yard,
        )
    ]
    if wall.tie is not None:
        lines.append(_tie_line(wall.tie, wall.stud_count))
    sheet = market.families.index(wall.sheet)
    section = market.sections.index(wall.section)
    for group, count in need.items():
        table = None if group == "mount" else pricer.table_for(group, sheet, section)
        if table is None or not count[0]:
            continue
        unit = "m" if group == "rope" else "pieces"
        lines += _pack_lines(table, int(count[0]), pricer.names, yards, unit)
    return lines


def _pack_lines(
    table: PackTable | CheapestOf,
    needed: int,
    names: Mapping[str, str],
    yards: Mapping[str, str],
    unit: str = "pieces",
) -> list[BillLine]:
    price = {sku: cents for sku, _, cents in table.packs}
    bought = table.buy(needed)
    told = _packs_told(bought, {sku: size for sku, size, _ in table.packs}, needed, unit)
    return [
        BillLine(
            sku,
            f"{names[sku]}{pack}",
            packs,
            price[sku],
            "hardware",
            yards.get(sku, ""),
        )
        for (sku, packs), pack in zip(bought, told, strict=True)
    ]


def _packs_told(
    bought: Sequence[tuple[str, int]], pieces: Mapping[str, int], needed: int, unit: str
) -> list[str]:
    """Return what is said of each pack bought for one need; how much is needed is said once."""
    packs = [sku for sku, _ in bought if pieces[sku] > 1]
    last = {sku: f", {needed} needed{' in all' if len(bought) > 1 else ''}" for sku in packs[-1:]}
    return [
        f" (pack of {pieces[sku]} {unit}{last.get(sku, '')})" if sku in packs else ""
        for sku, _ in bought
    ]
