"""The width that a wall of the front is given, against every width tried by the plain road."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_rooms import tiny_catalog, wide_room

from steepwright.optimise.drive import search_front
from steepwright.optimise.evaluate import Workshop, cost_cents, fits_room, holds, stance
from steepwright.optimise.model import build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.walls import wall_of, workshop
from steepwright.optimise.widen import at_best_width, splits_well
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall

ROOMS = (1, 2, 3, 8, 12, 13, 14)
"""Rooms with walls that take a greater width; in 3 and 13 that is cheaper than the least one."""


def the_front(seed: int) -> tuple[Workshop, list[Wall]]:
    model = build_model(build_space(build_market(wide_room(seed), tiny_catalog(seed))))
    found = search_front(model, Terms()).front.sorted()
    return workshop(model), [wall_of(model, one) for _, one in found]


def every_width(shop: Workshop, wall: Wall) -> list[tuple[int, int]]:
    """Return cost [cents] and width [mm], negated, of all that stand with as much fall space."""
    fall = stance(shop, wall).fall_space_mm
    made = [replace(wall, width_mm=w) for w in shop.space.widths_mm.tolist()]
    return [
        (cost_cents(shop, one), -one.width_mm)
        for one in made
        if splits_well(shop, one)
        and cost_cents(shop, one) < UNAVAILABLE_CENTS
        and holds(shop, one)
        and fits_room(shop, one)
        and stance(shop, one).fall_space_mm >= fall
    ]


@pytest.mark.parametrize("seed", ROOMS)
def test_no_width_is_cheaper_and_none_as_cheap_is_greater(seed: int) -> None:
    shop, walls = the_front(seed)
    assert walls
    for wall in walls:
        best = at_best_width(shop, wall)
        assert (cost_cents(shop, best), -best.width_mm) == min(every_width(shop, wall))
        assert replace(best, width_mm=wall.width_mm) == wall


@pytest.mark.parametrize("seed", [3, 13])
def test_a_width_that_spares_a_cut_is_cheaper(seed: int) -> None:
    """At 1250 mm a column is as wide as a sheet: no saw cut along it."""
    shop, walls = the_front(seed)
    saved = [cost_cents(shop, wall) - cost_cents(shop, at_best_width(shop, wall)) for wall in walls]
    assert max(saved) > 0
