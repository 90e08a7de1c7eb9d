"""One line per design: what the table sorts, the charts place and the filters read."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

_RIGS = ("frame ", "ledger", "spreader")
"""How names of timber begin that a wall is to hang from and that is no part of it."""


@dataclass(frozen=True, slots=True)
class Row:
    """A design in numbers; `people` is how many the heaviest piece needs, 0 for too many.

    `mass_kg` is the wall's own; `rig_kg` is that of the timber bought for it to hang from.
    """

    id: str
    angle_deg: float
    cost_cents: int
    fall_space_mm: int
    floor_run_mm: int
    climbable_mm: int
    width_mm: int
    board_mm: int
    kicker_mm: int
    lip_height_mm: int
    mass_kg: float
    heaviest_kg: float
    people: int
    hold_positions: int
    beam: str
    facing: str
    sheet: str
    stud: str
    stud_count: int
    columns: int
    rows: int
    mount: str
    mount_count: int
    delivered: bool
    governing_check: str
    use: float
    settled: bool
    asked_front_mm: int
    holds_lost: int = 0
    moves: int = 0
    start_height_mm: int = 0
    width_spans: float = 0.0
    heaviest_lift_n: int = 0
    bottleneck: str = ""
    tie: str = ""
    pads_cents: int = 0
    pads_on_bill: bool = False
    rig_kg: float = 0.0


def most_people(design: dict[str, Any]) -> int:
    """Return how many people the heaviest piece needs; 0 when three can't carry it."""
    numbers = [piece["people"] or 0 for piece in design["pieces"]]
    return 0 if 0 in numbers else max(numbers, default=1)


def rig_kg(design: dict[str, Any]) -> float:
    """Return the mass of the frame, ledgers or spreader on the list of pieces [kg]; else 0."""
    masses: list[float] = [
        piece["count"] * piece["mass_kg"]
        for piece in design["pieces"]
        if piece["name"].startswith(_RIGS)
    ]
    return round(sum(masses), 1)


def tie_words(design: dict[str, Any]) -> str:
    """Return how the studs are tied back, in words; nothing for a wall without ties."""
    tie = design.get("tie_back")
    return "" if tie is None else f"{tie['count']} × {tie['what']}, to the beam “{tie['beam']}”"


def row_of(design: dict[str, Any], asked_front_mm: int) -> Row:
    """Return the line of one design."""
    pieces = design["pieces"]
    known = {**design.get("climbing", {}), **design.get("way_in", {}), **design}
    return Row(
        tie=tie_words(design),
        **{field.name: known[field.name] for field in fields(Row) if field.name in known},
        pads_cents=(design.get("pads") or {}).get("cost_cents", 0),
        pads_on_bill=bool((design.get("pads") or {}).get("on_bill")),
        heaviest_lift_n=design.get("assembly", {}).get("heaviest_force_n", 0),
        heaviest_kg=max((piece["mass_kg"] for piece in pieces), default=0.0),
        people=most_people(design),
        rig_kg=rig_kg(design),
        use=max((check["use"] for check in design["checks"]), default=0.0),
        asked_front_mm=asked_front_mm,
    )
