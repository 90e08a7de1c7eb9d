"""Where each mounting fits the room: angle and fall space over the grid of lengths.

A mounting is a place (beam and facing), a mount and a sheet thickness: they fix the pivot. The
tables are exact per cell; over a box the largest feasible angle and fall space are looked up.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from steepwright.geometry import wall_y_range_mm
from steepwright.optimise.fitting import Fitted, Fitting, fitting
from steepwright.optimise.fold import core_clears
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, Standing, hanging

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
Whole = TypeVar("Whole", np.int32, np.int64)

NOWHERE = 0
"""Number of all mountings whose walls fit the room nowhere."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Tables per mounting over the grid [boards, kickers].

    Attributes
    ----------
    thicknesses_mm
        The sheet thicknesses [mm] by their number.
    index
        Number of the mounting by [place, mount, thickness number].
    pose, steepest_rad
        Whether the wall fits the room or not, as in `steepwright.optimise.fitting.Fitted`.
    angle_mdeg, fall_mm
        Angle [1/1000 degree] and fall space [mm] where the wall fits the room, else -1;
        one pyramid level per box size: maxima over boxes.
    fitted
        Where walls fit before their lift is looked at; None where that was not worked out.
    """

    thicknesses_mm: tuple[int, ...]
    index: IntArray
    pose: IntArray
    steepest_rad: FloatArray
    angle_mdeg: dict[int, npt.NDArray[np.int32]]
    fall_mm: dict[int, npt.NDArray[np.int32]]
    fitted: Fitted | None = None


def build_reach(space: Space, thicknesses_mm: tuple[int, ...], sizes: tuple[int, ...]) -> Reach:
    """Compute the tables for every mounting."""
    fitted = fitting(space, thicknesses_mm)
    fold_up = space.market.room.wall.fold_up
    there = _lifted(space, fitted) if fold_up else fitted.mountings
    index = np.full(fitted.pose.shape, NOWHERE, dtype=np.int64)
    grid = (1 + len(there), len(space.boards_mm), len(space.kickers_mm))
    angle, fall = (np.full(grid, NONE, dtype=np.int32) for _ in range(2))
    for number, one in enumerate(there, start=NOWHERE + 1):
        index[one.place, one.mount, one.thickness] = number
        angle[number][one.cells] = one.angle_mdeg
        fall[number][one.cells] = one.fall_mm
    tables = pyramid(angle, sizes), pyramid(fall, sizes)
    return Reach(thicknesses_mm, index, fitted.pose, fitted.steepest_rad, *tables, fitted)


def _lifted(space: Space, fitted: Fitted) -> list[Fitting]:
    """Leave out the walls whose board's core can't be lifted, whatever its sheet."""
    kept = []
    for place, there in groupby(fitted.mountings, lambda one: one.place):
        sheets = list(there)
        clear = _lift_clears(space, place, _steepest_rad(space, fitted, sheets))
        lifted = [one.only(clear[one.mount][one.cells]) for one in sheets]
        kept += [one for one in lifted if len(one.angle_mdeg)]
    return kept


def _steepest_rad(space: Space, fitted: Fitted, sheets: list[Fitting]) -> FloatArray:
    """Return the steepest angle [rad] of any sheet, by mount and cell; NaN where none fits."""
    mounts = len(space.market.catalog.mounts)
    steepest = np.full((mounts, *fitted.steepest_rad.shape[1:]), np.nan)
    for one in sheets:
        pose = fitted.pose[one.place, one.mount, one.thickness]
        cells, angle = steepest[one.mount], fitted.steepest_rad[pose]
        cells[one.cells] = np.fmax(cells[one.cells], angle[one.cells])
    return steepest


def _lift_clears(space: Space, place: int, steepest_rad: FloatArray) -> npt.NDArray[np.bool_]:
    mount, row, column = there = np.nonzero(np.isfinite(steepest_rad))
    board, kicker = space.boards_mm[row].astype(float), space.kickers_mm[column].astype(float)
    lines = Standing(place, hanging(space, place, mount, 0), board, kicker, steepest_rad[there])
    clear = np.zeros(steepest_rad.shape, dtype=np.bool_)
    clear[there] = core_clears(space, lines, wall_y_range_mm(space.market.room, space.width_mm))
    return clear


def pyramid(table: npt.NDArray[Whole], sizes: tuple[int, ...]) -> dict[int, npt.NDArray[Whole]]:
    """Return a table's maxima over boxes of each size, where each divides the next larger."""
    levels, below = {1: table}, 1
    for size in sorted(sizes):
        levels[size] = box_maxima(levels[below], size // below)
        below = size
    return {size: levels[size] for size in sizes}


def box_maxima(table: npt.NDArray[Whole], size: int) -> npt.NDArray[Whole]:
    """Return the largest value over boxes of `size` x `size` cells, [..., boxes, boxes]."""
    if size == 1:
        return table
    count, rows, columns = table.shape
    down, right = -(-rows // size), -(-columns // size)
    padded = np.full((count, down * size, right * size), NONE, dtype=table.dtype)
    padded[:, :rows, :columns] = table
    blocks = padded.reshape(count, down, size, right, size)
    return np.asarray(blocks.max(axis=(2, 4)), dtype=table.dtype)
