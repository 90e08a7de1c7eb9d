"""The search against plain enumeration of every design, one at a time, on small random rooms."""

from __future__ import annotations

import itertools
import math
import os
from collections.abc import Iterator
from dataclasses import fields, replace

import numpy as np
import pytest
from small_rooms import (
    BESIDE,
    climbers_room,
    filled_catalog,
    filled_room,
    framed_catalog,
    framed_room,
    in_code,
    joist_room,
    ledger_room,
    lost_catalog,
    padded_beside,
    padded_catalog,
    sideways_room,
    small_catalog,
    small_room,
    some_widths,
    spreader_room,
    three_mounts,
    tied_catalog,
    tied_room,
    tiny_catalog,
    tiny_room,
    weak_slab_room,
)

from drawn_rows import ends_mm
from steepwright.catalog import Catalog
from steepwright.optimise import units
from steepwright.optimise.drive import search_front
from steepwright.optimise.evaluate import Workshop, batch_of, cost_cents, fits_room, stance
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import Model, build_model, build_wide_model, kicker_families
from steepwright.optimise.pad_floor import pads_cents
from steepwright.optimise.search import workshop
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.widen import splits_well
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall, rows_of
from steepwright.room.types import Room
from steepwright.structure import Batch, worst_use

AT_ONCE = 200
"""Walls whose structure is looked at together; one at a time takes many times as long."""

ROOMS = int(os.environ.get("STEEPWRIGHT_ROOMS", "40"))
"""How many tiny rooms; ``STEEPWRIGHT_ROOMS=240`` before the command looks at 240."""

WIDE = (1, 2, 6, 8, 13, 16, 18, 25, 110, 166)
"""Rooms of several widths; in 16, 110 and 166 a wider wall beats all of the least width."""

HIDDEN = (1, 3, 5, 6, 8, 12, 13, 15, 29, 36)
"""Rooms with joists or slabs; under all but one of them walls stand."""

FRAMED = (2, 3, 4, 8, 14, 16, 20, 24)
"""Rooms with freestanding frames that walls hang from; one of 24 is there already."""

LEDGERED = (3, 4, 8, 16)
"""Rooms with beams on ledgers, two in studs and two in masonry; walls hang from all of them."""


TIED = (4, 18, 22, 87, 97)
"""Rooms whose studs may be tied back; all but the second have walls of the front that are."""


def every_wall(space: Space) -> Iterator[Wall]:
    market = space.market
    for place, mount, count, tie, sheeting, section, delivered in itertools.product(
        space.places,
        market.catalog.mounts,
        space.mount_counts,
        space.ties,
        space.sheetings,
        market.sections,
        (False, True),
    ):
        if count > sheeting.studs:
            continue
        family = market.families[sheeting.family]
        others = kicker_families(space, sheeting.family)
        kickers = [family, *(market.families[i] for i in others)]
        lengths = space.boards_mm.tolist(), space.kickers_mm.tolist()
        widths = space.widths_mm.tolist()[: space.searched]
        for kicker, board_mm, kicker_mm, width_mm, screw_mm in itertools.product(
            kickers, *lengths, widths, space.screws_mm
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
                width_mm=width_mm,
                screw_mm=screw_mm,
                tie=tie,
            )


def keeps_wishes(shop: Workshop, wall: Wall) -> bool:
    """Tell by plain arithmetic whether the mounts level the lip and the climber gets their wish."""
    room = shop.space.market.room
    left, right = room.beams[wall.beam].underside_mm
    free = {"left": 0.0, "centre": 0.5, "right": 1.0}[room.wall.align]
    start_mm = free * (room.width_mm - wall.width_mm)
    ends = [y_mm / room.width_mm for y_mm in (start_mm, start_mm + wall.width_mm)]
    higher = max(left + (right - left) * share for share in ends) - min(left, right)
    wishes = room.wall
    parts = rows_of(wall.split, wall.board_mm, shop.space.market.limits)
    low, high = wall.board_mm, wall.board_mm  # what can't be divided offers nothing
    if parts is not None:
        low, high = ends_mm(parts, wall.section.width_mm, wishes.hold_spacing_mm)
    start = wall.kicker_mm + low * math.cos(float(shop.standing(wall).angle[0]))
    return (
        higher <= max(3, wall.mount.adjust_mm)
        and wall.board_mm + wall.kicker_mm >= wishes.min_climbable_mm
        and (high - low) // (0.3 * room.climber.span_mm) >= wishes.min_moves
        and wall.width_mm >= wishes.min_width_spans * room.climber.span_mm
        and (wishes.max_start_mm is None or start <= wishes.max_start_mm)
    )


