"""The room seen along its beams: x to the right, z up, all in mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from steepwright.catalog import read_materials
from steepwright.report.views.figure import Figure, figure_on
from steepwright.report.words import Document

Point = tuple[int, int]
Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class SideBox:
    """A beam or a solid; `role` is ``mine`` (carries the lip), ``other``, ``solid``, ``beside``."""

    name: str
    x_mm: Range
    z_mm: Range
    role: str


@dataclass(frozen=True, slots=True)
class Sweep:
    """The path of the board's foot about the pivot; angles from the x axis towards z [deg]."""

    centre_mm: Point
    radius_mm: int
    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True)
class Folded:
    """The board at rest under the ceiling."""

    outline_mm: tuple[Point, ...]
    angle_deg: float
    headroom_mm: int
    stops_at: str
    sweep: Sweep


@dataclass(frozen=True, slots=True)
class SideView:
    """Everything the side view draws.

    `sheet_mm`, `frame_mm`, `kicker_sheet_mm` and `kicker_frame_mm` are outlines; `fall_x_mm`
    runs from the lip's plumb line to what ends the fall space. `rope_mm` leads from the lifting
    eye at the board's back to its block above; it is empty for a wall that isn't lifted. Where
    the parked board leaves no room below the beam above, the block hangs at the beam's side, and
    `block_up_mm` is how far above its underside. `braces_mm` are the outlines of the braces of a
    freestanding frame. `tie_mm` leads from the middle of the studs' backs to the second beam that
    they are tied back to; it is empty for a wall without ties.
    """

    length_mm: int
    ceiling_mm: int
    sign: int
    angle_deg: float
    boxes: tuple[SideBox, ...]
    braces_mm: tuple[tuple[Point, ...], ...]
    sheet_mm: tuple[Point, ...]
    frame_mm: tuple[Point, ...]
    kicker_sheet_mm: tuple[Point, ...]
    kicker_frame_mm: tuple[Point, ...]
    foot_mm: Point
    lip_mm: Point
    pivot_mm: Point
    hung_from_mm: int
    fall_x_mm: Range
    board_mm: int
    folded: Folded | None
    rope_mm: tuple[Point, ...]
    block_up_mm: int
    tie_mm: tuple[Point, ...]
    climber: Figure


@dataclass(frozen=True, slots=True)
class _Plane:
    """The board's plane: `at(u, b)` is u up the slope from the foot and b behind the face."""

    foot: tuple[float, float]
    sign: int
    angle_rad: float

    def at(self, up: float, behind: float) -> Point:
        s, c = math.sin(self.angle_rad), math.cos(self.angle_rad)
        x = self.foot[0] + self.sign * (up * s - behind * c)
        return round(x), round(self.foot[1] + up * c + behind * s)

    def strip(self, length: float, near: float, far: float) -> tuple[Point, ...]:
        corners = ((0.0, near), (length, near), (length, far), (0.0, far))
        return tuple(self.at(u, b) for u, b in corners)


def side_view(document: Document, design: dict[str, Any]) -> SideView:
    """Return the side view of one design."""
    room = document["room"]
    sign = 1 if design["facing"] == "+x" else -1
    thickness, depth = design["sheet_thickness_mm"], design["stud_mm"][1]
    foot = (design["x_foot_mm"], design["kicker_mm"])
    plane = _Plane(foot, sign, math.radians(design["angle_deg"]))
    upright = _Plane((foot[0], 0), sign, 0.0)
    lip = (design["x_lip_mm"], design["lip_height_mm"])
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    kicker = design["kicker_mm"]
    rope, block_up_mm = _rope(room, design, plane, thickness + depth)
    return SideView(
        length_mm=room["length_mm"],
        ceiling_mm=room["ceiling_mm"],
        sign=sign,
        angle_deg=design["angle_deg"],
        boxes=_boxes(room, design),
        braces_mm=_braces(room, design),
        sheet_mm=plane.strip(design["board_mm"], 0, thickness),
        frame_mm=plane.strip(design["board_mm"], thickness, thickness + depth),
        kicker_sheet_mm=upright.strip(kicker, 0, thickness) if kicker else (),
        kicker_frame_mm=upright.strip(kicker, thickness, thickness + depth) if kicker else (),
        foot_mm=foot,
        lip_mm=lip,
        pivot_mm=(design["x_pivot_mm"], design["pivot_height_mm"]),
        hung_from_mm=min(beam["underside_mm"]),
        fall_x_mm=(lip[0], lip[0] + sign * design["fall_space_mm"]),
        board_mm=design["board_mm"],
        folded=_folded(design, plane, thickness + depth),
        rope_mm=rope,
        block_up_mm=block_up_mm,
        tie_mm=_tie(design, plane, thickness + depth),
        climber=figure_on(design["board_mm"], room["climber"]["span_mm"]),
    )


def _boxes(room: dict[str, Any], design: dict[str, Any]) -> tuple[SideBox, ...]:
    beams = [
        SideBox(
            beam["name"],
            _along(beam, room["length_mm"]),
            _heights(beam),
            "mine" if beam["name"] == design["beam"] else "other",
        )
        for beam in room["beams"]
        if beam.get("kind") not in ("slab", "frame", "ledger", "spreader")
        or beam["name"] == design["beam"]
    ]
    low, high = design["y_mm"]
    solids = [
        SideBox(
            solid["name"],
            tuple(solid["x_mm"]),
            tuple(solid["z_mm"]),
            "solid" if solid["y_mm"][0] < high and solid["y_mm"][1] > low else "beside",
        )
        for solid in room["solids"]
    ]
    return (*solids, *beams, *_stand(room, design))


