"""Where ties run, what they cost, and what a room and a design file say of them."""

from __future__ import annotations

import math
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from small_rooms import tied_catalog, tied_room

from steepwright.catalog import read_catalog
from steepwright.errors import InputError
from steepwright.optimise import assess
from steepwright.optimise.model import build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.standing import hanging, plan_positions_mm, stand
from steepwright.optimise.tie import NOWHERE_MM, tie_ends, tie_line
from steepwright.pricing.market import build_market
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.design_file import read_design

EXAMPLE = catalogs_dir() / "example"
WALL = tomllib.loads((EXAMPLE / "wall.toml").read_text(encoding="utf-8")) | {"facing": "+x"}
CATALOG = read_catalog()
ROPE = next(h for h in CATALOG.hardware if h.sku == "HW-TIE-W")


def loft(folder: Path, beam: str) -> Path:
    text = (EXAMPLE / "room.toml").read_text(encoding="utf-8")
    file = folder / "room.toml"
    file.write_text(f'{text}\n[tie_back]\nbeam = "{beam}"\n', encoding="utf-8")
    return file


def assessed(folder: Path, beam: str = "second", **changes: Any) -> dict[str, Any]:
    design = WALL | {"tie_back": ROPE.name} | changes
    found: dict[str, Any] = assess(read_room(loft(folder, beam)), CATALOG, design)["designs"][0]
    return found


def test_a_tie_runs_as_the_triangle_of_its_ends_says(tmp_path: Path) -> None:
    design = assessed(tmp_path)
    tie = design["tie_back"]
    half, lean = design["board_mm"] / 2, math.radians(design["angle_deg"])
    middle = (design["x_foot_mm"] + design["x_lip_mm"]) / 2
    assert tie["from_mm"] == pytest.approx([middle, 250 + half * math.cos(lean)], abs=1)
    assert tie["to_mm"] == [1890 + 70, 2415 + 100]  # the beam's side, the middle of its depth
    across = np.subtract(tie["to_mm"], tie["from_mm"])
    assert tie["length_mm"] == pytest.approx(np.hypot(*across), abs=1)
    normal = np.array([-math.cos(lean), math.sin(lean)])
    cosine = across @ normal / np.hypot(*across)
    assert tie["lean_deg"] == pytest.approx(math.degrees(math.acos(cosine)), abs=0.1)


def test_every_stud_has_a_tie_on_the_bill_and_checks_of_its_own(tmp_path: Path) -> None:
    tied, free = assessed(tmp_path), assessed(tmp_path, tie_back=None)
    assert "tie_back" not in free
    line = next(x for x in tied["bill"] if x["sku"] == ROPE.sku)
    assert line["quantity"] == tied["stud_count"] == tied["tie_back"]["count"]
    assert line["unit_cents"] == ROPE.price_cents
    assert tied["cost_cents"] - free["cost_cents"] == line["amount_cents"]
    uses = [{c["name"]: c["use"] for c in d["checks"]} for d in (tied, free)]
    assert uses[0]["stud bending"] < uses[1]["stud bending"]
    assert uses[0]["stud deflection"] < uses[1]["stud deflection"]
    assert "tie beam bending" in uses[0]
    assert "tie beam bending" not in uses[1]


@pytest.mark.parametrize(
    ("beam", "facing"),
    [("middle", "+x"), ("fourth", "+x"), ("second", "-x"), ("gable", "+x")],
    ids=["the wall's own", "in front", "in front, the other way", "behind another beam"],
)
def test_where_no_tie_can_run_the_wall_fails_by_its_length(
    tmp_path: Path, beam: str, facing: str
) -> None:
    design = assessed(tmp_path, beam, facing=facing)
    assert not design["passes"]
    assert "tie length" in design["failing"]


def test_ties_stay_behind_the_board_and_pull_it_up() -> None:
    """By plain vectors, for every wall of some rooms that may be tied at all."""
    some = 0
    for seed in range(40):
        space = build_space(build_market(tied_room(seed), tied_catalog(seed)))
        for place, (_, facing) in enumerate(space.places):
            walls = stand(
                place,
                hanging(space, place, 0, 18),
                space.boards_mm[:, None],
                space.kickers_mm[None],
            )
            line, ends = tie_line(space, walls), tie_ends(space, walls)
            runs = line.mm < NOWHERE_MM
            if ends is None or not runs.any():
                assert not runs.any()
                continue
            some += int(runs.sum())
            sign = 1 if facing == "+x" else -1
            foot, lip = plan_positions_mm(space, walls)
            slope = np.stack([lip - foot, walls.board * np.cos(walls.angle)])
            tie = np.stack([ends.beam_x_mm - ends.x_mm, ends.beam_z_mm - ends.z_mm])
            behind = sign * (slope[0] * tie[1] - slope[1] * tie[0])
            assert (behind[runs] > 0).all(), "on the side away from the climber"
            assert ((slope * tie).sum(axis=0)[runs] >= 0).all(), "never down the slope"
            assert (tie[1][runs] > 0).all()
    assert some > 100


def test_boxes_hold_the_most_favourable_of_their_ties() -> None:
    room = replace(tied_room(71), wall=replace(tied_room(71).wall, step_mm=20))
    model = build_model(build_space(build_market(room, tied_catalog(71))))
    assert model.ties is not None
    cos, mm = model.ties.cos, model.ties.mm
    rows, columns = cos[1].shape[-2:]
    for size in (2, 4, 64):
        for row, column in np.ndindex(rows, columns):
            where = (..., row // size, column // size)
            assert (cos[size][where] >= cos[1][..., row, column]).all()
            assert (mm[size][where] <= mm[1][..., row, column]).all()
        assert cos[size].max() == cos[1].max()
        assert mm[size].min() == mm[1].min()


def test_a_room_must_name_a_beam_that_is_there(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_room(loft(tmp_path, "secund"))
    (finding,) = (f for f in caught.value.findings if f.severity == "error")
    assert (finding.code, finding.key) == ("room-unknown-name", "tie_back.beam")
    assert "second" in finding.next_step


def test_a_design_cant_be_tied_where_the_room_names_no_beam(tmp_path: Path) -> None:
    file = tmp_path / "wall.toml"
    text = (EXAMPLE / "wall.toml").read_text(encoding="utf-8")
    file.write_text(f'{text}\ntie_back = "{ROPE.name}"\n', encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_design(file, read_room(EXAMPLE / "room.toml"), CATALOG)
    assert [f.code for f in caught.value.findings] == ["design-no-tie-beam"]
    given = read_design(file, read_room(loft(tmp_path, "second")), CATALOG)
    assert given["tie_back"] == ROPE.name


def test_an_unknown_tie_is_told_with_the_nearest(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        assessed(tmp_path, tie_back=ROPE.name.replace("wire", "wyre"))
    (finding,) = (f for f in caught.value.findings if f.severity == "error")
    assert finding.key == "tie_back"
    assert "wire" in finding.next_step
