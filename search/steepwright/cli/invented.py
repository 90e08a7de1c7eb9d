"""Telling beside the costs which money is priced from the shipped example, not by a yard."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from steepwright.cli.console import out


def example_cents(document: dict[str, Any], design: dict[str, Any]) -> int:
    """Return what of a wall's cost is priced from the shipped example [cents].

    It goes by the yard that the bill names for each article, so it holds for tables that the
    example stands in for and for articles taken over from it. 0 where the whole catalogue is the
    example's.
    """
    return sum(line["amount_cents"] for line in _lines(document, design))


def print_example_money(document: dict[str, Any], designs: list[dict[str, Any]]) -> None:
    """Print for each wall shown what of its cost is invented, and for what; nothing if nothing."""
    from steepwright.units import money

    cents = {design["id"]: example_cents(document, design) for design in designs}
    touched = {name: sum_cents for name, sum_cents in cents.items() if sum_cents}
    if not touched:
        return
    out(
        "Invented prices: what your catalogue lacks is priced from the shipped example, not by"
        " your yard. Get real prices for it before you rely on the cost:"
    )
    for design in designs:
        if design["id"] not in touched:
            continue
        whole = money(design["cost_cents"], document["currency"])
        what = ", ".join(dict.fromkeys(line["sku"] for line in _lines(document, design)))
        out(f"  {design['id']}: {money(touched[design['id']])} of {whole} ({what})")
    out()


def _lines(document: dict[str, Any], design: dict[str, Any]) -> Iterator[dict[str, Any]]:
    examples = _example_names()
    if document.get("catalog", {}).get("name") in examples:
        return
    bill: Iterable[dict[str, Any]] = design.get("bill", ())
    for line in bill:  # what a trip or a delivery costs is told in the room file
        if line["yard"] in examples and line["amount_cents"] and line["group"] != "charges":
            yield line


def _example_names() -> set[str]:
    from steepwright.catalog.heading import read_heading
    from steepwright.findings import Findings
    from steepwright.resources import shipped_catalog_dirs

    headings = (read_heading(folder, Findings()) for folder in shipped_catalog_dirs())
    return {heading.name for heading in headings if heading}