def _stand(room: dict[str, Any], design: dict[str, Any]) -> Iterator[SideBox]:
    """Yield post and foot of the frame, or a ledger of the beam, that the wall hangs from."""
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    stand = beam.get("stand")
    if stand:
        x, deep = beam["x_mm"], stand["post_mm"][1]
        half, foot = deep // 2, stand["foot_mm"]
        yield SideBox("post of the frame", (x - half, x + half), (deep, _heights(beam)[0]), "beam")
        yield SideBox("foot of the frame", (x - foot, x + foot), (0, deep), "beam")
    ledger = beam.get("ledger")
    if ledger:
        x, top = beam["x_mm"], _heights(beam)[0]
        half = (ledger["fixings"] - 1) * ledger["apart_mm"] // 2
        yield SideBox("ledger", (x - half, x + half), (top - ledger["section_mm"][1], top), "beam")


def _braces(room: dict[str, Any], design: dict[str, Any]) -> tuple[tuple[Point, ...], ...]:
    """Return the outlines of the frame's two braces on this side, from the floor up to the post.

    Their lower ends are sawn level: nothing reaches below the foot, which lies on the floor.
    """
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    stand = beam.get("stand")
    if not stand:
        return ()
    reach = stand["foot_mm"] - read_materials().factors["frame_toe_mm"]
    rise = stand["brace_up_mm"]
    half, length = max(stand["brace_mm"]) / 2, math.hypot(reach, rise)
    off_x, off_z = half * rise / length, half * reach / length
    level = half * length / rise
    return tuple(
        tuple(
            (round(beam["x_mm"] + way * x), round(z))
            for x, z in (
                (reach + level, 0),
                (off_x, rise + off_z),
                (-off_x, rise - off_z),
                (reach - level, 0),
            )
        )
        for way in (-1, 1)
    )


def _along(beam: dict[str, Any], length_mm: int) -> Range:
    """Return a beam's range along the room; of a slab, whose places are many, the whole room."""
    if beam.get("kind") == "slab":
        return 0, length_mm
    half = beam["width_mm"] // 2
    return beam["x_mm"] - half, beam["x_mm"] + half


def _heights(beam: dict[str, Any]) -> Range:
    """Return a beam's range of height; a hidden joist lies above the ceiling's lining."""
    under = min(beam["underside_mm"]) + beam.get("lining_mm", 0)
    return under, under + beam["depth_mm"]


def _folded(design: dict[str, Any], plane: _Plane, depth: int) -> Folded | None:
    parked = design["parked"]
    if parked is None:
        return None
    pivot = (design["x_pivot_mm"], design["pivot_height_mm"])
    turn = math.radians(parked["angle_deg"] - design["angle_deg"])
    outline = plane.strip(design["board_mm"], 0, depth)
    foot = outline[0]
    start = math.degrees(math.atan2(foot[1] - pivot[1], foot[0] - pivot[0]))
    return Folded(
        outline_mm=tuple(_turned(point, pivot, -plane.sign * turn) for point in outline),
        angle_deg=parked["angle_deg"],
        headroom_mm=parked["headroom_mm"],
        stops_at=parked.get("stops_at", ""),
        sweep=Sweep(
            pivot,
            round(math.dist(foot, pivot)),
            round(start, 2),
            round(start - plane.sign * math.degrees(turn), 2),
        ),
    )


def _tie(design: dict[str, Any], plane: _Plane, depth: int) -> tuple[Point, ...]:
    """Return a tie's ends: at the back of the studs, whose face it is measured from, and beam."""
    tie = design.get("tie_back", {})
    if "to_mm" not in tie:
        return ()
    x, z = tie["to_mm"]
    return plane.at(tie["at_mm"], depth), (x, z)


_BLOCK_HALF_MM = 40
"""Half a block's width: drawn so far beside the beam that it is fixed to."""


def _rope(
    room: dict[str, Any], design: dict[str, Any], plane: _Plane, depth: int
) -> tuple[tuple[Point, ...], int]:
    """Return the rope's ends, and how far the block is above the underside of its beam [mm].

    They are the eye, counted from the pivot down the board, and the block.
    """
    lift = design.get("lift")
    if lift is None:
        return (), 0
    x, z = design["x_pivot_mm"], design["pivot_height_mm"]
    s, c = math.sin(plane.angle_rad), math.cos(plane.angle_rad)
    pivot_up = (x - plane.foot[0]) * plane.sign * s + (z - plane.foot[1]) * c
    level, rise = lift["block_mm"]
    block = x - plane.sign * level, z + rise
    above = next((b for b in room["beams"] if b["name"] == lift.get("beam")), None)
    up_mm = 0
    if above is not None:
        up_mm = max(0, block[1] - min(above["underside_mm"]))
        half = above["width_mm"] // 2
        if up_mm and abs(block[0] - above["x_mm"]) <= half:
            block = above["x_mm"] + plane.sign * (half + _BLOCK_HALF_MM), block[1]
    return (plane.at(pivot_up - lift["eye_mm"], depth), block), up_mm


def _turned(point: Point, about: Point, angle_rad: float) -> Point:
    """Turn a point anticlockwise in the (x, z) plane."""
    x, z = point[0] - about[0], point[1] - about[1]
    s, c = math.sin(angle_rad), math.cos(angle_rad)
    return round(about[0] + x * c - z * s), round(about[1] + x * s + z * c)
