"""Whether a changed room or price list has a better wall: a search cut off at the walls known.

The engine is that of the main search, told of made-up walls that rule out whatever is not worth
telling: all that is flatter than asked for, all that costs more than the dearest wall compared
with, and all that is hardly cheaper or steeper than one of these. Fall space counts as a
constraint only. What is left of the space is mostly nothing, so the search is short; it is as
exact as the main one.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Catalog
from steepwright.geometry.layout import Split
from steepwright.optimise.changes_fresh import Before
from steepwright.optimise.changes_known import Known
from steepwright.optimise.changes_reach import hopeful_model
from steepwright.optimise.changes_sweep import sweep
from steepwright.optimise.entries import BoolArray
from steepwright.optimise.evaluate import Workshop, price, stance
from steepwright.optimise.found import Found
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import Model
from steepwright.optimise.space import Sheeting, Space, build_space
from steepwright.optimise.walls import wall_of, workshop
from steepwright.optimise.widen import at_best_width
from steepwright.optimise.yards import markets
from steepwright.pricing.wall import GrainNeed
from steepwright.room.types import Room

IntArray = npt.NDArray[np.int64]
Made = tuple[str, str, int, GrainNeed, Split, int]
"""Kind, panel and thickness [mm] of a board's sheets, their grain, the split, bays per column."""

UPRIGHT_MDEG = 90_000
"""No wall leans as far [1/1000 degree]."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What is to be beaten.

    Attributes
    ----------
    least_mdeg
        The angle asked for [1/1000 degree]; flatter walls don't count.
    cost_cents, angle_mdeg
        The cheapest wall of that angle costs this, and the steepest at that cost is so steep.
    most_cents
        What may be spent on a steeper one.
    saving_cents, gain_mdeg
        By how much a wall must be cheaper, or steeper, to be worth telling.
    any_angle
        Whether the least angle is that of the room's own range.
    """

    least_mdeg: int
    cost_cents: int
    angle_mdeg: int
    most_cents: int
    saving_cents: int
    gain_mdeg: int
    any_angle: bool

    def score(self) -> Score:
        """Return the made-up wall that beats all that is not worth telling."""
        return Score(
            self.cost_cents - self.saving_cents + 1, self.angle_mdeg + self.gain_mdeg - 1, 0
        )


@dataclass(frozen=True, slots=True)
class Better:
    """A wall that a changed room or price list allows: its score, and what it rests on.

    Attributes
    ----------
    cost_cents, searched_cents
        What it costs [cents] at the width at which that is least, and at the least width.
    made
        How its board is made, as `_made` has it.
    """

    cost_cents: int
    searched_cents: int
    angle_mdeg: int
    made: Made
    kicker_mm: int
    beam: str
    mount: str
    skus: frozenset[str]


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is known of a room before it is looked at, from one that allows all this one does.

    Attributes
    ----------
    walls
        The walls found there. Whatever beats an aim here is no better than one of them.
    had
        Those of them that rest on nothing else that was changed there.
    """

    walls: tuple[Better, ...] = ()
    had: tuple[Better, ...] = ()

    def in_space(self, space: Space) -> Ahead:
        """Return it without those walls whose boards aren't made like this in a space."""
        made = {_made(space, sheeting) for sheeting in space.sheetings}
        return Ahead(self.walls, tuple(wall for wall in self.had if wall.made in made))

    def open_at(self) -> Callable[[IntArray], BoolArray]:
        """Return what tells at which angles [1/1000 degree] a wall may be better than those."""
        if not self.walls:
            return lambda mdeg: np.ones(mdeg.shape, dtype=np.bool_)
        least: Front[None] = Front()
        known: Front[None] = Front()
        for wall in self.walls:
            least.offer(Score(wall.cost_cents, wall.angle_mdeg, 0), None)
        for wall in self.had:
            known.offer(Score(wall.searched_cents, wall.angle_mdeg, 0), None)

        def is_open(mdeg: IntArray) -> BoolArray:
            fall = np.zeros_like(mdeg)
            return least.least_cost_cents(mdeg, fall) < known.least_cost_cents(mdeg, fall)

        return is_open


def better_walls(
    room: Room, catalog: Catalog, aims: tuple[Aim, ...], before: Before, ahead: Ahead
) -> tuple[Better, ...]:
    """Return the walls that beat an aim, none of them beaten by another in angle and cost.

    Parameters
    ----------
    before
        The unchanged room, none of whose walls beats one.
    ahead
        What is known of this one beforehand; the answer does not depend on it.
    """
    choices = markets(room, catalog)
    ahead = ahead.in_space(build_space(choices[-1])) if ahead.had else ahead
    scores = [*_of_no_aim(aims), *(aim.score() for aim in aims)]
    scores += [Score(wall.searched_cents, wall.angle_mdeg, 0) for wall in ahead.had]
    same = choices[-1].catalog == before.model.space.market.catalog
    known = Known(before, same, ahead.open_at())
    found = list(ahead.had)
    for market in choices:
        hopeful = hopeful_model(market, scores, known)
        if hopeful is None:
            continue
        model, rates = hopeful
        shop = workshop(model)
        new = [_worked_out(shop, model, *one) for one in sweep(model, rates, scores)]
        scores += [Score(better.cost_cents, better.angle_mdeg, 0) for better in new]
        found += new
    return tuple(found)


def _of_no_aim(aims: Sequence[Aim]) -> list[Score]:
    """Return made-up walls that beat all that is too flat, or too dear, for every aim.

    A wall is of use to an aim only from its least angle on and up to its most cents. So one that
    is flatter than an aim asks for must do for one of those that ask for less, and may cost no
    more than they allow.
    """
    ranked = sorted(aims, key=lambda aim: aim.least_mdeg)
    allowed = [-1, *itertools.accumulate((aim.most_cents for aim in ranked), max)]
    flattest = [*(aim.least_mdeg - 1 for aim in ranked), UPRIGHT_MDEG]
    return [Score(cents + 1, mdeg, 0) for cents, mdeg in zip(allowed, flattest, strict=True)]


def _worked_out(shop: Workshop, model: Model, score: Score, found: Found) -> Better:
    wall = at_best_width(shop, wall_of(model, found))
    priced = price(shop, wall)
    assert priced is not None
    return Better(
        priced.cost_cents,
        score.cost_cents,
        round(stance(shop, wall).angle_deg * 1000),
        _made(shop.space, shop.space.sheetings[found.sheeting]),
        wall.kicker_mm,
        shop.space.market.room.beams[wall.beam].name,
        wall.mount.sku,
        frozenset(line.sku for line in priced.bill),
    )


def _made(space: Space, sheeting: Sheeting) -> Made:
    """Return how a board is made, in words that mean the same in every space."""
    family = space.market.families[sheeting.family]
    return (
        family.kind,
        family.panel,
        family.thickness_mm,
        sheeting.grain,
        sheeting.split,
        sheeting.bays,
    )
