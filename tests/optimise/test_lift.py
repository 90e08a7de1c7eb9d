"""The lift in the document: the curve lies under the checks' bound, the gear is on the bill."""

import tomllib

import jsonschema
import pytest

from steepwright.catalog import read_catalog
from steepwright.optimise.assess import assess
from steepwright.resources import catalogs_dir
from steepwright.room import read_room


@pytest.fixture(scope="module")
def design():
    folder = catalogs_dir() / "example"
    wanted = tomllib.loads((folder / "wall.toml").read_text(encoding="utf-8"))
    room = read_room(folder / "room.toml")
    return assess(room, read_catalog(), wanted)["designs"][0]


def test_curve_runs_from_standing_to_parked_under_the_checks_bound(design):
    lift = design["lift"]
    angles = [point["angle_deg"] for point in lift["curve"]]
    assert angles[0] == pytest.approx(design["angle_deg"], abs=0.01)
    assert angles[-1] == design["parked"]["angle_deg"]
    assert angles == sorted(angles)
    most = max(point["lines_n"] for point in lift["curve"])
    demand = {check["name"]: check["demand"] for check in design["checks"]}
    assert most == lift["largest_lines_n"]
    assert 0.8 * demand["latch alone"] < most <= demand["latch alone"]
    assert lift["hand_raise_n"] <= demand["hand force on the hoist"] + 1
    assert lift["hand_hold_without_brake_n"] == pytest.approx(most / 4, abs=1)


def test_turning_mass_is_that_of_the_wall(design):
    assert design["lift"]["mass_kg"] == design["mass_kg"]


def test_gear_is_on_the_bill(design):
    def number(line):
        # What is sold singly is bought as needed; a pack says how much of it is.
        if line["what"].endswith("needed)"):
            return int(line["what"].rsplit(", ", 1)[1].split()[0])
        return line["quantity"]

    words = ("Pulley", "brake for", "latch", "sling", "rope 10 mm")
    needed = {
        word: number(line) for line in design["bill"] for word in words if word in line["what"]
    }
    # Two turning blocks and a tackle of four parts; nine board lengths of rope, in whole metres.
    metres = -(-9 * design["board_mm"] // 1000)
    assert needed == {"Pulley": 6, "brake for": 1, "latch": 2, "sling": 2, "rope 10 mm": metres}


def test_lift_satisfies_the_shipped_schema(design):
    import json

    schema = json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text("utf-8"))
    part = {"$defs": schema["$defs"], "$ref": "#/$defs/lift"}
    jsonschema.Draft202012Validator(part).validate(design["lift"])
