"""Reading one wall that the builder already has in mind, from a small TOML or JSON file."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Annotated, Any

from pydantic import ValidationError

from steepwright.catalog.families import sheet_families, ties_on_offer, timber_sections
from steepwright.catalog.types import Catalog
from steepwright.findings import Finding, Findings, nearest
from steepwright.room.fields import Choice, Flag, Real, Text, Whole
from steepwright.room.lines import KeyPath
from steepwright.room.problems import Source, model_findings
from steepwright.room.schema import Table
from steepwright.room.syntax import Document, Written, parse_toml, read_text, show
from steepwright.room.types import FACINGS, Room

_JSON_KEY = re.compile(r'"([^"\\]*)"\s*:')


class DesignTable(Table):
    """One wall. What is left out, the checks assume and tell."""

    board_mm: Annotated[int | None, Whole(300, 10_000)] = None
    """Length of the board up the slope [mm]; this or angle_deg."""
    angle_deg: Annotated[float | None, Real(0, 70, "degrees")] = None
    """Overhang from the vertical [degrees]; this or board_mm."""
    kicker_mm: Annotated[int, Whole(0, 2000)]
    """Height of the vertical strip below the board [mm]; 0 is none."""
    width_mm: Annotated[int, Whole(300, 20_000)]
    """Width of the wall [mm]."""
    beam: Annotated[str, Text()]
    """Name of the beam it hangs from, as in the room file."""
    facing: Annotated[str | None, Choice(FACINGS)] = None
    """The direction the climber falls."""
    columns: Annotated[int | None, Whole(1, 6, "")] = None
    """Board pieces side by side."""
    rows: Annotated[int | None, Whole(1, 4, "")] = None
    """Board pieces above each other."""
    sheet: Annotated[str | None, Text()] = None
    """Kind and thickness, such as "OSB/3 18 mm"."""
    grain: Annotated[str | None, Choice(("across", "any"))] = None
    """Whether the face grain runs across the wall."""
    stud: Annotated[str | None, Text()] = None
    """Section, strength class and surface, such as "45 x 95 C24 planed"."""
    stud_count: Annotated[int | None, Whole(2, 30, "")] = None
    """Number of studs."""
    mount: Annotated[str | None, Text()] = None
    """Name of the mount in the catalogue."""
    mount_count: Annotated[int | None, Whole(2, 12, "")] = None
    """Number of mounts."""
    screw_mm: Annotated[int | None, Whole(50, 400)] = None
    """Distance of the sheet's screws along studs and rails [mm]."""
    tie_back: Annotated[str | None, Text()] = None
    """Name of the set that ties every stud back to the room's [tie_back] beam; left out, none."""
    tie_at_mm: Annotated[int | None, Whole(100, 10_000)] = None
    """How far up the board from its lower end the ties are fixed [mm]; left out, half-way."""
    eye_mm: Annotated[int | None, Whole(100, 10_000)] = None
    """How far from the mounts' pivot the lifting lines' eyes are [mm]; left out, far down."""
    delivered: Annotated[bool | None, Flag()] = None
    """Whether the yard delivers."""


def read_design(path: Path, room: Room, catalog: Catalog) -> dict[str, Any]:
    """Return the keys of a design file that were given, checked.

    Parameters
    ----------
    path
        A file that ends in ``.json``, or TOML of any name.
    room, catalog
        Where the names of beam, sheet, stud and mount must occur.

    Raises
    ------
    InputError
        With every problem of the file, each with line, key, value seen and what was expected.
    """
    path = Path(path)
    findings = Findings()
    text = read_text(path, "design file", findings)
    parse = _parse_json if path.suffix.lower() == ".json" else parse_toml
    document = None if text is None else parse(text, str(path), findings)
    design: dict[str, Any] = {}
    if document is not None:
        source = Source(str(path), document, "design", room.units == "inch")
        try:
            design = DesignTable.model_validate(document.data).model_dump(exclude_unset=True)
        except ValidationError as error:
            findings.extend(model_findings(error, DesignTable, source))
        findings.extend(_length(document.data, source))
        findings.extend(_names(document.data, room, catalog, source))
    findings.raise_if_errors(f"The design file {path}")
    return design


def _length(data: dict[str, Any], source: Source) -> Iterator[Finding]:
    """Ask for one of the two keys that fix the board's length."""
    both = [key for key in ("board_mm", "angle_deg") if key in data]
    if len(both) == 1 or source.document.set_aside & {"board_mm", "angle_deg"}:
        return
    say = "both board_mm and angle_deg are given" if both else "the board's length is missing"
    yield source.finding(
        tuple(both[-1:]) or ("board_mm",),
        "board-or-angle",
        say,
        seen=", ".join(f"{key} = {show(data[key])}" for key in both),
        expected="either board_mm or angle_deg; the other follows from the beam and the kicker",
        next_step="Remove one of the two." if both else "Add a line board_mm = ... or angle_deg.",
    )


def _names(data: dict[str, Any], room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    known: tuple[tuple[str, Sequence[str]], ...] = (
        ("beam", [beam.name for beam in room.beams]),
        ("sheet", _sheets(room, catalog)),
        ("stud", [section.label for section in timber_sections(catalog)]),
        ("mount", [mount.name for mount in catalog.mounts]),
        ("tie_back", [tie.name for tie in ties_on_offer(catalog)]),
    )
    if "tie_back" in data and room.tie_beam is None:
        yield source.finding(
            ("tie_back",),
            "no-tie-beam",
            "the room names no beam that studs may be tied back to",
            seen=show(data["tie_back"]),
            expected="a table [tie_back] with the beam's name in the room file",
            next_step="Add it to the room file, or take this line out.",
        )
    for key, names in known:
        value = data.get(key)
        if isinstance(value, str) and value.strip() not in names:
            near = nearest(value, names)
            yield source.finding(
                (key,),
                "unknown-name",
                f"there is no {key} of this name",
                seen=show(value),
                expected=f"one of: {', '.join(names)}",
                next_step=f"Did you mean {near}?" if near else "Take a name from the list.",
            )


def _sheets(room: Room, catalog: Catalog) -> list[str]:
    """Return the labels of what the yard sells, and of offcuts, if thick enough to climb on."""
    kinds = {(family.kind, family.thickness_mm) for family in sheet_families(catalog)}
    kinds |= {(offcut.kind, offcut.thickness_mm) for offcut in room.yard.offcuts}
    least = room.wall.min_thickness_mm
    return [f"{kind} {thick} mm" for kind, thick in sorted(kinds) if thick >= least]


def _parse_json(text: str, file: str, findings: Findings) -> Document | None:
    """Return the data of a JSON text, or None after a finding says why it is none."""
    try:
        data = json.loads(text, parse_float=Written, parse_constant=Written)
    except (ValueError, RecursionError) as error:
        line = getattr(error, "lineno", 0)
        say = f"this is not JSON: {getattr(error, 'msg', 'a number or a nesting is too long')}"
        findings.add(
            Finding(
                "json-syntax", "error", say, file, line, expected='{"key": value, ...}',
                next_step="Look for a missing quote, comma or brace here or just before.",
            )
        )  # fmt: skip
        return None
    if not isinstance(data, dict):
        findings.add(
            Finding(
                "json-syntax", "error", "this is not a table of keys", file, 1, "", show(data),
                '{"key": value, ...}', "Write the keys of one design between braces.",
            )
        )  # fmt: skip
        return None
    lines: dict[KeyPath, int] = {}
    for found in _JSON_KEY.finditer(text):
        lines.setdefault((found[1],), text.count("\n", 0, found.start()) + 1)
    return Document(data, lines)
