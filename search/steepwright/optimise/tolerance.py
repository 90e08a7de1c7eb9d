"""Walls in a room whose measures may each be wrong by so much: every constraint at its worst.

Wrong may be, each by itself and by up to e: the room's length, width and ceiling, where every
beam is and how high, and every side of every solid. How far a beam is out of level counts as
measured: that is found with a level, not as a difference of heights. The board, its kicker and
its mounts are made as planned; so the pivot may be higher or lower by e than thought, and along
the room elsewhere by e, and the board leans a little more or less.

The angle t falls as the pivot's height Z rises (`geometry/wall.py`: dt/dZ = -1/D with
D = A sin t - n cos t, and D grows with t), so t lies between those of Z + e and Z - e. A
constraint that only goes one way in t and in the measures is taken at its worst end. For
collisions the standing board as measured must keep clear by more than board and solid can come
nearer: a point of the board with offsets h (towards the foot) and v (down) from the pivot moves by
dx/dZ = v/D and dz/dZ = 1 - h/D, where v is at most H + depth + a + |n| and h lies between
-(a + |n|) and D + depth; the least D and the greatest H of the range bound both (mean value
theorem). All walls that pass are therefore safe; a few are dropped that would be, too.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry import (
    HoldEnds,
    Stance,
    fall_space_mm,
    floor_clear,
    foot_room_mm,
    lip_from_pivot_mm,
    lip_height_mm,
    passage_mm,
    standing_clear_mm,
    wall_y_range_mm,
)
from steepwright.optimise.fold import fold_clearance_mm, hung, lift_margins_mm, own_beam_margin_mm
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, angle_mdeg, plan_positions_mm, stand
from steepwright.optimise.wishes import REACHES, climbing_margins, level_margin_mm, reach_margin_mm
from steepwright.room.types import Room

FloatArray = npt.NDArray[np.float64]


def steepest_rad(space: Space, walls: Standing) -> FloatArray:
    """Return the steepest angle [rad] at which the walls may turn out to stand; NaN for none."""
    by = space.market.room.wall.tolerance_mm
    return _raised(walls, -by).angle if by else walls.angle


def angle_range_deg(space: Space, walls: Standing) -> tuple[float, float]:
    """Return the least and greatest angle [deg] at which the first wall may turn out to stand."""
    by = space.market.room.wall.tolerance_mm
    flat, steep = (_raised(walls, offset).angle for offset in (by, -by))
    least, most = int(angle_mdeg(flat)[0]), float(np.degrees(steep[0]))
    return least / 1000, float(np.ceil(most * 1000 - 1e-6)) / 1000


def _raised(walls: Standing, by_mm: int) -> Standing:
    hangs = walls.hanging
    pivot = np.asarray(hangs.pivot_height_mm, dtype=np.float64) + by_mm
    return stand(walls.place, replace(hangs, pivot_height_mm=pivot), walls.board, walls.kicker)


def _smaller(room: Room, by_mm: int) -> Room:
    """Return the room with all that may be in the way as large as it may be."""

    def wider(sides: tuple[int, int]) -> tuple[int, int]:
        return sides[0] - by_mm, sides[1] + by_mm

    solids = tuple(
        replace(s, x_mm=wider(s.x_mm), y_mm=wider(s.y_mm), z_mm=wider(s.z_mm)) for s in room.solids
    )
    return replace(
        room,
        length_mm=room.length_mm - by_mm,
        width_mm=room.width_mm - by_mm,
        ceiling_mm=room.ceiling_mm - by_mm,
        solids=solids,
    )


@dataclass(frozen=True, slots=True)
class Doubt:
    """Walls as they may turn out to stand.

    Attributes
    ----------
    by_mm
        How much every measure may be wrong.
    worst
        The room at its smallest.
    flat, steep
        The walls at their least and greatest angle.
    y_mm
        The wall's range across the room, as wide as it may turn out [mm].
    moved_x_mm, moved_z_mm
        How far a point of the board may be from where it is thought to be.
    """

    by_mm: int
    space: Space
    worst: Room
    walls: Standing
    flat: Standing
    steep: Standing
    depth_mm: npt.ArrayLike | None
    y_mm: tuple[FloatArray, FloatArray]
    moved_x_mm: FloatArray
    moved_z_mm: FloatArray

    @classmethod
    def of(
        cls, space: Space, walls: Standing, depth_mm: npt.ArrayLike | None, width_mm: int
    ) -> Doubt:
        """Return the doubt about walls of some width (0: the space's least width)."""
        room = space.market.room
        by = room.wall.tolerance_mm
        flat, steep = _raised(walls, by), _raised(walls, -by)
        hangs = walls.hanging
        setback, behind = (np.asarray(v) + 0.0 for v in (hangs.setback_mm, hangs.behind_mm))
        least = np.nan_to_num(flat.angle)
        ahead = (walls.board - setback) * np.sin(least) - behind * np.cos(least)
        ahead = np.maximum(ahead, 1e-3)
        deep = np.asarray(0.0 if depth_mm is None else depth_mm)
        beyond = np.abs(setback) + np.abs(behind) + deep
        height = np.asarray(hangs.pivot_height_mm) + by - walls.kicker + beyond
        y0, y1 = wall_y_range_mm(room, width_mm or space.width_mm)
        shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[room.wall.align] * by
        return cls(
            by,
            space,
            _smaller(room, by),
            walls,
            flat,
            steep,
            depth_mm,
            (y0 - shift, y1 + shift),
            np.asarray(by * (1 + height / ahead)),
            np.asarray(by * (1 + beyond / ahead)),
        )

    def margins(self, ends: HoldEnds | None) -> dict[str, FloatArray]:
        """Return the least margin of every constraint but the lift (>= 0 fits).

        `ends` as for `climbing_margins`.
        """
        wall, worst = self.worst.wall, self.worst
        facing = self.space.places[self.walls.place][1]
        flat, steep = (np.nan_to_num(w.angle) for w in (self.flat, self.steep))
        lip_z = lip_height_mm(self.walls.board, self.walls.kicker, flat)
        deep = 0.0 if self.depth_mm is None else self.depth_mm
        sign = 1 if facing == "+x" else -1
        lips, feet = self._along(flat, steep, sign)
        fall = fall_space_mm(worst, facing, sign * lips[0], *self.y_mm, lip_z)
        behind = np.asarray(deep) + feet[1] - feet[0]
        margins = {
            "wall.angle_deg (least)": angle_mdeg(self.flat.angle) / 1000 - wall.angle_deg[0],
            "wall.angle_deg (greatest)": wall.angle_deg[1] - angle_mdeg(self.steep.angle) / 1000,
            "wall.min_fall_space_mm": np.floor(fall - (lips[1] - lips[0])) - wall.min_fall_space_mm,
            "room.ceiling_mm": worst.ceiling_mm - lip_z,
            "room behind the kicker": foot_room_mm(
                worst, facing, sign * feet[1], behind, *self.y_mm
            ),
            "solids under the board": np.where(self._floor_clear(sign, deep), 0.0, -1.0),
            "wall.side_passage_mm": self._passage_mm() - wall.side_passage_mm + 0.0 * fall,
            "mounts.adjust_mm": self._level_mm() + 0.0 * fall,
        }
        margins |= climbing_margins(self.space, self.flat, ends)
        if self.depth_mm is not None:
            margins["own beam above the frame"] = self._own_beam_mm(self.depth_mm)
            margins["beams, ceiling and solids around the frame"] = self._stands_mm(self.depth_mm)
        margins[REACHES] = np.minimum(reach_margin_mm(self.flat), reach_margin_mm(self.steep))
        return margins

    def lift_margin_mm(self, kept: npt.NDArray[np.bool_]) -> FloatArray:
        """Return by how much the lift stays clear at least, 0 for walls that are not kept.

        Turned by the same angle the board is off by what the pivot is off, and a solid by as
        much; the lift begins at the least angle.
        """
        deep = np.asarray(self.depth_mm)
        low = replace(self.walls, angle=np.where(kept, self.flat.angle, np.nan))
        lift = fold_clearance_mm(self.space, low, deep, self._y_around())
        return np.where(kept, lift - self._lift_off_mm, 0.0)

    def lift_margins_mm(self, at: npt.NDArray[np.bool_]) -> dict[str, FloatArray]:
        """Return the same for some walls, solids and end walls each by itself, NaN for others."""
        deep, low = np.asarray(self.depth_mm), replace(self.walls, angle=self.flat.angle)
        lifts = lift_margins_mm(self.space, low, deep, self._y_around(), at)
        return {name: lift - self._lift_off_mm for name, lift in lifts.items()}

    @property
    def _lift_off_mm(self) -> float:
        return float(np.hypot(2 * self.by_mm, 2 * self.by_mm))

    def _along(
        self, flat: FloatArray, steep: FloatArray, sign: int
    ) -> tuple[tuple[FloatArray, FloatArray], tuple[FloatArray, FloatArray]]:
        """Return the ranges of lip and foot along the facing [mm].

        From the pivot to the lip it is a sin t + n cos t, largest at tan t = a / n; the foot
        goes back as the angle grows.
        """
        hangs = self.walls.hanging
        setback, behind = np.asarray(hangs.setback_mm), np.asarray(hangs.behind_mm)
        ends = [lip_from_pivot_mm(angle, setback, behind) for angle in (flat, steep)]
        top = np.clip(np.arctan2(setback, behind), flat, steep)
        most = np.maximum(lip_from_pivot_mm(top, setback, behind), np.maximum(*ends))
        beam = sign * self.worst.beams[self.space.places[self.walls.place][0]].x_mm
        runs = [self.walls.board * np.sin(angle) for angle in (flat, steep)]
        by = self.by_mm
        lips = beam - by + np.minimum(*ends), beam + by + most
        return lips, (beam - by + ends[1] - runs[1], beam + by + ends[0] - runs[0])

    def _floor_clear(self, sign: int, deep: npt.ArrayLike) -> npt.NDArray[np.bool_]:
        facing = self.space.places[self.walls.place][1]
        foot, _ = plan_positions_mm(self.space, self.walls)
        angle = np.nan_to_num(self.walls.angle)
        longer = 2 * self.moved_x_mm / np.maximum(np.sin(angle), 1e-6)
        larger = Stance(
            foot - sign * self.moved_x_mm,
            angle,
            self.walls.board + longer,
            self.walls.kicker + self.moved_z_mm,
            deep,
        )
        return floor_clear(self.worst, facing, larger, *self.y_mm)

    def _passage_mm(self) -> FloatArray:
        low, high = np.minimum(*self._plan()), np.maximum(*self._plan())
        run = low - self.moved_x_mm, high + self.moved_x_mm
        return passage_mm(self.worst, *self.y_mm, run)

    def _plan(self) -> tuple[FloatArray, FloatArray]:
        return plan_positions_mm(self.space, self.walls)

    def _own_beam_mm(self, depth_mm: npt.ArrayLike) -> FloatArray:
        """Look at the angle at which the frame's back corner is highest."""
        hangs = self.walls.hanging
        back = np.maximum(np.asarray(depth_mm) - np.asarray(hangs.behind_mm), 0)
        peak = np.arctan2(back, np.asarray(hangs.setback_mm))
        highest = np.clip(peak, self.flat.angle, self.steep.angle)
        return own_beam_margin_mm(self.space, replace(self.walls, angle=highest), depth_mm)

    def _level_mm(self) -> FloatArray:
        """Return what is left to level the lip when the wall's ends are elsewhere on the beam."""
        left, right = self.worst.beams[self.space.places[self.walls.place][0]].underside_mm
        tilt = 2 * abs(right - left) * self.by_mm / self.worst.width_mm
        margin = level_margin_mm(self.space, self.walls, self.y_mm)
        return np.asarray(margin - tilt)

    def _stands_mm(self, depth_mm: npt.ArrayLike) -> FloatArray:
        """Return by how much the board stays clear of all but its own beam, which hangs with it.

        Under a hidden joist that is the ceiling, which `_own_beam_mm` looks at.
        """
        room, (own, facing) = self.space.market.room, self.space.places[self.walls.place]
        others = tuple(beam for n, beam in enumerate(room.beams) if n != own)
        ceiling = room.ceiling_mm if room.beams[own].seen else room.ceiling_mm * 10
        around = replace(room, beams=others, ceiling_mm=ceiling)
        board = hung(self.walls, depth_mm)
        clear = standing_clear_mm(around, room.beams[own], facing, board, self._y_around())
        slope = max((abs(b.underside_mm[1] - b.underside_mm[0]) for b in others), default=0)
        near = np.hypot(self.moved_x_mm + self.by_mm, self.moved_z_mm + self.by_mm)
        tilt = 3 * slope * self.by_mm / room.width_mm
        return np.asarray(np.nan_to_num(clear, nan=-1.0) - near - tilt)

    def _y_around(self) -> tuple[FloatArray, FloatArray]:
        """Return the range across the room in which a solid as measured may be met [mm]."""
        return self.y_mm[0] - self.by_mm, self.y_mm[1] + self.by_mm
