"""Which of a row's price columns counts, and what it is the price of."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, replace
from decimal import Decimal

from steepwright.pricelist.basis import (
    Basis,
    Piece,
    basis_in,
    parse_answer,
    pieces_per_price,
    to_cents,
)
from steepwright.pricelist.cells import Cell, cell_text, text_of
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.figures import number
from steepwright.pricelist.header import Column, is_column
from steepwright.pricelist.money import read_amount, value_of
from steepwright.pricelist.notes import price_basis_in, vat_stated
from steepwright.pricelist.offers import Price
from steepwright.pricelist.table import Item
from steepwright.pricelist.vat_column import vat_rate_of

_RANK = ("piece", "unit", "m", "ft", "m2", "ft2", "m3", "ft3", "pack", "bf", "mbf", "msf")
_MOST_CENTS = 10**8
"""A million currency units for one piece is a slip of the list."""
_FOOTNOTE = re.compile(r"\d\s*(?:\*|[¹²³⁴⁵⁶⁷⁸⁹]|†|‡|\(?\d\))")
_AGREE = "agree with --accept price-list-footnote"
_THOUSANDS = ("USD", "CAD")
"""Where a unit of M may be a thousand board feet as well as a metre."""
_TOLERANCE = Decimal("0.02")
"""Two prices of one row may differ by rounding; more is told."""


@dataclass(frozen=True, slots=True)
class Quote:
    """One usable price of a row; `vat_rate` [%] comes on top of one without VAT."""

    column: Column
    printed: Decimal
    basis: Basis | None
    has_vat: bool | None
    implied: str = ""
    vat_rate: Decimal | None = None

    @property
    def net_share(self) -> Decimal:
        """The share that comes on top: 0 for a price with VAT."""
        return (self.vat_rate or Decimal(0)) / 100 if self.has_vat is False else Decimal(0)


@dataclass(frozen=True, slots=True)
class Quotes:
    """A row's usable prices, the best first, its tiers, and why there is none."""

    usable: tuple[Quote, ...] = ()
    tiers: tuple[tuple[int, Decimal], ...] = ()
    reason: str = ""


NO_QUOTES = Quotes()


@dataclass(frozen=True, slots=True)
class Priced:
    """The price of one piece, or why there is none; `question` is the key of an open question."""

    price: Price | None = None
    cents: int = 0
    basis: Basis | None = None
    reason: str = ""
    question: str = ""


def quotes_of(item: Item, ctx: ListContext) -> Quotes:
    """Return the prices that a row states."""
    usable: list[Quote] = []
    tiers: list[tuple[int, Decimal]] = []
    reasons: list[str] = []
    for column in _price_columns(item, ctx):
        cell = item.row.cell(column.index)
        if cell == "":
            continue
        quote, reason = _quote(cell, column, item, ctx)
        if quote is None:
            reasons.append(reason)
        elif column.tier > 1:
            tiers.append((column.tier, quote.printed))
        else:
            usable.append(quote)
    usable.sort(key=_rank)
    if usable:
        return Quotes(tuple(usable), tuple(tiers))
    reason = reasons[0] if reasons else "price only from a larger quantity" if tiers else "no price"
    return Quotes(reason=reason, tiers=tuple(tiers))


def _price_columns(item: Item, ctx: ListContext) -> tuple[Column, ...]:
    columns = item.header.of("price")
    if item.only is not None:
        return (item.only,)
    chosen = ctx.answers.price_column
    if not chosen:
        return columns
    return tuple(column for column in columns if is_column(column, chosen)) or columns


def _quote(cell: Cell, column: Column, item: Item, ctx: ListContext) -> tuple[Quote | None, str]:
    if isinstance(cell, Decimal):
        if cell <= 0:
            return None, f"price is {'zero' if cell == 0 else 'negative'}"
        return _with_basis(cell, column, item, None, ctx), ""
    if not isinstance(cell, str):
        return None, "price is a date"
    if _FOOTNOTE.search(cell):
        message = "a price with a footnote mark is taken as it stands; read the list's notes"
        ctx.assume("price-list-footnote", message, item.row.place, _AGREE)
    amount = read_amount(cell)
    if amount.reason:
        return None, _reason_text(amount.reason, cell)
    decimal = ctx.answers.decimal or ctx.decimal.get(
        (item.sheet, item.header.first_row, column.index), ""
    )
    value, reason = value_of(amount.figure, decimal)
    if value is None:
        return None, _reason_text(reason, cell)
    quote = _with_basis(value, column, item, amount.basis, ctx)
    stance = vat_stated(cell).stance if not cell[-1].isdigit() else ""
    return (replace(quote, has_vat=stance == "gross") if stance else quote), ""


def _reason_text(reason: str, cell: str) -> str:
    texts = {
        "on request": "price on request",
        "percent": "a percentage, not a price",
        "from": "a 'from' price",
        "range": "a price range",
        "zero": "price is zero",
        "negative": "price is negative",
        "error": "a spreadsheet error instead of a price",
        "undecided": "decimal or thousands mark undecided",
    }
    return f"{texts.get(reason, 'no price')}: {cell[:30]}"


def _with_basis(
    value: Decimal, column: Column, item: Item, own: Basis | None, ctx: ListContext
) -> Quote:
    basis, implied = _basis(column, item, own, ctx)
    value = _discounted(value, item, ctx)
    per = _price_per(item)
    if per and basis and basis.count == 1:
        basis = Basis(basis.unit, per)
    stance = column.vat.stance
    has_vat = {"net": False, "gross": True}.get(stance, ctx.has_vat)
    own_rate = vat_rate_of(item)
    rate = ctx.vat_rate if own_rate is None else own_rate
    return Quote(column, value, basis, has_vat, implied, rate)


