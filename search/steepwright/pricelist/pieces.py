"""The band of money that one small part can cost; outside it a price is often that of a pack."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from math import pi

from steepwright.pricelist.context import ListContext
from steepwright.pricelist.limits import limit
from steepwright.pricelist.money import currencies
from steepwright.pricelist.offers import HardwareOffer
from steepwright.resources import catalogs_dir

_MM3_PER_DM3 = 10**6


@cache
def _bands() -> dict[str, tuple[str, float, float]]:
    path = catalogs_dir() / "pricelist" / "pieces.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {
            row["kind"]: (row["unit"], float(row["low_eur"]), float(row["high_eur"]))
            for row in csv.DictReader(stream)
        }


def tell_odd_pieces(offers: Iterable[HardwareOffer], ctx: ListContext) -> None:
    """Tell the small parts one of which costs far more or less than its kind and size do."""
    odd = [(one, band) for one in offers if (band := _band(one, ctx)) and _side(one, band)]
    most = limit("max_listed_rows")
    for one, band in odd[:most]:
        told = (
            f"{named(one)}: {_each(one):.3g} {ctx.currency} for one is outside the usual "
            f"{band[0]:.2g} to {band[1]:.2g}"
        )
        ctx.warn("price-list-outlier", told, _step(one, band), one.row)
    if len(odd) > most:
        told = f"{len(odd) - most} more small parts are priced as far off"
        ctx.warn("price-list-outlier", told, "look at what the prices are for")


def may_be_a_packs(offer: HardwareOffer, ctx: ListContext) -> bool:
    """Return whether a price for one may be that of a pack: far too dear, or not judged."""
    band = _band(offer, ctx)
    return band is None or _side(offer, band) > 0


def is_for_one(offer: HardwareOffer, ctx: ListContext) -> bool:
    """Return whether a price is far too low for a pack, and is what one piece of it may cost."""
    band = _band(offer, ctx)
    one = replace(offer, pack_quantity=1)
    return band is not None and _side(offer, band) < 0 and _side(one, band) == 0


def _each(offer: HardwareOffer) -> float:
    """Return what one piece of a pack costs [currency units]."""
    return offer.price_cents / 100 / offer.pack_quantity


def _band(offer: HardwareOffer, ctx: ListContext) -> tuple[float, float] | None:
    """Return what one such part may cost [currency units]; None where nobody can tell."""
    known = currencies().get(ctx.currency)
    if known is None or offer.kind not in _bands():
        return None
    unit, low, high = _bands()[offer.kind]
    size = 1.0
    if unit == "dm3":
        size = pi / 4 * float(offer.diameter_mm) ** 2 * offer.length_mm / _MM3_PER_DM3
    rate = float(known.eur_rough)
    return (low * size / rate, high * size / rate) if size else None


def _side(offer: HardwareOffer, band: tuple[float, float]) -> int:
    """Return -1 for an offer below its band, 1 for one above, 0 for one in it."""
    return (_each(offer) > band[1]) - (_each(offer) < band[0])


def named(offer: HardwareOffer) -> str:
    """Return what a small part is, with its size if that is known."""
    size = f" {offer.diameter_mm:f} x {offer.length_mm} mm" if offer.length_mm else ""
    return f"{offer.kind}{size}"


def _step(offer: HardwareOffer, band: tuple[float, float]) -> str:
    if _side(offer, band) > 0 and offer.pack_quantity == 1:
        return "if a pack costs that, say how many are in it with --pack-pieces"
    return "check the row's price, size and number in a pack"
