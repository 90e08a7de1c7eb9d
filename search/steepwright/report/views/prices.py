"""The bill, and the unit prices it rests on."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from steepwright.report.words import Document

GROUPS = ("sheets", "timber", "hardware", "pads", "charges")

_PACK = re.compile(r" \((pack of (\d+) [^,]*)(?:, (\d+ needed.*))?\)$")


@dataclass(frozen=True, slots=True)
class BillLine:
    """One article: `what` as on the bill, `pack` what one unit of it holds."""

    sku: str
    what: str
    quantity: int
    unit_cents: int
    group: str
    yard: str


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One article's unit price, the same in every design."""

    sku: str
    what: str
    group: str
    yard: str
    unit_cents: int


def bill_lines(design: dict[str, Any]) -> tuple[BillLine, ...]:
    """Return the bill of one design in the order sheets, timber, hardware, charges."""
    lines = sorted(design["bill"], key=lambda line: GROUPS.index(line["group"]))
    return tuple(
        BillLine(
            sku=line["sku"],
            what=_needed(line["what"]),
            quantity=line["quantity"],
            unit_cents=line["unit_cents"],
            group=line["group"],
            yard=line["yard"],
        )
        for line in lines
    )


def price_lines(document: Document) -> tuple[PriceLine, ...]:
    """Return every article of every bill once, by group and name."""
    lines: dict[str, PriceLine] = {}
    for design in document["designs"]:
        for line in design["bill"]:
            what = _packed(line["what"])
            lines.setdefault(
                line["sku"],
                PriceLine(line["sku"], what, line["group"], line["yard"], line["unit_cents"]),
            )
    return tuple(sorted(lines.values(), key=lambda p: (GROUPS.index(p.group), p.what, p.sku)))


def _needed(what: str) -> str:
    """Say once how large a pack is, and not at all for single pieces."""
    found = _PACK.search(what)
    if not found:
        return what
    name = what[: found.start()]
    if found.group(2) == "1":
        return name
    said = re.search(rf"\b{found.group(2)}\b", name)
    told = [*([] if said else [found.group(1)]), *([found.group(3)] if found.group(3) else [])]
    return f"{name} ({', '.join(told)})" if told else name


def _packed(what: str) -> str:
    found = _PACK.search(what)
    if not found:
        return what
    name = what[: found.start()]
    said = found.group(2) == "1" or re.search(rf"\b{found.group(2)}\b", name)
    return name if said else f"{name}, {found.group(1)}"
