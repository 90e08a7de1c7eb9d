"""What is done before the wall's frame is screwed together: looked at, bought, carried, sawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from steepwright.report.words import sentence


@dataclass(frozen=True, slots=True)
class Lift:
    """One kind of piece: its mark, sizes, how many, and how many people carry one (0: too many)."""

    mark: str
    name: str
    kind: str
    length_mm: int
    width_mm: int
    thickness_mm: int
    count: int
    mass_kg: float
    people: int


@dataclass(frozen=True, slots=True)
class BuildStep:
    """One step: what to do, and in `detail` this wall's own figure.

    `mass_kg` is 0 when nothing heavy is moved, `people` 0 when three are too few.
    """

    title: str
    text: str
    detail: str
    mass_kg: float
    people: int


def preparing(
    design: dict[str, Any], lifts: tuple[Lift, ...], sheet: Lift | None, place: str
) -> list[BuildStep]:
    """Return the steps up to the drilled sheets.

    What doesn't get in whole is sawn before it is carried in.
    """
    sheet_kg, sheet_people = (sheet.mass_kg, sheet.people) if sheet else (0.0, 1)
    return [
        BuildStep(
            "Have what it hangs from looked at",
            f"Before you buy: let someone qualified judge {_judged(design)}.",
            f"It is {place}.",
            0.0,
            1,
        ),
        *_fetching(design, max(lifts, key=lambda x: x.mass_kg)),
        BuildStep(
            "Drill the sheets",
            "Drill the free hold positions from the climbing face and press the T-nuts in from the "
            "back. Leave out the blocked ones: a bar lies behind.",
            f"{design['hold_positions']} positions.",
            sheet_kg,
            sheet_people,
        ),
    ]


def _judged(design: dict[str, Any]) -> str:
    judged = {
        "slab": "it, its anchors and what it carries already",
        "frame": "its plan, the floor that it stands on and what holds its feet",
    }
    usual = "it, its supports and what it carries already"
    return judged.get(design.get("mount_kind", ""), usual)


_TO_THE_YARD = "Take the shopping list and the cut sheet to the yard."
_BY_THE_PLAN = "Follow the cut plan; write the mark on every piece as it comes off the saw."


def _fetching(design: dict[str, Any], heavy: Lift) -> list[BuildStep]:
    told = f"The heaviest piece is {heavy.mark}."
    stuck = _sawn_outside(design)
    if not stuck:
        return [
            BuildStep("Buy, and carry in", _TO_THE_YARD, told, heavy.mass_kg, heavy.people),
            BuildStep("Cut the bars", _BY_THE_PLAN, "", 0.0, 1),
        ]
    outside = f"Not all get in whole: saw outside, at the latest, {sentence(stuck)}."
    return [
        BuildStep("Buy", _TO_THE_YARD, "", 0.0, 1),
        BuildStep("Cut the bars, before you carry them in", _BY_THE_PLAN, outside, 0.0, 1),
        BuildStep(
            "Carry in",
            "The sawn pieces, and what gets in whole.",
            told,
            heavy.mass_kg,
            heavy.people,
        ),
    ]


def _sawn_outside(design: dict[str, Any]) -> list[str]:
    """Return in words the bars and blocks of sheet that don't get in whole."""
    shop = design.get("shop", {})
    names = {line["sku"]: line["what"] for line in design["bill"]}
    bars = [
        f"{row['count']} × {names.get(row['sku'], row['sku'])}"
        for row in shop.get("bars_too_long", ())
    ]
    return bars if shop.get("blocks_get_in", True) else [*bars, "sheets still to be sawn at home"]
