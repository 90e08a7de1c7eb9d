"""Which yards to go to: one search per set of yards whose trips cost something, and that deliver.

A trip is charged once per yard of the set, so within a set it is the same for every wall. A wall
that buys nothing at a yard is found, without that yard's trip, in the set that leaves it out;
so the best of all sets together is the best of all walls, each with the trips it needs. The same
holds for the sets of yards that deliver.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from steepwright.catalog.types import Catalog
from steepwright.optimise.angles import Angle, states, whole_degrees
from steepwright.optimise.branch import Tally
from steepwright.optimise.drive import Stop, search_front
from steepwright.optimise.found import Found
from steepwright.optimise.front import Front
from steepwright.optimise.model import Model, build_wide_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.units import Unit
from steepwright.pricing.market import Market, build_market
from steepwright.pricing.transport import (
    delivering_yards,
    most_combined,
    sets_of,
    sets_that_deliver,
)
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room
from steepwright.units import money


@dataclass(frozen=True, slots=True)
class Together:
    """The searches of all sets of yards as one.

    Attributes
    ----------
    front
        Each design with the model it was found in.
    model
        That of all yards together.
    models
        Those of every set of yards, in the order of the search; a stopped one's end with the set
        that it was at.
    stopped
        Why the search ended before it was complete; empty when it did not.
    angles
        How far it got by then; empty when it is complete.
    open_units
        What a stopped search did not get to in the last of `models`.
    """

    front: Front[tuple[Model, Found]]
    tally: Tally
    model: Model
    models: tuple[Model, ...]
    stopped: Stop
    angles: tuple[Angle, ...]
    open_units: tuple[Unit, ...] = ()


def charging(catalog: Catalog) -> tuple[str, ...]:
    """Return the names of the yards that cost something to go to."""
    return tuple(yard for yard, price_cents in catalog.trips if price_cents)


def sets_of_yards(catalog: Catalog) -> tuple[tuple[str, ...], ...]:
    """Return the sets of charging yards to look at, smaller ones first, all yards last.

    The empty set is the one of the yards that cost nothing to go to.
    """
    return sets_of(charging(catalog), catalog)


def sold_by(catalog: Catalog, yards: tuple[str, ...]) -> Catalog:
    """Return the offers of these yards and of every yard that charges for no trip."""
    out = set(charging(catalog)) - set(yards)
    return replace(
        catalog,
        sheets=tuple(row for row in catalog.sheets if row.yard not in out),
        timber=tuple(row for row in catalog.timber if row.yard not in out),
        screws=tuple(row for row in catalog.screws if row.yard not in out),
        mounts=tuple(row for row in catalog.mounts if row.yard not in out),
        hardware=tuple(row for row in catalog.hardware if row.yard not in out),
        trips=tuple(trip for trip in catalog.trips if trip[0] not in out),
    )


def markets(room: Room, catalog: Catalog) -> tuple[Market, ...]:
    """Return the markets to search, one per set of yards that sells what a wall is made of.

    Each is taken once per set of its yards that deliver. The last one is that of all yards,
    whatever they sell.
    """
    made = [
        build_market(room, offers, catalog, delivering)
        for yards in sets_of_yards(catalog)
        for offers in (sold_by(catalog, yards),)
        for delivering in sets_that_deliver(room.yard, offers)
    ]
    return (*(market for market in made[:-1] if _makes_a_wall(market)), made[-1])


def _makes_a_wall(market: Market) -> bool:
    return any(market.board_allowed) and bool(market.sections and market.catalog.mounts)


def search_yards(room: Room, catalog: Catalog, terms: Terms) -> Together:
    """Search every set of yards; of walls that are equally good the one of fewer yards is kept.

    Each search starts from the front found so far, which rules out most of the dearer sets. A
    search that is stopped, also on the way to the next set, leaves the sets behind it out.
    """
    front: Front[tuple[Model, Found]] = Front()
    tally = Tally()
    choices = markets(room, catalog)
    models: list[Model] = []
    stopped: Stop = ""
    for number, market in enumerate(choices):
        if len(choices) > 1:
            terms.progress(f"set of yards {number + 1} of {len(choices)}")
        try:
            model = build_wide_model(build_space(market))
        except KeyboardInterrupt:
            if not front.members:
                raise
            stopped = "interrupted"
            break
        models.append(model)
        known = tuple((score, found) for score, (_, found) in front.sorted())
        outcome = search_front(model, terms, known, number)
        earlier, front = front.members, Front()
        for score, found in outcome.front.sorted():
            front.offer(score, earlier.get(score, (model.wider or model, found)))
        tally = tally.plus(outcome.tally)
        stopped, angles, left = outcome.stopped, outcome.angles, outcome.open_units
        if stopped:
            break
    if len(models) < len(choices):
        # Of what is left out nothing is known but that it costs something.
        degrees = whole_degrees(model)
        angles = states(degrees, front.members, np.zeros(len(degrees), dtype=np.int64))
    return Together(front, tally, model, tuple(models), stopped, angles, left)


def all_models(room: Room, catalog: Catalog, found: Together) -> tuple[Model, ...]:
    """Return the models of all sets of yards, also of those that a stopped search didn't get to."""
    rest = markets(room, catalog)[len(found.models) :]
    return (*found.models, *(build_wide_model(build_space(market)) for market in rest))


def trip_assumptions(room: Room, catalog: Catalog) -> tuple[str, ...]:
    """Return what is assumed of trips and deliveries; none when there is but one way to pay for."""
    priced = [f"{yard} {money(cents)}" for yard, cents in catalog.trips if cents]
    told = []
    if priced:
        told.append(f"One trip is paid per yard that is bought from: {', '.join(priced)}.")
    delivering = delivering_yards(room.yard, catalog)
    price_cents = room.yard.delivery_price_cents
    if price_cents and delivering and (priced or len(delivering) > 1):
        told.append(
            "Where something does not fit your vehicle, each yard that it comes from delivers for "
            f"{money(price_cents)}. That takes the place of the trip to it; a trip that costs more "
            "than that is paid instead. In a wall that is delivered, a sheet too large for the "
            "vehicle counts as delivered even when the yard cuts it small."
        )
    if max(len(priced), len(delivering)) > most_combined(catalog):
        told.append(
            f"With more than {most_combined(catalog)} such yards only each alone and all together"
            " were looked at; a wall from a few of them may cost less."
        )
    return tuple(told)


def in_market(wall: Wall, market: Market) -> Wall | None:
    """Return the same wall made of what a market sells, None when it lacks a part of it."""
    sheets = {(f.kind, f.panel, f.thickness_mm): f for f in market.families}
    bars = {(s.width_mm, s.depth_mm, s.strength_class, s.surface): s for s in market.sections}
    board, kicker, section = wall.sheet, wall.kicker_sheet, wall.section
    sheet = sheets.get((board.kind, board.panel, board.thickness_mm))
    strip = sheets.get((kicker.kind, kicker.panel, kicker.thickness_mm))
    bar = bars.get((section.width_mm, section.depth_mm, section.strength_class, section.surface))
    if sheet is None or strip is None or bar is None or wall.mount not in market.catalog.mounts:
        return None
    if wall.tie is not None and wall.tie not in market.catalog.hardware:
        return None
    return replace(wall, sheet=sheet, kicker_sheet=strip, section=bar)
