"""What must fit together between the wanted walls and the room, the yard and the climber."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.parts import Parts
from steepwright.room.problems import Source
from steepwright.room.types import stepped_up_mm

MOST_WALLS = 1_000_000_000
"""Lengths per choice of beam and material above which a range or a step is surely a slip."""


def check_wall(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with the ranges of the wall."""
    wall = parts.wall
    if wall is None:
        return
    in_inches = parts.room is not None and parts.room.units == "inch"
    for key in ("kicker_mm", "width_mm", "board_mm"):
        for finding in _step_divides(key, getattr(wall, key), wall.step_mm, source):
            yield _let_pass(finding, getattr(wall, key)) if in_inches else finding
    if parts.climber is not None:
        yield from _wide_enough(wall, parts.climber.span_mm, source)
    if parts.room is not None:
        yield from _fits_room(wall, parts.room, source)
    heights = [max(beam.underside_mm) for _, beam in parts.beams]
    if parts.room is not None and (parts.joists or parts.slabs):
        heights.append(parts.room.ceiling_mm)
    heights += [frame.underside_mm for _, frame in parts.frames]
    heights += [row.underside_mm for _, row in parts.ledgers]
    if parts.room is not None:
        ceiling = parts.room.ceiling_mm
        heights += [ceiling - row.depth_mm for _, row in parts.spreaders]
    if heights:
        highest = max(heights)
        yield from _below_beam(wall, highest, source)
        yield from _not_too_many(wall, highest, source)


def check_yard(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with the yard's folder."""
    if parts.yard is None or not parts.yard.catalog:
        return
    folder = Path(source.file).parent / parts.yard.catalog
    if not _is_folder(folder):
        yield source.finding(
            ("yard", "catalog"),
            "no-catalog",
            "there is no such folder",
            seen=f'"{parts.yard.catalog}"',
            expected="a folder with a catalogue, named relative to this file",
            next_step='Correct the name, or write catalog = "" for the shipped example yard.',
        )


def _is_folder(folder: Path) -> bool:
    try:
        return folder.is_dir()
    except (OSError, ValueError):
        return False


def _step_divides(
    key: str, span: tuple[int, int] | None, step: int, source: Source
) -> Iterator[Finding]:
    if span is None or (span[1] - span[0]) % step == 0:
        return
    last = span[1] - (span[1] - span[0]) % step
    yield source.finding(
        ("wall", key),
        "step-does-not-divide",
        f"steps of {step} mm from {span[0]} mm do not end at {span[1]} mm",
        seen=str(list(span)),
        expected=f"[{span[0]}, {last}] or [{span[0]}, {last + step}]",
        next_step="Change the range or step_mm.",
    )


def _let_pass(finding: Finding, span: tuple[int, int]) -> Finding:
    """Return a range that does not end on a step as an assumption: no step in mm divides inches."""
    say = (
        f"{finding.message}; the last step before that is looked at. Lengths are whole millimetres,"
        " so steps lie between inch marks, and papers show them to the nearest 1/16 in"
    )
    seen = f"{span[0]} and {span[1]} mm"
    return replace(
        finding, severity="assumption", message=say, seen=seen, expected="", next_step=""
    )


def _wide_enough(wall: schema.WallTable, span_mm: int, source: Source) -> Iterator[Finding]:
    least = stepped_up_mm(wall.width_mm[0], wall.step_mm, wall.min_width_spans * span_mm)
    if least > wall.width_mm[1]:
        yield source.finding(
            ("wall", "min_width_spans"),
            "wall-too-narrow",
            f"not even the widest wall is that many times the climber's span, {span_mm} mm",
            seen=f"{wall.min_width_spans:g}",
            expected=f"so many spans that a wall of {wall.width_mm[1]} mm has them",
            next_step="Lower min_width_spans, or raise the second number of width_mm.",
        )


def _fits_room(wall: schema.WallTable, room: schema.RoomTable, source: Source) -> Iterator[Finding]:
    free = room.width_mm - wall.side_passage_mm
    if wall.width_mm[0] > free:
        passage = f" and the passage {wall.side_passage_mm} mm" if wall.side_passage_mm else ""
        yield source.finding(
            ("wall", "width_mm"),
            "wall-too-wide",
            f"not even the narrowest wall fits: the room is {room.width_mm} mm wide{passage}",
            seen=str(wall.width_mm[0]),
            expected=f"a least width of at most {free}",
            next_step="Lower the first number of width_mm, or side_passage_mm.",
        )
    if wall.min_fall_space_mm >= room.length_mm:
        yield source.finding(
            ("wall", "min_fall_space_mm"),
            "fall-space-too-long",
            "the fall space is longer than the room",
            seen=str(wall.min_fall_space_mm),
            expected=f"less than {room.length_mm}, the room's length",
            next_step="Give the clear floor you insist on in front of the lip.",
        )


def _below_beam(wall: schema.WallTable, highest: int, source: Source) -> Iterator[Finding]:
    if wall.kicker_mm[0] >= highest:
        yield source.finding(
            ("wall", "kicker_mm"),
            "kicker-too-tall",
            "even the lowest kicker reaches the highest beam",
            seen=str(wall.kicker_mm[0]),
            expected=f"a least kicker well below {highest}, the highest beam's underside",
            next_step="Lower kicker_mm.",
        )


def _not_too_many(wall: schema.WallTable, highest: int, source: Source) -> Iterator[Finding]:
    count = _count(wall.kicker_mm, wall.step_mm) * _count(wall.width_mm, wall.step_mm)
    count *= _count(_boards(wall, highest), wall.step_mm)
    if count > MOST_WALLS:
        yield source.finding(
            ("wall", "step_mm"),
            "too-many-walls",
            f"the ranges hold about {count:,} walls for each beam and material".replace(",", " "),
            seen=str(wall.step_mm),
            expected=f"at most {MOST_WALLS:,}".replace(",", " "),
            next_step="Raise step_mm (5 is usual), or narrow kicker_mm, width_mm or board_mm.",
        )


def _count(span: tuple[int, int], step: int) -> int:
    return max(0, span[1] - span[0]) // step + 1


def _boards(wall: schema.WallTable, highest: int) -> tuple[int, int]:
    """Return the lengths of board [mm] that the ranges allow: cos t = (Z - k) / L."""
    if wall.board_mm is not None:
        return wall.board_mm
    shortest = (highest - wall.kicker_mm[1]) / math.cos(math.radians(wall.angle_deg[0]))
    longest = (highest - wall.kicker_mm[0]) / math.cos(math.radians(wall.angle_deg[1]))
    return (int(max(shortest, 0)), int(max(longest, 0)))
