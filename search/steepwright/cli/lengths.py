"""Measures on stdout in the room's units."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from steepwright.imperial import in_feet


def measured_as(units: str) -> Callable[[str], str]:
    """Return what turns the measures of a sentence without names into a room's units."""
    return in_feet if units == "inch" else str


def teller_of(document: dict[str, Any]) -> Callable[[str], str]:
    """Return what turns the measures of a sentence into the units of the document's room."""
    if document.get("room", {}).get("units") != "inch":
        return str
    from steepwright.report.words import product_names, renamed, sections

    names, studs = product_names(document), sections(document)
    return lambda text: renamed(in_feet(text, names), studs)
