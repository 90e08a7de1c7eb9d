"""A sheet's draft -> its offer: thickness and panel, two sides, the side of the face grain."""

from __future__ import annotations

from steepwright.catalog.types import Side
from steepwright.pricelist.basis import Piece
from steepwright.pricelist.built import Built, in_pieces, settle
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft, spoilt_by_date
from steepwright.pricelist.offers import SheetOffer
from steepwright.pricelist.packs import pack_pieces
from steepwright.pricelist.panels import panel_for
from steepwright.pricelist.pricing import Quotes, price_piece
from steepwright.pricelist.sizing import SheetSize, sheet_size


def build_sheet(draft: Draft, quotes: Quotes, stock: int | None, ctx: ListContext) -> Built:
    """Return the offer of one sheet, or why there is none; `stock` is its limit, if told."""
    row = draft.item.row.place
    spoilt = spoilt_by_date(draft, ctx)
    if spoilt:
        return Built(reason=f"a date ({spoilt}) stands where a size belongs", question="date_sizes")
    size = sheet_size(draft, ctx)
    thickness, no_thickness = settle(size.thickness, ctx, row)
    sides, no_sides = settle(size.sides, ctx, row)
    if "two" in (no_thickness, no_sides):
        return Built(reason="the size can be read in two units", question="size_unit")
    if sides is None or thickness is None:
        missing = " and ".join(
            name
            for name, one in (("thickness", thickness), ("length and width", sides))
            if one is None
        )
        return Built(reason=f"no {missing} that fits a sheet")
    choice = panel_for(draft.kind.kind, thickness.mm[0], ctx.materials)
    if choice is None:
        return Built(
            reason=f"no strength values for {draft.kind.kind} {thickness.mm[0].normalize():f} mm"
        )
    if choice.note:
        ctx.assume("price-list-thickness", f"{draft.kind.kind}: {choice.note}", row)
    piece = Piece(
        thickness.mm[0], sides.mm[1], sides.mm[0], pack_pieces(draft, ctx.answers.pack_pieces)
    )
    priced = price_piece(quotes, piece, False, ctx, row)
    if priced.price is None:
        return Built(reason=priced.reason, question=priced.question)
    length, width = int(sides.mm[0]), int(sides.mm[1])
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
    if draft.kind.kind == "OSB/3" or ctx.currency in ("USD", "CAD"):
        what = "OSB" if draft.kind.kind == "OSB/3" else "North American plywood"
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
