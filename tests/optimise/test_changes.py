"""What would change the answer: every sentence must be what a full search of the change finds."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from small_rooms import small_catalog, small_room

from steepwright.catalog import Catalog, read_catalog
from steepwright.optimise import search
from steepwright.optimise.changes import aims_of, told_of
from steepwright.optimise.changes_room import asked_changes, beam_changes, way_changes
from steepwright.optimise.model import build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.yards import markets
from steepwright.room.types import Access, Offcut, Room, WallRange, Yard

SHEET = 9000
"""The one sheet on sale, 2500 x 1250 mm [cents]; an invented price."""


def one_sheet_catalog() -> Catalog:
    full = read_catalog()
    return replace(
        full,
        sheets=tuple(replace(s, price_cents=SHEET) for s in full.sheets if s.sku == "BF-18-2500W"),
        timber=tuple(t for t in full.timber if t.width_mm in (60, 80)),
        mounts=full.mounts[:2],
    )


def room_with(board_mm: int, kicker_mm: int) -> Room:
    """A room whose wall's lengths are given: what is left to choose is how to make it."""
    room = small_room(2)
    beam = replace(room.beams[0], x_mm=2600, underside_mm=(2400, 2400), grade="C24")
    asked = WallRange(
        angle_deg=(5.0, 48.0),
        kicker_mm=(kicker_mm, kicker_mm),
        width_mm=(1200, 1200),
        step_mm=10,
        fold_up=False,
        min_fall_space_mm=1200,
        board_mm=(board_mm, board_mm),
        max_columns=1,
        max_rows=1,
    )
    return replace(
        room,
        length_mm=6200,
        beams=(replace(beam, existing_load_n_per_m=500.0, depth_mm=240),),
        solids=(),
        access=Access(max_piece_mm=(3200, 1300), carriers=3),
        wall=asked,
        yard=Yard(cut_price_cents=150, vehicle_max_mm=(4800, 1300)),
    )


def row_of(document: dict[str, Any], what: str) -> dict[str, Any]:
    rows = [row for row in document["changes"] if row["what"] == what]
    assert rows, f"nothing told of {what!r}: {document['changes']}"
    found: dict[str, Any] = rows[0]
    return found


def cheapest_cents(room: Room, catalog: Catalog) -> int:
    document = search(room, catalog, changes=False).document
    return min(design["cost_cents"] for design in document["designs"])