def plain_front(shop: Workshop) -> Front[Wall]:
    """Score every wall that fits and can be bought; of these keep what holds and is not beaten.

    The structure comes last, and the best walls first, because it takes longest.
    """
    where: dict[tuple[object, ...], tuple[int, int] | None] = {}
    bare, pads = without_pads(shop), dict[tuple[object, ...], int]()
    gets_in: dict[tuple[object, ...], bool] = {}
    scored: list[tuple[Score, Wall]] = []
    for wall in every_wall(shop.space):
        key = (wall.beam, wall.facing, wall.mount, wall.section, wall.sheet.thickness_mm)
        key = (*key, wall.board_mm, wall.kicker_mm, wall.width_mm, wall.split)
        if key not in where:
            where[key] = _where(shop, wall) if fits_room(shop, wall) else None
            assert keeps_wishes(shop, wall) or where[key] is None
        place = where[key]
        if place is None:
            continue
        pieces = (wall.sheet, wall.kicker_sheet, wall.split, wall.board_mm, wall.kicker_mm)
        pieces = (*pieces, wall.section, wall.bays, wall.delivered, wall.width_mm)
        if pieces not in gets_in:
            gets_in[pieces] = splits_well(shop, wall)
        if not gets_in[pieces]:
            continue
        if key not in pads:
            pads[key] = pads_of(shop, wall, place[1])
        cost = cost_cents(bare, wall) + pads[key]
        if cost < UNAVAILABLE_CENTS:
            scored.append((Score(cost, *place), wall))
    front: Front[Wall] = Front()
    left = sorted(scored, key=lambda row: _best_first(row[0]))
    while left:
        strong = _hold(shop, [wall for _, wall in left[:AT_ONCE]])
        for score, wall in itertools.compress(left[:AT_ONCE], strong):
            front.offer(score, wall)
        kept = tuple(front.members)
        left = [row for row in left[AT_ONCE:] if not any(k.at_least(row[0]) for k in kept)]
    return front


def without_pads(shop: Workshop) -> Workshop:
    """Return the workshop of the same room that leaves pads off the bill."""
    market = shop.space.market
    room = replace(market.room, yard=replace(market.room.yard, pads_on_bill=False))
    return replace(shop, space=replace(shop.space, market=replace(market, room=room)))


def pads_of(shop: Workshop, wall: Wall, fall_mm: int) -> int:
    """Return what the pads cost [cents] on the bill of all walls that stand like this one."""
    if not shop.space.market.room.yard.pads_on_bill:
        return 0
    return int(pads_cents(shop.space, shop.standing(wall), [fall_mm], wall.width_mm)[0])


def _hold(shop: Workshop, walls: list[Wall]) -> list[bool]:
    rows = [batch_of(shop, wall) for wall in walls]
    columns = (np.concatenate([getattr(row, f.name) for row in rows]) for f in fields(Batch))
    return [bool(use <= 1) for use in worst_use(shop.tables, Batch(*columns))]


def _where(shop: Workshop, wall: Wall) -> tuple[int, int]:
    place = stance(shop, wall)
    return round(place.angle_deg * 1000), place.fall_space_mm


def _best_first(score: Score) -> tuple[int, int, int]:
    return score.cost_cents, -score.angle_mdeg, -score.fall_mm


def model_of(room: Room, catalog: Catalog) -> Model:
    return build_model(build_space(build_market(room, catalog)))


def differing(room: Room, catalog: Catalog) -> tuple[list[Score], list[Score]]:
    """Return what only the search and what only the plain enumeration of a room finds."""
    return compared(model_of(room, catalog))


def compared(model: Model) -> tuple[list[Score], list[Score]]:
    found = {score for score, _ in search_front(model, Terms()).front.sorted()}
    plain = {score for score, _ in plain_front(workshop(model.wider or model)).sorted()}
    return sorted(found - plain), sorted(plain - found)


