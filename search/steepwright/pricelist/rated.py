"""North American rated panels: what a list in dollars means by OSB, sheathing and a span rating."""

from __future__ import annotations

from steepwright.pricelist.context import ListContext
from steepwright.pricelist.kinds import Kind
from steepwright.pricelist.sizes import SPAN_RATING
from steepwright.pricelist.words import has, norm

KNOWN_RATING = "48/24"
"""The span rating whose values `catalogs/materials` holds, with their source."""


def rated_panel(kind: Kind, text: str, ctx: ListContext) -> Kind | None:
    """Return the rated panel that a row of a list in dollars sells; None when it is none.

    OSB without a European class is one there (PS 2 [M]); plywood only if it says so, by *rated*,
    *sheathing*, *CDX* (veneers C and D, Exposure 1; PS 1 [M]) or a span rating, and if it names
    its wood only by one of the last two. Another span rating than that with values has none:
    `reason` says so. What is taken for granted is told, for it stands on the panel's stamp.
    """
    if ctx.currency not in ("USD", "CAD"):
        return None
    rating = SPAN_RATING.search(text)
    osb = kind.undecided == "osb" and not ctx.answers.osb
    if not osb and not _is_rated_ply(kind, text, ctx.answers.plywood):
        return None
    name = "rated OSB" if osb else "rated plywood"
    if not osb and ctx.answers.plywood == "none":
        return Kind("other", reason=f"{name}, left out as answered")
    if rating and rating[0] != KNOWN_RATING:
        reason = f"{name} {rating[0]}: only {KNOWN_RATING} has strength values here"
        return Kind("other", reason=reason)
    said = "" if rating else f", span rating {KNOWN_RATING}"
    assumed = f"{name}: Exposure 1{said} is taken for granted; look at the stamp"
    return Kind("sheet", name, assumed=assumed)


def _is_rated_ply(kind: Kind, text: str, answer: str) -> bool:
    """Return whether plywood says that it is rated; an answer settles what names no wood."""
    if kind.undecided == "plywood":
        return not answer and (bool(SPAN_RATING.search(text)) or has("rated", norm(text)))
    if kind.kind != "softwood ply" or answer == "softwood":
        return False
    return bool(SPAN_RATING.search(text)) or has("rated", norm(text), "CDX")
