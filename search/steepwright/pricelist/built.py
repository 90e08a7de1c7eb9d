"""What one row gave, and the helpers that sheets and bars share."""

from __future__ import annotations

from dataclasses import dataclass

from steepwright.pricelist.basis import Basis
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.offers import Charge, Offer
from steepwright.pricelist.pricing import NO_QUOTES, Quotes
from steepwright.pricelist.sizes import Reading


@dataclass(frozen=True, slots=True)
class Built:
    """What one row gave: offers, a charge, or the reason why not (with a question's key)."""

    offers: tuple[Offer, ...] = ()
    charge: Charge | None = None
    reason: str = ""
    question: str = ""
    quotes: Quotes = NO_QUOTES


def settle(found: tuple[Reading, ...], ctx: ListContext, row: str) -> tuple[Reading | None, str]:
    """Return the one reading of a size, by the list's own unit if two fit, or what is wrong."""
    if not found:
        return None, "no size"
    if len(found) == 1:
        return found[0], ""
    unit = ctx.answers.size_unit or ctx.size_unit
    fit = [one for one in found if set(one.units) == {unit}] if unit else []
    if len(fit) != 1:
        return None, "two"
    tell_common_unit(unit, ctx, row)
    return fit[0], ""


def tell_common_unit(unit: str, ctx: ListContext, row: str) -> None:
    """Tell that a size is in the unit of the list's other sizes, unless an answer says so."""
    if not ctx.answers.size_unit:
        message = f"sizes that could be read in two units are in {unit}, as in the other rows"
        ctx.assume("price-list-size-unit", message, row, f"settle it with --size-unit {unit}")


def in_pieces(stock: int | None, basis: Basis | None, pack_pieces: int) -> int | None:
    """Return a stock as pieces; None when it is counted in metres, or not told."""
    if stock is None or basis is None or basis.unit not in ("piece", "pack"):
        return None
    return stock * pack_pieces if basis.unit == "pack" else stock
