"""Limits on what a wall offers to climb are worked out again by the checker, not taken."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from typing import Any

import pytest
from sealing import sealed
from small_rooms import climbers_room, small_catalog, small_room, tiny_catalog

from steepwright.optimise import search
from steepwright.optimise.space import build_space
from steepwright.pricing.market import build_market
from steepwright.room.types import Room
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
SEED = 13


def asking(**wishes: Any) -> Room:
    room = replace(small_room(SEED), climber=replace(small_room(SEED).climber, span_mm=1700))
    return replace(room, wall=replace(room.wall, **wishes))


def proven(room: Room) -> tuple[Doc, Doc]:
    result = search(room, small_catalog(SEED), changes=False, certify=True)
    certificate, document = (
        json.loads(json.dumps(d)) for d in (result.certificate, result.document)
    )
    return certificate, document


OPEN = {"min_climbable_mm": 0, "min_moves": 0, "max_start_mm": None}


@pytest.mark.parametrize(
    "wishes",
    [
        {"min_climbable_mm": 2900},
        {"min_moves": 5},
        {"max_start_mm": 95},
        {"min_width_spans": 0.75, "width_mm": (1000, 1500), "step_mm": 100},
    ],
)
def test_the_checker_has_the_limit_itself(wishes: Doc) -> None:
    certificate, document = proven(asking(**(OPEN | wishes)))
    verdict = verify_documents(certificate, document)
    assert [finding.text() for finding in verdict.findings] == []
    assert not [name for name in verdict.taken if "room" in name]
    assert document["designs"]
    for d in document["designs"]:
        # By hand: a move gains 0.3 of 1700 mm, from the lowest row that is drawn to the highest.
        rows = sorted({u for _, u in d["holds"]["free_mm"]})
        assert d["board_mm"] + d["kicker_mm"] >= wishes.get("min_climbable_mm", 0)
        assert (rows[-1] - rows[0]) // 510 >= wishes.get("min_moves", 0)
        start = d["kicker_mm"] + rows[0] * math.cos(math.radians(d["angle_deg"]))
        assert start <= (wishes.get("max_start_mm") or math.inf)
        assert d["width_mm"] >= wishes.get("min_width_spans", 0) * 1700


@pytest.mark.parametrize("seed", [16, 18, 38, 41, 53])
def test_rows_of_holds_are_worked_out_again(seed: int) -> None:
    """Where limits rule out nearly all walls of a box, but by how each is divided and framed."""
    result = search(climbers_room(seed), tiny_catalog(seed), changes=False, certify=True)
    pair = json.loads(json.dumps([result.certificate, result.document]))
    verdict = verify_documents(*pair)
    assert [finding.text() for finding in verdict.findings] == []
    assert not [name for name in verdict.taken if "room" in name]


@pytest.mark.parametrize(
    ("key", "value"), [("min_climbable_mm", 2900), ("min_moves", 5), ("max_start_mm", 95)]
)
def test_a_limit_that_was_not_searched_by_is_noticed(key: str, value: int) -> None:
    """A certificate of all walls says too much of a room that asks for more."""
    certificate, document = proven(asking(**OPEN))
    document["room"]["wall"][key] = value
    told = [finding.text() for finding in sealed(certificate, document).findings]
    assert any("does not fit the room" in text for text in told)


def test_the_least_width_is_the_first_of_the_grid_that_is_wide_enough() -> None:
    """0.75 spans of 1700 mm are 1275 mm; the grid goes 1000, 1100, 1200, 1300."""
    room = asking(min_width_spans=0.75, width_mm=(1000, 1500), step_mm=100)
    space = build_space(build_market(room, small_catalog(SEED)))
    assert space.widths_mm.tolist() == [1300, 1400, 1500]
    certificate, document = proven(room)
    assert certificate["widths_mm"][0] == 1300
    same = asking(width_mm=(1300, 1500), step_mm=100)
    _, plain = proven(same)
    said = [(d["cost_cents"], d["angle_deg"], d["width_mm"]) for d in document["designs"]]
    assert said == [(d["cost_cents"], d["angle_deg"], d["width_mm"]) for d in plain["designs"]]
    document["room"]["wall"]["min_width_spans"] = 0.8
    assert sealed(certificate, document).findings
