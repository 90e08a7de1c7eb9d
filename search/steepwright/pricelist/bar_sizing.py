"""The size of a bar's draft: its section and the lengths it comes in."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from steepwright.pricelist.built import tell_common_unit
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft, inherited_cells, size_cells
from steepwright.pricelist.header import Column
from steepwright.pricelist.lengths import NONE, LengthOffer, lengths_in
from steepwright.pricelist.panels import nominal_section
from steepwright.pricelist.sizes import (
    BAR_MM,
    DEEP_MM,
    UNIT_MM,
    Chain,
    Element,
    Reading,
    chains,
    is_imperial,
    prepare,
    readings,
)
from steepwright.pricelist.sizing import JOINED, cell_element, tell_inherited, with_unit
from steepwright.pricelist.words import norm, shape


@dataclass(frozen=True, slots=True)
class BarSize:
    """The readings of a bar's section, its lengths, and its nominal inches if so sold."""

    section: tuple[Reading, ...] = ()
    lengths: LengthOffer = NONE
    nominal_in: tuple[Decimal, Decimal] | None = None
    is_nominal: bool = False


def bar_size(draft: Draft, ctx: ListContext) -> BarSize:
    """Return every reading of a bar's section, and the lengths it comes in."""
    imperial = ctx.imperial or is_imperial(draft.own)
    answered = ctx.answers.size_unit
    found = _Bar(imperial, imperial or ctx.inch_trade or says_cls(draft), answered)
    found.take_section(_section_by_columns(draft, ctx))
    found.lengths = _lengths_by_columns(draft, ctx, imperial)
    sources = [(text, column.unit) for column, text in size_cells(draft, ctx, "size")]
    sized = size_cells(draft, ctx, "thickness", "width", "depth", "length")
    sources += [(text, column.unit) for column, text in sized if JOINED.search(text)]
    sources.append((draft.own, ""))
    for text, unit in sources:
        found.take_text(text, unit)
    if found.has_section and found.lengths.form == "none":
        found.lengths = _lone_length(draft, ctx, imperial)
    for column, text in inherited_cells(draft, "size"):
        before = found.section, found.lengths
        found.take_text(text, column.unit)
        tell_inherited(before != (found.section, found.lengths), draft, ctx)
    for text in draft.context:
        found.take_above(text)
    is_nominal = not found.section and found.nominal is not None
    return BarSize(found.section, found.lengths, found.nominal, is_nominal)


def says_cls(draft: Draft) -> bool:
    """Return whether a row or its headings name Canadian lumber sizes."""
    return any(" cls " in norm(shape(text)) for text in (draft.own, *draft.context))


@dataclass(slots=True)
class _Bar:
    """What the sources of one bar gave so far; earlier sources win."""

    imperial: bool
    inch_trade: bool
    size_unit: str = ""
    section: tuple[Reading, ...] = ()
    lengths: LengthOffer = NONE
    nominal: tuple[Decimal, Decimal] | None = None

    @property
    def has_section(self) -> bool:
        """Whether the section is known, by its actual or its nominal size."""
        return bool(self.section or self.nominal)

    def take_section(self, found: tuple[Reading, ...]) -> None:
        """Take a section: inches are a nominal size, all else is the actual one."""
        if found and all(set(one.units) == {"in"} for one in found):
            self.nominal = self.nominal or _inches(found)
        elif found and not self.section:
            self.section = found

    def take_choice(self, text: str) -> bool:
        """Take a chain such as ``3/4/5 m`` as lengths; return whether it is one."""
        choice = lengths_in(text, "", self.imperial)
        if choice.form == "choice" and self.lengths.form == "none":
            self.lengths = choice
        return choice.form == "choice"

    def _chain(self, chain: Chain, unit: str) -> tuple[tuple[Reading, ...], LengthOffer]:
        """Return a chain's section and length; one that may be lumber in inches and feet is both.

        The answer to the question about the unit decides.
        """
        lumber = () if self.inch_trade else _as_lumber(with_unit(chain.elements, unit))
        if lumber and self.size_unit == "in":
            return _bar_chain(chain, unit, True, True)
        section, length = _bar_chain(chain, unit, self.imperial, self.inch_trade)
        if lumber and not self.size_unit:
            section = tuple(dict.fromkeys((*section, *lumber)))
        return section, length

    def take_text(self, text: str, unit: str) -> None:
        """Take what one text says and the texts before it did not."""
        plain = prepare(text, self.imperial)
        for chain in sorted(chains(plain), key=lambda one: one.slashed):
            if chain.slashed and self.take_choice(plain[chain.start : chain.end]):
                continue
            section, length = self._chain(chain, unit)
            self.take_section(section)
            if length.form != "none" and self.lengths.form == "none":
                self.lengths = length
        if self.lengths.form == "none" and text:
            self.lengths = lengths_in(_without_sections(plain), unit, self.imperial)

    def take_above(self, text: str) -> None:
        """Take what a heading says and the row did not; the row's nominal size is its section."""
        own = self.section, self.nominal
        self.take_text(text, "")
        if any(own):
            self.section, self.nominal = own


