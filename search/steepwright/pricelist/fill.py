"""What a list does not sell is taken from another catalogue, each row with its own yard's name."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol, TypeVar

from steepwright.catalog.heading import shipped_in
from steepwright.catalog.read import read_catalog
from steepwright.catalog.types import Catalog
from steepwright.errors import InputError
from steepwright.units import tax_name

SHIPPED = "shipped"
"""Name of the example catalogue that comes with the program, whose prices are invented."""
KINDS = ("sheets", "timber", "screws", "mounts", "hardware")
NEEDED = ("sheets", "timber")
"""Kinds that no shipped row stands in for when a catalogue is searched."""


class _Row(Protocol):
    sku: str
    yard: str


Record = TypeVar("Record", bound=_Row)


@dataclass(frozen=True, slots=True)
class Filler:
    """A catalogue to fill from, and what it is called in messages."""

    catalog: Catalog
    label: str


def read_filler(name: str, currency: str) -> Filler:
    """Return the catalogue to fill from: a folder, or the shipped example in a currency.

    Raises
    ------
    InputError
        When the folder is no catalogue.
    """
    if name == SHIPPED:
        return Filler(
            read_catalog(shipped_in(currency)), "the shipped example, whose prices are invented"
        )
    return Filler(read_catalog(Path(name), whole=False), f"the catalogue {name}")


def missing_kinds(catalog: Catalog) -> tuple[str, ...]:
    """Return the kinds of article that a search can't do without and the catalogue lacks."""
    return tuple(kind for kind in NEEDED if not getattr(catalog, kind))


def filled(catalog: Catalog, filler: Filler) -> tuple[Catalog, tuple[str, ...]]:
    """Return the catalogue with each kind that it lacks from another one, and those kinds.

    Raises
    ------
    InputError
        When the other catalogue counts in another currency, or one of both is without VAT.
    """
    other = filler.catalog
    kinds = tuple(k for k in KINDS if not getattr(catalog, k) and getattr(other, k))
    if not kinds:
        return catalog, ()
    if other.currency != catalog.currency:
        message = f"{filler.label} is in {other.currency}, the list in {catalog.currency}"
        raise InputError(message)
    if other.vat != catalog.vat:
        raise InputError(_tax_differs(filler, catalog))
    taken = {row.sku for kind in KINDS for row in getattr(catalog, kind)}
    rows = {kind: _own_codes(getattr(other, kind), taken) for kind in kinds}
    yards = {row.yard for kind in kinds for row in getattr(other, kind)}
    known = {yard for yard, _ in catalog.trips}
    trips = tuple(trip for trip in other.trips if trip[0] in yards - known)
    words = f"{', '.join(kinds)} from {filler.label}, prices of {other.date}"
    note = " | ".join(part for part in (catalog.note, words, other.note) if part)
    whole = replace(catalog, note=note, trips=(*catalog.trips, *trips), **rows)  # type: ignore[arg-type]
    return whole, kinds


def _tax_differs(filler: Filler, catalog: Catalog) -> str:
    """Return what is wrong when one of two catalogues is without VAT, and the next step."""
    name, vat = tax_name(catalog.currency), filler.catalog.vat
    step = (
        "if the list is without it too, read it with --vat 0 --prices-exclude-vat, and every total "
        "is without it"
        if vat == "excluded"
        else "read the list with --vat RATE --prices-exclude-vat, so that it is added, or with "
        "--prices-include-vat if nothing comes on top"
    )
    has = f"{filler.label} has its prices with {name} {vat}, the list has it {catalog.vat}"
    return f"{has}; {step}"


def _own_codes(rows: tuple[Record, ...], taken: set[str]) -> tuple[Record, ...]:
    """Return the rows, a code that is already taken marked as another yard's."""
    return tuple(replace(r, sku=f"+{r.sku}") if r.sku in taken else r for r in rows)  # type: ignore[type-var]
