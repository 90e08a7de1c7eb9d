"""What pads cost at least over ranges of widths, worked out by the checker for every wall.

Between two widths at which a wall comes beside or before something new only its own ends move:
there the floor in front of it stays, and so does where the clear floor beside it ends. At every
width pads are laid anew; a wall counts where it finds room at the first of those widths, for it
finds none at any of them otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Grid, Pivot, across_mm, levels_out
from steepwright.verify.floors import stands
from steepwright.verify.pad_rows import NEVER
from steepwright.verify.pads import Pads, posed_at, sides_of_frame

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

NOWHERE = -1


class Hung(NamedTuple):
    """Walls that hang alike: number of their facing, beam, mount, thickness; where they fit."""

    at: tuple[int, int, int, int]
    facing: str
    pivot: Pivot
    beam: Document
    mount: Document
    there: IntArray


class Stretch(NamedTuple):
    """Some widths, the number of the first, each wall's floor, and cents by floor and width."""

    start: int
    floor: npt.NDArray[np.int32]
    cents: IntArray


@dataclass(frozen=True, slots=True)
class PadsWide:
    """Costs of pads [cents] by [facing, beam, mount, thickness, board, kicker] and width."""

    stretches: tuple[Stretch, ...]

    def least_of_all(self) -> IntArray:
        """Return the least cost over all widths, facing either way; `NEVER` where none fits."""
        least = np.full(self.stretches[0].floor.shape, NEVER, dtype=np.int64)
        for _, floor, cents in self.stretches:
            per_floor = np.append(cents.min(axis=1, initial=NEVER), NEVER)
            least = np.minimum(least, per_floor[floor])
        return np.asarray(least.min(axis=0))

    def least_between(self, at: tuple[IntArray, ...], first: IntArray, last: IntArray) -> IntArray:
        """Return the least cost over ranges of widths; `at` leaves out the facing."""
        least = np.full(len(first), NEVER, dtype=np.int64)
        for start, table, cents in self.stretches:
            lo, hi = np.maximum(first, start) - start, np.minimum(last + 1 - start, cents.shape[1])
            for floor in (way[at] for way in table):
                asked = np.stack([floor, lo, hi])[:, (floor != NOWHERE) & (lo < hi)]
                some, index = np.unique(asked, axis=1, return_inverse=True)
                found = [cents[n, a:b].min() for n, a, b in some.T]
                rows = np.flatnonzero((floor != NOWHERE) & (lo < hi))
                least[rows] = np.minimum(least[rows], np.array(found, np.int64)[index.ravel()])
        return least


def pads_wide(
    pads: Pads, grid: Grid, widths_mm: IntArray, shape: tuple[int, ...], hung: Iterable[Hung]
) -> PadsWide:
    """Lay pads for all walls that fit at the least width, at every width that they may have."""
    stretches, left = [], list(hung)
    for start, end in pairwise([*turning_points(pads.room, widths_mm), len(widths_mm)]):
        widths = widths_mm[start:end].tolist()
        if start:
            left = [_still(pads, one, grid, widths[0]) for one in left]
        stretches.append(_stretch(pads, grid, (start, widths), shape, left))
    return PadsWide(tuple(stretches))


def _still(pads: Pads, one: Hung, grid: Grid, width_mm: int) -> Hung:
    """Return the walls that find room when they are wider."""
    rows, columns = np.nonzero(one.there >= 0)
    there = np.full(one.there.shape, NOWHERE, dtype=np.int64)
    factors = pads.given["factors"]
    if len(rows) and levels_out(pads.room, one.beam, one.mount, factors, width_mm):
        posed = posed_at(grid, one.pivot, rows, columns)
        kept = stands(pads.room, one.facing, one.pivot, posed, width_mm)
        there[rows[kept], columns[kept]] = 0
    return one._replace(there=there)


def _stretch(
    pads: Pads,
    grid: Grid,
    of: tuple[int, list[int]],
    shape: tuple[int, ...],
    walls: list[Hung],
) -> Stretch:
    start, widths_mm = of
    table = np.full(shape, NOWHERE, dtype=np.int32)
    found, places = [np.zeros((4, 0), dtype=np.int64)], []
    for one in walls:
        rows, columns = np.nonzero(one.there >= 0)
        if len(rows):
            posed = posed_at(grid, one.pivot, rows, columns)
            found.append(pads.floors(one.facing, one.pivot, posed, widths_mm[0]))
            places.append((*one.at, rows, columns))
    floors, number = _distinct(np.concatenate(found, axis=1))
    ends = np.cumsum([part.shape[1] for part in found])
    for place, first, last in zip(places, ends, ends[1:], strict=False):
        table[place] = number[first:last]
    return Stretch(start, table, pads.priced(floors, widths_mm[0], widths_mm))


def _distinct(floors: IntArray) -> tuple[IntArray, IntArray]:
    """Return the floors that differ, and the number of each one among them."""
    number = np.zeros(floors.shape[1], dtype=np.int64)
    for row in floors:
        # No more numbers than floors, each times no more than a length: far below 2**63.
        _, number = np.unique(number * (row.max(initial=0) + 1) + row, return_inverse=True)
    first = np.unique(number, return_index=True)[1]
    return floors[:, first], number


def turning_points(room: Document, widths_mm: IntArray) -> list[int]:
    """Return the numbers of the widths at which a wall's ends have passed the side of something.

    Solids and frames' posts count, and the ends as they are and in whole millimetres.
    """
    frames = [side for beam in room["beams"] for side in sides_of_frame(room, beam["name"])]
    edges = np.array([y for solid in (*room["solids"], *frames) for y in solid["y_mm"]])
    passed = []
    for width in widths_mm.tolist():
        low, high = across_mm(room, width)
        ends = np.array([low, high, round(low), round(high)])[:, None]
        passed.append(np.sign(edges[None, :] - ends) if len(edges) else np.zeros((4, 0)))
    changed = [bool((a != b).any()) for a, b in pairwise(passed)]
    return [0, *(n for n, turned in enumerate(changed, start=1) if turned)]
