"""Sheets of cells -> items under their header, with headings above and notes around."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, field, replace
from decimal import Decimal

from steepwright.pricelist.cells import Cell, Row, Sheet, cell_text, text_of
from steepwright.pricelist.figures import is_number
from steepwright.pricelist.header import (
    SINGLE_SIZES,
    Column,
    Header,
    basis_under,
    column_of,
    header_score,
    is_subtitle,
    read_header,
    titles_of,
)
from steepwright.pricelist.kinds import goods_in, kind_of
from steepwright.pricelist.money import currencies_in, read_amount
from steepwright.pricelist.notes import vat_in
from steepwright.pricelist.offers import LeftOut
from steepwright.pricelist.words import fold, has, hits, norm, short_numbers

_DITTO = re.compile(
    r'(?:"|\'\'|”|„|″|dto\.?|do\.|ditto|idem|id\.|j\.?\s?w\.?|s\.\s?o\.|wie oben|jak wyżej)', re.I
)
_INHERITED = ("name", "group", "species", "thickness", "width", "depth", "size")
"""Roles whose blank cells may take the cell above; a strength class or a price never does."""
_LOOKS_UP = (*_INHERITED, "strength", "surface", "sku")
_SIZED = re.compile(r"\d\s*[xX×/*]\s*\d|^\s*\d")
_LONGEST_HEADING = 90
_SUM = re.compile(r"(?:[\d.,'’\s€£$=+-]|\b(?:eur|euro|chf|zl|pln|gbp|usd|fr)\b)+")
CUT_PRICE = (
    "more cells than the header: a comma seems to cut the price in two; put it in quotation marks"
)
_WHOLE_PART = re.compile(r"\D*\d+")
_CUT_PART = re.compile(r"\d{1,3}(?!\d)(?:[.]\d\d)?\D*")
_LONGEST_GOODS = 200
"""Characters of a heading, and of one that names goods."""


@dataclass(frozen=True, slots=True)
class Item:
    """One row that may be an offer.

    `context` are the headings above it, the nearest first; `inherited` the cells above its
    blank ones, by column; `only` the one price column that counts, where columns are sizes.
    """

    sheet: str
    row: Row
    header: Header
    context: tuple[str, ...] = ()
    inherited: dict[int, Cell] = field(default_factory=dict)
    family: str = ""
    only: Column | None = None


@dataclass(frozen=True, slots=True)
class TableOptions:
    """How the user wants sheets to be read; `fixed` is a header of the user's own making."""

    fixed: Header | None = None
    read_hidden: bool = False
    price_column: str = ""


@dataclass(slots=True)
class Table:
    """What the rows of one sheet are: `titles` stand in headers, `top` above the first.

    Of the `notes` those `between` items are about what follows, the others about the sheet.
    """

    sheet: Sheet
    headers: list[Header] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    between: set[str] = field(default_factory=set)
    titles: list[str] = field(default_factory=list)
    top: list[str] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    charges: list[tuple[int, str]] = field(default_factory=list)
    blanks: int = 0
    headings: int = 0

    def leave(self, row: Row, reason: str) -> None:
        """Note a row that is no item, and why."""
        text = " ".join(text_of(cell) for cell in row.cells if cell != "")[:80]
        self.left_out.append(LeftOut(self.sheet.name, row.number, reason, text))