def _section_by_columns(draft: Draft, ctx: ListContext) -> tuple[Reading, ...]:
    """Return the section from two of the columns, or from one and the cell above a blank one."""
    roles = ("thickness", "width", "depth")
    own = _elements(ctx, [size_cells(draft, ctx, role)[:1] for role in roles])
    if len(own) == 1:
        own += _elements(ctx, [inherited_cells(draft, role)[:1] for role in roles])
    if len(own) != 2:
        return ()
    inches = ctx.imperial or (ctx.inch_trade and is_inch_pair(tuple(own)))
    return readings(tuple(own), "section", inches)


def _elements(ctx: ListContext, cells: list[list[tuple[Column, str]]]) -> list[Element]:
    return [
        one
        for found in cells
        for column, text in found
        if (one := cell_element(text, column.unit, ctx.imperial))
    ]


def _lengths_by_columns(draft: Draft, ctx: ListContext, imperial: bool) -> LengthOffer:
    for column, text in size_cells(draft, ctx, "length"):
        found = _cell_lengths(text, column.unit, draft, ctx, imperial)
        if found.form != "none":
            return found
    return NONE


def _lone_length(draft: Draft, ctx: ListContext, imperial: bool) -> LengthOffer:
    """Return the length of a bar whose section stands elsewhere: the only number of a size cell.

    One that may be a depth is none.
    """
    for column, text in size_cells(draft, ctx, "size"):
        one = None if column.unit else cell_element(text, "", imperial)
        if one is None or one.unit:
            continue
        if imperial or not BAR_MM[1] / UNIT_MM["m"] < one.values[0] <= DEEP_MM[1]:
            return _cell_lengths(text, "", draft, ctx, imperial)
    return NONE


def _cell_lengths(
    text: str, unit: str, draft: Draft, ctx: ListContext, imperial: bool
) -> LengthOffer:
    """Return the lengths in a cell; those that fit bars in two units are in the list's own."""
    found = lengths_in(text, unit or "?", imperial)
    known = ctx.answers.size_unit or ctx.size_unit
    if found.form != "two units" or not known:
        return found
    settled = lengths_in(text, "?", imperial, known)
    if settled.form != "two units":
        tell_common_unit(known, ctx, draft.item.row.place)
    return settled


def _bar_chain(
    chain: Chain, unit: str, imperial: bool, inch_trade: bool
) -> tuple[tuple[Reading, ...], LengthOffer]:
    """Return the section, and the length if the chain holds one, of ``60x120`` or ``2x4x8'``."""
    elements = with_unit(chain.elements, unit)
    if inch_trade and len(elements) in (2, 3) and is_inch_pair(elements[:2]):
        section = readings(elements[:2], "section", True)
        length = readings(elements[2:], "length", imperial) if elements[2:] else ()
        return section, _fixed({one.mm[0] for one in length})
    if len(elements) == 2:
        return readings(elements, "section", imperial), NONE
    whole = readings(elements, "bar", imperial) if len(elements) == 3 else ()
    sections = tuple(dict.fromkeys(_cross(one) for one in whole))
    return sections, _fixed({max(one.mm) for one in whole})


def _as_lumber(elements: tuple[Element, ...]) -> tuple[Reading, ...]:
    """Return the section [in] of three bare numbers such as 1x4x8, if lumber is sold so.

    Both must be a nominal size of the US table, and the length an even number of feet.
    """
    if len(elements) != 3 or any(one.unit for one in elements):
        return ()
    narrow, deep, feet = (one.values[0] for one in elements)
    if feet % 2 or not 6 <= feet <= 24 or not nominal_section("us", (narrow, deep), "", False):
        return ()
    return readings(elements[:2], "section", True)


def is_inch_pair(elements: tuple[Element, ...]) -> bool:
    """Return whether two numbers are a nominal size such as 2 x 4: whole, small, without mm."""
    return all(
        one.unit in ("", "in") and one.values[0] <= 12 and one.values[0] == int(one.values[0])
        for one in elements
    )


def _fixed(lengths_mm: set[Decimal]) -> LengthOffer:
    return LengthOffer("fixed", (int(lengths_mm.pop()),)) if len(lengths_mm) == 1 else NONE


def _cross(whole: Reading) -> Reading:
    at = whole.mm.index(max(whole.mm))
    keep = [index for index in range(3) if index != at]
    return Reading(tuple(whole.mm[i] for i in keep), tuple(whole.units[i] for i in keep))


def _inches(found: tuple[Reading, ...]) -> tuple[Decimal, Decimal] | None:
    sizes = [tuple(value / UNIT_MM["in"] for value in one.mm) for one in found]
    return (sizes[0][0], sizes[0][1]) if len(sizes) == 1 else None


def _without_sections(plain: str) -> str:
    """Return the text without chains that are sections, so that lengths stand alone."""
    for chain in reversed(chains(plain)):
        if not (
            chain.slashed and lengths_in(plain[chain.start : chain.end], "", False).form == "choice"
        ):
            plain = plain[: chain.start] + " ; " + plain[chain.end :]
    return plain
