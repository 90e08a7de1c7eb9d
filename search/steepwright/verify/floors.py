"""The floor about a wall: what stands there, before, behind, below and beside it.

Along the room lengths are told in the direction that the climber falls in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, Pivot, Posed, across_mm

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]


def stands(room: Document, facing: str, pivot: Pivot, posed: Posed, width_mm: int) -> BoolArray:
    """Tell which walls of some width find room where they stand, their frame left out."""
    wall = room["wall"]
    side = 1.0 if facing == "+x" else -1.0
    lip = side * pivot.x_mm + lip_ahead_mm(pivot, posed.angle_rad)
    foot = lip - posed.board_mm * np.sin(posed.angle_rad)
    top = posed.kicker_mm + posed.board_mm * np.cos(posed.angle_rad)
    floor = Floor(room, side, across_mm(room, width_mm))
    return np.asarray(
        floor.clear(posed, foot, 0.0)
        & (floor.fall_mm(lip, top) >= wall["min_fall_space_mm"] - SLACK_MM)
        & (room["ceiling_mm"] - top >= -SLACK_MM)
        & (floor.behind_mm(foot) >= -SLACK_MM)
        & (floor.passage_mm(foot, lip) >= wall["side_passage_mm"] - SLACK_MM)
    )


def lip_ahead_mm(pivot: Pivot, angle_rad: FloatArray) -> FloatArray:
    """Return how far the lip is in front of the pivot, a sin t + n cos t [mm]."""
    ahead = pivot.setback_mm * np.sin(angle_rad) + pivot.behind_mm * np.cos(angle_rad)
    return np.asarray(ahead)


class Floor:
    """The floor of a room about walls that lie within a range across it."""

    def __init__(self, room: Document, side: float, across: tuple[float, float]) -> None:
        self.room, self.across = room, across
        self.solids = [_Solid.of(s, side) for s in room["solids"]]
        self.ends = sorted((0.0, side * room["length_mm"]))
        low, high = across
        self.beside = [s for s in self.solids if s.y_from < high and s.y_to > low]

    def fall_mm(self, lip: FloatArray, top_mm: FloatArray) -> FloatArray:
        """Return the free length before lips of some height [mm]."""
        fall = self.ends[1] - lip
        for solid in self.beside:
            ahead = (solid.to > lip) & (solid.z_from < top_mm)
            fall = np.where(ahead, np.minimum(fall, np.maximum(solid.near - lip, 0.0)), fall)
        return np.asarray(fall)

    def behind_mm(self, foot: FloatArray) -> FloatArray:
        """Return the free length behind the kicker's face [mm]."""
        behind = foot - self.ends[0]
        for solid in self.beside:
            behind = np.where(solid.near < foot, np.minimum(behind, foot - solid.to), behind)
        return np.asarray(behind)

    def clear(self, posed: Posed, foot: FloatArray, deep_mm: FloatArray | float) -> BoolArray:
        """Tell where nothing is below boards or in them, which are so deep with their frames.

        Below the back of the frame, `deep / sin t` above the face, where board and solid end their
        overlap nearest to the lip.
        """
        sine, cosine = np.sin(posed.angle_rad), np.cos(posed.angle_rad)
        lip = foot + posed.board_mm * sine
        top = posed.kicker_mm + posed.board_mm * cosine + deep_mm * sine
        clear = np.ones(lip.shape, dtype=np.bool_)
        for solid in self.beside:
            under = (solid.near < lip - SLACK_MM) & (solid.to > foot + SLACK_MM)
            run = np.minimum(solid.to, lip) - foot
            back = posed.kicker_mm + (run * cosine + deep_mm) / np.maximum(sine, 1e-12)
            clear &= ~(under & (solid.z_from < np.minimum(back, top) - SLACK_MM))
        return clear

    def passage_mm(self, foot: FloatArray, lip: FloatArray) -> FloatArray:
        """Return the widest strip along the room that neither wall nor solids beside it touch."""
        shape = foot.shape
        blocks = [(np.full(shape, self.across[0]), np.full(shape, self.across[1]))]
        for solid in self.solids:
            near = (solid.near < np.maximum(foot, lip)) & (solid.to > np.minimum(foot, lip))
            # What is not beside the wall is put out of the room.
            blocks.append(
                (np.where(near, solid.y_from, np.inf), np.where(near, solid.y_to, np.inf))
            )
        width = float(self.room["width_mm"])
        best = np.zeros(shape)
        for start in (np.zeros(shape), *(np.minimum(high, width) for _, high in blocks)):
            end = np.full(shape, width)
            for low, high in blocks:
                end = np.where(high > start, np.minimum(end, low), end)
            best = np.maximum(best, end - start)
        return best


@dataclass(frozen=True, slots=True)
class _Solid:
    """A solid with its range along the facing direction."""

    near: float
    to: float
    y_from: float
    y_to: float
    z_from: float

    @classmethod
    def of(cls, solid: Document, side: float) -> _Solid:
        near, to = sorted(side * float(x) for x in solid["x_mm"])
        low, high = (float(y) for y in solid["y_mm"])
        return cls(near, to, low, high, float(solid["z_mm"][0]))
