"""A catalogue's folder -> `Catalog`; every problem of every file is told at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path

from steepwright.catalog.crosscheck import Placed, doubles, materials_of
from steepwright.catalog.gaps import gaps, stand_in
from steepwright.catalog.heading import Heading, read_heading, shipped_in
from steepwright.catalog.materials import read_materials
from steepwright.catalog.rows import (
    CATALOG_FILES,
    HARDWARE,
    MOUNTS,
    SCREWS,
    SHEETS,
    TIMBER,
    YARD_FILE,
    Record,
    Table,
    make_records,
)
from steepwright.catalog.tables import read_table
from steepwright.catalog.trips import read_trips
from steepwright.catalog.types import Catalog
from steepwright.findings import Finding, Findings
from steepwright.resources import shipped_catalog_dir
from steepwright.units import tax_name


def read_catalog(folder: Path | None = None, *, whole: bool = True) -> Catalog:
    """Return a yard's catalogue with the shipped materials.

    Parameters
    ----------
    folder
        Holds ``yard.toml``, ``sheets.csv`` and ``timber.csv``, and if the yard sells them
        ``screws.csv``, ``mounts.csv`` and ``hardware.csv``; where one of these is missing a
        shipped example's rows are used, that in the same currency if there is one, and the
        catalogue's findings say so. ``trips.csv`` may say what one trip to each yard costs. None
        means the shipped example.
    whole
        False leaves a missing table empty, whichever it is.

    Raises
    ------
    InputError
        When anything in the folder is wrong; it lists every problem with file, line and column.
    """
    place = shipped_catalog_dir() if folder is None else Path(folder)
    job = _Reading(place, whole)
    if not place.is_dir():
        job.problems.add(_no_folder(place))
        job.problems.raise_if_errors("The catalogue")
    heading = job.heading = read_heading(place, job.problems)
    sheets, timber = job.table(SHEETS), job.table(TIMBER)
    screws, mounts, hardware = job.table(SCREWS), job.table(MOUNTS), job.table(HARDWARE)
    trips = read_trips(place, {item.record.yard for item in job.placed}, job.problems)
    materials = read_materials()
    job.problems.extend(doubles(job.placed))
    job.problems.extend(materials_of(job.placed, materials))
    job.problems.extend(_nothing_in_stock(place, sheets, timber))
    job.problems.raise_if_errors(f"The catalogue {place}")
    assert heading is not None, "a missing heading is an error, which was raised above"
    job.problems.extend(_heading_findings(place, heading))
    catalog = Catalog(
        name=heading.name,
        currency=heading.currency,
        date=heading.date,
        note=heading.note,
        sheets=sheets,
        timber=timber,
        screws=screws,
        mounts=mounts,
        hardware=hardware,
        materials=materials,
        vat=heading.vat,
        trips=trips,
    )
    if whole:
        job.problems.extend(gaps(catalog, place))
    return replace(catalog, findings=job.problems.sorted())


@dataclass(slots=True)
class _Reading:
    """One run of `read_catalog`: what was found so far."""

    folder: Path
    whole: bool = True
    heading: Heading | None = None
    problems: Findings = field(default_factory=Findings)
    placed: list[Placed] = field(default_factory=list)

    def table(self, table: Table[Record]) -> tuple[Record, ...]:
        """Return the records of one file, or the shipped ones when it may be missing and is."""
        path, heading = self.folder / table.file, self.heading
        if not self.whole and not path.exists():
            return ()
        if not table.needed and not path.exists():
            shipped = shipped_in(heading.currency if heading else "")
            path, heading = shipped / table.file, read_heading(shipped, self.problems)
            self.problems.extend(stand_in(self.folder, table.file, self.heading, heading))
        required, optional = table.row.required(), table.row.optional()
        rows = read_table(path, required, optional, self.problems) or ()
        records = make_records(table, path, rows, heading.name if heading else "", self.problems)
        self.placed.extend(Placed(path, line, record) for line, record in records)
        return tuple(record for _, record in records)


def _no_folder(place: Path) -> Finding:
    return Finding(
        "catalog-no-folder",
        "error",
        "this is a file, not a folder" if place.exists() else "there is no such folder",
        str(place),
        expected=f"a folder with {', '.join(CATALOG_FILES[:3])}",
        next_step="'steepwright new' writes one to start from; a yard's own list becomes one "
        "with 'steepwright prices'",
    )


def _nothing_in_stock(folder: Path, *tables: Iterable[object]) -> Iterable[Finding]:
    for file, records in zip((SHEETS.file, TIMBER.file), tables, strict=True):
        rows = tuple(records)
        if rows and all(getattr(row, "limit", None) == 0 for row in rows):
            yield Finding(
                "catalog-no-stock",
                "error",
                "every article is out of stock",
                str(folder / file),
                key="limit",
                seen="0 in every row",
                expected="at least one article that can be bought",
                next_step="leave the cell blank when any number can be bought",
            )


def _heading_findings(folder: Path, heading: Heading) -> Iterable[Finding]:
    if heading.vat == "excluded":
        yield Finding(
            "catalog-without-vat",
            "assumption",
            f"the prices are without {tax_name(heading.currency)}, so every total is too",
            str(folder / YARD_FILE),
            key="vat",
        )
