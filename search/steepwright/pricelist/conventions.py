"""What a whole list agrees on: decimal mark, currency, VAT, date, basis, imperial sizes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from steepwright.pricelist.basis import Basis, basis_in
from steepwright.pricelist.cells import cell_text
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.figures import decimal_vote
from steepwright.pricelist.header import SINGLE_SIZES, Column
from steepwright.pricelist.kinds import goods_in
from steepwright.pricelist.limits import limit
from steepwright.pricelist.money import currencies, currencies_in, vote_of
from steepwright.pricelist.notes import price_basis_in, vat_in, vat_stated
from steepwright.pricelist.offers import Question
from steepwright.pricelist.sizes import is_imperial
from steepwright.pricelist.table import Item, Table
from steepwright.pricelist.vat_column import vat_rate_of

_SAMPLE = 1000


def decide(tables: Sequence[Table], ctx: ListContext) -> None:
    """Settle the list's conventions in the context, or ask."""
    notes = [note for table in tables for note in table.notes]
    items = [item for table in tables for item in table.items]
    ctx.currency = _currency(tables, notes, items, ctx)
    known = currencies().get(ctx.currency)
    ctx.imperial = bool(known and known.imperial) or _mostly_imperial(items)
    ctx.inch_trade = ctx.imperial or ctx.currency == "GBP"
    _decide_decimals(items, ctx)
    _decide_vat(tables, notes, items, ctx)
    _decide_basis(tables, ctx)


def _decide_basis(tables: Sequence[Table], ctx: ListContext) -> None:
    """Settle what prices are for by notes: of their own sheet, or of one that holds no goods.

    A note that names sheets or timber is about these alone, one between items about what follows:
    there it counts as a heading.
    """
    found: dict[tuple[str, str], set[Basis]] = defaultdict(set)
    for table in tables:
        sheet = table.sheet.name if table.items else ""
        for note in table.notes:
            basis = price_basis_in(note)
            if basis and note not in table.between:
                found[sheet, goods_in(note)].add(basis)
    ctx.basis = {key: told.pop() for key, told in found.items() if len(told) == 1}
    formats = {basis for text in _price_formats(tables) if (basis := basis_in(text.split("/")[-1]))}
    if not found and len(formats) == 1 and not ctx.answers.basis:
        ctx.basis["", ""] = formats.pop()
        message = f"prices are {ctx.basis['', ''].label}, as only the cells' number format says"
        ctx.assume("price-list-basis-implied", message, "", "settle it with --basis")


def _price_formats(tables: Iterable[Table]) -> list[str]:
    """Return the words in the number formats of price columns."""
    return [
        text
        for table in tables
        for index, text in sorted(table.sheet.formats.items())
        if any(c.index == index for header in table.headers for c in header.of("price"))
        and "/" in text
    ]


def _mostly_imperial(items: Sequence[Item]) -> bool:
    sample = items[:_SAMPLE]
    marked = sum(
        any(isinstance(cell, str) and is_imperial(cell) for cell in item.row.cells)
        for item in sample
    )
    return marked * 2 > len(sample)


def _price_columns(items: Iterable[Item]) -> dict[tuple[str, int, int], tuple[Column, list[Item]]]:
    found: dict[tuple[str, int, int], tuple[Column, list[Item]]] = {}
    for item in items:
        for column in item.header.of("price"):
            key = (item.sheet, item.header.first_row, column.index)
            if item.row.cell(column.index) != "":
                found.setdefault(key, (column, []))[1].append(item)
    return found


def _decide_decimals(items: Sequence[Item], ctx: ListContext) -> None:
    """Settle the decimal mark of each price column by its own proof, else by the list's."""
    open_columns: list[tuple[tuple[str, int, int], list[str]]] = []
    proven: set[str] = set()
    for key, (_, members) in _price_columns(items).items():
        votes, undecided = _votes(members, key[2])
        if len(votes) == 1:
            ctx.decimal[key] = votes.pop()
            proven.add(ctx.decimal[key])
        elif undecided:
            open_columns.append((key, undecided))
    if not open_columns or ctx.answers.decimal:
        return
    proven = proven or _size_votes(items)
    if len(proven) == 1:
        mark = proven.pop()
        for key, rows in open_columns:
            ctx.decimal[key] = mark
            message = (
                f"undecided prices have a decimal {_mark_name(mark)}, as elsewhere in the list"
            )
            for row in rows:
                ctx.assume("price-list-decimal", message, row, f"settle it with --decimal {mark}")
        return
    rows = [row for _, rows in open_columns for row in rows]
    ctx.ask(_decimal_question(items, open_columns, rows))


