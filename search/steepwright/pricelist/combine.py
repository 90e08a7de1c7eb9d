"""Readings of one or more yards' lists -> one catalogue that search takes."""

from __future__ import annotations

from collections.abc import Sequence

from steepwright.catalog.heading import shipped_in
from steepwright.catalog.materials import read_materials
from steepwright.catalog.read import read_catalog
from steepwright.catalog.types import Catalog, SheetProduct, TimberProduct
from steepwright.errors import InputError
from steepwright.pricelist.fill import Filler, filled
from steepwright.pricelist.lists_file import LISTS_FILE
from steepwright.pricelist.offers import SheetOffer, TimberOffer
from steepwright.pricelist.parts import SmallParts, small_parts
from steepwright.pricelist.reading import PriceListReading

_LONGEST_NOTE = 20_000


def to_catalog(
    readings: Sequence[PriceListReading],
    name: str = "",
    trips_cents: Sequence[int] = (),
    filler: Filler | None = None,
) -> Catalog:
    """Return the offers of one or more lists as one catalogue.

    The list's own codes stay where they are unique; with several yards each code carries the
    yard's number.

    Parameters
    ----------
    trips_cents
        Per list, what one trip to its yard costs [cents].
    filler
        Another catalogue, from which comes whatever the lists don't sell.

    Raises
    ------
    InputError
        When no list is given, none has an offer, or their currencies differ.
    """
    _check(readings)
    several = len(readings) > 1
    sheets: list[SheetProduct] = []
    timber: list[TimberProduct] = []
    for number, one in enumerate(readings, start=1):
        mark = f"{number}:" if several else ""
        sheets += [_sheet(offer, mark, one.yard) for offer in one.sheets]
        timber += [_bar(offer, mark, one.yard) for offer in one.timber]
    base = filler.catalog if filler else shipped_for(readings)
    small = small_parts(readings, base)
    sellers = {row.yard for row in sheets} | {row.yard for row in timber}
    sellers |= {row.yard for row in small.screws} | {row.yard for row in small.hardware}
    trips = zip((one.yard for one in readings), trips_cents, strict=bool(trips_cents))
    made = Catalog(
        name=name or " + ".join(one.yard for one in readings),
        currency=readings[0].currency,
        date=min(one.date for one in readings),
        note=_note(readings, _borrowed(small, base, readings)),
        sheets=tuple(sheets),
        timber=tuple(timber),
        screws=small.screws,
        mounts=(),
        hardware=small.hardware,
        materials=read_materials(),
        findings=tuple(finding for one in readings for finding in one.findings),
        vat="excluded" if all(one.is_untaxed for one in readings) else "included",
        trips=tuple((yard, cost) for yard, cost in trips if cost and yard in sellers),
    )
    return filled(made, filler)[0] if filler else made


def shipped_for(readings: Sequence[PriceListReading]) -> Catalog:
    """Return the shipped catalogue that small parts which no list sells are taken from."""
    return read_catalog(shipped_in(readings[0].currency))


def _borrowed(small: SmallParts, base: Catalog, readings: Sequence[PriceListReading]) -> str:
    """Return what must be known of the small parts that are not from the lists."""
    own = {one.yard for one in readings}
    yards = {row.yard for row in small.screws} | {row.yard for row in small.hardware}
    if yards <= own:
        return ""
    text = f"screws and hardware that the lists don't sell are those of {base.name} of {base.date}"
    if base.currency != readings[0].currency:
        text += (
            f", whose prices in {base.currency} count one to one as {readings[0].currency}, "
            "which makes totals wrong"
        )
    return f"{text}; {base.note}" if base.note else text


def _check(readings: Sequence[PriceListReading]) -> None:
    if not readings:
        message = "no price list was given"
        raise InputError(message)
    currencies = sorted({one.currency for one in readings})
    if len(currencies) > 1:
        message = f"the lists are in different currencies ({', '.join(currencies)})"
        raise InputError(message)
    yards = [one.yard for one in readings]
    if len(set(yards)) < len(yards):
        message = "two lists have the same yard's name; give each its own with --yard"
        raise InputError(message)
    if not any(one.sheets or one.timber for one in readings):
        message = "no row of the list gave a sheet or a bar that can be used"
        raise InputError(message, tuple(f for one in readings for f in one.findings))


def _sheet(offer: SheetOffer, mark: str, yard: str) -> SheetProduct:
    return SheetProduct(
        mark + offer.sku,
        offer.name,
        offer.kind,
        offer.panel,
        offer.thickness_mm,
        offer.length_mm,
        offer.width_mm,
        offer.face_grain,
        offer.price_cents,
        offer.limit,
        yard,
    )


def _bar(offer: TimberOffer, mark: str, yard: str) -> TimberProduct:
    return TimberProduct(
        mark + offer.sku,
        offer.name,
        offer.width_mm,
        offer.depth_mm,
        offer.length_mm,
        offer.strength_class,
        offer.surface,
        offer.price_cents,
        offer.limit,
        yard,
    )


def _note(readings: Sequence[PriceListReading], borrowed: str) -> str:
    """Return what the report should say of the lists: file, date, VAT, every assumption."""
    parts = []
    for one in readings:
        told = "; ".join(finding.message for finding in one.assumptions)
        text = f"{one.yard}: list {one.file} of {one.date}; {one.vat}"
        parts.append(f"{text}; assumed: {told}" if told else text)
    note = " | ".join((*parts, borrowed) if borrowed else parts)
    return (
        note
        if len(note) <= _LONGEST_NOTE
        else note[: _LONGEST_NOTE - 30] + f" ... see {LISTS_FILE}"
    )
