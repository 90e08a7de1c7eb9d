"""What must fit together in a room: what walls hang from, names, solids within the walls."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Protocol

from steepwright.findings import Finding, nearest
from steepwright.room import schema
from steepwright.room.checks_frames import check_frames
from steepwright.room.checks_joists import check_joists
from steepwright.room.checks_ledgers import check_ledgers
from steepwright.room.checks_spreaders import check_spreaders
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source, key_text

LARGEST_TILT = 0.05
"""Slope of a beam's underside above which a slip is likely; common practice, no source."""


HUNG_FROM = ("beams", "joists", "slabs", "frames", "ledgers", "spreaders")
"""Tables of what a wall may hang from."""

WAYS_IN = ("corridors", "doors", "stairs", "landings", "lifts", "windows")
"""Tables of what is on the way in."""


class _Named(Protocol):
    @property
    def name(self) -> str: ...


def check_things(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with beams, solids and names."""
    yield from _same_names("beams", parts.beams, source)
    yield from check_joists(parts, source)
    yield from check_frames(parts, source)
    yield from check_ledgers(parts, source)
    yield from _tie_back(parts, source)
    yield from check_spreaders(parts, source)
    yield from _same_names("solids", parts.solids, source)
    yield from _same_names("pads", parts.pads, source)
    if parts.access:
        for table in WAYS_IN:
            rows = list(enumerate(getattr(parts.access, table)))
            yield from _same_names(f"access.{table}", rows, source)
    if parts.yard:
        yield from _same_names("yard.offcuts", list(enumerate(parts.yard.offcuts)), source)
    yield from _overlapping_beams(parts, source)
    if parts.room is None:
        return
    for place, beam in parts.beams:
        yield from _beam(parts.room, beam, ("beams", place), source)
    for place, solid in parts.solids:
        yield from _solid(parts.room, solid, ("solids", place), source)


def check_hung(source: Source) -> Iterator[Finding]:
    """Ask for a beam or something else, unless a table that may be meant for one is there."""
    document = source.document
    known = set(schema.RoomFile.model_fields)
    misspelt = {nearest(key, known) for key in document.data if key not in known}
    if not any(document.data.get(table) or table in misspelt for table in HUNG_FROM):
        yield source.finding(
            ("beams",),
            "no-beams",
            "the room has nothing that a wall may hang from",
            expected="at least one [[beams]], [[joists]], [[slabs]], [[frames]], [[ledgers]]"
            " or [[spreaders]] table",
            next_step="Measure a beam and describe it in a [[beams]] table, hidden joists in a"
            " [[joists]] table, a concrete ceiling in a [[slabs]] table, a frame that you set up"
            " yourself in a [[frames]] table, a beam of your own on wall ledgers in a"
            " [[ledgers]] table, or a timber under joists along the room in a [[spreaders]] table.",
        )


def _tie_back(parts: Parts, source: Source) -> Iterator[Finding]:
    names = [beam.name for _, beam in parts.beams]
    if parts.tie_back is None:
        return
    if parts.room is not None and parts.room.code == "NDS":
        yield source.finding(
            ("tie_back",),
            "ties-by-nds",
            "ties to a second beam are not checked by the NDS",
            seen=f'"{parts.tie_back.beam}"',
            expected='code = "EN 1995", or no [tie_back]',
            next_step="Take the table [tie_back] out, or have the walls checked by EN 1995.",
        )
    if parts.tie_back.beam in names:
        return
    near = nearest(parts.tie_back.beam, names)
    yield source.finding(
        ("tie_back", "beam"),
        "unknown-name",
        "there is no beam of this name",
        seen=f'"{parts.tie_back.beam}"',
        expected=f"one of: {', '.join(names)}" if names else "the name of a [[beams]] table",
        next_step=f"Did you mean {near}?" if near else "Take a visible beam's name.",
    )


def _same_names(
    table: str, rows: Sequence[tuple[int, _Named]], source: Source
) -> Iterator[Finding]:
    first: dict[str, int] = {}
    root: KeyPath = tuple(table.split("."))
    for place, row in rows:
        if row.name in first:
            earlier = key_text((*root, first[row.name]))
            yield source.finding(
                (*root, place, "name"),
                "same-name",
                f"this name is taken by {earlier}",
                seen=f'"{row.name}"',
                expected="a name of its own",
                next_step="Rename one of the two.",
            )
        first.setdefault(row.name, place)


def _beam(
    room: schema.RoomTable, beam: schema.BeamTable, path: KeyPath, source: Source
) -> Iterator[Finding]:
    half = -(-beam.width_mm // 2)
    if not half <= beam.x_mm <= room.length_mm - half:
        yield source.finding(
            (*path, "x_mm"),
            "beam-outside",
            f"the beam “{beam.name}” lies outside the room, or within its wall",
            seen=str(beam.x_mm),
            expected=f"from {half} to {room.length_mm - half}, for the room is "
            f"{room.length_mm} mm long and the beam {beam.width_mm} mm wide",
            next_step="Measure from the wall at x = 0 to the beam's middle.",
        )
    if max(beam.underside_mm) > room.ceiling_mm:
        yield source.finding(
            (*path, "underside_mm"),
            "beam-above-ceiling",
            f"the underside of the beam “{beam.name}” is above the ceiling",
            seen=str(max(beam.underside_mm)),
            expected=f"at most {room.ceiling_mm}, the ceiling's height",
            next_step="Measure both from the finished floor.",
        )
    if beam.span_mm < room.width_mm:
        yield source.finding(
            (*path, "span_mm"),
            "beam-too-short",
            f"the beam “{beam.name}” does not reach across the room",
            seen=str(beam.span_mm),
            expected=f"at least {room.width_mm}, the room's width",
            next_step="Give the distance between the beam's supports.",
        )
    tilt = abs(beam.underside_mm[0] - beam.underside_mm[1])
    if tilt > LARGEST_TILT * beam.span_mm:
        yield source.finding(
            (*path, "underside_mm"),
            "beam-tilted",
            f"the ends of the beam “{beam.name}” differ by {tilt} mm in height",
            seen=str(list(beam.underside_mm)),
            expected=f"at most {LARGEST_TILT:.0%} of the span, {LARGEST_TILT * beam.span_mm:.0f}",
            next_step="Measure both ends again, from the same floor level.",
        )


def _overlapping_beams(parts: Parts, source: Source) -> Iterator[Finding]:
    for (_, one), (place, two) in combinations(parts.beams, 2):
        apart = abs(one.x_mm - two.x_mm)
        if 2 * apart < one.width_mm + two.width_mm:
            yield source.finding(
                ("beams", place, "x_mm"),
                "beams-overlap",
                f"the beam “{two.name}” lies inside the beam “{one.name}”",
                seen=str(two.x_mm),
                expected=f"at least {-(-(one.width_mm + two.width_mm) // 2)} mm from {one.x_mm}",
                next_step="Measure again from the wall at x = 0 to the middle of each beam.",
            )


def _solid(
    room: schema.RoomTable, solid: schema.SolidTable, path: KeyPath, source: Source
) -> Iterator[Finding]:
    sides = (
        ("x_mm", solid.x_mm, room.length_mm, "length"),
        ("y_mm", solid.y_mm, room.width_mm, "width"),
        ("z_mm", solid.z_mm, room.ceiling_mm, "ceiling"),
    )
    for key, span, most, what in sides:
        if span[1] > most:
            yield source.finding(
                (*path, key),
                "solid-outside",
                f"“{solid.name}” reaches out of the room",
                seen=str(list(span)),
                expected=f"at most {most}, the room's {what}",
                next_step="Measure along the room from x = 0, across it from y = 0, up from z = 0.",
            )
        elif span[0] == span[1]:
            yield source.finding(
                (*path, key),
                "solid-flat",
                f"“{solid.name}” has no size here",
                seen=str(list(span)),
                expected="a range [from, to] with to above from",
                next_step="Give both sides of the thing.",
            )
