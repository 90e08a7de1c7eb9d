"""Wrong files, from the command line to the exit code: one clear message, nothing written.

Each message must name the file, the key or line, the value seen and what was expected.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from steepwright.resources import shipped_catalog_dir

Call = Callable[..., Any]


def listing(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


def refused(call: Call, *args: str) -> str:
    """Call a search that must refuse its input; return what it said on stderr."""
    before = listing(Path.cwd())
    said = call("search", *args, "--out", "answer", "--workers", "1")
    assert said.code == 3, said.err
    assert said.out == ""
    assert "Traceback" not in said.err
    assert listing(Path.cwd()) == before, "nothing may be written"
    return str(said.err)


def swapped(text: str, old: str, new: str) -> str:
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


def line_of(text: str, start: str) -> int:
    return next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith(start))


# name -> row of the small room, what stands there instead, words that the message must hold:
# the key, the value seen, what was expected.
ROOM_SLIPS: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "text for a number": (
        "length_mm = 5200", 'length_mm = "5200"',
        ("room.length_mm", 'seen: "5200"', "expected: a whole number of mm"),
    ),
    "number for a text": (
        'name = "inner"', "name = 7", ("beams[1].name", "seen: 7", "text in quotes"),
    ),
    "number for a range": (
        "angle_deg = [25, 45]", "angle_deg = 45", ("wall.angle_deg", "seen: 45", "[from, to]"),
    ),
    "negative length": (
        "length_mm = 5200", "length_mm = -5200", ("room.length_mm", "seen: -5200", "from 1000"),
    ),
    "room of a kilometre": (
        "length_mm = 5200", "length_mm = 1000000", ("room.length_mm", "seen: 1000000", "50000"),
    ),
    "metres for millimetres": (
        "ceiling_mm = 2600", "ceiling_mm = 2.6", ("room.ceiling_mm", "seen: 2.6", "mm"),
    ),
    "climber of a tonne": (
        "mass_kg = 70", "mass_kg = 1000", ("climber.mass_kg", "seen: 1000", "200"),
    ),
    "negative price": (
        "cut_price = 1.50", "cut_price = -1.50", ("yard.cut_price", "seen: -1.50", "from 0"),
    ),
    "beam outside the room": (
        "x_mm = 4100", "x_mm = 5800", ("beams[2].x_mm", "seen: 5800", "expected: from 70 to 5130"),
    ),
    "beam above the ceiling": (
        "underside_mm = 2440", "underside_mm = 2740",
        ("beams[2].underside_mm", "seen: 2740", "at most 2600"),
    ),
    "decimal comma": (
        "cut_price = 1.50", "cut_price = 1,50", ("cut_price", "1,50", "cut_price = 1.50"),
    ),
    "misspelt key": (
        "step_mm = 50", "stepp_mm = 50", ("wall.stepp_mm", "50", "Did you mean step_mm?"),
    ),
    "unknown kind of sheet": (
        'sheet_kinds = ["birch"]', 'sheet_kinds = ["birk"]',
        ("wall.sheet_kinds[1]", '"birk"', "Did you mean birch?"),
    ),
    "unknown grade": ('grade = "C24"', 'grade = "C99"', ("beams[1].grade", "C99", "C24")),
}  # fmt: skip


@pytest.mark.parametrize("name", ROOM_SLIPS)
def test_a_slip_in_the_room_file(call: Call, small_room: str, name: str) -> None:
    row, instead, words = ROOM_SLIPS[name]
    text = swapped(small_room, row, instead)
    Path("mine.toml").write_text(text, encoding="utf-8")
    told = refused(call, "mine.toml")
    assert f"mine.toml:{line_of(text, instead)}: " in told
    assert all(word in told for word in words), told
    assert "1 problem:" in told


WHOLE_FILES: dict[str, tuple[bytes, tuple[str, ...]]] = {
    "empty": (b"", ("room", "empty")),
    "only a remark": (b"# nothing yet\n", ("room",)),
    "picture": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff\xfe\x80" * 40, ("UTF-8",)),
    "zero bytes": (b"\x00" * 2000, ("line",)),
    "no TOML": (b"<html><body>hello</body></html>", ("TOML", "<html>")),
}


@pytest.mark.parametrize("name", WHOLE_FILES)
def test_a_file_that_is_no_room(call: Call, name: str) -> None:
    content, words = WHOLE_FILES[name]
    Path("mine.toml").write_bytes(content)
    told = refused(call, "mine.toml")
    assert "mine.toml" in told
    assert all(word in told for word in words), told
    assert len(told) < 4000, "garbage is not poured out on the reader"
    assert told.isprintable() or all(c.isprintable() or c == "\n" for c in told)


def test_a_room_without_beams(call: Call, small_room: str) -> None:
    first, last = small_room.index("[[beams]]"), small_room.index("[[solids]]")
    Path("mine.toml").write_text(small_room[:first] + small_room[last:], encoding="utf-8")
    told = refused(call, "mine.toml")
    assert all(word in told for word in ("mine.toml", "beams", "[[beams]]")), told


def test_a_folder_in_place_of_the_room(call: Call) -> None:
    Path("loft").mkdir()
    told = refused(call, "loft")
    assert all(word in told for word in ("loft", "this is a folder", "Name the file in it")), told


def test_a_room_that_is_not_there(call: Call) -> None:
    assert "nowhere.toml" in refused(call, "nowhere.toml")


@pytest.fixture
def yard(call: Call, small_room: str) -> Path:
    Path("mine.toml").write_text(small_room, encoding="utf-8")
    return Path(shutil.copytree(shipped_catalog_dir(), "yard"))


def edit(path: Path, change: Callable[[str], str]) -> None:
    path.write_text(change(path.read_text(encoding="utf-8")), encoding="utf-8")


def told_of_yard(call: Call) -> str:
    return refused(call, "mine.toml", "--catalog", "yard")


def test_a_catalogue_without_a_column(call: Call, yard: Path) -> None:
    edit(yard / "timber.csv", lambda text: text.replace(",depth_mm,", ",deep,", 1))
    told = told_of_yard(call)
    assert all(word in told for word in ("timber.csv:1", "depth_mm", "deep")), told


@pytest.mark.parametrize(
    ("price", "words"),
    [
        ("0", ("zero", "seen: 0", "above 0")),
        ("-5.00", ("negative", "seen: -5.00", "above 0")),
        ("lots", ("seen: lots", "number")),
        ('"6,05"', ("decimal comma", "6,05", "6.05")),
    ],
)
def test_a_price_that_can_not_be(
    call: Call, yard: Path, price: str, words: tuple[str, ...]
) -> None:
    edit(yard / "timber.csv", lambda text: swapped(text, ",planed,6.05,", f",planed,{price},"))
    told = told_of_yard(call)
    assert all(word in told for word in ("timber.csv:2", "price", *words)), told


def test_every_price_zero_is_one_message_for_each_row(call: Call, yard: Path) -> None:
    rows = (yard / "sheets.csv").read_text(encoding="utf-8").splitlines()
    cells = [row.split(",") for row in rows[1:]]
    zero = [",".join([*row[:-2], "0.00", row[-1]]) for row in cells]
    (yard / "sheets.csv").write_text("\n".join([rows[0], *zero]) + "\n", encoding="utf-8")
    told = told_of_yard(call)
    assert told.count("seen: 0.00") == len(zero)
    assert all(f"sheets.csv:{n}: " in told for n in range(2, len(rows) + 1))


def test_a_catalogue_without_a_sheet_that_can_be_had(call: Call, yard: Path) -> None:
    def sold_out(text: str) -> str:
        head, *rows = text.splitlines()
        return "\n".join([head, *(row[: row.rindex(",")] + ",0" for row in rows)]) + "\n"

    edit(yard / "sheets.csv", sold_out)
    assert "sheets.csv" in told_of_yard(call)


def test_a_catalogue_without_a_sheet_of_the_kind_asked_for(call: Call, yard: Path) -> None:
    def without_birch(text: str) -> str:
        rows = text.splitlines()
        return "\n".join(row for row in rows if ",birch," not in row) + "\n"

    edit(yard / "sheets.csv", without_birch)
    told = told_of_yard(call)
    line = line_of(Path("mine.toml").read_text(encoding="utf-8"), "sheet_kinds")
    assert all(word in told for word in (f"mine.toml:{line}", "wall.sheet_kinds", "birch")), told


def test_a_catalogue_that_is_thinner_than_asked_for(call: Call, yard: Path) -> None:
    def thin(text: str) -> str:
        head, *rows = text.splitlines()
        kept = [row for row in rows if any(f",{mm}," in row for mm in (9, 12))]
        assert kept
        return "\n".join([head, *kept]) + "\n"

    edit(yard / "sheets.csv", thin)
    told = told_of_yard(call)
    assert all(word in told for word in ("mine.toml", "min_thickness_mm")), told


def test_all_problems_at_once_and_as_one_document(call: Call, yard: Path, small_room: str) -> None:
    text = swapped(small_room, "mass_kg = 70", "mass_kg = -70")
    text = swapped(text, "step_mm = 50", "stepp_mm = 50")
    Path("mine.toml").write_text(text, encoding="utf-8")
    edit(yard / "timber.csv", lambda rows: swapped(rows, ",planed,6.05,", ",planed,0,"))
    said = call("search", "mine.toml", "--catalog", "yard", "--json", "--out", "answer")
    document = json.loads(said.out)
    assert (said.code, document["exit_code"], said.err) == (3, 3, "")
    errors = [f for f in document["findings"] if f["severity"] == "error"]
    places = {(Path(f["file"]).name, f["line"]) for f in errors}
    assert places == {
        ("mine.toml", line_of(text, "mass_kg = -70")),
        ("mine.toml", line_of(text, "stepp_mm = 50")),
        ("timber.csv", 2),
    }
    assert all(f["seen"] and (f["expected"] or f["next_step"]) for f in errors)
    assert not Path("answer").exists()


@pytest.mark.parametrize(
    ("more", "key"),
    [("columns = 3\nstud_count = 3\n", "stud_count"), ("rows = 4\nstud_count = 19\n", "columns")],
)
def test_a_wall_that_can_not_be_built_is_told_with_its_file(
    call: Call, small_room: str, more: str, key: str
) -> None:
    # Found by assessing random walls.
    Path("mine.toml").write_text(small_room, encoding="utf-8")
    wall = 'board_mm = 2500\nkicker_mm = 150\nwidth_mm = 1176\nbeam = "inner"\n'
    Path("wall.toml").write_text(wall + more, encoding="utf-8")
    said = call("assess", "mine.toml", "--design", "wall.toml")
    assert said.code == 3, said.err
    assert said.out == ""
    assert f"wall.toml: {key}: " in said.err
