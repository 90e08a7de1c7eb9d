"""The search of a changed room: all places at once, cut off at walls that are known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import Rates, cost_bound_cents
from steepwright.optimise.branch import (
    SOLVE_FROM,
    Branch,
    alike_structure,
    delivery_matters,
)
from steepwright.optimise.depth import fits_with_depth
from steepwright.optimise.entries import BoolArray, Entries, children, joined, steepest_first
from steepwright.optimise.fixings import cheapest_fixing
from steepwright.optimise.found import Found
from steepwright.optimise.front import Score
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.reach import pyramid
from steepwright.optimise.standing import NONE
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.structure import Part, worst_use

IntArray = npt.NDArray[np.int64]

NOBODY = Found(-1, -1, 0, 0, 0, -1, -1, False, 0, 0, 0, None)  # type: ignore[arg-type]
"""Stands for walls that only rule others out."""

MOST = 10**6
"""More than any length on the grid or angle counts."""

SMALLEST = 8
"""Cells a side of the smallest boxes of which the walls' least lengths are told."""


class Corner(NamedTuple):
    """Over boxes of one size, by mounting: the least of all walls that may be of use.

    Row and column are grid indices of lengths, each of some wall.
    """

    row: IntArray
    column: IntArray
    mdeg: IntArray


def sweep(model: Model, rates: Rates, scores: Sequence[Score]) -> list[tuple[Score, Found]]:
    """Return the walls of a model that beat some scores and one another, the cheapest first."""
    branch = _Sweep(model, rates, corners=_corners(model))
    for score in scores:
        branch.front.offer(score, NOBODY)
    branch.sweep()
    return [member for member in branch.front.sorted() if member[1] is not NOBODY]


