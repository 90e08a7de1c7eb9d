"""Small parts of a list for the catalogue: T-nuts as they are, screws by the shipped one's make.

A price list names a screw's diameter and length, not its thread and strength; those are taken
from the shipped example's screw of the same size, and only its price from the list. Parts that
carry a load by their rating (hinges, ropes, pulleys) stay the shipped ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from steepwright.catalog.types import Catalog, Hardware, Screw
from steepwright.pricelist.offers import HardwareOffer
from steepwright.pricelist.reading import PriceListReading


@dataclass(frozen=True, slots=True)
class SmallParts:
    """Screws and hardware for a catalogue; empty where the shipped ones serve unchanged."""

    screws: tuple[Screw, ...] = ()
    hardware: tuple[Hardware, ...] = ()


def small_parts(readings: Sequence[PriceListReading], shipped: Catalog) -> SmallParts:
    """Return the lists' T-nuts and screws among the shipped parts that they don't replace."""
    offers = [
        (f"{number}:{offer.sku}" if len(readings) > 1 else offer.sku, offer, one.yard)
        for number, one in enumerate(readings, start=1)
        for offer in one.hardware
    ]
    if not offers:
        return SmallParts()
    own_screws = tuple(
        replace(
            like,
            sku=sku,
            name=offer.name,
            pack_quantity=offer.pack_quantity,
            price_cents=offer.price_cents,
            yard=yard,
        )
        for sku, offer, yard in offers
        if offer.kind == "screw" and (like := _like(offer, shipped.screws)) is not None
    )
    own_nuts = tuple(
        Hardware(
            sku,
            offer.name,
            "tnut",
            offer.pack_quantity,
            offer.price_cents,
            diameter_mm=float(offer.diameter_mm),
            yard=yard,
        )
        for sku, offer, yard in offers
        if offer.kind == "tnut"
    )
    return SmallParts(
        _with_shipped_screws(own_screws, shipped.screws), _with_shipped(own_nuts, shipped.hardware)
    )


def unmatched(readings: Sequence[PriceListReading], shipped: Catalog) -> tuple[str, ...]:
    """Return a line for each screw on offer whose size no screw of the other catalogue has."""
    return tuple(
        f"{one.file}: row {offer.row} ({offer.name}) is in no file: {shipped.name} has no screw of "
        f"{offer.diameter_mm:f} x {offer.length_mm} mm to take thread and strength from"
        for one in readings
        for offer in one.hardware
        if offer.kind == "screw" and _like(offer, shipped.screws) is None
    )


def _like(offer: HardwareOffer, shipped: Sequence[Screw]) -> Screw | None:
    """Return the shipped screw of the same diameter and length."""
    same = (
        one
        for one in shipped
        if one.diameter_mm == float(offer.diameter_mm) and one.length_mm == offer.length_mm
    )
    return next(same, None)


def _with_shipped_screws(own: tuple[Screw, ...], shipped: Sequence[Screw]) -> tuple[Screw, ...]:
    if not own:
        return ()
    sizes = {(one.diameter_mm, one.length_mm) for one in own}
    rest = (one for one in shipped if (one.diameter_mm, one.length_mm) not in sizes)
    return (*own, *rest)


def _with_shipped(own: tuple[Hardware, ...], shipped: Sequence[Hardware]) -> tuple[Hardware, ...]:
    return (*own, *(one for one in shipped if one.kind != "tnut")) if own else ()
