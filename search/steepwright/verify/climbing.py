"""What a wall offers to climb: where its rows of holds are, by a count of all places on the board.

Rows lie a whole spacing apart. Of all ways to shift them by whole mm the board has the one that
loses fewest rows to timber; of these the one with the fewest rows, then the one nearest to the
board's middle, then the lowest.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, Posed

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]
Ends = tuple[FloatArray, FloatArray]
"""The lowest and the highest row of holds, up the board [mm]."""


def asks_for_rows(room: Document) -> bool:
    """Tell whether a room limits what the rows of holds decide."""
    wall = room["wall"]
    return bool(wall.get("min_moves", 0)) or wall.get("max_start_mm") is not None


def outer_ends(room: Document, factors: Document, board_mm: FloatArray, stud_mm: int) -> Ends:
    """Return ends that no rows exceed, however boards are divided, with studs at least so wide."""
    low = max(stud_mm + factors["hold_clear_mm"], factors["hold_edge_margin_mm"])
    step = room["wall"]["hold_spacing_mm"]
    steps = np.floor(np.maximum(board_mm - 2 * low, 0) / step)
    return np.full_like(board_mm, low), low + steps * step


def drawn_ends(
    room: Document, factors: Document, rows_mm: tuple[int, ...] | None, board_mm: int, stud_mm: int
) -> tuple[float, float]:
    """Return the ends of a board of such rows; at the lip where it has none or can't be made."""
    if rows_mm is None:
        return float(board_mm), float(board_mm)
    keep = factors["hold_clear_mm"], factors["hold_edge_margin_mm"]
    return _ends(rows_mm, stud_mm, room["wall"]["hold_spacing_mm"], *keep)


@lru_cache(maxsize=65536)
def _ends(
    rows_mm: tuple[int, ...], stud_mm: int, step: int, clear: float, edge: float
) -> tuple[float, float]:
    board = sum(rows_mm)
    places = np.arange(edge, board - edge + SLACK_MM)
    seams = np.cumsum(rows_mm)[:-1]
    timber = [(0.0, stud_mm), (board - stud_mm, board)]
    timber += [(seam - stud_mm / 2, seam + stud_mm / 2) for seam in seams.tolist()]
    free = np.ones(len(places), dtype=np.bool_)
    for low, high in timber:
        free &= (places <= low - clear) | (places >= high + clear)
    best: tuple[float, ...] = ()
    kept = np.array([float(board)])
    for shift in range(min(step, len(places))):
        rows, good = places[shift::step], free[shift::step]
        rank = -float(good.sum()), float(len(rows)), abs(float(rows[0] + rows[-1]) - board)
        if good.any() and (not best or rank < best):
            best, kept = rank, rows[good]
    return float(kept[0]), float(kept[-1])


def climbs(room: Document, factors: Document, posed: Posed, ends: Ends) -> BoolArray:
    """Tell where a wall offers what was asked for to climb; what a room does not ask for is kept.

    Between the lowest and the highest row of holds a whole number of moves has to fit.
    """
    wall, (lowest, highest) = room["wall"], ends
    gain = factors["move_span_share"] * room["climber"]["span_mm"]
    start = posed.kicker_mm + lowest * np.cos(posed.angle_rad)
    most = wall.get("max_start_mm")
    return np.asarray(
        (posed.board_mm + posed.kicker_mm >= wall.get("min_climbable_mm", 0))
        & (highest - lowest >= wall.get("min_moves", 0) * gain * (1 - 1e-9) - SLACK_MM)
        & (start <= (np.inf if most is None else most) + SLACK_MM)
    )
