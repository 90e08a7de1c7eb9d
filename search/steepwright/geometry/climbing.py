"""What a wall offers to climb: length, moves by the climber's span, where the hands start.

Rough measures to compare walls with. No source gives a length per move; it is an assumption.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Factors

FloatArray = npt.NDArray[np.float64]


def moves(board_mm: npt.ArrayLike, span_mm: float, factors: Factors) -> FloatArray:
    """Return how many moves of the hands lead from the lowest row of the board to its highest [-].

    The rows lie ``hold_edge_margin_mm`` inside the board's ends (common practice); each move
    gains ``move_span_share`` of the climber's span (assumption). Rounded down.
    """
    inside = np.asarray(board_mm, dtype=np.float64) - 2 * factors["hold_edge_margin_mm"]
    gain = factors["move_span_share"] * span_mm
    return np.asarray(np.floor(np.maximum(inside, 0.0) / gain + 1e-9), dtype=np.float64)


def start_height_mm(
    kicker_mm: npt.ArrayLike, angle_rad: npt.ArrayLike, factors: Factors
) -> FloatArray:
    """Return the height above the floor of the board's lowest row of holds [mm], k + m cos t."""
    up = factors["hold_edge_margin_mm"] * np.cos(np.asarray(angle_rad, dtype=np.float64))
    return np.asarray(np.asarray(kicker_mm, dtype=np.float64) + up, dtype=np.float64)
