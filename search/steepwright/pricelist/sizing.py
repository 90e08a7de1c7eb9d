"""The size of a sheet's draft as thickness, length, width, and what bars read alike."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft, inherited_cells, size_cells
from steepwright.pricelist.sizes import (
    THICKNESS_MM,
    Element,
    Reading,
    bare_fractions,
    chains,
    element,
    is_imperial,
    prepare,
    readings,
    singles,
)

_BARE = re.compile(
    r"(?<![\w.,/-])(\d{1,2}(?:[.,]\d)?)(?![\w.,/-]|\s?(?:-?fach|lag|ply|plies|st\b|stk|%))"
)

JOINED = re.compile(r"\d\s?[xX×*]\s?\d")
"""Two numbers of one size in a cell for a single one."""


@dataclass(frozen=True, slots=True)
class SheetSize:
    """The readings of a sheet's thickness and of its two sides, in the order written."""

    thickness: tuple[Reading, ...] = ()
    sides: tuple[Reading, ...] = ()
    is_named: bool = False


def cell_element(text: str, unit: str, imperial: bool) -> Element | None:
    """Return the one number in a size cell, with its own unit or that of its column."""
    plain = prepare(text, imperial)
    found = re.fullmatch(
        r"\s*(\d+(?:[.,]\d+)?)\s?(mm|cm|m|in\.?|inch|inches|zoll|\"|''|ft\.?|feet|')?\s*", plain
    )
    if not found:
        return None
    own = _own_unit(found[2] or "")
    return element(found[1], own or unit)


def _own_unit(text: str) -> str:
    names = {
        '"': "in",
        "''": "in",
        "inch": "in",
        "inches": "in",
        "zoll": "in",
        "'": "ft",
        "feet": "ft",
    }
    bare = text.rstrip(".")
    return names.get(bare, bare)


def sheet_size(draft: Draft, ctx: ListContext) -> SheetSize:
    """Return every reading of a sheet's size, from its columns, its words, then its headings."""
    thickness, sides, named = _sheet_by_columns(draft, ctx)
    texts = [text for _, text in size_cells(draft, ctx, "size")]
    units = [column.unit for column, _ in size_cells(draft, ctx, "size")]
    sized = size_cells(draft, ctx, "length", "width", "thickness")
    joined = [(text, column.unit) for column, text in sized if JOINED.search(text)]
    sources = [(text, unit) for text, unit in zip(texts, units, strict=True)] + [(draft.own, "")]
    for text, unit in (*sources, *joined):
        thickness, sides = _sheet_by_text(text, unit, thickness, sides, ctx)
    for column, text in inherited_cells(draft, "size"):
        before = thickness, sides
        thickness, sides = _sheet_by_text(text, column.unit, thickness, sides, ctx)
        tell_inherited(before != (thickness, sides), draft, ctx)
    if not thickness:
        thickness = _inherited_thickness(draft, ctx) or _bare_thickness(draft.own, ctx)
    for text in draft.context:
        thickness, sides = _sheet_by_text(text, "", thickness, sides, ctx)
    return SheetSize(thickness, sides, named)


def _sheet_by_columns(
    draft: Draft, ctx: ListContext
) -> tuple[tuple[Reading, ...], tuple[Reading, ...], bool]:
    found = {}
    for role in ("thickness", "length", "width", "depth"):
        for column, text in size_cells(draft, ctx, role):
            one = cell_element(text, column.unit, ctx.imperial)
            if one and role not in found:
                found[role] = one
    second = found.get("width") or found.get("depth")
    first, thin = found.get("length"), found.get("thickness")
    if first is None and "width" in found and "depth" in found:
        first, second = found["depth"], found["width"]
    thickness = readings((thin,), "thickness", ctx.imperial) if thin else ()
    sides = readings((first, second), "sides", ctx.imperial) if first and second else ()
    return thickness, sides, bool(sides)


