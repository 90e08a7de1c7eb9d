"""The form of one check: what is demanded and what can be borne, for a batch of walls."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.types import NO_CAPACITY, BoolArray, FloatArray

Unknown = Literal[
    "grade",
    "load",
    "place",
    "mount",
    "rating",
    "lift",
    "lift grade",
    "lift load",
    "lift place",
    "anchor",
    "anchor slab",
    "floor",
    "ledger anchor",
    "tie grade",
    "tie load",
    "joist grade",
    "joist load",
    "joist place",
]

Part = Literal["all", "firm", "eased", "screwed"]
"""All rules; those whose use is the same with a tie and without, and the others; and those whose
use depends on the distance of the sheet's screws."""

Kind = Literal["all", "timber", "slab", "frame", "ledger", "spreader", "tie", "fold"]
"""What a rule is told for."""


class Ratio(NamedTuple):
    """Demand and capacity of one check, arrays of one value per wall in the same unit."""

    demand: FloatArray
    capacity: FloatArray

    @property
    def use(self) -> FloatArray:
        """Demand over capacity; `NO_CAPACITY` where there is a demand and nothing to bear it."""
        if (self.capacity > 0.0).all():
            return self.demand / self.capacity
        bears = self.capacity > 0.0
        use = self.demand / np.where(bears, self.capacity, 1.0)
        return np.where(self.demand <= 0.0, 0.0, np.where(bears, use, NO_CAPACITY))


@dataclass(frozen=True, slots=True)
class Rule:
    """One check.

    Attributes
    ----------
    name, clause, unit
        As shown; `unit` is that of demand and capacity.
    evaluate
        Returns demand and capacity of every wall of a batch.
    assumption
        What the check rests on, in plain words; {keys} are filled from `Tables.words`.
    rests_on
        Facts of the ceiling beam or mount without which the check isn't settled.
    of
        What it is told for; for anything else its use is 0. A frame is timber as well, and
        so is a beam on ledgers; any that folds up is of that kind as well.
    eased
        Whether a tie changes the use. All but these and those of ties themselves are firm.
    screwed
        Whether the distance of the sheet's screws changes the use.
    """

    name: str
    clause: str
    unit: str
    evaluate: Callable[[Rows], Ratio]
    assumption: str
    rests_on: tuple[Unknown, ...] = ()
    of: Kind = "all"
    eased: bool = False
    screwed: bool = False


def is_of(rule: Rule, part: Part) -> bool:
    """Tell whether a rule is one of a part of the rules."""
    if part == "screwed":
        return rule.screwed
    return part == "all" or (part == "eased") == (rule.eased or rule.of == "tie")


def known(fact: Unknown, rows: Rows) -> BoolArray:
    """Return whether a fact is known, per wall."""
    no_lift = np.full(len(rows.batch), not rows.tables.loads.fold_up)
    above = rows.batch.lift_beam >= 0
    facts: dict[Unknown, BoolArray] = {
        "grade": rows.beam.grade_known,
        "load": rows.beam.load_known,
        "place": rows.beam.place_known,
        "mount": rows.mount.in_range,
        "rating": rows.mount.rating_known,
        "lift": no_lift | above,
        "lift grade": no_lift | ~above | rows.lift.grade_known,
        "lift load": no_lift | ~above | rows.lift.load_known,
        "anchor": ~rows.beam.slab | ~np.isnan(rows.beam.anchor_n),
        "anchor slab": ~rows.beam.slab | ~np.isnan(rows.beam.anchor_least_mm),
        "joist grade": ~rows.spread.hangs | rows.spread.grade_known,
        "joist load": ~rows.spread.hangs | rows.spread.load_known,
        "joist place": ~rows.spread.hangs | rows.spread.place_known,
        "ledger anchor": ~rows.ledger.masonry | ~np.isnan(rows.ledger.rated_n),
        "floor": ~rows.stand.stands | ~np.isnan(rows.stand.fixing_n),
        "lift place": no_lift | ~above | rows.lift.place_known,
        "tie grade": ~rows.tied | rows.tables.beams.grade_known[rows.tables.ties.beam],
        "tie load": ~rows.tied | rows.tables.beams.load_known[rows.tables.ties.beam],
    }
    return facts[fact]


FIND_OUT: dict[Unknown, str] = {
    "grade": "the beam's grade is unknown: have it graded; the least of all classes of the yard's"
    " standard was taken",
    "load": "the beam's existing load is unknown: find out what it carries;"
    " {beam_unknown_load_n_per_m} N/m were taken",
    "place": "where the joist lies hasn't been verified: find both its edges before you build",
    "mount": "the mount's screws lie outside the range of (8.38): ask for their assessment",
    "rating": "no working load is stated for this mount: its eye, hook or plate isn't checked, only"
    " its screws; ask for one",
    "lift": "no beam lies over the parked board's eye: find what in the ceiling can carry the"
    " blocks; it isn't checked",
    "lift grade": "the grade of the beam that carries the blocks is unknown: have it graded; the"
    " least of all classes of the yard's standard was taken",
    "lift load": "the existing load of the beam that carries the blocks is unknown:"
    " {beam_unknown_load_n_per_m} N/m were taken",
    "anchor": "no rated load of an anchor in this slab is stated: the capacity shown is the least"
    " that an anchor must be rated for; ask for one with an approval for this concrete",
    "anchor slab": "the slab that the anchor needs isn't stated: look into its approval",
    "joist grade": "the joists' grade is unknown: have them graded; the least of all classes of the"
    " yard's standard was taken",
    "joist load": "the joists' existing load is unknown: find out what they carry;"
    " {beam_unknown_load_n_per_m} N/m were taken",
    "joist place": "where the joists lie hasn't been verified: find both edges of each before you"
    " build",
    "ledger anchor": "no rated load of an anchor in this masonry is stated: the capacity shown is"
    " the least that an anchor must be rated for; ask for one with an approval for it",
    "floor": "what holds a foot to the floor isn't stated: the capacity shown is the least that it"
    " must be rated for",
    "lift place": "where the joist that carries the blocks lies hasn't been verified: find both its"
    " edges before you build",
    "tie grade": "the grade of the beam that the ties pull at is unknown: have it graded; the least"
    " of all classes of the yard's standard was taken",
    "tie load": "the existing load of the beam that the ties pull at is unknown:"
    " {beam_unknown_load_n_per_m} N/m were taken",
}
"""What to find out when a fact is missing."""
