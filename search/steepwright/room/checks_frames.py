"""What must fit together in a room with a freestanding frame: nothing in the search moves it."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.lines import KeyPath
from steepwright.room.parts import Parts
from steepwright.room.problems import Source

Box = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


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
            yield from _past_solids(parts, parts.room, frame, path, source)
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
    reach = frame.foot_mm + wrong
    last = frame.first_mm + (frame.count - 1) * frame.spacing_mm
    if frame.first_mm < reach or last > room.length_mm - reach:
        yield source.finding(
            (*path, "first_mm"),
            "beam-outside",
            f"at some places the feet of the frame “{frame.name}” reach out of the room",
            seen=f"{frame.first_mm} to {last}",
            expected=f"from {reach} to {room.length_mm - reach}, for the room is"
            f" {room.length_mm} mm long and a foot reaches {frame.foot_mm} mm both ways",
            next_step="Move first_mm, or lower count.",
        )
    top = frame.underside_mm + frame.depth_mm + wrong
    if top > room.ceiling_mm:
        yield source.finding(
            (*path, "underside_mm"),
            "beam-above-ceiling",
            f"the head beam of the frame “{frame.name}” reaches above the ceiling",
            seen=f"{frame.underside_mm} and a depth of {frame.depth_mm}",
            expected=f"together at most {room.ceiling_mm - wrong}",
            next_step="Lower underside_mm.",
        )
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


def _past_solids(
    parts: Parts,
    room: schema.RoomTable,
    frame: schema.FrameTable,
    path: KeyPath,
    source: Source,
) -> Iterator[Finding]:
    for number in range(frame.count):
        x_mm = frame.first_mm + number * frame.spacing_mm
        for _, solid in parts.solids:
            ranges = (solid.x_mm, solid.y_mm, solid.z_mm)
            if any(
                all(a[0] < b[1] and b[0] < a[1] for a, b in zip(box, ranges, strict=True))
                for box in _boxes(room, frame, x_mm)
            ):
                yield source.finding(
                    (*path, "first_mm"),
                    "frame-in-solid",
                    f"the frame “{frame.name}” would stand in “{solid.name}”",
                    seen=f"place {number + 1}, at {x_mm}",
                    expected="posts, feet and head beam clear of every solid thing",
                    next_step="Move first_mm, lower count, or set the posts elsewhere.",
                )
                return
