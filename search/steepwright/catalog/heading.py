"""`yard.toml`: whose prices these are, in what money, of what day."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

from steepwright.catalog.rows import YARD_FILE, did_you_mean
from steepwright.catalog.tables import read_text
from steepwright.catalog.toml_text import toml_data
from steepwright.findings import Finding, Findings
from steepwright.resources import shipped_catalog_dir, shipped_catalog_dirs

Vat = Literal["included", "excluded"]


@dataclass(frozen=True, slots=True)
class Heading:
    """What ``yard.toml`` says."""

    name: str
    currency: str
    date: str
    vat: Vat
    note: str


def _a_date(value: str) -> bool:
    try:
        return datetime.date.fromisoformat(value).isoformat() == value
    except ValueError:
        return False


_RULES: dict[str, tuple[str, Callable[[str], bool]]] = {
    "name": ("a text", lambda value: bool(value.strip())),
    "currency": ("three capital letters like EUR", lambda v: bool(re.fullmatch("[A-Z]{3}", v))),
    "date": ("a day like 2026-11-01", _a_date),
    "vat": ("included or excluded", lambda value: value in ("included", "excluded")),
    "note": ("a text", lambda _: True),
}


def read_heading(folder: Path, problems: Findings) -> Heading | None:
    """Return what ``yard.toml`` says, or None with findings when it is missing or wrong."""
    path = folder / YARD_FILE
    text = read_text(path, problems)
    if text is None:
        return None
    try:
        values = toml_data(text)
    except ValueError as error:
        problems.add(_syntax(path, str(error)))
        return None
    found = [*_unknown(path, values), *_wrong(path, values)]
    problems.extend(found)
    if found:
        return None
    return Heading(**{key: str(values.get(key, "")).strip() for key in _RULES})  # type: ignore[arg-type]


@cache
def shipped_in(currency: str) -> Path:
    """Return the shipped yard whose prices are in a currency, the example where none has it."""
    headings = [(folder, read_heading(folder, Findings())) for folder in shipped_catalog_dirs()]
    alike = (folder for folder, heading in headings if heading and heading.currency == currency)
    return next(alike, shipped_catalog_dir())


def _syntax(path: Path, message: str) -> Finding:
    place = re.search(r"line (\d+)", message)
    line = int(place.group(1)) if place else 0
    step = 'a text stands between double quotes, like name = "My yard"'
    return Finding("catalog-toml", "error", message, str(path), line, next_step=step)


def _unknown(path: Path, values: dict[str, Any]) -> list[Finding]:
    return [
        Finding(
            "catalog-unknown-key",
            "error",
            "this key is not known",
            str(path),
            key=key,
            expected=f"one of {', '.join(_RULES)}",
            next_step=did_you_mean(key, _RULES) or "remove it",
        )
        for key in values
        if key not in _RULES
    ]


def _wrong(path: Path, values: dict[str, Any]) -> list[Finding]:
    found = []
    for key, (expected, holds) in _RULES.items():
        value = values.get(key)
        if key == "date" and isinstance(value, datetime.date):
            value = values[key] = value.isoformat()
        if value is None and key != "note":
            message, seen = "this key is missing", ""
        elif value is not None and not (isinstance(value, str) and holds(value)):
            message, seen = "this value can't be used", str(value) or "an empty text"
        else:
            continue
        place = Finding("catalog-heading", "error", message, str(path), 0, key, seen, expected)
        found.append(place)
    return found
