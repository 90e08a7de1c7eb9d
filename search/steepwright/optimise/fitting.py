"""Which walls fit the room, their frame's depth and their lift left out: cell by cell."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry import fall_space_mm, foot_room_mm, wall_y_range_mm
from steepwright.optimise.fit import room_fit
from steepwright.optimise.space import Space
from steepwright.optimise.standing import (
    Hanging,
    Standing,
    angle_mdeg,
    hanging,
    plan_positions_mm,
    stand,
)
from steepwright.optimise.tolerance import steepest_rad
from steepwright.optimise.wishes import level_margin_mm

IntArray = npt.NDArray[np.int64]
Int32Array = npt.NDArray[np.int32]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

ROUNDED_RAD = 1e-4
"""More than an angle changes by being rounded down to thousandths of a degree."""

Cells = tuple[npt.NDArray[np.intp], ...]
"""Rows and columns of the grid of lengths."""


@dataclass(frozen=True, slots=True)
class Fitting:
    """Where the walls of one mounting fit the room: at one cell of the grid at least.

    Attributes
    ----------
    thickness
        Number of the sheet's thickness.
    cells, angle_mdeg, fall_mm
        Where they fit; angle [1/1000 degree] and fall space [mm] there.
    """

    place: int
    mount: int
    thickness: int
    cells: tuple[Int32Array, Int32Array]
    angle_mdeg: Int32Array
    fall_mm: Int32Array

    def only(self, kept: BoolArray) -> Fitting:
        """Return it with some of its cells."""
        cells = self.cells[0][kept], self.cells[1][kept]
        angle, fall = self.angle_mdeg[kept], self.fall_mm[kept]
        return replace(self, cells=cells, angle_mdeg=angle, fall_mm=fall)


@dataclass(frozen=True, slots=True)
class Fitted:
    """Where the walls of all mountings fit.

    Attributes
    ----------
    pose
        Number of how boards hang by [place, mount, thickness number]: mountings whose pivots are
        as high and as far from the board stand at the same angles.
    steepest_rad
        The steepest angle [rad] that the room's measures leave open, by pose and over the grid of
        lengths; NaN where the board can't be hung.
    mountings
        Those that fit somewhere, by place, mount and thickness.
    """

    pose: IntArray
    steepest_rad: FloatArray
    mountings: list[Fitting]


def fitting(space: Space, thicknesses_mm: tuple[int, ...], margins: tuple[str, ...] = ()) -> Fitted:
    """Return where walls fit the room.

    With `margins` only these count, which must be all that `roomy` looks at and more.
    """
    alike: dict[tuple[float, ...], list[tuple[tuple[int, int, int], Hanging]]] = {}
    shape = (len(space.places), len(space.market.catalog.mounts), len(thicknesses_mm))
    for place, mount, thickness in np.ndindex(shape):
        hangs = hanging(space, place, mount, thicknesses_mm[thickness])
        pivot = hangs.pivot_height_mm, hangs.setback_mm, hangs.behind_mm
        key = tuple(float(np.asarray(value)) for value in pivot)
        alike.setdefault(key, []).append(((place, mount, thickness), hangs))
    pose = np.empty(shape, dtype=np.int64)
    found: list[Fitting] = []
    steepest = np.empty((len(alike), len(space.boards_mm), len(space.kickers_mm)))
    for at, numbers in enumerate(alike.values()):
        standing = _Pose.of(space, numbers[0][1])
        steepest[at] = standing.steepest_rad
        for number, hangs in numbers:
            pose[number] = at
            found += standing.fitting(space, number, hangs, margins)
    found.sort(key=lambda one: (one.place, one.mount, one.thickness))
    return Fitted(pose, steepest, found)


def margins_of(space: Space) -> frozenset[str]:
    """Return the names of the margins that `fitting` looks at when it isn't told which."""
    lengths = space.boards_mm[:1], space.kickers_mm[:1]
    return frozenset(room_fit(space, stand(0, hanging(space, 0, 0, 0), *lengths)).margins)


@dataclass(frozen=True, slots=True)
class _Pose:
    """How walls stand that hang alike: the steepest angles, and the walls of an angle asked for."""

    steepest_rad: FloatArray
    cells: Cells
    walls: Standing
    angle_mdeg: IntArray

    @classmethod
    def of(cls, space: Space, hangs: Hanging) -> _Pose:
        walls = stand(0, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
        least, most = space.market.room.wall.angle_deg
        about = np.radians(least) - ROUNDED_RAD, np.radians(most) + ROUNDED_RAD
        cells = np.nonzero((walls.angle >= about[0]) & (walls.angle <= about[1]))
        mdeg = angle_mdeg(walls.angle[cells])
        asked = (mdeg >= 1000 * least) & (mdeg <= 1000 * most)
        cells = tuple(at[asked] for at in cells)
        return cls(steepest_rad(space, walls), cells, walls.take(cells), mdeg[asked])

    def fitting(
        self, space: Space, number: tuple[int, int, int], hangs: Hanging, names: tuple[str, ...]
    ) -> Iterator[Fitting]:
        """Give where they fit the room at one place, if anywhere."""
        walls = replace(self.walls, place=number[0], hanging=hangs)
        rows = np.flatnonzero(roomy(space, walls))
        if not len(rows):
            return
        fit = room_fit(space, walls.take(rows))
        kept = np.flatnonzero(fit.keeps(names) if names else fit.fits)
        rows = rows[kept]
        if len(rows):
            row, column = (at[rows].astype(np.int32) for at in self.cells)
            mdeg, fall = self.angle_mdeg[rows], fit.fall_mm[kept]
            yield Fitting(*number, (row, column), mdeg.astype(np.int32), fall.astype(np.int32))


def roomy(space: Space, walls: Standing) -> BoolArray:
    """Tell which walls have room before and behind them: the quickest way to drop most.

    Room before them under solids lower than the lowest lip; their own margins leave no more.
    """
    room = space.market.room
    if room.wall.tolerance_mm or not walls.board.size:
        return np.ones(walls.board.shape, dtype=np.bool_)
    y_mm = wall_y_range_mm(room, space.width_mm)
    level = np.broadcast_to(level_margin_mm(space, walls, y_mm) >= 0, walls.board.shape)
    if not level.any():
        return np.zeros(walls.board.shape, dtype=np.bool_)
    facing, lowest = space.places[walls.place][1], walls.kicker.min()
    foot_x, lip_x = plan_positions_mm(space, walls)
    fall = fall_space_mm(room, facing, lip_x, *y_mm, lowest)
    behind = foot_room_mm(room, facing, foot_x, 0.0, *y_mm)
    return np.asarray((fall >= room.wall.min_fall_space_mm) & (behind >= 0) & level)