def _sheet_by_text(
    text: str,
    unit: str,
    thickness: tuple[Reading, ...],
    sides: tuple[Reading, ...],
    ctx: ListContext,
) -> tuple[tuple[Reading, ...], tuple[Reading, ...]]:
    """Fill in what is still open from the chains and single sizes of one text."""
    if thickness and sides:
        return thickness, sides
    plain = prepare(text, ctx.imperial)
    for chain in chains(plain):
        elements = with_unit(chain.elements, unit)
        if len(elements) == 3 and not sides:
            whole = readings(elements, "sheet", ctx.imperial or is_imperial(text))
            if whole:
                thickness = thickness or tuple(_thin(one) for one in whole)
                sides = tuple(_wide(one) for one in whole)
        elif len(elements) == 2 and not sides:
            sides = readings(elements, "sides", ctx.imperial or is_imperial(text))
    if not thickness:
        thickness = _single_thickness(plain, ctx)
    return thickness, sides


def with_unit(elements: tuple[Element, ...], unit: str) -> tuple[Element, ...]:
    """Give the column's unit to numbers without one, unless some number has its own."""
    if not unit or any(one.unit for one in elements):
        return elements
    return tuple(Element(one.values, unit) for one in elements)


def _thin(whole: Reading) -> Reading:
    at = whole.mm.index(min(whole.mm))
    return Reading((whole.mm[at],), (whole.units[at],))


def _wide(whole: Reading) -> Reading:
    at = whole.mm.index(min(whole.mm))
    keep = [index for index in range(3) if index != at]
    return Reading(tuple(whole.mm[i] for i in keep), tuple(whole.units[i] for i in keep))


def _single_thickness(plain: str, ctx: ListContext) -> tuple[Reading, ...]:
    """Return the one thickness among the single sizes; the smaller of two that nearly agree."""
    found: list[Reading] = []
    for one, _, _ in singles(plain):
        found += readings((one,), "thickness", ctx.imperial)
    values = sorted({reading.mm[0] for reading in found})
    if not values or values[-1] > values[0] * Decimal("1.12"):
        return ()
    return (Reading((values[0],), ("mm",)),)


def _inherited_thickness(draft: Draft, ctx: ListContext) -> tuple[Reading, ...]:
    for column, text in inherited_cells(draft, "thickness"):
        one = cell_element(text, column.unit, ctx.imperial)
        if one:
            message = "blank thicknesses take the thickness above"
            ctx.assume("price-list-filled-down", message, draft.item.row.place)
            return readings((one,), "thickness", ctx.imperial)
    return ()


def _bare_thickness(own: str, ctx: ListContext) -> tuple[Reading, ...]:
    """Return the only bare number in a text that can be a thickness [mm].

    In an imperial list a bare fraction such as 23/32 is in inches.
    """
    if ctx.imperial:
        fractions = bare_fractions(own)
        if len(fractions) == 1:
            return readings((Element((fractions.pop(),), "in"),), "thickness", True)
    plain = prepare(own, ctx.imperial)
    for chain in reversed(chains(plain)):
        plain = plain[: chain.start] + " " + plain[chain.end :]
    plain = re.sub(
        r"osb\s?/?\s?\d|\ben\s?\d+\S*|\be1\b|\baw\s?\d+|\bbfu\s?\d+|\bno\.?\s?\d", " ", plain
    )
    values = {Decimal(text.replace(",", ".")) for text in _BARE.findall(plain)}
    values = {value for value in values if THICKNESS_MM[0] < value <= 40}
    if len(values) != 1:
        return ()
    return (Reading((values.pop(),), ("mm",)),)


def tell_inherited(is_used: bool, draft: Draft, ctx: ListContext) -> None:
    """Note that a blank size takes the one above, if that was of use."""
    if is_used:
        message = "blank sizes take the size above"
        ctx.assume("price-list-filled-down", message, draft.item.row.place)
