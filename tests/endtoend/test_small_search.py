"""A small search for real, and everything it says held against plain arithmetic and libraries."""

from __future__ import annotations

import contextlib
import csv
import io
import itertools
import json
import math
import os
import re
import subprocess
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from steepwright.cli.console import run
from steepwright.cutting import verify_bar_plan, verify_sheet_plan
from steepwright.cutting.records import (
    BarLayout,
    BarPart,
    BarPlan,
    BarStock,
    PlacedPart,
    SawCut,
    SheetLayout,
    SheetPart,
    SheetPlan,
    SheetStock,
)
from steepwright.resources import catalogs_dir, shipped_catalog_dir

Doc = dict[str, Any]

FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")
LEAST_ANGLE_DEG = 38.0
CUT_CENTS, DELIVERY_CENTS, KERF_MM = 150, 3900, 4
LENGTH_MM, CUPBOARD_FROM_MM, CUPBOARD_TO_Y_MM = 5200, 4900, 1400
BEAMS = {"inner": (2900, 2410), "outer": (4100, 2440)}
"""Middle line and lower end of each beam's underside [mm], as in the room file."""


@dataclass(frozen=True, slots=True)
class Searched:
    """One finished search: its folder, and what it said."""

    folder: Path
    out: str
    err: str

    @property
    def document(self) -> Doc:
        return dict(json.loads((self.folder / "designs.json").read_text(encoding="utf-8")))


