"""Limits that are no collisions: a level lip, and what the builder insists on to climb."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.geometry import (
    HoldEnds,
    beam_underside_mm,
    climbable_mm,
    moves,
    start_height_mm,
)
from steepwright.optimise.hold_ends import any_ends
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing

FloatArray = npt.NDArray[np.float64]

REACHES = "board long enough to reach the beam"
"""Where this margin is negative there is no such wall, and the others mean nothing."""


def level_margin_mm(
    space: Space, walls: Standing, y_mm: tuple[FloatArray, FloatArray]
) -> FloatArray:
    """Return what is left of the mounts' range once the lip is level [mm].

    The lip's ends must be let down to the mount's drop below the beam's lower end, as far as the
    beam is higher there. A wall that is wider asks for no less.
    """
    room = space.market.room
    beam = room.beams[space.places[walls.place][0]]
    high = np.maximum(*(beam_underside_mm(beam, room, y) for y in y_mm))
    let_down = high - min(beam.underside_mm)
    return np.asarray(np.round(np.asarray(walls.hanging.take_up_mm) - let_down, 6))


def climbing_margins(
    space: Space, walls: Standing, ends: HoldEnds | None = None
) -> dict[str, FloatArray]:
    """Return the margins of what the builder insists on to climb; nothing where nothing is.

    `ends` are those of the walls' rows of holds, which go by split and studs; without them walls
    count as made in whatever way keeps the limits.
    """
    wall, factors = space.market.room.wall, space.market.catalog.materials.factors
    margins = {}
    if wall.min_climbable_mm:
        length = climbable_mm(walls.board, walls.kicker)
        margins["wall.min_climbable_mm"] = length - wall.min_climbable_mm
    ends = ends or any_ends(space, walls.board)
    if wall.min_moves:
        offered = moves(ends, space.market.room.climber.span_mm, factors)
        margins["wall.min_moves"] = offered - wall.min_moves + 0.0 * walls.board
    if wall.max_start_mm is not None:
        start = start_height_mm(ends.lowest_mm, walls.kicker, np.nan_to_num(walls.angle))
        margins["wall.max_start_mm"] = wall.max_start_mm - start
    return margins


def reach_margin_mm(walls: Standing) -> FloatArray:
    """Return 0 where a board can hang, else minus what it is too short [mm].

    L >= a + sqrt(H^2 - n^2), H > n.
    """
    hangs = walls.hanging
    rise = np.asarray(hangs.pivot_height_mm, dtype=np.float64) - walls.kicker
    behind = np.asarray(hangs.behind_mm, dtype=np.float64)
    least = np.asarray(hangs.setback_mm, dtype=np.float64) + np.sqrt(
        np.maximum(rise**2 - behind**2, 0)
    )
    short = np.where(rise > behind, least - walls.board, behind - rise + 1)
    return np.where(np.isnan(walls.angle), -np.maximum(short, 1e-3), 0.0)
