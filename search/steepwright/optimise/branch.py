"""Exact search: interval branch and bound over boxes of lengths, all families at once.

A box of the length grid is paired with every family that is not yet ruled out there. A pair is
dropped when a kept design is at least as good as the best the pair could be (its cost bound, and
the largest angle and fall space in the box), or when the structure fails at the box's least
corner: every check's use is non-decreasing in the lengths and the angle. What is left is
quartered, down to single grid points, and these are solved exactly.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import (
    Rates,
    bars_bound_cents,
    bars_cents,
    box_table_cents,
    cost_bound_cents,
    frame_cost_cents,
    sheets_bound_cents,
    solved_cost_cents,
)
from steepwright.optimise.depth import fits_with_depth
from steepwright.optimise.entries import Entries, children, joined, row_keys
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.fixings import any_holds, cheapest_fixing
from steepwright.optimise.found import Found
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.pad_worth import may_pay, mdeg_to_sow
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.structure import Batch, Part, worst_use

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

SOLVE_FROM = 16
"""Boxes of this many cells a side and smaller are bounded by the exact solvers."""

CUTS_FROM = 4
"""In boxes of this many cells a side and smaller the sheets' bound counts every saw cut."""

FIRST_POINTS = 64
FIRST_CHUNK = 256
CHUNK = 4096
"""Entries taken down together; the search's speed depends on it, its answer does not."""


TABLES_KEPT = 4
"""Tables of bounds remembered; they are large."""


@dataclass(slots=True)
class Tally:
    """What the search did, for the record."""

    boxes: int = 0
    structure_rows: int = 0
    points: int = 0

    def plus(self, other: Tally) -> Tally:
        """Return both counts together."""
        return Tally(
            self.boxes + other.boxes,
            self.structure_rows + other.structure_rows,
            self.points + other.points,
        )


Open = tuple[Entries, int]
"""Entries to be taken down together, and the number of their boxes' size in `BOX_SIZES`."""


