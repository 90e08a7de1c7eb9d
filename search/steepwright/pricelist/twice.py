"""A row that names its size more than once, differently: which one is meant is not guessed."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from steepwright.pricelist.bar_sizing import is_inch_pair
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft
from steepwright.pricelist.lengths import lengths_in
from steepwright.pricelist.sizes import (
    Chain,
    Reading,
    Shape,
    chains,
    is_imperial,
    prepare,
    readings,
)
from steepwright.pricelist.words import has, norm, shape

_ALIKE = Decimal("0.02")
"""Two sizes this near each other are one, rounded, or once in feet and once in millimetres."""


def two_sheets(draft: Draft, sides: tuple[Reading, ...], ctx: ListContext) -> bool:
    """Return whether a row's words name other sides than `sides`, by whose columns or words."""
    every = chains(prepare(draft.own, ctx.imperial))
    if len(every) < 2 and not draft.item.header.of("length", "width", "depth"):
        return False
    imperial = ctx.imperial or is_imperial(draft.own)
    found = [
        _sides(one.mm) for chain in every for one in _only(chain, ("sides", "sheet"), imperial)
    ]
    return _differ([*found, *(_sides(one.mm) for one in sides[:1])])


def two_sections(draft: Draft, section: tuple[Reading, ...], ctx: ListContext) -> bool:
    """Return whether a row's words name other sections than `section`; nominal inches don't count.

    A chain with slashes counts only where no other is there.
    """
    plain = prepare(draft.own, ctx.imperial)
    named = chains(plain)
    if len(named) < 2 and not draft.item.header.of("thickness", "width", "depth"):
        return False
    if has("nominal", norm(shape(draft.own))) or has("actual", norm(shape(draft.own))):
        return False
    imperial = ctx.imperial or is_imperial(draft.own)
    inches = imperial or ctx.inch_trade
    every = [
        chain
        for chain in named
        if not _is_choice(chain, plain) and not (inches and is_inch_pair(chain.elements[:2]))
    ]
    crossed = [chain for chain in every if not chain.slashed]
    found = [
        tuple(sorted(sorted(one.mm)[:2]))
        for chain in crossed or every
        for one in _only(chain, ("section", "bar"), imperial)
        if "in" not in one.units and min(one.mm) >= 15
    ]
    return _differ([*found, *(tuple(sorted(one.mm)) for one in section[:1])])


def _is_choice(chain: Chain, plain: str) -> bool:
    """Return whether a chain is a list of lengths such as ``3/4/5 m``."""
    return chain.slashed and lengths_in(plain[chain.start : chain.end]).form == "choice"


def _only(chain: Chain, shapes: Iterable[Shape], imperial: bool) -> tuple[Reading, ...]:
    """Return the one way to read a chain in one of the shapes; none when there are more."""
    for one in shapes:
        found = readings(chain.elements, one, imperial)
        if len(found) == 1:
            return found
    return ()


def _sides(mm: tuple[Decimal, ...]) -> tuple[Decimal, ...]:
    return tuple(sorted(mm)[-2:])


def _differ(sizes: list[tuple[Decimal, ...]]) -> bool:
    first = sizes[0] if sizes else ()
    return any(
        abs(a - b) > _ALIKE * max(a, b)
        for other in sizes[1:]
        for a, b in zip(first, other, strict=True)
    )
