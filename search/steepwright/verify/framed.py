"""Whether walls fit the room with the depth of their frame, standing and being folded up.

Seen from the pivot p runs away from the climber and z up. A board that leans by t is a rectangle
turned by t; folding it up turns it on to level, past whatever is there: beams and ceiling, which
end the turn, are left out of that.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, Pivot, Posed, across_mm
from steepwright.verify.floors import Floor, lip_ahead_mm
from steepwright.verify.turning import Box, meet, overlap, reach

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

FAR_MM = 1e6


def fits_framed(
    room: Document, facing: str, pivot: Pivot, posed: Posed, depth_mm: FloatArray, width_mm: int
) -> BoolArray:
    """Tell which boards fit that are so deep from their face to the back of their frame [mm]."""
    side = 1.0 if facing == "+x" else -1.0
    across = across_mm(room, width_mm)
    board = section_of(pivot, posed, depth_mm)
    start, folds = posed.angle_rad, bool(room["wall"]["fold_up"])
    end = np.full_like(start, np.pi / 2) if folds else start
    floor = Floor(room, side, across)
    foot = side * pivot.x_mm + lip_ahead_mm(pivot, start) - posed.board_mm * np.sin(start)
    fits = floor.clear(posed, foot, depth_mm) & (floor.behind_mm(foot) >= depth_mm - SLACK_MM)
    low, high = reach(board, start, np.maximum(start, end))
    near, far = ends_mm(room, side, pivot)
    fits &= (low > near - SLACK_MM) & (high < far + SLACK_MM)
    for box in solids_about(room, side, pivot, across):
        fits &= ~meet(board, start, np.maximum(start, end), box)
    for box in overhead(room, side, pivot, across):
        fits &= ~overlap(board, start, box)
    return fits


def section_of(pivot: Pivot, posed: Posed, depth_mm: FloatArray) -> Box:
    """Return boards with their frames, upright, as seen from the pivot."""
    return Box(
        np.full_like(posed.board_mm, -pivot.behind_mm),
        depth_mm - pivot.behind_mm,
        pivot.setback_mm - posed.board_mm,
        np.full_like(posed.board_mm, pivot.setback_mm),
    )


def ends_mm(room: Document, side: float, pivot: Pivot) -> tuple[float, float]:
    """Return where the room ends before and behind the pivot, along p [mm]."""
    near, far = sorted(-side * (x - pivot.x_mm) for x in (0.0, float(room["length_mm"])))
    return near, far


def solids_about(
    room: Document, side: float, pivot: Pivot, across: tuple[float, float]
) -> list[Box]:
    """Return the solids over a range across the room."""
    return [
        _seen(solid["x_mm"], solid["z_mm"], side, pivot)
        for solid in room["solids"]
        if solid["y_mm"][0] < across[1] and solid["y_mm"][1] > across[0]
    ]


def _seen(x_mm: list[float], z_mm: list[float], side: float, pivot: Pivot) -> Box:
    """Return a solid as seen from the pivot, a trifle smaller: what touches is not in the way."""
    near, far = sorted(-side * (x - pivot.x_mm) for x in x_mm)
    low, high = (z - pivot.height_mm for z in z_mm)
    return Box(near + SLACK_MM, far - SLACK_MM, low + SLACK_MM, high - SLACK_MM)


def overhead(room: Document, side: float, pivot: Pivot, across: tuple[float, float]) -> list[Box]:
    """Return the ceiling and the beams in sight, each from its lowest place over the wall up."""
    ceiling = room["ceiling_mm"]
    boxes = [_seen([-FAR_MM, FAR_MM], [ceiling, FAR_MM], side, pivot)]
    for beam in room["beams"]:
        if beam.get("kind", "beam") != "beam":
            continue
        ends = beam["underside_mm"]
        low = min(ends[0] + (ends[1] - ends[0]) * y / room["width_mm"] for y in across)
        sides = [beam["x_mm"] + way * beam["width_mm"] / 2 for way in (-1, 1)]
        boxes.append(_seen(sides, [low, max(low, ceiling)], side, pivot))
    return boxes
