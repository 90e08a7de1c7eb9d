"""A draft -> offers, a charge, or the reason why it gives none."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from steepwright.pricelist.basis import Piece, to_cents
from steepwright.pricelist.build_sheet import build_sheet
from steepwright.pricelist.build_timber import build_timber
from steepwright.pricelist.built import Built
from steepwright.pricelist.cells import cell_text
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft
from steepwright.pricelist.offers import Charge, HardwareOffer, LeftOut
from steepwright.pricelist.packs import is_by_weight, least_pieces_in, pack_pieces
from steepwright.pricelist.pieces import is_for_one, may_be_a_packs
from steepwright.pricelist.pricing import Quote, Quotes, price_piece, quotes_of
from steepwright.pricelist.screw_size import screw_size
from steepwright.pricelist.words import has, norm

_STOCK = re.compile(r"\d{1,6}(?:[.,]0+)?")
_NONE_LEFT = re.compile(r"0+(?:[.,]0+)?\s*[^\d]*")
_WHOLE = re.compile(r"\d+")
_PRICED = ("screw", "tnut")
"""Small parts whose price a catalogue takes from a list, see `parts`."""
_RATED = ("hinge", "bolt", "rope", "strap", "pulley")
"""Those that carry by a rating which no list tells."""


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
    """Return the pieces in stock, where a column gives a plain number or says that none are."""
    for column in draft.item.header.of("stock"):
        text = cell_text(draft.item.row, column.index).strip()
        if _STOCK.fullmatch(text):
            return int(_WHOLE.search(text)[0])  # type: ignore[index]
        if _NONE_LEFT.fullmatch(text) or has("sold_out", norm(text)):
            return 0
    return None


def _least_quantity(draft: Draft) -> int:
    for column in draft.item.header.of("min_quantity"):
        found = _WHOLE.search(cell_text(draft.item.row, column.index))
        if found:
            return int(found[0])
    named = least_pieces_in(draft.own)
    return named or 1


def _hardware(draft: Draft, quotes: Quotes, ctx: ListContext) -> Built:
    """Return a small part; its price is that of a pack."""
    if draft.kind.kind in _RATED:
        reason = "only of screws and T-nuts are prices taken from a list"
        return Built(reason=f"{draft.kind.kind}: {reason}")
    if draft.kind.kind not in _PRICED:
        return Built(reason=f"{draft.kind.kind}s are not in a wall's parts list")
    row = draft.item.row.place
    size = screw_size(draft.own)
    if size is None:
        return Built(reason=f"{draft.kind.kind}: a size in inches that can't be read")
    if is_by_weight(draft):
        return Built(reason=f"{draft.kind.kind}s sold by weight, how many is not said")
    best = quotes.usable[0]
    by_pack = best.basis is not None and best.basis.unit == "pack"
    packed = Piece(Decimal(0), Decimal(0), Decimal(0), int(by_pack))
    priced = price_piece(quotes, packed, False, ctx, row)
    if priced.price is None:
        return Built(reason=priced.reason, question=priced.question)
    if draft.kind.kind == "screw":
        message = "a screw's thread and strength are those of the shipped screw of its size"
        ctx.assume("price-list-screws", message, row)
    diameter, length = size
    offer = HardwareOffer(
        draft.item.sheet,
        draft.item.row.number,
        draft.sku,
        draft.name,
        draft.kind.kind,
        diameter,
        length,
        pack_pieces(draft, "") or 1,
        priced.price,
        priced.cents,
    )
    return Built((_in_its_pack(offer, best, ctx, row),))


def _in_its_pack(offer: HardwareOffer, best: Quote, ctx: ListContext, row: str) -> HardwareOffer:
    """Return a small part as the pack that it is sold in, with that pack's price."""
    unit, count = (best.basis.unit, best.basis.count) if best.basis else ("", Decimal(1))
    if unit == "piece" and count > 1:
        cents = to_cents(best.printed, 1 + best.net_share, Decimal(1))
        return replace(offer, pack_quantity=int(count), price_cents=cents)
    if unit == "piece" and is_for_one(offer, ctx):
        message = "a price too low for a pack is that of one piece, taken times the pack's pieces"
        ctx.assume("price-list-packs", message, row)
        cents = to_cents(best.printed, 1 + best.net_share, Decimal(offer.pack_quantity))
        return replace(offer, price_cents=cents)
    answered = int(ctx.answers.pack_pieces or 1)
    if offer.pack_quantity == 1 and (unit == "pack" or may_be_a_packs(offer, ctx)):
        return replace(offer, pack_quantity=answered)
    return offer


def _charge(draft: Draft, quotes: Quotes, ctx: ListContext) -> Built:
    """Return a charge; its price is flat or per cut, so it needs no size."""
    best = quotes.usable[0]
    cents = to_cents(best.printed, 1 + best.net_share, Decimal(1))
    return Built(
        charge=Charge(draft.item.sheet, draft.item.row.number, draft.kind.kind, draft.name, cents)
    )


def left_out(draft: Draft, built: Built) -> LeftOut:
    """Return the note of a row that gave no offer."""
    return LeftOut(
        draft.item.sheet, draft.item.row.number, built.reason, (draft.name or draft.own)[:80]
    )
