"""A draft -> offers, a charge, or the reason why it gives none."""

from __future__ import annotations

import re
from decimal import Decimal

from steepwright.pricelist.basis import Piece
from steepwright.pricelist.build_sheet import build_sheet
from steepwright.pricelist.build_timber import build_timber
from steepwright.pricelist.built import Built
from steepwright.pricelist.cells import cell_text
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft
from steepwright.pricelist.offers import Charge, HardwareOffer, LeftOut
from steepwright.pricelist.packs import pack_pieces
from steepwright.pricelist.pricing import Priced, Quotes, price_piece, quotes_of

_WHOLE = re.compile(r"\d+")
_HARDWARE = ("hinge", "tnut", "bolt", "rope", "strap", "pulley")


def build(draft: Draft, ctx: ListContext) -> Built:
    """Return the offers of one draft."""
    if draft.problem:
        return Built(reason=draft.problem, question=draft.question)
    stock = _stock(draft)
    if stock == 0:
        return Built(reason="out of stock")
    least = _least_quantity(draft)
    if least > 1 and least > int(ctx.answers.min_quantity or 1):
        return Built(reason=f"sold from {least} pieces on", question="min_quantity")
    quotes = quotes_of(draft.item, ctx)
    if not quotes.usable:
        return Built(reason=quotes.reason)
    if draft.kind.family == "sheet":
        found = build_sheet(draft, quotes, stock, ctx)
    elif draft.kind.family == "timber":
        found = build_timber(draft, quotes, stock, ctx)
    elif draft.kind.family == "hardware":
        found = _hardware(draft, quotes, ctx)
    else:
        found = _charge(draft, quotes, ctx)
    return Built(found.offers, found.charge, found.reason, found.question, quotes)


def _stock(draft: Draft) -> int | None:
    """Return the pieces in stock, where a column gives a plain number."""
    for column in draft.item.header.of("stock"):
        text = cell_text(draft.item.row, column.index).strip()
        if re.fullmatch(r"\d{1,6}(?:[.,]0+)?", text):
            return int(_WHOLE.search(text)[0])  # type: ignore[index]
    return None


def _least_quantity(draft: Draft) -> int:
    for column in draft.item.header.of("min_quantity"):
        found = _WHOLE.search(cell_text(draft.item.row, column.index))
        if found:
            return int(found[0])
    return 1


def _hardware(draft: Draft, quotes: Quotes, ctx: ListContext) -> Built:
    if draft.kind.kind not in _HARDWARE:
        reason = f"{draft.kind.kind}s: a price list lacks their thread, root and strength"
        return Built(reason=reason)
    row = draft.item.row.number
    priced = price_piece(quotes, Piece(*(Decimal(0),) * 3), False, ctx, row)
    pieces = pack_pieces(draft) or 1
    best = quotes.usable[0]
    if priced.price is None and best.basis and best.basis.unit == "pack" and pieces > 1:
        packed = Piece(*(Decimal(0),) * 3, 1)
        priced = price_piece(quotes, packed, False, ctx, row)
    elif best.basis and best.basis.unit == "piece" and best.basis.count > 1:
        pieces = int(best.basis.count)
        priced = Priced(priced.price, priced.cents * pieces, priced.basis)
    if priced.price is None:
        return Built(reason=priced.reason, question=priced.question)
    diameter, length = _bolt_size(draft.own)
    offer = HardwareOffer(
        draft.item.sheet,
        row,
        draft.sku,
        draft.name,
        draft.kind.kind,
        diameter,
        length,
        pieces,
        priced.price,
        priced.cents,
    )
    return Built((offer,))


def _bolt_size(own: str) -> tuple[Decimal, int]:
    """Return diameter and length [mm] of ``M10 x 40`` or ``10 mm``; 0 where not said."""
    found = re.search(r"\bm\s?(\d{1,2})(?:\s?x\s?(\d{1,4}))?", own.casefold().replace("×", "x"))
    if found:
        return Decimal(found[1]), int(found[2] or 0)
    found = re.search(r"\b(\d{1,2})\s?mm\b", own.casefold())
    return (Decimal(found[1]), 0) if found else (Decimal(0), 0)


def _charge(draft: Draft, quotes: Quotes, ctx: ListContext) -> Built:
    """Return a charge; its price is flat or per cut, so it needs no size."""
    best = quotes.usable[0]
    rate = ctx.vat_rate or Decimal(0)
    factor = 1 + rate / 100 if best.has_vat is False else Decimal(1)
    cents = int((best.printed * factor * 100).to_integral_value())
    return Built(
        charge=Charge(draft.item.sheet, draft.item.row.number, draft.kind.kind, draft.name, cents)
    )


def left_out(draft: Draft, built: Built) -> LeftOut:
    """Return the note of a row that gave no offer."""
    return LeftOut(
        draft.item.sheet, draft.item.row.number, built.reason, (draft.name or draft.own)[:80]
    )
