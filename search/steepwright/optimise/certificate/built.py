"""Single walls as they would be built: what the checker can repeat of the search's word on them.

A choice at a grid point ends when its walls, facing either way and with every fixing that leaves
their cost below what is needed, find no room with their frame and lift, or fail one of `CHECKS`;
of a range of widths when those of the least one do: more width takes more room, bears no more and
costs no less, but for what is sawn, and that is bounded over the whole range.
Here that is said only of uses that are clearly above 1 (`CLEARLY`): the checker's own figures
need not be the same to the last digit. So which choices end is written down one by one.

What a wall hangs from (`UPHELD`) asks where mounts hang, too: of that the least counts that they do
at any width of the range.

Over larger boxes, and of walls tied in a room whose measures may be off, walls are taken to fit
either way and ties to help; there a choice ends when a check fails with the strongest fixing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.facts import write_solved, written_cents
from steepwright.optimise.certificate.levels import BUILT, Ledger
from steepwright.optimise.certificate.ways import candidates, facings, no_room, solved_cents
from steepwright.optimise.entries import Entries
from steepwright.optimise.widths import hung_between
from steepwright.structure import (
    Batch,
    Tables,
    rules_beam,
    rules_ledger,
    rules_slab,
    rules_spread,
    rules_stand,
)
from steepwright.structure.rows import look_up
from steepwright.structure.wall import CHUNK_ROWS, RULES, kinds_of

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]

CHECKS = (
    "hold insert",
    "mount screws' room",
    "mount working load",
    "mount pull-out and shear",
    "one mount lost",
    "hand force on the hoist",
    "sheet screw combined",
    "stud bending",
    "tie working load",
    "tie length",
    "tie bolt at the stud",
    "tie bolt at the beam",
)
"""Checks that the checker has a copy of."""

OF_BOXES = CHECKS[:6]
"""Those of them to be looked at over boxes as well."""

_OF_UPHELD = (
    *rules_beam.RULES,
    *rules_slab.RULES,
    *rules_stand.RULES,
    *rules_ledger.RULES,
    *rules_spread.RULES,
)
UPHELD = tuple(rule.name for rule in _OF_UPHELD)
"""Checks of what a wall hangs from: the checker has a copy of these, too."""

CLEARLY = 1 + 1e-4
"""A use above this is told as failed."""

_RULES = tuple(rule for rule in RULES if rule.name in CHECKS)
_RULES_OF_BOXES = tuple(rule for rule in RULES if rule.name in OF_BOXES)


def upheld_use(tables: Tables, batch: Batch) -> FloatArray:
    """Return the largest use of what each wall hangs from."""
    walls = look_up(tables, batch)
    worst, kinds = np.zeros(len(batch)), kinds_of(walls)
    for rule in (rule for rule in _OF_UPHELD if rule.of in kinds):
        worst = np.maximum(worst, rule.evaluate(walls).use)
    return worst


@dataclass(frozen=True, slots=True)
class Built:
    """Closes choices by what the checker knows of walls as they would be built, too."""

    costs: Costs

    def settle(self, entries: Entries, needed: IntArray, ledger: Ledger) -> Entries:
        """Return what is left; `needed` is what walls of each must be shown to cost [cents]."""
        if not len(entries):
            return entries
        size = ledger.level.size
        if size > 1 or self._ties_in_doubt():
            weak = [self._weak(there, size) for there in facings(self.costs.model, entries)]
            return entries.take(ledger.take(BUILT, np.logical_and.reduce(weak)))
        ways = [
            (there, no_room(self.costs.model, there, 1))
            for there in facings(self.costs.model, entries)
        ]
        ended = self._ended(ways, needed - self._written_cents(entries, ledger))
        # What is written down of sheets and bars may be less than what is known of them.
        rest = np.flatnonzero(~ended)
        sheets, bars = solved_cents(self.costs, entries.take(rest), 1, ledger.level.widths)
        ways = [(there.take(rest), out[rest]) for there, out in ways]
        ended[rest] = self._ended(ways, needed[rest] - sheets - bars)
        write_solved(self.costs, entries.take(rest[ended[rest]]), ledger)
        return entries.take(ledger.take(BUILT, ended))

    def _ties_in_doubt(self) -> bool:
        """Tell whether walls are tied in a room whose measures may be off."""
        space = self.costs.model.space
        return bool(space.market.room.wall.tolerance_mm) and len(space.ties) > 1

    def _weak(self, entries: Entries, size: int) -> BoolArray:
        """Tell where a check fails at the least corner with the strongest fixing."""
        model, weak = self.costs.model, np.zeros(len(entries), dtype=np.bool_)
        for start in range(0, len(entries), CHUNK_ROWS):
            part = np.arange(start, min(start + CHUNK_ROWS, len(entries)))
            batch = candidates(model, entries.take(part), None, size)
            walls = look_up(model.tables, batch)
            uses = [np.broadcast_to(r.evaluate(walls).use, len(part)) for r in _RULES_OF_BOXES]
            weak[part] = np.maximum(np.max(uses, axis=0), upheld_use(model.tables, batch)) > CLEARLY
        rows = np.flatnonzero(~weak)
        if size == 1 and len(rows):
            weak[rows] = self._hangs_weak(entries.take(rows))
        return weak

    def _hangs_weak(self, entries: Entries) -> BoolArray:
        """Tell where what walls of single lengths hang from fails by every number of mounts."""
        model, weak = self.costs.model, np.ones(len(entries), dtype=np.bool_)
        studs = model.sheetings.studs[entries.sheeting]
        first: dict[int, int] = {}
        for number, (count, *_) in enumerate(model.space.fixings):
            first.setdefault(count, number)
        for count, number in first.items():
            rows = np.flatnonzero(weak & (studs >= count))
            some = entries.take(rows)
            weak[rows] = self._upheld_fails(some.with_fixing(np.full(len(rows), number)))
        return weak

    def _upheld_fails(self, entries: Entries) -> BoolArray:
        """Tell where what walls hang from fails, their mounts where they are in their ranges."""
        model, fails = self.costs.model, np.zeros(len(entries), dtype=np.bool_)
        for start in range(0, len(entries), CHUNK_ROWS):
            part = np.arange(start, min(start + CHUNK_ROWS, len(entries)))
            some = entries.take(part)
            batch = hung_between(model, some, model.batch(some, model.fixing(some)))
            fails[part] = upheld_use(model.tables, batch) > CLEARLY
        return fails

    def _ended(self, ways: list[tuple[Entries, BoolArray]], gap: IntArray) -> BoolArray:
        """Tell where no wall is left, facing either way, whose fixing costs less than the gap."""
        ended = np.ones(len(gap), dtype=np.bool_)
        for there, out in ways:
            rows = np.flatnonzero(ended & ~out)
            ended[rows] = self._fails(there.take(rows), gap[rows])
        return ended

    def _fails(self, entries: Entries, gap: IntArray) -> BoolArray:
        """Tell where a check fails with every fixing that leaves the rest below the gap."""
        model = self.costs.model
        studs = model.sheetings.studs[entries.sheeting]
        fails = np.ones(len(entries), dtype=np.bool_)
        for number, (count, *_) in enumerate(model.space.fixings):
            fixed = entries.with_fixing(np.full(len(entries), number))
            rows = np.flatnonzero(fails & (studs >= count) & (self.costs.the_rest(fixed) < gap))
            for start in range(0, len(rows), CHUNK_ROWS):
                part = rows[start : start + CHUNK_ROWS]
                some = fixed.take(part)
                walls = look_up(model.tables, candidates(model, some, model.fixing(some)))
                uses = [np.broadcast_to(rule.evaluate(walls).use, len(part)) for rule in _RULES]
                weak = np.max(uses, axis=0) > CLEARLY
                rest = np.flatnonzero(~weak)
                weak[rest] = self._upheld_fails(some.take(rest))
                fails[part] = weak
        return fails

    def _written_cents(self, entries: Entries, ledger: Ledger) -> IntArray:
        """Return what sheets and bars cost at least by what is written down."""
        bounds = self.costs.sheets_by_area(entries), self.costs.bars_by_length(entries)
        return np.asarray(np.sum(written_cents(self.costs, entries, bounds, ledger), axis=0))
