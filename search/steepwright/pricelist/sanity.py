"""The band of money per cubic metre that a product family can cost; outside it a basis is wrong."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import log
from statistics import median

from steepwright.pricelist.basis import Piece, parse_answer, pieces_per_price
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.limits import limit
from steepwright.pricelist.money import currencies
from steepwright.pricelist.offers import SheetOffer, TimberOffer
from steepwright.resources import catalogs_dir

_OUTLIER = 5
"""A row this many times dearer or cheaper per m3 than its family's median is told."""


@dataclass(frozen=True, slots=True)
class Band:
    """One family's prices per m3 [currency units], and the band they should lie in."""

    family: str
    count: int
    low: int
    middle: int
    high: int
    least: int
    most: int
    cure: str = ""

    @property
    def verdict(self) -> str:
        """``in band``, ``too low`` or ``too high``, by the median."""
        if self.middle < self.least:
            return "too low"
        return "too high" if self.middle > self.most else "in band"


@cache
def _bands() -> dict[str, tuple[int, int]]:
    path = catalogs_dir() / "pricelist" / "bands.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {
            row["family"]: (int(row["low_eur_m3"]), int(row["high_eur_m3"]))
            for row in csv.DictReader(stream)
        }


def per_m3(offer: SheetOffer | TimberOffer) -> float:
    """Return what an offer costs per cubic metre [currency units/m3]."""
    return offer.price_cents / 100 / (offer.volume_mm3 / 1e9)


def bands(offers: Iterable[SheetOffer | TimberOffer], ctx: ListContext) -> tuple[Band, ...]:
    """Return the band of each family; findings tell what lies outside."""
    groups: dict[str, list[SheetOffer | TimberOffer]] = defaultdict(list)
    for offer in offers:
        groups[offer.family].append(offer)
    known = currencies().get(ctx.currency)
    rate = float(known.eur_rough) if known else 1.0
    found = []
    for family, members in sorted(groups.items()):
        band = _band(family, members, rate)
        found.append(band)
        if known:
            _tell(band, members, ctx)
    return tuple(found)


def _band(family: str, members: Sequence[SheetOffer | TimberOffer], rate: float) -> Band:
    values = sorted(per_m3(offer) for offer in members)
    least, most = (bound / rate for bound in _bands()[family])
    middle = median(values)
    cure = "" if least <= middle <= most else _cure(members, least, most)
    return Band(
        family,
        len(members),
        round(values[0]),
        round(middle),
        round(values[-1]),
        round(least),
        round(most),
        cure,
    )


def _cure(members: Sequence[SheetOffer | TimberOffer], least: float, most: float) -> str:
    """Return the other basis, or the factor, that brings the median closest to the band."""
    target = (log(least) + log(most)) / 2
    candidates: list[tuple[float, str]] = []
    for name in ("piece", "pack", "m", "m2", "m3"):
        values = [value for offer in members if (value := _as_if(offer, name)) is not None]
        if values and least <= median(values) <= most:
            candidates.append((abs(log(median(values)) - target), _basis_text(members[0], name)))
    middle = median(per_m3(offer) for offer in members)
    for factor, text in (
        (0.01, "divided by 100"),
        (0.001, "divided by 1000"),
        (0.1, "divided by 10"),
        (10, "times 10"),
        (100, "times 100"),
    ):
        if least <= middle * factor <= most:
            candidates.append((abs(log(middle * factor) - target) + 1, f"prices {text}"))
    return min(candidates)[1] if candidates else ""


def _as_if(offer: SheetOffer | TimberOffer, unit: str) -> float | None:
    """Return an offer's price per m3 if its printed price were for another unit."""
    timber = isinstance(offer, TimberOffer)
    thickness = offer.width_mm if isinstance(offer, TimberOffer) else offer.thickness_mm
    width = offer.depth_mm if isinstance(offer, TimberOffer) else offer.width_mm
    piece = Piece(Decimal(thickness), Decimal(width), Decimal(offer.length_mm), offer.pack_pieces)
    now = parse_answer(offer.price.basis.removeprefix("per "))
    other = parse_answer(unit)
    if now is None or other is None or now.unit == unit:
        return None
    before, after = pieces_per_price(now, piece, timber), pieces_per_price(other, piece, timber)
    if not before or not after:
        return None
    return per_m3(offer) * float(Fraction(after) / Fraction(before))


def _basis_text(offer: SheetOffer | TimberOffer, unit: str) -> str:
    """Return a cure in words: the other basis, and what that multiplies the piece's price by."""
    steps = {
        ("piece", "m"): "times the length",
        ("piece", "m2"): "times the area",
        ("piece", "m3"): "times the volume",
        ("piece", "pack"): "divided by the pieces in a pack",
        ("m", "piece"): "divided by the length",
        ("m", "pack"): "divided by pieces x length",
        ("m2", "piece"): "divided by the area",
        ("m3", "piece"): "divided by the volume",
    }
    now = offer.price.basis.removeprefix("per ")
    step = steps.get((now, unit), f"instead of per {now}")
    return f"prices per {unit} ({step})"


def _tell(band: Band, members: Sequence[SheetOffer | TimberOffer], ctx: ListContext) -> None:
    if band.verdict != "in band":
        cure = f"; {band.cure} would lie in it" if band.cure else ""
        ctx.warn(
            "price-list-band",
            f"{band.family}: {band.middle} {ctx.currency}/m3 is {band.verdict}, the usual band is "
            f"{band.least} to {band.most}{cure}",
            "look at what the prices are for, and settle it with --basis; nothing was changed",
        )
        return
    odd = {one.row: one for one in members if _is_odd(per_m3(one), band)}
    most = limit("max_listed_rows")
    for row in sorted(odd)[:most]:
        told = f"{band.family}: {_oddness(odd[row], band, ctx.currency)}"
        ctx.warn("price-list-outlier", told, "check the row's price and size", row)
    if len(odd) > most:
        told = f"{band.family}: {len(odd) - most} more rows lie as far off"
        ctx.warn("price-list-outlier", told, "look at what the prices are for")


def _is_odd(value: float, band: Band) -> bool:
    """Return whether a price per m3 is outside the band, or far from the others'."""
    is_near = band.middle / _OUTLIER <= value <= band.middle * _OUTLIER
    return not (band.least <= value <= band.most and is_near)


def _oddness(offer: SheetOffer | TimberOffer, band: Band, currency: str) -> str:
    value = per_m3(offer)
    if band.least <= value <= band.most:
        return (
            f"the price is more than {_OUTLIER} times off the others' {band.middle} {currency}/m3"
        )
    cure = _cure([offer], band.least, band.most)
    cure = f"; {cure} would lie in it" if cure else ""
    usual = f"the usual band of {band.least} to {band.most}"
    return f"{round(value)} {currency}/m3 is outside {usual}{cure}"
