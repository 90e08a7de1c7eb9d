"""What is known of a changed room from the unchanged one: its tables, and the walls it had."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.optimise.fit import room_fit
from steepwright.optimise.model import Model
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, Standing, angle_mdeg, hanging, stand
from steepwright.optimise.tolerance import steepest_rad
from steepwright.room.types import Room

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
Angles = tuple[FloatArray, IntArray]
"""Of the walls of one hanging: the steepest angle [rad]; the angle [1/1000 degree], -1 if unfit."""


@dataclass(frozen=True, slots=True)
class Known:
    """The unchanged room.

    Attributes
    ----------
    like
        Its model. All walls of it that may be of use are known.
    same_offers
        Whether the changed room's walls are made of the same offers.
    """

    like: Model
    same_offers: bool

    def angles(
        self, space: Space, hung: tuple[int, int, int], thickness_mm: int, asked_mdeg: IntArray
    ) -> Angles | None:
        """Return the angles of one hanging's walls, None if none of use fits the room.

        Walls that the unchanged room had count as unfit where that is easily seen. Others fit
        until their lift, and all behind their face, is looked at.

        Parameters
        ----------
        hung
            Indices of place and mount, and a third one that is not looked at.
        asked_mdeg
            How steep a wall must be to be of use [1/1000 degree], by board and kicker.
        """
        if self._stands_alike(space, thickness_mm):
            number = self.like.reach.thicknesses_mm.index(thickness_mm)
            return self._as_it_was(space, (hung[0], hung[1], number), asked_mdeg)
        most = 1000 * space.market.room.wall.angle_deg[1]
        hangs = hanging(space, hung[0], hung[1], thickness_mm)
        walls = stand(hung[0], hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
        mdeg = angle_mdeg(walls.angle)
        cells = np.nonzero((mdeg >= asked_mdeg) & (mdeg <= most))
        if not len(cells[0]):
            return None
        some = replace(
            walls, board=walls.board[cells], kicker=walls.kicker[cells], angle=walls.angle[cells]
        )
        fits = room_fit(space, some).fits
        if self.same_offers and _asked_otherwise(space, self.like.space):
            fits &= ~_fitted(self.like.space, some)
        fitting = np.full(mdeg.shape, NONE)
        fitting[cells] = np.where(fits, mdeg[cells], NONE)
        return (steepest_rad(space, walls), fitting) if fits.any() else None

    def _as_it_was(
        self, space: Space, where: tuple[int, int, int], asked_mdeg: IntArray
    ) -> Angles | None:
        reach, its = self.like.reach, self.like.space
        rows = np.searchsorted(its.boards_mm, space.boards_mm)
        columns = np.searchsorted(its.kickers_mm, space.kickers_mm)
        cells = np.ix_(rows, columns)
        mdeg = reach.angle_mdeg[1][reach.index[where]][cells]
        fitting = np.where(mdeg >= asked_mdeg, mdeg, NONE)
        steepest = reach.steepest_rad[reach.pose[where]][cells]
        return (steepest, fitting) if (fitting >= 0).any() else None

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


def _fitted(its: Space, walls: Standing) -> npt.NDArray[np.bool_]:
    """Tell which of some walls were among those of the unchanged room, but for their lift."""
    grid = np.isin(walls.board, its.boards_mm) & np.isin(walls.kicker, its.kickers_mm)
    return np.asarray(grid & room_fit(its, walls).fits)
