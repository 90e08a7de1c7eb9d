"""Pads of one wall: their place in the room, their sum, own ones first."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from small_rooms import small_room

from steepwright.catalog import read_catalog
from steepwright.optimise.assess import assess
from steepwright.report.views.notes import pad_lines
from steepwright.room.types import OwnPad

DESIGN = {
    "board_mm": 2600, "width_mm": 1200, "columns": 1, "rows": 2, "stud_count": 3, "kicker_mm": 250,
    "sheet": "OSB/3 18 mm", "stud": "60 x 120 C24 planed", "facing": "+x",
}  # fmt: skip


def padded(own: tuple[OwnPad, ...] = (), offered: bool = True) -> tuple[dict[str, Any], Any]:
    room = replace(small_room(4), pads=own)
    catalog = read_catalog()
    if not offered:
        kept = tuple(row for row in catalog.hardware if row.kind != "pad")
        catalog = replace(catalog, hardware=kept)
    return dict(assess(room, catalog, DESIGN)["designs"][0]), room


def test_pads_lie_on_clear_floor_from_the_foot_outwards_and_add_up():
    wall, room = padded()
    pads = wall["pads"]
    assert pads["laid"]
    for pad in pads["laid"]:
        assert wall["x_foot_mm"] <= pad["x_mm"][0] < pad["x_mm"][1] <= room.length_mm
        assert 0 <= pad["y_mm"][0] < pad["y_mm"][1] <= room.width_mm
        for solid in room.solids:
            apart = (
                pad["x_mm"][1] <= solid.x_mm[0]
                or pad["x_mm"][0] >= solid.x_mm[1]
                or pad["y_mm"][1] <= solid.y_mm[0]
                or pad["y_mm"][0] >= solid.y_mm[1]
            )
            assert apart or solid.z_mm[0] >= wall["lip_height_mm"]
    assert pads["cost_cents"] == sum(line["amount_cents"] for line in pads["buy"])
    assert sum(line["quantity"] for line in pads["buy"]) == len(pads["laid"])
    assert pads["thickness_mm"] == pads["asked_mm"] == 300  # guidance of the mat makers, CWMA
    assert pads["covers_kicker_mm"] == 250
    assert all(line["sku"] not in {b["sku"] for b in wall["bill"]} for line in pads["buy"])


def test_pads_on_the_bill_are_part_of_the_cost():
    """The same pads, once beside the cost and once in it; own ones stay free."""
    own = (OwnPad("mine", 2000, 1000, 300, 2),)
    for mine in ((), own):
        apart, room = padded(mine)
        yard = replace(room.yard, pads_on_bill=True)
        wall = assess(replace(room, yard=yard, pads=mine), read_catalog(), DESIGN)["designs"][0]
        assert apart["pads"]["laid"] == wall["pads"]["laid"]
        assert wall["cost_cents"] == apart["cost_cents"] + apart["pads"]["cost_cents"]
        assert wall["cost_cents"] == sum(line["amount_cents"] for line in wall["bill"])
        lines = {line["sku"]: line["quantity"] for line in wall["bill"] if line["group"] == "pads"}
        assert lines == {line["sku"]: line["quantity"] for line in apart["pads"]["buy"]}
        assert (wall["pads"]["on_bill"], apart["pads"]["on_bill"]) == (True, False)


def test_what_is_to_be_padded_is_the_guidance_as_far_as_the_room_has_it():
    """Front 2.0 m for walls up to 3 m and sides 1.5 m: DGUV 202-018 and guidance on EN 12572-2."""
    wall, room = padded()
    front = min(2000, wall["fall_space_mm"])
    assert wall["pads"]["wanted"]["x_mm"] == [
        wall["x_foot_mm"], wall["x_foot_mm"] + wall["floor_run_mm"] + front
    ]  # fmt: skip
    y0, y1 = wall["y_mm"]
    assert wall["pads"]["wanted"]["y_mm"][0] >= y0 - 1500
    assert wall["pads"]["wanted"]["y_mm"][1] == min(y1 + 1500, room.width_mm)
    ends = wall["pads"]["ends"]
    assert ends["left_mm"] <= y0
    assert ends["right_mm"] <= room.width_mm - y1


def test_own_pads_save_what_they_replace_and_thin_ones_are_left_out():
    bought, _ = padded()
    own, _ = padded((OwnPad("mine", 2000, 1000, 300, 2), OwnPad("thin", 2000, 1000, 100, 9)))
    assert sum(pad["own"] for pad in own["pads"]["laid"]) == 2
    assert {pad["name"] for pad in own["pads"]["laid"] if pad["own"]} == {"mine"}
    assert own["pads"]["cost_cents"] < bought["pads"]["cost_cents"]
    assert own["cost_cents"] == bought["cost_cents"]


def test_own_pads_that_are_not_laid_are_told_with_why():
    """The guidance's 300 mm: CWMA; that pads of two heights leave an edge: common practice."""
    mattress = OwnPad("mattress", 2000, 1400, 180, 1)
    many = OwnPad("mine", 2000, 1000, 300, 20)
    wall, _ = padded((mattress, many))
    laid = sum(pad["own"] for pad in wall["pads"]["laid"])
    left = {row["name"]: (row["count"], row["thickness_mm"]) for row in wall["pads"]["left_over"]}
    assert left == {"mattress": (1, 180), "mine": (20 - laid, 300)}
    thin, spare = (line for line in pad_lines(wall["pads"], "EUR") if line.startswith("Not laid"))
    assert "1 × your own “mattress”, 180 mm thick" in thin
    assert "thinner than the 300 mm that the guidance asks for" in thin
    assert f"{20 - laid} × your own “mine”" in spare
    assert "No place is left" in spare
    assert "left_over" not in padded()[0]["pads"]


