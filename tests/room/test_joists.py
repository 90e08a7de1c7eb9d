"""Hidden joists in a room file: read one by one, and their slips told."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.catalog import read_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.room import read_room
from steepwright.room.with_catalog import check_with_catalog

ROOM = """\
[room]
name = "Den"
length_mm = 5000
width_mm = 3000
ceiling_mm = 2500

[[joists]]
name = "joist"
first_mm = 700
spacing_mm = 600
count = 7
width_mm = 80
depth_mm = 220
span_mm = 3200
grade = "C24"
existing_load_n_per_m = 900
lining_mm = 15
found = true

[wall]
angle_deg = [20, 45]
kicker_mm = [0, 300]
width_mm = [1200, 2000]
step_mm = 10
"""


def read(folder: Path, text: str) -> list[Finding]:
    file = folder / "room.toml"
    file.write_text(text, encoding="utf-8")
    try:
        room = read_room(file)
        check_with_catalog(room, read_catalog())
    except InputError as error:
        return [f for f in error.findings if isinstance(f, Finding) and f.severity == "error"]
    return [f for f in room.findings if "joists" in f.key]


def test_every_joist_is_a_place_under_the_ceiling(tmp_path: Path) -> None:
    (tmp_path / "room.toml").write_text(ROOM, encoding="utf-8")
    beams = read_room(tmp_path / "room.toml").beams
    assert [beam.name for beam in beams] == [f"joist {n}" for n in range(1, 8)]
    assert [beam.x_mm for beam in beams] == [700, 1300, 1900, 2500, 3100, 3700, 4300]
    assert {beam.underside_mm for beam in beams} == {(2500, 2500)}
    assert {(beam.kind, beam.lining_mm, beam.found) for beam in beams} == {("joist", 15, True)}


def test_what_is_not_known_is_told_once_for_the_row(tmp_path: Path) -> None:
    rows = ('grade = "C24"\n', "existing_load_n_per_m = 900\n", "found = true\n")
    text = ROOM
    for row in rows:
        text = text.replace(row, "")
    told = {f.key: f.code for f in read(tmp_path, text)}
    assert told == {
        "joists[1].grade": "room-grade-unknown",
        "joists[1].existing_load_n_per_m": "room-load-unknown",
        "joists[1].found": "room-joists-unverified",
    }


SLIPS = [
    ("count = 7", "count = 9", "room-beam-outside", "joists[1].first_mm"),
    ("first_mm = 700", "first_mm = 30", "room-beam-outside", "joists[1].first_mm"),
    ("spacing_mm = 600", "spacing_mm = 79", "room-out-of-range", "joists[1].spacing_mm"),
    ("width_mm = 80", "width_mm = 601", "room-out-of-range", "joists[1].width_mm"),
    ("width_mm = 80", "width_mm = 590\nspacing = 1", "room-unknown-key", "joists[1].spacing"),
    ("span_mm = 3200", "span_mm = 2900", "room-beam-too-short", "joists[1].span_mm"),
    ("found = true", 'found = "yes"', "room-wrong-type", "joists[1].found"),
    ("first_mm = 700", "frist_mm = 700", "room-unknown-key", "joists[1].frist_mm"),
    ("[[joists]]", "[[joist]]", "room-unknown-key", "joist"),
    ('grade = "C24"', 'grade = "C25"', "unknown-name", "joists[1].grade"),
]  # fmt: skip


@pytest.mark.parametrize(("row", "slip", "code", "key"), SLIPS)
def test_slips_are_told_once(tmp_path: Path, row: str, slip: str, code: str, key: str) -> None:
    (found,) = read(tmp_path, ROOM.replace(row, slip, 1))
    assert (found.code.removeprefix("room-"), found.key) == (code.removeprefix("room-"), key)


def test_joists_inside_each_other_are_told(tmp_path: Path) -> None:
    text = ROOM.replace("spacing_mm = 600", "spacing_mm = 100").replace(
        "width_mm = 80", "width_mm = 120"
    )
    (found,) = read(tmp_path, text)
    assert (found.code, found.key) == ("room-beams-overlap", "joists[1].spacing_mm")


def test_a_beam_with_a_joists_name_is_told(tmp_path: Path) -> None:
    beam = """
[[beams]]
name = "joist 3"
x_mm = 1000
underside_mm = 2300
width_mm = 100
depth_mm = 200
span_mm = 3100
grade = "C24"
existing_load_n_per_m = 500
"""
    (found,) = read(tmp_path, ROOM + beam)
    assert (found.code, found.key) == ("room-same-name", "joists[1].name")


def test_a_second_row_with_an_unknown_class_is_named_by_its_place(tmp_path: Path) -> None:
    row = ROOM[ROOM.index("[[joists]]") : ROOM.index("[wall]")]
    other = row.replace('"joist"', '"end"').replace("count = 7", "count = 1")
    other = other.replace('"C24"', '"D99"').replace("first_mm = 700", "first_mm = 4700")
    (found,) = read(tmp_path, ROOM + other)
    assert (found.code.removeprefix("room-"), found.key) == ("unknown-name", "joists[2].grade")


SLAB = """\
[[slabs]]
name = "slab"
first_mm = 1500
spacing_mm = 250
count = 9
thickness_mm = 180
anchor_rated_n = 5000
anchor_least_mm = 120

"""


def of_slab(text: str = SLAB) -> str:
    return ROOM[: ROOM.index("[[joists]]")] + text + ROOM[ROOM.index("[wall]") :]


def test_a_slab_is_a_row_of_places_under_the_ceiling(tmp_path: Path) -> None:
    (tmp_path / "room.toml").write_text(of_slab(), encoding="utf-8")
    room = read_room(tmp_path / "room.toml")
    assert [beam.x_mm for beam in room.beams] == list(range(1500, 3501, 250))
    assert {(b.kind, b.anchor_rated_n, b.anchor_least_mm) for b in room.beams} == {
        ("slab", 5000.0, 120)
    }
    assert not [f for f in room.findings if "slabs" in f.key]


def test_an_anchor_that_nobody_chose_is_told(tmp_path: Path) -> None:
    text = of_slab(SLAB.replace("anchor_rated_n = 5000\n", ""))
    (tmp_path / "room.toml").write_text(text, encoding="utf-8")
    told = {f.key: f.code for f in read_room(tmp_path / "room.toml").findings}
    assert told["slabs[1].anchor_rated_n"] == "room-anchor-unknown"
    assert "slabs[1].anchor_least_mm" not in told


def test_slips_in_a_slab_are_told(tmp_path: Path) -> None:
    (outside,) = read(tmp_path, of_slab(SLAB.replace("count = 9", "count = 20")))
    assert (outside.code, outside.key) == ("room-beam-outside", "slabs[1].first_mm")
    (twice,) = read(tmp_path, of_slab(SLAB + SLAB))
    assert (twice.code, twice.key) == ("room-same-name", "slabs[2].name")