def _decimal_question(
    items: Sequence[Item],
    open_columns: list[tuple[tuple[str, int, int], list[str]]],
    rows: list[str],
) -> Question:
    index = open_columns[0][0][2]
    sample = next(cell_text(item.row, index) for item in items if item.row.place == rows[0])
    return Question(
        "decimal",
        f"Is the mark in prices such as {sample} a decimal or a thousands mark?",
        "--decimal , (decimal comma) or --decimal . (decimal point)",
        (",", "."),
        tuple(rows[: limit("max_listed_rows")]),
    )


def _mark_name(mark: str) -> str:
    return "comma" if mark == "," else "point"


def _votes(members: Iterable[Item], index: int) -> tuple[set[str], list[str]]:
    votes: set[str] = set()
    undecided: list[str] = []
    for item in members:
        cell = item.row.cell(index)
        if isinstance(cell, str) and cell:
            vote, is_open = vote_of(cell)
            if vote:
                votes.add(vote)
            elif is_open:
                undecided.append(item.row.place)
    return votes, undecided


def _size_votes(items: Iterable[Item]) -> set[str]:
    votes = set()
    for item in items:
        for column in item.header.of(*SINGLE_SIZES, "discount", "vat"):
            cell = item.row.cell(column.index)
            if isinstance(cell, str) and (vote := decimal_vote(cell)):
                votes.add(vote)
    return votes


def _currency(
    tables: Sequence[Table], notes: Sequence[str], items: Sequence[Item], ctx: ListContext
) -> str:
    found = _table_currencies(tables, items) or {
        code for note in notes for code in currencies_in(note)
    }
    if ctx.answers.currency:
        answer = ctx.answers.currency.upper()
        if found and not found & {answer, "$"}:
            said = f"the list's prices are in {', '.join(sorted(found))} and count as {answer}"
            step = "nothing is converted: leave --currency out, or take the list's"
            ctx.warn("price-list-currency", said, step)
        return answer
    if found == {"$"}:
        message = "a lone $ is taken as US dollars"
        ctx.assume("price-list-currency", message, "", "settle it with --currency USD or CAD")
        return "USD"
    found.discard("$")
    if len(found) == 1:
        return found.pop()
    text = (
        f"The list names several currencies ({', '.join(sorted(found))}); which one counts?"
        if found
        else "In what currency are the prices? The list does not say."
    )
    example = sorted(found)[0] if found else "EUR"
    ctx.ask(Question("currency", text, f"--currency {example}", tuple(sorted(found))))
    return ""


def _table_currencies(tables: Sequence[Table], items: Sequence[Item]) -> set[str]:
    """Return the currencies that headers, price cells, currency columns and formats name."""
    texts: set[str] = {
        column.title
        for table in tables
        for header in table.headers
        for column in header.of("price")
    }
    for item in items:
        for column in item.header.of("price", "currency", "unit"):
            cell = item.row.cell(column.index)
            if isinstance(cell, str) and not cell.isdigit():
                texts.add(cell[:40])
    for table in tables:
        texts.update(table.sheet.formats.values())
    return {code for text in texts for code in currencies_in(text)}


def _decide_vat(
    tables: Sequence[Table], notes: Sequence[str], items: Sequence[Item], ctx: ListContext
) -> None:
    """Settle whether prices hold VAT and at what rate, as far as the list says."""
    told = [vat_in(note, False) for note in notes]
    told += [vat_stated(text) for text in _unit_texts(tables, items)]
    headers = [c.vat for table in tables for header in table.headers for c in header.of("price")]
    stances = {vat.stance for vat in told if vat.stance}
    if ctx.answers.prices:
        ctx.has_vat = ctx.answers.prices == "include-vat"
    elif len(stances) == 1:
        ctx.has_vat = stances == {"gross"}
    rates = {vat.rate for vat in (*told, *headers) if vat.rate is not None}
    rates = rates or {rate for item in items if (rate := vat_rate_of(item)) is not None}
    answer = ctx.answers.vat_rate
    if answer is not None:
        ctx.vat_rate = answer
    elif len(rates) == 1:
        ctx.vat_rate = rates.pop()


def _unit_texts(tables: Sequence[Table], items: Iterable[Item]) -> set[str]:
    """Return the texts of unit cells, and of header cells that are no price column."""
    texts = {title for table in tables for title in table.titles}
    texts -= {column.title for column, members in _price_columns(items).values() if members}
    for item in items:
        for column in item.header.of("unit"):
            texts.add(cell_text(item.row, column.index)[:40])
    return texts
