"""Where each mounting fits the room: angle and fall space over the grid of lengths.

A mounting is a place (beam and facing), a mount and a sheet thickness: they fix the pivot. The
tables are exact per cell; over a box the largest feasible angle and fall space are looked up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry import fall_space_mm, wall_y_range_mm
from steepwright.optimise.fit import room_fit
from steepwright.optimise.fold import core_clears
from steepwright.optimise.space import Space
from steepwright.optimise.standing import (
    NONE,
    Standing,
    angle_mdeg,
    hanging,
    plan_positions_mm,
    stand,
)
from steepwright.optimise.tolerance import steepest_rad

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
        The steepest overhang angle [rad] by mounting that the room's measures leave open, whether
        the wall fits the room or not; NaN where the board can't be hung.
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
        {size: box_maxima(angle, size) for size in sizes},
        {size: box_maxima(fall, size) for size in sizes},
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
    return steepest_rad(space, walls), angle, fall


def _roomy(space: Space, walls: Standing) -> bool:
    """Tell whether any wall has the fall space asked for: the quickest way to drop a place."""
    room = space.market.room
    _, lip_x = plan_positions_mm(space, walls)
    y_mm = wall_y_range_mm(room, space.width_mm)
    fall = fall_space_mm(room, space.places[walls.place][1], lip_x, *y_mm, np.inf)
    low = fall_space_mm(room, space.places[walls.place][1], lip_x, *y_mm, 0.0)
    return bool((np.maximum(fall, low) >= room.wall.min_fall_space_mm).any())


def box_maxima(table: npt.NDArray[np.int32], size: int) -> npt.NDArray[np.int32]:
    """Return the largest value over boxes of `size` x `size` cells, [..., boxes, boxes]."""
    if size == 1:
        return table
    count, rows, columns = table.shape
    down, right = -(-rows // size), -(-columns // size)
    padded = np.full((count, down * size, right * size), NONE, dtype=np.int32)
    padded[:, :rows, :columns] = table
    blocks = padded.reshape(count, down, size, right, size)
    return np.asarray(blocks.max(axis=(2, 4)), dtype=np.int32)
