"""What nobody knows of a place to hang from is never silently fine, whatever hangs there."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from small_rooms import framed_room

from steepwright.catalog import read_catalog
from steepwright.cli.assess import settling_lines, verdict
from steepwright.optimise import assess
from steepwright.optimise.document import cautions
from steepwright.report.views.checks import check_table
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.types import Beam, MountKind, Room

CATALOG = read_catalog()
LOFT = read_room(catalogs_dir() / "example" / "room.toml")
WALL: dict[str, Any] = tomllib.loads(
    (catalogs_dir() / "example" / "wall.toml").read_text(encoding="utf-8")
)
Made = tuple[Room, dict[str, Any]]
BEAM, LIFT = "ceiling beam bending", "lift beam bending"


def beam(**changes: Any) -> Made:
    return replace(LOFT, beams=tuple(replace(b, **changes) for b in LOFT.beams)), {}


def hidden(kind: str, **changes: Any) -> Made:
    under = (LOFT.ceiling_mm, LOFT.ceiling_mm)
    room, _ = beam(**{"kind": kind, "underside_mm": under, "grade": "C24"} | changes)
    return room, {"angle_deg": None, "board_mm": 3000}


def frame(change: Callable[[Beam], Beam]) -> Made:
    room = framed_room(1)
    stands = next(b for b in room.beams if b.kind == "frame")
    own = {"beam": stands.name, "width_mm": 1200, "angle_deg": None, "board_mm": 2400}
    return replace(room, beams=(change(stands),)), own


def no_fixing(stands: Beam) -> Beam:
    assert stands.stand is not None
    return replace(stands, stand=replace(stands.stand, floor_rated_n=None))


CASES: dict[str, tuple[Made, str, str]] = {
    "beam, grade": (beam(grade=None), BEAM, "grade is unknown: have it graded"),
    "beam, load": (
        beam(existing_load_n_per_m=None),
        BEAM,
        "load is unknown: find out what it carries; 1500 N/m were taken",
    ),
    "beam above the eye, grade": (
        beam(grade=None),
        LIFT,
        "grade of the beam that carries the blocks is unknown: have it graded",
    ),
    "beam above the eye, load": (
        beam(existing_load_n_per_m=None),
        LIFT,
        "existing load of the beam that carries the blocks is unknown: 1500 N/m were taken",
    ),
    "joist, grade": (hidden("joist", grade=None), BEAM, "grade is unknown: have it graded"),
    "joist, load": (hidden("joist", existing_load_n_per_m=None), BEAM, "load is unknown"),
    "joist, place": (hidden("joist", found=False), BEAM, "find both its edges"),
    "slab, anchor": (hidden("slab"), "anchor working load", "ask for one with an approval"),
    "slab, thickness": (hidden("slab"), "slab thickness", "look into its approval"),
    "frame, grade": (frame(lambda b: replace(b, grade=None)), "frame post", "have it graded"),
    "frame, floor": (frame(no_fixing), "frame slides", "least that it must be rated for"),
}


@pytest.mark.parametrize("name", CASES)
def test_an_unknown_is_told_with_what_to_find_out(name: str) -> None:
    (room, own), check_name, words = CASES[name]
    given = {key: value for key, value in (WALL | own).items() if value is not None}
    design = assess(room, CATALOG, given)["designs"][0]
    (check,) = [c for c in design["checks"] if c["name"] == check_name]
    assert not check["settled"]
    assert not design["settled"]
    (reason,) = [reason for reason in check["find_out"] if words in reason]
    assert check["assumption"].endswith("; ".join(check["find_out"]))
    told = [line for line in settling_lines(design) if reason in line]
    assert len(told) == 1, "one line, with all the checks that rest on it"
    assert check_name in told[0]
    last = verdict(design | {"checks": [c | {"use": 0.5} for c in design["checks"]]}, {})
    assert "NOT SETTLED" in last
    shown = [rule.find_out for rule in check_table(design).rules if rule.name == check_name]
    assert reason in shown[0], "the page has it too"


def test_every_hole_of_a_mount_in_a_slab_gets_an_anchor() -> None:
    room, own = hidden("slab")
    given = {key: value for key, value in (WALL | own).items() if value is not None}
    (slab,) = assess(room, CATALOG, given)["designs"]
    (mount,) = [mount for mount in CATALOG.mounts if mount.name == slab["mount"]]
    assert slab["anchors"] == mount.screws * slab["mount_count"] > 1
    assert "anchors" not in assess(LOFT, CATALOG, WALL)["designs"][0]


@pytest.mark.parametrize(
    ("kinds", "looked_at"),
    [
        (("beam", "beam"), "Have the ceiling beam looked at"),
        (("slab",), "Have the concrete slab and its anchors looked at"),
        (("frame",), "Have the frame's plan, and once it stands the frame, looked at"),
        (("frame", "beam"), "Have what the wall hangs from looked at"),
    ],
)
def test_the_cautions_name_what_walls_hang_from(
    kinds: tuple[MountKind, ...], looked_at: str
) -> None:
    room = replace(LOFT, beams=tuple(replace(LOFT.beams[0], kind=kind) for kind in kinds))
    (told,) = [text for text in cautions(room) if " looked at by someone" in text]
    assert told.startswith(looked_at)


def test_what_is_known_leaves_nothing_to_find_out() -> None:
    known = replace(LOFT, beams=tuple(replace(b, grade="C24") for b in LOFT.beams))
    design = assess(known, CATALOG, WALL)["designs"][0]
    assert design["settled"]
    assert settling_lines(design) == []
    assert all("find_out" not in check for check in design["checks"])
