"""One wall's smaller facts, worked out again from the design's own numbers and the catalogue."""

from __future__ import annotations

import math
import tomllib
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from small_rooms import small_room

from drawn_rows import ends_mm
from steepwright.catalog import read_catalog
from steepwright.optimise.assess import assess
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

G = 9.80665
DESIGN = {
    "board_mm": 2600, "width_mm": 1200, "columns": 1, "rows": 2, "stud_count": 5, "kicker_mm": 250,
    "sheet": "OSB/3 18 mm", "stud": "60 x 120 C24 planed", "mount_count": 2,
    "mount": "Chain link set with turnbuckle, two coach screws",
}  # fmt: skip


@pytest.fixture(scope="module")
def wall() -> dict[str, Any]:
    room = small_room(4)
    beam = replace(room.beams[0], underside_mm=(2400, 2440))
    room = replace(room, beams=(beam,), climber=replace(room.climber, span_mm=1600))
    return dict(assess(room, read_catalog(), DESIGN)["designs"][0])


def test_mounts_are_let_down_to_the_low_end_of_the_beam(wall):
    level = wall["levelling"]
    assert level["take_up_mm"] == 60
    for row, centre in zip(level["mounts"], wall["mount_centres_mm"], strict=True):
        y = 1400 + centre  # a wall of 1200 mm in the middle of 4000 mm
        assert row["y_mm"] == pytest.approx(y, abs=0.06)
        assert row["drop_mm"] == pytest.approx(40 * y / 4000, abs=0.06)
        assert row["turns"] == pytest.approx(40 * y / 4000 / 1.75, abs=0.01)


@pytest.mark.parametrize(("facing", "start", "way"), [("+x", 1400, 1), ("-x", 2600, -1)])
def test_mounts_are_told_from_the_climbers_left(facing, start, way):
    """Three mounts at four studs, so not alike from both sides; y = 0 is left facing +x only."""
    room = small_room(4)
    room = replace(room, beams=(replace(room.beams[0], underside_mm=(2400, 2440)),))
    asked = {**DESIGN, "facing": facing, "stud_count": 4, "mount_count": 3}
    found = assess(room, read_catalog(), asked)["designs"][0]
    centres = found["mount_centres_mm"]
    assert abs(centres[1] - 600) > 100
    for row, centre in zip(found["levelling"]["mounts"], centres, strict=True):
        y = start + way * centre
        assert row["y_mm"] == pytest.approx(y, abs=0.06)
        assert row["drop_mm"] == pytest.approx(40 * y / 4000, abs=0.06)


def test_moves_and_start_follow_the_rows_that_are_drawn(wall):
    """1300 and 1300 mm, studs of 60: rows from 210 to 2390; every other shift loses one more."""
    climb, rows = wall["climbing"], sorted({u for _, u in wall["holds"]["free_mm"]})
    assert (rows[0], rows[-1]) == ends_mm((1300, 1300), 60, 200)
    assert climb["moves"] == (rows[-1] - rows[0]) // 480
    assert climb["width_spans"] == 0.75
    start = 250 + rows[0] * math.cos(math.radians(wall["angle_deg"]))
    assert climb["start_height_mm"] == pytest.approx(start, abs=0.51)


def test_holds_lost_are_those_that_the_frame_blocks(wall):
    assert wall["holds_lost"] == len(wall["holds"]["blocked_mm"]) > 0
    clear = wall["hold_clearance"]
    half = wall["stud_mm"][0] / 2
    for y, _ in wall["holds"]["free_mm"]:
        nearest = min(abs(y - centre) for centre in wall["stud_centres_mm"])
        assert nearest >= half + clear["timber_mm"] - 0.51
    assert clear["screw_mm"] >= clear["timber_mm"] + 3 * 4
    assert clear["barrel_mm"] < clear["sheet_mm"] == 18
    assert 2 <= clear["screws_without_bolt"] <= 6