def test_of_own_pads_too_thin_or_too_thick_the_other_reason_is_told():
    kinds = (OwnPad("thin", 2000, 1000, 100, 1), OwnPad("less thin", 2000, 1000, 150, 1))
    (line,) = _not_laid(padded(kinds, offered=False)[0])
    assert line.endswith("thicker ones are at hand.")
    (line,) = _not_laid(padded((OwnPad("thick", 2000, 1000, 500, 1),))[0])
    assert line.endswith("thinner ones at hand meet the guidance.")


def _not_laid(wall: dict[str, Any]) -> list[str]:
    return [line for line in pad_lines(wall["pads"], "EUR") if line.startswith("Not laid")]


def test_a_strip_of_the_wall_with_no_pad_below_it_is_told():
    wall, _ = padded()
    pads = {**wall["pads"], "ends": {"front_mm": 1811, "left_mm": -50, "right_mm": 850}}
    (line,) = (line for line in pad_lines(pads, "EUR") if line.startswith("They cover"))
    assert "50 mm short of the wall's left edge: nothing lies below that strip" in line
    assert "850 mm beyond the wall's right edge" in line


def test_thin_own_pads_serve_where_nothing_else_is_to_be_had():
    wall, _ = padded((OwnPad("thin", 2000, 1000, 100, 9),), offered=False)
    assert wall["pads"]["thickness_mm"] == 100
    assert wall["pads"]["cost_cents"] == 0
    assert padded(offered=False)[0]["pads"] is None


@pytest.mark.parametrize("facing", ["+x", "-x"])
def test_rows_start_at_the_kicker_whichever_way_the_wall_faces(facing):
    room = small_room(4)
    wall = assess(room, read_catalog(), {**DESIGN, "facing": facing})["designs"][0]
    near = min if facing == "+x" else max
    edge = near(value for pad in wall["pads"]["laid"] for value in pad["x_mm"])
    assert edge == wall["x_foot_mm"]


@pytest.mark.parametrize("facing", ["+x", "-x"])
def test_pads_end_left_and_right_as_the_climber_sees_it(facing):
    """Measured from the laid pads: who looks along -x at a wall facing +x has y = 0 on the left."""
    room = small_room(4)
    room = replace(room, wall=replace(room.wall, align="left"))
    wall = assess(room, read_catalog(), {**DESIGN, "facing": facing})["designs"][0]
    across = [y for pad in wall["pads"]["laid"] for y in pad["y_mm"]]
    low, high = wall["y_mm"][0] - min(across), max(across) - wall["y_mm"][1]
    assert low < high
    ends = wall["pads"]["ends"]["left_mm"], wall["pads"]["ends"]["right_mm"]
    assert ends == ((low, high) if facing == "+x" else (high, low))
