"""How walls stand in the room: fall space and the margin left in every constraint of the room."""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry import (
    HoldEnds,
    Stance,
    fall_space_mm,
    floor_clear,
    foot_room_mm,
    lip_height_mm,
    passage_mm,
    wall_y_range_mm,
)
from steepwright.optimise.fold import (
    SOLIDS_IN_THE_WAY,
    fold_clearance_mm,
    lift_margins_mm,
    own_beam_margin_mm,
    stands_clear,
)
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, angle_mdeg, plan_positions_mm
from steepwright.optimise.tolerance import Doubt
from steepwright.optimise.wishes import REACHES, climbing_margins, level_margin_mm, reach_margin_mm

FloatArray = npt.NDArray[np.float64]

EVERY_LIFT = sys.maxsize
"""Constraints that may be broken besides, where every wall's lift is to be looked at."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How walls fit the room: fall space [mm] and, per constraint, the margin (>= 0 fits)."""

    fall_mm: FloatArray
    margins: dict[str, FloatArray]

    @property
    def fits(self) -> npt.NDArray[np.bool_]:
        """Whether every constraint is kept."""
        return _all_kept(self.margins)

    def keeps(self, names: tuple[str, ...]) -> npt.NDArray[np.bool_]:
        """Return whether those of some constraints are kept that there are."""
        return _all_kept({name: self.margins[name] for name in names if name in self.margins})


def _all_kept(margins: dict[str, FloatArray]) -> npt.NDArray[np.bool_]:
    kept = [margin >= 0 for margin in margins.values()]
    return np.asarray(np.logical_and.reduce(np.broadcast_arrays(*kept)))


def _broken(margins: dict[str, FloatArray]) -> npt.NDArray[np.int64]:
    """Return how many constraints each wall breaks."""
    broken = [~(margin >= 0) for margin in margins.values()]
    return np.asarray(np.sum(np.broadcast_arrays(*broken), axis=0))


def room_fit(
    space: Space,
    walls: Standing,
    depth_mm: npt.ArrayLike | None = None,
    width_mm: int = 0,
    ends: HoldEnds | None = None,
    *,
    lift_broken: int | None = None,
) -> Fit:
    """Return how walls fit the room.

    `depth_mm` reaches from the climbing face to the back of the frame; None leaves the frame
    out, which only makes more walls fit. The lift is looked at only where all else is kept, and
    counts as kept elsewhere. To tell what binds, `lift_broken` has it looked at wherever at most
    so many other constraints are broken, solids and end walls apart, NaN elsewhere.
    `width_mm` 0 is the space's least width. `ends` as for `climbing_margins`.
    """
    room = space.market.room
    wall = room.wall
    if wall.tolerance_mm:
        return _uncertain(space, walls, depth_mm, width_mm, ends, lift_broken)
    facing = space.places[walls.place][1]
    y0, y1 = wall_y_range_mm(room, width_mm or space.width_mm)
    foot_x, lip_x = plan_positions_mm(space, walls)
    angle = np.nan_to_num(walls.angle)
    lip_z = lip_height_mm(walls.board, walls.kicker, angle)
    fall = np.floor(fall_space_mm(room, facing, lip_x, y0, y1, lip_z))
    deep = 0.0 if depth_mm is None else depth_mm
    standing = Stance(foot_x, angle, walls.board, walls.kicker, deep)
    mdeg = angle_mdeg(walls.angle).astype(float)
    clear = floor_clear(room, facing, standing, y0, y1)
    passage = passage_mm(room, y0, y1, (foot_x, lip_x)) - wall.side_passage_mm
    margins = {
        "wall.angle_deg (least)": mdeg / 1000 - wall.angle_deg[0],
        "wall.angle_deg (greatest)": wall.angle_deg[1] - mdeg / 1000,
        "wall.min_fall_space_mm": fall - wall.min_fall_space_mm,
        "room.ceiling_mm": room.ceiling_mm - lip_z,
        "room behind the kicker": foot_room_mm(room, facing, foot_x, deep, y0, y1),
        "solids under the board": np.where(clear, 0.0, -1.0),
        "wall.side_passage_mm": passage + 0.0 * fall,
        "mounts.adjust_mm": level_margin_mm(space, walls, (y0, y1)) + 0.0 * fall,
    }
    margins |= climbing_margins(space, walls, ends)
    if depth_mm is not None:
        margins["own beam above the frame"] = own_beam_margin_mm(space, walls, depth_mm)
        margins["beams, ceiling and solids around the frame"] = stands_clear(
            space, walls, depth_mm, (y0, y1)
        )
    if wall.fold_up and depth_mm is not None and lift_broken is not None:
        margins |= lift_margins_mm(space, walls, deep, (y0, y1), _broken(margins) <= lift_broken)
    elif wall.fold_up and depth_mm is not None:
        kept = replace(walls, angle=np.where(_all_kept(margins), walls.angle, np.nan))
        lift = fold_clearance_mm(space, kept, deep, (y0, y1))
        margins[SOLIDS_IN_THE_WAY] = np.where(np.isnan(kept.angle), 0.0, lift)
    margins[REACHES] = reach_margin_mm(walls)
    return Fit(fall, margins)


def _uncertain(
    space: Space,
    walls: Standing,
    depth_mm: npt.ArrayLike | None,
    width_mm: int,
    ends: HoldEnds | None,
    lift_broken: int | None,
) -> Fit:
    """Return the fit with every margin as bad as the measures may make it; the fall as measured."""
    wall = space.market.room.wall
    exact = replace(space.market.room, wall=replace(wall, tolerance_mm=0))
    measured = replace(space, market=replace(space.market, room=exact))
    fall = room_fit(measured, walls, None, width_mm).fall_mm
    doubt = Doubt.of(space, walls, depth_mm, width_mm)
    margins = doubt.margins(ends)
    if wall.fold_up and depth_mm is not None and lift_broken is not None:
        margins |= doubt.lift_margins_mm(_broken(margins) <= lift_broken)
    elif wall.fold_up and depth_mm is not None:
        kept = _all_kept(margins)
        margins[SOLIDS_IN_THE_WAY] = doubt.lift_margin_mm(kept)
    return Fit(fall, margins)
