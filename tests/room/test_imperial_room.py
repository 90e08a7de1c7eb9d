"""A room may be measured in feet and inches; what is read is mm, and slips have their place."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from steepwright.catalog import read_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.imperial import lengths_written
from steepwright.resources import catalogs_dir, shipped_catalog_dir
from steepwright.room import read_design, read_room
from steepwright.room.told import in_room_units

FEET = """\
[room]
name = "Den"
length_mm = "16' 4 7/8\\""
width_mm = "9 ft 10 in"
ceiling_mm = "98 1/2 in"
units = "inch"

[[beams]]
name = "one"
x_mm = "5'"
underside_mm = ["7' 6 1/2\\"", "7' 6\\""]
width_mm = '3 1/2"'
depth_mm = '9 1/4"'
span_mm = 3100
grade = "C24"
existing_load_n_per_m = "60 plf"

[climber]
mass_kg = "165 lb"

[wall]
angle_deg = [20, 45]
kicker_mm = ["6 in", "1 ft"]
width_mm = ["4 ft", "8 ft"]

[yard]
vehicle_max_mm = ["8' 1\\"", "4' 1\\""]
kerf_mm = "1/8 in"
"""


def write(folder: Path, text: str, name: str = "room.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_feet_and_inches_are_read_to_the_nearest_mm(tmp_path: Path) -> None:
    room = read_room(write(tmp_path, FEET))
    assert (room.length_mm, room.width_mm, room.ceiling_mm) == (5001, 2997, 2502)
    assert room.units == "inch"
    beam = room.beams[0]
    assert beam.underside_mm == (2299, 2286)
    assert (beam.x_mm, beam.width_mm, beam.depth_mm, beam.span_mm) == (1524, 89, 235, 3100)
    assert beam.existing_load_n_per_m == 875.6
    assert room.climber.mass_kg == 74.84
    assert room.wall.kicker_mm == (152, 305)
    assert room.wall.width_mm == (1219, 2438)
    assert room.yard.vehicle_max_mm == (2464, 1245)
    assert room.yard.kerf_mm == 3


def test_a_range_that_ends_between_steps_is_told_in_a_room_in_inches(tmp_path: Path) -> None:
    told = [f for f in read_room(write(tmp_path, FEET)).findings if "steps of 5 mm" in f.message]
    assert [(f.key, f.severity) for f in told] == [
        ("wall.kicker_mm", "assumption"),
        ("wall.width_mm", "assumption"),
    ]


def test_mm_is_what_is_shown_unless_the_room_says_otherwise(tmp_path: Path) -> None:
    text = FEET.replace('units = "inch"\n', "").replace("[wall]\n", "[wall]\nstep_mm = 1\n")
    assert read_room(write(tmp_path, text)).units == "mm"


@pytest.mark.parametrize(
    ("right", "wrong", "code", "key", "words"),
    [
        ('"98 1/2 in"', '"98 1/2 inh"', "room-bad-measure", "room.ceiling_mm", "8' 2 1/2"),
        ('"98 1/2 in"', '"8\' 14 in"', "room-bad-measure", "room.ceiling_mm", "12 inches"),
        ('"98 1/2 in"', '"2500"', "room-wrong-type", "room.ceiling_mm", "without quotes"),
        ('"98 1/2 in"', '"98 ft"', "room-out-of-range", "room.ceiling_mm", "10000"),
        ('"98 1/2 in"', "98 in", "toml-unit", "ceiling_mm", "8 ft 2 1/2 in"),
        ('"98 1/2 in"', "8' 2\"", "toml-unit", "ceiling_mm", "8 ft 2 1/2 in"),
        ('"165 lb"', '"12 stone"', "room-bad-measure", "climber.mass_kg", "165 lb"),
        ('"60 plf"', '"60 psf"', "room-bad-measure", "beams[1].existing_load_n_per_m", "60 plf"),
        ('["6 in", "1 ft"]', '["6 in", "1 fot"]', "room-bad-measure", "wall.kicker_mm", "8' 2"),
        ('"inch"', '"feet"', "room-not-a-choice", "room.units", "inch"),
    ],
)
def test_a_slip_is_told_with_its_place_and_an_example(
    tmp_path: Path, right: str, wrong: str, code: str, key: str, words: str
) -> None:
    assert right in FEET
    path = write(tmp_path, FEET.replace(right, wrong))
    with pytest.raises(InputError) as told:
        read_room(path)
    finding = next(f for f in told.value.findings if f.code == code)
    assert finding.key == key
    assert finding.line == 1 + FEET[: FEET.index(right)].count("\n")
    assert words in finding.text()


@pytest.mark.parametrize(
    ("right", "wrong", "key", "seen", "expected"),
    [
        # 1 ft = 304.8 mm and 1 lb = 0.45359237 kg exactly (1959 agreement), 1 lbf/ft = 14.594 N/m.
        (
            '"98 1/2 in"',
            "25000",
            "room.ceiling_mm",
            "82' 0 1/4\" (25000 mm)",
            "length from 4' 11",
        ),
        ('"165 lb"', "500", "climber.mass_kg", "1102.3 lb (500 kg)", "a mass from 44.1 lb (20 kg)"),
        ('"165 lb"', '"1102 lb"', "climber.mass_kg", '"1102 lb"', "to 440.9 lb (200 kg)"),
        (
            '"98 1/2 in"',
            '"7 ft"',
            "beams[1].underside_mm",
            "7' 6 1/2\"",
            "at most 7' 0\" (2134 mm)",
        ),
    ],
)
def test_what_is_wrong_is_told_in_feet_with_the_file_s_unit_beside(
    tmp_path: Path, right: str, wrong: str, key: str, seen: str, expected: str
) -> None:
    assert right in FEET
    with pytest.raises(InputError) as told:
        read_room(write(tmp_path, FEET.replace(right, wrong)))
    finding = next(f for f in told.value.findings if f.key == key)
    assert seen in finding.seen
    assert expected in finding.expected
    path = write(tmp_path, FEET.replace(right, wrong).replace('units = "inch"\n', ""))
    with pytest.raises(InputError) as plain:
        read_room(path)
    same = next(f for f in plain.value.findings if f.key == key)
    assert "'" not in same.seen + same.expected.split(", ")[0]


@pytest.mark.parametrize("code", ["room-not-whole", "room-too-many-walls", "design-unknown-name"])
def test_counts_and_whole_mm_stay_as_they_are(code: str) -> None:
    given = Finding(code, "error", "5 mm", key="wall.step_mm", seen="1", expected="at most 500 000")
    assert in_room_units(given) == given


def test_quotes_are_kept_and_other_keys_count_things() -> None:
    given = Finding("room-x", "error", "“a 45 mm bar” is 300 mm long", key="wall.max_rows",
                    seen='"30 mm"', expected="from 1 to 4")  # fmt: skip
    told = in_room_units(given)
    assert told.message == '“a 45 mm bar” is 11 13/16" long'
    assert (told.seen, told.expected) == (given.seen, given.expected)
    sheet = Finding("room-x", "error", "no birch 18 mm is 300 mm wide")
    assert in_room_units(sheet, ["birch 18 mm"]).message == 'no birch 18 mm is 11 13/16" wide'


def test_a_design_file_too(tmp_path: Path) -> None:
    room = read_room(write(tmp_path, FEET))
    text = 'board_mm = "8\' 2 1/2\\""\nkicker_mm = "8 in"\nwidth_mm = "4 ft"\nbeam = "one"\n'
    catalog = read_catalog(shipped_catalog_dir())
    design = read_design(write(tmp_path, text, "wall.toml"), room, catalog)
    assert (design["board_mm"], design["kicker_mm"], design["width_mm"]) == (2502, 203, 1219)
    as_json = json.dumps({**design, "board_mm": "8' 2 1/2\""})
    assert read_design(write(tmp_path, as_json, "wall.json"), room, catalog) == design


def test_the_schema_takes_what_the_reader_takes() -> None:
    schema = json.loads((catalogs_dir() / "schemas" / "room.schema.json").read_text("utf-8"))
    table = {"$defs": schema["$defs"], "$ref": "#/$defs/RoomTable"}
    good = {"name": "a", "length_mm": "16' 4 7/8\"", "width_mm": "9 ft", "ceiling_mm": 2500}
    jsonschema.validate(good, table)
    for bad in ("2500", "8 cubits", "8' 2"):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**good, "ceiling_mm": bad}, table)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("4 ft 6 ft", ["4 ft", "6 ft"]),
        ("4' to 6' 6 1/2\"", ["4'", "6' 6 1/2\""]),
        ("7 ft 4 3/4 in 7 ft 4 1/2 in", ["7 ft 4 3/4 in", "7 ft 4 1/2 in"]),
        ("8 in, 12 in", ["8 in", "12 in"]),
        ("1200 mm x 2.4 m", ["1200 mm", "2.4 m"]),
        ("4 ft 6 in", ["4 ft 6 in"]),
        ("4 ft 6", []),
        ("about 4 ft", []),
    ],
)
def test_a_range_of_lengths_needs_no_comma(text: str, parts: list[str]) -> None:
    assert lengths_written(text) == parts
