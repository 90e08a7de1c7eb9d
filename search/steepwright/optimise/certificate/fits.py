"""Where walls fit the room by the margins that the checker works out for itself.

Leaving a margin out only lets more walls in, so a proof over these walls is good for the rest. What
else keeps a wall out (its frame's depth, folding up, a tolerance) is looked at of single walls.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.stair import Stair
from steepwright.optimise.entries import Entries
from steepwright.optimise.fit import room_fit
from steepwright.optimise.fitting import Fitted, fitting, margins_of
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.pad_widths import MOST_CENTS, PadsByWidth, Walls, pads_by_width
from steepwright.optimise.reach import pyramid
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, Standing, hanging, stand
from steepwright.optimise.wishes import REACHES

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

MARGINS = (
    "wall.angle_deg (least)",
    "wall.angle_deg (greatest)",
    "wall.min_fall_space_mm",
    "room.ceiling_mm",
    "room behind the kicker",
    "solids under the board",
    "wall.side_passage_mm",
    "mounts.adjust_mm",
    "wall.min_climbable_mm",
    "wall.min_moves",
    "wall.max_start_mm",
)
"""The margins of `steepwright.optimise.fit.room_fit` that the checker has, too."""


@dataclass(frozen=True, slots=True)
class Fits:
    """Per box size, the largest angle [1/1000 degree] over boxes that fits, -1 where none does.

    Arrays over [beam, mount, thickness, boxes of boards, boxes of kickers].

    Attributes
    ----------
    stair
        What walls up to an angle must be shown to cost.
    pads, needed
        What pads cost by [place, mount, thickness, board, kicker] and width, and per box size the
        most cents that walls must be shown to cost without their pads at any width; None where
        pads are not on the bill.
    """

    pyramid: dict[int, npt.NDArray[np.int32]]
    places: IntArray
    stair: Stair
    pads: PadsByWidth | None
    needed: dict[int, IntArray] | None

    def angle_mdeg(self, model: Model, entries: Entries, size: int) -> IntArray:
        """Return the largest angle in each entry's box."""
        thickness = model.sheetings.thickness[entries.sheeting]
        beam = self.places[entries.place]
        where = (beam, entries.mount, thickness, entries.row // size, entries.column // size)
        return self.pyramid[size][where].astype(np.int64)

    def needed_cents(self, model: Model, entries: Entries, size: int, widths: int) -> IntArray:
        """Return what each entry's walls must be shown to cost, pads aside; 0 where none fits.

        Boxes are `size` cells a side and have so many widths.
        """
        if self.pads is None or self.needed is None:
            return self.stair.needed_cents(self.angle_mdeg(model, entries, size))
        if size == 1 and widths < model.space.searched:
            needed = self.stair.needed_cents(self.angle_mdeg(model, entries, 1))
            return _less_pads(needed, self.pads_cents(model, entries))
        thickness = model.sheetings.thickness[entries.sheeting]
        hung = self.places[entries.place], entries.mount, thickness
        return np.asarray(self.needed[size][(*hung, entries.row // size, entries.column // size)])

    def pads_cents(self, model: Model, entries: Entries) -> IntArray:
        """Return the least cost of pads over the widths of walls at single lengths."""
        places = model.space.places
        ways = sorted({facing for _, facing in places})
        beams = sorted({beam for beam, _ in places})
        hung = [np.array([places.index((beam, way)) for beam in beams]) for way in ways]
        beam = self.places[entries.place]
        ways_cents = [self.pads_facing_cents(model, entries.on(p[beam])) for p in hung]
        return np.asarray(np.min(ways_cents, axis=0))

    def pads_facing_cents(self, model: Model, entries: Entries) -> IntArray:
        """Return the same of walls that face one way."""
        if self.pads is None:
            return np.zeros(len(entries), dtype=np.int64)
        thickness = model.sheetings.thickness[entries.sheeting]
        at = entries.place, entries.mount, thickness, entries.row, entries.column
        return self.pads.between(at, entries.width, entries.widest)


def _less_pads(needed: IntArray, pads: IntArray) -> IntArray:
    left = np.where(needed > 0, np.maximum(needed - pads, 1), 0)
    return np.where(pads < MOST_CENTS, left, 0)


def fits_of(model: Model, stair: Stair) -> Fits:
    """Return the largest angles that fit by `MARGINS`, for every beam, mount and thickness."""
    space, thicknesses = _as_measured(model.space), model.reach.thicknesses_mm
    beams = np.array([beam for beam, _ in space.places], dtype=np.int64)
    mounts = len(space.market.catalog.mounts)
    shape = len(np.unique(beams)), mounts, len(thicknesses)
    best = np.full((*shape, *model.grid), NONE, dtype=np.int32)
    # What the search found to fit before it looked at the lift, it found by the same margins.
    fitted = model.reach.fitted
    exact = fitted is not None and not model.space.market.room.wall.tolerance_mm
    if fitted is None or not (exact and margins_of(space) <= {*MARGINS, REACHES}):
        fitted = fitting(space, thicknesses, MARGINS)
    for one in fitted.mountings:
        where = beams[one.place], one.mount, one.thickness
        best[where][one.cells] = np.maximum(best[where][one.cells], one.angle_mdeg)
    most = _by_boxes(best)
    if not space.market.room.yard.pads_on_bill:
        return Fits(most, beams, stair, None, None)
    pads = _pads(space, thicknesses, fitted)
    cents = pads.least_cents()
    per_beam = [cents[beams == beam].min(axis=0) for beam in range(shape[0])]
    needed = _less_pads(stair.needed_cents(best), np.array(per_beam))
    return Fits(most, beams, stair, pads, _by_boxes(needed))


def _by_boxes(table: npt.NDArray[Any]) -> dict[int, npt.NDArray[Any]]:
    """Return the maxima over boxes of each size of a table over the grid."""
    hung = table.shape[:3]
    boxed = pyramid(table.reshape(-1, *table.shape[3:]), BOX_SIZES)
    return {size: level.reshape(*hung, *level.shape[1:]) for size, level in boxed.items()}


def _pads(space: Space, thicknesses_mm: tuple[int, ...], fitted: Fitted) -> PadsByWidth:
    """Lay pads for all walls that fit, at every width that they may have."""
    walls = []
    for one in fitted.mountings:
        row, column = (at.astype(np.int64) for at in one.cells)
        hangs = hanging(space, one.place, one.mount, thicknesses_mm[one.thickness])
        some = stand(one.place, hangs, space.boards_mm[row], space.kickers_mm[column])
        walls.append(Walls((one.place, one.mount, one.thickness, row, column), some))

    def fit(some: Standing, width_mm: int) -> tuple[BoolArray, FloatArray]:
        how = room_fit(space, some, None, width_mm)
        return how.keeps(MARGINS), how.fall_mm

    grid = len(space.boards_mm), len(space.kickers_mm)
    return pads_by_width(space, (*fitted.pose.shape, *grid), walls, fit)


def _as_measured(space: Space) -> Space:
    """Return the same space with its measures taken for exact."""
    room = space.market.room
    exact = replace(room, wall=replace(room.wall, tolerance_mm=0))
    return replace(space, market=replace(space.market, room=exact))
