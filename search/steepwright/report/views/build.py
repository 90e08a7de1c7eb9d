"""The order of building, and what has to be carried: masses and people beside each step."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import takewhile
from typing import Any

from steepwright.catalog.types import Factors
from steepwright.report.views.before import BuildStep, Lift, preparing
from steepwright.report.views.cuts import Marks, mark_of
from steepwright.report.views.stand_up import standing
from steepwright.report.words import count

Carriers = Callable[[float], int | None]


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
    design: dict[str, Any],
    lifts: tuple[Lift, ...],
    place: str,
    carriers: Carriers,
    factors: Factors,
) -> tuple[BuildStep, ...]:
    """Return the steps in the order in which nothing has to be undone (common practice).

    `place` says what it hangs from. `carriers` tells how many people a mass [kg] takes, None when
    three can't carry it; `factors` are those of the catalogue, with the screws and holes that the
    checks counted on.
    """
    frame_kg, screws = _frame_kg(design, lifts), round(factors["frame_screws_per_joint"])
    sheets = [x for x in lifts if x.kind == "sheet"]
    spacing_mm = design.get("screw_mm", round(factors["sheet_screw_spacing_mm"]))
    sheet = max(sheets, key=lambda x: x.mass_kg, default=None)
    return (
        *preparing(design, lifts, sheet, place),
        *standing(design, lifts),
        _frame(design, frame_kg, screws),
        _mounts(design),
        *(
            _in_order(design, spacing_mm, screws)
            if "assembly" in design
            else (
                *_hang(design, frame_kg, carriers, screws),
                _cover(sheet, spacing_mm),
            )
        ),
        *_on_the_floor(design, screws),
        *finishing(design),
    )


_FRAME_BARS = ("rail", "stud", "seam blocking")


def _frame_kg(design: dict[str, Any], lifts: tuple[Lift, ...]) -> float:
    """Return the mass of the bars that hang [kg]: what the order has hung before any sheet.

    Summing the list's rounded masses would tell another figure; it is left to walls without one.
    """
    steps = design.get("assembly", {}).get("steps", ())
    bare = list(takewhile(lambda row: not _has_sheet(row), steps))
    if bare:
        return float(bare[-1]["hung_kg"])
    return round(sum(x.mass_kg * x.count for x in lifts if x.name in _FRAME_BARS), 1)


def _frame(design: dict[str, Any], frame_kg: float, screws: int) -> BuildStep:
    return BuildStep(
        "Screw the frame together, flat on the floor",
        "Studs between the two rails, narrow side up. Both diagonals must be equal.",
        f"{count(design['stud_count'], 'stud').capitalize()}; {count(screws, 'long screw')} at "
        "every joint, pre-drilled." + _lip_holes(design),
        frame_kg,
        2,
    )


def _lip_holes(design: dict[str, Any]) -> str:
    """Tell where the lip rail is drilled for the mounts' bolts."""
    mounts = [" and ".join(f"{at:g}" for at in bolts) for bolts in design.get("lip_bolts_mm", ())]
    if not mounts:
        return ""
    return (
        " Drill the lip rail for the mounts' bolts beforehand, through its narrow side in the "
        f"middle of its depth, at {', '.join(f'{each} mm' for each in mounts)} from its left end: "
        "those of the outer mounts stand on the inner side of the outer studs."
    )


def _cover(sheet: Lift | None, spacing_mm: int) -> BuildStep:
    return BuildStep(
        "Screw the sheets on",
        "From the foot up. Nobody stands under the frame while a sheet is being lifted.",
        f"A screw every {spacing_mm} mm along every bar and both sides of a seam.",
        sheet.mass_kg if sheet else 0.0,
        _at_least_two(sheet.people) if sheet else 2,
    )


def _mounts(design: dict[str, Any]) -> BuildStep:
    how = "Pre-drill."
    if design.get("anchors"):
        anchors = count(design["anchors"], "anchor").capitalize()
        how = (
            f"{anchors} in the slab, set by someone licensed and as their approval says, no less "
            "deep and no closer to each other or to an edge; mark pipes, cables and stressed wires "
            "first. The sets' own screws are for timber: leave them out."
        )
    return BuildStep(
        "Fix the mounts",
        f"{how} All pivots at one height, each over its bolts in the lip rail.",
        f"{design['mount_count']} × {design['mount']}, pivots {design['pivot_height_mm']} mm "
        "above the floor.",
        0.0,
        1,
    )


def _hang(
    design: dict[str, Any], frame_kg: float, carriers: Carriers, screws: int
) -> list[BuildStep]:
    hang = BuildStep(
        "Hang the frame",
        "Lift the lip end to the mounts and lock every mount before anyone lets go.",
        "",
        frame_kg,
        _at_least_two(carriers(frame_kg)),
    )
    return [hang, *_kicker(design, screws)]


