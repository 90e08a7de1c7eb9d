"""What is known of a changed room from the unchanged one: its tables, and the walls it had."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.changes_fresh import Before
from steepwright.optimise.fit import room_fit
from steepwright.optimise.fitting import roomy
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, Hanging, Standing, angle_mdeg, hanging, stand
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


_LENGTHS = ("board", "kicker", "angle")


class _Pose(NamedTuple):
    """Walls that hang alike, their angles and cells; the steepest angle over the whole grid."""

    walls: Standing
    steepest_rad: FloatArray
    mdeg: IntArray
    cells: Cells


@dataclass(frozen=True, slots=True)
class Known:
    """The unchanged room.

    Attributes
    ----------
    before
        What was searched of it.
    same_offers
        Whether the changed room's walls are made of the same offers.
    open_at
        Tells of angles [1/1000 degree] whether walls that lean so may be of use.
    """

    before: Before
    same_offers: bool
    open_at: Callable[[IntArray], BoolArray]

    @property
    def like(self) -> Model:
        """Its model."""
        return self.before.model

    def fresh(self, space: Space) -> BoolArray:
        """Tell which ways to make a wall are new, [sheeting, section]."""
        return self.before.fresh(space)

    def kickers(self, space: Space) -> BoolArray:
        """Tell for which kickers there may be new walls.

        A grid has every board that the angles asked for need: with a kicker that it had the
        unchanged room had all of them.
        """
        its = self.like.space
        now, was = space.market.room.wall, its.market.room.wall
        same = replace(now, kicker_mm=was.kicker_mm) == was and not now.tolerance_mm
        if not (same and self.same_offers and _asked_otherwise(space, its)):
            return np.ones(space.kickers_mm.shape, dtype=np.bool_)
        return ~np.isin(space.kickers_mm, its.kickers_mm)

    def angles(
        self, space: Space, thickness_mm: int, asked_mdeg: IntArray
    ) -> Iterator[tuple[int, int, Angles]]:
        """Give the angles of the walls of a thickness, by place and mount.

        Left out are the places where none of use fits the room. Walls that the unchanged room had
        count as unfit where that is easily seen. Others fit until their lift, and all behind
        their face, is looked at.

        Parameters
        ----------
        asked_mdeg
            How steep a wall must be to be of use [1/1000 degree], by mount, board and kicker.
        """
        if self._stands_alike(space, thickness_mm):
            number = self.like.reach.thicknesses_mm.index(thickness_mm)
            for mount, asked in enumerate(asked_mdeg):
                yield from self._as_it_was(space, mount, number, asked)
        else:
            yield from self._as_it_is(space, thickness_mm, asked_mdeg)

    def _as_it_is(
        self, space: Space, thickness_mm: int, asked_mdeg: IntArray
    ) -> Iterator[tuple[int, int, Angles]]:
        known = self.same_offers and _asked_otherwise(space, self.like.space)
        poses: dict[tuple[int, float], _Pose] = {}
        for place in _all(space):
            there = []
            for mount, asked in enumerate(asked_mdeg):
                hangs = hanging(space, place, mount, thickness_mm)
                key = mount, float(np.asarray(hangs.pivot_height_mm))
                if key not in poses:
                    poses[key] = self._pose(space, hangs, asked, known)
                there.append(poses[key])
            yield from self._fitting(space, (place, thickness_mm), there, known)

    def _pose(self, space: Space, hangs: Hanging, asked_mdeg: IntArray, known: bool) -> _Pose:
        """Return the walls that hang so, whatever the place, and may be of use."""
        most = 1000 * space.market.room.wall.angle_deg[1]
        walls = stand(0, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
        mdeg = angle_mdeg(walls.angle)
        cells = np.nonzero((mdeg >= asked_mdeg) & (mdeg <= most))
        fresh = self.open_at(mdeg[cells])
        if known:
            fresh &= ~_asked_before(self.like.space, space, walls.take(cells))
        cells = tuple(at[fresh] for at in cells)
        return _Pose(walls.take(cells), steepest_rad(space, walls), mdeg[cells], cells)

    def _fitting(
        self, space: Space, where: tuple[int, int], poses: list[_Pose], known: bool
    ) -> Iterator[tuple[int, int, Angles]]:
        """Give the angles of a place and a thickness [mm], by mount: all mounts at once."""
        place, thickness_mm = where
        counts = [len(pose.mdeg) for pose in poses]
        mounts = np.repeat(np.arange(len(poses)), counts)
        walls = [pose.walls for pose in poses]
        lengths = (np.concatenate([getattr(w, name) for w in walls]) for name in _LENGTHS)
        there = Standing(place, hanging(space, place, mounts, thickness_mm), *lengths)
        fits = np.asarray(roomy(space, there), dtype=np.bool_)
        rows = np.flatnonzero(fits)
        if not len(rows):
            return
        there = replace(there.take(rows), hanging=hanging(space, place, mounts[rows], thickness_mm))
        fit = room_fit(space, there)
        fits[rows] = fit.fits & ~_fitted(self.like.space, there) if known else fit.fits
        every = np.full(len(mounts), NONE, dtype=np.float64)
        every[rows] = fit.fall_mm
        for mount, start in enumerate(np.cumsum([0, *counts[:-1]]).tolist()):
            part, pose = slice(start, start + counts[mount]), poses[mount]
            if fits[part].any():
                fitting, fall = (np.full(pose.steepest_rad.shape, NONE) for _ in range(2))
                fitting[pose.cells] = np.where(fits[part], pose.mdeg, NONE)
                fall[pose.cells] = np.where(fits[part], every[part], NONE)
                yield place, mount, Angles(pose.steepest_rad, fitting, fall)

    def _as_it_was(
        self, space: Space, mount: int, thickness: int, asked_mdeg: IntArray
    ) -> Iterator[tuple[int, int, Angles]]:
        reach, its = self.like.reach, self.like.space
        cells = _part(its.boards_mm, space.boards_mm), _part(its.kickers_mm, space.kickers_mm)
        least = int(asked_mdeg.min())
        for place in _all(space):
            where = place, mount, thickness
            number = reach.index[where]
            if reach.angle_mdeg[BOX_SIZES[0]][number].max() < least:
                continue
            mdeg, fall = (table[1][number][cells] for table in (reach.angle_mdeg, reach.fall_mm))
            steep = mdeg >= asked_mdeg
            steep[steep] = self.open_at(mdeg[steep].astype(np.int64))
            if steep.any():
                fitting, fall = (np.where(steep, table, NONE) for table in (mdeg, fall))
                yield (
                    place,
                    mount,
                    Angles(reach.steepest_rad[reach.pose[where]][cells], fitting, fall),
                )

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


def _part(every: IntArray, some: IntArray) -> slice:
    """Return where one grid of lengths lies in another of the same step."""
    start = int(np.searchsorted(every, some[0]))
    return slice(start, start + len(some))


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
    step = its.market.room.wall.step_mm
    there = np.ones(walls.board.shape, dtype=np.bool_)
    for some, every in ((walls.board, its.boards_mm), (walls.kicker, its.kickers_mm)):
        there &= (some >= every[0]) & (some <= every[-1]) & ((some - every[0]) % step == 0)
    return there


def _fitted(its: Space, walls: Standing) -> npt.NDArray[np.bool_]:
    """Tell which of some walls were among those of the unchanged room, but for their lift."""
    return np.asarray(_on_grid(its, walls) & room_fit(its, walls).fits)
