"""How the foot of a wall that doesn't fold is held: the hinges that are missing have to be told."""

from __future__ import annotations

from typing import Any

import pytest

from steepwright.catalog import read_materials
from steepwright.report.views.before import BuildStep
from steepwright.report.views.build import build_steps, lifts_of
from steepwright.report.views.cuts import marks_of
from steepwright.report.views.notes import notes_of
from steepwright.report.views.open_items import open_items

Doc = dict[str, Any]


PARKED = {"angle_deg": 90.0, "headroom_mm": 2200, "x_mm": [0, 2000], "stops_at": "level"}


def steps_of(wall: Doc) -> tuple[BuildStep, ...]:
    lifts = lifts_of(wall, marks_of(wall))
    return build_steps(wall, lifts, "a beam", lambda kg: 1, read_materials().factors)


@pytest.mark.parametrize(
    ("kind", "judged", "level"),
    [
        ("slab", "its anchors", "The slab's underside is taken as level over the mounts: all"),
        ("frame", "the floor that it stands on", "The frame's head beam is level: all"),
        ("", "its supports", "The beam is level over the mounts: all"),
    ],
)
def test_a_slab_or_a_frame_is_not_called_a_beam(
    plain_design: Doc, kind: str, judged: str, level: str
) -> None:
    flat = {"take_up_mm": 60, "mounts": [{"y_mm": 1, "drop_mm": 0.0, "turns": None}]}
    wall = plain_design | {"levelling": flat} | ({"mount_kind": kind} if kind else {})
    assert judged in steps_of(wall)[0].text
    (told,) = [note.lines for note in notes_of(wall, "EUR") if note.title == "Levelling"]
    assert told == (f"{level} hang alike.",)


def test_mounts_in_a_slab_hang_on_anchors_to_be_had_elsewhere(plain_design: Doc) -> None:
    """Two mounts of two holes; 1909.3 N are asked of each anchor, told rounded up."""
    check = plain_design["checks"][0] | {"name": "anchor working load", "demand": 1909.3}
    wall = plain_design | {"mount_kind": "slab", "anchors": 4, "checks": [check]}
    (item,) = open_items(wall)
    assert item.count == 4
    assert "licensed" in item.what
    assert "for at least 1910 N" in item.why
    (step,) = [step for step in steps_of(wall) if step.title == "Fix the mounts"]
    assert step.text.startswith("Four anchors in the slab")
    assert "Pre-drill" not in step.text
    assert open_items(plain_design) == ()
    (step,) = [step for step in steps_of(plain_design) if step.title == "Fix the mounts"]
    assert step.text.startswith("Pre-drill")


def test_a_freestanding_frame_is_built_before_the_walls_own(plain_design: Doc) -> None:
    """Every part with its length, every bolt with its joint, and what holds each foot."""
    post = plain_design["pieces"][0] | {"kind": "timber", "name": "frame post", "count": 2}
    pieces = [*plain_design["pieces"], post | {"length_mm": 2105, "mass_kg": 16.4}]
    bolts = [
        {"least_mm": 165, "count": 16, "joint": "both ends of the braces"},
        {"least_mm": 210, "count": 4, "joint": "the cheeks at the feet"},
    ]
    frame = {"brace_up_mm": 1500, "brace_toe_mm": 100, "knee_mm": 600, "bolt_mm": 10,
             "bolt_end_mm": 70, "bolt_apart_mm": 50, "bolts": bolts}  # fmt: skip
    check = plain_design["checks"][0] | {"name": "frame slides", "demand": 411.2}
    wall = plain_design | {"pieces": pieces, "frame": frame, "checks": [check]}
    order = [step.title for step in steps_of(wall)]
    place = order.index("Build the freestanding frame and set it up")
    assert order[place + 1].startswith("Screw the frame together")
    step = steps_of(wall)[place]
    assert "2 × frame post of 2105 mm (mark 2)" in step.detail
    assert "16 of at least 165 mm for both ends of the braces and 4 of at least" in step.detail
    assert "for 412 N level each beyond friction" in step.text
    (item,) = open_items(wall)
    assert item.count == 2
    assert "at least 412 N, level" in item.why
    own = steps_of(wall | {"frame": frame | {"bolts": []}})[place]
    assert own.title == "Look at the freestanding frame's bolts and feet"
    assert "for 412 N level each" in own.text
    assert not [title for title in map(str.lower, titles(plain_design)) if "frame" in title]


def titles(wall: Doc) -> list[str]:
    return [step.title for step in steps_of(wall)[1:4]]


def test_what_gets_in_whole_is_sawn_inside(plain_design: Doc) -> None:
    inside = ["Buy, and carry in", "Cut the bars", "Drill the sheets"]
    assert titles(plain_design) == inside
    shop = {"bars_too_long": [], "blocks_get_in": True}
    assert titles(plain_design | {"shop": shop}) == inside


def test_what_does_not_get_in_whole_is_sawn_before_it_is_carried_in(plain_design: Doc) -> None:
    bars = [{"sku": plain_design["bill"][0]["sku"], "stock_mm": 4200, "count": 2}]
    wall = plain_design | {"shop": {"bars_too_long": bars, "blocks_get_in": False}}
    assert titles(wall) == ["Buy", "Cut the bars, before you carry them in", "Carry in"]
    what = plain_design["bill"][0]["what"]
    saw, carry = steps_of(wall)[2:4]
    assert saw.detail.endswith(f"2 × {what} and sheets still to be sawn at home.")
    assert (carry.mass_kg, carry.detail) == (23.0, "The heaviest piece is A.")


def kicker_step(design: Doc, **more: Any) -> BuildStep:
    told = steps_of(design | {"kicker_mm": 400} | more)
    return next(s for s in told if s.title == "Set the kicker")


def test_a_foot_without_hinges_is_screwed_down_and_told_unchecked(plain_design: Doc) -> None:
    """Screws through the foot rail into the kicker's upper rail: common practice, no source."""
    step = kicker_step(plain_design, parked=None)
    assert "Screw the kicker's frame together and its sheet on first." in step.text
    assert "four long screws down through the foot rail into the kicker's upper rail" in step.text
    assert "does not fold" in step.detail
    assert "No check covers the joint" in step.detail


def test_a_foot_on_hinges_is_told_nothing_of_screws(plain_design: Doc) -> None:
    step = kicker_step(plain_design, parked=PARKED)
    assert "foot rail into" not in step.text
    assert "No check" not in step.detail


def test_the_screws_into_the_floor_are_those_that_the_check_counts_on(plain_design: Doc) -> None:
    """Four at every upright: "floor fixing" takes as many as in a stud's joint."""
    assert read_materials().factors["frame_screws_per_joint"] == 4
    for parked in (None, PARKED):
        text = kicker_step(plain_design, parked=parked).text
        assert "fix it to the floor: four long screws down through its lower rail" in text
    wall = plain_design | {"kicker_mm": 0}
    (step,) = (s for s in steps_of(wall) if "floor" in s.title and s.title.startswith("Fix"))
    assert "Down through the foot rail, four long screws beside every stud." in step.text


def test_a_wall_that_folds_is_freed_from_the_floor_first(plain_design: Doc) -> None:
    wall = plain_design | {"kicker_mm": 400, "parked": PARKED}
    (step,) = (s for s in steps_of(wall) if s.title == "Try the fold")
    assert "Take out the screws into the floor" in step.text
