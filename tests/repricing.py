"""What other prices make of a document's designs, as the page works it out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from steepwright.report.views.prices import price_lines
from steepwright.report.words import Document


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
