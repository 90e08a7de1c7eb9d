"""The floor seen from above: x to the right, y up, in mm; what to pad and where to pass."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from steepwright.catalog import read_materials
from steepwright.geometry.guidance import FallGuidance, fall_shortfall
from steepwright.geometry.space import passage_mm, side_space_mm
from steepwright.report.views.room import room_of
from steepwright.report.words import Document
from steepwright.room.spreader_ends import spreader_ends_mm
from steepwright.room.types import Spreader

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Area:
    """A named rectangle on the floor."""

    name: str
    x_mm: Range
    y_mm: Range


@dataclass(frozen=True, slots=True)
class TopView:
    """The floor plan of one wall.

    Attributes
    ----------
    wall, frame
        Under the board, and the kicker's frame behind its face.
    fall
        Clear floor in front of the lip.
    pads
        What the guidance asks to pad, as far as the room has it.
    laid
        The pads themselves.
    left_mm, right_mm, passage_mm
        Clear floor beside the wall towards y = 0 and away from it, and the widest way past it.
    shortfall
        One sentence per side on which the clear floor is below the guidance; left and right are
        the climber's there, so they change places when the wall faces -x.
    """

    length_mm: int
    width_mm: int
    sign: int
    solids: tuple[Area, ...]
    beams: tuple[Area, ...]
    wall: Area
    frame: Area
    fall: Area
    pads: Area
    left_mm: int
    right_mm: int
    passage_mm: int
    asked_front_mm: int
    asked_side_mm: int
    asked_mat_mm: int
    shortfall: tuple[str, ...]
    laid: tuple[Area, ...] = ()


def top_view(document: Document, design: dict[str, Any], guidance: FallGuidance) -> TopView:
    """Return the floor plan of one design."""
    room = document["room"]
    y = (design["y_mm"][0], design["y_mm"][1])
    foot, lip = design["x_foot_mm"], design["x_lip_mm"]
    sign = 1 if design["facing"] == "+x" else -1
    depth = design["sheet_thickness_mm"] + design["stud_mm"][1]
    solids = [*room["solids"], *_sides(room, design)]
    left, right, passage = _beside(
        room | {"solids": solids}, y, (foot, lip), design["lip_height_mm"]
    )
    fall = design["fall_space_mm"]
    return TopView(
        length_mm=room["length_mm"],
        width_mm=room["width_mm"],
        sign=sign,
        solids=tuple(_area(s["name"], s["x_mm"], s["y_mm"]) for s in solids),
        beams=tuple(
            _beam(beam, room)
            for beam in room["beams"]
            if beam.get("kind") not in ("slab", "frame", "ledger", "spreader")
            or beam["name"] == design["beam"]
        ),
        wall=_area("under the board", (foot, lip), y),
        frame=_area("frame", (foot - sign * depth, foot), y),
        fall=_area("fall space", (lip, lip + sign * fall), y),
        pads=_pads(room, design, guidance, sign),
        laid=tuple(
            _area(pad["name"], pad["x_mm"], pad["y_mm"])
            for pad in (design.get("pads") or {}).get("laid", [])
        ),
        left_mm=left,
        right_mm=right,
        passage_mm=passage,
        asked_front_mm=round(guidance.front_mm),
        asked_side_mm=round(guidance.side_mm),
        asked_mat_mm=round(guidance.mat_mm),
        shortfall=fall_shortfall(guidance, fall, *(left, right)[::sign]),
    )


def _area(name: str, x_mm: Any, y_mm: Any) -> Area:
    return Area(name, (min(x_mm), max(x_mm)), (min(y_mm), max(y_mm)))


def _beam(beam: dict[str, Any], room: dict[str, Any]) -> Area:
    width_mm = room["width_mm"]
    half, y = max(1, beam["width_mm"] // 2), (0, width_mm)
    if beam.get("spreader"):
        factors = read_materials().factors.in_code(room.get("code", "EN 1995"))
        y = spreader_ends_mm(factors, Spreader(**beam["spreader"]))
    if beam.get("stand"):
        y = (width_mm - beam["span_mm"]) // 2, (width_mm + beam["span_mm"]) // 2
    return _area(beam["name"], (beam["x_mm"] - half, beam["x_mm"] + half), y)


def _sides(room: dict[str, Any], design: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Yield both sides of the freestanding frame that the wall hangs from, as solids."""
    for beam in room["beams"]:
        if beam["name"] == design["beam"] and beam.get("stand"):
            yield from _feet(beam, room["width_mm"])


def _feet(beam: dict[str, Any], width_mm: int) -> Iterator[dict[str, Any]]:
    stand = beam["stand"]
    x, foot, thick = beam["x_mm"], stand["foot_mm"], stand["post_mm"][0] // 2
    for way in (-1, 1):
        y = (width_mm + way * beam["span_mm"]) // 2
        yield {
            "name": "side of the frame",
            "x_mm": (x - foot, x + foot),
            "y_mm": (y - thick, y + thick),
            "z_mm": (0, min(beam["underside_mm"])),
        }


def _beside(room: dict[str, Any], y_mm: Range, x_mm: Range, below_mm: int) -> tuple[int, int, int]:
    record = room_of(room)
    left, right = side_space_mm(record, *y_mm, x_mm, below_mm)
    return int(left), int(right), int(passage_mm(record, *y_mm, x_mm, below_mm))


def _pads(room: dict[str, Any], design: dict[str, Any], guidance: FallGuidance, sign: int) -> Area:
    """From the kicker's face to the guidance in front of the lip and beside the wall."""
    front = min(design["fall_space_mm"], round(guidance.front_mm))
    side = round(guidance.side_mm)
    y = (max(0, design["y_mm"][0] - side), min(room["width_mm"], design["y_mm"][1] + side))
    return _area("pads", (design["x_foot_mm"], design["x_lip_mm"] + sign * front), y)
