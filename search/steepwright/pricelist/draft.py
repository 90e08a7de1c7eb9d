"""An item -> a draft: what it is, and every reading of its size that fits."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, replace
from decimal import Decimal

from steepwright.pricelist.cells import Cell, cell_text, text_of
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.figures import is_number
from steepwright.pricelist.header import SINGLE_SIZES, Column
from steepwright.pricelist.kinds import (
    Kind,
    Traits,
    is_straight,
    kind_of,
    respelled,
    set_apart,
    traits_of,
    usual_class,
)
from steepwright.pricelist.rated import rated_panel
from steepwright.pricelist.sizes import chains, prepare, readings
from steepwright.pricelist.table import Item
from steepwright.pricelist.words import first, fold, norm

_TEXT_ROLES = ("name", "strength", "species", "surface", "grain")
_MONTHS = (
    "jan|feb|mar|mrz|apr|mai|may|maj|jun|jul|aug|sep|okt|oct|nov|dez|dec|dic|gru|lut|kwi|cze|lip|"
    "sie|wrz|paz|lis|sty|avr|fev|gen|mag|giu|lug|ago|set|ott|ene|abr"
)
_DATE_LIKE = re.compile(
    rf"\d{{1,2}}[.\- /]{{1,2}}(?:{_MONTHS})[a-z]*\.?|(?:{_MONTHS})[a-z]*[.\- ]\d{{1,2}}"
)
_PHRASE = re.compile(r"[^\W\d_]{3,}.*[\s(][^\W\d_]{3,}")
"""Two words, as no code has."""


@dataclass(frozen=True, slots=True)
class Draft:
    """An item with its kind settled as far as its text and headings go.

    `own` is the row's own words, `context` what stands above; `problem` says why it is out,
    `question` is the key of an open question.
    """

    item: Item
    sku: str
    name: str
    own: str
    context: tuple[str, ...]
    kind: Kind
    traits: Traits
    problem: str = ""
    question: str = ""


def draft_of(item: Item, background: tuple[str, ...], ctx: ListContext) -> Draft:
    """Return the draft of an item; `background` holds the sheet's name and the titles."""
    own, name = _own_words(item)
    sku = next((cell_text(item.row, c.index).strip() for c in item.header.of("sku")), "")
    if not name and _PHRASE.search(sku):  # the name stands in the column of codes
        item, own, name, sku = replace(item, inherited={}), f"{sku} | {own}", sku, ""
    inherited = tuple(
        text_of(item.inherited[column.index])
        for column in item.header.of("name", "species")
        if column.index in item.inherited
    )
    group = tuple(
        text
        for column in item.header.of("group")
        if (
            text := cell_text(item.row, column.index)
            or text_of(item.inherited.get(column.index, ""))
        )
    )
    headings = tuple(one for one in item.context if not _is_other_bar(own, one))
    context = (*inherited, *group, *headings, *background)
    kind, used = _settled_kind(own, context)
    if not kind.family or kind.undecided in ("tree", "panel"):
        kind, own = _mended(own, context, item, ctx)
    if inherited and used in inherited:
        ctx.assume(
            "price-list-filled-down",
            "blank names take the name above",
            item.row.place,
        )
    if kind.assumed:
        ctx.assume("price-list-kind", kind.assumed, item.row.place, _kind_flag(kind))
    draft = Draft(
        replace(item, family=kind.family),
        sku,
        name or _made_name(own, context) or kind.kind,
        own,
        context,
        kind,
        _traits(own, context, kind, _beside_sizes(item)),
    )
    return _with_kind_answers(draft, ctx)


def _is_other_bar(own: str, heading: str) -> bool:
    """Return whether a heading is a bar of its own size, which says nothing of another bar."""
    if kind_of(heading).family != "timber":
        return False
    return _has_section(heading) and _has_section(own)


def _has_section(text: str) -> bool:
    return any(
        readings(chain.elements, "section", False) or readings(chain.elements, "bar", False)
        for chain in chains(prepare(text, False))
    )


def _kind_flag(kind: Kind) -> str:
    return "settle it with --film-core birch" if kind.kind == "birch film-faced" else ""


