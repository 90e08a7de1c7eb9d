"""A yard's price list -> offers, findings and questions: the room's front door."""

from __future__ import annotations

import datetime as dt
import gc
import hashlib
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from steepwright.catalog.materials import read_materials
from steepwright.errors import InputError
from steepwright.findings import Finding, Findings
from steepwright.pricelist.answers import Answers, Kept, find_kept, own_file
from steepwright.pricelist.ask import ask_price_column, ask_vat, open_questions
from steepwright.pricelist.bar_sizing import bar_size
from steepwright.pricelist.build import build, left_out
from steepwright.pricelist.built import Built
from steepwright.pricelist.cells import Sheet, column_name
from steepwright.pricelist.charges import noted_charges, tell_charges
from steepwright.pricelist.column_map import (
    columns_question,
    fixed_header,
    price_question,
    read_header_roles,
)
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.conventions import decide
from steepwright.pricelist.dating import date_of
from steepwright.pricelist.draft import Draft, draft_of
from steepwright.pricelist.duplicates import product_key, settle_duplicates, with_own_codes
from steepwright.pricelist.header import is_column
from steepwright.pricelist.kinds import kind_of
from steepwright.pricelist.load import Loaded, load
from steepwright.pricelist.offers import (
    Charge,
    HardwareOffer,
    LeftOut,
    Offer,
    Question,
    SheetOffer,
    TimberOffer,
)
from steepwright.pricelist.pieces import tell_odd_pieces
from steepwright.pricelist.reading import Counts, PriceListReading
from steepwright.pricelist.sanity import bands
from steepwright.pricelist.suggest import usual_bases
from steepwright.pricelist.table import CUT_PRICE, Item, Table, TableOptions, read_table
from steepwright.pricelist.words import norm
from steepwright.units import tax_name

_LONGEST_TITLE = 90
_FINAL = ("size_unit", "nominal", "date_sizes")
"""Questions that are not asked again when an answer did not settle a row."""


def read_price_list(
    path: Path,
    answers: Answers | None = None,
    today: dt.date | None = None,
    use_kept: bool = True,
) -> PriceListReading:
    """Read one price list.

    Parameters
    ----------
    path
        CSV or other delimited text, XLSX, XLS or ODS.
    answers
        The user's answers; those kept beside the list fill what they leave open.
    today
        The day to judge the list's age by; None judges it not.
    use_kept
        Whether answers kept beside the list count.

    Raises
    ------
    InputError
        When the file can't be read as a table at all, or an answer makes no sense.
    """
    with _no_collection():
        return _read_list(path, answers or Answers(), today, use_kept)


