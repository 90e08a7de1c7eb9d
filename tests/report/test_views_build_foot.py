"""How the foot of a wall that doesn't fold is held: the hinges that are missing have to be told."""

from __future__ import annotations

from typing import Any

from steepwright.catalog import read_materials
from steepwright.report.views.build import BuildStep, build_steps, lifts_of
from steepwright.report.views.cuts import marks_of

Doc = dict[str, Any]


def kicker_step(design: Doc, **more: Any) -> BuildStep:
    wall = design | {"kicker_mm": 400} | more
    lifts = lifts_of(wall, marks_of(wall))
    told = build_steps(wall, lifts, "a beam", lambda kg: 1, read_materials().factors)
    return next(s for s in told if s.title == "Set the kicker")


def test_a_foot_without_hinges_is_screwed_down_and_told_unchecked(plain_design: Doc) -> None:
    """Screws through the foot rail into the kicker's upper rail: common practice, no source."""
    step = kicker_step(plain_design, parked=None)
    assert "Screw the kicker's frame together and its sheet on first." in step.text
    assert "screw down through the foot rail into the kicker's upper rail" in step.text
    assert "does not fold" in step.detail
    assert "No check covers the joint" in step.detail
    assert "not on the bill" in step.detail


def test_a_foot_on_hinges_is_told_nothing_of_screws(plain_design: Doc) -> None:
    parked = {"angle_deg": 90.0, "headroom_mm": 2200, "x_mm": [0, 2000], "stops_at": "level"}
    step = kicker_step(plain_design, parked=parked)
    assert "screw down" not in step.text
    assert "No check" not in step.detail
