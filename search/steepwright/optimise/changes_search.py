"""Whether a changed room or price list has a better wall: a search cut off at the walls known.

The engine is that of the main search, told of made-up walls that rule out whatever is not worth
telling: all that is flatter than asked for, all that costs more than the dearest wall compared
with, and all that is hardly cheaper or steeper than one of these. Fall space counts as a
constraint only. What is left of the space is mostly nothing, so the search is short; it is as
exact as the main one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from steepwright.catalog.types import Catalog
from steepwright.optimise.bounds import box_table_cents, build_rates
from steepwright.optimise.branch import Branch, Found, root_entries
from steepwright.optimise.entries import steepest_first
from steepwright.optimise.evaluate import Workshop, price, stance
from steepwright.optimise.front import Score
from steepwright.optimise.model import (
    BOX_SIZES,
    Model,
    board_thicknesses_mm,
    build_model,
    priced_model,
)
from steepwright.optimise.reach import build_reach
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.walls import wall_of, workshop
from steepwright.optimise.widen import widest_at_same_cost
from steepwright.optimise.yards import markets
from steepwright.pricing.market import Market
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room

BOARDS_APART = 16
"""Steps of the grid between the board lengths that are priced to find the longest affordable."""

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
        The model of the unchanged room, some tables of which may be taken over.
    """
    most = max(aim.most_cents for aim in aims)
    least = min(aim.least_mdeg for aim in aims)
    scores = [Score(0, least - 1, 0), Score(most + 1, UPRIGHT_MDEG, 0)]
    scores += [aim.score() for aim in aims]
    found: list[Better] = []
    for market in markets(room, catalog):
        model = _model(market, most, least, like)
        if model is None:
            continue
        shop = workshop(model)
        found += [_worked_out(shop, wall_of(model, one)) for one in _search(model, scores)]
        scores += [Score(better.cost_cents, better.angle_mdeg, 0) for better in found]
    return tuple(found)


def _model(market: Market, most_cents: int, least_mdeg: int, like: Model) -> Model | None:
    """Return the model of what costs at most so much and is at least so steep; None if nothing."""
    space = build_space(market)
    if _stand_alike(space, like):
        space = affordable(space, most_cents, like)
        return _flat(build_model(space, like.reach)) if space.sheetings else None
    wall = market.room.wall
    angles = max(wall.angle_deg[0], least_mdeg / 1000), wall.angle_deg[1]
    room = replace(market.room, wall=replace(wall, angle_deg=angles))
    space = affordable(build_space(replace(market, room=room)), most_cents, like, cut=True)
    if not space.sheetings:
        return None
    reach = build_reach(space, board_thicknesses_mm(space), BOX_SIZES, lift=False)
    return _flat(build_model(space, reach))


def _flat(model: Model) -> Model:
    """Return the model with the same fall space everywhere, in tables that take no memory."""
    reach = model.reach
    flat = {size: np.broadcast_to(np.int32(0), t.shape) for size, t in reach.fall_mm.items()}
    return replace(model, reach=replace(reach, fall_mm=flat))


def affordable(space: Space, most_cents: int, like: Model, *, cut: bool = False) -> Space:
    """Return the space without what costs too much: sheetings and, to cut it, boards and mounts.

    A sheeting is judged by the bound at the least lengths; a board length by the bound over all
    sheetings there, which rules out every longer one.
    """
    rows = list(range(0, len(space.boards_mm), BOARDS_APART))
    some = replace(
        space, boards_mm=space.boards_mm[rows], kickers_mm=space.kickers_mm[:1], places=()
    )
    model = priced_model(some, like)
    rates, mounts = build_rates(model), 2 * model.pricer.mount_cents
    most = most_cents - int(mounts.min())
    table = box_table_cents(model, rates, 0, 0)
    kept = np.flatnonzero((table <= most).any(axis=(1, 2)))
    space = replace(space, sheetings=tuple(space.sheetings[n] for n in kept.tolist()))
    if not cut or not len(kept):
        return space
    market = space.market
    cheap = np.flatnonzero(mounts + int(table.min()) <= most_cents).tolist()
    catalog = replace(market.catalog, mounts=tuple(market.catalog.mounts[n] for n in cheap))
    dear = (row for n, row in enumerate(rows) if box_table_cents(model, rates, n, 0).min() > most)
    end = next(dear, len(space.boards_mm))
    return replace(space, market=replace(market, catalog=catalog), boards_mm=space.boards_mm[:end])


def _stand_alike(space: Space, like: Model) -> bool:
    """Tell whether walls stand in both as high, as steep and with the same things around."""

    def room(one: Space) -> Room:
        kept, its = one.market.room, like.space.market.room
        return replace(kept, access=its.access, climber=its.climber, yard=its.yard, findings=())

    def lengths(one: Space) -> tuple[object, ...]:
        return one.boards_mm.tolist(), one.kickers_mm.tolist(), one.width_mm, one.places

    return (
        room(space) == room(like.space)
        and lengths(space) == lengths(like.space)
        and space.market.catalog.mounts == like.space.market.catalog.mounts
        and set(board_thicknesses_mm(space)) <= set(like.reach.thicknesses_mm)
    )


def _search(model: Model, scores: list[Score]) -> list[Found]:
    rates = build_rates(model)
    branch = Branch(model, rates)
    for score in scores:
        branch.front.offer(score, _NOBODY)
    most = max(score.cost_cents for score in scores)
    roots = root_entries(model, 0)
    mounts = 2 * model.pricer.mount_cents[roots.mount]
    for corner in steepest_first(model.grid, BOX_SIZES[0]):
        table = box_table_cents(model, rates, *corner)
        cents = table[roots.sheeting, roots.section, roots.delivered] + mounts
        cheap = roots.take(cents < most)
        for place in range(len(model.space.places) if len(cheap) else 0):
            branch.search_some(replace(cheap, place=cheap.place + place), corner)
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
