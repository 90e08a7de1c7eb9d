"""The order of building, and what has to be carried: masses and people beside each step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from steepwright.report.views.cuts import Marks, mark_of
from steepwright.report.words import count

Carriers = Callable[[float], int | None]


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
    """One step; `mass_kg` 0 when nothing heavy is moved, `people` 0 when three are too few."""

    title: str
    text: str
    mass_kg: float
    people: int


def lifts_of(design: dict[str, Any], marks: Marks) -> tuple[Lift, ...]:
    """Return the design's pieces with their marks, heaviest first."""
    rows = sorted(design["pieces"], key=lambda p: (p["kind"], -p["mass_kg"], p["name"]))
    return tuple(
        Lift(
            mark=mark_of(marks, row),
            name=row["name"],
            kind=row["kind"],
            length_mm=row["length_mm"],
            width_mm=row["width_mm"],
            thickness_mm=row["thickness_mm"],
            count=row["count"],
            mass_kg=row["mass_kg"],
            people=row["people"] or 0,
        )
        for row in rows
    )


def build_steps(
    design: dict[str, Any], lifts: tuple[Lift, ...], carriers: Carriers
) -> tuple[BuildStep, ...]:
    """Return the steps in the order in which nothing has to be undone (common practice).

    `carriers` tells how many people a mass [kg] takes, None when three can't carry it.
    """
    frame_kg = sum(x.mass_kg * x.count for x in lifts if x.kind == "timber")
    sheet = _heaviest(lifts, "sheet")
    steps = [
        BuildStep(
            "Have the beam looked at",
            f"Before you buy: let someone qualified judge the beam “{design['beam']}”, its "
            "supports and what it carries already.",
            0.0,
            1,
        ),
        _carry(lifts),
        BuildStep(
            "Cut the bars",
            "Follow the cut plan; write the mark on every piece as it comes off the saw.",
            0.0,
            1,
        ),
        BuildStep(
            "Drill the sheets",
            f"Drill the {design['hold_positions']} free hold positions from the climbing face and "
            "press the T-nuts in from the back. Leave out the blocked ones: a bar lies behind.",
            sheet.mass_kg if sheet else 0.0,
            sheet.people if sheet else 1,
        ),
        BuildStep(
            "Screw the frame together, flat on the floor",
            f"{count(design['stud_count'], 'stud').capitalize()} between the two rails, narrow "
            "side up. Check both diagonals: they must be equal.",
            round(frame_kg, 1),
            2,
        ),
    ]
    return tuple(steps + _hang(design, frame_kg, sheet, carriers) + _finish(design))


def _heaviest(lifts: tuple[Lift, ...], kind: str) -> Lift | None:
    return max((x for x in lifts if x.kind == kind), key=lambda x: x.mass_kg, default=None)


def _carry(lifts: tuple[Lift, ...]) -> BuildStep:
    heavy = max(lifts, key=lambda x: x.mass_kg)
    return BuildStep(
        "Buy, and carry in",
        f"Take the shopping list and the cut sheet to the yard. The heaviest piece is {heavy.mark} "
        f"({heavy.name}).",
        heavy.mass_kg,
        heavy.people,
    )


def _hang(
    design: dict[str, Any], frame_kg: float, sheet: Lift | None, carriers: Carriers
) -> list[BuildStep]:
    mounts = design["mount_count"]
    steps = [
        BuildStep(
            "Fix the mounts to the beam",
            f"{count(mounts, 'mount').capitalize()} ({design['mount']}) at the marked studs, all "
            f"pivots {design['pivot_height_mm']} mm above the floor. Pre-drill.",
            0.0,
            1,
        ),
        BuildStep(
            "Hang the frame",
            "Lift the lip end to the mounts and lock every mount before anyone lets go.",
            round(frame_kg, 1),
            _at_least_two(carriers(frame_kg)),
        ),
    ]
    if design["kicker_mm"]:
        steps.append(
            BuildStep(
                "Set the kicker",
                f"Stand the kicker ({design['kicker_mm']} mm) under the foot rail, its face "
                f"{design['x_foot_mm']} mm from the wall at x = 0.",
                0.0,
                1,
            )
        )
    steps.append(
        BuildStep(
            "Screw the sheets on",
            "From the foot up. Nobody stands under the frame while a sheet is being lifted.",
            sheet.mass_kg if sheet else 0.0,
            _at_least_two(sheet.people) if sheet else 2,
        )
    )
    return steps


def _at_least_two(people: int | None) -> int:
    return max(2, people) if people else 0


def _finish(design: dict[str, Any]) -> list[BuildStep]:
    steps = []
    if design["parked"]:
        steps.append(
            BuildStep(
                "Try the fold",
                "Fold the kicker flat, lift with the tackle, latch and strap. Nobody walks under a "
                f"moving board. Parked headroom is {design['parked']['headroom_mm']} mm.",
                design["mass_kg"],
                2,
            )
        )
    steps += [
        BuildStep("Lay the pads", "Pad the whole fall area; close every gap between pads.", 0.0, 1),
        BuildStep(
            "Load it slowly",
            "Hang still first, low and then high, with a second person watching every mount and "
            "screw. Stop at the first creak or movement. Look at all screws before each session.",
            0.0,
            2,
        ),
    ]
    return steps
