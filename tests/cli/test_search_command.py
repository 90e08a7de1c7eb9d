"""What `search` and `assess` print, write and return; a stand-in takes the search's place.

The searches themselves are tested where they live; here only the way in and out counts.
"""

from __future__ import annotations

import importlib
import json
import math
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from steepwright.cli.console import run
from steepwright.cli.search import folder_name
from steepwright.errors import InfeasibleError

CHECK = {
    "name": "stud bending", "clause": "EN 1995-1-1 6.1.6", "demand": 8.0, "capacity": 10.0,
    "unit": "MPa", "use": 0.8, "assumption": "dynamic factor 2", "settled": True,
}  # fmt: skip


def a_design(name: str, angle: float, cost: int, *, settled: bool = True) -> dict[str, Any]:
    return {
        "id": name, "angle_deg": angle, "cost_cents": cost, "fall_space_mm": 1800,
        "board_mm": 2750, "kicker_mm": 255, "width_mm": 1250, "beam": "middle", "facing": "+x",
        "columns": 1, "rows": 2, "sheet": "birch 18 mm", "stud": "45 x 95 C24 planed",
        "stud_count": 4, "governing_check": "stud bending", "settled": settled, "mass_kg": 61.5,
        "checks": [CHECK, {**CHECK, "name": "ceiling beam", "use": 1.25},
                   {**CHECK, "name": "mount", "use": 0.5, "settled": False},
                   {**CHECK, "name": "rating", "use": 0.0, "capacity": math.inf}],
        "mend": ["a deeper stud: 45 x 120"],
        "mend_checks": [{"check": "ceiling beam", "use": 1.25,
                         "changes": ["2 mounts instead of 3 (98%, -9.90)", "another"]}],
    }  # fmt: skip


DOCUMENT: dict[str, Any] = {
    "format": "steepwright designs 1", "currency": "EUR", "complete": True,
    "cautions": ["This is no approval."], "findings": [],
    "room": {"beams": [{"name": "middle", "kind": "beam"}]},
    "designs": [a_design("W01", 25.0, 21000), a_design("W02", 41.2, 33333),
                a_design("W03", 45.0, 48900, settled=False)],
}  # fmt: skip


PLAIN = json.loads(json.dumps(DOCUMENT).replace("Infinity", "null"))


class StandIn:
    """Takes the place of the search, and keeps what it was called with."""

    def __init__(self) -> None:
        self.asked: dict[str, Any] = {}
        self.document = DOCUMENT
        self.error: BaseException | None = None

    def search(self, room: Any, catalog: Any, **asked: Any) -> Any:
        self.asked = {"room": room.name, "catalog": catalog.name, **asked}
        asked["progress"]("angles settled: 1 of 2")
        if self.error:
            raise self.error
        return SimpleNamespace(document=self.document, cheapest=self.cheapest, certificate=None)

    def cheapest(self, angle_deg: float | None, top: int | None) -> list[dict[str, Any]]:
        return [d for d in self.document["designs"] if d["angle_deg"] >= (angle_deg or 0)][:top]

    def assess(self, room: Any, catalog: Any, design: dict[str, Any]) -> dict[str, Any]:
        self.asked = design
        note = {"severity": "assumption", "key": "mount", "message": "the first is assumed"}
        old = {"severity": "warning", "key": "date", "message": "the prices are old"}
        return {**self.document, "designs": self.document["designs"][1:2], "findings": [note, old],
                "room_margins": {"fall space": -120.0}}  # fmt: skip

    def write_outputs(self, document: dict[str, Any], folder: Path, _: Any) -> list[Path]:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "report.html").write_text("page")
        return [folder / "report.html"]


