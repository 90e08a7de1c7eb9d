"""Measures on stdout in the room's units."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from steepwright.imperial import in_feet


def teller_of(document: dict[str, Any]) -> Callable[[str], str]:
    """Return what turns the measures of a sentence into the units of the document's room."""
    if document.get("room", {}).get("units") != "inch":
        return str
    from steepwright.report.words import product_names

    names = product_names(document)
    return lambda text: in_feet(text, names)
