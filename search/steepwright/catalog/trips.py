"""``trips.csv``: what one trip to each yard costs."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from pathlib import Path

from pydantic import BaseModel, ConfigDict, ValidationError

from steepwright.catalog.columns import Price, Text
from steepwright.catalog.rows import TRIPS_FILE, did_you_mean, row_findings
from steepwright.catalog.tables import read_table
from steepwright.findings import Finding, Findings


class TripRow(BaseModel):
    """A row of ``trips.csv``; a price of 0 is a yard that costs nothing to go to."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    yard: Text
    price: Price


def read_trips(
    folder: Path, yards: Collection[str], problems: Findings
) -> tuple[tuple[str, int], ...]:
    """Return (yard, price [cents]) per row of a catalogue's ``trips.csv``; none without the file.

    Parameters
    ----------
    yards
        The yards that sell anything; a row for another one is an error.
    problems
        Takes the findings.
    """
    path = folder / TRIPS_FILE
    if not path.exists():
        return ()
    lines: dict[str, int] = {}
    trips = []
    for row in read_table(path, tuple(TripRow.model_fields), (), problems) or ():
        try:
            trip = TripRow.model_validate(dict(row.cells), context=TRIPS_FILE)
        except ValidationError as error:
            problems.extend(row_findings(error, path, row))
            continue
        problems.extend(_misplaced(path, row.line, trip.yard, lines, yards))
        lines.setdefault(trip.yard, row.line)
        trips.append((trip.yard, trip.price))
    return tuple(trips)


def _misplaced(
    path: Path, line: int, yard: str, lines: dict[str, int], yards: Collection[str]
) -> Iterable[Finding]:
    if yard in lines:
        yield Finding(
            "catalog-double-trip",
            "error",
            f"this yard already has a trip price in line {lines[yard]}",
            str(path),
            line,
            "yard",
            seen=yard,
            expected="one row per yard",
            next_step="remove one of the two rows",
        )
    if yard not in yards:
        yield Finding(
            "catalog-unknown-yard",
            "error",
            "no article of the catalogue is sold by this yard",
            str(path),
            line,
            "yard",
            seen=yard,
            expected="one of " + ", ".join(sorted(yards)),
            next_step=did_you_mean(yard, sorted(yards)) or "remove the row",
        )