@pytest.fixture
def stand_in(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> StandIn:
    stand_in = StandIn()
    for real in ("journal", "terms"):
        importlib.import_module(f"steepwright.optimise.{real}")
    monkeypatch.setitem(sys.modules, "steepwright.optimise", stand_in)
    # Imported before its package is replaced: assess names what a wall hangs from.
    words = importlib.import_module("steepwright.report.words")
    finished = importlib.import_module("steepwright.report.finished")
    monkeypatch.setitem(sys.modules, "steepwright.report", stand_in)
    monkeypatch.setitem(sys.modules, "steepwright.report.words", words)
    monkeypatch.setitem(sys.modules, "steepwright.report.finished", finished)
    monkeypatch.chdir(tmp_path)
    assert run(["new", "loft"]) == 0
    return stand_in


def test_the_cheapest_walls_are_printed_and_the_files_named(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert run(["search", "loft/room.toml", "--angle", "40", "--workers", "2"]) == 0
    said = capsys.readouterr()
    assert "angles settled: 1 of 2" in said.err
    assert "W01" not in said.out
    row = next(line for line in said.out.splitlines() if "W02" in line)
    cells = ("41.2", "333.33", "1800", "2750", "255", "1250", "middle +x", "1 x 2",
             "birch 18 mm", "4 of 45 x 95 C24 planed", "stud bending")  # fmt: skip
    places = [row.index(cell) for cell in cells]
    assert places == sorted(places)
    assert "not settled" in next(line for line in said.out.splitlines() if "W03" in line)
    assert "\x1b" not in said.out, "no colour when stdout is no terminal"
    assert "This is no approval." in said.out
    page = str(Path("reports/loft/report.html"))
    assert said.out.splitlines()[-2:] == [page, f"Next: open {page}"]
    assert stand_in.asked["angle_deg"] == 40.0
    assert (stand_in.asked["room"], stand_in.asked["workers"]) == ("Loft", 2)


def test_a_narrow_terminal_keeps_every_column(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("steepwright.cli.tables.PLAIN_WIDTH", 80)
    capsys.readouterr()
    assert run(["search", "loft/room.toml", "--angle", "44"]) == 0
    table = capsys.readouterr().out.split("This is no approval.")[0]
    assert all(len(line.rstrip()) <= 80 for line in table.splitlines())
    words = table.split()
    wanted = ["W03", "45.0", "489.00", "1800", "2750", "255", "1250", "W03", "middle", "+x"]
    places = [words.index(word) for word in wanted[1:7]]
    assert words.count("W03") == 2
    assert places == sorted(places)
    assert all(word in words for word in (*wanted, "birch", "planed", "bending", "(not"))


@pytest.mark.parametrize(
    ("options", "shown"),
    [
        ([], ["W01", "W02", "W03"]),
        (["--top", "1"], ["W01"]),
        (["--angle", "30", "--top", "1"], ["W02"]),
        (["--max-cost", "333.33"], ["W01", "W02"]),
        (["--max-cost", "350", "--angle", "40"], ["W02"]),
    ],
)
def test_options_choose_the_rows(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str], options: list[str], shown: list[str]
) -> None:
    capsys.readouterr()
    assert run(["search", "loft/room.toml", "--quiet", *options]) == 0
    said = capsys.readouterr()
    assert said.err == ""
    assert [name for name in ("W01", "W02", "W03") if name in said.out] == shown


def test_json_is_the_document_alone(stand_in: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert run(["search", "loft/room.toml", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == PLAIN
    assert not Path("reports").exists()
    assert run(["search", "loft/room.toml", "--json", "--out", "here"]) == 0
    said = capsys.readouterr()
    assert json.loads(said.out) == PLAIN
    assert str(Path("here/report.html")) in said.err


def test_no_wall_is_exit_code_4(stand_in: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    stand_in.error = InfeasibleError("No wall reaches 60 degrees.")
    capsys.readouterr()
    assert run(["search", "loft/room.toml"]) == 4
    said = capsys.readouterr()
    assert said.out == ""
    assert "No wall reaches 60 degrees." in said.err
    assert not Path("reports").exists()


def test_an_interrupted_search_keeps_what_it_found(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str]
) -> None:
    angles = [
        {"angle_deg": 40, "settled": True, "found_cents": 33333, "gap_cents": 0},
        {"angle_deg": 45, "settled": False, "found_cents": 48900, "gap_cents": 1200},
    ]
    ended = {"complete": False, "stopped": "interrupted", "angles": angles}
    stand_in.document = {**DOCUMENT, **ended}
    assert run(["search", "loft/room.toml"]) == 130
    said = capsys.readouterr()
    assert "W01" in said.out
    assert "incomplete; 1 of 2 angles" in said.err
    assert "may be up to 12.00 cheaper" in said.out
    assert Path("reports/loft/report.html").exists()


def test_problems_of_room_and_catalogue_are_told_together(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str]
) -> None:
    room = Path("loft/room.toml")
    room.write_text(room.read_text().replace("ceiling_mm = 2600", "ceiling_mm = 2,6"))
    Path("empty").mkdir()
    capsys.readouterr()
    assert run(["search", "loft/room.toml", "--catalog", "empty"]) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert "decimal comma" in said.err
    assert "sheets.csv" in said.err
    assert stand_in.asked == {}


def test_assess_prints_every_check_in_words(
    stand_in: StandIn, capsys: pytest.CaptureFixture[str]
) -> None:
    text = 'angle_deg = 41.2\nkicker_mm = 255\nwidth_mm = 1250\nbeam = "middle"\n'
    Path("mine.toml").write_text(text)
    capsys.readouterr()
    assert run(["assess", "loft/room.toml", "--design", "mine.toml"]) == 4
    out = capsys.readouterr().out
    result = {
        name: next(line for line in out.splitlines() if line.strip().startswith(name))
        for name in ("stud bending", "ceiling beam", "mount", "rating")
    }
    assert " pass " in result["stud bending"]
    assert " fail " in result["ceiling beam"]
    assert "125%" in result["ceiling beam"]
    assert " not settled " in result["mount"]
    assert " not stated " in result["rating"]
    assert "fail: fall space (-120 mm)" in out
    assert "To pass ceiling beam (125%), one of:\n  2 mounts instead of 3 (98%, -9.90)\n" in out
    assert "To pass every check: a deeper stud: 45 x 120" in out
    assert "Assumed: mount: the first is assumed" in out
    assert "Warning: date: the prices are old" in out
    assert out.splitlines()[-1] == "This wall FAILS: ceiling beam, fall space."
    wanted = {"angle_deg": 41.2, "kicker_mm": 255, "width_mm": 1250, "beam": "middle"}
    assert stand_in.asked == wanted


@pytest.mark.parametrize(
    ("room", "folder"),
    [
        ("Loft", "loft"),
        ("A den, 2nd floor", "a-den-2nd-floor"),
        ("../..", "room"),
        ("/etc/..\\x", "etc-x"),
        ("Ö", "ö"),
        ("𠀀" * 80, "𠀀" * 50),  # a file system takes 255 bytes, not letters
    ],
)
def test_a_rooms_name_makes_a_safe_folder_name(room: str, folder: str) -> None:
    assert folder_name(room) == folder
