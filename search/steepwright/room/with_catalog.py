"""What a room file names must exist in the catalogue that it is read with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from steepwright.catalog.types import Catalog
from steepwright.findings import Finding, Findings, nearest
from steepwright.room.frames_sold import frames_not_sold
from steepwright.room.lines import KeyPath
from steepwright.room.problems import Source
from steepwright.room.spreader_ends import spreaders_too_long
from steepwright.room.syntax import Document, parse_toml, read_text, show
from steepwright.room.types import Offcut, Room
from steepwright.room.with_nds import classes_of, not_graded, not_of_the_nds


def check_with_catalog(room: Room, catalog: Catalog) -> None:
    """Check the names that a room file takes from its catalogue.

    Raises
    ------
    InputError
        With a finding for each beam's strength class, sheet kind, offcut or least thickness
        that the catalogue does not know, and for each thing of which it sells nothing.
    """
    findings = Findings([*_nothing_sold(catalog), *_unknown_names(room, catalog, _source(room))])
    findings.raise_if_errors(f"The room file {room.file or room.name}")


def _source(room: Room) -> Source:
    """Return where the room's keys stand; without lines when it came from no file."""
    nowhere = Findings()
    text = read_text(Path(room.file), "room file", nowhere) if room.file else None
    document = parse_toml(text, room.file, nowhere) if text is not None else None
    return Source(room.file, document or Document({}), inches=room.units == "inch")


def _unknown_names(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    classes, panels = classes_of(room, catalog), catalog.materials.panels.values()
    sold = {sheet.kind for sheet in catalog.sheets}
    kinds = {(p.kind, p.thickness_mm) for p in panels}
    kinds |= {(s.kind, s.thickness_mm) for s in catalog.sheets}
    for path, grade in _grades(room):
        if grade in catalog.materials.timber_classes and grade not in classes:
            yield not_graded(path, grade, classes, source)
        elif grade not in classes:
            yield _unknown(path, "strength class", grade, [*classes, "unknown"], source)
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
        elif finding := _ambiguous((*path, "panel"), offcut, catalog, source):
            yield finding
    yield from _thick_enough(room, catalog, source)
    yield from _dry_enough(room, catalog, source)
    yield from frames_not_sold(room, catalog, source)
    yield from spreaders_too_long(room, catalog, source)
    yield from not_of_the_nds(room, catalog, source)


def fits_service_class(room: Room, catalog: Catalog, panel: str) -> bool:
    """Return whether a panel may be used in the room's service class, EN 13986, EN 636, EN 300."""
    known = catalog.materials.panels.get(panel)
    return known is None or known.service_class >= room.service_class


def _dry_enough(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Refuse kinds that were asked for by name, or a catalogue of nothing else, in a damp room."""
    stock = [(s.kind, fits_service_class(room, catalog, s.panel)) for s in catalog.sheets]
    for offcut in room.yard.offcuts:
        stock += [
            (offcut.kind, fits_service_class(room, catalog, name))
            for name in panels_of(offcut, catalog)
        ]
    good = {kind for kind, fits in stock if fits}
    asked = [kind for kind in room.wall.sheet_kinds if kind in {name for name, _ in stock}]
    bad = [kind for kind in asked if kind not in good]
    if bad or (stock and not good):
        yield source.finding(
            ("room", "service_class"),
            "damp-sheet",
            "these sheets are for heated rooms only: in damper air their glue and wood let go",
            seen=f"{room.service_class}, with {', '.join(bad or sorted({k for k, _ in stock}))}",
            expected="sheets for service class 2: EN 636-2 or EN 636-3 plywood, OSB/3",
            next_step="Take another kind of sheet, or heat the room and write service_class = 1.",
        )


def _grades(room: Room) -> Iterator[tuple[KeyPath, str]]:
    """Yield every strength class that the file names and where: once for a row of joists."""
    rows: dict[str, list[str]] = {"beam": [], "joist": [], "slab": [], "frame": [], "ledger": []}
    rows["spreader"] = []
    for beam in room.beams:
        if beam.row not in rows[beam.kind]:
            rows[beam.kind].append(beam.row)
            if beam.grade is not None:
                yield (f"{beam.kind}s", len(rows[beam.kind]) - 1, "grade"), beam.grade


def _thick_enough(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Ask for a least thickness that the kinds asked for have, in sheets or in offcuts."""
    kinds = room.wall.sheet_kinds
    stock = [(s.kind, s.thickness_mm) for s in catalog.sheets]
    stock += [(s.kind, s.thickness_mm) for s in room.yard.offcuts]
    usable = [thickness for kind, thickness in stock if not kinds or kind in kinds]
    thickest = max(usable, default=0)
    if usable and room.wall.min_thickness_mm > thickest:
        what = f"no sheet of {', '.join(kinds)}" if kinds else "no sheet"
        which = " of these kinds" if kinds else ""
        yield source.finding(
            ("wall", "min_thickness_mm"),
            "too-thick",
            f"the catalogue has {what} as thick as this",
            seen=str(room.wall.min_thickness_mm),
            expected=f"at most {thickest}, the thickest sheet{which} on offer",
            next_step="Lower it, or take another catalogue."
            if not kinds
            else "Lower it, add a kind to sheet_kinds, or take another catalogue.",
        )


def _nothing_sold(catalog: Catalog) -> Iterator[Finding]:
    """Name the tables without which no wall can be made; a catalogue that was read has them."""
    needed: tuple[tuple[str, tuple[object, ...], str], ...] = (
        ("sheets", catalog.sheets, "a sheet"),
        ("timber", catalog.timber, "a bar"),
        ("mounts", catalog.mounts, "a mount"),
        ("screws", catalog.screws, "a screw"),
    )
    for table, rows, what in needed:
        if not rows:
            yield Finding(
                "catalog-nothing-sold",
                "error",
                f"the catalogue {catalog.name!r} sells nothing of this, so no wall can be made",
                key=table,
                seen="no rows",
                expected=f"at least {what}",
                next_step=f"Add rows to {table}.csv, or take another catalogue.",
            )


def _ambiguous(path: KeyPath, offcut: Offcut, catalog: Catalog, source: Source) -> Finding | None:
    """Ask for an offcut's panel where its kind and thickness leave more than one."""
    names = panels_of(offcut, catalog)
    if len(names) == 1:
        return None
    near = nearest(offcut.panel, _panels(offcut, catalog))
    return source.finding(
        path,
        "unknown-panel" if offcut.panel else "which-panel",
        "there is no such panel of this kind and thickness"
        if offcut.panel
        else "several panels are of this kind and thickness, and the offcut can be but one",
        seen=show(offcut.panel) if offcut.panel else "",
        expected="one of " + ", ".join(_panels(offcut, catalog)),
        next_step=f"Did you mean {near}?" if near else 'Write its panel: panel = "..."',
    )


def panels_of(offcut: Offcut, catalog: Catalog) -> tuple[str, ...]:
    """Return the ids of the panels that an offcut may be of: one, or it has to be asked for."""
    names = _panels(offcut, catalog)
    return tuple(name for name in names if offcut.panel in ("", name))


def _panels(offcut: Offcut, catalog: Catalog) -> tuple[str, ...]:
    panels = catalog.materials.panels.values()
    same = [p for p in panels if (p.kind, p.thickness_mm) == (offcut.kind, offcut.thickness_mm)]
    return tuple(sorted(panel.id for panel in same))


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