@pytest.fixture(scope="module")
def room_file(tmp_path_factory: pytest.TempPathFactory, small_room: str) -> Path:
    file = tmp_path_factory.mktemp("rooms") / "mine.toml"
    file.write_text(small_room, encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def first(room_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Searched:
    folder = tmp_path_factory.mktemp("first") / "answer"
    out, err = io.StringIO(), io.StringIO()
    args = ["search", str(room_file), "--workers", "1", "--out", str(folder)]
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run([*args, "--angle", f"{LEAST_ANGLE_DEG:g}", "--top", "3"])
    assert code == 0, err.getvalue()
    return Searched(folder, out.getvalue(), err.getvalue())


def in_its_own_process(room_file: Path, folder: Path, seed: str, *more: str) -> Searched:
    """Search from cold, in another working folder and with another order of hashed things."""
    env = {**os.environ, "PYTHONHASHSEED": seed}
    done = subprocess.run(
        [sys.executable, "-m", "steepwright", "search", str(room_file), "--out", str(folder),
         "--angle", f"{LEAST_ANGLE_DEG:g}", *more],
        capture_output=True, encoding="utf-8", env=env, cwd=folder.parent, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return Searched(folder, done.stdout, done.stderr)


@pytest.fixture(scope="module")
def on_two(room_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Searched:
    folder = tmp_path_factory.mktemp("second") / "answer"
    return in_its_own_process(room_file, folder, "1", "--workers", "2", "--quiet")


@pytest.fixture(scope="module")
def as_json(room_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Searched:
    folder = tmp_path_factory.mktemp("third") / "answer"
    return in_its_own_process(room_file, folder, "77", "--workers", "1", "--json")


@pytest.fixture(scope="module")
def designs(first: Searched) -> list[Doc]:
    found = list(first.document["designs"])
    assert len(found) >= 5, "too few designs to say anything"
    return found


def table(name: str) -> dict[str, dict[str, str]]:
    with (shipped_catalog_dir() / name).open(encoding="utf-8", newline="") as file:
        return {row["sku"]: row for row in csv.DictReader(file)}


def price_cents(row: dict[str, str]) -> int:
    return round(float(row["price"]) * 100)


def limit(row: dict[str, str]) -> int | None:
    return int(row["limit"]) if row["limit"] else None


def test_the_files_are_written_and_named(first: Searched) -> None:
    assert sorted(path.name for path in first.folder.iterdir()) == sorted(FILES)
    assert all(str(first.folder / name) in first.out for name in FILES)
    page = str(first.folder / "report.html")
    assert first.out.splitlines()[-1] == f"Next: open {page}"
    assert all(caution in first.out for caution in first.document["cautions"])


def test_the_document_keeps_the_shipped_schema(first: Searched) -> None:
    path = catalogs_dir() / "schemas" / "designs.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    validator = jsonschema.Draft202012Validator(schema)
    assert [error.message for error in validator.iter_errors(first.document)] == []
    assert (first.document["method"], first.document["complete"]) == ("exact", True)


@pytest.mark.parametrize("other", ["on_two", "as_json"])
def test_every_run_writes_the_same_bytes(
    first: Searched, other: str, request: pytest.FixtureRequest
) -> None:
    second: Searched = request.getfixturevalue(other)
    for name in FILES:
        assert (first.folder / name).read_bytes() == (second.folder / name).read_bytes(), name


def test_quiet_says_nothing_and_otherwise_progress_is_told(
    first: Searched, on_two: Searched
) -> None:
    assert on_two.err == ""
    assert re.search(r"angles settled \d+ of 21, gap", first.err)
    assert "angles settled 21 of 21" in first.err


def test_json_prints_the_document_alone(as_json: Searched) -> None:
    printed, end = json.JSONDecoder().raw_decode(as_json.out)
    assert as_json.out[end:].strip() == ""
    assert printed == as_json.document


def test_no_path_of_this_machine_is_told(first: Searched, room_file: Path) -> None:
    here = {room_file.parent, first.folder.parent, Path.cwd(), Path.home(), Path(sys.prefix),
            catalogs_dir(), Path(tempfile.gettempdir())}  # fmt: skip
    for name in FILES:
        text = (first.folder / name).read_text(encoding="utf-8").replace("\\/", "/")
        assert not [str(path) for path in here if f"{path}/" in text], name
        assert "file://" not in text


def test_the_table_shows_the_cheapest_at_the_angle(first: Searched, designs: list[Doc]) -> None:
    steep = [d for d in designs if d["angle_deg"] >= LEAST_ANGLE_DEG]
    assert 0 < len(steep) < len(designs), "the angle must divide the designs"
    rows = [row.split() for row in first.out.splitlines() if re.match(r"\s*W\d+\s", row)]
    assert len(rows) == min(3, len(steep))
    least = min(d["cost_cents"] for d in steep)
    assert round(float(rows[0][2]) * 100) == least
    assert all(float(row[1]) >= LEAST_ANGLE_DEG for row in rows)
    cheapest = sorted(d["cost_cents"] for d in steep)[: len(rows)]
    assert [round(float(row[2]) * 100) for row in rows] == cheapest


def test_no_design_beats_another(designs: list[Doc]) -> None:
    for one, other in itertools.permutations(designs, 2):
        beaten = (
            one["cost_cents"] <= other["cost_cents"]
            and one["angle_deg"] >= other["angle_deg"]
            and one["fall_space_mm"] >= other["fall_space_mm"]
            and one["settled"] >= other["settled"]
        )
        assert not beaten, f"{one['id']} is at least as good as {other['id']} in everything"


def test_designs_are_sorted_by_cost_then_angle(designs: list[Doc]) -> None:
    keys = [(d["cost_cents"], d["angle_deg"]) for d in designs]
    assert keys == sorted(keys)
    assert len({d["id"] for d in designs}) == len(designs)


def test_the_angle_follows_from_the_beam(designs: list[Doc]) -> None:
    """A cos t + n sin t = Z - k, solved by halving; angles are told rounded down to 0.001."""
    mounts = {row["name"]: row for row in table("mounts.csv").values()}
    for d in designs:
        mount = mounts[d["mount"]]
        rise = BEAMS[d["beam"]][1] - int(mount["drop_mm"]) - d["kicker_mm"]
        along = d["board_mm"] - int(mount["setback_mm"])
        behind = int(mount["behind_sheet_mm"]) + d["sheet_thickness_mm"]
        low, high = math.atan2(behind, along), math.pi / 2
        for _ in range(60):
            middle = (low + high) / 2
            above = along * math.cos(middle) + behind * math.sin(middle) > rise
            low, high = (middle, high) if above else (low, middle)
        assert -1e-6 <= math.degrees(low) - d["angle_deg"] <= 0.001, d["id"]
        assert 25 <= d["angle_deg"] <= 45


def test_the_fall_space_follows_from_the_room(designs: list[Doc]) -> None:
    """Lip's plumb line a sin t + n cos t in front of the pivot, then to the next thing."""
    mounts = {row["name"]: row for row in table("mounts.csv").values()}
    for d in designs:
        mount, turn = mounts[d["mount"]], math.radians(d["angle_deg"])
        behind = int(mount["behind_sheet_mm"]) + d["sheet_thickness_mm"]
        ahead = int(mount["setback_mm"]) * math.sin(turn) + behind * math.cos(turn)
        x_mm = BEAMS[d["beam"]][0]
        left_mm = (3000 - d["width_mm"]) / 2
        assert left_mm >= 600, "the side passage is kept"
        meets = left_mm < CUPBOARD_TO_Y_MM
        end = CUPBOARD_FROM_MM if meets else LENGTH_MM
        fall = end - x_mm - ahead if d["facing"] == "+x" else x_mm - ahead
        assert abs(d["fall_space_mm"] - math.floor(fall)) <= (0 if fall % 1 > 0.01 else 1), d["id"]
        assert d["fall_space_mm"] >= 700
        run_mm = d["board_mm"] * math.sin(turn)
        assert abs(d["floor_run_mm"] - run_mm) <= 0.6


def test_both_beams_or_facings_are_looked_at(designs: list[Doc]) -> None:
    assert len({(d["beam"], d["facing"]) for d in designs}) > 1


def test_bills_add_up_and_name_the_yards_prices(designs: list[Doc]) -> None:
    yard = {sku: row for name in ("sheets", "timber", "mounts", "screws", "hardware")
            for sku, row in table(f"{name}.csv").items()}  # fmt: skip
    for d in designs:
        assert sum(line["amount_cents"] for line in d["bill"]) == d["cost_cents"], d["id"]
        for line in d["bill"]:
            assert line["amount_cents"] == line["quantity"] * line["unit_cents"]
            if line["group"] != "charges":
                assert line["unit_cents"] == price_cents(yard[line["sku"]]), line
        charges = Counter({x["sku"]: x["quantity"] for x in d["bill"] if x["group"] == "charges"})
        cuts = sum(len(sheet["cuts"]) for sheet in d["cut_plan"]["sheets"])
        assert charges.total() == cuts + d["delivered"], d["id"]
        bought = Counter(x["sku"] for kind in ("sheets", "timber") for x in d["cut_plan"][kind])
        billed = Counter({x["sku"]: x["quantity"] for x in d["bill"]
                          if x["group"] in ("sheets", "timber")})  # fmt: skip
        assert bought == billed, d["id"]


def sheet_layout(sheet: Doc) -> SheetLayout:
    cuts = tuple(
        SawCut(c["axis"], c["at_mm"], tuple(c["x_mm"]), tuple(c["y_mm"])) for c in sheet["cuts"]
    )
    parts = tuple(PlacedPart(**part) for part in sheet["parts"])
    return SheetLayout(
        sheet["sku"], sheet["length_mm"], sheet["width_mm"], sheet["kerf_mm"], parts, cuts
    )


def test_sheet_plans_can_be_sawn_and_give_the_walls_pieces(designs: list[Doc]) -> None:
    """What is asked for is derived here from the split, not read from the plan."""
    stocks = tuple(
        SheetStock(sku, int(row["length_mm"]), int(row["width_mm"]), row["face_grain"],
                   price_cents(row), CUT_CENTS, limit(row))
        for sku, row in table("sheets.csv").items()
    )  # fmt: skip
    price = {stock.sku: stock.price_cents for stock in stocks}
    for d in designs:
        assert sum(d["column_widths_mm"]) == d["width_mm"]
        assert sum(d["row_lengths_mm"]) == d["board_mm"]
        assert (len(d["column_widths_mm"]), len(d["row_lengths_mm"])) == (d["columns"], d["rows"])
        grain = "width" if d["grain"] == "across" else "any"
        wanted = Counter(
            SheetPart(f"board {u} x {w}", u, w, grain, 1)
            for u in d["row_lengths_mm"] for w in d["column_widths_mm"]
        )  # fmt: skip
        kicker = d["kicker_mm"]
        wanted.update(
            SheetPart(f"kicker {w} x {kicker}", w, kicker, "any", 1) for w in d["column_widths_mm"]
        )
        parts = tuple(
            SheetPart(p.name, p.length_mm, p.width_mm, p.grain, n) for p, n in wanted.items()
        )
        layouts = tuple(sheet_layout(sheet) for sheet in d["cut_plan"]["sheets"])
        cuts = CUT_CENTS * sum(len(layout.cuts) for layout in layouts)
        plan = SheetPlan(layouts, sum(price[layout.sku] for layout in layouts), cuts)
        assert verify_sheet_plan(plan, parts, stocks, KERF_MM) == (), d["id"]


def test_bar_plans_can_be_sawn_and_give_the_frames_members(designs: list[Doc]) -> None:
    rows = table("timber.csv")
    stocks = tuple(
        BarStock(sku, int(row["length_mm"]), price_cents(row), limit(row))
        for sku, row in rows.items()
    )
    price = {stock.sku: stock.price_cents for stock in stocks}
    for d in designs:
        pieces = [p for p in d["pieces"] if p["kind"] == "timber"]
        parts = tuple(BarPart(p["name"], p["length_mm"], p["count"]) for p in pieces)
        layouts = tuple(
            BarLayout(bar["sku"], bar["stock_mm"], bar["kerf_mm"],
                      tuple(zip(bar["pieces"], bar["pieces_mm"], strict=True)))
            for bar in d["cut_plan"]["timber"]
        )  # fmt: skip
        plan = BarPlan(layouts, sum(price[layout.sku] for layout in layouts))
        assert verify_bar_plan(plan, parts, stocks, KERF_MM) == (), d["id"]
        assert {(int(rows[x.sku]["width_mm"]), int(rows[x.sku]["depth_mm"])) for x in layouts} == {
            tuple(d["stud_mm"])
        }
        counts = Counter({p["name"]: p["count"] for p in pieces})
        assert counts["stud"] == d["stud_count"]
        longest = max(bar["stock_mm"] for bar in d["cut_plan"]["timber"])
        assert d["delivered"] or longest <= 2600, "longer than the vehicle and not delivered"


def test_every_check_is_kept_and_the_governing_one_is_the_hardest(designs: list[Doc]) -> None:
    for d in designs:
        uses = {check["name"]: check["use"] for check in d["checks"]}
        assert all(0 <= use <= 1 for use in uses.values()), d["id"]
        assert uses[d["governing_check"]] == max(uses.values())
        assert d["settled"] == all(check["settled"] for check in d["checks"])


def test_the_list_as_csv_holds_the_same_designs(first: Searched, designs: list[Doc]) -> None:
    with (first.folder / "designs.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["id"] for row in rows] == [d["id"] for d in designs]
    assert [float(row["angle_deg"]) for row in rows] == [d["angle_deg"] for d in designs]
