"""Charges for sawing and delivery that a list names in its notes, not in a row of their own."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from steepwright.pricelist.basis import to_cents
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.money import value_of
from steepwright.pricelist.notes import vat_in
from steepwright.pricelist.offers import Charge
from steepwright.pricelist.table import Table
from steepwright.pricelist.words import first, fold, norm
from steepwright.units import money

_SIGN = r"(?:€|£|\$|\beur\b|\bchf\b|\bpln\b|\bzl\b|\beuro\b)"
_FIGURE = r"\d[\d.,']*(?:[.,]-+)?"
_KEYS = {"cut": "cut_price", "delivery": "delivery_price"}
"""Where the room file says what a charge is."""
_SUM = re.compile(rf"{_SIGN}\s?({_FIGURE})|({_FIGURE})\s?{_SIGN}")


def noted_charges(tables: Sequence[Table], ctx: ListContext) -> tuple[Charge, ...]:
    """Return the charges in notes that name exactly one sum of money."""
    found = []
    for table in tables:
        for row, text in table.charges:
            sums = [a or b for a, b in _SUM.findall(fold(text))]
            value = (
                value_of(sums[0].rstrip(".,"), ctx.answers.decimal)[0] if len(sums) == 1 else None
            )
            if value is None:
                continue
            stance = vat_in(text, True).stance
            has_vat = stance == "gross" if stance else ctx.has_vat
            rate = ctx.vat_rate if has_vat is False and ctx.vat_rate is not None else Decimal(0)
            cents = to_cents(value, 1 + rate / 100, Decimal(1))
            kind = first("charge", norm(text))
            found.append(Charge(table.sheet.name, row, kind, text[:80], cents))
    return tuple(found)


def tell_charges(charges: Sequence[Charge], ctx: ListContext) -> None:
    """Tell that charges are no part of a catalogue, and where a search takes them from."""
    if not charges:
        return
    sums = [f"{one.name} ({one.kind} {money(one.price_cents)})" for one in charges]
    keys = [f"{_KEYS[one.kind]} = {money(one.price_cents)}" for one in charges if one.kind in _KEYS]
    ctx.warn(
        "price-list-charges",
        f"the list charges apart: {', '.join(dict.fromkeys(sums))}; "
        "a search counts only what the room file says of cuts and delivery",
        f"put it there: [yard] {', '.join(dict.fromkeys(keys))}" if keys else "",
        charges[0].row,
    )
