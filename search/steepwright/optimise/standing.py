"""Walls as they stand in the room, many at once: pivot, angle, foot and lip."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.geometry import floor_run_mm, lip_from_pivot_mm, overhang_angle_rad
from steepwright.optimise.space import Space

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]

MDEG = 1000 * 180 / math.pi
NONE = -1


@dataclass(frozen=True, slots=True)
class Hanging:
    """How boards hang, arrays (or numbers) that broadcast with the lengths; all in mm.

    Attributes
    ----------
    pivot_height_mm
        Height of the pivot above the floor; a beam out of level counts by its low end.
    setback_mm, behind_mm
        From the lip to the pivot along the board, and from the climbing face to the pivot.
    take_up_mm
        How far the mounts can be let down to level the lip.
    """

    pivot_height_mm: npt.ArrayLike
    setback_mm: npt.ArrayLike
    behind_mm: npt.ArrayLike
    take_up_mm: npt.ArrayLike = np.inf


def hanging(space: Space, place: int, mount: npt.ArrayLike, thickness_mm: npt.ArrayLike) -> Hanging:
    """Return how boards of some thickness hang from mounts (catalogue indices) at a place."""
    beam = space.market.room.beams[space.places[place][0]]
    mounts = space.market.catalog.mounts
    index = np.asarray(mount)
    drop = np.array([m.drop_mm for m in mounts])[index]
    behind = np.array([m.behind_sheet_mm for m in mounts])[index]
    setback = np.array([m.setback_mm for m in mounts])[index]
    slack = space.market.catalog.materials.factors["mount_level_tolerance_mm"]
    take_up = np.array([max(float(m.adjust_mm), slack) for m in mounts])[index]
    pivot = min(beam.underside_mm) - drop
    return Hanging(pivot, setback, behind + np.asarray(thickness_mm), take_up)


@dataclass(frozen=True, slots=True)
class Standing:
    """Walls of one place as they stand: how they hang, lengths [mm] and angle [rad]."""

    place: int
    hanging: Hanging
    board: FloatArray
    kicker: FloatArray
    angle: FloatArray

    def take(self, index: Any) -> Standing:
        """Return the walls picked by an index, of one array or one for each axis."""
        board, kicker, angle = self.board[index], self.kicker[index], self.angle[index]
        return replace(self, board=board, kicker=kicker, angle=angle)


def stand(
    place: int, hangs: Hanging, board_mm: npt.ArrayLike, kicker_mm: npt.ArrayLike
) -> Standing:
    """Return walls with their angles; NaN where no such wall exists."""
    board, kicker = np.broadcast_arrays(
        np.asarray(board_mm, dtype=np.float64), np.asarray(kicker_mm, dtype=np.float64)
    )
    angle = overhang_angle_rad(
        board, kicker, hangs.pivot_height_mm, hangs.setback_mm, hangs.behind_mm
    )
    return Standing(place, hangs, board, kicker, angle)


def plan_positions_mm(space: Space, walls: Standing) -> tuple[FloatArray, FloatArray]:
    """Return where the kicker's face and the lip's plumb line stand along the room [mm]."""
    beam_index, facing = space.places[walls.place]
    sign = 1 if facing == "+x" else -1
    angle = np.nan_to_num(walls.angle)
    lip = lip_from_pivot_mm(angle, walls.hanging.setback_mm, walls.hanging.behind_mm)
    lip_x = space.market.room.beams[beam_index].x_mm + sign * lip
    return lip_x - sign * floor_run_mm(walls.board, angle), lip_x


def angle_mdeg(angle_rad: FloatArray) -> IntArray:
    """Return angles [rad] in whole thousandths of a degree, rounded down; NaN becomes -1.

    A millionth is added first, so that a whole number of degrees is not lost to rounding.
    """
    scaled = np.floor(np.nan_to_num(angle_rad, nan=-1.0) * MDEG + 1e-6)
    return np.where(np.isnan(angle_rad), NONE, scaled).astype(np.int64)
