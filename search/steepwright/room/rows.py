"""What a room file tells as a row of places to hang from, and what all such rows must keep to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source

Range = tuple[float, float]
Box = tuple[Range, Range, Range]
"""What something takes up along the room, across it and in height [mm]."""

Row = (
    schema.JoistsTable
    | schema.SlabTable
    | schema.FrameTable
    | schema.LedgerTable
    | schema.SpreaderTable
)
"""What stands for several places in a row."""


def row_names(table: Row) -> tuple[str, ...]:
    """Return what the joists or places of a row are called, in order."""
    return tuple(f"{table.name} {number}" for number in range(1, table.count + 1))


def places_mm(table: Row) -> tuple[int, ...]:
    """Return the middle lines of a row's places along the room [mm]."""
    return tuple(table.first_mm + n * table.spacing_mm for n in range(table.count))


def outside(
    room: schema.RoomTable, row: Row, half_mm: int, source: Source, words: tuple[KeyPath, str, str]
) -> Iterator[Finding]:
    """Tell where a place of a row reaches out of the room, `half_mm` to both sides of its middle.

    `words` are the row's path, what reaches out, and why it needs so much.
    """
    path, say, why = words
    first, last = places_mm(row)[0], places_mm(row)[-1]
    if first < half_mm or last > room.length_mm - half_mm:
        yield source.finding(
            (*path, "first_mm"),
            "beam-outside",
            say,
            seen=f"{first} to {last}",
            expected=f"from {half_mm} to {room.length_mm - half_mm}, for the room is"
            f" {room.length_mm} mm long{why}",
            next_step="Measure from the wall at x = 0 to the first one's middle, or lower count.",
        )


def above_ceiling(
    room: schema.RoomTable,
    row: schema.FrameTable | schema.LedgerTable,
    wrong_mm: int,
    source: Source,
    words: tuple[KeyPath, str],
) -> Iterator[Finding]:
    """Tell where a row's beam reaches above the ceiling, measured wrong by so much."""
    path, what = words
    if row.underside_mm + row.depth_mm + wrong_mm > room.ceiling_mm:
        yield source.finding(
            (*path, "underside_mm"),
            "beam-above-ceiling",
            f"{what} reaches above the ceiling",
            seen=f"{row.underside_mm} and a depth of {row.depth_mm}",
            expected=f"together at most {room.ceiling_mm - wrong_mm}",
            next_step="Lower underside_mm.",
        )


def in_solids(
    parts: Parts,
    row: Row,
    boxes: Callable[[int], Iterable[Box]],
    source: Source,
    words: tuple[KeyPath, str, str],
) -> Iterator[Finding]:
    """Tell of the first place of a row at which something of it is where a solid thing is.

    `boxes` gives what it takes up at a middle line; `words` are the row's path, what would be in
    the way, and what has to be clear.
    """
    path, say, clear = words
    for number, x_mm in enumerate(places_mm(row), start=1):
        for _, solid in parts.solids:
            ranges = (solid.x_mm, solid.y_mm, solid.z_mm)
            if any(
                all(a[0] < b[1] and b[0] < a[1] for a, b in zip(box, ranges, strict=True))
                for box in boxes(x_mm)
            ):
                yield source.finding(
                    (*path, "first_mm"),
                    "frame-in-solid",
                    f"{say} in “{solid.name}”",
                    seen=f"place {number}, at {x_mm}",
                    expected=f"{clear} clear of every solid thing",
                    next_step="Move first_mm, lower count, or set it up elsewhere.",
                )
                return
