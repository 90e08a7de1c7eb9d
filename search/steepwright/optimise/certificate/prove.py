"""Goes through the space again, knowing the answer, and writes down why nothing cheaper is left.

Each box of lengths, with all widths asked for, is met with every choice of beam, mount, sheeting,
section and delivery. What a wall of the box must cost at least follows from the largest angle that
fits there and the stair of the finished front. A choice ends at a box, at once for every width of
it that it can be made at, for the first of these reasons that holds:

``no room``
    No wall of that hanging fits the room at an angle asked for.
``own beam``, ``frame``, ``division``
    The frame can't clear its beam, at any angle asked for or at a grid point's own; the frame,
    or the board's rows, can't be made.
``delivery``, ``vehicle``, ``weight``
    The same without delivery costs no more; a piece of sheet doesn't fit the vehicle; one of the
    board's is too heavy to carry.
``cost``
    The bound by area and length is enough.
a check's name
    It fails at the least corner, so anywhere in the box. Studs that may be tied back fail for good
    when they can't bear the climbers with their ties undone.
``open``
    The search was stopped before it came to the box; nothing is proved of what is left there.
``solved``
    The solved bounds are enough, with the cheapest distance of screws that holds there, and with
    the cheapest ties where the studs don't hold without.

``built``
    The walls fail as they would be built (`steepwright.optimise.certificate.built`).
``way in``
    A piece of the least corner's walls can't be brought in.

What is left goes on to the box's quarters, and at single grid points to the halves of the range of
widths. At single widths, where none of these reasons holds, the search's own word is written down
(`steepwright.optimise.certificate.taken`).

Of a range the least width counts: a wider wall takes the same room and more, its pieces and bays
are no smaller, so no check's use and no price is less, but for saw cuts. Their least number over
the whole range is part of ``cost`` and ``solved``.

Facings share a beam's angles: a beam's tables hold what fits towards either side. The number of
mounts is the least for the cost; no check in `CHECKS` asks for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.built import Built
from steepwright.optimise.certificate.carried import Carried
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.dividing import all_widths, boxes_of, divided
from steepwright.optimise.certificate.facts import solve_level
from steepwright.optimise.certificate.fits import Fits
from steepwright.optimise.certificate.levels import WAY_IN, Ledger, Level
from steepwright.optimise.certificate.taken import Taken
from steepwright.optimise.certificate.unsearched import OpenBox, lie_open
from steepwright.optimise.certificate.ways import candidates
from steepwright.optimise.entries import Entries, joined
from steepwright.optimise.fold import back_rise_mm
from steepwright.optimise.front import NO_COST
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.structure.rows import look_up
from steepwright.structure.rules_tie import undone_use
from steepwright.structure.wall import CHUNK_ROWS, RULES

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

BY_DISTANCE = "sheet screw combined"
"""The check that tells which distances of the sheet's screws hold."""

BY_TIES = "stud bending"
"""The check that ties may relieve."""

CHECKS = (
    "seam stud width",
    "sheet bending",
    BY_TIES,
    BY_DISTANCE,
    "stud to rail joint",
    "sheet rolling shear",
)
"""Checks that the checker derives for itself; they are tried in this order."""

ENOUGH = 200_000
"""When so many choices reach the boxes of `PATIENCE` cells, the proof leans on the search."""

PATIENCE = 4

ENOUGH_WIDE = 40_000
"""The same for choices that reach parts of the range of widths: each has cut lists of its own."""

AT_ONCE = 65_536
"""So many choices are looked at together."""

SLACK_MM = 1e-6
"""A frame counts as too high when it is so by more than this."""

BEYOND = 1e-9
"""A check counts as failed when its use exceeds 1 by more than this."""