@dataclass(slots=True)
class Branch:
    """One run of the search over one model.

    What is still to be taken down lies in `open`, the next at its end: wherever a run is left, what
    lies there is all that another has to go on with, and what it finds is the same.
    """

    model: Model
    rates: Rates
    front: Front[Found] = field(default_factory=Front)
    tally: Tally = field(default_factory=Tally)
    open: list[Open] = field(default_factory=list)

    def go_on(self) -> None:
        """Take down what is next, by one step."""
        self._quarter(*self.open.pop())

    def still_open(self) -> int:
        """Forget what is beaten by now, and return how many entries are still to be taken down."""
        last = len(BOX_SIZES) - 1
        parts = [(self._unbeaten(part, BOX_SIZES[min(n, last)]), n) for part, n in self.open]
        self.open = [(part, n) for part, n in parts if len(part)]
        return sum(len(part) for part, _ in self.open)

    def sow_box(self, places: tuple[int, ...], corner: tuple[int, int]) -> None:
        """Settle places' steepest walls in one of the largest boxes: part of a first front."""
        entries = joined([self.roots(place, corner, BOX_SIZES[0]) for place in places])
        if len(entries):
            self._probe(entries, corner, BOX_SIZES[0])

    def open_box(self, places: tuple[int, ...], corner: tuple[int, int]) -> None:
        """Open places' walls in one box of `SOLVE_FROM` cells a side."""
        entries = joined([self.roots(place, corner, SOLVE_FROM) for place in places])
        if len(entries):
            entries = self._strong(self._unbeaten(entries, SOLVE_FROM), SOLVE_FROM)
            self.tally.boxes += len(entries)
            self._put(entries, BOX_SIZES.index(SOLVE_FROM))

    def roots(self, place: int, corner: tuple[int, int], size: int) -> Entries:
        """Return the families of a place that are not ruled out in a box by its table of bounds."""
        model, where = self.model, (corner[0] // size, corner[1] // size)
        number = model.reach.index[place]
        angle = model.reach.angle_mdeg[size][number, *where].astype(np.int64)
        fall = model.reach.fall_mm[size][number, *where].astype(np.int64)
        best = np.minimum(self.front.worth_below_cents(angle, fall), UNAVAILABLE_CENTS)
        pads = model.pads.in_box(number, corner, size)
        best = np.where(angle >= 0, best - pads, 0)
        mounts = model.space.mount_counts[0] * model.pricer.mount_cents
        table = self._table(corner) + model.stand_cents[place]
        if not delivery_matters(model):
            table = table[:, :, :1]
        room = best[:, model.sheetings.thickness] - mounts[:, None]
        # First what some mount may do, then for each of these which.
        some = (table < room.max(axis=0)[:, None, None]) & model.frames.makeable[:, :, None]
        sheeting, section, delivered = np.nonzero(some)
        cents = table[sheeting, section, delivered]
        hangs = model.hangs[:, sheeting, section]
        mount, which = np.nonzero((cents < room[:, sheeting]) & hangs)
        sheeting, section, delivered = sheeting[which], section[which], delivered[which]
        bound = cents[which] + mounts[mount]
        bound += pads[mount, model.sheetings.thickness[sheeting]]
        zero = np.zeros(len(mount), dtype=np.int64)
        row, column = zero + corner[0], zero + corner[1]
        family = zero + place, mount, sheeting, section, delivered
        width = model.frames.narrowest[sheeting, section]
        widest = zero + model.space.searched - 1
        entries = Entries(*family, row, column, bound, zero, width, widest)
        return entries.take(model.access.passes(entries))

    def _table(self, corner: tuple[int, int]) -> IntArray:
        """Return the box's table; places take turns in a box, so only the last few are kept."""
        memo = self.model.exact.table_memo
        if corner not in memo:
            if len(memo) == TABLES_KEPT:
                del memo[next(iter(memo))]
            memo[corner] = box_table_cents(self.model, self.rates, *corner)
        return memo[corner]

    def _probe(self, entries: Entries, corner: tuple[int, int], size: int) -> None:
        """Settle the steepest grid point of the box, for each mounting its own."""
        (row, column), number = corner, self.model.mounting(entries)
        mountings, inverse = np.unique(number, return_inverse=True)
        boxes = mdeg_to_sow(self.model, mountings, corner, size)
        steepest = boxes.reshape(len(mountings), -1).argmax(axis=1)
        down, right = np.divmod(steepest, boxes.shape[2])
        entries = entries.at(row + down[inverse], column + right[inverse])
        self.settle_points(entries)

    def settle_points(self, entries: Entries) -> None:
        """Settle single grid points."""
        entries = self._cheap_bound(self._unbeaten(entries, 1), 1)
        for part in self._hopeful_first(entries, 1):
            part = self._fixed(self._strong(self._unbeaten(part, 1), 1), 1)
            part = self._solved_bound(part, 1)
            if len(part):
                self._settle(part)

    def _put(self, entries: Entries, level: int) -> None:
        """Have entries taken down next, a few of least bound at a time.

        The first of them find designs that rule out most of what the later ones hold.
        """
        parts = [(part, level) for part in self._hopeful_first(entries, BOX_SIZES[level])]
        self.open.extend(reversed(parts))

    def _hopeful_first(self, entries: Entries, size: int) -> Iterator[Entries]:
        """Give entries of least bound first, of these the steepest; first a few, then more."""
        angle, fall = self._reached(entries, size)
        entries = entries.take(np.lexsort((-fall, -angle, entries.bound_cents)))
        start, taken = 0, FIRST_CHUNK if size > 1 else FIRST_POINTS
        while start < len(entries):
            yield entries.take(np.arange(start, min(start + taken, len(entries))))
            start, taken = start + taken, min(2 * taken, CHUNK)

    def _quarter(self, entries: Entries, level: int) -> None:
        size = BOX_SIZES[level]
        entries = self._unbeaten(entries, size)
        entries = self._solved_bound(entries, size)
        if not len(entries):
            return
        if size == 1:
            self._settle(entries)
            return
        inner = children(entries, size, self.model.grid)
        half = size // 2
        inner = self._fixed(self._cheap_bound(self._unbeaten(inner, half), half), half)
        self.tally.boxes += len(inner)
        if len(inner):
            self._put(inner, level + 1)

    def fitting_points(self, entries: Entries) -> Entries:
        """Return those single grid points that fit and hold, cheapest fixed."""
        return self._fitting(self._fixed(self._unbeaten(entries, 1), 1))

    def _cheap_bound(self, entries: Entries, size: int) -> Entries:
        entries = entries.take(self.model.access.passes(entries))
        entries = entries.with_bound(cost_bound_cents(self.model, self.rates, entries, size))
        return self._unbeaten(entries, size)

    def _solved_bound(self, entries: Entries, size: int) -> Entries:
        if size > 1:
            return self._ranged_bound(entries, size, quick=size > CUTS_FROM)
        entries, bars = self._bars_bound(entries, size)
        if not len(entries):
            return entries
        entries = entries.with_bound(solved_cost_cents(self.model, entries, bars))
        return self._fitting(self._unbeaten(entries, size))

    def _ranged_bound(self, entries: Entries, size: int, *, quick: bool) -> Entries:
        """Keep what bars at the corner and sheets over the whole box don't make too dear."""
        entries, bars = self._bars_bound(entries, size)
        if not len(entries):
            return entries
        sheets = sheets_bound_cents(self.model, entries, bars, size, quick=quick)
        return self._unbeaten(entries.with_bound(sheets), size)

    def _bars_bound(self, entries: Entries, size: int) -> tuple[Entries, IntArray]:
        """Keep what bars at the corner don't make too dear; give what the bars cost, too."""
        if not len(entries):
            return entries, entries.bound_cents
        bars = bars_cents(self.model, entries, size)
        bound = bars_bound_cents(self.model, self.rates, entries, bars, size)
        entries = entries.with_bound(bound)
        kept = self._of_worth(entries, size)
        return entries.take(kept), bars[kept]

    def _unbeaten(self, entries: Entries, size: int) -> Entries:
        return entries.take(self._of_worth(entries, size))

    def _of_worth(self, entries: Entries, size: int) -> BoolArray:
        """Tell which entries' bounds no kept design is as good as."""
        angle, fall = self._reached(entries, size)
        best = self.front.worth_below_cents(angle, fall)
        alive = (angle >= 0) & (entries.bound_cents < np.minimum(best, UNAVAILABLE_CENTS))
        if size > 1 and self.model.pads.cents:
            alive[alive] = may_pay(self.model, self.front, entries.take(alive), size)
        return np.asarray(alive)

    def _reached(self, entries: Entries, size: int) -> tuple[IntArray, IntArray]:
        """Return the largest angle [1/1000 degree] and fall space [mm] in each entry's box."""
        reach, number = self.model.reach, self.model.mounting(entries)
        where = number, entries.row // size, entries.column // size
        angle = reach.angle_mdeg[size][where].astype(np.int64)
        return angle, reach.fall_mm[size][where].astype(np.int64)

    def _strong(self, entries: Entries, size: int) -> Entries:
        """Keep entries whose structure holds at the least corner with the best mounts."""
        return entries.take(any_holds(self.model, entries, partial(self._holds, size=size)))

    def _fixed(self, entries: Entries, size: int) -> Entries:
        """Keep entries whose structure holds at the least corner, bounded by what that takes."""
        if not len(entries):
            return entries
        entries = cheapest_fixing(self.model, entries, partial(self._holds, size=size))
        entries = entries.with_bound(cost_bound_cents(self.model, self.rates, entries, size))
        return self._unbeaten(entries, size)

    def _holds(
        self, entries: Entries, size: int, tie: int | None = None, part: Part = "all"
    ) -> BoolArray:
        """Return whose structure holds; it is the same whether the wall is delivered or not.

        With a `tie` the strongest fixing with that stands for all.
        """
        if not len(entries):
            return np.zeros(0, dtype=np.bool_)
        first, inverse = alike_structure(entries)
        entries = entries.take(first)
        some = self.model.fixing(entries) if tie is None else None
        self.tally.structure_rows += len(entries)
        batch = self._batch(entries, some, size, tie or 0)
        holds = worst_use(self.model.tables, batch, part=part) <= 1
        return np.asarray(holds[inverse])

    def _batch(self, entries: Entries, some: Fixing | None, size: int, tie: int) -> Batch:
        """Return the structural candidates at each box's least corner."""
        return self.model.batch(entries, some, size, tie)

    def _settle(self, entries: Entries) -> None:
        """Solve single grid points that fit the room and hold, in the order of their bounds."""
        order = np.lexsort((entries.row, entries.sheeting, entries.section, entries.bound_cents))
        entries = entries.take(order)
        for n in range(len(entries)):
            entry = entries.take(np.array([n]))
            if len(self._unbeaten(entry, 1)):
                self._offer(entry)

    def _fitting(self, entries: Entries) -> Entries:
        return entries.take(fits_with_depth(self.model, entries)) if len(entries) else entries

    def _offer(self, entry: Entries) -> None:
        model = self.model
        self.tally.points += 1
        found, cost = solve_point(model, entry)
        if found is None:
            return
        where = int(model.mounting(entry)[0]), int(entry.row[0]), int(entry.column[0])
        score = Score(
            cost,
            int(model.reach.angle_mdeg[1][where]),
            int(model.reach.fall_mm[1][where]),
        )
        self.front.offer(score, found)


def alike_structure(entries: Entries, *more: IntArray) -> tuple[IntArray, IntArray]:
    """Return one of each group of entries whose structure is the same, and every one's group.

    Entries that differ in `more` are told apart, too.
    """
    family = (entries.place, entries.mount, entries.sheeting, entries.section)
    lengths = entries.row, entries.column, entries.width, entries.widest
    columns = (*family, *lengths, entries.fixing, *more)
    _, first, inverse = np.unique(row_keys(columns), return_index=True, return_inverse=True)
    return first, inverse


def solve_point(model: Model, entry: Entries) -> tuple[Found | None, int]:
    """Return one grid point's cheapest design, fixed as it says, and its exact cost [cents]."""
    space, fixing = model.space, model.fixing(entry)
    sheeting, section = int(entry.sheeting[0]), int(entry.section[0])
    board, kicker = int(space.boards_mm[entry.row[0]]), int(space.kickers_mm[entry.column[0]])
    delivered = bool(entry.delivered[0])
    lengths = board, kicker, space.width_mm
    strips = model.strip_families(sheeting, int(entry.column[0]))
    sheets = model.exact.sheets(space.sheetings[sheeting], strips, lengths)
    bars = frame_cost_cents(model, (sheeting, section, delivered), (board, kicker, 0))
    if sheets is None or bars is None:
        return None, UNAVAILABLE_CENTS
    small = model.pricer.cost_cents(
        model.sheetings.family[entry.sheeting],
        entry.section,
        entry.mount,
        model.counts(entry),
    )
    cost = sheets.cost_cents + bars + int(small[0]) + delivered * space.market.delivery_cents
    cost += int(model.stand_cents[entry.place[0], int(delivered)])
    cost += int(np.sum(model.pads.least(model.mounting(entry), entry, 1)))
    found = Found(
        int(entry.place[0]),
        int(entry.mount[0]),
        int(fixing.mounts[0]),
        int(fixing.screw_mm[0]),
        int(fixing.tie[0]),
        sheeting,
        section,
        delivered,
        *lengths,
        sheets,
    )
    return (found, cost) if cost < UNAVAILABLE_CENTS else (None, cost)


def root_entries(model: Model, place: int) -> Entries:
    """Return every family of a place once, on the box that holds the whole grid."""
    space = model.space
    sizes = (
        1,
        len(space.market.catalog.mounts),
        len(space.sheetings),
        len(space.market.sections),
        2 if delivery_matters(model) else 1,
    )
    columns = [axis.ravel() for axis in np.indices(sizes, dtype=np.int64)]
    zero = np.zeros(len(columns[0]), dtype=np.int64)
    _, mount, sheeting, section, delivered = columns
    width, widest = model.frames.narrowest[sheeting, section], zero + space.searched - 1
    family = zero + place, mount, sheeting, section, delivered
    entries = Entries(*family, zero, zero, zero, zero, width, widest)
    makeable = model.frames.makeable[entries.sheeting, entries.section]
    return entries.take(makeable & model.hangs[entries.mount, entries.sheeting, entries.section])


def delivery_matters(model: Model) -> bool:
    """Tell whether anything may be too large for the builder's vehicle."""
    return model.space.market.room.yard.vehicle_max_mm is not None
