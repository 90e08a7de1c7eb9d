"""The order of building: what is told of a wall beside each step."""

from __future__ import annotations

from typing import Any

from steepwright.catalog import read_materials
from steepwright.imperial import in_feet
from steepwright.report.views.before import BuildStep
from steepwright.report.views.build import build_steps, lifts_of
from steepwright.report.views.cuts import marks_of

Doc = dict[str, Any]
TIMBER_KG = {"rail": (2, 2.5), "stud": (3, 4.5), "seam blocking": (2, 1.1)}
KICKER_KG = {"kicker plate": (2, 2.5), "kicker upright": (3, 0.5)}


def frame_kg(design: Doc, steps: list[Doc] | None) -> float:
    return frame_step(design, steps).mass_kg


def frame_step(design: Doc, steps: list[Doc] | None) -> BuildStep:
    pieces = [
        {"name": name, "kind": "timber", "length_mm": 1000 + i, "width_mm": 80,
         "thickness_mm": 60, "count": count, "mass_kg": mass, "people": 1}
        for i, (name, (count, mass)) in enumerate({**TIMBER_KG, **KICKER_KG}.items())
    ]  # fmt: skip
    more: Doc = {"pieces": pieces, "parked": None}
    if steps is not None:
        more["assembly"] = {"steps": steps}
    wall = {key: value for key, value in design.items() if key != "assembly"} | more
    told = build_steps(
        wall, lifts_of(wall, marks_of(wall)), "a beam", lambda kg: 1, read_materials().factors
    )
    return next(s for s in told if s.title.startswith("Screw the frame together"))


def test_the_lip_rail_is_drilled_where_the_design_tells(plain_design: Doc) -> None:
    wall = {**plain_design, "lip_bolts_mm": [[80.0, 120.0], [562.5, 637.5], [1080.0, 1120.0]]}
    told = frame_step(wall, None).detail
    assert "at 80 and 120 mm, 562.5 and 637.5 mm, 1080 and 1120 mm from its left end" in told
    # 562.5 mm are 22.146 in, 637.5 mm 25.098 in.
    assert "1′ 10 1/8″ and 2′ 1 1/8″" in in_feet(told, primes=True)
    assert "Drill" not in frame_step(plain_design, None).detail


def step(where: str, name: str, hung_kg: float) -> Doc:
    parts = [{"name": name, "count": 1}]
    return {"where": where, "parts": parts, "mass_kg": 1.0, "force_n": 9, "people": 1,
            "hung_kg": hung_kg}  # fmt: skip


def test_the_frame_weighs_what_hangs_before_the_sheets(plain_design: Doc) -> None:
    """The order's own figure; the kicker stands apart and is no part of it."""
    order = [
        step("lip", "stud", 13.9),
        step("whole", "seam blocking", 20.5),
        step("upper end", "board 1165 x 1240", 44.4),
    ]
    assert frame_kg(plain_design, order) == 20.5


def test_without_an_order_its_bars_are_summed(plain_design: Doc) -> None:
    assert frame_kg(plain_design, None) == 20.7  # 2 x 2.5 + 3 x 4.5 + 2 x 1.1