@pytest.mark.parametrize("seed", [1, 4, 9, 13])
def test_search_finds_exactly_the_plain_front(seed: int) -> None:
    assert differing(small_room(seed), small_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", range(ROOMS))
def test_search_finds_exactly_the_plain_front_of_a_tiny_room(seed: int) -> None:
    assert differing(tiny_room(seed), tiny_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", [*WIDE, *range(200, 160 + ROOMS)])
def test_search_of_all_widths_finds_exactly_the_plain_front(seed: int) -> None:
    market = build_market(some_widths(seed), tiny_catalog(seed))
    assert compared(build_wide_model(build_space(market))) == ([], [])


@pytest.mark.parametrize("seed", BESIDE)
def test_search_of_all_widths_finds_the_plain_front_where_wider_walls_need_fewer_pads(
    seed: int,
) -> None:
    market = build_market(padded_beside(seed), padded_catalog(seed))
    assert compared(build_wide_model(build_space(market))) == ([], [])


@pytest.mark.parametrize("seed", [3, 6, 12, 16, 20])
@pytest.mark.parametrize("kerf_mm", [0, 4])
def test_search_finds_exactly_the_plain_front_where_pieces_fill_a_sheet(
    seed: int, kerf_mm: int
) -> None:
    assert differing(filled_room(seed, kerf_mm), filled_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", [6, 8])
def test_search_finds_exactly_the_plain_front_where_mounts_hang_off_the_middle(seed: int) -> None:
    """Under so thin a beam other walls would hold if mounts counted from the climber's right."""
    assert differing(sideways_room(seed, 130), three_mounts(tiny_catalog(seed))) == ([], [])


@pytest.mark.parametrize("seed", [1, 6])
def test_search_finds_exactly_the_plain_front_where_a_lost_mount_decides(seed: int) -> None:
    """Either front has walls more if nothing levers at a lost corner."""
    assert differing(sideways_room(seed, 260), lost_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", [4, 36])
def test_search_finds_exactly_the_plain_front_of_three_mounts_on_weak_anchors(seed: int) -> None:
    assert differing(weak_slab_room(seed), three_mounts(tiny_catalog(seed))) == ([], [])


@pytest.mark.parametrize("seed", [16, 18, 19, 34, 38, 41, 45, 53])
def test_search_finds_exactly_the_plain_front_where_holds_must_begin_low(seed: int) -> None:
    """The lowest row is no higher on a longer board, nor lower: it goes by seams and studs, too."""
    assert differing(climbers_room(seed), tiny_catalog(seed)) == ([], [])


@pytest.mark.parametrize("factor", [2, 3])
def test_search_of_dear_and_cheap_mounts_is_the_plain_front(factor: int) -> None:
    room, catalog = tiny_room(36), tiny_catalog(36)
    known = catalog.materials.factors
    factors = replace(known, values={**known.values, "search_least_mounts": float(factor)})
    dear, *others = sorted(catalog.mounts, key=lambda mount: -mount.price_cents)
    mounts = (replace(dear, price_cents=dear.price_cents + 9000), *others)
    materials = replace(catalog.materials, factors=factors)
    assert differing(room, replace(catalog, mounts=mounts, materials=materials)) == ([], [])


@pytest.mark.parametrize("seed", [16, 110, 166])
def test_a_wider_wall_beats_all_of_the_least_width(seed: int) -> None:
    model = build_wide_model(build_space(build_market(some_widths(seed), tiny_catalog(seed))))
    alone = {score for score, _ in search_front(replace(model, wider=None), Terms()).front.sorted()}
    every = search_front(model, Terms()).front.sorted()
    wider = [score for score, found in every if found.width_mm > model.space.width_mm]
    assert wider
    assert not alone.issuperset(wider)


@pytest.mark.parametrize("seed", [16, 41, 110, 166])
@pytest.mark.parametrize("lag", [1, 500])
def test_widths_found_do_not_depend_on_what_a_unit_is_told(
    seed: int, lag: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    model = build_wide_model(build_space(build_market(some_widths(seed), tiny_catalog(seed))))
    alone = search_front(model, Terms()).front.sorted()
    monkeypatch.setattr(units, "WIDE_LAG", lag)
    assert search_front(model, Terms()).front.sorted() == alone
    assert search_front(model, Terms(), tuple(alone[::2])).front.sorted() == alone


@pytest.mark.parametrize("seed", HIDDEN)
def test_search_finds_exactly_the_plain_front_under_joists_and_slabs(seed: int) -> None:
    assert differing(joist_room(seed), tiny_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", FRAMED)
def test_search_finds_exactly_the_plain_front_with_freestanding_frames(seed: int) -> None:
    assert differing(framed_room(seed), framed_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", LEDGERED)
def test_search_finds_exactly_the_plain_front_with_wall_ledgers(seed: int) -> None:
    assert differing(ledger_room(seed), framed_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", TIED)
def test_search_finds_exactly_the_plain_front_with_ties_to_a_second_beam(seed: int) -> None:
    assert differing(tied_room(seed), tied_catalog(seed)) == ([], [])


@pytest.mark.parametrize("seed", [8, 11])
def test_search_finds_exactly_the_plain_front_under_joists_along_the_room(seed: int) -> None:
    assert differing(spreader_room(seed), framed_catalog(seed)) == ([], [])


def test_search_finds_exactly_the_plain_front_under_joists_by_the_nds() -> None:
    pair = in_code("NDS", spreader_room(8), framed_catalog(8))
    assert differing(*pair) == ([], [])


@pytest.mark.parametrize(("seed", "kind"), [(1, "joist"), (6, "slab")])
def test_walls_hang_from_what_is_hidden(seed: int, kind: str) -> None:
    room = joist_room(seed)
    model = model_of(room, tiny_catalog(seed))
    front = search_front(model, Terms()).front.sorted()
    beams = {model.space.places[found.place][0] for _, found in front}
    assert {room.beams[beam].kind for beam in beams} == {kind}


def test_number_of_workers_does_not_change_the_front() -> None:
    model = build_model(build_space(build_market(small_room(4), small_catalog(4))))
    alone = search_front(model, Terms())
    shared = search_front(model, Terms(workers=2))
    assert alone.front.sorted() == shared.front.sorted()
    assert alone.tally == shared.tally
