"""The referee over the shipped example and over small random rooms, and whether it sees slips.

Fifteen rooms in every run; ``STEEPWRIGHT_REFEREE=240`` before the command looks at 240.
"""

from __future__ import annotations

import copy
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from shop import read_shop
from small_rooms import (
    climbers_room,
    framed_catalog,
    framed_room,
    ledger_room,
    sideways_room,
    small_catalog,
    small_room,
    spreader_room,
    three_mounts,
    tied_catalog,
    tied_room,
    tiny_catalog,
    tiny_room,
)

from referee import judge
from steepwright import search
from steepwright.catalog import write_catalog
from steepwright.errors import InfeasibleError
from steepwright.optimise.sampled import Effort, sample

Doc = dict[str, Any]
HERE = Path(__file__).parent
EXAMPLE = HERE.parents[1] / "reports" / "loft" / "designs.json"
ROOMS = int(os.environ.get("STEEPWRIGHT_REFEREE", "15"))

WITH_WALLS = {1, 2, 3, 6, 8, 9, 12, 13, 14, 16, 18, 20}
"""Of the first two dozen rooms those that take a wall: a room that lost its walls is told."""


@pytest.fixture(scope="module")
def example() -> Doc:
    document: Doc = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    return document


def test_the_shipped_example_adds_up(example: Doc) -> None:
    book = judge(example, read_shop(), with_frames=6)
    assert book.differences == []
    assert book.compared > 200 * len(example["designs"])


@pytest.mark.parametrize("seed", range(ROOMS))
def test_a_small_room_adds_up(seed: int, tmp_path: Path) -> None:
    room, catalog = tiny_room(seed), tiny_catalog(seed)
    if seed % 10 == 9:  # more lengths, more walls
        room, catalog = small_room(seed), small_catalog(seed)
    write_catalog(catalog, tmp_path / "yard")
    try:
        document = search(room, catalog, changes=False).document
    except InfeasibleError:
        assert seed not in WITH_WALLS
        return
    book = judge(document, read_shop(tmp_path / "yard"), with_frames=1)
    assert book.differences == []


@pytest.mark.parametrize("seed", [6, 8])
def test_a_room_whose_mounts_hang_off_the_middle_adds_up(seed: int, tmp_path: Path) -> None:
    catalog = three_mounts(tiny_catalog(seed))
    write_catalog(catalog, tmp_path / "yard")
    document = search(sideways_room(seed, 260), catalog, changes=False).document
    assert any(design["facing"] == "-x" for design in document["designs"])
    assert judge(document, read_shop(tmp_path / "yard"), with_frames=1).differences == []


@pytest.mark.parametrize("seed", [18, 38])
def test_a_room_whose_holds_must_begin_low_adds_up(seed: int, tmp_path: Path) -> None:
    write_catalog(tiny_catalog(seed), tmp_path / "yard")
    document = search(climbers_room(seed), tiny_catalog(seed), changes=False).document
    book = judge(document, read_shop(tmp_path / "yard"), with_frames=1)
    assert book.differences == []


@pytest.mark.parametrize("seed", [2, 4, 20, 24])
def test_a_room_with_a_freestanding_frame_adds_up(seed: int, tmp_path: Path) -> None:
    """Frames bought, one that needs a delivery, one beside a beam, and one that is there."""
    write_catalog(framed_catalog(seed), tmp_path / "yard")
    document = search(framed_room(seed), framed_catalog(seed), changes=False).document
    assert any(design.get("mount_kind") == "frame" for design in document["designs"])
    shop = read_shop(tmp_path / "yard")
    assert judge(document, shop, with_frames=1).differences == []
    design = next(d for d in document["designs"] if d.get("mount_kind") == "frame")
    tipping = next(c for c in design["checks"] if c["name"] == "frame tips over")
    tipping["demand"] *= 0.99
    assert judge(document, shop).differences
    tipping["demand"] /= 0.99
    if seed != 24:
        design["cut_plan"]["stand"][0]["pieces_mm"][0] -= 1
        assert judge(document, shop).differences


@pytest.mark.parametrize("seed", [4, 8])
def test_a_room_with_wall_ledgers_adds_up(seed: int, tmp_path: Path) -> None:
    write_catalog(framed_catalog(seed), tmp_path / "yard")
    document = search(ledger_room(seed), framed_catalog(seed), changes=False).document
    assert any(design.get("mount_kind") == "ledger" for design in document["designs"])
    assert judge(document, read_shop(tmp_path / "yard"), with_frames=1).differences == []


