"""Ties and lifting eyes at places of a wall's own: in the sampled search and in a design file."""

from __future__ import annotations

import json
import math
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from small_rooms import tied_catalog, tied_room

from steepwright.catalog import Catalog, read_catalog
from steepwright.errors import InputError
from steepwright.optimise import assess, search
from steepwright.optimise.sampled import Effort, sample
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

EXAMPLE = catalogs_dir() / "example"
WALL = tomllib.loads((EXAMPLE / "wall.toml").read_text(encoding="utf-8"))
LOFT = read_room(EXAMPLE / "room.toml")
CATALOG = read_catalog()
FINISHED = Path(__file__).parents[2] / "reports" / "loft" / "designs.json"
ROPE = next(h for h in CATALOG.hardware if h.sku == "HW-TIE-W")
Doc = dict[str, Any]
KEYS = (
    "board_mm kicker_mm width_mm beam facing columns rows sheet grain stud stud_count mount"
    " mount_count screw_mm delivered"
)


def short_ties(most_mm: int) -> Catalog:
    """Return a small catalogue whose ties bridge no more than so much."""
    catalog = tied_catalog(22)
    return replace(
        catalog,
        hardware=tuple(
            replace(h, length_mm=most_mm) if h.kind == "tie" else h for h in catalog.hardware
        ),
    )


def tied(document: Doc) -> list[Doc]:
    return [design for design in document["designs"] if "tie_back" in design]


def test_a_tie_too_short_for_the_middle_may_reach_from_elsewhere() -> None:
    room, every = tied_room(22), search(tied_room(22), tied_catalog(22), changes=False).document
    catalog = short_ties(min(d["tie_back"]["length_mm"] for d in tied(every)) - 10)
    assert tied(search(room, catalog, changes=False).document) == []
    seeds = tuple(every["designs"])
    found = tied(sample(room, catalog, effort=Effort(trials=300, seed=1), seeds=seeds).document)
    assert found
    for design in found:
        at = design["tie_back"]["at_mm"]
        assert 0.4 * design["board_mm"] <= at <= 0.6 * design["board_mm"]
        own = {key: design[key] for key in KEYS.split()}
        own |= {"tie_back": design["tie_back"]["what"], "tie_at_mm": at}
        again = assess(room, catalog, own)["designs"][0]
        assert again["passes"]
        assert again["cost_cents"] == design["cost_cents"]
        assert again["checks"] == design["checks"]
        assert again["tie_back"] == design["tie_back"]
        half = assess(room, catalog, own | {"tie_at_mm": design["board_mm"] // 2})["designs"][0]
        assert "tie length" in half["failing"]


def test_a_tie_runs_from_its_place_as_the_triangle_says() -> None:
    room = replace(LOFT, tie_beam=[b.name for b in LOFT.beams].index("second"))
    wall = WALL | {"facing": "+x", "tie_back": ROPE.name, "tie_at_mm": 1350}
    design = assess(room, CATALOG, wall)["designs"][0]
    tie, lean = design["tie_back"], math.radians(design["angle_deg"])
    x = design["x_foot_mm"] + 1350 * math.sin(lean)
    assert tie["at_mm"] == 1350
    assert tie["from_mm"] == pytest.approx([x, 250 + 1350 * math.cos(lean)], abs=1)
    across = np.subtract(tie["to_mm"], tie["from_mm"])
    assert tie["length_mm"] == pytest.approx(np.hypot(*across), abs=1)
    uses = {check["name"]: check["demand"] for check in design["checks"]}
    assert uses["tie length"] == pytest.approx(tie["length_mm"], abs=1)


def with_eye(eye_mm: int | None) -> Doc:
    own = {} if eye_mm is None else {"eye_mm": eye_mm}
    design: Doc = assess(LOFT, CATALOG, WALL | own)["designs"][0]
    return design


def with_eye_as(design: Doc, eye_mm: int | None) -> Doc:
    own = {key: design[key] for key in KEYS.split()}
    own |= {} if eye_mm is None else {"eye_mm": eye_mm}
    again: Doc = assess(LOFT, CATALOG, own)["designs"][0]
    return again


def test_lifting_eyes_nearer_to_the_pivot_pull_harder_at_whatever_beam_is_above() -> None:
    """By moments about the pivot the lines' force goes with one over the eye's distance."""
    usual = with_eye(None)
    far, beam = usual["lift"]["eye_mm"], usual["lift"]["beam"]
    assert with_eye(far)["lift"] == usual["lift"]
    near = with_eye(far - 20)
    assert near["lift"]["beam"] == beam, "a block hangs beside it"
    assert near["lift"]["eye_mm"] == near["lift"]["block_mm"][0] == far - 20
    names = {check["name"]: check["demand"] for check in usual["checks"]}
    own = {check["name"]: check["demand"] for check in near["checks"]}
    assert own["lifting line"] / names["lifting line"] == pytest.approx(far / (far - 20), rel=1e-5)
    between = with_eye(far - 800)
    assert not between["passes"]
    pull = next(m for m in between["mend_checks"] if m["check"] == "hand force on the hoist")
    assert any("lifting eyes at their usual place" in change for change in pull["changes"])
    assert between["lift"]["beam"] is None
    assert not between["settled"]


def test_sampled_eyes_stay_below_a_beam_where_there_is_one_and_assess_finds_them_there() -> None:
    finished = json.loads(FINISHED.read_text(encoding="utf-8"))["designs"][:12]
    nearer = ({"lift": d["lift"] | {"eye_mm": d["lift"]["eye_mm"] - 10}} for d in finished)
    seeds = tuple(d | near for d, near in zip(finished, nearer, strict=True))
    document = sample(LOFT, CATALOG, effort=Effort(trials=40, seed=4), seeds=seeds).document
    walls = {d["id"]: with_eye_as(d, None)["lift"] for d in document["designs"]}
    moved = [d for d in document["designs"] if d["lift"]["eye_mm"] != walls[d["id"]]["eye_mm"]]
    assert moved
    assert any("lifting eyes were sampled too" in text for text in document["assumptions"])
    for design in document["designs"]:
        assert (design["lift"]["beam"] is None) == (walls[design["id"]]["beam"] is None)
        again = with_eye_as(design, design["lift"]["eye_mm"])
        assert again["lift"] == design["lift"]
        assert again["checks"] == design["checks"]


@pytest.mark.parametrize(
    ("own", "expected"),
    [
        ({"tie_at_mm": 1300}, "a set of ties"),
        ({"tie_at_mm": 300, "tie_back": ROPE.name}, "from 971 to 1455"),
        ({"eye_mm": 300}, "from 1329 to 2366"),
        ({"eye_mm": 9000}, "from 1329 to 2366"),
    ],
)
def test_a_place_where_there_can_be_none_is_told(own: Doc, expected: str) -> None:
    room = replace(LOFT, tie_beam=[b.name for b in LOFT.beams].index("second"))
    with pytest.raises(InputError) as caught:
        assess(room, CATALOG, WALL | own)
    (finding,) = (f for f in caught.value.findings if f.severity == "error")
    assert finding.key in own
    assert finding.expected.startswith(expected)


def test_a_wall_that_stays_down_has_no_eyes() -> None:
    room = replace(LOFT, wall=replace(LOFT.wall, fold_up=False))
    with pytest.raises(InputError, match="stays down"):
        assess(room, CATALOG, WALL | {"eye_mm": 1800})
