"""A sheet's draft -> its offer: thickness and panel, two sides, the side of the face grain."""

from __future__ import annotations

import re

from steepwright.catalog.types import Side
from steepwright.errors import InputError
from steepwright.pricelist.basis import Piece
from steepwright.pricelist.built import Built, in_pieces, settle
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft, spoilt_by_date
from steepwright.pricelist.kinds import is_cut_to_size
from steepwright.pricelist.offers import SheetOffer
from steepwright.pricelist.packs import pack_pieces
from steepwright.pricelist.panels import panel_for
from steepwright.pricelist.pricing import Quotes, price_piece
from steepwright.pricelist.sizing import SheetSize, sheet_size
from steepwright.pricelist.twice import two_sheets

_MM = re.compile(r"(\d{1,2})\s*(?:mm)?")
_MOST_SAWN_OFF_MM = 40


def build_sheet(draft: Draft, quotes: Quotes, stock: int | None, ctx: ListContext) -> Built:
    """Return the offer of one sheet, or why there is none; `stock` is its limit, if told."""
    row = draft.item.row.place
    size = sheet_size(draft, ctx)
    thickness, _ = settle(size.thickness, ctx, row)
    sides, _ = settle(size.sides, ctx, row)
    problem = _size_problem(draft, size, ctx)
    if problem is not None or sides is None or thickness is None:
        return problem or Built(reason="no size that fits a sheet")
    choice = panel_for(draft.kind.kind, thickness.mm[0], ctx.materials)
    if choice is None:
        told_mm = round(thickness.mm[0], 1).normalize()
        return Built(reason=f"no strength values for {draft.kind.kind} {told_mm:f} mm")
    if choice.note:
        ctx.assume("price-list-thickness", f"{draft.kind.kind}: {choice.note}", row)
    piece = Piece(
        thickness.mm[0], sides.mm[1], sides.mm[0], pack_pieces(draft, ctx.answers.pack_pieces)
    )
    priced = price_piece(quotes, piece, False, ctx, row)
    if priced.price is None:
        return Built(reason=priced.reason, question=priced.question)
    length, width = int(sides.mm[0]), int(sides.mm[1])
    if draft.traits.groove:
        trim = _sawn_off(ctx, row)
        if trim is None:
            reason = "tongue and groove, whose edges are no straight joint"
            is_open = ctx.answers.tongue_groove != "none"
            return Built(reason=reason, question="tongue_groove" if is_open else "")
        length, width = length - 2 * trim, width - 2 * trim
    offer = SheetOffer(
        draft.item.sheet,
        draft.item.row.number,
        draft.sku,
        draft.name,
        draft.kind.kind,
        choice.panel.id,
        choice.panel.thickness_mm,
        length,
        width,
        face_grain(draft, size, (length, width), ctx),
        priced.price,
        priced.cents,
        in_pieces(stock, priced.basis, piece.pack_pieces),
        piece.pack_pieces,
    )
    return Built((offer,))


def _size_problem(draft: Draft, size: SheetSize, ctx: ListContext) -> Built | None:
    """Return why a row's size can't be that of one stock sheet; None when it can."""
    spoilt = spoilt_by_date(draft, ctx)
    if spoilt:
        return Built(reason=f"a date ({spoilt}) stands where a size belongs", question="date_sizes")
    row = draft.item.row.place
    told = [settle(found, ctx, row)[1] for found in (size.thickness, size.sides)]
    if "two" in told:
        return Built(reason="the size can be read in two units", question="size_unit")
    names = zip(("thickness", "length and width"), told, strict=True)
    missing = [name for name, problem in names if problem]
    if missing:
        return Built(reason=f"no {' and '.join(missing)} that fits a sheet")
    if two_sheets(draft, size.sides, ctx):
        return Built(reason="several sizes in one row")
    if is_cut_to_size(draft.own):
        return Built(reason="cut to size, not a whole sheet")
    return None


def _sawn_off(ctx: ListContext, row: str) -> int | None:
    """Return what is sawn off each edge with a tongue or groove [mm]; None to leave it alone."""
    answer = ctx.answers.tongue_groove
    if answer in ("", "none"):
        return None
    found = _MM.fullmatch(answer)
    if not found or int(found[1]) > _MOST_SAWN_OFF_MM:
        message = f"--tongue-groove {answer}: is no width to saw off, such as 15 (mm), nor none"
        raise InputError(message)
    message = f"{found[1]} mm are sawn off every edge of tongue-and-groove sheets, as answered"
    ctx.assume("price-list-tongue-groove", message, row)
    return int(found[1])


def face_grain(draft: Draft, size: SheetSize, sides: tuple[int, int], ctx: ListContext) -> Side:
    """Return the side that the face grain runs along.

    Words decide; else the answer; else OSB and North American sheets run along their long
    side, other plywood along the size named first (common practice of the trade, no source).
    """
    row = draft.item.row.place
    long: Side = "length" if sides[0] >= sides[1] else "width"
    short: Side = "width" if long == "length" else "length"
    said = {"length": long, "width": short, "first": "length", "long": long, "short": short}
    said["second"] = "width"
    known = said.get(draft.traits.grain) or said.get(ctx.answers.face_grain)
    if known == "length" or known == "width":
        return known
    is_osb = draft.kind.kind in ("OSB/3", "rated OSB")
    if is_osb or ctx.currency in ("USD", "CAD"):
        what = "OSB" if is_osb else "North American plywood"
        message = f"{what} runs along its long side"
        ctx.assume("price-list-face-grain", message, row, "settle it with --face-grain long")
        return long
    if size.is_named or sides[0] >= sides[1]:
        message = "face grain is taken along the first size, the length"
    else:
        message = (
            "face grain is taken along the first size, here the short one; the order is unsure"
        )
    ctx.assume(
        "price-list-face-grain", message, row, "settle it with --face-grain first, long or short"
    )
    return "length"