class _Reader:
    """Walks down one sheet once; lives only inside `read_table`."""

    def __init__(self, sheet: Sheet, options: TableOptions) -> None:
        self.table = Table(sheet)
        self.options = options
        self.header = options.fixed
        self.headings: list[str] = []
        self.after_heading = False
        self.since_item: list[str] = []
        self.above: dict[int, Cell] = {}
        if options.fixed:
            self.table.headers.append(options.fixed)

    def walk(self) -> Table:
        rows = self.table.sheet.rows
        at = 0
        while at < len(rows):
            taken = self._header_rows(rows, at)
            if taken:
                at += taken
                continue
            self._take(rows[at])
            at += 1
        return self.table

    def _header_rows(self, rows: tuple[Row, ...], at: int) -> int:
        """Return how many rows from here are a header, after taking it; 0 when none are."""
        if _has_number(rows[at]):
            return 0
        found = find_header(rows, at)
        if found is None:
            return 0
        titles, taken = found
        if self.header and self.header.first_row == 0:
            return taken
        last = rows[at + taken - 1].number
        self.header = read_header(titles, rows[at].number, last, self.options.price_column)
        self.table.headers.append(self.header)
        self.above = {}
        self.after_heading = False
        self.table.titles.extend(title for title in titles if title)
        return taken

    def _take(self, row: Row) -> None:
        if row.is_blank:
            self.table.blanks += 1
        elif row.hidden and not self.options.read_hidden:
            self.table.leave(row, "hidden in the spreadsheet")
        elif self.header is None:
            self._title(row)
        else:
            self._body(row, self.header)

    def _note(self, row: Row, text: str) -> None:
        self.table.notes.append(text)
        self.since_item.append(text)
        if has("charge", norm(text)) and currencies_in(text):
            self.table.charges.append((row.number, text))

    def _title(self, row: Row) -> None:
        texts = _own_texts(row)
        for text in texts:
            self._note(row, text)
        self.table.top.extend(texts)
        for text in texts:
            if len(text) <= _LONGEST_GOODS and kind_of(text).family in ("sheet", "timber"):
                self._heading(text)

    def _body(self, row: Row, header: Header) -> None:
        texts = _own_texts(row)
        first = texts[0] if texts else ""
        has_price, total = self._has_price(row, header), _total(first)
        if has_price and len(texts) == 1 and not row.filled:
            if _is_sum(first):
                self.table.leave(row, "a sum without a name")
            else:
                self._text_row(row, texts)
        elif total == "total" or (total and has_price):
            self.table.leave(row, total)
        elif has_price and self.table.sheet.delimiter == "," and _is_cut(row, header):
            self.table.leave(row, CUT_PRICE)
        elif has_price:
            self._item(row, header)
        elif _is_rule(texts):
            self.table.blanks += 1
        elif self._is_item_without_price(row, header):
            self.table.leave(row, "no price")
        else:
            self._text_row(row, texts)

    def _text_row(self, row: Row, texts: list[str]) -> None:
        joined = " ".join(texts)
        self.header = _with_bases(self.header, row)
        self._note(row, joined)
        goods = kind_of(joined).family in ("sheet", "timber")
        longest = _LONGEST_GOODS if goods else _LONGEST_HEADING
        if len(joined) > longest or vat_in(joined, False).stance:
            self.table.leave(row, "note")
            return
        self.table.headings += 1
        self._heading(joined)

    def _heading(self, text: str) -> None:
        family = kind_of(text).family
        if self.after_heading:
            self.headings.append(text)
        elif family:
            self.headings = [text]
        else:
            about = goods_in(text)
            kept = [one for one in self.headings if kind_of(one).family]
            kept = [one for one in kept if not about or kind_of(one).family == about]
            self.headings = [*kept, text]
        self.after_heading = True

    def _has_price(self, row: Row, header: Header) -> bool:
        for column in header.of("price", "list_price"):
            if column.index in row.filled and not _is_numeric(row.cell(column.index)):
                continue
            text = cell_text(row, column.index)
            if text and read_amount(text).reason not in ("empty", "no number"):
                return True
        return False

    def _is_item_without_price(self, row: Row, header: Header) -> bool:
        own = [i for i, cell in enumerate(row.cells) if cell != "" and i not in row.filled]
        sized = [
            c
            for c in header.of("thickness", "width", "depth", "length", "size")
            if c.index in own and _SIZED.search(cell_text(row, c.index))
        ]
        named = [c for c in header.of("sku", "name", "unit") if c.index in own]
        return len(own) >= 3 or bool(sized) or len(named) >= 2

    def _item(self, row: Row, header: Header) -> None:
        """Take an item; ditto marks and blank cells look up to the row above."""
        inherited: dict[int, Cell] = {}
        cells, has_ditto = list(row.cells), False
        for column in header.of(*_LOOKS_UP):
            at = column.index
            cell = row.cell(at)
            if isinstance(cell, str) and 0 < len(cell) < 15 and _DITTO.fullmatch(cell.strip()):
                cells[at], has_ditto = self.above.get(at, ""), True
            elif cell != "":
                self.above[at] = cell
            elif at in self.above and column.role in _INHERITED:
                inherited[at] = self.above[at]
        self.after_heading = False
        if self.table.items:
            self.table.between.update(self.since_item)
        self.since_item.clear()
        if has_ditto:
            row = Row(row.number, tuple(cells), row.filled, row.hidden, row.sheet)
        context = tuple(reversed(self.headings))
        item = Item(self.table.sheet.name, row, header, context, inherited)
        sized = [column for column in header.of("price") if column.adds]
        if len(sized) < 2:
            self.table.items.append(item)
        for column in sized if len(sized) > 1 else ():
            if row.cell(column.index) != "":
                self.table.items.append(replace(item, only=column))