def _own_words(item: Item) -> tuple[str, str]:
    """Return a row's own words (all its texts that are no money, unit or code) and its name.

    A bare number in a column of unknown meaning says nothing.
    """
    known = item.header.roles
    parts: list[str] = []
    name = ""
    for index, cell in enumerate(item.row.cells):
        role = known.get(index, "")
        if not isinstance(cell, str) or not cell or (role and role not in (*_TEXT_ROLES, "size")):
            continue
        if not role and is_number(cell):
            continue
        if role == "name" and not name:
            name = cell
        parts.append(cell)
    if item.only is not None:
        parts.append(item.only.adds)
        name = f"{name} {item.only.adds}" if name else ""
    return " | ".join(parts), name


def _beside_sizes(item: Item) -> str:
    """Return what stands in a row's columns of single sizes, words beside the number with it."""
    cells = (item.row.cell(column.index) for column in item.header.of(*SINGLE_SIZES))
    return " | ".join(cell for cell in cells if isinstance(cell, str))


def _made_name(own: str, context: tuple[str, ...]) -> str:
    return " ".join(
        part for part in (context[0] if context else "", own.replace(" | ", " ")) if part
    )


def _settled_kind(own: str, context: tuple[str, ...]) -> tuple[Kind, str]:
    """Return the kind by the row's own words, helped by headings, the nearest first."""
    kind = kind_of(own)
    if kind.is_settled:
        apart = map(set_apart, context if kind.family in ("sheet", "timber") else ())
        return next(filter(None, apart), kind), ""
    best, used = kind, ""
    text = own
    for above in context:
        said = kind_of(above)
        if said.family in ("", "charge", "other") and not _adds(above):
            continue
        if kind.undecided == "plywood" and said.family == "timber" and said.is_settled:
            continue  # a heading of timber, or a Pine Valley Lumber, says no plywood's wood
        text = f"{text} | {above}"
        wider = kind_of(text)
        if kind.family and wider.family not in (kind.family, "other") and kind.undecided != "tree":
            continue
        if wider.is_settled:
            return wider, above
        if wider.family and not best.family:
            best, used = wider, above
    return best, used


def _adds(text: str) -> bool:
    """Return whether a heading says something about wood though it names no product."""
    found = kind_of(text)
    return bool(found.family) or bool(traits_of(text).strength)


def _mended(own: str, context: tuple[str, ...], item: Item, ctx: ListContext) -> tuple[Kind, str]:
    before = _settled_kind(own, context)[0]
    text, word = respelled(own)
    kind = _settled_kind(text, context)[0] if text else Kind()
    if not kind.family or kind.undecided in ("tree", "panel"):
        return before, own
    ctx.assume(
        "price-list-spelling",
        f"a word is read as misspelt: {word}",
        item.row.place,
        "settle it with --accept price-list-spelling",
    )
    return kind, text


def _traits(own: str, context: tuple[str, ...], kind: Kind, sizes: str) -> Traits:
    """Return what the row says of its strength, surface and grain, else the nearest heading.

    `sizes` may tell the edges too, as in ``2500 x 675 x 18 N+F`` under a title for lengths; a
    class is not looked for there, as ``D 30`` may be a thickness.
    """
    near = [above for above in context if kind_of(above).family in ("", kind.family)]
    told = [traits_of(own), *map(traits_of, near)]
    strength, note = told[0].strength, told[0].strength_note
    if kind.family == "timber" and not strength:
        strength, note = _class_above(own, near, context)
    edges = traits_of(f"{own} | {sizes}")
    is_plain = is_straight(own) or is_straight(sizes)
    return Traits(
        strength,
        note,
        next((one.surface for one in told if one.surface), ""),
        next((one.grain for one in told if one.grain), ""),
        edges.cladding or any(one.cladding for one in told),
        edges.groove or (any(one.groove for one in told) and not is_plain),
    )


def _class_above(own: str, near: list[str], context: tuple[str, ...]) -> tuple[str, str]:
    """Return the strength class of the nearest heading, else of a trade name; each is told."""
    for above in near:
        found = traits_of(above)
        if found.strength:
            note = found.strength_note or f"the class {found.strength} stands only in a heading"
            return found.strength, note
    return usual_class(" | ".join((own, *context)))


