"""The same product on several rows: told, and the dearest kept unless the user says otherwise."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from steepwright.catalog.types import OFFCUT
from steepwright.pricelist.context import ListContext, rows_text
from steepwright.pricelist.offers import HardwareOffer, LeftOut, Offer, SheetOffer


def product_key(offer: Offer) -> tuple[object, ...]:
    """Return what makes two offers the same product: code, name and sizes, not the price."""
    if isinstance(offer, SheetOffer):
        sizes: tuple[object, ...] = (
            offer.kind,
            offer.thickness_mm,
            offer.length_mm,
            offer.width_mm,
            offer.face_grain,
        )
    elif isinstance(offer, HardwareOffer):
        sizes = (offer.kind, offer.diameter_mm, offer.length_mm, offer.pack_quantity)
    else:
        sizes = (
            offer.width_mm,
            offer.depth_mm,
            offer.length_mm,
            offer.strength_class,
            offer.surface,
        )
    return (offer.sku or offer.name.casefold(), *sizes)


def settle_duplicates(
    offers: Sequence[Offer], ctx: ListContext
) -> tuple[tuple[Offer, ...], tuple[LeftOut, ...]]:
    """Return the offers to keep, and the rows left out as duplicates."""
    groups: dict[tuple[object, ...], list[Offer]] = defaultdict(list)
    for offer in offers:
        groups[product_key(offer)].append(offer)
    kept: list[Offer] = []
    out: list[LeftOut] = []
    for members in groups.values():
        chosen = _chosen(members, ctx)
        kept += chosen
        out += [
            LeftOut(one.sheet, one.row, _why(one, chosen[0]), one.name[:80])
            for one in members
            if one not in chosen
        ]
    return tuple(kept), tuple(out)


def _why(one: Offer, kept: Offer) -> str:
    if one.price_cents == kept.price_cents:
        return f"the same offer as row {kept.row}"
    return f"the same product as row {kept.row} at another price"


def _chosen(members: list[Offer], ctx: ListContext) -> list[Offer]:
    if len({one.price_cents for one in members}) == 1:
        return members[:1]
    answer = ctx.answers.duplicates
    if answer == "both":
        return members
    pick = min if answer == "cheapest" else max
    best = pick(members, key=lambda one: one.price_cents)
    if not answer:
        rows = [str(row) for row in sorted({one.row for one in members})]
        ctx.assume(
            "price-list-duplicates",
            f"{members[0].sku or members[0].name[:40]} has several prices; the dearest is taken"
            f"{rows_text(rows)}",
            "",
            "settle it with --duplicates dearest, cheapest or both",
        )
    return [best]


def with_own_codes(offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """Give every offer a code of its own: the list's code, a length or row added where needed."""
    taken: set[str] = set()
    named: list[Offer] = []
    counts: dict[str, int] = defaultdict(int)
    for offer in offers:
        counts[_base(offer)] += 1
    for offer in offers:
        base = _base(offer)
        code = base
        if offer.sku and counts[base] > 1 and not isinstance(offer, HardwareOffer):
            code = f"{base}-{offer.length_mm}"
        if code in taken:
            code = f"{code}-r{offer.row}"
        number = 2
        while code in taken:
            code, number = f"{base}-r{offer.row}-{number}", number + 1
        taken.add(code)
        named.append(offer if offer.sku == code else replace(offer, sku=code))
    return tuple(named)


def _base(offer: Offer) -> str:
    if isinstance(offer, SheetOffer) and offer.sku.startswith(OFFCUT):
        return f"+{offer.sku}"  # a catalogue refuses it: the room file's offcuts are named so
    if offer.sku:
        return offer.sku
    if isinstance(offer, SheetOffer):
        return f"{offer.panel}-{offer.length_mm}x{offer.width_mm}"
    if isinstance(offer, HardwareOffer):
        return f"{offer.kind}-{offer.diameter_mm:f}-{offer.pack_quantity}"
    return f"{offer.width_mm}x{offer.depth_mm}-{offer.strength_class}-{offer.length_mm}"
