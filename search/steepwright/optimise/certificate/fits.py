"""Where walls fit the room by the margins that the checker works out for itself.

Leaving a margin out only lets more walls in, so a proof over these walls is good for the rest. What
else keeps a wall out (its frame's depth, folding up, a tolerance) is the search's word.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.fitting import fitting, margins_of
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.pad_floor import pads_cents
from steepwright.optimise.pad_tables import MOST_CENTS, box_minima
from steepwright.optimise.reach import pyramid
from steepwright.optimise.space import Space
from steepwright.optimise.standing import NONE, hanging, stand
from steepwright.optimise.wishes import REACHES

IntArray = npt.NDArray[np.int64]

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

    Arrays over [beam, mount, thickness, boxes of boards, boxes of kickers]; `pads` has the least
    cost of pads [cents] over the walls that fit, and nothing where pads are not on the bill.
    """

    pyramid: dict[int, npt.NDArray[np.int32]]
    places: IntArray
    pads: dict[int, IntArray]

    def angle_mdeg(self, model: Model, entries: Entries, size: int) -> IntArray:
        """Return the largest angle in each entry's box."""
        thickness = model.sheetings.thickness[entries.sheeting]
        beam = self.places[entries.place]
        where = (beam, entries.mount, thickness, entries.row // size, entries.column // size)
        return self.pyramid[size][where].astype(np.int64)

    def pads_cents(self, model: Model, entries: Entries, size: int) -> IntArray | int:
        """Return the least cost of pads in each entry's box."""
        if not self.pads:
            return 0
        thickness = model.sheetings.thickness[entries.sheeting]
        where = self.places[entries.place], entries.mount, thickness
        return self.pads[size][(*where, entries.row // size, entries.column // size)]


def fits_of(model: Model) -> Fits:
    """Return the largest angles that fit by `MARGINS`, for every beam, mount and thickness."""
    space, thicknesses = _as_measured(model.space), model.reach.thicknesses_mm
    beams = np.array([beam for beam, _ in space.places], dtype=np.int64)
    mounts = len(space.market.catalog.mounts)
    shape = len(np.unique(beams)), mounts, len(thicknesses)
    best = np.full((*shape, *model.grid), NONE, dtype=np.int32)
    padded = space.market.room.yard.pads_on_bill
    pads = np.full(best.shape if padded else (0,), MOST_CENTS, dtype=np.int64)
    # What the search found to fit before it looked at the lift, it found by the same margins.
    fitted = model.reach.fitted
    exact = fitted is not None and not model.space.market.room.wall.tolerance_mm
    if fitted is None or not (exact and margins_of(space) <= {*MARGINS, REACHES}):
        fitted = fitting(space, thicknesses, MARGINS)
    for one in fitted.mountings:
        where = beams[one.place], one.mount, one.thickness
        best[where][one.cells] = np.maximum(best[where][one.cells], one.angle_mdeg)
        if padded:
            row, column = one.cells
            hangs = hanging(space, one.place, one.mount, thicknesses[one.thickness])
            walls = stand(one.place, hangs, space.boards_mm[row], space.kickers_mm[column])
            cents = pads_cents(space, walls, one.fall_mm, space.width_mm)
            pads[where][one.cells] = np.minimum(pads[where][one.cells], cents)
    flat = best.reshape(-1, *model.grid)

    def by_beam(boxed: npt.NDArray[Any]) -> npt.NDArray[Any]:
        return boxed.reshape(*shape, *boxed.shape[1:])

    most = {size: by_beam(level) for size, level in pyramid(flat, BOX_SIZES).items()}
    if not padded:
        return Fits(most, beams, {})
    cents = pads.reshape(-1, *model.grid)
    least = {size: by_beam(box_minima(cents, flat >= 0, size)) for size in BOX_SIZES}
    return Fits(most, beams, least)


def _as_measured(space: Space) -> Space:
    """Return the same space with its measures taken for exact."""
    room = space.market.room
    exact = replace(room, wall=replace(room.wall, tolerance_mm=0))
    return replace(space, market=replace(space.market, room=exact))
