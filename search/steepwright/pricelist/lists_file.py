"""The file beside a catalogue that says which lists it came from, and what was assumed."""

from __future__ import annotations

import json
from collections.abc import Sequence

from steepwright.findings import Finding
from steepwright.pricelist.reading import PriceListReading
from steepwright.units import money

LISTS_FILE = "lists.toml"
_HEAD = """\
# The price lists that this catalogue was read from, by 'steepwright prices'. trip_price is what one
# trip to the yard costs.
"""
_PASSING = ("price-list-old", "price-list-kept-answers")
"""Findings about the day of reading, which say nothing of the list."""


def lists_text(readings: Sequence[PriceListReading], trips_cents: Sequence[int]) -> dict[str, str]:
    """Return the file as name and text, to be written beside the catalogue's own files."""
    parts = [_HEAD]
    for one, trip in zip(readings, trips_cents, strict=True):
        told = [_line(finding) for finding in one.findings if finding.code not in _PASSING]
        parts.append(
            "\n[[list]]\n"
            f"yard = {_toml(one.yard)}\n"
            f"file = {_toml(one.file)}\n"
            f"date = {_toml(one.date)}\n"
            f"currency = {_toml(one.currency)}\n"
            f"vat = {_toml(one.vat)}\n"
            f"trip_price = {_toml(money(trip))}\n"
            f"assumptions = [{''.join(f'{chr(10)}  {_toml(line)},' for line in told)}\n]\n"
        )
    return {LISTS_FILE: "".join(parts)}


def _line(finding: Finding) -> str:
    step = f" ({finding.next_step})" if finding.next_step else ""
    return f"{finding.message}{step}"


def _toml(text: str) -> str:
    """Return a TOML basic string; JSON's escapes are a subset of TOML's but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
