"""Where holds can go: a grid on the board that misses the frame, the seams and the edges."""

from __future__ import annotations

import itertools
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

BoolArray = npt.NDArray[np.bool_]
FloatArray = npt.NDArray[np.float64]
Point = tuple[float, float]


class HoldGrid(NamedTuple):
    """What holds keep to: distances between grid lines, to timber and seams, to edges [mm].

    The inserts on the bill, and the shares that the frame's edges bear, go by that to the edges.
    """

    spacing_mm: float
    clear_mm: float
    edge_mm: float


def hold_positions(
    column_widths_mm: tuple[int, ...],
    row_lengths_mm: tuple[int, ...],
    stud_centres_mm: tuple[float, ...],
    stud_width_mm: float,
    grid: HoldGrid,
) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Return the grid's points (y, u) that are free and those that the frame or a seam blocks.

    Parameters
    ----------
    column_widths_mm, row_lengths_mm
        Sizes of the board's pieces across it from the left and up it from the foot [mm].
    stud_centres_mm, stud_width_mm
        Middle lines of the studs from the left edge and the width of studs, rails and blocking
        against the sheet [mm].
    grid
        What the holds keep to.

    A rail lies at the foot and at the lip, and blocking under every seam across the slope. The
    grid is shifted by whole millimetres so that as few of its lines as can be are blocked, and
    then so that it lies as near to the middle as can be.

    Raises
    ------
    ValueError
        When the spacing is not positive.
    """
    if grid.spacing_mm <= 0:
        message = f"the spacing of holds must be positive, not {grid.spacing_mm}"
        raise ValueError(message)
    half, width = stud_width_mm / 2, float(sum(column_widths_mm))
    seams = list(itertools.accumulate(column_widths_mm[:-1]))
    bars = [(centre, half) for centre in stud_centres_mm] + [(seam, 0.0) for seam in seams]
    across, free_y = _lines(width, bars, grid)
    along, free_u = hold_rows(row_lengths_mm, stud_width_mm, grid)
    free: list[Point] = []
    blocked: list[Point] = []
    for (u, u_free), (y, y_free) in itertools.product(
        zip(along.tolist(), free_u.tolist(), strict=True),
        zip(across.tolist(), free_y.tolist(), strict=True),
    ):
        (free if u_free and y_free else blocked).append((y, u))
    return tuple(free), tuple(blocked)


def hold_rows(
    row_lengths_mm: tuple[int, ...],
    stud_width_mm: float,
    grid: HoldGrid,
) -> tuple[FloatArray, BoolArray]:
    """Return how far up the board the grid's rows are [mm], and which a rail or blocking spares.

    Parameters as for `hold_positions`.
    """
    half, length = stud_width_mm / 2, float(sum(row_lengths_mm))
    seams = itertools.accumulate(row_lengths_mm[:-1])
    rails = [(half, half), (length - half, half)] + [(seam, half) for seam in seams]
    return _lines(length, rails, grid)


def _lines(
    size_mm: float,
    bars: list[tuple[float, float]],
    grid: HoldGrid,
) -> tuple[FloatArray, BoolArray]:
    """Grid lines over a size and which of them miss the bars (middle, half width)."""
    spacing_mm, clear_mm, edge_mm = grid
    starts = np.arange(edge_mm, min(edge_mm + spacing_mm, size_mm - edge_mm + 1.0))
    end = size_mm - edge_mm + 1e-9
    counts = np.ceil((end - starts) / spacing_mm).astype(np.int64)
    starts, counts = starts[counts > 0], counts[counts > 0]
    if not len(starts):
        return np.empty(0), np.empty(0, dtype=np.bool_)
    lines = starts[:, None] + spacing_mm * np.arange(counts.max())
    free = np.arange(counts.max()) < counts[:, None]
    for middle, half in bars:
        free &= np.abs(lines - middle) >= half + clear_mm
    off_middle = np.abs(lines[:, 0] + lines[np.arange(len(lines)), counts - 1] - size_mm)
    best = np.lexsort((off_middle, counts, -free.sum(axis=1)))[0]
    return lines[best, : counts[best]], free[best, : counts[best]]
