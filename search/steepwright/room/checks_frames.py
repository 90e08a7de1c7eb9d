"""What must fit together in a room with a freestanding frame: nothing in the search moves it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source
from steepwright.room.rows import Box, above_ceiling, in_solids, outside


def check_frames(parts: Parts, source: Source) -> Iterator[Finding]:
    """Yield what is wrong with freestanding frames: in the room, beside the wall, past solids."""
    for place, frame in parts.frames:
        path: KeyPath = ("frames", place)
        if frame.brace_up_mm > frame.underside_mm:
            yield source.finding(
                (*path, "brace_up_mm"),
                "frame-brace-high",
                f"the braces of the frame “{frame.name}” would meet the posts above the head beam",
                seen=str(frame.brace_up_mm),
                expected=f"at most {frame.underside_mm}, the head beam's underside",
                next_step="Lower brace_up_mm: two thirds of the height is usual.",
            )
        if parts.room is not None:
            yield from _in_room(parts, parts.room, frame, path, source)
            boxes = partial(_boxes, parts.room, frame)
            words = (path, f"the frame “{frame.name}” would stand", "posts, feet and head beam")
            yield from in_solids(parts, frame, boxes, source, words)
        if parts.wall is not None:
            yield from _beside_wall(parts.wall, frame, path, source)


def _in_room(
    parts: Parts,
    room: schema.RoomTable,
    frame: schema.FrameTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    wrong = parts.wall.tolerance_mm if parts.wall else 0
    say = f"at some places the feet of the frame “{frame.name}” reach out of the room"
    why = f" and a foot reaches {frame.foot_mm} mm both ways"
    yield from outside(room, frame, frame.foot_mm + wrong, source, (path, say, why))
    what = f"the head beam of the frame “{frame.name}”"
    yield from above_ceiling(room, frame, wrong, source, (path, what))
    passage = parts.wall.side_passage_mm if parts.wall else 0
    most = room.width_mm - 2 * (passage + wrong) - frame.post_mm[0]
    if frame.span_mm > most:
        yield source.finding(
            (*path, "span_mm"),
            "frame-too-wide",
            f"the frame “{frame.name}” leaves too little beside its posts",
            seen=str(frame.span_mm),
            expected=f"at most {most}: it stands in the middle of {room.width_mm} mm, with the"
            f" passage of {passage} mm outside its posts",
            next_step="Set the posts closer together, or lower side_passage_mm.",
        )


def _beside_wall(
    wall: schema.WallTable, frame: schema.FrameTable, path: KeyPath, source: Source
) -> Iterator[Finding]:
    least = wall.width_mm[1] + frame.post_mm[0] + 2 * wall.tolerance_mm
    if frame.span_mm < least:
        yield source.finding(
            (*path, "span_mm"),
            "frame-too-narrow",
            f"the widest wall does not go between the posts of the frame “{frame.name}”",
            seen=str(frame.span_mm),
            expected=f"at least {least}: a wall of {wall.width_mm[1]} mm and a post",
            next_step="Set the posts wider apart, or lower the greatest width_mm.",
        )
    if wall.align != "centre":
        yield source.finding(
            ("wall", "align"),
            "frame-off-centre",
            f"the frame “{frame.name}” stands in the middle of the room, the wall does not",
            seen=f'"{wall.align}"',
            expected='"centre" in a room with a frame',
            next_step='Write align = "centre", or leave the frame out.',
        )
    if wall.fold_up:
        yield source.finding(
            ("wall", "fold_up"),
            "frame-folds",
            f"a wall that folds up would tip the frame “{frame.name}”; it is not checked for that",
            seen="true",
            expected="false in a room with a frame",
            next_step="Write fold_up = false, or leave the frame out.",
        )


def _boxes(room: schema.RoomTable, frame: schema.FrameTable, x_mm: int) -> Iterator[Box]:
    """Yield the space that a frame takes at one place: its two sides and the head beam [mm]."""
    top = frame.underside_mm + frame.depth_mm
    for side in (-1, 1):
        y = (room.width_mm + side * frame.span_mm) / 2
        across = (y - frame.post_mm[0] / 2, y + frame.post_mm[0] / 2)
        yield (x_mm - frame.foot_mm, x_mm + frame.foot_mm), across, (0, top)
    half = frame.span_mm / 2
    along = (x_mm - frame.width_mm / 2, x_mm + frame.width_mm / 2)
    yield along, (room.width_mm / 2 - half, room.width_mm / 2 + half), (frame.underside_mm, top)
