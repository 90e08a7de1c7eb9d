"""The search against plain enumeration of every design, one at a time, on small random rooms."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

import pytest
from small_rooms import small_catalog, small_room

from steepwright.optimise.evaluate import Workshop, cost_cents, fits_room, holds, stance
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import build_model, kicker_families
from steepwright.optimise.search import workshop
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.widen import splits_well
from steepwright.optimise.workers import search_front
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall


def every_wall(space: Space) -> Iterator[Wall]:
    market = space.market
    for place, mount, count, sheeting, section, delivered in itertools.product(
        space.places,
        market.catalog.mounts,
        space.mount_counts,
        space.sheetings,
        market.sections,
        (False, True),
    ):
        if count > sheeting.studs:
            continue
        family = market.families[sheeting.family]
        others = kicker_families(space, sheeting)
        kickers = [family, *(market.families[i] for i in others)]
        for kicker, board_mm, kicker_mm in itertools.product(
            kickers, space.boards_mm.tolist(), space.kickers_mm.tolist()
        ):
            if not kicker_mm and kicker != family:
                continue
            yield Wall(
                beam=place[0],
                facing=place[1],
                sheet=family,
                grain=sheeting.grain,
                split=sheeting.split,
                bays=sheeting.bays,
                section=section,
                mount=mount,
                mount_count=count,
                kicker_sheet=kicker,
                delivered=delivered,
                board_mm=board_mm,
                kicker_mm=kicker_mm,
                width_mm=space.width_mm,
            )


def keeps_wishes(shop: Workshop, wall: Wall) -> bool:
    """Tell by plain arithmetic whether the mounts level the lip and the climber gets their wish."""
    room = shop.space.market.room
    left, right = room.beams[0].underside_mm
    ends = [(room.width_mm + sign * wall.width_mm) / 2 / room.width_mm for sign in (-1, 1)]
    higher = max(left + (right - left) * share for share in ends) - min(left, right)
    wishes = room.wall
    start = wall.kicker_mm + 100 * math.cos(float(shop.standing(wall).angle[0]))
    return (
        higher <= max(3, wall.mount.adjust_mm)
        and wall.board_mm + wall.kicker_mm >= wishes.min_climbable_mm
        and (wall.board_mm - 200) // (0.3 * room.climber.span_mm) >= wishes.min_moves
        and (wishes.max_start_mm is None or start <= wishes.max_start_mm)
    )


def plain_front(shop: Workshop) -> Front[Wall]:
    front: Front[Wall] = Front()
    fits: dict[tuple[object, ...], bool] = {}
    splits: dict[tuple[object, ...], bool] = {}
    for wall in every_wall(shop.space):
        key = (wall.facing, wall.mount, wall.section, wall.board_mm, wall.kicker_mm)
        key = (*key, wall.sheet.thickness_mm)
        if key not in fits:
            fits[key] = fits_room(shop, wall)
            assert keeps_wishes(shop, wall) or not fits[key]
        if not fits[key]:
            continue
        pieces = (
            wall.sheet,
            wall.kicker_sheet,
            wall.split,
            wall.delivered,
            wall.section,
            wall.bays,
        )
        pieces = (*pieces, wall.board_mm, wall.kicker_mm)
        if pieces not in splits:
            splits[pieces] = splits_well(shop, wall)
        if not splits[pieces]:
            continue
        cost = cost_cents(shop, wall)
        place = stance(shop, wall)
        score = Score(cost, round(place.angle_deg * 1000), place.fall_space_mm)
        beaten = any(kept.at_least(score) for kept in front.members)
        if cost < UNAVAILABLE_CENTS and not beaten and holds(shop, wall):
            front.offer(score, wall)
    return front


@pytest.mark.parametrize("seed", [1, 4, 9, 13])
def test_search_finds_exactly_the_plain_front(seed: int) -> None:
    room, catalog = small_room(seed), small_catalog(seed)
    model = build_model(build_space(build_market(room, catalog)))
    found = search_front(model, 1, lambda _: None)
    plain = plain_front(workshop(model))
    assert [s for s, _ in found.front.sorted()] == [s for s, _ in plain.sorted()]


def test_number_of_workers_does_not_change_the_front() -> None:
    model = build_model(build_space(build_market(small_room(4), small_catalog(4))))
    alone = search_front(model, 1, lambda _: None)
    shared = search_front(model, 2, lambda _: None)
    assert alone.front.sorted() == shared.front.sorted()
    assert alone.seen == shared.seen
