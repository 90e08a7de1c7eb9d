"""The room in feet and inches at the North American yard, searched for real in narrow ranges."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.console import run
from steepwright.imperial import length_mm
from steepwright.resources import catalogs_dir
from steepwright.room import catalog_folder, read_room

SHIPPED = catalogs_dir() / "example" / "basement.toml"
NARROWER = (
    ("angle_deg = [25, 40]", "angle_deg = [30, 33]"),
    ('kicker_mm = ["8 in", "12 in"]', 'kicker_mm = ["8 in", "8 in"]'),
    ('width_mm = ["4 ft", "8 ft"]', 'width_mm = ["4 ft", "4 ft"]'),
    ("step_mm = 10", "step_mm = 50"),
    ("max_columns = 2", "max_columns = 1"),
    ('sheet_kinds = ["birch", "rated plywood"]', 'sheet_kinds = ["birch"]'),
)


@pytest.fixture
def room_file(tmp_path: Path) -> Path:
    text = SHIPPED.read_text(encoding="utf-8")
    yard = json.dumps(str(catalogs_dir() / "yard-na"))
    for old, new in (*NARROWER, ('"../yard-na"', yard)):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = tmp_path / "room.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_the_shipped_room_reads_and_finds_its_yard() -> None:
    room = read_room(SHIPPED)
    assert room.units == "inch"
    assert read_catalog(catalog_folder(room)).currency == "USD"
    assert [beam.grade for beam in room.beams] == ["DF-L No.2", None]


def test_a_search_in_feet_and_inches(
    room_file: Path, tmp_path: Path, call: Callable[..., Any]
) -> None:
    said = call("search", str(room_file), "--quiet", "--workers", "1", "--out", str(tmp_path / "o"))
    assert said.code == 0, said.err
    document = json.loads((tmp_path / "o" / "designs.json").read_text(encoding="utf-8"))
    assert document["room"]["units"] == "inch"
    assert document["currency"] == "USD"
    said_of_grades = [text for text in document["assumptions"] if "NDS" in text]
    assert len(said_of_grades) == 2
    assert "allowable stress" in said_of_grades[0]
    assert "recalled for SP No.2" in said_of_grades[1]
    assert any("Rated panels (rated OSB, rated plywood)" in t for t in document["assumptions"])
    assert "in feet and inches to the nearest 1/16 in" in said.out
    first = min(document["designs"], key=lambda d: d["cost_cents"])
    row = next(line for line in said.out.splitlines() if f" {first['id']} " in line)
    shown = row.split(f"{first['cost_cents'] / 100:.2f}")[1].split("   ")
    lengths = [length_mm(text) for text in shown if text.strip().endswith('"')]
    keys = ("fall_space_mm", "board_mm", "kicker_mm", "width_mm")
    assert len(lengths) == len(keys)
    assert all(abs(a - first[key]) <= 1 for a, key in zip(lengths, keys, strict=True))
    assert all(isinstance(first[key], int) for key in keys)
    page = (tmp_path / "o" / "report.html").read_text(encoding="utf-8")
    assert "″" in page


def test_why_there_is_no_wall_is_told_in_feet_and_inches(
    room_file: Path, tmp_path: Path, call: Callable[..., Any]
) -> None:
    text = room_file.read_text(encoding="utf-8")
    (old,) = [line for line in text.splitlines() if line.startswith("min_fall_space_mm")]
    room_file.write_text(text.replace(old, 'min_fall_space_mm = "14 ft"'), encoding="utf-8")
    said = call("search", str(room_file), "--quiet", "--out", str(tmp_path / "o"))
    assert said.code == 4
    assert re.search(r"wall\.min_fall_space_mm binds: \d+' [\d /]+\" short", said.err), said.err


def test_its_proof_holds(room_file: Path, tmp_path: Path) -> None:
    out = str(tmp_path / "o")
    assert run(["search", str(room_file), "--quiet", "--no-changes", "--out", out]) == 0
    assert run(["verify", "--strict", out]) == 0
