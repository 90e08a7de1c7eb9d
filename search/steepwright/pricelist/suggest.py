"""Which answer to the question of the basis would put the prices into the usual band."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from steepwright.findings import Findings
from steepwright.pricelist.build import build
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.draft import Draft
from steepwright.pricelist.offers import SheetOffer, TimberOffer
from steepwright.pricelist.sanity import bands

_CANDIDATES = ("piece", "m", "m2", "m3")
_MOST = 300
"""Rows that are tried; more say nothing new."""


def usual_bases(drafts: Sequence[Draft], ctx: ListContext) -> str:
    """Return a sentence on what the open prices would usually be for, by family; or nothing."""
    fitting: dict[str, list[str]] = {}
    for name in _CANDIDATES:
        trial = ListContext(
            ctx.file,
            replace(ctx.answers, basis=name),
            ctx.materials,
            Findings(),
            ctx.decimal,
            ctx.currency,
            ctx.imperial,
            ctx.inch_trade,
            ctx.has_vat,
            ctx.vat_rate,
            size_unit=ctx.size_unit,
        )
        offers = [
            offer
            for draft in drafts[:_MOST]
            for offer in build(draft, trial).offers
            if isinstance(offer, SheetOffer | TimberOffer)
        ]
        for band in bands(offers, trial):
            if band.verdict == "in band":
                fitting.setdefault(band.family, []).append(name)
    told = [f"{family} per {' or '.join(names)}" for family, names in sorted(fitting.items())]
    return f" Within the usual band would be: {', '.join(told)}." if told else ""