@dataclass(frozen=True, slots=True)
class Proof:
    """Everything the proof of one market needs.

    Attributes
    ----------
    carried
        Tells which walls' pieces can be taken home, carried and brought in.
    open_boxes
        Boxes that a stopped search did not come to.
    """

    model: Model
    costs: Costs
    fits: Fits
    carried: Carried
    open_boxes: tuple[OpenBox, ...] = ()

    def prove(self, corner: tuple[int, int]) -> list[Level]:
        """Return the levels under one large box."""
        if self.open_boxes:  # against the few walls found by then, bounds alone end little
            return self._levels(corner, leaning=True) or []
        levels = self._levels(corner, leaning=False)
        return levels if levels is not None else self._levels(corner, leaning=True) or []

    def _levels(self, corner: tuple[int, int], leaning: bool) -> list[Level] | None:
        """Return the levels; None when too much is left to do without the search's word.

        `leaning` takes the search's word at every box, not only at single lengths and widths.
        """
        size, levels = BOX_SIZES[0], []
        widths = all_widths(self.model.space.searched)
        level = Level(size, widths, [corner[0]], [corner[1]], [0])
        entries, ledger = self._roots(corner, level)
        while True:
            entries = self._settle(entries, ledger)
            entries = Built(self.costs).settle(entries, self._needed(entries, level), ledger)
            single = size == widths == 1
            if leaning or single:
                needed = self._needed(entries, level)
                entries = Taken(self.costs, self.fits, self.carried).settle(entries, needed, ledger)
            else:
                entries = self._brought_in(entries, ledger)
            levels.append(level)
            if not len(entries) or single:
                return levels
            whole = size > 1
            entries, size, widths = divided(entries, size, widths, self.model.grid)
            enough = ENOUGH if whole else ENOUGH_WIDE
            if size <= PATIENCE and len(entries) > enough and not leaning:
                return None
            level, box = boxes_of(entries, size, widths)
            ledger = Ledger(level, box, ledger.bars)

    def _roots(self, corner: tuple[int, int], level: Level) -> tuple[Entries, Ledger]:
        """Return the choices of a large box, most of which end before they are set out.

        What hanging and section, or hanging and thickness, rule out is only counted.
        """
        model, size, last = self.model, BOX_SIZES[0], self.model.space.searched - 1
        where = corner[0] // size, corner[1] // size
        room = self.fits.pyramid[size][(..., *where)] >= 0
        room = room[:, :, model.sheetings.thickness][..., None]
        whole = np.broadcast_arrays(room, model.hangs[None])
        beam, mount, sheeting, section = np.nonzero(whole[0] & whole[1])
        clear = int(whole[1].sum())
        ways = (0,) if model.space.market.room.yard.vehicle_max_mm is None else (0, 1)
        first = np.unique(self.fits.places, return_index=True)[1]
        # Each choice once per way to take it home, so that all are in order.
        beam, mount, sheeting, section = (
            np.repeat(column, len(ways)) for column in (beam, mount, sheeting, section)
        )
        delivered, zero = np.tile(ways, len(beam) // len(ways)), np.zeros_like(beam)
        family = first[beam], mount, sheeting, section, delivered
        width = np.minimum(model.frames.narrowest[sheeting, section], last)
        lengths = zero + corner[0], zero + corner[1]
        entries = Entries(*family, *lengths, zero, zero, width, zero + last)
        ledger = Ledger(level, np.zeros(len(entries), dtype=np.int64))
        level.families = [2 * whole[0].size]
        level.closed["own beam"] = [2 * (whole[0].size - clear)]
        level.closed["delivery"] = [(2 - len(ways)) * clear]
        level.closed["no room"] = [len(ways) * clear - len(beam)]
        return entries, ledger

    def _settle(self, entries: Entries, ledger: Ledger) -> Entries:
        """Close what ends at the boxes of one level and return the rest.

        All that needs no solver is done in parts, as a large box has many choices.
        """
        parts = [(rows, ledger.part(rows)) for rows in _chunks(len(entries), AT_ONCE)]
        ended = [self._bounded(entries.take(rows), part) for rows, part in parts]
        if not ended:
            return entries
        ledger.go_on([part for _, part in parts])
        entries = joined([rest for rest, _ in ended])
        sheets, bars, material = np.concatenate([bounds for _, bounds in ended], axis=1)
        return entries.take(solve_level(self.costs, entries, (sheets, bars, material), ledger))

    def _bounded(self, entries: Entries, ledger: Ledger) -> tuple[Entries, IntArray]:
        """Close what needs no solver.

        Return what stays, with bounds of its sheets and bars, and what both must reach [cents].
        """
        size = ledger.level.size
        needed = self._needed(entries, ledger.level)
        if size == 1:
            keep = ledger.close("own beam", self._beam_stops(entries))
            entries, needed = entries.take(keep), needed[keep]
        keep = ledger.close("no room", needed == 0)
        entries, needed = entries.take(keep), needed[keep]
        keep = ledger.close("frame", ~self._frames(entries, size))
        entries, needed = entries.take(keep), needed[keep]
        keep = ledger.close("division", ~self._divides(entries, size))
        entries, needed = entries.take(keep), needed[keep]
        sheets, bars = self.costs.sheets_by_area(entries), self.costs.bars_by_length(entries)
        rest = self.costs.the_rest(entries)
        over = sheets + bars + rest - needed
        keep = ledger.close("cost", over >= 0, over)
        entries, needed = entries.take(keep), needed[keep]
        sheets, bars = sheets[keep], bars[keep]
        keep = ledger.close("vehicle", ~self.carried.taken_home(entries))
        entries, needed = entries.take(keep), needed[keep]
        sheets, bars = sheets[keep], bars[keep]
        keep = ledger.close("weight", self.carried.too_heavy(entries))
        entries, needed = entries.take(keep), needed[keep]
        sheets, bars = sheets[keep], bars[keep]
        beam = self.fits.places[entries.place]
        keep = ledger.close("open", lie_open(self.open_boxes, beam, entries, size))
        entries, needed = entries.take(keep), needed[keep]
        sheets, bars = sheets[keep], bars[keep]
        keep = self._strong(entries, ledger)
        entries, needed = self._screwed(entries.take(keep)), needed[keep]
        material = needed - self.costs.the_rest(entries)
        return entries, np.array([sheets[keep], bars[keep], material])

    def _brought_in(self, entries: Entries, ledger: Ledger) -> Entries:
        """Close what doesn't get in at a box's least corner: no larger piece does.

        Nothing is written down of a level where all do.
        """
        stuck = ~self.carried.get_in(entries)
        return entries.take(ledger.take(WAY_IN, stuck)) if stuck.any() else entries

    def _beam_stops(self, entries: Entries) -> BoolArray:
        """Tell where a single wall's frame rises above its own beam's underside."""
        space = self.model.space
        wall, mounts = space.market.room.wall, space.market.catalog.mounts
        if wall.tolerance_mm:
            return np.zeros(len(entries), dtype=np.bool_)
        drop, setback, behind = (
            np.array([getattr(m, name) for m in mounts])[entries.mount]
            for name in ("drop_mm", "setback_mm", "behind_sheet_mm")
        )
        depth = np.array([s.depth_mm for s in space.market.sections])[entries.section]
        angle = self.model.steepest_rad(entries)
        rise = back_rise_mm(np.maximum(depth - behind, 0), setback, angle, wall.fold_up)
        return np.asarray(rise > drop + SLACK_MM)

    def _needed(self, entries: Entries, level: Level) -> IntArray:
        """Return what each entry's walls must be shown to cost, pads aside; 0 where none fits."""
        return self.fits.needed_cents(self.model, entries, level.size, level.widths)

    def _frames(self, entries: Entries, size: int) -> BoolArray:
        """Tell whether the frame can be made anywhere in the box."""
        model = self.model
        least = 2 * model.section_mm[entries.section] + model.space.market.limits.min_upright_mm
        last = np.minimum(entries.column + size, model.grid[1]) - 1
        kicker, lowest = model.space.kickers_mm[last], model.space.kickers_mm[entries.column]
        stands = (kicker >= least) | (lowest == 0)
        return np.asarray(stands & model.frames.makeable[entries.sheeting, entries.section])

    def _divides(self, entries: Entries, size: int) -> BoolArray:
        """Tell whether the board can be divided into its rows anywhere in the box."""
        s, space = self.model.sheetings, self.model.space
        smallest = space.market.limits.min_piece_mm
        rows, full = s.rows, s.full_row_mm
        rest = np.where(full > 0, full * (rows - 1) + smallest, rows * smallest)
        least = np.where(rows > 1, rest, 0)
        last = np.minimum(entries.row + size, self.model.grid[0]) - 1
        return np.asarray(space.boards_mm[last] >= least[entries.sheeting])

    def _strong(self, entries: Entries, ledger: Ledger) -> BoolArray:
        """Close what fails a check at the least corner; return which entries stay."""
        uses = [self._uses(entries.take(part)) for part in _chunks(len(entries))]
        open_ = np.ones(len(entries), dtype=np.bool_)
        for n, name in enumerate(CHECKS):
            use = np.concatenate([part[n] for part in uses]) if uses else np.zeros(0)
            keep = ledger.close(name, use[open_] > 1 + BEYOND, use[open_])
            open_[np.flatnonzero(open_)[~keep]] = False
        return open_

    def _screwed(self, entries: Entries) -> Entries:
        """Return the entries, each with the cheapest distance of screws that holds at its corner.

        No use falls with a length and no price does, so no wall of the box has cheaper screws.
        """
        model, rule = self.model, _RULES[BY_DISTANCE]
        cents = np.full((len(model.space.screws_mm), len(entries)), NO_COST, dtype=np.int64)
        for number in range(len(cents)):
            fixed = entries.with_fixing(np.full(len(entries), number))
            cents[number] = self.costs.the_rest(fixed)
            for part in _chunks(len(entries)):
                some = fixed.take(part)
                rows = look_up(model.tables, candidates(model, some, model.fixing(some)))
                fails = rule.evaluate(rows).use > 1 + BEYOND
                cents[number, part[np.broadcast_to(fails, len(part))]] = NO_COST
        entries = entries.with_fixing(cents.argmin(axis=0)) if len(entries) else entries
        return self._tied(entries) if len(model.space.ties) > 1 else entries

    def _tied(self, entries: Entries) -> Entries:
        """Return the entries, each with the cheapest ties where its studs fail without."""
        model = self.model
        per = len(model.space.fixings) // len(model.space.ties)
        for part in _chunks(len(entries)):
            some = entries.take(part)
            rows = look_up(model.tables, candidates(model, some, None))
            weak = part[_RULES[BY_TIES].evaluate(rows).use > 1 + BEYOND]
            some = entries.take(weak)
            ways = [
                some.with_fixing(some.fixing + tie * per) for tie in range(1, len(model.space.ties))
            ]
            best = np.array([self.costs.the_rest(way) for way in ways]).argmin(axis=0)
            fixing = entries.fixing.copy()
            fixing[weak] += (1 + best) * per
            entries = entries.with_fixing(fixing)
        return entries

    def _uses(self, entries: Entries) -> list[npt.NDArray[np.float64]]:
        model = self.model
        rows = look_up(model.tables, candidates(model, entries, None))
        found = {name: _RULES[name].evaluate(rows).use for name in CHECKS}
        if len(model.space.ties) > 1:
            beams = np.array([beam for beam, _ in model.space.places])[entries.place]
            tied = beams != model.tables.ties.beam
            found[BY_TIES] = np.where(tied, undone_use(rows), found[BY_TIES])
        return [found[name] for name in CHECKS]


_RULES = {rule.name: rule for rule in RULES}


def _chunks(count: int, most: int = CHUNK_ROWS) -> Iterator[IntArray]:
    for start in range(0, count, most):
        yield np.arange(start, min(start + most, count))
