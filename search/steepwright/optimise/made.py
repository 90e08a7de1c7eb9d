"""Ways to make a board and its frame as arrays: what bounds and structure look up per entry."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Hashable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry.layout import FrameShape, blocking_lengths, frame_bars, largest_bay_mm
from steepwright.optimise.space import Sheeting, Space

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SheetingArrays:
    """One row per sheeting.

    `layout` and `frame` number what the sheets' cost and the bars' cost depend on; of the
    sheetings that share a number the first one stands for all. `narrowest` is the number of the
    least width at which it can be made.
    """

    family: IntArray
    thickness: IntArray
    across: npt.NDArray[np.bool_]
    columns: IntArray
    rows: IntArray
    full_row_mm: IntArray
    studs: IntArray
    layout: IntArray
    frame: IntArray
    narrowest: IntArray


@dataclass(frozen=True, slots=True)
class FrameArrays:
    """Per sheeting and section, at the least width: largest bay [mm], blocking in one seam.

    Blocking is told as total [mm] and pieces. `narrowest` is the number of the least width at
    which the frame can be made: wider bays never end that. `makeable` tells whether it can at some.
    """

    bay_mm: FloatArray
    blocking_mm: IntArray
    blocking_pieces: IntArray
    narrowest: IntArray
    makeable: npt.NDArray[np.bool_]


def sheeting_arrays(space: Space, thickness: IntArray) -> SheetingArrays:
    """Return the space's sheetings; `thickness` is the number of each family's, or -1."""
    rows = space.sheetings
    family = np.array([s.family for s in rows], dtype=np.int64)
    last = space.searched - 1  # alike at the least width and the last is alike between
    one_of = {s.split: s for s in rows}.items()
    ends = {split: (space.columns_mm(s), space.columns_mm(s, last)) for split, s in one_of}
    narrowest = {split: space.least_width(s) for split, s in one_of}
    return SheetingArrays(
        family=family,
        thickness=thickness[family],
        across=np.array([s.grain == "across" for s in rows]),
        columns=np.array([s.split.columns for s in rows], dtype=np.int64),
        rows=np.array([s.split.rows for s in rows], dtype=np.int64),
        full_row_mm=np.array([s.split.full_row_mm for s in rows], dtype=np.int64),
        studs=np.array([s.studs for s in rows], dtype=np.int64),
        layout=_first_of([(s.family, s.grain, s.split) for s in rows]),
        frame=_first_of([(ends[s.split], s.bays, s.split.rows) for s in rows]),
        narrowest=np.array([narrowest[s.split] for s in rows], dtype=np.int64),
    )


def _first_of(keys: list[Hashable]) -> IntArray:
    first: dict[Hashable, int] = {}
    return np.array([first.setdefault(key, i) for i, key in enumerate(keys)], dtype=np.int64)


def frame_arrays(space: Space) -> FrameArrays:
    """Return the frames of the space's sheetings, made of each of its sections."""
    widths, section = np.unique([s.width_mm for s in space.market.sections], return_inverse=True)
    numbers: dict[tuple[int, int, int], int] = {}
    first: list[Sheeting] = []
    frame = np.empty(len(space.sheetings), dtype=np.int64)
    for i, made in enumerate(space.sheetings):
        key = made.split.columns, made.split.full_column_mm, made.bays
        frame[i] = numbers.setdefault(key, len(numbers))
        first += [made] * (len(numbers) > len(first))
    known = [[_frame_row(space, made, width) for width in widths.tolist()] for made in first]
    rows = np.array(known, dtype=np.float64).reshape(len(known), len(widths), 4)
    bay, total, pieces, narrowest = np.moveaxis(rows[frame][:, section], -1, 0)
    total, pieces, narrowest = (row.astype(np.int64) for row in (total, pieces, narrowest))
    makeable = narrowest < space.searched
    return FrameArrays(np.ascontiguousarray(bay), total, pieces, narrowest, makeable)


def _frame_row(space: Space, sheeting: Sheeting, stud_mm: int) -> tuple[float, int, int, int]:
    bays, longest, columns = sheeting.bays, int(space.boards_mm[-1]), space.columns_mm(sheeting)
    blocks = blocking_lengths(columns, bays, stud_mm)

    def makeable(width: int) -> bool:
        shape = FrameShape(longest, 0, space.columns_mm(sheeting, width), 2, bays, stud_mm)
        return frame_bars(shape, space.market.limits) is not None

    widths = range(space.least_width(sheeting), space.searched)
    return (
        largest_bay_mm(columns, bays, stud_mm),
        sum(max(length, 0) * count for length, count in blocks),
        sum(count for _, count in blocks),
        widths.start + bisect_left(widths, True, key=makeable),
    )
