"""What is known of a changed room from the unchanged one: its tables, and the walls it had."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.fit import room_fit
from steepwright.optimise.fitting import roomy
from steepwright.optimise.model import Model
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, Standing, angle_mdeg, hanging, stand
from steepwright.optimise.tolerance import steepest_rad
from steepwright.room.types import Room

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
FloatArray = npt.NDArray[np.float64]
Cells = tuple[npt.NDArray[np.intp], ...]


class Angles(NamedTuple):
    """Of one hanging's walls: the steepest angle; angle and fall space, each -1 where unfit."""

    steepest_rad: FloatArray
    mdeg: IntArray
    fall_mm: IntArray


@dataclass(frozen=True, slots=True)
class Known:
    """The unchanged room.

    Attributes
    ----------
    like
        Its model. All walls of it that may be of use are known.
    same_offers
        Whether the changed room's walls are made of the same offers.
    open_at
        Tells of angles [1/1000 degree] whether walls that lean so may be of use.
    """

    like: Model
    same_offers: bool
    open_at: Callable[[IntArray], BoolArray]

    def angles(
        self, space: Space, mount: int, thickness_mm: int, asked_mdeg: IntArray
    ) -> Iterator[tuple[int, Angles]]:
        """Give the angles of the walls of a mount and a thickness, by place.

        Left out are the places where none of use fits the room. Walls that the unchanged room had
        count as unfit where that is easily seen. Others fit until their lift, and all behind
        their face, is looked at.

        Parameters
        ----------
        asked_mdeg
            How steep a wall must be to be of use [1/1000 degree], by board and kicker.
        """
        if self._stands_alike(space, thickness_mm):
            number = self.like.reach.thicknesses_mm.index(thickness_mm)
            for place in _all(space):
                angles = self._as_it_was(space, (place, mount, number), asked_mdeg)
                if angles is not None:
                    yield place, angles
        else:
            yield from self._as_it_is(space, mount, thickness_mm, asked_mdeg)

    def _as_it_is(
        self, space: Space, mount: int, thickness_mm: int, asked_mdeg: IntArray
    ) -> Iterator[tuple[int, Angles]]:
        most = 1000 * space.market.room.wall.angle_deg[1]
        known = self.same_offers and _asked_otherwise(space, self.like.space)
        poses: dict[float, tuple[Standing, BoolArray, FloatArray, IntArray, Cells]] = {}
        for place in _all(space):
            hangs = hanging(space, place, mount, thickness_mm)
            height = float(np.asarray(hangs.pivot_height_mm))
            if height not in poses:
                walls = stand(place, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
                mdeg = angle_mdeg(walls.angle)
                cells = np.nonzero((mdeg >= asked_mdeg) & (mdeg <= most))
                some = walls.take(cells)
                fresh = self.open_at(mdeg[cells])
                if known:
                    fresh &= ~_asked_before(self.like.space, space, some)
                poses[height] = some, fresh, steepest_rad(space, walls), mdeg, cells
            some, fresh, steepest, mdeg, cells = poses[height]
            there = replace(some, place=place, hanging=hangs)
            rows = np.flatnonzero(roomy(space, there) & fresh)
            if not len(rows):
                continue
            there = there.take(rows)
            fit = room_fit(space, there)
            fits = fit.fits
            if known:
                fits &= ~_fitted(self.like.space, there)
            if fits.any():
                at = tuple(cell[rows] for cell in cells)
                fitting, fall = (np.full(mdeg.shape, NONE) for _ in range(2))
                fitting[at] = np.where(fits, mdeg[at], NONE)
                fall[at] = np.where(fits, fit.fall_mm, NONE)
                yield place, Angles(steepest, fitting, fall)

    def _as_it_was(
        self, space: Space, where: tuple[int, int, int], asked_mdeg: IntArray
    ) -> Angles | None:
        reach, its = self.like.reach, self.like.space
        rows = np.searchsorted(its.boards_mm, space.boards_mm)
        columns = np.searchsorted(its.kickers_mm, space.kickers_mm)
        cells = np.ix_(rows, columns)
        number = reach.index[where]
        mdeg, fall = (table[1][number][cells] for table in (reach.angle_mdeg, reach.fall_mm))
        steep = mdeg >= asked_mdeg
        steep[steep] = self.open_at(mdeg[steep].astype(np.int64))
        if not steep.any():
            return None
        fitting, fall = (np.where(steep, table, NONE) for table in (mdeg, fall))
        return Angles(reach.steepest_rad[reach.pose[where]][cells], fitting, fall)

    def _stands_alike(self, space: Space, thickness_mm: int) -> bool:
        """Tell whether walls stand in both as high, as steep and with the same things around."""
        its = self.like.space

        def room(one: Space) -> Room:
            kept = one.market.room
            return replace(
                kept,
                access=its.market.room.access,
                climber=its.market.room.climber,
                yard=its.market.room.yard,
                findings=(),
            )

        return (
            room(space) == room(its)
            and space.market.catalog.mounts == its.market.catalog.mounts
            and space.places == its.places
            and space.width_mm == its.width_mm
            and bool(np.isin(space.boards_mm, its.boards_mm).all())
            and bool(np.isin(space.kickers_mm, its.kickers_mm).all())
            and thickness_mm in self.like.reach.thicknesses_mm
        )


def _all(space: Space) -> range:
    return range(len(space.places))


def _asked_otherwise(space: Space, its: Space) -> bool:
    """Tell whether all that differs are the angles, kickers and fall space that are asked for."""
    room, before = space.market.room, its.market.room
    same = replace(
        room.wall,
        angle_deg=before.wall.angle_deg,
        kicker_mm=before.wall.kicker_mm,
        min_fall_space_mm=before.wall.min_fall_space_mm,
    )
    kept = replace(room, wall=same, findings=before.findings)
    return kept == before and space.width_mm == its.width_mm


def _asked_before(its: Space, space: Space, walls: Standing) -> BoolArray:
    """Tell which walls were asked for as they are now: nothing else that differs concerns them."""
    now, before = space.market.room.wall, its.market.room.wall
    if now.min_fall_space_mm != before.min_fall_space_mm or now.tolerance_mm:
        return np.zeros(walls.board.shape, dtype=np.bool_)
    mdeg = angle_mdeg(walls.angle)
    least, most = before.angle_deg
    return _on_grid(its, walls) & (mdeg >= 1000 * least) & (mdeg <= 1000 * most)


def _on_grid(its: Space, walls: Standing) -> BoolArray:
    return np.isin(walls.board, its.boards_mm) & np.isin(walls.kicker, its.kickers_mm)


def _fitted(its: Space, walls: Standing) -> npt.NDArray[np.bool_]:
    """Tell which of some walls were among those of the unchanged room, but for their lift."""
    return np.asarray(_on_grid(its, walls) & room_fit(its, walls).fits)
