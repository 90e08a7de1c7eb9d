"""Two rooms at two price lists: a folder each, a table over all, and every problem told at once."""

from __future__ import annotations

import csv
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from steepwright.resources import shipped_catalog_dir

FILES = ["certificate.json", "designs.csv", "designs.json", "report.html"]


def dearer_yard(folder: Path) -> Path:
    """Copy the shipped yard under another name, with every sheet 10 dearer."""
    shutil.copytree(shipped_catalog_dir(), folder)
    with (folder / "sheets.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    with (folder / "sheets.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(row | {"price": f"{float(row['price']) + 10:.2f}"} for row in rows)
    return folder


def searched(
    call: Callable[..., Any], rooms: list[Path], yards: list[Path]
) -> tuple[str, list[dict[str, str]]]:
    """Search every room at every price list; return what was printed, and the table's rows."""
    catalogs = [word for yard in yards for word in ("--catalog", str(yard))]
    args = ["batch", *map(str, rooms), *catalogs, "--out", "answers", "--workers", "1", "--quiet"]
    said = call(*args)
    assert said.code == 0, said.err
    with Path("answers/summary.csv").open(encoding="utf-8", newline="") as file:
        return said.out.strip(), list(csv.DictReader(file))


def test_every_room_at_every_price_list(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    rooms = [tmp_path / "one.toml", tmp_path / "low.toml"]
    rooms[0].write_text(small_room, encoding="utf-8")
    tight = small_room.replace("min_fall_space_mm = 700", "min_fall_space_mm = 5000")
    rooms[1].write_text(tight.replace("Small room", "Tight room"), encoding="utf-8")
    out, rows = searched(call, rooms, [shipped_catalog_dir(), dearer_yard(tmp_path / "dear")])
    assert out == str(Path("answers/summary.csv"))
    assert [row["room"] for row in rows] == ["Small room"] * 2 + ["Tight room"] * 2
    assert [row["outcome"] for row in rows] == ["complete"] * 2 + ["no wall"] * 2
    assert all("fall" in row["reason"] for row in rows[2:])
    assert rows[0]["folder"] != rows[1]["folder"]
    assert int(rows[1]["cheapest_cents"]) >= int(rows[0]["cheapest_cents"]) + 1000
    for row in rows[:2]:
        folder = Path("answers") / row["folder"]
        assert sorted(path.name for path in folder.iterdir()) == FILES
        designs = json.loads((folder / "designs.json").read_text(encoding="utf-8"))["designs"]
        assert int(row["designs"]) == len(designs)
        assert int(row["cheapest_cents"]) == min(d["cost_cents"] for d in designs)
        assert float(row["steepest_angle_deg"]) == max(d["angle_deg"] for d in designs)


def test_rows_of_rooms_and_yards_of_one_name_are_told_apart(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    """Two files that call their room alike, each at two price lists that call their yard alike."""
    rooms = [tmp_path / "as-it-is.toml", tmp_path / "tight.toml"]
    rooms[0].write_text(small_room, encoding="utf-8")
    tight = small_room.replace("min_fall_space_mm = 700", "min_fall_space_mm = 5000")
    rooms[1].write_text(tight, encoding="utf-8")
    yards = [dearer_yard(tmp_path / "north"), dearer_yard(tmp_path / "south")]
    _, rows = searched(call, rooms, yards)
    assert len({(row["room"], row["catalog"]) for row in rows}) == 1
    told = [(row["room_file"], row["catalog_dir"]) for row in rows]
    assert told == [(str(room), str(yard)) for room in rooms for yard in yards]
    folders = [row["folder"] for row in rows]
    assert len(set(folders)) == 4
    assert all(folders), "also where there is no wall"
    assert [(Path("answers") / name).exists() for name in folders] == [True, True, False, False]


def test_the_problems_of_all_files_are_told_together(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    rooms = [tmp_path / "a.toml", tmp_path / "b.toml"]
    rooms[0].write_text(small_room.replace("ceiling_mm", "cieling_mm"), encoding="utf-8")
    rooms[1].write_text(small_room.replace("span_mm = 1700", "span_mm = -1"), encoding="utf-8")
    yards = ["--catalog", str(shipped_catalog_dir()), "--catalog", str(tmp_path / "nowhere")]
    said = call("batch", *map(str, rooms), *yards, "--out", "answers", "--quiet")
    assert said.code == 3
    problems = [line for line in said.err.splitlines() if line.startswith("  - ")]
    assert sum("cieling_mm" in line for line in problems) == 1
    assert any("b.toml" in line for line in problems)
    assert sum("nowhere" in line for line in problems) == 1
    assert not Path("answers").exists()