def test_every_part_of_the_board_is_hung_once(wall):
    pieces = {
        p["name"]: (p["count"], p["mass_kg"])
        for p in wall["pieces"]
        if not p["name"].startswith("kicker")
    }
    hung: dict[str, int] = {}
    for step in wall["assembly"]["steps"]:
        for part in step["parts"]:
            hung[part["name"]] = hung.get(part["name"], 0) + part["count"]
    assert hung == {name: count for name, (count, _) in pieces.items()}
    total = sum(count * mass for count, mass in pieces.values())
    assert wall["assembly"]["steps"][-1]["hung_kg"] == pytest.approx(
        total, abs=0.05 * len(hung) * 4
    )


def test_forces_of_the_first_lift_by_moments(wall):
    first, foot, *rest = wall["assembly"]["steps"]
    assert (first["where"], foot["where"]) == ("lip", "lower edge")
    both = first["mass_kg"] * G
    assert first["force_n"] == pytest.approx(both * first["centre_up_mm"] / 2600, abs=1.5)
    assert first["force_n"] + foot["force_n"] == pytest.approx(both, abs=2)
    for step in rest:
        share = 1.0 if step["where"] == "whole" else 0.5
        assert step["force_n"] == pytest.approx(share * step["mass_kg"] * G, abs=1.5)
    heaviest = max(step["force_n"] for step in (first, *rest))
    assert wall["assembly"]["heaviest_force_n"] == heaviest
    assert heaviest <= wall["assembly"]["whole_board_force_n"]


def test_people_overhead_by_the_published_filter(wall):
    """10 kg above the shoulder for one, two thirds of the sum for two, half for three."""
    for step in wall["assembly"]["steps"]:
        kg = step["force_n"] / G
        one = 25 if step["where"] == "lower edge" else 10
        limits = (one, one * 2 * 0.667, one * 3 * 0.5)
        people = next((n for n, most in enumerate(limits, start=1) if kg <= most), None)
        assert step["people"] == people


def test_folding_by_hand_takes_half_the_board(wall):
    kicker_kg = sum(
        p["count"] * p["mass_kg"] for p in wall["pieces"] if p["name"].startswith("kicker")
    )
    fold = wall["assembly"]["fold_force_n"]
    if fold is not None:
        assert fold == pytest.approx((wall["mass_kg"] - kicker_kg) * G / 2, rel=0.01)


def test_bars_that_the_way_in_stops_are_those_to_saw_outside(wall):
    """The example's room tells the largest piece that ever went up; its other places take more."""
    example = catalogs_dir() / "example"
    asked = tomllib.loads((example / "wall.toml").read_text(encoding="utf-8"))
    room = read_room(example / "room.toml")
    assert room.access.max_piece_mm == (3200, 1300)
    (design,) = assess(room, read_catalog(), asked)["designs"]
    bought = Counter((bar["sku"], bar["stock_mm"]) for bar in design["cut_plan"]["timber"])
    told = {(row["sku"], row["stock_mm"]): row["count"] for row in design["shop"]["bars_too_long"]}
    assert told == {bar: number for bar, number in bought.items() if bar[1] > 3200}
    assert 0 < len(told) < len(bought)
    assert wall["shop"]["bars_too_long"] == []


def test_free_cuts_and_the_shop_s_limits_of_a_wall():
    """Each bought sheet's first cuts cost nothing; what the saw can't do is told, not hidden."""
    room = small_room(4)
    yard = replace(room.yard, cut_price_cents=150, saw_least_mm=260, offcuts=())
    plain = assess(replace(room, yard=yard), read_catalog(), DESIGN)["designs"][0]
    free = replace(yard, free_cuts=1)
    eased = assess(replace(room, yard=free), read_catalog(), DESIGN)["designs"][0]
    for design, spared in ((plain, 0), (eased, 1)):
        cuts = [len(sheet["cuts"]) for sheet in design["cut_plan"]["sheets"]]
        charged = sum(max(0, number - spared) for number in cuts)
        lines = [line for line in design["bill"] if line["sku"] == "cut"]
        assert sum(line["amount_cents"] for line in lines) == 150 * charged
    assert eased["cost_cents"] < plain["cost_cents"]
    makers = [cut["by"] for sheet in plain["cut_plan"]["sheets"] for cut in sheet["cuts"]]
    assert plain["shop"]["home_cuts"] == makers.count("home") > 0
    assert plain["shop"]["charged_cents"] == 150 * makers.count("home")
