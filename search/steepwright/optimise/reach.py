"""Where each mounting fits the room: angle and fall space over the grid of lengths.

A mounting is a place (beam and facing), a mount and a sheet thickness: they fix the pivot. The
tables are exact per cell; over a box the largest feasible angle and fall space are looked up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry import (
    Stance,
    beam_underside_mm,
    climbable_mm,
    fall_space_mm,
    floor_clear,
    foot_room_mm,
    lip_height_mm,
    moves,
    passage_mm,
    start_height_mm,
    wall_y_range_mm,
)
from steepwright.optimise.fold import (
    core_clears,
    fold_clearance_mm,
    own_beam_margin_mm,
    stands_clear,
)
from steepwright.optimise.space import Space
from steepwright.optimise.standing import (
    NONE,
    Standing,
    angle_mdeg,
    hanging,
    plan_positions_mm,
    stand,
)

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Reach:
    """Tables per mounting over the grid [boards, kickers].

    Attributes
    ----------
    thicknesses_mm
        The sheet thicknesses [mm] by their number.
    index
        Number of the mounting by [place, mount, thickness number].
    angle_rad
        Overhang angle [rad] by mounting, whether it fits the room or not; NaN where the
        board can't be hung.
    angle_mdeg, fall_mm
        Angle [1/1000 degree] and fall space [mm] where the wall fits the room, else -1;
        one pyramid level per box size: maxima over boxes.
    """

    thicknesses_mm: tuple[int, ...]
    index: IntArray
    angle_rad: FloatArray
    angle_mdeg: dict[int, npt.NDArray[np.int32]]
    fall_mm: dict[int, npt.NDArray[np.int32]]


def build_reach(
    space: Space, thicknesses_mm: tuple[int, ...], sizes: tuple[int, ...], *, lift: bool = True
) -> Reach:
    """Compute the tables for every mounting.

    Without `lift` walls are left in whose lift would collide; they are looked at one by one when
    they are settled.
    """
    mounts = space.market.catalog.mounts
    shape = (len(space.places), len(mounts), len(thicknesses_mm))
    index = np.arange(math.prod(shape), dtype=np.int64).reshape(shape)
    grid = (len(index.ravel()), len(space.boards_mm), len(space.kickers_mm))
    raw = np.empty(grid)
    angle = np.empty(grid, dtype=np.int32)
    fall = np.empty(grid, dtype=np.int32)
    for place, mount in np.ndindex(shape[:2]):
        numbers = index[place, mount]
        for number, thickness in zip(numbers.tolist(), thicknesses_mm, strict=True):
            raw[number], angle[number], fall[number] = _mounting(space, place, mount, thickness)
        if lift and space.market.room.wall.fold_up:
            clear = _lift_clears(space, place, mount, raw[numbers], angle[numbers] >= 0)
            angle[numbers] = np.where(clear, angle[numbers], NONE)
            fall[numbers] = np.where(clear, fall[numbers], NONE)
    return Reach(
        thicknesses_mm,
        index,
        raw,
        {size: _box_maxima(angle, size) for size in sizes},
        {size: _box_maxima(fall, size) for size in sizes},
    )


def _lift_clears(
    space: Space, place: int, mount: int, angle: FloatArray, fits: npt.NDArray[np.bool_]
) -> npt.NDArray[np.bool_]:
    hangs = hanging(space, place, mount, 0)
    walls = stand(place, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
    steepest = np.where(fits, angle, -np.inf).max(axis=0)
    steepest = np.where(np.isfinite(steepest), steepest, np.nan)
    y_mm = wall_y_range_mm(space.market.room, space.width_mm)
    return core_clears(space, walls, steepest, y_mm)


def _mounting(
    space: Space, place: int, mount: int, thickness_mm: int
) -> tuple[FloatArray, npt.NDArray[np.int32], npt.NDArray[np.int32]]:
    hangs = hanging(space, place, mount, thickness_mm)
    walls = stand(place, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
    mdeg = angle_mdeg(walls.angle)
    least, most = space.market.room.wall.angle_deg
    angle = np.full(mdeg.shape, NONE, dtype=np.int32)
    fall = angle.copy()
    index = np.nonzero((mdeg >= 1000 * least) & (mdeg <= 1000 * most))
    some = replace(
        walls, board=walls.board[index], kicker=walls.kicker[index], angle=walls.angle[index]
    )
    if len(index[0]) and _roomy(space, some):
        fit = room_fit(space, some)
        angle[index] = np.where(fit.fits, mdeg[index], NONE)
        fall[index] = np.where(fit.fits, fit.fall_mm, NONE)
    return walls.angle, angle, fall


def _roomy(space: Space, walls: Standing) -> bool:
    """Tell whether any wall has the fall space asked for: the quickest way to drop a place."""
    room = space.market.room
    _, lip_x = plan_positions_mm(space, walls)
    y_mm = wall_y_range_mm(room, space.width_mm)
    fall = fall_space_mm(room, space.places[walls.place][1], lip_x, *y_mm, np.inf)
    low = fall_space_mm(room, space.places[walls.place][1], lip_x, *y_mm, 0.0)
    return bool((np.maximum(fall, low) >= room.wall.min_fall_space_mm).any())


REACHES = "board long enough to reach the beam"
"""Where this margin is negative there is no such wall, and the others mean nothing."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How walls fit the room: fall space [mm] and, per constraint, the margin (>= 0 fits)."""

    fall_mm: FloatArray
    margins: dict[str, FloatArray]

    @property
    def fits(self) -> npt.NDArray[np.bool_]:
        """Whether every constraint is kept."""
        return _all_kept(self.margins)


