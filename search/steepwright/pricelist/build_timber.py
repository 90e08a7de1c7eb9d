"""A bar's draft -> its offers, one per stock length: section, strength class, price."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

from steepwright.errors import InputError
from steepwright.pricelist.bar_sizing import BarSize, bar_size, says_cls
from steepwright.pricelist.basis import Piece
from steepwright.pricelist.built import Built, in_pieces, settle
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft, spoilt_by_date
from steepwright.pricelist.lengths import LengthOffer
from steepwright.pricelist.offers import TimberOffer
from steepwright.pricelist.packs import pack_pieces
from steepwright.pricelist.panels import nominal_section
from steepwright.pricelist.pricing import Priced, Quotes, price_piece
from steepwright.pricelist.sizes import BAR_MM, UNIT_MM, Reading
from steepwright.pricelist.twice import two_sections
from steepwright.pricelist.words import has, norm, shape


def build_timber(draft: Draft, quotes: Quotes, stock: int | None, ctx: ListContext) -> Built:
    """Return the offers of one bar, or why there are none; `stock` is their limit, if told."""
    row = draft.item.row.place
    if draft.traits.cladding:
        return Built(reason="boards for cladding, floor or fence, not for a frame")
    spoilt = spoilt_by_date(draft, ctx)
    if spoilt:
        return Built(reason=f"a date ({spoilt}) stands where a size belongs", question="date_sizes")
    size = bar_size(draft, ctx)
    section, problem = _section(draft, size, ctx)
    if section is None:
        return problem
    width, depth, surface = section
    strength, problem = _strength(draft, ctx)
    if not strength:
        return problem
    lengths, problem = _lengths(size.lengths, ctx, row)
    if not lengths:
        return problem
    offers: list[TimberOffer] = []
    one_length = len(lengths) == 1 and draft.item.only is None
    priced = Priced()
    for length in lengths:
        piece = Piece(
            Decimal(width),
            Decimal(depth),
            Decimal(length),
            pack_pieces(draft, ctx.answers.pack_pieces),
            size.nominal_in,
        )
        priced = price_piece(quotes, piece, True, ctx, row)
        if priced.price is None:
            return Built(reason=priced.reason, question=priced.question)
        if len(lengths) > 1 and priced.basis and priced.basis.unit in ("piece", "pack"):
            return Built(reason="one price per piece for several lengths")
        offers.append(
            TimberOffer(
                draft.item.sheet,
                draft.item.row.number,
                draft.sku,
                draft.name,
                width,
                depth,
                length,
                strength,
                surface,
                size.lengths,
                priced.price,
                priced.cents,
                in_pieces(stock, priced.basis, piece.pack_pieces) if one_length else None,
                piece.pack_pieces,
            )
        )
    return Built(tuple(offers))


def _section(
    draft: Draft, size: BarSize, ctx: ListContext
) -> tuple[tuple[int, int, str] | None, Built]:
    """Return width, depth [mm] and surface; nominal lumber by the table of its country."""
    row = draft.item.row.place
    surface = draft.traits.surface or ctx.answers.surface
    if not size.is_nominal:
        reading, problem = settle(size.section, ctx, row)
        if problem == "two":
            return None, Built(reason="the section can be read in two units", question="size_unit")
        if reading is None:
            return None, Built(reason="no section that fits a bar")
        if two_sections(draft, size.section, ctx):
            return None, Built(reason="several sections in one row")
        if _is_trade_nominal(draft):
            return _ex_size(reading, surface, ctx, row)
        return _sorted_section(reading.mm, surface or "not said"), Built()
    inches = size.nominal_in or (Decimal(0), Decimal(0))
    if any(value != int(value) for value in inches):
        mm = tuple(value * Decimal("25.4") for value in inches)
        return _sorted_section(mm, surface or "not said"), Built()
    country = ctx.answers.nominal or _country(ctx)
    found = nominal_section(country, inches, surface, says_cls(draft))
    if found is None:
        text = f"{inches[0]:f}x{inches[1]:f}"
        return None, Built(
            reason=f"nominal size {text} without its actual size", question="nominal"
        )
    message = f"nominal inch sizes are taken as the {country.upper()} actual sizes"
    ctx.assume("price-list-nominal", message, row, f"settle it with --nominal {country}")
    return found, Built()


def _sorted_section(mm: Iterable[Decimal], surface: str) -> tuple[int, int, str]:
    """Return the section in whole millimetres, rounded down: the smaller size is the safe one."""
    narrow, deep = sorted(int(value) for value in mm)
    return narrow, deep, surface


def _is_trade_nominal(draft: Draft) -> bool:
    words = norm(shape(draft.own))
    return (has("nominal", words) and " ex " in words) and not has("actual", words)


def _ex_size(
    reading: Reading, surface: str, ctx: ListContext, row: str
) -> tuple[tuple[int, int, str] | None, Built]:
    """Return the planed size of timber sold as *ex 50 x 100*, from the nominal table."""
    inches = tuple((value / 25).quantize(Decimal(1)) for value in reading.mm)
    exact = all(value == inch * 25 for value, inch in zip(reading.mm, inches, strict=True))
    found = nominal_section("uk", (inches[0], inches[1]), "planed", False) if exact else None
    if found is None:
        return None, Built(
            reason="sold by its size before planing, actual size unknown", question="nominal"
        )
    ctx.assume("price-list-nominal", "sizes marked 'ex' are before planing", row)
    return found, Built()


def _country(ctx: ListContext) -> str:
    return {"USD": "us", "CAD": "us", "GBP": "uk"}.get(ctx.currency, "")


def _strength(draft: Draft, ctx: ListContext) -> tuple[str, Built]:
    """Return a strength class that we have values for; never one that nobody stated.

    The answer ``C24`` is for timber without a class, ``SPF No.2=C18`` for one that is stated; it
    goes before our own values for that class.
    """
    row = draft.item.row.place
    stated = draft.traits.strength
    known = ctx.materials.timber_classes
    answer = _strength_answers(ctx.answers.strength).get(stated.casefold(), "")
    if stated in known and answer not in known:
        if draft.traits.strength_note:
            ctx.assume("price-list-strength", draft.traits.strength_note, row)
        return stated, Built()
    if answer in known:
        if stated:
            ctx.assume("price-list-strength", f"{stated} is reckoned as {answer}, as answered", row)
        return answer, Built()
    if stated:
        reason = f"no strength values for class {stated}"
    else:
        reason = "no strength class: not structural timber"
    return "", Built(reason=reason, question="" if answer == "none" else "strength")


def _strength_answers(text: str) -> dict[str, str]:
    """Return the answered class by the stated one, in lower case; an empty text for none stated."""
    answers = {}
    for part in text.split(","):
        stated, _, answer = part.rpartition("=")
        answers[stated.strip().casefold()] = answer.strip()
    return answers


def _lengths(offer: LengthOffer, ctx: ListContext, row: str) -> tuple[tuple[int, ...], Built]:
    stock = offer.stock(_answered_mm(ctx.answers.length_step, ctx.imperial))
    if stock:
        return stock, Built()
    if offer.form == "two units":
        return (), Built(reason="the length can be read in two units", question="size_unit")
    if offer.form == "random":
        return (), Built(reason="random lengths: can't be planned to the millimetre")
    if offer.form == "range":
        low, high = offer.lengths_mm
        reason = f"lengths from {low} to {high} mm without a step"
        return (), Built(reason=reason, question="length_step")
    if ctx.answers.lengths:
        return answered_lengths(ctx.answers.lengths, ctx.imperial), Built()
    return (), Built(reason="no stock length", question="lengths")


def answered_lengths(text: str, imperial: bool) -> tuple[int, ...]:
    """Return the stock lengths [mm] of an answer such as ``3,4,5``, in feet for an imperial list.

    Raises
    ------
    InputError
        When one is no length of a bar.
    """
    parts = re.split(r"\s*[,;/]\s*|\s+(?=\d)", text.strip())
    lengths = {int(_answered_mm(part, imperial)) for part in parts}
    if not all(BAR_MM[0] <= length <= BAR_MM[1] for length in lengths):
        such = "8,10,12 (ft)" if imperial else "3,4,5 (m)"
        message = f"--lengths {text}: are no lengths of bars, such as {such}"
        raise InputError(message)
    return tuple(sorted(lengths))


def _answered_mm(text: str, imperial: bool) -> Decimal:
    """Return an answered length [mm]; a bare number is in feet for an imperial list."""
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m|ft|')?\s*", text)
    if not found:
        return Decimal(0)
    value = Decimal(found[1].replace(",", "."))
    small = "ft" if imperial else "m"
    unit = found[2] or (small if value < 21 else "cm" if value < 1000 else "mm")
    return value * UNIT_MM["ft" if unit == "'" else unit]