def _corners(model: Model) -> dict[int, Corner]:
    mdeg = model.reach.angle_mdeg[1]
    count, rows, columns = mdeg.shape
    down, right = -(-rows // SMALLEST), -(-columns // SMALLEST)
    padded = np.full((count, down * SMALLEST, right * SMALLEST), NONE, dtype=np.int32)
    padded[:, :rows, :columns] = mdeg
    boxes = padded.reshape(count, down, SMALLEST, right, SMALLEST)
    there = boxes >= 0
    row = SMALLEST * np.arange(down)[:, None] + there.any(axis=4).argmax(axis=2)
    column = SMALLEST * np.arange(right) + there.any(axis=2).argmax(axis=3)
    angle = np.where(there, boxes, MOST).min(axis=(2, 4))
    some = angle < MOST
    tables = [_minima(one, some) for one in (row, column, angle)]
    return {size: Corner(*(table[size] for table in tables)) for size in tables[0]}


def _minima(values: IntArray, there: BoolArray) -> dict[int, IntArray]:
    """Return the least values that are there over larger boxes, by the size of these.

    Where there are none it does not matter what is told.
    """
    turned = np.where(there, MOST - values, NONE).astype(np.int32)
    sizes = tuple(size // SMALLEST for size in BOX_SIZES if size >= SMALLEST)
    most = pyramid(turned, sizes)
    return {SMALLEST * size: MOST - table.astype(np.int64) for size, table in most.items()}


@dataclass(slots=True)
class _Sweep(Branch):
    """A search of all places at once: where little is left, many small steps take long.

    A box is judged by the least lengths and the least angle of those of its walls that may be of
    use: each is as long and as steep as that at least, which is all that the bounds' proofs ask
    for. A wall that costs as much as a box does at least must be steeper than all known ones that
    cost no more, so it is the load at that angle that the box must bear.
    """

    corners: dict[int, Corner] = field(default_factory=dict)

    def sweep(self) -> None:
        """Search the whole space."""
        size, shape = BOX_SIZES[0], self.model.grid
        entries = joined([self._families(at, size) for at in steepest_first(shape, size)])
        entries = self._unbeaten(entries, size)
        while size > SOLVE_FROM:
            entries = children(self._strong(entries, size), size, shape)
            size //= 2
            entries = self._cheap_bound(self._unbeaten(entries, size), size)
        self._put(self._strong(entries, size), BOX_SIZES.index(size))
        while self.open:
            self.go_on()

    def _families(self, corner: tuple[int, int], size: int) -> Entries:
        """Return what `roots` does, for all places."""
        model, where = self.model, (corner[0] // size, corner[1] // size)
        number, thickness = model.reach.index, model.sheetings.thickness
        angle = model.reach.angle_mdeg[size][number, *where].astype(np.int64)
        worth = np.minimum(self.front.worth_below_cents(angle, 0 * angle), UNAVAILABLE_CENTS)
        rest = model.pads.in_box(number, corner, size)
        rest = rest + model.space.mount_counts[0] * model.pricer.mount_cents[:, None]
        rest = rest[..., None] + model.stand_cents[:, None, None, :]
        best = np.where(angle >= 0, worth, 0)[..., None] - rest
        table = self._table(corner)
        some = table < best.max(axis=(0, 1))[thickness][:, None, :]
        if not delivery_matters(model):
            some[:, :, 1] = False
        sheeting, section, delivered = np.nonzero(some & model.frames.makeable[:, :, None])
        cents, kind = table[sheeting, section, delivered], thickness[sheeting]
        may = (cents < best[:, :, kind, delivered]) & model.hangs[:, sheeting, section]
        place, mount, which = np.nonzero(may)
        family = place, mount, sheeting[which], section[which], delivered[which]
        bound = cents[which] + rest[place, mount, kind[which], delivered[which]]
        zero = np.zeros(len(place), dtype=np.int64)
        lengths = zero + corner[0], zero + corner[1]
        entries = Entries(*family, *lengths, bound, zero, zero, zero)
        return entries.take(model.access.passes(entries))

    def _quarter(self, entries: Entries, level: int) -> None:
        """Split boxes in sixteen: with few entries it is the steps that take the time."""
        size = BOX_SIZES[level]
        entries = self._solved_bound(self._unbeaten(entries, size), size)
        if size == 1 and len(entries):
            self._settle(entries)
        if size == 1 or not len(entries):
            return
        for half in BOX_SIZES[level + 1 : level + 3]:
            entries = children(entries, 2 * half, self.model.grid)
            entries = self._cheap_bound(self._unbeaten(entries, half), half)
        entries = self._fixed(entries, half)
        self.tally.boxes += len(entries)
        self._put(entries, level + 2)

    def _least(self, entries: Entries, size: int) -> Entries:
        """Return the entries at the least lengths of the walls in their boxes."""
        if size not in self.corners:
            return entries
        where, corner = self._where(entries, size), self.corners[size]
        return replace(entries, row=corner.row[where], column=corner.column[where])

    def _where(self, entries: Entries, size: int) -> tuple[IntArray, ...]:
        return self.model.mounting(entries), entries.row // size, entries.column // size

    def _cheap_bound(self, entries: Entries, size: int) -> Entries:
        least = self._least(entries, size)
        least = least.take(self.model.access.passes(least))
        return self._bounded(least, size)

    def _fixed(self, entries: Entries, size: int) -> Entries:
        if not len(entries):
            return entries
        holds = partial(self._holds, size=size)
        return self._bounded(cheapest_fixing(self.model, self._least(entries, size), holds), size)

    def _bounded(self, least: Entries, size: int) -> Entries:
        """Return entries at their boxes' corners, bounded at the least lengths of their walls."""
        bound = cost_bound_cents(self.model, self.rates, least, size)
        row, column = (at // size * size for at in (least.row, least.column))
        return self._unbeaten(replace(least, row=row, column=column, bound_cents=bound), size)

    def _holds(
        self, entries: Entries, size: int, tie: int | None = None, part: Part = "all"
    ) -> BoolArray:
        if not len(entries) or size == 1:
            return Branch._holds(self, entries, size, tie, part)
        entries, mdeg = self._least(entries, size), self._asked_mdeg(entries, size)
        first, inverse = alike_structure(entries, mdeg)
        entries = entries.take(first)
        self.tally.structure_rows += len(entries)
        some = self.model.fixing(entries) if tie is None else None
        batch = self.model.batch(entries, some, size, tie or 0)
        # Angles are rounded down, after a millionth was added.
        angle = np.fmax(batch.angle_rad, np.radians((mdeg[first] - 1) / 1000))
        steep = replace(batch, angle_rad=angle)
        return np.asarray(worst_use(self.model.tables, steep, part=part)[inverse] <= 1)

    def _asked_mdeg(self, entries: Entries, size: int) -> IntArray:
        """Return how steep walls of use are at least that cost no less than the bounds."""
        scores = sorted(self.front.members)
        steepest = np.maximum.accumulate([0, *(score.angle_mdeg for score in scores)])
        costs = np.array([score.cost_cents for score in scores], dtype=np.int64)
        mdeg = 1 + steepest[np.searchsorted(costs, entries.bound_cents, side="right")]
        if size in self.corners:
            mdeg = np.maximum(mdeg, self.corners[size].mdeg[self._where(entries, size)])
        return np.asarray(mdeg, dtype=np.int64)

    def _fitting(self, entries: Entries) -> Entries:
        fits: BoolArray = np.zeros(len(entries), dtype=np.bool_)
        for place in np.unique(entries.place).tolist():
            here = np.flatnonzero(entries.place == place)
            fits[here] = fits_with_depth(self.model, entries.take(here))
        return entries.take(fits)
