"""Whether a changed room or price list has a better wall: a search cut off at the walls known.

The engine is that of the main search, told of made-up walls that rule out whatever is not worth
telling: all that is flatter than asked for, all that costs more than the dearest wall compared
with, and all that is hardly cheaper or steeper than one of these. Fall space counts as a
constraint only. What is left of the space is mostly nothing, so the search is short; it is as
exact as the main one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.catalog.types import Catalog
from steepwright.optimise.bounds import Rates
from steepwright.optimise.branch import SOLVE_FROM, Branch, Found, fits_with_depth
from steepwright.optimise.changes_known import Known
from steepwright.optimise.changes_reach import hopeful_model
from steepwright.optimise.entries import BoolArray, Entries, children, joined, steepest_first
from steepwright.optimise.evaluate import Workshop, price, stance
from steepwright.optimise.front import Score
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.walls import wall_of, workshop
from steepwright.optimise.widen import widest_at_same_cost
from steepwright.optimise.yards import markets
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room

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
    """A wall that a changed room or price list allows: its score, and what it rests on."""

    cost_cents: int
    angle_mdeg: int
    kicker_mm: int
    beam: str
    mount: str
    skus: frozenset[str]


def better_walls(
    room: Room, catalog: Catalog, aims: tuple[Aim, ...], like: Model
) -> tuple[Better, ...]:
    """Return the walls that beat an aim, none of them beaten by another in angle and cost.

    Parameters
    ----------
    like
        The model of the unchanged room, none of whose walls beats one.
    """
    most = max(aim.most_cents for aim in aims)
    least = min(aim.least_mdeg for aim in aims)
    scores = [Score(0, least - 1, 0), Score(most + 1, UPRIGHT_MDEG, 0)]
    scores += [aim.score() for aim in aims]
    choices = markets(room, catalog)
    known = Known(like, choices[-1].catalog == like.space.market.catalog)
    found: list[Better] = []
    for market in choices:
        hopeful = hopeful_model(market, scores, known)
        if hopeful is None:
            continue
        model, rates = hopeful
        shop = workshop(model)
        found += [_worked_out(shop, wall_of(model, one)) for one in _search(model, rates, scores)]
        scores += [Score(better.cost_cents, better.angle_mdeg, 0) for better in found]
    return tuple(found)


class _Sweep(Branch):
    """A search of all places at once: where little is left, many small steps take long."""

    __slots__ = ()

    def sweep(self) -> None:
        """Search the whole space."""
        size, shape = BOX_SIZES[0], self.model.grid
        places = np.unique(np.nonzero(self.model.reach.index)[0]).tolist()
        corners = steepest_first(shape, size)
        entries = joined([self.roots(place, at, size) for at in corners for place in places])
        while size > SOLVE_FROM:
            entries = children(self._strong(self._unbeaten(entries, size), size), size, shape)
            size //= 2
            entries = self._cheap_bound(self._unbeaten(entries, size), size)
        self._chunks(self._strong(entries, size), BOX_SIZES.index(size))

    def _fitting(self, entries: Entries) -> Entries:
        fits: BoolArray = np.zeros(len(entries), dtype=np.bool_)
        for place in np.unique(entries.place).tolist():
            here = np.flatnonzero(entries.place == place)
            fits[here] = fits_with_depth(self.model, entries.take(here))
        return entries.take(fits)


def _search(model: Model, rates: Rates, scores: list[Score]) -> list[Found]:
    branch = _Sweep(model, rates)
    for score in scores:
        branch.front.offer(score, _NOBODY)
    branch.sweep()
    return [found for _, found in branch.front.sorted() if found is not _NOBODY]


_NOBODY = Found(-1, -1, 0, 0, 0, -1, -1, False, 0, 0, None)  # type: ignore[arg-type]


def _worked_out(shop: Workshop, wall: Wall) -> Better:
    wall = widest_at_same_cost(shop, wall)
    priced = price(shop, wall)
    assert priced is not None
    return Better(
        priced.cost_cents,
        round(stance(shop, wall).angle_deg * 1000),
        wall.kicker_mm,
        shop.space.market.room.beams[wall.beam].name,
        wall.mount.sku,
        frozenset(line.sku for line in priced.bill),
    )
