"""Two yards whose trips cost something, against plain enumeration; yards and prices invented.

South sells nothing but some sheets, in sizes of its own and cheaper than North's. So its sheets
are worth the trip when the trip is cheap and are not when it is dear.
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
from steepwright.optimise.model import build_model
from steepwright.optimise.search import search, workshop
from steepwright.optimise.space import build_space
from steepwright.optimise.yards import search_yards, sets_of_yards, trip_assumptions
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall

SEED = 1
NORTH_TRIP = 1000
STUD_MM = 60
"""One section is enough here, and keeps plain enumeration short."""
ROOM = replace(
    small_room(SEED),
    wall=replace(small_room(SEED).wall, kicker_mm=(0, 0)),
)


def silent(_: str) -> None:
    pass


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


@cache
def plain(yards: tuple[str, ...]) -> tuple[tuple[Score, tuple[str, ...]], ...]:
    """Return the front of what some yards sell, without trips, and the yards on each bill."""
    whole = two_yards()
    offers = replace(whole, sheets=tuple(s for s in whole.sheets if s.yard in yards))
    shop = workshop(build_model(build_space(build_market(ROOM, offers, whole))))

    def named(wall: Wall) -> tuple[str, ...]:
        priced = price(shop, wall)
        assert priced is not None
        return tuple(sorted({line.yard for line in priced.bill} & {"North", "South"}))

    return tuple((score, named(wall)) for score, wall in plain_front(shop).sorted())


def by_hand(south_cents: int) -> list[Score]:
    front: Front[None] = Front()
    for yards, trips in ((("North",), NORTH_TRIP), (("North", "South"), NORTH_TRIP + south_cents)):
        for score, _ in plain(yards):
            front.offer(replace(score, cost_cents=score.cost_cents + trips), None)
    return [score for score, _ in front.sorted()]


@pytest.mark.parametrize("south_cents", [0, 1500, 100_000])
def test_search_finds_exactly_the_plain_front(south_cents: int) -> None:
    found = [s for s, _ in search_yards(ROOM, with_trips(south_cents), 1, silent).front.sorted()]
    assert found == by_hand(south_cents)
    # Nor is it beaten by a wall that is charged for just the yards that its own bill names.
    prices = {"North": NORTH_TRIP, "South": south_cents}
    for score, used in plain(("North", "South")):
        cost = score.cost_cents + sum(prices[yard] for yard in used)
        assert any(kept.at_least(replace(score, cost_cents=cost)) for kept in found)


def test_the_dearer_the_trip_the_fewer_walls_are_bought_south() -> None:
    south = []
    for cents in (0, 1500, 100_000):
        designs = search(ROOM, with_trips(cents)).document["designs"]
        south.append(sum("South" in {line["yard"] for line in d["bill"]} for d in designs))
        for design in designs:
            bill = design["bill"]
            assert design["cost_cents"] == sum(line["amount_cents"] for line in bill)
            bought = {line["yard"] for line in bill if line["group"] != "charges"}
            trips = {
                line["yard"]: line["amount_cents"]
                for line in bill
                if line["what"] == f"trip to {line['yard']}"
            }
            prices = {"North": NORTH_TRIP, "South": cents}
            assert trips == {y: c for y, c in prices.items() if y in bought and c}
    assert south[0] > south[1] > south[2] == 0


def test_workers_do_not_change_the_answer() -> None:
    fronts = [search_yards(ROOM, with_trips(1500), n, silent).front.sorted() for n in (1, 2)]
    assert [(s, found) for s, (_, found) in fronts[0]] == [
        (s, found) for s, (_, found) in fronts[1]
    ]


def test_an_assessed_wall_is_bought_where_it_is_cheapest() -> None:
    design = {"board_mm": 2700, "width_mm": 1200, "columns": 1, "rows": 2, "delivered": True}
    cheap, dear = (assess(ROOM, with_trips(cents), design)["designs"][0] for cents in (1, 100_000))
    assert {"trip North", "trip South"} <= {line["sku"] for line in cheap["bill"]}
    assert "trip South" not in {line["sku"] for line in dear["bill"]}
    assert dear["cost_cents"] < cheap["cost_cents"] + 100_000


def test_up_to_three_yards_every_set_is_looked_at_then_each_and_all() -> None:
    trips = tuple((name, 100) for name in "abcd")
    three, four = (replace(two_yards(), trips=trips[:n]) for n in (3, 4))
    assert [len(yards) for yards in sets_of_yards(three)] == [0, 1, 1, 1, 2, 2, 2, 3]
    assert [len(yards) for yards in sets_of_yards(four)] == [0, 1, 1, 1, 1, 4]
    assert len(trip_assumptions(three)) == 1
    assert "may cost less" in trip_assumptions(four)[1]
    assert sets_of_yards(two_yards()) == ((),)
    assert trip_assumptions(two_yards()) == ()
