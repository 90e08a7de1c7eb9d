"""A room file is read exactly, and every slip in it gets one clear message with its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.room import Access, Climber, Room, WallRange, Yard, catalog_folder, read_room

GOOD = """\
[room]
name = "Den"
length_mm = 5000
width_mm = 3000
ceiling_mm = 2500

[[beams]]
name = "one"
x_mm = 1500
underside_mm = 2300
width_mm = 100
depth_mm = 200
span_mm = 3100
grade = "C24"
existing_load_n_per_m = 500

[[beams]]
name = "two"
x_mm = 3000
underside_mm = [2310, 2290]
width_mm = 100
depth_mm = 200
span_mm = 3150
grade = "unknown"

[[solids]]
name = "desk"
x_mm = [4200, 5000]
y_mm = [0, 800]
z_mm = [0, 740]

[wall]
angle_deg = [20, 45.5]
kicker_mm = [0, 300]
width_mm = [1200, 2000]
step_mm = 10

[yard]
cut_price = 1.50
delivery_price = 29.90

[[yard.offcuts]]
name = "rest"
kind = "OSB/3"
thickness_mm = 18
length_mm = 800
width_mm = 600
face_grain = "length"
count = 2
price = 0
"""


def line_of(text: str, row: str) -> int:
    return text.split("\n").index(row) + 1


def errors_of(folder: Path, text: str | bytes) -> list[Finding]:
    file = folder / "room.toml"
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    before = sorted(folder.iterdir())
    with pytest.raises(InputError) as caught:
        read_room(file)
    assert caught.value.exit_code == 3
    assert sorted(folder.iterdir()) == before, "reading must write nothing"
    found = [f for f in caught.value.findings if isinstance(f, Finding) and f.severity == "error"]
    assert all(f.file == str(file) and f.text() in str(caught.value) for f in found)
    return found


def test_every_value_arrives(tmp_path: Path) -> None:
    file = tmp_path / "room.toml"
    file.write_text(GOOD, encoding="utf-8")
    room = read_room(file)
    assert (room.name, room.length_mm, room.width_mm, room.ceiling_mm) == ("Den", 5000, 3000, 2500)
    assert [beam.underside_mm for beam in room.beams] == [(2300, 2300), (2310, 2290)]
    assert [beam.grade for beam in room.beams] == ["C24", None]
    assert [beam.existing_load_n_per_m for beam in room.beams] == [500.0, None]
    assert room.solids[0].x_mm == (4200, 5000)
    assert room.wall.angle_deg == (20.0, 45.5)
    assert (room.yard.cut_price_cents, room.yard.delivery_price_cents) == (150, 2990)
    assert (room.yard.offcuts[0].count, room.yard.offcuts[0].price_cents) == (2, 0)
    assert room.file == str(file)


def test_what_is_left_out_has_the_records_defaults(tmp_path: Path) -> None:
    file = tmp_path / "room.toml"
    file.write_text(GOOD.split("[yard]")[0].replace("step_mm = 10\n", ""), encoding="utf-8")
    room = read_room(file)
    assert (room.access, room.climber, room.yard) == (Access(), Climber(), Yard())
    assert room.wall == WallRange((20.0, 45.5), (0, 300), (1200, 2000))


def test_unknowns_and_defaults_are_told_as_assumptions(tmp_path: Path) -> None:
    file = tmp_path / "room.toml"
    file.write_text(GOOD, encoding="utf-8")
    told = {f.key: f for f in read_room(file).findings}
    assert {f.severity for f in told.values()} == {"assumption"}
    assert told["beams[2].grade"].line == line_of(GOOD, 'grade = "unknown"')
    assert told["beams[2].existing_load_n_per_m"].line == 17  # the table that lacks the key
    assert "2 times" in told["climber.dynamic_factor"].message
    assert "beams[1].grade" not in told


def test_a_catalogue_is_named_from_the_room_file(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    file = tmp_path / "room.toml"
    file.write_text(GOOD.replace("[yard]", '[yard]\ncatalog = "mine"'), encoding="utf-8")
    assert catalog_folder(read_room(file)) == tmp_path / "mine"
    file.write_text(GOOD, encoding="utf-8")
    assert catalog_folder(read_room(file)).name == "yard"


# row of GOOD -> what stands there instead, code, key, words that the message must hold
SLIPS: list[tuple[str, str, str, str, tuple[str, ...]]] = [
    ("length_mm = 5000", "lenght_mm = 5000", "room-unknown-key", "room.lenght_mm",
     ("lenght_mm", "5000", "Did you mean length_mm?")),
    ("step_mm = 10", "stepp_mm = 10", "room-unknown-key", "wall.stepp_mm", ("step_mm",)),
    ("[wall]", "[wal]", "room-unknown-key", "wal", ("Did you mean wall?",)),
    ('kind = "OSB/3"', 'kinds = "OSB/3"', "room-unknown-key", "yard.offcuts[1].kinds", ("kind",)),
    ("step_mm = 10", 'color = "red"', "room-unknown-key", "wall.color", ('"red"', "angle_deg")),
    ("width_mm = 3000", "", "room-missing-key", "room.width_mm", ("[room]", "[mm]")),
    ("width_mm = 3000", "width_mm = 3,2", "toml-decimal-comma", "width_mm",
     ("decimal comma", "3,2", "width_mm = 3.2")),
    ("width_mm = 3000", "width_mm = 3,000", "toml-decimal-comma", "width_mm",
     ("3,000", "width_mm = 3000", "whole millimetres")),
    ("cut_price = 1.50", "cut_price = 1,50", "toml-decimal-comma", "cut_price",
     ("cut_price = 1.50", "a point instead")),
    ("angle_deg = [20, 45.5]", "angle_deg = [20, 45,5]", "room-not-a-pair", "wall.angle_deg",
     ("[20, 45, 5]", "decimals with a point")),
    ("width_mm = 3000", "width_mm = 3.2 m", "toml-unit", "width_mm",
     ("3.2 m", "number alone in mm", "quotes round number and unit")),
    ("cut_price = 1.50", "cut_price = 1.50 EUR # a cut", "toml-unit", "cut_price",
     ("seen: 1.50 EUR;", "expected: the number alone; Leave the unit out.")),
    ('name = "Den"', "name = Den", "toml-bare-word", "name", ("Den", "quotes")),
    ("ceiling_mm = 2500", "ceiling_mm = ", "toml-syntax", "ceiling_mm", ("not TOML",)),
    ("ceiling_mm = 2500", "width_mm = 3000", "toml-repeated", "width_mm", ("twice",)),
    ("width_mm = 3000", 'width_mm = "3000"', "room-wrong-type", "room.width_mm",
     ('"3000"', "whole number of mm", "without quotes")),
    ("width_mm = 3000", "width_mm = 3000.5", "room-not-whole", "room.width_mm", ("3000.5",)),
    ("width_mm = 3000", "width_mm = true", "room-wrong-type", "room.width_mm", ("true",)),
    ("width_mm = 3000", "width_mm = 2024-01-01", "room-wrong-type", "room.width_mm", ("2024",)),
    ("width_mm = 3000", "width_mm = [3000]", "room-wrong-type", "room.width_mm", ("[3000]",)),
    ('name = "Den"', "name = 7", "room-wrong-type", "room.name", ("7", "text in quotes")),
    ('name = "Den"', 'name = " "', "room-bad-text", "room.name", ("empty",)),
    ("length_mm = 5000", "length_mm = 1000000000", "room-out-of-range", "room.length_mm",
     ("1000000000", "too large", "50000")),
    ("length_mm = 5000", "length_mm = -5000", "room-out-of-range", "room.length_mm",
     ("-5000", "too small")),
    ("length_mm = 5000", "length_mm = nan", "room-not-finite", "room.length_mm", ("nan",)),
    ("length_mm = 5000", "length_mm = inf", "room-not-finite", "room.length_mm", ("inf",)),
    ("length_mm = 5000", "length_mm = " + "9" * 400, "room-out-of-range", "room.length_mm",
     ("very long number",)),
    ("x_mm = 1500", "x_mm = 4990", "room-beam-outside", "beams[1].x_mm", ("4990", "5000", "100")),
    ("x_mm = 3000", "x_mm = 1560", "room-beams-overlap", "beams[2].x_mm", ("1560", "one", "two")),
    ("underside_mm = 2300", "underside_mm = 2600", "room-beam-above-ceiling",
     "beams[1].underside_mm", ("2600", "2500", "ceiling")),
    ("underside_mm = [2310, 2290]", "underside_mm = [2480, 2290]", "room-beam-tilted",
     "beams[2].underside_mm", ("190 mm", "158")),
    ("underside_mm = [2310, 2290]", "underside_mm = [2310]", "room-not-a-pair",
     "beams[2].underside_mm", ("left end, right end",)),
    ("span_mm = 3100", "span_mm = 2900", "room-beam-too-short", "beams[1].span_mm",
     ("2900", "3000", "one")),
    ("existing_load_n_per_m = 500", "existing_load_n_per_m = -1", "room-out-of-range",
     "beams[1].existing_load_n_per_m", ("-1", "too small")),
    ('name = "two"', 'name = "one"', "room-same-name", "beams[2].name", ("beams[1]", '"one"')),
    ("x_mm = [4200, 5000]", "x_mm = [4200, 5200]", "room-solid-outside", "solids[1].x_mm",
     ("desk", "5000", "length")),
    ("z_mm = [0, 740]", "z_mm = [740, 740]", "room-solid-flat", "solids[1].z_mm", ("[740, 740]",)),
    ("y_mm = [0, 800]", "y_mm = [800, 0]", "room-reversed", "solids[1].y_mm", ("[0, 800]",)),
    ("kicker_mm = [0, 300]", "kicker_mm = [300, 0]", "room-reversed", "wall.kicker_mm",
     ("reversed", "[300, 0]", "Swap")),
    ("kicker_mm = [0, 300]", "kicker_mm = [0, 305]", "room-step-does-not-divide",
     "wall.kicker_mm", ("steps of 10", "[0, 300] or [0, 310]")),
    ("angle_deg = [20, 45.5]", "angle_deg = [20, 75]", "room-out-of-range", "wall.angle_deg",
     ("[20, 75]", "from 0 to 70")),
    ("width_mm = [1200, 2000]", "width_mm = [3100, 3200]", "room-wall-too-wide", "wall.width_mm",
     ("3100", "3000")),
    ("step_mm = 10", "min_width_spans = 1.5", "room-wall-too-narrow", "wall.min_width_spans",
     ("1.5", "2000")),
    ("step_mm = 10", "min_fall_space_mm = 5000", "room-fall-space-too-long",
     "wall.min_fall_space_mm", ("5000",)),
    ("step_mm = 10", "align = \"center\"", "room-not-a-choice", "wall.align", ('"centre"',)),
    ("step_mm = 10", "fold_up = 1", "room-wrong-type", "wall.fold_up", ("true or false",)),
    ("step_mm = 10", "step_mm = 0", "room-out-of-range", "wall.step_mm", ("0",)),
    ("cut_price = 1.50", "cut_price = 1.505", "room-not-cents", "yard.cut_price", ("1.505",)),
    ("cut_price = 1.50", "cut_price = -1.50", "room-out-of-range", "yard.cut_price", ("-1.50",)),
    ("cut_price = 1.50", 'catalog = "nowhere"', "room-no-catalog", "yard.catalog", ("nowhere",)),
    ("cut_price = 1.50", "vehicle_max_mm = [900, 2000]", "room-reversed", "yard.vehicle_max_mm",
     ("[2000, 900]", "longer side first")),
    ("[yard]", "[[yard]]", "room-wrong-shape", "yard", ("[yard]",)),
    ("[[solids]]", "[solids]", "room-wrong-shape", "solids", ("[[solids]]",)),
]  # fmt: skip


@pytest.mark.parametrize(
    ("row", "instead", "code", "key", "words"), SLIPS, ids=[slip[1][:40] for slip in SLIPS]
)
def test_one_slip_gives_one_message_with_its_place(
    tmp_path: Path, row: str, instead: str, code: str, key: str, words: tuple[str, ...]
) -> None:
    assert GOOD.count(row + "\n") == 1 or row in ("width_mm = 3000",)
    found = errors_of(tmp_path, GOOD.replace(row + "\n", instead + "\n", 1))
    assert len(found) == 1, [f.text() for f in found]
    assert (found[0].code, found[0].key) == (code, key)
    table = "[room]" if key == "room.width_mm" and not instead else None
    assert found[0].line == line_of(GOOD, table or row)
    assert f"room.toml:{found[0].line}: " in found[0].text()
    for word in words:
        assert word in found[0].text()


def test_a_grid_too_large_is_counted(tmp_path: Path) -> None:
    wide = GOOD.replace("step_mm = 10", "step_mm = 1").replace("[0, 300]", "[0, 1900]")
    (found,) = errors_of(tmp_path, wide)
    assert (found.code, found.key) == ("room-too-many-walls", "wall.step_mm")
    # 1901 kickers x 801 widths x 2860 boards, from (2310 - 1900)/cos 20 to 2310/cos 45.5
    assert "4 354 924 860" in found.message


def test_a_kicker_that_reaches_the_beams_is_told(tmp_path: Path) -> None:
    low = GOOD.replace("underside_mm = 2300", "underside_mm = 1500")
    low = low.replace("[2310, 2290]", "1500").replace("[0, 300]", "[1600, 1700]")
    (found,) = errors_of(tmp_path, low)
    assert (found.code, found.key) == ("room-kicker-too-tall", "wall.kicker_mm")
    assert "1500" in found.expected


def test_a_room_without_beams_is_told_once(tmp_path: Path) -> None:
    start, rest = GOOD.split("[[beams]]")[0], GOOD[GOOD.index("[[solids]]") :]
    for text in (start + rest, start.replace("[room]", "beams = []\n[room]") + rest):
        (found,) = errors_of(tmp_path, text)
        assert found.code == "room-no-beams"
        assert "[[beams]]" in found.expected


def test_all_slips_are_told_at_once_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = GOOD
    rows = ("length_mm = 5000", "width_mm = 3000", "x_mm = 1500", "kicker_mm = [0, 300]")
    slips = ("lenght_mm = 5000", "width_mm = 3,2", "x_mm = 9000", "kicker_mm = [300, 0]")
    for row, slip in zip(rows, slips, strict=True):
        text = text.replace(row + "\n", slip + "\n", 1)
    # room length and width are not known, so that x can't be judged: three slips remain
    assert [f.line for f in errors_of(tmp_path, text)] == [3, 4, line_of(GOOD, rows[3])]


def test_a_bad_beam_does_not_hide_a_second_one(tmp_path: Path) -> None:
    text = GOOD.replace("depth_mm = 200", "depth_mm = 2", 1).replace("x_mm = 3000", "x_mm = 9000")
    assert [f.key for f in errors_of(tmp_path, text)] == ["beams[1].depth_mm", "beams[2].x_mm"]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty"),
        (b" \n\n", "the file is empty"),
        (b'[room]\nname = "caf\xe9"\n', "not UTF-8"),
        (GOOD.encode("utf-16"), "not UTF-8"),
        (b"PK\x03\x04\x00\x00", "not TOML"),
        (b"x = " + b"[" * 20_000, "TOML"),
        (b"x = 1" + b"0" * 5_000 + b"\n" + GOOD.encode(), "TOML"),
        (b"# " + b"x" * 1_000_001, "larger"),
        (b'[room\nname = "x"\n', "not TOML"),
        (b"[[beams]]\nx = [1,\n2\n[wall]\n", "not TOML"),
    ],
)
def test_what_is_no_room_file_is_told_in_one_sentence(
    tmp_path: Path, content: bytes, words: str
) -> None:
    found = errors_of(tmp_path, content)
    assert len(found) == 1
    assert words in found[0].text()
    assert found[0].next_step


def test_missing_file_and_folder_are_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_room(tmp_path / "none.toml")
    with pytest.raises(InputError, match="this is a folder"):
        read_room(tmp_path)
    with pytest.raises(InputError, match="can't be read"):
        read_room(tmp_path / ("x" * 300))
    with pytest.raises(InputError):
        read_room(Path("a\0b"))


def test_a_byte_order_mark_and_windows_line_ends_are_fine(tmp_path: Path) -> None:
    file = tmp_path / "room.toml"
    file.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    room: Room = read_room(file)
    assert room.name == "Den"
    lines = {f.key: f.line for f in room.findings}
    assert lines["beams[2].grade"] == line_of(GOOD, 'grade = "unknown"')
