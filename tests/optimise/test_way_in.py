"""What is said to force a split, against the limits as they were stated."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_rooms import small_catalog, small_room

from steepwright.geometry.layout import Split
from steepwright.optimise.access import pieces_get_in
from steepwright.optimise.evaluate import Workshop
from steepwright.optimise.model import build_model
from steepwright.optimise.search import workshop
from steepwright.optimise.space import build_space
from steepwright.optimise.way_in import CARRIERS, SHEETS, VEHICLE, board_way_in, way_in_document
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import Wall
from steepwright.room.types import Access, Door, Room, Window


def shop_and_wall(access: Access, vehicle: tuple[int, int] | None) -> tuple[Workshop, Wall]:
    room: Room = small_room(1)
    room = replace(
        room,
        access=access,
        yard=replace(room.yard, vehicle_max_mm=vehicle),
        wall=replace(room.wall, max_columns=2),
    )
    model = build_model(build_space(build_market(room, small_catalog(1))))
    market = model.space.market
    family = next(f for f in market.families if f.products)
    wall = Wall(
        beam=0,
        facing="+x",
        sheet=family,
        grain="any",
        split=Split(2, 0, 2, 0),
        bays=2,
        section=market.sections[0],
        mount=market.catalog.mounts[0],
        mount_count=2,
        screw_mm=150,
        kicker_sheet=family,
        delivered=False,
        board_mm=2600,
        kicker_mm=200,
        width_mm=1200,
    )
    return workshop(model), wall


@pytest.mark.parametrize(
    ("access", "vehicle", "longest", "name"),
    [
        (Access(carriers=3), (1700, 1300), 1700, VEHICLE),
        (Access(doors=(Door("cat flap", 500, 300),), carriers=3), None, 567, "'cat flap'"),
        (Access(max_piece_mm=(1500, 1300), carriers=3), None, 1500, "1500 x 1300"),
    ],
)
def test_the_narrowest_place_is_named(access, vehicle, longest, name):
    way = board_way_in(*shop_and_wall(access, vehicle))
    assert way["largest_piece_mm"] == [1300, 600]
    assert name in way["bottleneck"]
    assert way["longest_mm"] == longest


def test_a_row_fewer_is_stopped_by_what_is_too_small_for_it():
    way = board_way_in(*shop_and_wall(Access(max_piece_mm=(2500, 650), carriers=3), None))
    column, row = way["undivided"]
    assert (column["columns"], column["rows"], column["piece_mm"]) == (1, 2, [1300, 1200])
    assert (row["columns"], row["rows"], row["piece_mm"]) == (2, 1, [2600, 600])
    assert "2500 x 650" in column["stopped_by"]
    assert "2500 x 650" in row["stopped_by"]


def test_carriers_sheets_and_nothing_are_told_apart():
    shop, wall = shop_and_wall(Access(max_carry_kg=10.0, carriers=1), None)
    assert board_way_in(shop, wall)["undivided"][0]["stopped_by"] == CARRIERS
    shop, wall = shop_and_wall(Access(carriers=3), None)
    assert board_way_in(shop, wall)["bottleneck"] == CARRIERS
    assert board_way_in(shop, wall)["undivided"][0]["stopped_by"] == ""
    long = replace(wall, board_mm=3900, split=Split(2, 0, 2, 0))
    kinds = {row["stopped_by"] for row in board_way_in(shop, long)["undivided"]}
    assert SHEETS in kinds


def test_longest_piece_agrees_with_the_search_s_own_filter():
    for access in (
        Access(doors=(Door("d", 700, 1500),), carriers=3),
        Access(doors=(Door("d", 500, 500),), windows=(Window("w", 700, 900, 2000),), carriers=3),
    ):
        shop, wall = shop_and_wall(access, None)
        way = board_way_in(shop, wall)
        family = shop.space.market.families.index(wall.sheet)
        longest = way["longest_mm"]
        fits = pieces_get_in(shop.space, family, [(longest, 600), (longest + 1, 600)])
        assert fits.tolist() == [True, False]


def test_table_of_places_lists_every_stock_width():
    shop, _ = shop_and_wall(Access(max_piece_mm=(1500, 1300)), None)
    rows = way_in_document(shop.space)
    widths = {min(p.length_mm, p.width_mm) for f in shop.space.market.families for p in f.products}
    assert {row["width_mm"] for row in rows} == widths
    assert all(row["longest_mm"] == 1500 for row in rows if row["width_mm"] <= 1300)