def _discounted(value: Decimal, item: Item, ctx: ListContext) -> Decimal:
    """Take the row's discount off a price, where the user said so."""
    if ctx.answers.discount != "apply":
        return value
    for column in item.header.of("discount"):
        cell = item.row.cell(column.index)
        text = text_of(cell).replace("%", "").strip()
        rate = cell if isinstance(cell, Decimal) else number(text, ctx.answers.decimal or ",")
        if rate is not None and 0 < rate < 100:
            return value * (1 - (rate if rate < 1 else rate / 100))
    return value


def _basis(
    column: Column, item: Item, own: Basis | None, ctx: ListContext
) -> tuple[Basis | None, str]:
    """Return what a price is for: by cell, header, unit column, heading, note, answer."""
    if own:
        return own, ""
    if column.basis:
        return column.basis, ""
    for unit in item.header.of("unit"):
        text = cell_text(item.row, unit.index)
        found = basis_in(text)
        if found and not (text.strip() == "M" and ctx.currency in _THOUSANDS):
            return found, ""
    for heading in item.context:
        found = price_basis_in(heading) or _bracketed(heading)
        if found:
            return found, f"the heading {heading[:40]!r}"
    for sheet, family in itertools.product((item.sheet, ""), (item.family, "")):
        if noted := ctx.basis.get((sheet, family)):
            return noted, "a note in the list"
    answer = _answered_basis(ctx.answers.basis, item.family)
    if answer is None and item.only is not None:
        return Basis("piece"), "their place under a size"
    return answer, ""


def _answered_basis(answer: str, family: str) -> Basis | None:
    """Return the basis that ``m3`` or ``sheet=m2,timber=m`` gives to a family."""
    given = {}
    for part in answer.split(",") if answer else ():
        name, _, unit = part.rpartition("=")
        given[name.strip()] = parse_answer(unit)
    return given.get(family) or given.get("")


def _bracketed(heading: str) -> Basis | None:
    """Return the basis in a heading's brackets or after its last slash: ``OSB (€/m²)``."""
    found = re.search(
        r"[€$£]\s*/\s*([\w²³.]+)|\(\s*(?:in\s+)?(?:EUR|CHF|PLN|zł)\s*/\s*([\w²³.]+)", heading
    )
    return basis_in(found[1] or found[2]) if found else None


def _price_per(item: Item) -> Decimal | None:
    """Return the quantity in a column such as ``PE`` (price unit): 1, 10, 100 or 1000."""
    for column in item.header.of("price_per"):
        cell = item.row.cell(column.index)
        value = cell if isinstance(cell, Decimal) else number(text_of(cell).strip(), ",")
        if value in (Decimal(1), Decimal(10), Decimal(100), Decimal(1000)):
            return value
    return None


def _rank(quote: Quote) -> tuple[bool, int, int, int]:
    """Order a row's prices: stated basis first, per piece before per metre, with VAT first.

    A price without VAT whose rate nobody knows comes last.
    """
    unit = quote.basis.unit if quote.basis else ""
    return (
        quote.vat_rate is None and quote.has_vat is False,
        0 if quote.basis and not quote.implied else 1 if quote.basis else 2,
        _RANK.index(unit) if unit in _RANK else len(_RANK),
        {True: 0, False: 1}.get(quote.has_vat, 2) if quote.has_vat is not None else 2,
    )


def price_piece(quotes: Quotes, piece: Piece, timber: bool, ctx: ListContext, row: str) -> Priced:
    """Return the price of one piece with VAT, from the best quote that can be turned into one."""
    if not quotes.usable:
        return Priced(reason=quotes.reason)
    problem = Priced(reason="what the price is for is not said", question="basis")
    found: list[tuple[Quote, int]] = []
    for quote in quotes.usable:
        if quote.basis is None:
            continue
        factor = pieces_per_price(quote.basis, piece, timber)
        if factor is None:
            key = "pack_pieces" if quote.basis.unit == "pack" else ""
            problem = Priced(reason=_no_factor(quote.basis), question=key)
            continue
        found.append((quote, to_cents(quote.printed, 1 + quote.net_share, factor)))
    if not found:
        return problem
    best, cents = found[0]
    if not 0 < cents <= _MOST_CENTS:
        return Priced(reason="the price of one piece can't be right")
    if best.basis and best.basis.unit in ("pack", "unit") and piece.pack_pieces > 1:
        message = "a pack's price is divided by its pieces; one piece alone may not be sold"
        ctx.assume("price-list-packs", message, row)
    _cross_check(found, ctx, row)
    if best.implied:
        message = f"prices are {best.basis.label if best.basis else ''} as {best.implied} says"
        ctx.assume("price-list-basis-implied", message, row, "settle it with --basis")
    label = best.basis.label if best.basis else ""
    has_vat = bool(ctx.has_vat) if best.has_vat is None else best.has_vat
    return Priced(Price(best.printed, label, has_vat, quotes.tiers), cents, best.basis)


def _no_factor(basis: Basis) -> str:
    if basis.unit == "pack":
        return "priced by the pack, whose number of pieces is not said"
    return f"priced {basis.label}, which can't be turned into a price per piece"


def _cross_check(found: list[tuple[Quote, int]], ctx: ListContext, row: str) -> None:
    """Tell when two prices of one row contradict each other."""
    best = found[0][1]
    for quote, cents in found[1:]:
        if quote.has_vat != found[0][0].has_vat and quote.vat_rate is None:
            continue
        if abs(cents - best) > _TOLERANCE * best + 1:
            ctx.assume(
                "price-list-prices-differ",
                f"the columns {found[0][0].column.title!r} and {quote.column.title!r} give "
                "different prices for one piece; the first is taken",
                row,
                "name the right one with --price-column",
            )
