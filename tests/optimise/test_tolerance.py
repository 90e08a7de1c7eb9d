"""Walls that fit whatever the measures turn out to be, against rooms measured wrong at random.

The referee is the plain evaluation of a wall in a room without tolerance: every wall that the
search keeps must pass it in every room whose measures differ by no more than was said.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt
import pytest
from small_rooms import tiny_catalog, tiny_room

from steepwright.catalog import Catalog
from steepwright.optimise import search
from steepwright.optimise.drive import search_front
from steepwright.optimise.evaluate import Workshop, fits_room, holds, stance
from steepwright.optimise.fit import room_fit
from steepwright.optimise.lift import lifting
from steepwright.optimise.model import build_model
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.standing import hanging, stand
from steepwright.optimise.terms import Terms
from steepwright.optimise.tolerance import angle_range_deg
from steepwright.optimise.walls import wall_of, workshop
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall
from steepwright.room.types import Beam, Room

BoolArray = npt.NDArray[np.bool_]

BY, FAR = 8, 30
"""A careful and a careless measure [mm]."""

SEEDS = range(24)


def with_tolerance(room: Room, by_mm: int) -> Room:
    return replace(room, wall=replace(room.wall, tolerance_mm=by_mm))


def measured_wrong(room: Room, wrong: Callable[[], int]) -> Room:
    """The room as it may really be: every measure off by what `wrong` gives."""

    def moved(sides: tuple[int, int]) -> tuple[int, int]:
        return sides[0] + wrong(), sides[1] + wrong()

    def elsewhere(beam: Beam) -> Beam:
        """Along the room and higher or lower, but as much out of level as it is."""
        left, right = beam.underside_mm
        up = wrong()
        return replace(beam, x_mm=beam.x_mm + wrong(), underside_mm=(left + up, right + up))

    solids = tuple(
        replace(s, x_mm=moved(s.x_mm), y_mm=moved(s.y_mm), z_mm=moved(s.z_mm)) for s in room.solids
    )
    return replace(
        with_tolerance(room, 0),
        length_mm=room.length_mm + wrong(),
        width_mm=room.width_mm + wrong(),
        ceiling_mm=room.ceiling_mm + wrong(),
        beams=tuple(elsewhere(beam) for beam in room.beams),
        solids=solids,
    )


def shop_of(room: Room, catalog: Catalog) -> Workshop:
    return workshop(build_model(build_space(build_market(room, catalog))))


@cache
def kept_walls(seed: int, by_mm: int) -> tuple[Wall, ...]:
    room = with_tolerance(tiny_room(seed), by_mm)
    model = build_model(build_space(build_market(room, tiny_catalog(seed))))
    front = search_front(model, Terms()).front
    return tuple(wall_of(model, found) for _, found in front.sorted())


def same_lift(shop: Workshop, other: Workshop, wall: Wall) -> bool:
    """Whether the lines go up to the same beam, which the builder chooses as planned."""
    above = [
        int(lifting(s.space, s.place_index(wall), wall.mount, wall.board_mm)[1])
        for s in (shop, other)
    ]
    return above[0] == above[1]


def test_there_is_something_to_look_at() -> None:
    assert sum(bool(kept_walls(seed, BY)) for seed in SEEDS) >= 6
    assert sum(bool(kept_walls(seed, FAR)) for seed in SEEDS) >= 4


@pytest.mark.parametrize("by_mm", [BY, FAR])
@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_kept_fits_every_room_measured_wrong(seed: int, by_mm: int) -> None:
    room, catalog = tiny_room(seed), tiny_catalog(seed)
    walls = kept_walls(seed, by_mm)
    if not walls:
        return
    r = random.Random(seed)
    doubtful = shop_of(with_tolerance(room, by_mm), catalog)
    ranges = [angle_range_deg(doubtful.space, doubtful.standing(wall)) for wall in walls]
    for turn in range(16):
        ends = (-by_mm, by_mm) if turn % 2 else tuple(range(-by_mm, by_mm + 1))
        shop = shop_of(measured_wrong(room, lambda ends=ends: r.choice(ends)), catalog)
        for wall, (least, most) in zip(walls, ranges, strict=True):
            assert fits_room(shop, wall)
            assert least <= stance(shop, wall).angle_deg <= most
            if same_lift(doubtful, shop, wall):
                assert holds(shop, wall)


def grid_fits(space: Space, room: Room, place: int) -> BoolArray:
    """Which of many lengths fit a room, with one mount, sheet and frame."""
    space = replace(space, market=replace(space.market, room=room))
    boards, kickers = np.arange(1500.0, 3200.0, 20.0), np.arange(0.0, 500.0, 100.0)
    walls = stand(place, hanging(space, place, 0, 18), boards[:, None], kickers[None, :])
    return room_fit(space, walls, 118.0).fits


@pytest.mark.parametrize("by_mm", [BY, FAR])
def test_lengths_that_are_kept_fit_and_most_that_are_dropped_do_not(by_mm: int) -> None:
    kept = dropped = failing = 0
    for seed in SEEDS:
        room, place = tiny_room(seed), seed % 2
        room = replace(room, wall=replace(room.wall, min_fall_space_mm=800 + 80 * seed))
        space = build_space(build_market(room, tiny_catalog(seed)))
        as_measured = grid_fits(space, room, place)
        sure = grid_fits(space, with_tolerance(room, by_mm), place)
        assert not (sure & ~as_measured).any()
        always = as_measured.copy()
        r = random.Random(seed)
        for turn in range(30):
            ends = (-by_mm, by_mm) if turn % 3 else tuple(range(-by_mm, by_mm + 1))
            real = measured_wrong(room, lambda r=r, ends=ends: r.choice(ends))
            fits = grid_fits(space, real, place)
            assert not (sure & ~fits).any()
            always &= fits
        kept, dropped = kept + int(sure.sum()), dropped + int((as_measured & ~sure).sum())
        failing += int((as_measured & ~always).sum())
    print(f"{by_mm} mm: {kept} kept, {dropped} dropped, of which {failing} were seen to fail")
    assert kept > 300
    assert failing > dropped / 2


def test_the_range_of_angles_is_told_and_the_front_is_not_better_than_without() -> None:
    room = next(tiny_room(s) for s in SEEDS if kept_walls(s, BY))
    seed = next(s for s in SEEDS if kept_walls(s, BY))
    catalog = tiny_catalog(seed)
    sure = search(with_tolerance(room, BY), catalog, changes=False).document
    bold = search(room, catalog, changes=False).document
    for design in sure["designs"]:
        least, most = design["angle_range_deg"]
        assert least < design["angle_deg"] < most
        assert any(
            d["cost_cents"] <= design["cost_cents"] and d["angle_deg"] >= design["angle_deg"]
            for d in bold["designs"]
        )
    assert "angle_range_deg" not in bold["designs"][0]
    assert any(f"wrong by {BY} mm" in text for text in sure["assumptions"])
