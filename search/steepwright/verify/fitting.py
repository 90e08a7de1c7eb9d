"""Which walls fit the room and how steep they stand, cell by cell."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Grid, Pivot, Posed, angles_rad, whole_mdeg
from steepwright.verify.climbing import climbs, outer_ends
from steepwright.verify.floors import stands

Document = dict[str, Any]


def fitting_mdeg(
    room: Document, given: Document, facing: str, pivot: Pivot, grid: Grid
) -> npt.NDArray[np.int64]:
    """Return the angle [1/1000 degree] where the wall fits the room, -1 where it does not.

    Left out, which only lets more walls in: the depth of the frame, folding up, and what rows of
    holds lose to timber, for which they are taken to lie anywhere between the thinnest rails.
    """
    angle = angles_rad(grid, pivot)
    mdeg = whole_mdeg(angle)
    least, most = room["wall"]["angle_deg"]
    inside = (mdeg >= 1000 * least) & (mdeg <= 1000 * most)
    if not inside.any():
        return np.full(mdeg.shape, -1, dtype=np.int64)
    rows, columns = np.nonzero(inside)
    posed = Posed(
        angle[rows, columns],
        grid.boards_mm[rows].astype(float),
        grid.kickers_mm[columns].astype(float),
    )
    thinnest = min(section["width_mm"] for section in given["sections"])
    ends = outer_ends(room, given["factors"], posed.board_mm, thinnest)
    kept = stands(room, facing, pivot, posed, grid.width_mm)
    kept &= climbs(room, given["factors"], posed, ends)
    found = np.full(mdeg.shape, -1, dtype=np.int64)
    found[rows[kept], columns[kept]] = mdeg[rows[kept], columns[kept]]
    return found
