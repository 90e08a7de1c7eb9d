"""A reading in tables, lines and plain data: what was understood, assumed, asked and left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from steepwright.pricelist.context import rows_text
from steepwright.pricelist.offers import HardwareOffer, Offer, SheetOffer
from steepwright.pricelist.pieces import named
from steepwright.pricelist.reading import PriceListReading
from steepwright.units import money, tax_name

Columns = Sequence[tuple[str, bool]]
Rows = Sequence[Sequence[str]]
_MOST_OFFERS = 40
_MOST_HEADERS = 6


def tables(reading: PriceListReading) -> list[tuple[str, Columns, Rows]]:
    """Return the tables of a reading: title, columns (with whether they hold numbers), rows."""
    found = [_summary(reading)]
    if reading.offers:
        found.append(_offers(reading))
    if reading.bands:
        found.append(_bands(reading))
    if reading.left_out:
        found.append(_left_out(reading))
    if reading.assumptions:
        found.append(_assumptions(reading))
    return found


def _summary(reading: PriceListReading) -> tuple[str, Columns, Rows]:
    counts = reading.counts
    asks_vat = any(one.key in ("prices", "vat") for one in reading.blocking)
    rows = [
        ("header taken from", _headers(reading)),
        ("rows read", str(counts.read)),
        ("rows used", str(counts.used)),
        ("rows left out", str(counts.left_out)),
        ("headings, titles, notes", str(counts.headings)),
        ("sheets on offer", str(len(reading.sheets))),
        ("bars on offer", str(len(reading.timber))),
        ("hardware on offer", str(len(reading.hardware))),
        ("currency", reading.currency or "not known"),
        ("date", reading.date),
        (tax_name(reading.currency), "see the questions" if asks_vat else reading.vat),
    ]
    rows += [
        (f"{one.kind} charge", money(one.price_cents, reading.currency)) for one in reading.charges
    ]
    return f"{reading.file} ({reading.yard})", (("what", False), ("value", False)), rows


def _headers(reading: PriceListReading) -> str:
    """Return the rows that headers were taken from, by sheet."""
    parts = []
    for sheet, first, last in reading.header_rows[:_MOST_HEADERS]:
        rows = f"row {first}" if first == last else f"rows {first} to {last}"
        parts.append(f"{sheet + ': ' if sheet else ''}{rows if first else 'your column map'}")
    more = len(reading.header_rows) - _MOST_HEADERS
    return ", ".join(parts) + (f" and {more} more" if more > 0 else "") or "none found"


def _offers(reading: PriceListReading) -> tuple[str, Columns, Rows]:
    rows = [
        (
            str(one.row),
            one.sku,
            _what(one),
            f"{one.price.printed:f}",
            one.price.basis,
            money(one.price_cents),
        )
        for one in reading.offers[:_MOST_OFFERS]
    ]
    more = len(reading.offers) - len(rows)
    if more > 0:
        rows.append(("", "", f"and {more} more", "", "", ""))
    columns = (
        ("row", True),
        ("code", False),
        ("understood as", False),
        ("printed", True),
        ("for", False),
        ("each" if reading.is_untaxed else f"each, with {tax_name(reading.currency)}", True),
    )
    return "offers", columns, rows


def _what(offer: Offer) -> str:
    if isinstance(offer, SheetOffer):
        return (
            f"{offer.kind} {offer.thickness_mm} mm, {offer.length_mm} x {offer.width_mm}, "
            f"grain along {offer.length_mm if offer.face_grain == 'length' else offer.width_mm}"
        )
    if isinstance(offer, HardwareOffer):
        sold = f"pack of {offer.pack_quantity}" if offer.pack_quantity > 1 else "one"
        return f"{named(offer)}, {sold}"
    surface = "of unsaid surface" if offer.surface == "not said" else offer.surface
    return (
        f"bar {offer.width_mm} x {offer.depth_mm} {offer.strength_class} {surface}, "
        f"{offer.length_mm} mm"
    )


def _bands(reading: PriceListReading) -> tuple[str, Columns, Rows]:
    rows = [
        (
            one.family,
            str(one.count),
            str(one.low),
            str(one.middle),
            str(one.high),
            f"{one.least} to {one.most}",
            one.verdict,
            one.cure,
        )
        for one in reading.bands
    ]
    columns = (
        ("family", False),
        ("offers", True),
        ("lowest", True),
        ("median", True),
        ("highest", True),
        ("usual", True),
        ("verdict", False),
        ("would be cured by", False),
    )
    return f"{reading.currency or 'money'} per m3", columns, rows


def _left_out(reading: PriceListReading) -> tuple[str, Columns, Rows]:
    several = len({one.sheet for one in reading.left_out}) > 1
    groups: dict[str, dict[str, None]] = defaultdict(dict)
    for one in reading.left_out:
        place = f"{one.sheet} {one.row}" if several else str(one.row)
        groups[one.reason][place] = None
    rows = [
        (reason, str(len(places)), _short(tuple(places)))
        for reason, places in sorted(groups.items(), key=lambda pair: (-len(pair[1]), pair[0]))
    ]
    return "left out", (("why", False), ("rows", True), ("which", False)), rows


def _short(places: tuple[str, ...]) -> str:
    """Return row names as a list that ends where it gets too long."""
    return rows_text(places).strip(" ()").removeprefix("rows ").removeprefix("row ")


def _assumptions(reading: PriceListReading) -> tuple[str, Columns, Rows]:
    rows = [(one.message, one.next_step, one.code) for one in reading.assumptions]
    return "assumed", (("what", False), ("how to settle it", False), ("code", False)), rows


def problems(reading: PriceListReading) -> list[str]:
    """Return the lines for stderr: warnings, then questions with the flags that answer them."""
    lines = [one.text() for one in reading.findings if one.severity != "assumption"]
    for question in reading.questions:
        kind = "question" if question.blocks else "open (its rows are left out)"
        rows = rows_text(list(question.rows))
        lines.append(f"{reading.file}: {kind}: {question.text}{rows}; answer with {question.flag}")
    return lines


def document(reading: PriceListReading) -> dict[str, Any]:
    """Return a reading as plain data for JSON."""
    counts = reading.counts
    return {
        "file": reading.file,
        "yard": reading.yard,
        "header_rows": [list(one) for one in reading.header_rows],
        "currency": reading.currency,
        "date": reading.date,
        "vat": reading.vat,
        "rows": {
            "read": counts.read,
            "used": counts.used,
            "left_out": counts.left_out,
            "headings": counts.headings,
            "blank": counts.blanks,
        },
        "offers": [_plain(one) for one in reading.offers],
        "charges": [
            {"row": one.row, "kind": one.kind, "name": one.name, "price_cents": one.price_cents}
            for one in reading.charges
        ],
        "left_out": [
            {"sheet": one.sheet, "row": one.row, "reason": one.reason, "text": one.text}
            for one in reading.left_out
        ],
        "bands": [
            {
                "family": one.family,
                "offers": one.count,
                "low": one.low,
                "median": one.middle,
                "high": one.high,
                "least": one.least,
                "most": one.most,
                "verdict": one.verdict,
                "cure": one.cure,
            }
            for one in reading.bands
        ],
        "findings": [one.as_dict() for one in reading.findings],
        "questions": [one.as_dict() for one in reading.questions],
    }


def _plain(offer: Offer) -> dict[str, Any]:
    common = {
        "sheet": offer.sheet,
        "row": offer.row,
        "sku": offer.sku,
        "name": offer.name,
        "price_cents": offer.price_cents,
        "printed": f"{offer.price.printed:f}",
        "basis": offer.price.basis,
        "printed_with_vat": offer.price.has_vat,
        "tiers": [[count, f"{price:f}"] for count, price in offer.price.tiers],
    }
    if isinstance(offer, SheetOffer):
        return {
            "is": "sheet",
            **common,
            "kind": offer.kind,
            "panel": offer.panel,
            "thickness_mm": offer.thickness_mm,
            "length_mm": offer.length_mm,
            "width_mm": offer.width_mm,
            "face_grain": offer.face_grain,
            "limit": offer.limit,
        }
    if isinstance(offer, HardwareOffer):
        return {
            "is": "hardware",
            **common,
            "kind": offer.kind,
            "diameter_mm": float(offer.diameter_mm),
            "length_mm": offer.length_mm,
            "pack_quantity": offer.pack_quantity,
        }
    return {
        "is": "timber",
        **common,
        "width_mm": offer.width_mm,
        "depth_mm": offer.depth_mm,
        "length_mm": offer.length_mm,
        "strength_class": offer.strength_class,
        "surface": offer.surface,
        "limit": offer.limit,
    }
