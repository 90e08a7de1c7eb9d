"""The answer first: the cheapest wall at the asked angle, in words a climber reads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from steepwright.report.views.guidance import cheapest, guidance_of, short_mm
from steepwright.report.views.rows import most_people, rig_kg
from steepwright.report.views.stair import Step, steps_that_matter
from steepwright.report.words import (
    Document,
    clear_metres,
    count,
    degrees,
    hung_from,
    in_inches,
    metres,
    percent,
)
from steepwright.units import money


@dataclass(frozen=True, slots=True)
class Fact:
    """One key figure with a word on it; `warns` when it is below the guidance or not settled."""

    label: str
    value: str
    note: str
    warns: bool


@dataclass(frozen=True, slots=True)
class Certainty:
    """How sure it is that nothing better was missed: a mark of a word or two, and why."""

    sure: bool
    mark: str
    text: str


@dataclass(frozen=True, slots=True)
class Answer:
    """The opening of the page.

    `id` is empty when no design satisfies what was asked.
    """

    id: str
    asked: str
    title: str
    sentence: str
    facts: tuple[Fact, ...]
    steps: tuple[Step, ...]
    certainty: Certainty


@dataclass(frozen=True, slots=True)
class Change:
    """Something outside the search that would change the answer, and how."""

    what: str
    text: str


def answer_of(document: Document) -> Answer:
    """Return the answer to what was asked."""
    chosen = chosen_design(document)
    if chosen is None:
        nothing = _nothing(document)
        return Answer(
            "", asked(document), "No wall was found", nothing, (), (), certainty(document)
        )
    currency, inches = document["currency"], in_inches(document)
    return Answer(
        id=chosen["id"],
        asked=asked(document),
        title=f"{degrees(chosen['angle_deg'])} for {money(chosen['cost_cents'], currency)}",
        sentence=describe(document, chosen),
        facts=_facts(chosen, currency, inches),
        steps=steps_that_matter(
            chosen, document["designs"], document.get("target_angle_deg") or 0.0, currency, inches
        ),
        certainty=certainty(document),
    )


def chosen_design(document: Document) -> dict[str, Any] | None:
    """Return the cheapest design at the asked angle.

    Of equals the one with the less short fall space comes first, then the steeper one. With a
    budget but no angle: the steepest that the budget allows, the cheaper of equals.
    """
    target, budget = document.get("target_angle_deg"), document.get("max_cost_cents")
    fits: list[dict[str, Any]] = [
        design
        for design in document["designs"]
        if (target is None or design["angle_deg"] >= target)
        and (budget is None or design["cost_cents"] <= budget)
    ]
    if not fits:
        return None
    if target is None and budget is not None:
        return min(fits, key=lambda d: (-d["angle_deg"], d["cost_cents"]))
    return cheapest(fits)


def asked(document: Document) -> str:
    """Return what was asked for, in words."""
    target, budget = document.get("target_angle_deg"), document.get("max_cost_cents")
    money_text = "" if budget is None else money(budget, document["currency"])
    if target is None and budget is None:
        least, most = document["room"]["wall"]["angle_deg"]
        return f"The cheapest wall between {least:g}° and {most:g}°"
    if target is None:
        return f"The steepest wall for at most {money_text}"
    return f"The cheapest wall of {target:g}° or more" + (
        f" for at most {money_text}" if money_text else ""
    )


def describe(document: Document, design: dict[str, Any]) -> str:
    """Return one sentence on what the wall is."""
    inches = in_inches(document)
    parts = design["columns"] * design["rows"]
    fold = _fold(document, design["parked"])
    kicker = design["kicker_mm"]
    foot = f" on a kicker of {kicker} mm" if kicker else " straight from the floor"
    length, width = (metres(design[key], inches) for key in ("board_mm", "width_mm"))
    return (
        f"A board {length} long and {width} wide, "
        f"made of {count(parts, 'piece')} of {design['sheet']} on "
        f"{count(design['stud_count'], 'stud')} of {design['stud']}. It stands{foot}, hangs from "
        f"{hung_from(document, design['beam'])}{fold}."
    )


def _fold(document: Document, parked: dict[str, Any] | None) -> str:
    if parked is None:
        return ""
    stop = parked.get("stops_at", "")
    where = {"": "", "level": " until it is level", "ceiling": " to the ceiling"}.get(
        stop, f" until it meets {hung_from(document, stop)}"
    )
    headroom = clear_metres(parked["headroom_mm"], in_inches(document))
    return f" and folds up{where}, with {headroom} of headroom below"


def certainty(document: Document) -> Certainty:
    """Return how sure it is that nothing cheaper was missed."""
    if document["method"] == "assessed":
        text = (
            "One wall of your own, checked as it is. Nothing cheaper or steeper was searched for."
        )
        return Certainty(False, "Not searched", text)
    if document["method"] != "exact":
        text = "These designs were found by sampling. A cheaper or steeper wall may exist."
        return Certainty(False, "Not certified", text)
    space = f"{document['counts']['designs_in_space']:,}".replace(",", " ")
    front = count(len(document["designs"]), "design")
    if not document["complete"]:
        text = (
            "The search was stopped before it was done. A cheaper or steeper wall may exist among "
            f"the {space} in this room's space."
        )
        if "certificate" in document:
            text += (
                f" What is proved so far is in {document['certificate']}; steepwright verify tells"
                " for which angles."
            )
        return Certainty(False, "Not complete", text)
    text = (
        f"All {space} walls that this room and price list allow were settled. None of them beats "
        f"the {front} of this page in angle, cost and fall space at once."
    )
    if "certificate" in document:
        text += (
            f" The proof for angle and cost is in {document['certificate']};"
            " steepwright verify checks it."
        )
    return Certainty(True, "Complete", text)


def change_lines(document: Document) -> tuple[Change, ...]:
    """Return what the document says would change the answer; most documents say nothing."""
    rows = list(document.get("changes", []))
    for design in document["designs"]:
        rows += [{"what": "It would pass with", "text": text} for text in design.get("mend", [])]
    return tuple(
        Change("", row) if isinstance(row, str) else Change(row["what"], row["text"])
        for row in rows
    )


def _nothing(document: Document) -> str:
    designs = document["designs"]
    if not designs:
        return "No wall fits this room, passes the checks and can be cut from what is on offer."
    best = max(designs, key=lambda d: d["angle_deg"])
    return (
        f"The steepest is {best['id']} with {degrees(best['angle_deg'])} for "
        f"{money(best['cost_cents'], document['currency'])}."
    )


def _in_cost(design: dict[str, Any], currency: str) -> str:
    pads = design.get("pads") or {}
    if pads.get("on_bill") or not pads.get("cost_cents"):
        return "everything on the bill"
    return f"everything on the bill; pads are not, {money(pads['cost_cents'], currency)} more"


def _facts(design: dict[str, Any], currency: str, inches: bool) -> tuple[Fact, ...]:
    short, asked_front_mm = short_mm(design), guidance_of(design).front_mm
    worst = max((check["use"] for check in design["checks"]), default=0.0)
    people = most_people(design)
    carriers = f"for {count(people, 'person', 'people')}" if people else "too heavy for three"
    rig = rig_kg(design)
    below = f"and {rig:g} kg of timber that it hangs from; " if rig else ""
    heaviest = max((piece["mass_kg"] for piece in design["pieces"]), default=0.0)
    fall_note = (
        f"{short} mm short of the guidance of {metres(asked_front_mm, inches)}"
        if short > 0
        else f"the guidance asks for {metres(asked_front_mm, inches)}"
    )
    strength = (
        f"of what the tightest part may bear, safety factors included ({design['governing_check']})"
        if design["settled"]
        else f"not settled: something is unknown; tightest is {design['governing_check']}"
    )
    return (
        Fact("Cost", money(design["cost_cents"], currency), _in_cost(design, currency), False),
        Fact("Fall space", clear_metres(design["fall_space_mm"], inches), fall_note, short > 0),
        Fact(
            "Floor run",
            metres(design["floor_run_mm"], inches),
            "from kicker to lip, in plan",
            False,
        ),
        Fact(
            "Mass",
            f"{design['mass_kg']:g} kg",
            f"{below}heaviest piece {heaviest:g} kg, {carriers}",
            not people,
        ),
        Fact("Strength used", percent(worst), strength, not design["settled"] or worst > 1),
        Fact("Holds", str(design["hold_positions"]), "free positions on the grid", False),
    )
