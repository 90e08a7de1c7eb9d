"""The bill, the unit prices it rests on, and what other prices would make of the designs."""

from __future__ import annotations

import re
from collections.abc import Mapping
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


@dataclass(frozen=True, slots=True)
class Repriced:
    """The designs at other prices.

    Attributes
    ----------
    cost_cents
        By design id, in the document's order.
    front
        The ids that no other design of the document beats at these prices.
    least_ratio
        The smallest of 1 and every article's new price over its old one. No wall, in the
        document or not, can cost less than this times what it cost before: a bill is a sum of
        quantities times prices, and its cheapest form can't fall faster than its prices.
    """

    cost_cents: Mapping[str, int]
    front: tuple[str, ...]
    least_ratio: float


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


def reprice(document: Document, new_cents: Mapping[str, int]) -> Repriced:
    """Return the document's designs at new unit prices [cents] by article; others stay."""
    costs = {
        design["id"]: sum(
            line["quantity"] * new_cents.get(line["sku"], line["unit_cents"])
            for line in design["bill"]
        )
        for design in document["designs"]
    }
    ratios = [
        new_cents[line.sku] / line.unit_cents
        for line in price_lines(document)
        if line.sku in new_cents and line.unit_cents
    ]
    return Repriced(costs, _front(document, costs), min([1.0, *ratios]))


def _front(document: Document, costs: Mapping[str, int]) -> tuple[str, ...]:
    """Of designs with equal scores the first stays, as in the search."""
    scores = [
        (costs[d["id"]], -int(d["angle_deg"] * 1000 + 1e-6), -d["fall_space_mm"], index, d["id"])
        for index, d in enumerate(document["designs"])
    ]
    kept: list[tuple[int, int, int]] = []
    ids: list[tuple[int, str]] = []
    for *score, index, name in sorted(scores):
        if not any(all(a <= b for a, b in zip(k, score, strict=True)) for k in kept):
            kept.append((score[0], score[1], score[2]))
            ids.append((index, name))
    return tuple(name for _, name in sorted(ids))
