"""What a room file names must exist in the catalogue that it is read with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from steepwright.catalog.types import Catalog
from steepwright.findings import Finding, Findings, nearest
from steepwright.room.lines import KeyPath
from steepwright.room.problems import Source
from steepwright.room.syntax import Document, parse_toml, read_text, show
from steepwright.room.types import Room


def check_with_catalog(room: Room, catalog: Catalog) -> None:
    """Check the names that a room file takes from its catalogue.

    Raises
    ------
    InputError
        With a finding for each beam's strength class, sheet kind, offcut or least thickness
        that the catalogue does not know.
    """
    findings = Findings(list(_unknown_names(room, catalog, _source(room))))
    findings.raise_if_errors(f"The room file {room.file or room.name}")


def _source(room: Room) -> Source:
    """Return where the room's keys stand; without lines when it came from no file."""
    nowhere = Findings()
    text = read_text(Path(room.file), "room file", nowhere) if room.file else None
    document = parse_toml(text, room.file, nowhere) if text is not None else None
    return Source(room.file, document or Document({}))


def _unknown_names(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    classes, panels = catalog.materials.timber_classes, catalog.materials.panels.values()
    sold = {sheet.kind for sheet in catalog.sheets}
    kinds = {(p.kind, p.thickness_mm) for p in panels}
    kinds |= {(s.kind, s.thickness_mm) for s in catalog.sheets}
    for place, beam in enumerate(room.beams):
        if beam.grade is not None and beam.grade not in classes:
            path: KeyPath = ("beams", place, "grade")
            yield _unknown(path, "strength class", beam.grade, [*classes, "unknown"], source)
    usable = sold | {offcut.kind for offcut in room.yard.offcuts}
    for place, kind in enumerate(room.wall.sheet_kinds):
        if kind not in usable:
            yield _unknown(("wall", "sheet_kinds", place), "kind of sheet", kind, usable, source)
    for place, offcut in enumerate(room.yard.offcuts):
        path = ("yard", "offcuts", place)
        same = [thickness for kind, thickness in sorted(kinds) if kind == offcut.kind]
        if not same:
            names = {kind for kind, _ in kinds}
            yield _unknown((*path, "kind"), "kind of sheet", offcut.kind, names, source)
        elif offcut.thickness_mm not in same:
            yield _no_thickness((*path, "thickness_mm"), offcut.thickness_mm, same, source)
    thickest = max((sheet.thickness_mm for sheet in catalog.sheets), default=0)
    if room.wall.min_thickness_mm > thickest:
        yield source.finding(
            ("wall", "min_thickness_mm"),
            "too-thick",
            "the catalogue has no sheet as thick as this",
            seen=str(room.wall.min_thickness_mm),
            expected=f"at most {thickest}, the thickest sheet on offer",
            next_step="Lower it, or take another catalogue.",
        )


def _unknown(path: KeyPath, what: str, seen: str, known: Iterable[str], source: Source) -> Finding:
    near = nearest(seen, known)
    return source.finding(
        path,
        "unknown-name",
        f"the catalogue knows no {what} of this name",
        seen=show(seen),
        expected="one of " + ", ".join(sorted(known)),
        next_step=f"Did you mean {near}?" if near else "Take a name from the list.",
    )


def _no_thickness(path: KeyPath, seen: int, known: list[int], source: Source) -> Finding:
    return source.finding(
        path,
        "unknown-thickness",
        "the catalogue has no strength values for this kind in this thickness",
        seen=str(seen),
        expected="one of " + ", ".join(str(thickness) for thickness in known),
        next_step="Measure the offcut again, or leave it out.",
    )
