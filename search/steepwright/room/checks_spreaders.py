"""What must fit together in a room with a timber under joists that run along it."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source
from steepwright.room.rows import outside


def check_spreaders(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with spreaders: in the room, past the wall's sides, the joists' span."""
    for place, row in parts.spreaders:
        path: KeyPath = ("spreaders", place)
        if parts.room is not None:
            yield from _in_room(parts, parts.room, row, path, source)
        if parts.room is not None and parts.wall is not None:
            yield from _past_the_wall(parts.room, parts.wall, row, path, source)


def _in_room(
    parts: Parts,
    room: schema.RoomTable,
    row: schema.SpreaderTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    wrong = parts.wall.tolerance_mm if parts.wall else 0
    half = -(-row.width_mm // 2) + wrong
    say = f"part of the row “{row.name}” lies outside the room, or within its wall"
    yield from outside(room, row, half, source, (path, say, f" and it {row.width_mm} mm wide"))
    end = row.joist_first_mm + (row.joist_count - 1) * row.joist_spacing_mm
    thick = -(-row.joist_mm[0] // 2)
    if row.joist_first_mm < thick or end > room.width_mm - thick:
        yield source.finding(
            (*path, "joist_first_mm"),
            "beam-outside",
            f"some of the joists over “{row.name}” lie outside the room",
            seen=f"{row.joist_first_mm} to {end}",
            expected=f"from {thick} to {room.width_mm - thick}",
            next_step="Measure from the wall at y = 0 to the first joist's middle.",
        )
    if row.joist_span_mm < room.length_mm:
        yield source.finding(
            (*path, "joist_span_mm"),
            "beam-too-short",
            f"the joists over “{row.name}” do not reach along the room",
            seen=str(row.joist_span_mm),
            expected=f"at least {room.length_mm}, the room's length",
            next_step="Give the distance between a joist's supports.",
        )


def _past_the_wall(
    room: schema.RoomTable,
    wall: schema.WallTable,
    row: schema.SpreaderTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    """Ask for joists beyond both ends of the widest wall: between them the load is spread."""
    free = {"left": 0.0, "centre": 0.5, "right": 1.0}[wall.align]
    start = free * (room.width_mm - wall.width_mm[1])
    end = row.joist_first_mm + (row.joist_count - 1) * row.joist_spacing_mm
    if row.joist_first_mm > start or end < start + wall.width_mm[1]:
        yield source.finding(
            (*path, "joist_count"),
            "spreader-short",
            f"the widest wall reaches beyond the joists that “{row.name}” hangs from",
            seen=f"joists from {row.joist_first_mm} to {end}",
            expected=f"from {start:.0f} to {start + wall.width_mm[1]:.0f} at least",
            next_step="Let the timber cross more joists, or lower the greatest width_mm.",
        )