def _all_kept(margins: dict[str, FloatArray]) -> npt.NDArray[np.bool_]:
    kept = [margin >= 0 for margin in margins.values()]
    return np.asarray(np.logical_and.reduce(np.broadcast_arrays(*kept)))


def room_fit(
    space: Space, walls: Standing, depth_mm: npt.ArrayLike | None = None, width_mm: int = 0
) -> Fit:
    """Return how walls fit the room.

    `depth_mm` reaches from the climbing face to the back of the frame; None leaves the frame
    out, which only makes more walls fit. The lift is looked at only where all else is kept.
    `width_mm` 0 is the space's least width.
    """
    room = space.market.room
    wall = room.wall
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
        "mounts.adjust_mm": _level_margin_mm(space, walls, (y0, y1)) + 0.0 * fall,
    }
    margins |= _climbing_margins(space, walls)
    if depth_mm is not None:
        margins["own beam above the frame"] = own_beam_margin_mm(space, walls, depth_mm)
        margins["beams, ceiling and solids around the frame"] = stands_clear(
            space, walls, depth_mm, (y0, y1)
        )
    if wall.fold_up and depth_mm is not None:
        kept = replace(walls, angle=np.where(_all_kept(margins), walls.angle, np.nan))
        lift = fold_clearance_mm(space, kept, deep, (y0, y1))
        margins["solids in the way of folding up"] = np.where(np.isnan(kept.angle), 0.0, lift)
    short = np.maximum(_board_short_mm(walls), 1e-3)
    margins[REACHES] = np.where(np.isnan(walls.angle), -short, 0.0)
    return Fit(fall, margins)


def _level_margin_mm(
    space: Space, walls: Standing, y_mm: tuple[FloatArray, FloatArray]
) -> FloatArray:
    """Return what is left of the mounts' range once the lip is level [mm].

    The lip's ends must be let down to the mount's drop below the beam's lower end, as far as the
    beam is higher there. A wall that is wider asks for no less.
    """
    room = space.market.room
    beam = room.beams[space.places[walls.place][0]]
    high = np.maximum(*(beam_underside_mm(beam, room, y) for y in y_mm))
    let_down = high - min(beam.underside_mm)
    return np.asarray(np.round(np.asarray(walls.hanging.take_up_mm) - let_down, 6))


def _climbing_margins(space: Space, walls: Standing) -> dict[str, FloatArray]:
    """Return the margins of what the builder insists on to climb; nothing where nothing is."""
    wall, factors = space.market.room.wall, space.market.catalog.materials.factors
    margins = {}
    if wall.min_climbable_mm:
        length = climbable_mm(walls.board, walls.kicker)
        margins["wall.min_climbable_mm"] = length - wall.min_climbable_mm
    if wall.min_moves:
        offered = moves(walls.board, space.market.room.climber.span_mm, factors)
        margins["wall.min_moves"] = offered - wall.min_moves
    if wall.max_start_mm is not None:
        start = start_height_mm(walls.kicker, np.nan_to_num(walls.angle), factors)
        margins["wall.max_start_mm"] = wall.max_start_mm - start
    return margins


def _board_short_mm(walls: Standing) -> FloatArray:
    """Return by how much boards are too short to hang [mm]: L >= a + sqrt(H^2 - n^2), H > n."""
    hangs = walls.hanging
    rise = np.asarray(hangs.pivot_height_mm, dtype=np.float64) - walls.kicker
    behind = np.asarray(hangs.behind_mm, dtype=np.float64)
    least = np.asarray(hangs.setback_mm, dtype=np.float64) + np.sqrt(
        np.maximum(rise**2 - behind**2, 0)
    )
    return np.asarray(np.where(rise > behind, least - walls.board, behind - rise + 1))


def _box_maxima(table: npt.NDArray[np.int32], size: int) -> npt.NDArray[np.int32]:
    if size == 1:
        return table
    count, rows, columns = table.shape
    down, right = -(-rows // size), -(-columns // size)
    padded = np.full((count, down * size, right * size), NONE, dtype=np.int32)
    padded[:, :rows, :columns] = table
    blocks = padded.reshape(count, down, size, right, size)
    return np.asarray(blocks.max(axis=(2, 4)), dtype=np.int32)