def test_a_cheap_offcut_for_the_kicker_saves_the_second_sheet() -> None:
    # Board and kicker, 2300 + 240 mm, are 4 cm longer than the sheet.
    room, catalog = room_with(2300, 240), one_sheet_catalog()
    document = search(room, catalog).document
    assert sum(len(d["cut_plan"]["sheets"]) for d in document["designs"][:1]) == 2
    row = row_of(document, "An offcut for the kicker")
    share = -(-SHEET * 1200 * 250 // (2500 * 1250))
    offcut = Offcut("rest", "birch film-faced", 18, 1200, 250, "length", 1, share)
    with_it = replace(room, yard=replace(room.yard, offcuts=(offcut,)))
    before, after = cheapest_cents(room, catalog), cheapest_cents(with_it, catalog)
    assert (row["before_cents"], row["after_cents"]) == (before, after)
    # One sheet less, an offcut more; the cuts cost the same or less.
    assert SHEET - share <= before - after <= SHEET - share + 3 * 150
    assert row["text"].startswith(
        "With a piece of birch film-faced 18 mm of at least 1200 x 250 mm for"
        f" {share / 100:.2f} EUR (its share of a sheet), the cheapest wall costs"
        f" {after / 100:.2f} EUR instead of {before / 100:.2f} EUR"
    )


def test_a_larger_sheet_saves_the_second_one() -> None:
    room, catalog = room_with(2300, 240), one_sheet_catalog()
    document = search(room, catalog).document
    row = row_of(document, "A larger sheet")
    price = -(-SHEET * 3000 // 2500)
    larger = replace(catalog.sheets[0], sku="L", length_mm=3000, price_cents=price)
    with_it = replace(catalog, sheets=(*catalog.sheets, larger))
    assert row["before_cents"] == cheapest_cents(room, catalog)
    assert row["after_cents"] == cheapest_cents(room, with_it) < row["before_cents"]


WIDE = {"width_mm": (1260, 1300), "max_columns": 2}
CASES = [
    ("A narrower wall", 27.0, WIDE, {"width_mm": (1210, 1300)}),
    ("A higher kicker", 32.9, {}, {"kicker_mm": (300, 350)}),
    ("A higher kicker", 34.5, {}, {"kicker_mm": (300, 350)}),  # a lower one is of no use there
    ("Less fall space", 27.0, {"min_fall_space_mm": 3547}, {"min_fall_space_mm": 3447}),
    ("A wider range of angles", None, {}, {"angle_deg": (24.0, 49.0)}),
]


@pytest.mark.parametrize(("what", "target", "asked", "change"), CASES)
def test_what_is_asked_for_a_little_less_strictly(
    what: str, target: float | None, asked: dict[str, Any], change: dict[str, Any]
) -> None:
    room = room_with(0, 300)
    wall = replace(room.wall, step_mm=50, board_mm=(2200, 2700), angle_deg=(25.0, 48.0))
    wall = replace(wall, max_rows=2, **asked)
    room = replace(room, wall=wall)
    catalog = read_catalog()
    catalog = replace(
        catalog,
        sheets=tuple(s for s in catalog.sheets if s.kind == "OSB/3" and s.thickness_mm == 18),
        timber=tuple(t for t in catalog.timber if (t.width_mm, t.depth_mm) == (60, 120)),
    )
    document = search(room, catalog, angle_deg=target).document
    loose = replace(room, wall=replace(room.wall, **change))
    full = search(loose, catalog, angle_deg=target, changes=False).document["designs"]
    designs = [d for d in document["designs"] if d["angle_deg"] >= (target or 0)]
    row = row_of(document, what)
    before = min(d["cost_cents"] for d in designs)
    assert row["before_cents"] == before
    assert row["after_cents"] == min(
        d["cost_cents"] for d in full if d["angle_deg"] >= (target or 0)
    )
    if "after_deg" in row:
        at_most = [d["angle_deg"] for d in full if d["cost_cents"] <= before]
        assert row["after_deg"] == max(at_most)


def test_pads_on_the_bill_count_for_changed_walls_too() -> None:
    room, catalog = small_room(32), small_catalog(32)
    assert room.yard.pads_on_bill
    document = search(room, catalog).document
    row, most = row_of(document, "Longer mounts"), document["designs"][0]["cost_cents"]
    lower = tuple(replace(mount, drop_mm=mount.drop_mm + 20) for mount in catalog.mounts)
    full = search(room, replace(catalog, mounts=lower), changes=False).document["designs"]
    steepest = max(d["angle_deg"] for d in full if d["cost_cents"] <= most)
    assert (row["at_most_cents"], row["after_deg"]) == (most, steepest)


@pytest.mark.parametrize("seed", [4, 9, 11, 32])
def test_every_change_of_a_room_is_what_a_full_search_of_it_finds(seed: int) -> None:
    room, catalog = small_room(seed), small_catalog(seed)
    document = search(room, catalog, changes=False).document
    aims = aims_of(document, catalog)
    like = build_model(build_space(markets(room, catalog)[-1]))
    groups = [
        *asked_changes(room, catalog),
        *beam_changes(room, catalog),
        *way_changes(room, catalog),
    ]
    told = {
        (one.words, one.aim): (one.after_cents, one.after_mdeg)
        for group in groups
        for one in told_of(group, room, catalog, aims, like)
    }
    expected = {}
    for change in (one for group in groups for one in group):
        other = change.apply(room, catalog)
        full = search(*other, changes=False).document["designs"]
        walls = [(d["cost_cents"], round(1000 * d["angle_deg"])) for d in full]
        for aim in aims:
            least = 1000 * other[0].wall.angle_deg[0] if aim.any_angle else aim.least_mdeg
            cents = min((c for c, m in walls if m >= least), default=aim.cost_cents)
            mdeg = max((m for c, m in walls if c <= aim.most_cents), default=0)
            saves = cents if aim.cost_cents - cents >= aim.saving_cents else None
            gains = mdeg if mdeg - aim.angle_mdeg >= aim.gain_mdeg else None
            if (saves, gains) != (None, None):
                expected[change.words, aim] = saves, gains
    assert told == expected
    assert told


def test_a_change_that_gains_nothing_is_not_told() -> None:
    """The pieces pass and fit the vehicle already, and three people carry enough."""
    document = search(room_with(2300, 240), one_sheet_catalog()).document
    assert {row["what"] for row in document["changes"]}.isdisjoint(
        {"One more to carry", "A larger vehicle", "A larger piece"}
    )


def test_the_answer_does_not_depend_on_the_number_of_workers() -> None:
    room, catalog = room_with(2300, 240), one_sheet_catalog()
    assert search(room, catalog).document == search(room, catalog, workers=2).document
