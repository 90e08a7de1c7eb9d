"""What must fit together in a room whose walls may hang from a beam on two wall ledgers."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source
from steepwright.room.rows import Box, above_ceiling, in_solids, outside


def check_ledgers(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with beams on ledgers: in the room, in a stud wall, past solids."""
    for place, row in parts.ledgers:
        path: KeyPath = ("ledgers", place)
        if row.wall == "studs" and row.anchor_rated_n is not None:
            yield source.finding(
                (*path, "anchor_rated_n"),
                "ledger-anchors",
                f"the ledgers “{row.name}” are screwed to studs, which takes no anchors",
                seen=f"{row.anchor_rated_n:g}",
                expected='no rated load, or wall = "masonry"',
                next_step="Leave anchor_rated_n out.",
            )
        if parts.room is not None:
            yield from _in_room(parts, parts.room, row, path, source)
            boxes = partial(_boxes, parts.room, row)
            words = (path, f"the beam on the ledgers “{row.name}” would lie", "beam and ledgers")
            yield from in_solids(parts, row, boxes, source, words)


def _half_mm(row: schema.LedgerTable) -> int:
    """Return how far a ledger's fixings and the beam reach along the room from its middle line."""
    return max(-(-row.width_mm // 2), -(-(row.fixings - 1) * row.fixing_mm // 2))


def _in_room(
    parts: Parts,
    room: schema.RoomTable,
    row: schema.LedgerTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    wrong = parts.wall.tolerance_mm if parts.wall else 0
    half = _half_mm(row) + wrong
    say = f"at some places the ledgers “{row.name}” reach out of the room"
    why = f" and a ledger reaches {half} mm both ways"
    yield from outside(room, row, half, source, (path, say, why))
    yield from above_ceiling(
        room, row, wrong, source, (path, f"the beam on the ledgers “{row.name}”")
    )


def _boxes(room: schema.RoomTable, row: schema.LedgerTable, x_mm: int) -> Iterator[Box]:
    """Yield the space of the beam, and of the ledgers on both side walls, at one place [mm]."""
    thick, deep = row.ledger_mm
    low = row.underside_mm - deep, row.underside_mm
    half, beam = _half_mm(row), -(-row.width_mm // 2)
    high = row.underside_mm, row.underside_mm + row.depth_mm
    yield (x_mm - beam, x_mm + beam), (0, room.width_mm), high
    for y_mm in ((0, thick), (room.width_mm - thick, room.width_mm)):
        yield (x_mm - half, x_mm + half), y_mm, low