def _with_kind_answers(draft: Draft, ctx: ListContext) -> Draft:
    """Settle what the user's answers settle, or name the open question."""
    kind = draft.kind
    if not kind.family:
        return replace(draft, problem="neither a sheet nor timber nor hardware that we know")
    if kind.family == "other":
        return replace(draft, problem=kind.reason)
    rated = rated_panel(kind, draft.own, ctx)
    if rated is not None:
        return _as_rated(draft, rated, ctx)
    if kind.undecided == "panel":
        return replace(draft, problem="a panel that may be plywood or glued boards")
    if kind.undecided == "osb":
        return _answered_osb(draft, ctx)
    if kind.undecided == "plywood":
        return _answered_plywood(draft, ctx)
    if kind.kind == "birch film-faced" and kind.assumed and ctx.answers.film_core == "other":
        return replace(draft, problem="film-faced plywood with a core other than birch")
    return draft


def _as_rated(draft: Draft, rated: Kind, ctx: ListContext) -> Draft:
    if rated.reason:
        return replace(draft, problem=rated.reason)
    flag = "--osb none" if rated.kind == "rated OSB" else "--plywood none"
    cure = f"leave them out with {flag}"
    ctx.assume("price-list-kind", rated.assumed, draft.item.row.place, cure)
    return replace(draft, kind=rated)


def _answered_osb(draft: Draft, ctx: ListContext) -> Draft:
    answer = ctx.answers.osb
    if answer == "3":
        return replace(draft, kind=Kind("sheet", "OSB/3"))
    reason = "OSB without its class (OSB/2 or OSB/3)"
    return replace(draft, problem=reason, question="" if answer == "none" else "osb")


def _answered_plywood(draft: Draft, ctx: ListContext) -> Draft:
    answer = ctx.answers.plywood
    if answer in ("birch", "softwood"):
        kind = "birch" if answer == "birch" else "softwood ply"
        return replace(draft, kind=Kind("sheet", kind))
    reason = "plywood without its wood (birch or softwood)"
    return replace(draft, problem=reason, question="" if answer == "none" else "plywood")


def size_cells(draft: Draft, ctx: ListContext, *roles: str) -> list[tuple[Column, str]]:
    """Return a row's filled size cells as text, with what its header says of the unit.

    A date is a size that a spreadsheet spoilt; it is read only as the user's answer says.
    """
    found = []
    for column in draft.item.header.of(*roles):
        cell = draft.item.row.cell(column.index)
        text = _size_text(cell, ctx)
        if text:
            found.append((column, text))
    return found


def inherited_cells(draft: Draft, *roles: str) -> list[tuple[Column, str]]:
    """Return the size cells that stand above a row's blank ones."""
    if not draft.item.inherited:
        return []
    return [
        (column, text_of(draft.item.inherited[column.index]))
        for column in draft.item.header.of(*roles)
        if column.index in draft.item.inherited
    ]


def spoilt_by_date(draft: Draft, ctx: ListContext) -> str:
    """Return the text of a size cell that is a date, when no answer says how to read it."""
    if ctx.answers.date_sizes:
        return ""
    for column in draft.item.header.of("thickness", "width", "depth", "length", "size"):
        cell = draft.item.row.cell(column.index)
        if isinstance(cell, dt.date) or (
            isinstance(cell, str) and _DATE_LIKE.fullmatch(fold(cell.strip()))
        ):
            return text_of(cell)
    return ""


def _size_text(cell: Cell, ctx: ListContext) -> str:
    if isinstance(cell, dt.date):
        first_month = ctx.answers.date_sizes == "month/day"
        a, b = (cell.month, cell.day) if first_month else (cell.day, cell.month)
        return f"{a}/{b}" if ctx.answers.date_sizes else ""
    if isinstance(cell, Decimal):
        return f"{cell:f}"
    if ctx.answers.date_sizes and _DATE_LIKE.fullmatch(fold(cell.strip())):
        return _worded_date(cell, ctx)
    return cell


def _worded_date(cell: str, ctx: ListContext) -> str:
    digits = re.search(r"\d{1,2}", cell)
    month = first("month", norm(re.sub(r"\d", " ", cell)))
    if not digits or not month:
        return cell
    day = digits[0].lstrip("0")
    return f"{month}/{day}" if ctx.answers.date_sizes == "month/day" else f"{day}/{month}"
