"""Two yards whose trips cost something, against plain enumeration; yards and prices invented.

South sells nothing but some sheets, in sizes of its own and cheaper than North's. So its sheets
are worth the trip when the trip is cheap and are not when it is dear. Both sell things that are too
large for the builder's vehicle, which come by a delivery or not at all.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from small_rooms import small_catalog, small_room
from test_brute_force import plain_front

from steepwright.catalog import Catalog
from steepwright.optimise.assess import assess
from steepwright.optimise.evaluate import price
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import Model, build_model, build_wide_model
from steepwright.optimise.search import search, workshop
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.yards import all_models, search_yards, sets_of_yards, trip_assumptions
from steepwright.pricing.market import build_market
from steepwright.pricing.transport import sets_that_deliver
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room

SEED = 1
NORTH_TRIP = 1000
STUD_MM = 60
"""One section is enough here, and keeps plain enumeration short."""
ROOM = replace(
    small_room(SEED),
    wall=replace(small_room(SEED).wall, kicker_mm=(0, 0)),
)


@cache
def two_yards() -> Catalog:
    whole = small_catalog(SEED)
    north = tuple(replace(s, yard="North") for s in whole.sheets)
    south = tuple(
        replace(
            s,
            sku=f"south {s.sku}",
            length_mm=s.length_mm + 100,
            price_cents=s.price_cents * 4 // 5,
            yard="South",
        )
        for s in whole.sheets
    )
    timber = tuple(replace(t, yard="North") for t in whole.timber if t.width_mm == STUD_MM)
    return replace(whole, sheets=(*north, *south), timber=timber, mounts=whole.mounts[:1])


def with_trips(south_cents: int) -> Catalog:
    return replace(two_yards(), trips=(("North", NORTH_TRIP), ("South", south_cents)))


def in_vehicle(*sides_mm: int) -> bool:
    vehicle = ROOM.yard.vehicle_max_mm
    assert vehicle is not None
    return all(
        a <= b for a, b in zip(sorted(sides_mm), sorted(vehicle)[-len(sides_mm) :], strict=True)
    )


def room_with(**changes: object) -> Room:
    return replace(ROOM, yard=replace(ROOM.yard, **changes))  # type: ignore[arg-type]


@cache
def plain(
    yards: tuple[str, ...], delivering: tuple[str, ...]
) -> tuple[tuple[Score, tuple[str, ...]], ...]:
    """Return the front of what some yards sell, without transport, and the yards on each bill.

    With no yard that delivers, a delivery costs so much that any other wall is better.
    """
    whole = two_yards()
    room = room_with(vehicle_max_mm=None) if delivering else room_with(delivery_price_cents=9**7)
    offers = replace(
        whole,
        sheets=tuple(
            s
            for s in whole.sheets
            if s.yard in yards
            and (not delivering or s.yard in delivering or in_vehicle(s.length_mm, s.width_mm))
        ),
        timber=tuple(
            t
            for t in whole.timber
            if not delivering or t.yard in delivering or in_vehicle(t.length_mm)
        ),
    )
    shop = workshop(build_model(build_space(build_market(room, offers, whole))))

    def named(wall: Wall) -> tuple[str, ...]:
        priced = price(shop, wall)
        assert priced is not None
        return tuple(sorted({line.yard for line in priced.bill} & {"North", "South"}))

    return tuple((score, named(wall)) for score, wall in plain_front(shop).sorted())


CHOICES = (
    (("North",), ()),
    (("North",), ("North",)),
    (("North", "South"), ()),
    (("North", "South"), ("North",)),
    (("North", "South"), ("South",)),
    (("North", "South"), ("North", "South")),
)
"""Yards bought from, and those of them that deliver."""


def ways_cents(yards: tuple[str, ...], delivering: tuple[str, ...], south_cents: int) -> int:
    trips = {"North": NORTH_TRIP, "South": south_cents}
    delivery = ROOM.yard.delivery_price_cents
    return sum(max(trips[y], delivery) if y in delivering else trips[y] for y in yards)


def by_hand(south_cents: int) -> list[Score]:
    front: Front[None] = Front()
    for yards, delivering in CHOICES:
        ways = ways_cents(yards, delivering, south_cents)
        for score, _ in plain(yards, delivering):
            front.offer(replace(score, cost_cents=score.cost_cents + ways), None)
    return [score for score, _ in front.sorted()]


@pytest.mark.parametrize("south_cents", [0, 1500, 100_000])
def test_search_finds_exactly_the_plain_front(south_cents: int) -> None:
    found = [s for s, _ in search_yards(ROOM, with_trips(south_cents), Terms()).front.sorted()]
    assert found == by_hand(south_cents)
    # Nor is it beaten by a wall that is charged for just the yards that its own bill names.
    for yards, delivering in CHOICES:
        for score, used in plain(yards, delivering):
            ways = ways_cents(used, tuple(set(delivering) & set(used)), south_cents)
            cost = score.cost_cents + ways
            assert any(kept.at_least(replace(score, cost_cents=cost)) for kept in found)


def test_each_yard_is_paid_for_one_way_and_dear_trips_are_not_made() -> None:
    south = []
    for cents in (0, 1500, 100_000):
        designs = search(ROOM, with_trips(cents)).document["designs"]
        south.append(sum("South" in {line["yard"] for line in d["bill"]} for d in designs))
        for design in designs:
            bill = design["bill"]
            assert design["cost_cents"] == sum(line["amount_cents"] for line in bill)
            prices = {"North": NORTH_TRIP, "South": cents}
            for yard in {line["yard"] for line in bill if line["group"] != "charges"} & {*prices}:
                ways = [
                    (line["what"], line["amount_cents"])
                    for line in bill
                    if line["group"] == "charges" and line["yard"] == yard
                ]
                trip = (f"trip to {yard}", prices[yard])
                delivery = (f"delivery from {yard}", ROOM.yard.delivery_price_cents)
                assert ways in ([trip] if prices[yard] else [], [delivery])
                assert design["delivered"] or ways != [delivery]
    assert south[0] > south[1] > south[2] == 0


@pytest.mark.parametrize("last", [False, True])
def test_an_interrupt_between_two_sets_of_yards_keeps_what_was_found(
    last: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    catalog, built = with_trips(1), list[Model]()
    count = len(search_yards(ROOM, catalog, Terms()).models)
    assert count > 2
    upto = count - 1 if last else 1

    def interrupted(space: Space) -> Model:
        if len(built) == upto:
            raise KeyboardInterrupt
        built.append(build_wide_model(space))
        return built[-1]

    with monkeypatch.context() as patched:
        patched.setattr("steepwright.optimise.yards.build_wide_model", interrupted)
        found = search_yards(ROOM, catalog, Terms())
    assert (found.stopped, len(found.models)) == ("interrupted", upto)
    assert found.front.members
    assert found.angles
    assert not any(angle.settled for angle in found.angles)
    assert len(all_models(ROOM, catalog, found)) == count


def test_workers_do_not_change_the_answer() -> None:
    fronts = [search_yards(ROOM, with_trips(1500), Terms(workers=n)).front.sorted() for n in (1, 2)]
    assert [(s, found) for s, (_, found) in fronts[0]] == [
        (s, found) for s, (_, found) in fronts[1]
    ]


def test_an_assessed_wall_is_bought_where_it_is_cheapest() -> None:
    design = {"board_mm": 2700, "width_mm": 1200, "columns": 1, "rows": 2, "delivered": True}
    cheap, dear = (assess(ROOM, with_trips(cents), design)["designs"][0] for cents in (1, 100_000))
    assert {line["yard"] for line in cheap["bill"]} >= {"North", "South"}
    assert "South" not in {line["yard"] for line in dear["bill"]}
    assert dear["cost_cents"] < cheap["cost_cents"] + 100_000


def test_no_way_is_paid_twice_and_a_dearer_trip_is_paid_instead_of_a_delivery() -> None:
    """Delivery 39.00; trips 10.00 and 50.00: at most 39 - 10 on top of both trips, by hand."""
    market = build_market(ROOM, with_trips(5000))
    assert market.delivering == ("North", "South")
    assert market.trips_cents == 6000
    assert market.delivery_charges == (("North", 3900),)
    assert market.delivery_cents == 2900
    assert sets_that_deliver(ROOM.yard, with_trips(5000)) == (("South",), ("North", "South"))
    free = room_with(delivery_price_cents=0)
    assert build_market(free, with_trips(5000)).delivery_cents == 0
    told = trip_assumptions(ROOM, with_trips(5000))
    assert "takes the place of the trip" in told[1]


def test_two_yards_on_the_way_each_charge_for_their_own_delivery() -> None:
    both = build_market(ROOM, two_yards())
    assert both.delivery_cents == 2 * ROOM.yard.delivery_price_cents
    assert sets_that_deliver(ROOM.yard, two_yards()) == (
        ("North",),
        ("South",),
        ("North", "South"),
    )


def test_up_to_three_yards_every_set_is_looked_at_then_each_and_all() -> None:
    trips = tuple((name, 100) for name in "abcd")
    three, four = (replace(two_yards(), trips=trips[:n]) for n in (3, 4))
    assert [len(yards) for yards in sets_of_yards(three)] == [0, 1, 1, 1, 2, 2, 2, 3]
    assert [len(yards) for yards in sets_of_yards(four)] == [0, 1, 1, 1, 1, 4]
    assert "may cost less" not in trip_assumptions(ROOM, three)[-1]
    assert "may cost less" in trip_assumptions(ROOM, four)[-1]
    assert sets_of_yards(two_yards()) == ((),)
    assert trip_assumptions(small_room(2), two_yards()) == ()