def _is_cut(row: Row, header: Header) -> bool:
    """Return whether a row's price may end at a comma that was read as a mark between cells."""
    surplus = any(cell != "" for cell in row.cells[header.width :]) if header.width else False
    return surplus and any(
        _WHOLE_PART.fullmatch(cell_text(row, column.index).strip())
        and _CUT_PART.fullmatch(cell_text(row, column.index + 1).strip())
        for column in header.of("price", "list_price")
    )


def _with_bases(header: Header | None, row: Row) -> Header | None:
    """Return the header with what a heading row says under it, such as ``€/m²``, of its prices."""
    found = {
        column.index: basis
        for column in (header.of("price") if header else ())
        if (basis := basis_under(cell_text(row, column.index)))
    }
    if header is None or not found:
        return header
    columns = tuple(
        replace(column, basis=found[column.index]) if column.index in found else column
        for column in header.columns
    )
    return Header(columns, header.first_row, header.last_row, header.width)


def read_table(sheet: Sheet, options: TableOptions) -> Table:
    """Return what each row of a sheet is; without a fixed header the header is found."""
    return _Reader(sheet, options).walk()


def find_header(rows: tuple[Row, ...], at: int) -> tuple[list[str], int] | None:
    """Return the titles of a header that begins at a row, and its number of rows; None if none."""
    titles = titles_of(rows[at].cells)
    score = header_score(titles)
    best: tuple[int, list[str], int] | None = (score, titles, 1) if score else None
    joined, taken = titles, 1
    for below in rows[at + 1 : at + 3]:
        if below.is_blank or _has_number(below):
            break
        lower = titles_of(below.cells)
        if not _is_lower_line(joined, lower):
            break
        joined, taken = _joined(joined, lower), taken + 1
        score = header_score(joined)
        if score and (best is None or score >= best[0]) and _may_open(titles, best is not None):
            best = (score, joined, taken)
    return (best[1], best[2]) if best else None


def _is_lower_line(upper: list[str], lower: list[str]) -> bool:
    """Return whether a row goes on with the header above it: units, VAT words, no goods."""
    filled = [index for index, title in enumerate(lower) if title.strip()]
    if not all(is_subtitle(lower[i]) and not kind_of(lower[i]).family for i in filled):
        return False
    under = [column_of(0, upper[i]).role for i in filled if i < len(upper)]
    return len(filled) > 1 or any(role in ("price", "size", "list_price") for role in under)


def _may_open(titles: list[str], is_header: bool) -> bool:
    """Return whether a row may be the upper line of a header: two of its cells name roles."""
    roles = [column_of(0, title).role for title in titles]
    return is_header or sum(role not in ("", "date") for role in roles) > 1


def _joined(upper: list[str], lower: list[str]) -> list[str]:
    """Join two header lines; a price title reaches over the blank cells to its right."""
    titles = []
    reach = ""
    for index in range(max(len(upper), len(lower))):
        above = upper[index] if index < len(upper) else ""
        below = lower[index] if index < len(lower) else ""
        if above:
            reach = above if column_of(0, above).role in ("price", "size", "list_price") else ""
        elif below:
            above = reach
        titles.append(_under(above, below))
    return titles


def _under(above: str, below: str) -> str:
    """Return one title of two lines; of a title for sizes a single size under it has the unit."""
    upper, lower = column_of(0, above), column_of(0, below)
    if upper.role == "size" and lower.role in SINGLE_SIZES:
        return below if lower.unit or not upper.unit else f"{below} ({upper.unit})"
    return f"{above} {below}".strip() if below != above else above


def _has_number(row: Row) -> bool:
    """Return whether a row holds a number or date of its own, as no header does."""
    for cell in row.cells:
        if isinstance(cell, Decimal | dt.date) or (cell and cell[0].isdigit() and is_number(cell)):
            return True
    return False


def _is_numeric(cell: Cell) -> bool:
    return isinstance(cell, Decimal)


def _own_texts(row: Row) -> list[str]:
    return [
        text_of(cell)
        for index, cell in enumerate(row.cells)
        if cell != "" and index not in row.filled
    ]


def _total(text: str) -> str:
    """Return ``total``, ``tax`` or ``discount`` for the text that such a row begins with."""
    found = hits("total", norm(short_numbers(text)))
    is_total = bool(found) and found[0].start == 0 and not kind_of(text).family
    return found[0].value if is_total else ""


def _is_sum(text: str) -> bool:
    """Return whether a text is an amount of money and nothing more."""
    return bool(_SUM.fullmatch(fold(text)))


def _is_rule(texts: list[str]) -> bool:
    """Return whether a row only draws a line."""
    return not any(any(mark.isalnum() for mark in text) for text in texts)
