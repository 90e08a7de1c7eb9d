"""Piece prices that prove a lower bound: a dual solution, checked in integers.

Floating point only proposes the prices; they are rounded to integers and lowered until no bar of
any pattern is worth more than it costs. That check is the proof, not the simplex method.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

SHIFT = 20
"""Piece prices are integers in units of 2**-SHIFT cent."""

SCALE = 1 << SHIFT

MAX_PIVOTS = 500
_EPS = 1e-9

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


def maximise(rows: IntArray, limits: IntArray, gains: IntArray) -> tuple[FloatArray, FloatArray]:
    """Return x >= 0 that maximises ``gains . x`` under ``rows @ x <= limits``, and the row prices.

    Dense simplex method in condensed form (Chvatal, Linear Programming, 1983, ch. 2 and 5);
    x = 0 is the start, so every `limits` must be >= 0. Stops at the best x found when the
    number of pivots runs out or the gain is unbounded; x then is still a solution of the rows.
    """
    m, n = rows.shape
    table = np.zeros((m + 1, n + 1))
    table[:m, :n] = rows
    table[:m, n] = limits
    table[m, :n] = -gains
    basic, free = np.arange(n, n + m), np.arange(n)
    for _ in range(MAX_PIVOTS):
        column = int(np.argmin(table[m, :n]))
        if table[m, column] >= -_EPS:
            break
        steps = table[:m, column]
        able = np.flatnonzero(steps > _EPS)
        if not able.size:
            break
        row = int(able[np.argmin(table[able, n] / steps[able])])
        _pivot(table, row, column)
        basic[row], free[column] = free[column], basic[row]
    x, prices = np.zeros(n), np.zeros(m)
    inside = basic < n
    x[basic[inside]] = table[:m, n][inside]
    slack = free >= n
    prices[free[slack] - n] = table[m, :n][slack]
    return x, prices


def _pivot(table: FloatArray, row: int, column: int) -> None:
    pivot = table[row, column]
    across, down = table[row] / pivot, table[:, column].copy()
    table -= np.outer(down, across)
    table[row] = across
    table[:, column] = -down / pivot
    table[row, column] = 1 / pivot


def piece_prices(rows: IntArray, limits: IntArray, proposal: FloatArray) -> IntArray:
    """Return integer prices near `proposal` with ``rows @ prices <= limits * SCALE`` exactly.

    Entries of `rows` may be negative (the price of a limit), the prices never are.
    """
    prices: IntArray = np.maximum(np.floor(proposal * SCALE), 0).astype(np.int64)
    most = limits * SCALE
    for _ in range(64):
        over = rows @ prices - most
        worst = int(over.max(initial=0))
        if worst <= 0:
            return prices
        # Only the pieces are lowered; the price of a limit helps the rows it is in.
        pieces = (rows >= 0).all(axis=0)
        prices = np.where(pieces, np.maximum(prices - worst, 0), prices)
    return np.zeros_like(prices)
