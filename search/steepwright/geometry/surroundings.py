"""A room seen from a pivot: its solids, beams, ceiling and end walls as boxes.

The pivot hangs under the middle of its beam. p runs from it away from the climber (against
the facing direction), z up; the boxes have one row per candidate.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry.space import along_facing
from steepwright.geometry.sweep import Box
from steepwright.room.types import Beam, Facing, Room

FloatArray = npt.NDArray[np.float64]

_Level = float | FloatArray
_FAR_MM = 1e6


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Where candidates hang: flat arrays of the pivot's height and the wall's range of y [mm]."""

    room: Room
    beam: Beam
    facing: Facing
    pivot_mm: FloatArray
    y0_mm: FloatArray
    y1_mm: FloatArray

    def end_walls(self) -> tuple[Box, Box]:
        """Return the room's two end walls, each as all that lies beyond it."""
        front, back = self._p(0, self.room.length_mm)
        return (
            self._box(back, _FAR_MM, -_FAR_MM, _FAR_MM),
            self._box(-_FAR_MM, front, -_FAR_MM, _FAR_MM),
        )

    def solids(self) -> tuple[Box, ...]:
        """Return every solid; one that misses a row's range of y is moved far away in it."""
        boxes = []
        for solid in self.room.solids:
            near, far = self._p(*solid.x_mm)
            hit = (solid.y_mm[0] < self.y1_mm) & (solid.y_mm[1] > self.y0_mm)
            away = np.where(hit, 0.0, _FAR_MM)
            boxes.append(self._box(near + away, far + away, *solid.z_mm))
        return tuple(boxes)

    def overhead(self) -> tuple[tuple[str, Box], ...]:
        """Return the ceiling and every beam up to it, with their names.

        What is hidden above the ceiling is in nobody's way. A beam out of level counts with its
        lowest point over the wall's range of y.
        """
        ceiling = self.room.ceiling_mm
        boxes = [("ceiling", self._box(-_FAR_MM, _FAR_MM, ceiling, _FAR_MM))]
        for beam in (beam for beam in self.room.beams if beam.seen):
            near, far = self._p(beam.x_mm - beam.width_mm / 2, beam.x_mm + beam.width_mm / 2)
            under = [beam_underside_mm(beam, self.room, y) for y in (self.y0_mm, self.y1_mm)]
            low = np.minimum(under[0], under[1])
            boxes.append((beam.name, self._box(near, far, low, np.maximum(low, ceiling))))
        return tuple(boxes)

    def _p(self, x_from_mm: float, x_to_mm: float) -> tuple[float, float]:
        away: Facing = "-x" if self.facing == "+x" else "+x"
        return along_facing((x_from_mm - self.beam.x_mm, x_to_mm - self.beam.x_mm), away)

    def _box(self, near: _Level, far: _Level, low: _Level, high: _Level) -> Box:
        zero = np.zeros_like(self.pivot_mm)
        return Box(zero + near, zero + far, zero + low - self.pivot_mm, zero + high - self.pivot_mm)


def beam_underside_mm(beam: Beam, room: Room, y_mm: npt.ArrayLike) -> FloatArray:
    """Return the height of a beam's underside at places across the room [mm].

    Straight between its left end (y = 0) and its right end (y = the room's width).
    """
    return straight_between(beam.underside_mm, room.width_mm, y_mm)


def straight_between(
    ends_mm: tuple[float, float], span_mm: float, y_mm: npt.ArrayLike
) -> FloatArray:
    """Return heights on the straight line from one at y = 0 to the other at y = span [mm]."""
    share = np.asarray(y_mm, dtype=np.float64) / span_mm
    return np.asarray(ends_mm[0] + (ends_mm[1] - ends_mm[0]) * share, dtype=np.float64)
