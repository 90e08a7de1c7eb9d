"""The charge for going to a yard: a constant of the market, one line per yard on the bill."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from steepwright.catalog import read_catalog
from steepwright.pricing.hardware import Counts, build_pricer
from steepwright.pricing.market import build_market
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

ROOM = read_room(catalogs_dir() / "example" / "room.toml")
SHIPPED = read_catalog()


def test_a_market_adds_up_the_trips_that_cost_something() -> None:
    market = build_market(ROOM, replace(SHIPPED, trips=(("a", 1250), ("b", 0), ("c", 399))))
    assert market.trips == (("a", 1250), ("c", 399))
    assert market.trips_cents == 1649
    assert build_market(ROOM, SHIPPED).trips_cents == 0


def test_the_trips_are_added_once_whatever_the_wall() -> None:
    few, many = (np.array([n], dtype=np.int64) for n in (3, 4))
    zero = np.array([0], dtype=np.int64)
    largest = Counts(*(zero + size for size in (4, 1, 1, 2, 3600, 200, 1200, 150, 0)))
    with_trip = build_pricer(build_market(ROOM, replace(SHIPPED, trips=(("a", 1250),))), largest)
    without = build_pricer(build_market(ROOM, SHIPPED), largest)
    for n in (few, many):
        counts = Counts(
            n, zero + 1, zero + 1, zero + 2, n * 900, zero + 200, zero + 1200, zero + 150, zero
        )
        cost = (p.cost_cents(zero, zero, zero, counts)[0] for p in (with_trip, without))
        assert next(cost) - next(cost) == 1250


def test_boards_are_divided_at_every_yards_sheet_sides() -> None:
    sheet = next(s for s in SHIPPED.sheets if s.thickness_mm >= ROOM.wall.min_thickness_mm)
    room = replace(ROOM, yard=replace(ROOM.yard, offcuts=()))
    one = replace(SHIPPED, sheets=(sheet,))
    both = replace(one, sheets=(sheet, replace(sheet, sku="wide", width_mm=1525)))
    sides = {sheet.length_mm, sheet.width_mm}
    assert build_market(room, one).split_sides_mm == (tuple(sorted(sides)),)
    assert build_market(room, one, both).split_sides_mm == (tuple(sorted(sides | {1525})),)