@pytest.mark.parametrize("seed", [22, 68, 71, 120])
def test_a_room_with_ties_to_a_second_beam_adds_up(seed: int, tmp_path: Path) -> None:
    catalog = tied_catalog(seed)
    write_catalog(catalog, tmp_path / "yard")
    document = search(tied_room(seed), catalog, changes=False).document
    assert any("tie_back" in design for design in document["designs"])
    book = judge(document, read_shop(tmp_path / "yard"))
    assert book.differences == []


def test_ties_at_places_of_their_own_add_up(tmp_path: Path) -> None:
    catalog = tied_catalog(22)
    write_catalog(catalog, tmp_path / "yard")
    document = sample(tied_room(22), catalog, effort=Effort(trials=250, seed=1)).document
    tied = [design for design in document["designs"] if "tie_back" in design]
    assert any(design["tie_back"]["at_mm"] != design["board_mm"] // 2 for design in tied)
    assert judge(document, read_shop(tmp_path / "yard")).differences == []


def test_a_room_with_joists_along_it_adds_up(tmp_path: Path) -> None:
    write_catalog(framed_catalog(8), tmp_path / "yard")
    document = search(spreader_room(8), framed_catalog(8), changes=False).document
    assert any(design.get("mount_kind") == "spreader" for design in document["designs"])
    assert judge(document, read_shop(tmp_path / "yard"), with_frames=1).differences == []


def change_part(document: Doc) -> None:
    document["designs"][0]["cut_plan"]["sheets"][0]["parts"][0]["x_mm"] += 2


def change_cut(document: Doc) -> None:
    document["designs"][0]["cut_plan"]["sheets"][0]["cuts"][0]["at_mm"] -= 1


def change_price(document: Doc) -> None:
    line = document["designs"][0]["bill"][0]
    line["unit_cents"] += 1
    line["amount_cents"] += line["quantity"]
    document["designs"][0]["cost_cents"] += line["quantity"]


def change_bar(document: Doc) -> None:
    document["designs"][0]["cut_plan"]["timber"][0]["pieces_mm"][0] += 1


def change_strength(document: Doc) -> None:
    row = next(r for r in document["designs"][0]["checks"] if r["name"] == "stud, parked")
    row["capacity"] *= 1.01
    row["use"] /= 1.01


def change_beam(document: Doc) -> None:
    row = next(r for r in document["designs"][0]["checks"] if r["name"] == "ceiling beam bending")
    row["demand"] /= 1.3
    row["use"] /= 1.3


def change_lost(document: Doc) -> None:
    row = next(r for r in document["designs"][0]["checks"] if r["name"] == "one mount lost")
    row["demand"] /= 1.01
    row["use"] /= 1.01


def field(name: str, by: float) -> Callable[[Doc], None]:
    def change(document: Doc) -> None:
        document["designs"][0][name] += by

    change.__name__ = f"{name} {by:+}"
    return change


SLIPS = [
    change_part,
    change_cut,
    change_price,
    change_bar,
    change_strength,
    change_beam,
    change_lost,
    field("angle_deg", 0.002),
    field("fall_space_mm", 1),
    field("lip_height_mm", 1),
    field("x_foot_mm", -1),
    field("floor_run_mm", 1),
    field("climbable_mm", 5),
    field("cost_cents", 1),
    field("mass_kg", 0.2),
]


@pytest.mark.parametrize("change", SLIPS, ids=lambda change: change.__name__)
def test_a_slip_is_seen(example: Doc, change: Callable[[Doc], None]) -> None:
    document = copy.deepcopy({**example, "designs": example["designs"][:1]})
    document["counts"]["front"] = 1
    assert judge(document, read_shop(), with_frames=1).differences == []
    change(document)
    assert judge(document, read_shop(), with_frames=1).differences


def test_a_beaten_design_is_seen(example: Doc) -> None:
    document = copy.deepcopy(example)
    document["designs"][1]["fall_space_mm"] = document["designs"][0]["fall_space_mm"]
    document["designs"][1]["angle_deg"] = document["designs"][0]["angle_deg"]
    assert any("beats" in text for text in judge(document, read_shop()).differences)


def test_the_referee_reads_nothing_of_ours() -> None:
    blocked = (
        "import sys; sys.modules['steepwright'] = None; sys.argv = ['referee', sys.argv[1]];"
        f"sys.path.insert(0, {str(HERE)!r}); import referee; sys.exit(referee.main())"
    )
    done = subprocess.run(
        [sys.executable, "-c", blocked, str(EXAMPLE.parent)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.endswith("0 differ\n")
