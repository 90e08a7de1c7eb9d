"""The cloud of beaten walls: each of its points is a wall, priced as the search prices it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from small_rooms import framed_room, small_catalog, small_room, tiny_catalog, tiny_room

from steepwright.catalog import Catalog
from steepwright.optimise.cloud import dominated_sample, otherwise_hung
from steepwright.optimise.drive import search_front
from steepwright.optimise.evaluate import cost_cents, fits_room, holds, stance
from steepwright.optimise.front import Score
from steepwright.optimise.model import build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.walls import wall_of, workshop
from steepwright.pricing.market import build_market
from steepwright.room.types import Room


def padded(room: Room) -> Room:
    return replace(room, yard=replace(room.yard, pads_on_bill=True))


@pytest.mark.parametrize(
    ("room", "catalog"),
    [
        (small_room(4), small_catalog(4)),
        (padded(tiny_room(6)), tiny_catalog(6)),
        (framed_room(4), tiny_catalog(4)),
        (framed_room(11), tiny_catalog(11)),
    ],
)
def test_a_front_hung_otherwise_is_priced_as_each_wall_alone(room: Room, catalog: Catalog) -> None:
    model = build_model(build_space(build_market(room, catalog)))
    front = search_front(model, Terms()).front
    hung = set(otherwise_hung([(score, (model, found)) for score, found in front.sorted()]))
    plain = set()
    shop, space = workshop(model), model.space
    for found in front.members.values():
        for place, mount in np.ndindex(len(space.places), len(model.hangs)):
            scores = [
                Score(cost_cents(shop, wall), round(1000 * at.angle_deg), at.fall_space_mm)
                for count, screw, tie in space.fixings
                for other in (replace(found, place=place, mount=mount, tie=tie),)
                for wall in (wall_of(model, replace(other, mount_count=count, screw_mm=screw)),)
                if count <= wall.stud_count and fits_room(shop, wall) and holds(shop, wall)
                for at in (stance(shop, wall),)
            ]
            plain |= {min(scores)} if scores else set()
    assert hung == plain
    assert set(front.members) <= hung


def test_a_sample_is_thinned_evenly_and_sorted() -> None:
    scores = [Score(n, 1000 * n, 5) for n in range(1300)]
    sample = dominated_sample(scores[::-1])
    assert sample[:2] == [[0.0, 0, 5], [3.0, 3, 5]]
    assert len(sample) == 434
