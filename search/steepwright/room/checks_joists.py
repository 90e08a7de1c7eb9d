"""What must fit together in a room with hidden joists or a concrete slab."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source
from steepwright.room.rows import Row, outside, row_names


def check_joists(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with hidden joists, slabs and their names."""
    yield from _names(parts, source)
    for place, slab in parts.slabs:
        if parts.room is not None:
            yield from _inside(parts.room, slab, 0, ("slabs", place), source)
    for place, row in parts.joists:
        path: KeyPath = ("joists", place)
        if row.spacing_mm < row.width_mm and row.count > 1:
            yield source.finding(
                (*path, "spacing_mm"),
                "beams-overlap",
                f"the joists “{row.name}” lie inside each other",
                seen=str(row.spacing_mm),
                expected=f"at least {row.width_mm}, the width of one",
                next_step="Measure from the middle of one joist to the middle of the next.",
            )
        if parts.room is not None:
            yield from _within(parts.room, row, path, source)


def _names(parts: Parts, source: Source) -> Iterator[Finding]:
    taken = {beam.name for _, beam in parts.beams}
    rows: list[tuple[KeyPath, Row]] = []
    rows += [(("joists", place), row) for place, row in parts.joists]
    rows += [(("slabs", place), row) for place, row in parts.slabs]
    rows += [(("frames", place), row) for place, row in parts.frames]
    rows += [(("ledgers", place), row) for place, row in parts.ledgers]
    rows += [(("spreaders", place), row) for place, row in parts.spreaders]
    for path, row in rows:
        names = row_names(row)
        both = [name for name in names if name in taken]
        if both:
            yield source.finding(
                (*path, "name"),
                "same-name",
                "another beam, joist, place or frame has the name that one of these gets",
                seen=f'"{both[0]}"',
                expected="a name of its own",
                next_step="Rename one of the two.",
            )
        taken.update(names)


def _inside(
    room: schema.RoomTable,
    row: schema.JoistsTable | schema.SlabTable,
    width_mm: int,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    say = f"part of the row “{row.name}” lies outside the room, or within its wall"
    wide = f" and a joist {width_mm} mm wide" if width_mm else ""
    yield from outside(room, row, -(-width_mm // 2), source, (path, say, wide))


def _within(
    room: schema.RoomTable, row: schema.JoistsTable, path: KeyPath, source: Source
) -> Iterator[Finding]:
    yield from _inside(room, row, row.width_mm, path, source)
    if row.span_mm < room.width_mm:
        yield source.finding(
            (*path, "span_mm"),
            "beam-too-short",
            f"the joists “{row.name}” do not reach across the room",
            seen=str(row.span_mm),
            expected=f"at least {room.width_mm}, the room's width",
            next_step="Give the distance between a joist's supports. Joists that run along the room"
            " can't carry a wall by themselves: measure the room the other way round, or ask.",
        )