def _kicker(design: dict[str, Any], screws: int) -> list[BuildStep]:
    if not design["kicker_mm"]:
        return []
    each = count(screws, "long screw")
    stand = (
        f"Stand the kicker under the foot rail and fix it to the floor: {each} down through its "
        f"lower rail beside every upright. {_NO_TIMBER}"
    )
    place = f"Its face is {design['x_foot_mm']} mm from the wall at x = 0."
    if design["parked"]:
        return [BuildStep("Set the kicker", stand, place, 0.0, 1)]
    first = "Screw the kicker's frame together and its sheet on first. "
    return [
        BuildStep(
            "Set the kicker",
            first + f"{stand} Once the foot stands on it, {each} down through the foot rail into "
            "the kicker's upper rail, beside every stud (common practice, no source).",
            place + " This wall does not fold: no hinges hold its foot. No check covers the joint "
            "of foot and kicker: have it judged.",
            0.0,
            1,
        )
    ]


_NO_TIMBER = "Into a floor that is not timber go anchors as strong, which are not on the bill."


def _on_the_floor(design: dict[str, Any], screws: int) -> list[BuildStep]:
    """Return how a foot without a kicker is held."""
    if design["kicker_mm"]:
        return []
    text = (
        f"Down through the foot rail, {count(screws, 'long screw')} beside every stud. {_NO_TIMBER}"
    )
    return [BuildStep("Fix the foot to the floor", text, "", 0.0, 1)]


_LIFTS = {
    "lip": (
        "Raise the frame to the mounts",
        (
            "With only these parts in it; take the others out again. Set its foot down against a "
            "stop, push the lip up and lock every mount before anyone lets go."
        ),
    ),
    "lower edge": (
        "Lift the foot onto the kicker",
        "The lip hangs in its mounts. Prop the foot before you let go.",
    ),
    "upper end": (
        "Add to the hanging frame",
        (
            "Set the lower end down, on a batten where it has nothing to stand on, and push the "
            "upper end up. Nobody stands under it while it is being lifted."
        ),
    ),
    "whole": ("Add to the hanging frame", "Hold it in place and screw it."),
}


def _in_order(design: dict[str, Any], spacing_mm: int, screws: int) -> list[BuildStep]:
    """Return the lifts in the order that keeps the heaviest smallest, the kicker in its place."""
    steps = []
    for row in design["assembly"]["steps"]:
        title, text = _LIFTS[row["where"]]
        if row["where"] == "lower edge":
            steps += _kicker(design, screws)
        people = _at_least_two(row["people"])
        steps.append(BuildStep(title, text, _lift(row, spacing_mm), row["mass_kg"], people))
    return steps


def _lift(row: dict[str, Any], spacing_mm: int) -> str:
    parts = ", ".join(f"{part['count']} × {_sized(part['name'])}" for part in row["parts"])
    place = "" if row["where"] == "whole" else f" at the {row['where']}"
    words = (
        f"{parts + ': ' if parts else ''}{row['force_n']} N{place}; {row['hung_kg']} kg hang then."
    )
    if _has_sheet(row):
        words += f" A screw every {spacing_mm} mm along every bar and both sides of a seam."
    if row["people"] is None:
        words += " That is more than three people should push up by hand: use a tackle or props."
    return words


def _has_sheet(row: dict[str, Any]) -> bool:
    return any(part["name"].startswith("board") for part in row["parts"])


def _sized(name: str) -> str:
    """Return a part's name; one that ends in two lengths gets their unit."""
    return f"{name} mm" if re.search(r"\d x \d+$", name) else name


def _at_least_two(people: int | None) -> int:
    return max(2, people) if people else 0


def _ties(tie: dict[str, Any]) -> BuildStep:
    return BuildStep(
        "Tie the studs back",
        "One tie at every stud: a bolt across the middle of its depth, an eye bolt through the "
        "middle of the beam's. Tighten each until it is just taut, and look at it before each "
        "session: a slack tie holds nothing.",
        f"{tie['count']} × {tie['what']}; {tie['at_mm']} mm up the board, {tie['length_mm']} mm to "
        f"the beam “{tie['beam']}”.",
        0.0,
        2,
    )


def finishing(design: dict[str, Any]) -> list[BuildStep]:
    """Return what is left to do once the board hangs."""
    steps = [
        BuildStep(
            "Lay the pads", "Pad the whole fall area; close every gap between pads.", "", 0.0, 1
        ),
        BuildStep(
            "Load it slowly",
            "Hang still first, low and then high, with a second person watching every mount and "
            "screw. Stop at the first creak or movement. Look at all screws before each session.",
            "",
            0.0,
            2,
        ),
    ]
    if "tie_back" in design:
        steps.insert(0, _ties(design["tie_back"]))
    if design["parked"]:
        fold = BuildStep(
            "Try the fold",
            ("Undo all ties. " if "tie_back" in design else "")
            + "Take out the screws into the floor, which go back in before anyone climbs. "
            + ("Fold the kicker flat, lift" if design["kicker_mm"] else "Lift")
            + " with the tackle, latch and strap. Nobody walks under a moving board.",
            f"Parked headroom is {design['parked']['headroom_mm']} mm.",
            design["mass_kg"],
            2,
        )
        steps.insert(0, fold)
    return steps
