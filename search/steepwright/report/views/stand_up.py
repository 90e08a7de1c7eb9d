"""The step that builds a freestanding frame: its parts, its bolts, and what holds its feet."""

from __future__ import annotations

from typing import Any

from steepwright.report.views.before import BuildStep, Lift
from steepwright.report.views.open_items import demand_n
from steepwright.report.words import sentence


def standing(design: dict[str, Any], lifts: tuple[Lift, ...]) -> list[BuildStep]:
    """Return the step before the wall's own frame, of a wall that hangs from a freestanding one."""
    frame = design.get("frame")
    if frame is None:
        return []
    feet = (
        f"Hold both feet to the floor against sliding, for {demand_n(design, 'frame slides')} N"
        " level each beyond friction: the checks rest on it, and what holds them isn't on the bill."
    )
    parts = [lift for lift in lifts if lift.name.startswith("frame ")]
    if not frame["bolts"] or not parts:
        title = "Look at the freestanding frame's bolts and feet"
        return [BuildStep(title, feet, "It is yours already.", 0.0, 2)]
    heavy = max(parts, key=lambda part: part.mass_kg)
    return [
        BuildStep(
            "Build the freestanding frame and set it up",
            f"{_order(frame)} {feet}",
            f"{_parts(parts)}. {_bolts(frame)}",
            heavy.mass_kg,
            max(2, heavy.people) if heavy.people else 0,
        )
    ]


def _order(frame: dict[str, Any]) -> str:
    toe, up, knee = frame["brace_toe_mm"], frame["brace_up_mm"], frame["knee_mm"]
    return (
        "Both sides flat on the floor first: a post upright on the middle of its foot, clasped by"
        f" two cheeks, and two braces from {toe} mm before the foot's ends to {up} mm above the"
        " floor. The braces' lower ends are sawn level where they would stand below the foot. Raise"
        " the sides and prop them; lay the head beam on the posts, with two cheeks at each; then"
        f" the knee braces, from {knee} mm below a post's head to {knee} mm along the head beam. A"
        " cheek's bolts go through the middle of foot or head beam and through the post,"
        f" {frame['bolt_end_mm']} mm from its end."
    )


def _parts(parts: list[Lift]) -> str:
    return sentence([f"{x.count} × {x.name} of {x.length_mm} mm (mark {x.mark})" for x in parts])


def _bolts(frame: dict[str, Any]) -> str:
    rows = [
        f"{row['count']} of at least {row['least_mm']} mm for {row['joint']}"
        for row in frame["bolts"]
    ]
    return (
        f"Bolts M{frame['bolt_mm']}: {sentence(rows)}; none less than {frame['bolt_end_mm']} mm"
        f" from a timber's end or {frame['bolt_apart_mm']} mm from the next in its row."
    )
