"""Folding walls up under the ceiling: whether the sweep is clear and where the board parks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.geometry import (
    HungBoard,
    park,
    standing_clear_mm,
    sweep_clear_apart_mm,
    sweep_clear_mm,
    sweep_is_clear,
)
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing

FloatArray = npt.NDArray[np.float64]
YRange = tuple[npt.ArrayLike, npt.ArrayLike]

SOLIDS_IN_THE_WAY = "solids in the way of folding up"
END_WALL_IN_THE_WAY = "the room's end wall in the way of folding up"


def hung(walls: Standing, depth_mm: npt.ArrayLike) -> HungBoard:
    """Return boards by their section about the pivot, their kickers folded onto the face.

    `depth_mm` reaches from the climbing face to the back of the frame. A folded kicker is as
    thick as its board's sheet is taken to be: what stands proud of the face is left to the
    builder's eye and said beside the number.
    """
    return HungBoard(
        board_mm=walls.board,
        angle_rad=walls.angle,
        pivot_height_mm=walls.hanging.pivot_height_mm,
        setback_mm=walls.hanging.setback_mm,
        behind_mm=walls.hanging.behind_mm,
        depth_mm=depth_mm,
    )


def back_rise_mm(
    back_mm: npt.ArrayLike, setback_mm: npt.ArrayLike, angle_rad: npt.ArrayLike, fold_up: bool
) -> FloatArray:
    """Return how far the frame's upper back corner rises above the pivot [mm].

    The corner lies `back` square to the board and `setback` along it from the pivot; at angle t
    it stands back sin t + setback cos t above it. A wall that folds up turns on to level, past
    the highest point at tan t = back / setback if that is still to come.
    """
    turn = np.asarray(angle_rad, dtype=np.float64)
    if fold_up:
        turn = np.fmax(np.arctan2(back_mm, setback_mm), turn)
    return np.asarray(back_mm * np.sin(turn) + np.asarray(setback_mm) * np.cos(turn))


def own_beam_margin_mm(space: Space, walls: Standing, depth_mm: npt.ArrayLike) -> FloatArray:
    """Return the room left between the frame and its own beam's underside [mm].

    The frame must stay below the underside, also beside the beam: a little more than needed.
    """
    beam = space.market.room.beams[space.places[walls.place][0]]
    hangs = walls.hanging
    drop = min(beam.underside_mm) - np.asarray(hangs.pivot_height_mm)
    back = np.maximum(np.asarray(depth_mm) - np.asarray(hangs.behind_mm), 0)
    fold_up = space.market.room.wall.fold_up
    rise = back_rise_mm(back, hangs.setback_mm, walls.angle, fold_up)
    return np.asarray(np.nan_to_num(drop - rise, nan=-1.0))


def stands_clear(
    space: Space, walls: Standing, depth_mm: npt.ArrayLike, y_mm: YRange
) -> FloatArray:
    """Return the clearance of standing boards from beams, ceiling and solids [mm].

    A board whose upper back corner is below the lowest beam is clear of everything overhead;
    the exact answer is worked out only for the others. Solids are looked at with the floor and
    the room behind the kicker.
    """
    room, (beam, facing) = space.market.room, space.places[walls.place]
    lowest = min(room.ceiling_mm, *(min(b.underside_mm) for b in room.beams))
    hangs = walls.hanging
    back = np.maximum(np.asarray(depth_mm) - np.asarray(hangs.behind_mm), 0)
    rise = back_rise_mm(back, hangs.setback_mm, walls.angle, fold_up=False)
    clear = np.asarray(lowest - np.asarray(hangs.pivot_height_mm) - rise)
    near = ~(clear >= 0)
    if bool(near.any()):
        doubtful = replace(walls, angle=np.where(near, walls.angle, np.nan))
        board = hung(doubtful, depth_mm)
        exact = standing_clear_mm(room, room.beams[beam], facing, board, y_mm)
        clear = np.where(near, exact, clear)
    return np.asarray(np.nan_to_num(clear, nan=-1.0))


def fold_clearance_mm(
    space: Space, walls: Standing, depth_mm: npt.ArrayLike, y_mm: YRange
) -> FloatArray:
    """Return the least clearance of the lift from standing to level [mm]; negative collides.

    To level even where a beam or the ceiling stops the board before: then a deeper frame never
    clears what a thinner one does not, which the search's bounds rest on.
    """
    room, (beam, facing) = space.market.room, space.places[walls.place]
    level = np.full(np.shape(walls.angle), np.pi / 2)
    board = hung(walls, depth_mm)
    clear = sweep_clear_mm(room, room.beams[beam], facing, board, level, y_mm)
    return np.asarray(np.nan_to_num(clear, nan=-1.0))


def lift_margins_mm(
    space: Space,
    walls: Standing,
    depth_mm: npt.ArrayLike,
    y_mm: YRange,
    at: npt.NDArray[np.bool_],
) -> dict[str, FloatArray]:
    """Return what `fold_clearance_mm` finds, solids and end walls each by itself [mm].

    Only the walls in `at` are looked at, all hanging alike: the others have NaN.
    """
    room, (beam, facing) = space.market.room, space.places[walls.place]
    some = walls.take(at)
    level = np.full(some.angle.shape, np.pi / 2)
    apart = sweep_clear_apart_mm(room, room.beams[beam], facing, hung(some, depth_mm), level, y_mm)
    margins = {}
    for name, clear in zip((SOLIDS_IN_THE_WAY, END_WALL_IN_THE_WAY), apart, strict=True):
        margins[name] = np.full(walls.angle.shape, np.nan)
        margins[name][at] = np.nan_to_num(clear, nan=-1.0, posinf=np.inf)
    return margins


def core_clears(space: Space, walls: Standing, y_mm: YRange) -> npt.NDArray[np.bool_]:
    """Tell of which walls the lift of the board's core line is clear.

    The line runs through the pivot from lip to foot; it lies inside every board whatever its
    sheet and studs, so where it collides every board does. The angle is the steepest one among
    the boards meant: the shortest lift.
    """
    room, (beam, facing) = space.market.room, space.places[walls.place]
    lines = hung(replace(walls, hanging=replace(walls.hanging, behind_mm=0.0)), 0.0)
    level = np.full(np.shape(walls.angle), np.pi / 2)
    return sweep_is_clear(room, room.beams[beam], facing, lines, level, y_mm)


def parked_document(space: Space, walls: Standing, depth_mm: float, y_mm: YRange) -> dict[str, Any]:
    """Return one wall's parked position as plain data."""
    room, (beam, facing) = space.market.room, space.places[walls.place]
    rest = park(room, room.beams[beam], facing, hung(walls, depth_mm), y_mm)
    return {
        "angle_deg": round(float(np.degrees(rest.angle_rad.ravel()[0])), 2),
        "headroom_mm": round(float(rest.headroom_mm.ravel()[0])),
        "x_mm": [
            round(float(rest.x_from_mm.ravel()[0])),
            round(float(rest.x_to_mm.ravel()[0])),
        ],
        "stops_at": rest.stops[int(rest.stop.ravel()[0])],
    }
