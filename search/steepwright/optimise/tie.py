"""Where ties from the studs to a second beam would run, behind the board."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, hanging, plan_positions_mm, stand
from steepwright.structure.tie_share import MIDDLE

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]

NOWHERE_MM = 1e9
"""Length of a tie where none can run: no product bridges it."""


class TieLine(NamedTuple):
    """Cosine of a tie's angle to the board's normal [-], and its length [mm]."""

    cos: FloatArray
    mm: FloatArray


class TieEnds(NamedTuple):
    """Where a tie begins at the board's face and ends in the beam: x and height [mm]."""

    x_mm: FloatArray
    z_mm: FloatArray
    beam_x_mm: float
    beam_z_mm: float


def tie_ends(space: Space, walls: Standing, place: float = MIDDLE) -> TieEnds | None:
    """Return a tie's ends per wall; None when no tie can be: no beam, or the wall's own.

    It begins at a part `place` of the board's length from its lower end and ends at the middle of
    the beam's depth, on the side that looks to the wall; a beam out of level counts by its low end.
    """
    room = space.market.room
    beam, facing = space.places[walls.place]
    if room.tie_beam is None or room.tie_beam == beam:
        return None
    sign = 1 if facing == "+x" else -1
    foot, lip = plan_positions_mm(space, walls)
    at = room.beams[room.tie_beam]
    height = walls.kicker + walls.board * place * np.cos(np.nan_to_num(walls.angle))
    return TieEnds(
        foot * (1.0 - place) + lip * place,
        height,
        at.x_mm + sign * at.width_mm / 2.0,
        min(at.underside_mm) + at.depth_mm / 2.0,
    )


def tie_line(space: Space, walls: Standing, place: float = MIDDLE) -> TieLine:
    """Return how ties run; of `NOWHERE_MM` where none may.

    A tie leans back from the stud or stands upright, and pulls the board up the slope rather than
    down it: so it takes load off lip and foot both. It stays behind the board, for it leaves it
    to that side, within an angle of its normal; and it passes below no beam on its way.
    """
    ends = tie_ends(space, walls, place)
    if ends is None:
        nowhere = np.full(walls.board.shape, NOWHERE_MM)
        return TieLine(np.ones(walls.board.shape), nowhere)
    _, facing = space.places[walls.place]
    sign = 1 if facing == "+x" else -1
    angle = np.nan_to_num(walls.angle)
    back, up = sign * (ends.x_mm - ends.beam_x_mm), ends.beam_z_mm - ends.z_mm
    length = np.hypot(back, up)
    cos = (back * np.cos(angle) + up * np.sin(angle)) / np.maximum(length, 1.0)
    along = up * np.cos(angle) - back * np.sin(angle)
    least = space.market.catalog.materials.factors["tie_least_cos"]
    runs = (
        (back >= 0.0) & (up > 0.0) & (cos >= least) & (along >= 0.0) & _passes(space, walls, ends)
    )
    runs &= ~np.isnan(walls.angle)
    return TieLine(np.where(runs, cos, 1.0), np.where(runs, length, NOWHERE_MM))


def _passes(space: Space, walls: Standing, ends: TieEnds) -> npt.NDArray[np.bool_]:
    """Tell whether no other beam hangs down into a tie's way."""
    room = space.market.room
    clear = np.ones(walls.board.shape, dtype=np.bool_)
    low, high = np.minimum(ends.x_mm, ends.beam_x_mm), np.maximum(ends.x_mm, ends.beam_x_mm)
    for index, beam in enumerate(room.beams):
        if index == room.tie_beam or not beam.seen:
            continue
        for x_mm in (beam.x_mm - beam.width_mm / 2.0, beam.x_mm + beam.width_mm / 2.0):
            part = (x_mm - ends.x_mm) / np.where(high > low, ends.beam_x_mm - ends.x_mm, np.inf)
            at_mm = ends.z_mm + part * (ends.beam_z_mm - ends.z_mm)
            between = (x_mm > low) & (x_mm < high)
            clear &= ~between | (at_mm < min(beam.underside_mm))
    return clear


@dataclass(frozen=True, slots=True)
class TieTables:
    """How ties run, by mounting: over boxes of a size the most favourable of each.

    Attributes
    ----------
    cos, mm
        By box size: largest cosine and least length [place, mount, thickness, boxes, boxes].
    """

    cos: dict[int, FloatArray]
    mm: dict[int, FloatArray]


def build_ties(
    space: Space, thicknesses_mm: tuple[int, ...], sizes: tuple[int, ...]
) -> TieTables | None:
    """Tabulate the ties of every mounting; None for no ties."""
    if len(space.ties) == 1:
        return None
    shape = (len(space.places), len(space.market.catalog.mounts), len(thicknesses_mm))
    grid = (*shape, len(space.boards_mm), len(space.kickers_mm))
    cos, mm = np.empty(grid), np.empty(grid)
    for place, mount, number in np.ndindex(shape):
        hangs = hanging(space, place, mount, thicknesses_mm[number])
        walls = stand(place, hangs, space.boards_mm[:, None], space.kickers_mm[None, :])
        cos[place, mount, number], mm[place, mount, number] = tie_line(space, walls)
    return TieTables(
        {size: -_box_minima(-cos, size) for size in sizes},
        {size: _box_minima(mm, size) for size in sizes},
    )


def tie_columns(
    tables: TieTables | None, where: tuple[IntArray, ...], size: int
) -> dict[str, FloatArray]:
    """Return a batch's columns of how ties run in boxes of a size, where as in `TieTables`."""
    if tables is None:
        count = len(where[0])
        return {"tie_cos": np.ones(count), "tie_mm": np.zeros(count)}
    return {"tie_cos": tables.cos[size][where], "tie_mm": tables.mm[size][where]}


def _box_minima(table: FloatArray, size: int) -> FloatArray:
    """Return the least value over boxes of `size` x `size` cells."""
    if size == 1:
        return table
    rows, columns = (np.arange(0, length, size) for length in table.shape[-2:])
    return np.asarray(
        np.minimum.reduceat(np.minimum.reduceat(table, rows, axis=-2), columns, axis=-1)
    )
