"""What is told to make a wall fit is done to it, and the wall is assessed anew."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from typing import Any

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.assess import mend_lines
from steepwright.optimise import assess
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.types import Access, Room

ROOM = read_room(catalogs_dir() / "example" / "room.toml")
CATALOG = read_catalog()
WALL: dict[str, Any] = tomllib.loads(
    (catalogs_dir() / "example" / "wall.toml").read_text(encoding="utf-8")
)


def assessed(room: Room, wall: dict[str, Any]) -> tuple[dict[str, Any], dict[str, float]]:
    document = assess(room, CATALOG, wall)
    return document["designs"][0], document["room_margins"]


def changed(wall: dict[str, Any], words: str) -> dict[str, Any]:
    """The design file with every `key = value` that some words name."""
    keys = dict(re.findall(r'(\w+) = ("[^"]*"|\d+|true)', words))
    new = wall | {key: tomllib.loads(f"x = {value}")["x"] for key, value in keys.items()}
    if "board_mm" in keys:
        new.pop("angle_deg", None)
    return new


def asking(**wishes: Any) -> Room:
    return replace(ROOM, wall=replace(ROOM.wall, **wishes))


def heavy() -> Room:
    """A room into which 15 kg are carried at a time: the example's largest piece is heavier."""
    return replace(ROOM, access=replace(ROOM.access, max_carry_kg=15, carriers=1))


CASES = [
    pytest.param(asking(angle_deg=(38.0, 48.0)), "wall.angle_deg (least)", id="flat"),
    pytest.param(asking(min_fall_space_mm=3000), "wall.min_fall_space_mm", id="fall"),
    pytest.param(heavy(), "access.max_carry_kg", id="heavy"),
    pytest.param(
        replace(ROOM, access=Access(max_piece_mm=(2000, 1000))), "access.max_piece_mm", id="way in"
    ),
    pytest.param(asking(side_passage_mm=1490), "wall.side_passage_mm", id="passage"),
]


@pytest.mark.parametrize(("room", "name"), CASES)
def test_each_change_that_is_told_makes_the_wall_keep_what_it_lacked(room: Room, name: str) -> None:
    design, before = assessed(room, WALL)
    (told,) = (one for one in design["mend_room"] if one["margin"] == name)
    lacking = {key for key, margin in before.items() if margin < 0}
    assert name in lacking
    own = [line for line in told["changes"] if "in the room file" not in line]
    assert own
    for line in own:
        mended, after = assessed(room, changed(WALL, line))
        nearest = re.match(r"none that was tried is enough; nearest: .*, then (.+) fails \(", line)
        if nearest:
            assert after[nearest[1]] < 0
            assert after[name] > before[name]
            continue
        assert after[name] >= 0
        assert {key for key, margin in after.items() if margin < 0} <= lacking
        more = (mended["cost_cents"] - design["cost_cents"]) / 100
        assert f"({more:+.2f}" in line
        fails = {check["name"] for check in mended["checks"] if check["use"] > 1}
        was = {check["name"] for check in design["checks"] if check["use"] > 1}
        assert all(f"{check} then fails" in line for check in fails - was)


def test_what_the_room_file_would_have_to_ask_less_of_is_enough_and_no_more() -> None:
    room = asking(min_fall_space_mm=3000)
    design, _ = assessed(room, WALL)
    (told,) = design["mend_room"]
    assert told["changes"][-1] == (
        f"in the room file: wall.min_fall_space_mm = {design['fall_space_mm']}"
    )
    for wish, kept in ((design["fall_space_mm"], True), (design["fall_space_mm"] + 1, False)):
        _, margins = assessed(asking(min_fall_space_mm=wish), WALL)
        assert (margins["wall.min_fall_space_mm"] >= 0) is kept


def test_the_piece_that_sticks_is_named_with_its_size() -> None:
    """The largest piece by the list of pieces, which is made from the cut plan."""
    design, _ = assessed(heavy(), WALL)
    heaviest = max(design["pieces"], key=lambda piece: piece["mass_kg"])
    (told,) = (one for one in design["mend_room"] if one["margin"] == "access.max_carry_kg")
    sides = sorted((heaviest["length_mm"], heaviest["width_mm"]), reverse=True)
    assert told["what"].startswith(f"a board piece of {sides[0]} x {sides[1]} mm is ")
    assert told["what"].endswith(" kg too heavy")


def test_a_wall_that_fits_has_nothing_to_mend() -> None:
    design, _ = assessed(ROOM, WALL)
    assert design["mend_room"] == []


def test_each_shortfall_is_printed_with_its_ways_out() -> None:
    design = {
        "mend_checks": [],
        "mend": [],
        "mend_room": [
            {"margin": "the cellar door", "what": "", "changes": ["columns = 2, rows = 2 (+3.00)"]},
            {"margin": "solids under the board", "what": "", "changes": []},
        ],
    }
    assert mend_lines(design) == [
        "To pass the cellar door, one of:",
        "  columns = 2, rows = 2 (+3.00)",
        "Nothing that was tried lets this wall pass solids under the board.",
    ]
