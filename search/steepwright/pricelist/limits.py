"""Caps on what a price list may cost to read; values and reasons in catalogs/pricelist."""

from __future__ import annotations

import csv
from functools import cache

from steepwright.resources import catalogs_dir


@cache
def _limits() -> dict[str, int]:
    path = catalogs_dir() / "pricelist" / "limits.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {row["key"]: int(row["value"]) for row in csv.DictReader(stream)}


def limit(key: str) -> int:
    """Return one cap by its key in ``limits.csv``; its unit stands beside it there."""
    return _limits()[key]
