"""What a room that is checked by the NDS can't have in it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from steepwright.catalog.types import Catalog
from steepwright.findings import Finding
from steepwright.room.lines import KeyPath
from steepwright.room.problems import Source
from steepwright.room.syntax import show
from steepwright.room.types import Room

_BY_EN = ("frame", "ledger")
"""Kinds of place whose timber and joints have no rules of the NDS here."""


def classes_of(room: Room, catalog: Catalog) -> Collection[str]:
    """Return the names of the strength classes that the room's design code knows."""
    materials = catalog.materials
    return materials.nds_lumber if room.code == "NDS" else materials.timber_classes


def not_graded(path: KeyPath, grade: str, known: Iterable[str], source: Source) -> Finding:
    """Return what is told of a grade that the NDS has no values of."""
    return source.finding(
        path,
        "nds-grade",
        "the room is checked by the NDS, and no reference design values of this grade are known",
        seen=show(grade),
        expected="one of " + ", ".join(sorted(known)) + ', or "unknown"',
        next_step='Have it graded, or write code = "EN 1995" in [room].',
    )


def not_of_the_nds(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Tell where a room that is checked by the NDS asks for what isn't."""
    if room.code != "NDS":
        return
    sold = {bar.strength_class for bar in catalog.timber}
    if sold and sold.isdisjoint(catalog.materials.nds_lumber):
        yield source.finding(
            ("room", "code"),
            "nds-grade",
            "the catalogue sells no lumber of which NDS reference design values are known",
            seen=", ".join(sorted(sold)),
            expected="one of " + ", ".join(sorted(catalog.materials.nds_lumber)),
            next_step='Take a North American catalogue, or write code = "EN 1995".',
        )
    other = sorted({beam.kind for beam in room.beams if beam.kind in _BY_EN})
    if other:
        yield source.finding(
            ("room", "code"),
            "nds-place",
            "freestanding frames and ledgers are checked by EN 1995 only",
            seen=f"NDS, with a {' and a '.join(other)}",
            expected="beams, joists, slabs and timbers under joists ([[spreaders]]), or EN 1995",
            next_step="Hang the wall from a timber under the ceiling joists by [[spreaders]]"
            f' instead of the {" and the ".join(other)}, or write code = "EN 1995".',
        )
