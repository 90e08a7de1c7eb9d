"""The rate of value-added tax that a row states in a column of its own."""

from __future__ import annotations

import re
from decimal import Decimal

from steepwright.pricelist.cells import Cell, text_of
from steepwright.pricelist.figures import number
from steepwright.pricelist.table import Item
from steepwright.pricelist.words import fold

_RATE = re.compile(r"%|satz|rate\b|taux|aliquota|tipo|stawka|tarief")
_MOST_PERCENT = 50


def vat_rate_of(item: Item) -> Decimal | None:
    """Return a row's own VAT rate [%] from ``23 %``, ``23`` or a spreadsheet's 0.23; else None.

    A broken number under a title that speaks of no rate may be a sum of money, so it is none.
    """
    for column in item.header.of("vat"):
        cell = item.row.cell(column.index)
        rate = _percent(cell)
        says_rate = "%" in text_of(cell) or bool(_RATE.search(fold(column.title)))
        share = isinstance(cell, Decimal) and 0 < cell < 1
        if rate is not None and (says_rate or share or rate == int(rate)):
            return rate
    return None


def _percent(cell: Cell) -> Decimal | None:
    value = (
        cell if isinstance(cell, Decimal) else number(text_of(cell).replace("%", "").strip(), ",")
    )
    if value is None:
        return None
    if Decimal(0) < value < 1:
        value *= 100
    return value.normalize() if 0 <= value <= _MOST_PERCENT else None
