"""How steep walls stand and where they hang, by formulas of its own.

A board of length L on a kicker k hangs from a pivot H = Z - k above its foot; the pivot lies
A = L - a up the slope and n behind the face. With R^2 = A^2 + n^2 and D = sqrt(R^2 - H^2), the
pivot's distance in front of the foot,

    sin t = (A D + n H) / R^2,   cos t = (A H - n D) / R^2.

The search uses an arc cosine instead. Rounding is outward: a wall that misses by less than
`SLACK_MM` counts as fitting.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

SLACK_MM = 1e-6
"""A margin this little below 0 still counts as kept."""

ROUNDING_MDEG = 1e-6 + 1e-9
"""Added before angles are rounded down: the search adds 1e-6 thousandths of a degree."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Lengths of boards and kickers [mm], ascending, and the least width of the walls [mm]."""

    boards_mm: npt.NDArray[np.int64]
    kickers_mm: npt.NDArray[np.int64]
    width_mm: int


@dataclass(frozen=True, slots=True)
class Pivot:
    """Where a board hangs: the beam's middle and the pivot's place, all in mm; the beam's name."""

    x_mm: float
    height_mm: float
    setback_mm: float
    behind_mm: float
    beam: str = ""


@dataclass(frozen=True, slots=True)
class Posed:
    """Boards as they stand: angle, length and kicker, arrays of one length."""

    angle_rad: FloatArray
    board_mm: FloatArray
    kicker_mm: FloatArray


def angles_rad(grid: Grid, pivot: Pivot) -> FloatArray:
    """Return the angle from the vertical [rad] over [boards, kickers]; NaN where none exists."""
    return leaning_rad(grid.boards_mm[:, None], grid.kickers_mm[None, :], pivot)


def leaning_rad(
    boards_mm: npt.NDArray[Any], kickers_mm: npt.NDArray[Any], pivot: Pivot
) -> FloatArray:
    """Return the angle from the vertical [rad] of boards on kickers; NaN where none exists."""
    along = boards_mm - pivot.setback_mm + 0.0 * kickers_mm
    rise = pivot.height_mm - kickers_mm + 0.0 * along
    behind = pivot.behind_mm
    square = along**2 + behind**2
    ahead_2 = square - rise**2
    exists = (along > 0) & (rise > max(behind, 0.0)) & (ahead_2 >= -1e-9 * square)
    ahead = np.sqrt(np.maximum(ahead_2, 0.0))
    angle = np.arctan2(along * ahead + behind * rise, along * rise - behind * ahead)
    return np.where(exists & (angle >= 0), angle, np.nan)


def whole_mdeg(angle_rad: FloatArray) -> npt.NDArray[np.int64]:
    """Return angles in thousandths of a degree, rounded down; -1 for NaN."""
    scaled = np.degrees(np.nan_to_num(angle_rad, nan=-1.0)) * 1000 + ROUNDING_MDEG
    whole = np.floor(scaled).astype(np.int64)
    return np.where(np.isnan(angle_rad), -1, whole)


def pivot_of(beam: Document, mount: Document, thickness_mm: int) -> Pivot:
    """Return where boards of a thickness hang from a mount on a beam; its low end counts."""
    return Pivot(
        float(beam["x_mm"]),
        float(min(beam["underside_mm"]) - mount["drop_mm"]),
        float(mount["setback_mm"]),
        float(mount["behind_sheet_mm"] + thickness_mm),
        beam["name"],
    )


def levels_out(
    room: Document, beam: Document, mount: Document, factors: Document, width_mm: int
) -> bool:
    """Tell whether mounts can be let down as far as the beam is higher at one of the lip's ends."""
    low, far = beam["underside_mm"]
    ends = (low + (far - low) * y / room["width_mm"] for y in across_mm(room, width_mm))
    let_down = max(ends) - min(low, far)
    takes_up = max(mount["adjust_mm"], factors["mount_level_tolerance_mm"])
    return bool(takes_up - let_down >= -SLACK_MM)


def across_mm(room: Document, width_mm: int) -> tuple[float, float]:
    """Return where a wall of a width begins and ends across the room [mm]."""
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[room["wall"]["align"]]
    start = share * (room["width_mm"] - width_mm)
    return start, start + width_mm


def lowered(pivot: Pivot, room: Document) -> Pivot:
    """Return the pivot as low as the room's tolerance leaves open: there boards are steepest."""
    return raised(pivot, -room["wall"].get("tolerance_mm", 0))


def raised(pivot: Pivot, by_mm: float) -> Pivot:
    """Return the pivot so much higher [mm]."""
    return replace(pivot, height_mm=pivot.height_mm + by_mm)


def least_width_mm(room: Document) -> int:
    """Return the least width [mm] of the grid that is also so many spans of the climber wide."""
    wall, spans = room["wall"], room["wall"].get("min_width_spans", 0)
    first, step = int(wall["width_mm"][0]), int(wall["step_mm"])
    short = spans * room["climber"]["span_mm"] - SLACK_MM - first
    steps: int = max(0, math.ceil(short / step))
    return first + steps * step


def back_rise_mm(
    back_mm: npt.ArrayLike, setback_mm: npt.ArrayLike, angle_rad: FloatArray, folds: bool
) -> FloatArray:
    """Return how far a frame's upper back corner comes to lie above the pivot [mm].

    It lies h square to the board and a along it from the pivot and is h sin t + a cos t above it;
    a wall that folds up passes its highest point, hypot(h, a), if that is still ahead.
    """
    turn = np.fmax(angle_rad, np.arctan2(back_mm, setback_mm)) if folds else angle_rad
    return np.asarray(np.multiply(back_mm, np.sin(turn)) + np.multiply(setback_mm, np.cos(turn)))


def back_clears(wall: Document, mount: Document, depth_mm: int) -> bool:
    """Tell whether a frame's upper back corner can stay below its own beam.

    Its rise is concave in the angle, so over the angles asked for it is least at one end.
    """
    back = max(depth_mm - mount["behind_sheet_mm"], 0)
    ends = np.radians(np.array(wall["angle_deg"], dtype=np.float64))
    rises = back_rise_mm(back, mount["setback_mm"], ends, wall["fold_up"])
    return bool(rises.min() <= mount["drop_mm"] + SLACK_MM)
