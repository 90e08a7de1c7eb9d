"""Which ways are on the bill, and whose: each yard's delivery or trip, worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from steepwright.catalog import read_catalog
from steepwright.catalog.families import sheet_families
from steepwright.pricing.bill import _charged_cuts, _transport_lines
from steepwright.pricing.hardware import _in_metres
from steepwright.pricing.market import _sheet_stock, offcut_sku
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.types import Offcut


def ways(charges: list[tuple[str, int]], trips: list[tuple[str, int]], delivered: bool) -> Any:
    market: Any = SimpleNamespace(delivery_charges=tuple(charges), trips=tuple(trips))
    return [(line.sku, line.amount_cents) for line in _transport_lines(market, delivered)]


@pytest.mark.parametrize(
    ("charges", "trips", "delivered", "lines"),
    [
        ([("north", 3900)], [], True, [("delivery", 3900)]),
        ([("", 3900)], [("south", 500)], True, [("delivery", 3900), ("trip south", 500)]),
        (
            [("north", 3900)], [("south", 500)], True,
            [("delivery north", 3900), ("trip south", 500)],
        ),
        (
            [("north", 3900), ("south", 2000)], [], True,
            [("delivery north", 3900), ("delivery south", 2000)],
        ),
        (
            [("north", 3900), ("south", 0)], [("south", 500)], True,
            [("delivery north", 3900), ("trip south", 500)],
        ),
        ([("north", 3900)], [("north", 700)], True, [("delivery north", 3900)]),
        ([("north", 3900)], [("north", 700)], False, [("trip north", 700)]),
        ([], [], True, []),
    ],
)  # fmt: skip
def test_each_way_is_paid_for_once(
    charges: list[tuple[str, int]],
    trips: list[tuple[str, int]],
    delivered: bool,
    lines: list[tuple[str, int]],
) -> None:
    assert ways(charges, trips, delivered) == lines


def test_cuts_on_the_bill_are_those_that_were_charged() -> None:
    plans: Any = [SimpleNamespace(cut_cents=450), SimpleNamespace(cut_cents=150)]
    assert _charged_cuts(plans, 150) == 4
    assert _charged_cuts(plans, 0) == 0


def test_a_rope_is_counted_in_whole_metres_and_all_else_in_pieces() -> None:
    rope = next(row for row in read_catalog().hardware if row.kind == "rope")
    made = _in_metres([replace(rope, length_mm=20_000, pack_quantity=1)])
    assert made[0].pack_quantity == 20
    assert _in_metres([replace(rope, length_mm=20_900, pack_quantity=2)])[0].pack_quantity == 41
    assert _in_metres([replace(rope, length_mm=19_990, pack_quantity=1)])[0].pack_quantity == 19
    hinge = next(row for row in read_catalog().hardware if row.kind == "hinge")
    assert _in_metres([replace(hinge, pack_quantity=2)])[0].pack_quantity == 2


def test_own_offcuts_are_told_apart_and_sawn_free_of_charge_unless_they_cost() -> None:
    assert [offcut_sku(n) for n in range(3)] == ["offcut-1", "offcut-2", "offcut-3"]
    catalog = read_catalog()
    family = next(f for f in sheet_families(catalog) if f.kind == "OSB/3" and f.thickness_mm == 18)
    own = Offcut("rest", "OSB/3", 18, 1300, 420, "length", 2, 0)
    room = read_room(catalogs_dir() / "example" / "room.toml")
    yard = replace(
        room.yard, cut_price_cents=150, free_cuts=3, offcuts=(own, replace(own, price_cents=700))
    )
    stock = [s for s in _sheet_stock(family, yard, catalog) if s.sku.startswith("offcut")]
    assert [(s.sku, s.price_cents, s.cut_cents, s.limit, s.free_cuts) for s in stock] == [
        ("offcut-1", 0, 0, 2, 3), ("offcut-2", 700, 150, 2, 3),
    ]  # fmt: skip
    assert {(s.length_mm, s.width_mm) for s in stock} == {(1300, 420)}
