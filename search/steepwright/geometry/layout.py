"""How a board is divided and framed: pieces, studs, rails and blocking, in whole millimetres.

The frame: studs on edge (narrow side to the sheet) stand between a foot rail and a lip rail of
the same section that run the full width. A seam up the slope lies on a stud's middle; a seam
across the slope lies on blocking between the studs. The kicker has a plate at its foot and
head, and an upright under every stud.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class LayoutLimits:
    """Smallest parts that can be made [mm]: side of a board piece, bar between two others."""

    min_piece_mm: int
    min_upright_mm: int


@dataclass(frozen=True, slots=True, order=True)
class Split:
    """How the board is divided.

    `full_column_mm` and `full_row_mm` are 0 for equal parts; otherwise every part but the last
    has exactly that size (a stock sheet's side, so that it needs no cut) and the last part is
    the rest. Rows are counted from the lower end up.
    """

    columns: int
    full_column_mm: int
    rows: int
    full_row_mm: int


def divide(total_mm: int, parts: int, full_mm: int, min_piece_mm: int) -> tuple[int, ...] | None:
    """Return the sizes of `parts` pieces of a length [mm], or None when a rest is too small.

    With `full_mm` 0 the pieces are equal to the millimetre, larger ones first.
    """
    if parts == 1:
        return (total_mm,)
    if full_mm == 0:
        size, larger = divmod(total_mm, parts)
        sizes = (size + 1,) * larger + (size,) * (parts - larger)
    else:
        sizes = (full_mm,) * (parts - 1) + (total_mm - full_mm * (parts - 1),)
    return sizes if min(sizes) >= min_piece_mm else None


def divided_range_mm(total_mm: IntArray, parts: int, full_mm: int) -> tuple[IntArray, IntArray]:
    """Return the least and the largest piece of many lengths [mm] divided as by `divide`."""
    if parts == 1:
        return total_mm, total_mm
    if full_mm == 0:
        return total_mm // parts, -(-total_mm // parts)
    rest = total_mm - full_mm * (parts - 1)
    return np.minimum(rest, full_mm), np.maximum(rest, full_mm)


def stud_centres(columns_mm: tuple[int, ...], bays: int, stud_mm: int) -> tuple[float, ...]:
    """Return the studs' middle lines [mm] from the wall's left edge.

    Outer studs are flush with the edges, a stud lies under every seam up the slope, and each
    column has `bays` equal spaces.
    """
    seams = [0.0]
    for size in columns_mm:
        seams.append(seams[-1] + size)
    anchors = [stud_mm / 2, *seams[1:-1], seams[-1] - stud_mm / 2]
    centres = [anchors[0]]
    for left, right in itertools.pairwise(anchors):
        centres.extend(left + (right - left) * (i + 1) / bays for i in range(bays))
    return tuple(centres)


def largest_bay_mm(columns_mm: tuple[int, ...], bays: int, stud_mm: int) -> float:
    """Return the largest distance between neighbouring stud centres [mm]."""
    centres = stud_centres(columns_mm, bays, stud_mm)
    return max(right - left for left, right in itertools.pairwise(centres))


@lru_cache(maxsize=65_536)
def blocking_lengths(
    columns_mm: tuple[int, ...], bays: int, stud_mm: int
) -> tuple[tuple[int, int], ...]:
    """Return the blocking between the studs as (length [mm], count), longest first; remembered."""
    centres = stud_centres(columns_mm, bays, stud_mm)
    counts: dict[int, int] = {}
    for left, right in itertools.pairwise(centres):
        length = int(right - left - stud_mm)
        counts[length] = counts.get(length, 0) + 1
    return tuple(sorted(counts.items(), reverse=True))


@dataclass(frozen=True, slots=True)
class FrameShape:
    """What a frame's bars depend on; lengths in mm."""

    board_mm: int
    kicker_mm: int
    columns_mm: tuple[int, ...]
    rows: int
    bays: int
    stud_mm: int

    @property
    def width_mm(self) -> int:
        """Width of the wall [mm]."""
        return sum(self.columns_mm)

    @property
    def studs(self) -> int:
        """Number of studs."""
        return len(self.columns_mm) * self.bays + 1


def frame_bars(shape: FrameShape, limits: LayoutLimits) -> tuple[tuple[str, int, int], ...] | None:
    """Return the frame's bars as (name, length [mm], count); None when one would be too short."""
    if not can_be_framed(shape, limits):
        return None
    both_rails_mm = 2 * shape.stud_mm
    bars = [("stud", shape.board_mm - both_rails_mm, shape.studs), ("rail", shape.width_mm, 2)]
    if shape.rows > 1:
        blocks = blocking_lengths(shape.columns_mm, shape.bays, shape.stud_mm)
        bars += [("seam blocking", length, count * (shape.rows - 1)) for length, count in blocks]
    if shape.kicker_mm:
        bars.append(("kicker plate", shape.width_mm, 2))
        bars.append(("kicker upright", shape.kicker_mm - both_rails_mm, shape.studs))
    return tuple(bars)


def can_be_framed(shape: FrameShape, limits: LayoutLimits) -> bool:
    """Tell whether no bar of the frame would be too short."""
    shortest_mm = blocking_lengths(shape.columns_mm, shape.bays, shape.stud_mm)[-1][0]
    lowest_mm = min(shape.board_mm, shape.kicker_mm or shape.board_mm) - 2 * shape.stud_mm
    return min(shortest_mm, lowest_mm) >= limits.min_upright_mm
