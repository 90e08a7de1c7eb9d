"""The bill and the cuts of one design as tables for a spreadsheet, as the page saves them."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from steepwright.report.files import csv_text, in_units
from steepwright.report.finished import Chosen
from steepwright.report.views.cuts import Cut

BILL = ("sku", "what", "yard", "quantity", "unit", "amount", "currency")
CUTS = (
    "stock", "sku", "times", "order", "mark", "piece", "length_mm", "width_mm", "cut", "fence_mm",
    "by",
)  # fmt: skip


def bill_csv(chosen: Chosen) -> str:
    """Return the bill, one row per article; money in currency units with two decimals.

    What has to be had besides and has no price comes last, with what it must bear and no amount.
    """
    rows: list[tuple[object, ...]] = [
        (
            line.sku,
            line.what,
            line.yard,
            line.quantity,
            _amount(line.unit_cents),
            _amount(line.unit_cents * line.quantity),
            chosen.currency,
        )
        for line in chosen.bill
    ]
    rows += [
        ("", f"Not in the sum: {item.what}; {item.why}", "", item.count, "", "", "")
        for item in chosen.open
    ]
    return csv_text(BILL, rows)


def cuts_csv(chosen: Chosen) -> str:
    """Return the pieces of every sheet and bar and the sheets' cuts in the saw's order."""
    return csv_text(*in_units(CUTS, _cut_rows(chosen), chosen.inches))


def _cut_rows(chosen: Chosen) -> Iterator[tuple[object, ...]]:
    for sheet in chosen.sheets:
        stock = sheet.what, sheet.sku, sheet.count
        for order, part in enumerate(sheet.parts, 1):
            yield *stock, order, part.mark, part.name, part.length_mm, part.width_mm, "", "", ""
        for order, cut in enumerate(sheet.cuts, 1):
            way = "across" if cut.across else "along"
            yield *stock, order, "", "", "", "", way, cut.distance_mm, _by(cut)
    for bar in chosen.bars:
        for order, piece in enumerate(bar.pieces, 1):
            stock = bar.what, bar.sku, bar.count
            yield *stock, order, piece.mark, piece.name, piece.length_mm, "", "", "", ""


def _by(cut: Cut) -> str:
    return "home" if cut.home else "shop"


def _amount(cents: int) -> Decimal:
    return Decimal(cents).scaleb(-2)