@contextmanager
def _no_collection() -> Iterator[None]:
    """Pause the cycle collector: a long list makes a million records, and no cycle among them."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _read_list(
    path: Path, given: Answers, today: dt.date | None, use_kept: bool
) -> PriceListReading:
    kept = find_kept(path, "") if use_kept else None
    loaded, findings, used = _load(path, kept, given)
    tables = _tables(loaded.sheets, used)
    if use_kept and kept is None and any(table.headers for table in tables):
        kept = find_kept(path, layout_of(tables))
        if kept is not None:
            loaded, findings, used = _load(path, kept, given)
            tables = _tables(loaded.sheets, used)
    if kept is not None:
        findings.add(_kept_finding(path, kept))
    ctx = ListContext(path.name, used, read_materials(), findings)
    chosen = _chosen_tables(tables, ctx)
    return _read(path, loaded, chosen, ctx, today)


def _load(path: Path, kept: Kept | None, given: Answers) -> tuple[Loaded, Findings, Answers]:
    used = kept.answers.merged(given) if kept else given
    findings = Findings()
    return load(path, used.encoding, used.delimiter, findings), findings, used


def _kept_finding(path: Path, kept: Kept) -> Finding:
    """Tell that kept answers are used; those of another list of the same layout are assumed."""
    borrowed = kept.path != own_file(path)
    given = ", ".join(sorted(kept.answers.given()))
    return Finding(
        "price-list-kept-answers",
        "assumption" if borrowed else "warning",
        f"answers kept in {kept.path.name} are used: {given}",
        file=path.name,
        next_step="give a flag to overrule one" if borrowed else "",
    )


def layout_of(tables: Sequence[Table]) -> str:
    """Return a fingerprint of the headers' words, the same for next month's list."""
    titles = sorted(
        {
            "|".join(norm(column.title).strip() for column in header.columns)
            for table in tables
            for header in table.headers
        }
    )
    return hashlib.sha256("\n".join(titles).encode()).hexdigest()[:16] if titles else ""


def _tables(sheets: Sequence[Sheet], answers: Answers) -> list[Table]:
    fixed = fixed_header(answers.columns) if answers.columns else None
    read_hidden = answers.hidden_rows == "read"
    tables = []
    for sheet in sheets:
        own = fixed or (read_header_roles(sheet.roles) if sheet.roles else None)
        tables.append(read_table(sheet, TableOptions(own, read_hidden, answers.price_column)))
    return tables


def _chosen_tables(tables: list[Table], ctx: ListContext) -> list[Table]:
    """Return the tables to read: those the user named, else all visible ones.

    Sheets that hold no goods are read in any case: what a cover says is about the others.
    """
    answer = ctx.answers.sheet
    shown = [table for table in tables if not table.sheet.hidden]
    covers = [table for table in shown if not table.items]
    if answer and answer != "all":
        wanted = {part.strip().casefold() for part in answer.split(",")}
        chosen = [table for table in tables if table.sheet.name.casefold() in wanted]
        if not chosen:
            names = ", ".join(table.sheet.name for table in tables if table.sheet.name)
            there = f"there are {names}" if names else "the file has one table without a name"
            message = f"{ctx.file}: no sheet is called {answer!r}; {there}"
            raise InputError(message)
        return chosen + [t for t in covers if t.sheet.name.casefold() not in wanted]
    for table in tables:
        if table.sheet.hidden and table.items:
            ctx.assume(
                "price-list-hidden-sheet",
                f"the hidden sheet {table.sheet.name!r} with {len(table.items)} items is not read",
                "",
                f"read it with --sheet '{table.sheet.name}'",
            )
    full = [table for table in shown if table.items]
    if len(full) > 1 and not answer:
        counted = ", ".join(f"{table.sheet.name} ({len(table.items)} items)" for table in full)
        message = f"several sheets are read together: {counted}"
        ctx.assume("price-list-sheets", message, "", "settle it with --sheet all, or name one")
    return shown


def _read(
    path: Path, loaded: Loaded, tables: list[Table], ctx: ListContext, today: dt.date | None
) -> PriceListReading:
    items = [item for table in tables for item in table.items]
    if not any(table.headers for table in tables):
        ctx.ask(columns_question(loaded.sheets))
    elif not items and not any(one.reason == CUT_PRICE for t in tables for one in t.left_out):
        ctx.ask(price_question(tables))
    _need_price_column(tables, ctx)
    _tell_surplus(items, ctx)
    decide(tables, ctx)
    drafts = _drafts(path, tables, ctx)
    built = _build_all(drafts, ctx)
    raw = [offer for one in built for offer in one.offers]
    _ask_about_prices(drafts, built, ctx)
    _ask_about_sheets(raw, ctx)
    kept, doubled = settle_duplicates(raw, ctx)
    offers = with_own_codes(kept)
    out = [one for table in tables for one in table.left_out]
    out += [left_out(d, b) for d, b in zip(drafts, built, strict=True) if b.reason]
    out += doubled
    found = bands([o for o in offers if isinstance(o, SheetOffer | TimberOffer)], ctx)
    tell_odd_pieces((o for o in offers if isinstance(o, HardwareOffer)), ctx)
    date = date_of(path, tables, ctx, today)
    ctx.tell_assumptions()
    has_sheets = any(isinstance(offer, SheetOffer) for offer in offers)
    has_timber = any(isinstance(offer, TimberOffer) for offer in offers)
    unsaid = [draft for draft, one in zip(drafts, built, strict=True) if one.question == "basis"]
    hint = usual_bases(unsaid, ctx) if unsaid else ""
    questions = open_questions(ctx, has_sheets, has_timber, hint)
    charges = tuple(one.charge for one in built if one.charge)
    charges += noted_charges(tables, ctx)
    tell_charges(charges, ctx)
    return PriceListReading(
        file=path.name,
        yard=ctx.answers.yard or path.stem,
        offers=offers,
        charges=charges,
        findings=_settled(ctx),
        questions=questions,
        left_out=tuple(sorted(out, key=lambda one: (one.sheet, one.row))),
        counts=_counts(tables, offers, charges, out),
        bands=found,
        currency=ctx.currency,
        date=date,
        vat=_vat_words(offers, built, tax_name(ctx.currency)),
        is_untaxed=_is_untaxed(built),
        vat_rate=ctx.vat_rate,
        layout=layout_of(tables),
        header_rows=tuple(
            (t.sheet.name, h.first_row, h.last_row) for t in tables for h in t.headers
        ),
    )


def _need_price_column(tables: Sequence[Table], ctx: ListContext) -> None:
    """Refuse an answer that names no price column of the list: no other may stand in for it."""
    name = ctx.answers.price_column
    columns = [c for table in tables for h in table.headers for c in h.of("price", "list_price")]
    if name and columns and not any(is_column(column, name) for column in columns):
        there = dict.fromkeys(f"{column_name(c.index)} ({c.title})" for c in columns)
        message = f"{ctx.file}: no price column is called {name!r}; there are {', '.join(there)}"
        raise InputError(message)


def _tell_surplus(items: Sequence[Item], ctx: ListContext) -> None:
    """Tell rows that go on beyond their header, unless a few longer rows are told already."""
    if any(finding.code == "price-list-ragged" for finding in ctx.findings.items):
        return
    message = "rows have more cells than their header; the header's columns are taken as they stand"
    for item in items:
        if item.header.width and any(cell != "" for cell in item.row.cells[item.header.width :]):
            step = "look whether a mark inside a cell splits it"
            ctx.assume("price-list-ragged", message, item.row.place, step)


def _settled(ctx: ListContext) -> tuple[Finding, ...]:
    """Return the findings without the assumptions that the user has agreed to."""
    return tuple(
        replace(one, severity="warning", message=f"{one.message} (agreed)")
        if one.severity == "assumption" and one.code in ctx.answers.accept
        else one
        for one in ctx.findings.sorted()
    )


def _drafts(path: Path, tables: Sequence[Table], ctx: ListContext) -> list[Draft]:
    drafts = []
    for table in tables:
        background = tuple(
            text
            for text in (table.sheet.name, *table.top)
            if kind_of(text).family in ("sheet", "timber") and len(text) < _LONGEST_TITLE
        )
        drafts += [draft_of(item, background, ctx) for item in table.items]
    return drafts


def _build_all(drafts: Sequence[Draft], ctx: ListContext) -> list[Built]:
    built = [build(draft, ctx) for draft in drafts]
    open_sizes = [i for i, one in enumerate(built) if one.question == "size_unit"]
    if open_sizes and not ctx.answers.size_unit:
        ctx.size_unit = _common_unit(drafts, ctx)
        for index in open_sizes:
            built[index] = build(drafts[index], ctx)
    for draft, one in zip(drafts, built, strict=True):
        if one.question and not (one.question in _FINAL and getattr(ctx.answers, one.question)):
            ctx.defer(one.question, draft.item.row.place)
    return built


def _common_unit(drafts: Sequence[Draft], ctx: ListContext) -> str:
    """Return the unit of all sections in the list that can be read in one way only."""
    votes: Counter[str] = Counter()
    for draft in drafts:
        if draft.kind.family == "timber" and not draft.problem:
            found = bar_size(draft, ctx).section
            if len(found) == 1:
                votes[found[0].units[0]] += 1
    return next(iter(votes)) if len(votes) == 1 else ""


def _ask_about_prices(drafts: Sequence[Draft], built: Sequence[Built], ctx: ListContext) -> None:
    """Ask what the used prices leave open: VAT, its rate, the column, a discount."""
    pairs = [
        (draft, one)
        for draft, one in zip(drafts, built, strict=True)
        if one.offers or one.question == "basis"
    ]
    useful = [draft for draft, _ in pairs]
    for _, one in pairs:
        if one.quotes.usable:
            ask_vat(ctx, one.quotes.usable[0], ctx.currency)
    ask_price_column([one.quotes for _, one in pairs], ctx)
    for draft in useful:
        columns = draft.item.header.of("discount")
        if not ctx.answers.discount and any(draft.item.row.cell(c.index) != "" for c in columns):
            ctx.ask(
                Question(
                    "discount",
                    f"Is the column {columns[0].title!r} to be taken off the prices?",
                    "--discount apply or --discount ignore",
                    ("apply", "ignore"),
                )
            )
            return


def _ask_about_sheets(offers: Sequence[Offer], ctx: ListContext) -> None:
    """Ask which sheet counts when two sheets give the same product different prices."""
    if ctx.answers.sheet:
        return
    prices: dict[tuple[object, ...], dict[str, int]] = defaultdict(dict)
    for offer in offers:
        prices[product_key(offer)].setdefault(offer.sheet, offer.price_cents)
    for by_sheet in prices.values():
        if len(set(by_sheet.values())) > 1:
            names = tuple(sorted(by_sheet))
            ctx.ask(
                Question(
                    "sheet",
                    f"The sheets {' and '.join(names)} give the same goods different prices; "
                    "which one counts?",
                    f"--sheet '{names[0]}' (or all)",
                    names,
                )
            )
            return


def _counts(
    tables: Sequence[Table],
    offers: Sequence[Offer],
    charges: Sequence[Charge],
    out: Sequence[LeftOut],
) -> Counts:
    filled = sum(not row.is_blank for table in tables for row in table.sheet.rows)
    blanks = sum(row.is_blank for table in tables for row in table.sheet.rows)
    used = {(one.sheet, one.row) for one in (*offers, *charges)}
    dropped = {(one.sheet, one.row) for one in out} - used
    return Counts(filled, len(used), len(dropped), filled - len(used) - len(dropped), blanks)


def _is_untaxed(built: Sequence[Built]) -> bool:
    quotes = [quote for one in built if one.offers for quote in one.quotes.usable]
    return all(one.has_vat is False and one.vat_rate == 0 for one in quotes)


def _vat_words(offers: Sequence[Offer], built: Sequence[Built], tax: str) -> str:
    is_used = any(one.offers for one in built)
    useful = (one for one in built if one.quotes.usable and (one.offers or not is_used))
    quotes = [one.quotes.usable[0] for one in useful]
    printed: set[bool | None] = {offer.price.has_vat for offer in offers}
    printed = printed or {one.has_vat for one in quotes}
    if not printed or None in printed:
        return "not known"
    if printed == {True}:
        return f"printed prices hold {tax}"
    rates = {one.vat_rate for one in quotes if one.has_vat is False and one.vat_rate is not None}
    told = [f"{rate.normalize():f} %" for rate in sorted(rates)]
    if printed == {False} and told == ["0 %"]:
        return f"printed prices are without {tax}; none was added"
    rate = " or ".join(told) or "an unknown rate"
    each = ", as each row says," if len(told) > 1 else ""
    return (
        f"printed prices are without {tax}; {rate}{each} was added"
        if printed == {False}
        else (f"some printed prices are without {tax}; {rate}{each} was added to those")
    )
