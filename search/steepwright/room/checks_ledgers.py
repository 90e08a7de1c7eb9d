"""What must fit together in a room whose walls may hang from a beam on two wall ledgers."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source


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
            yield from _past_solids(parts, parts.room, row, path, source)


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
    half, last = _half_mm(row) + wrong, row.first_mm + (row.count - 1) * row.spacing_mm
    if row.first_mm < half or last > room.length_mm - half:
        yield source.finding(
            (*path, "first_mm"),
            "beam-outside",
            f"at some places the ledgers “{row.name}” reach out of the room",
            seen=f"{row.first_mm} to {last}",
            expected=f"from {half} to {room.length_mm - half}, for the room is"
            f" {room.length_mm} mm long and a ledger reaches {half} mm both ways",
            next_step="Move first_mm, or lower count.",
        )
    top = row.underside_mm + row.depth_mm + wrong
    if top > room.ceiling_mm:
        yield source.finding(
            (*path, "underside_mm"),
            "beam-above-ceiling",
            f"the beam on the ledgers “{row.name}” reaches above the ceiling",
            seen=f"{row.underside_mm} and a depth of {row.depth_mm}",
            expected=f"together at most {room.ceiling_mm - wrong}",
            next_step="Lower underside_mm.",
        )


def _past_solids(
    parts: Parts,
    room: schema.RoomTable,
    row: schema.LedgerTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    """Keep the beam, and the ledgers on both side walls, clear of what can't be moved."""
    thick, deep = row.ledger_mm
    high = row.underside_mm, row.underside_mm + row.depth_mm
    low = row.underside_mm - deep, row.underside_mm
    half, beam = _half_mm(row), -(-row.width_mm // 2)
    for number in range(row.count):
        x = row.first_mm + number * row.spacing_mm
        boxes = (
            ((x - beam, x + beam), (0, room.width_mm), high),
            ((x - half, x + half), (0, thick), low),
            ((x - half, x + half), (room.width_mm - thick, room.width_mm), low),
        )
        for _, solid in parts.solids:
            ranges = (solid.x_mm, solid.y_mm, solid.z_mm)
            if any(
                all(a[0] < b[1] and b[0] < a[1] for a, b in zip(box, ranges, strict=True))
                for box in boxes
            ):
                yield source.finding(
                    (*path, "first_mm"),
                    "frame-in-solid",
                    f"the beam on the ledgers “{row.name}” would lie in “{solid.name}”",
                    seen=f"place {number + 1}, at {x}",
                    expected="beam and ledgers clear of every solid thing",
                    next_step="Move first_mm or lower count.",
                )
                return
