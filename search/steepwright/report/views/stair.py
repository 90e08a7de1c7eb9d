"""The stair of cost against angle: its steps, and what makes one step dearer than another."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from steepwright.report.views.guidance import cheapest, short_mm
from steepwright.report.words import clear_metres, count, degrees, metres, sentence
from steepwright.units import money

_LEAST_DEGREES = 0.5
"""A smaller difference in angle is not worth a sentence."""

_SAME_DEGREES = 0.1
"""Angles as near as this are called the same."""

_MOST_STEPS = 3

_WORTH_TELLING = 0.25
"""Share of a step's cost from which a group of the bill is named as its cause."""


@dataclass(frozen=True, slots=True)
class Step:
    """From the answer to another design of the stair, told in words.

    `kind` is ``settled`` (nothing about it is unknown), ``roomy`` (fall space as the guidance
    asks), ``cheaper`` (less steep), ``steeper`` (the most degrees for the money) or ``dear``
    (where the stair climbs hardest).
    """

    kind: str
    id: str
    degrees: float
    cents: int
    title: str
    because: str


def stair(designs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the designs that no other is both as steep as and as cheap as; flattest first."""
    steps: list[dict[str, Any]] = []
    for design in sorted(designs, key=lambda d: (-d["angle_deg"], d["cost_cents"], d["id"])):
        if not steps or design["cost_cents"] < steps[-1]["cost_cents"]:
            steps.append(design)
    return steps[::-1]


def steps_that_matter(
    answer: dict[str, Any],
    designs: list[dict[str, Any]],
    least_deg: float,
    currency: str,
    inches: bool = False,
) -> tuple[Step, ...]:
    """Return at most three steps from the answer; what safety asks for comes before money."""
    steep = [d for d in designs if d["angle_deg"] >= least_deg]
    safer = safer_steps(answer, steep, currency, inches)
    seen = {step.id for step in safer}
    others = [step for step in steps_from(answer, designs, currency, inches) if step.id not in seen]
    ranked = sorted(others, key=lambda step: ("steeper", "cheaper", "dear").index(step.kind))
    kept = ranked[: _MOST_STEPS - len(safer)]
    return safer + tuple(step for step in others if step in kept)


def safer_steps(
    answer: dict[str, Any], designs: list[dict[str, Any]], currency: str, inches: bool = False
) -> tuple[Step, ...]:
    """Return the step to the cheapest design that mends what is wrong with the answer.

    One to a settled design when the answer is open, one to a design with the fall space of the
    guidance when the answer is short of it; a single one when the same design does both.
    """
    steps: dict[str, Step] = {}
    settled = [d for d in designs if d["settled"]]
    roomy = [d for d in designs if not short_mm(d)]
    if settled and not answer["settled"]:
        best = cheapest(settled)
        steps[best["id"]] = _step("settled", answer, best, currency, inches)
    if roomy and short_mm(answer):
        best = cheapest([d for d in roomy if d["settled"]] or roomy)
        steps.setdefault(best["id"], _step("roomy", answer, best, currency, inches))
    return tuple(steps.values())


def steps_from(
    answer: dict[str, Any], designs: list[dict[str, Any]], currency: str, inches: bool = False
) -> tuple[Step, ...]:
    """Return up to three steps that matter from the answer, in order of angle."""
    steps = stair(designs)
    chosen: dict[str, tuple[str, dict[str, Any]]] = {}
    lower = [d for d in steps if answer["angle_deg"] - d["angle_deg"] >= _LEAST_DEGREES]
    upper = [d for d in steps if d["angle_deg"] - answer["angle_deg"] >= _LEAST_DEGREES]
    lower = [d for d in lower if d["cost_cents"] < answer["cost_cents"]]
    if lower:
        best = max(lower, key=lambda d: -_cents_per_degree(answer, d))
        chosen[best["id"]] = ("cheaper", best)
    if upper:
        best = min(upper, key=lambda d: _cents_per_degree(answer, d))
        chosen[best["id"]] = ("steeper", best)
        dear = _dearest(answer, upper)
        chosen.setdefault(dear["id"], ("dear", dear))
    rows = sorted(chosen.values(), key=lambda pair: pair[1]["angle_deg"])
    return tuple(_step(kind, answer, other, currency, inches) for kind, other in rows)


def _cents_per_degree(answer: dict[str, Any], other: dict[str, Any]) -> float:
    gain = abs(other["angle_deg"] - answer["angle_deg"])
    return float(abs(other["cost_cents"] - answer["cost_cents"]) / gain) * (
        1 if other["angle_deg"] > answer["angle_deg"] else -1
    )


def _dearest(answer: dict[str, Any], upper: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the design at the top of the highest single step above the answer."""
    chain = [answer, *upper]
    rises = [
        (b["cost_cents"] - a["cost_cents"], -i, b)
        for i, (a, b) in enumerate(itertools.pairwise(chain))
    ]
    return max(rises, key=lambda rise: rise[:2])[2]


def _step(
    kind: str, answer: dict[str, Any], other: dict[str, Any], currency: str, inches: bool = False
) -> Step:
    turn = other["angle_deg"] - answer["angle_deg"]
    cents = other["cost_cents"] - answer["cost_cents"]
    how = f"{degrees(abs(turn))} {'steeper' if turn > 0 else 'less steep'}"
    cost = "the same" if not cents else f"{money(abs(cents), currency)} "
    cost += "" if not cents else ("more" if cents > 0 else "less")
    return Step(
        kind=kind,
        id=other["id"],
        degrees=round(turn, 3),
        cents=cents,
        title=f"{'As steep' if abs(turn) < _SAME_DEGREES else how} costs {cost}",
        because=reason(answer, other, inches),
    )


def reason(one: dict[str, Any], other: dict[str, Any], inches: bool = False) -> str:
    """Return in words what changes between two designs, the causes of the cost first."""
    change = other["cost_cents"] - one["cost_cents"]
    groups: dict[str, int] = defaultdict(int)
    for sign, design in ((-1, one), (1, other)):
        for line in design["bill"]:
            groups[line["group"]] += sign * line["amount_cents"]
    tell: dict[str, Callable[[dict[str, Any], dict[str, Any]], str]] = {
        "sheets": _sheets,
        "timber": partial(_timber, inches),
        "hardware": _hardware,
        "pads": _pads,
        "charges": _charges,
    }
    named = [
        text
        for group, amount in sorted(groups.items(), key=lambda item: (-abs(item[1]), item[0]))
        if abs(amount) >= max(1.0, _WORTH_TELLING * abs(change)) and amount * change >= 0
        for text in [tell[group](one, other)]
        if text
    ]
    cause = f"because of {sentence(named)}" if named else "from many small differences"
    return f"{cause}; {_fall(one, other, inches)}"


def _fall(one: dict[str, Any], other: dict[str, Any], inches: bool) -> str:
    more = other["fall_space_mm"] - one["fall_space_mm"]
    now = clear_metres(other["fall_space_mm"], inches)
    hung = "" if other["beam"] == one["beam"] else f"hung from “{other['beam']}”, "
    if abs(more) < 10:
        return f"{hung}the fall space stays at {now}"
    verb = "grows" if more > 0 else "shrinks"
    return f"{hung}the fall space {verb} by {abs(more)} mm to {now}"


def _more(number: int, noun: str, plural: str = "") -> str:
    how = "more" if number > 0 else "fewer"
    return count(abs(number), f"{how} {noun}", plural and f"{how} {plural}")


def _sheets(one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["sheet"] != other["sheet"]:
        return f"sheets of {other['sheet']} instead of {one['sheet']}"
    more = len(other["cut_plan"]["sheets"]) - len(one["cut_plan"]["sheets"])
    if more:
        return _more(more, "sheet")
    area = _stock_area(other) - _stock_area(one)
    return f"{'larger' if area > 0 else 'smaller'} sheets" if area else "other sheets"


def _stock_area(design: dict[str, Any]) -> int:
    return sum(s["length_mm"] * s["width_mm"] for s in design["cut_plan"]["sheets"])


def _timber(inches: bool, one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["stud"] != other["stud"]:
        return f"studs of {other['stud']} instead of {one['stud']}"
    if one["stud_count"] != other["stud_count"]:
        return _more(other["stud_count"] - one["stud_count"], "stud")
    lengths = [sum(t["stock_mm"] for t in d["cut_plan"]["timber"]) for d in (one, other)]
    change = lengths[1] - lengths[0]
    if not change:
        return "other bars"
    return f"{metres(abs(change), inches)} {'more' if change > 0 else 'less'} timber to buy"


def _hardware(one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["mount"] != other["mount"]:
        return f"mounts of the kind “{other['mount']}” instead of “{one['mount']}”"
    if one["mount_count"] != other["mount_count"]:
        return _more(other["mount_count"] - one["mount_count"], "mount")
    tied = [design.get("tie_back", {}).get("what") for design in (one, other)]
    if tied[0] != tied[1]:
        return f"every stud tied back by “{tied[1]}”" if tied[1] else "no ties"
    return "packs of small parts"


def _pads(one: dict[str, Any], other: dict[str, Any]) -> str:
    counts = [
        sum(line["quantity"] for line in d["bill"] if line["group"] == "pads") for d in (one, other)
    ]
    more = counts[1] - counts[0]
    return _more(more, "pad to buy", "pads to buy") if more else "other pads"


def _charges(one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["delivered"] != other["delivered"]:
        return "the delivery" if other["delivered"] else "no delivery"
    trips = [
        {line["yard"] for line in d["bill"] if line["sku"].startswith("trip ")}
        for d in (one, other)
    ]
    if trips[0] != trips[1]:
        return "trips to other yards"
    cuts = [
        sum(line["quantity"] for line in d["bill"] if line["sku"] == "cut") for d in (one, other)
    ]
    more = math.floor(cuts[1] - cuts[0])
    return _more(more, "saw cut") if more else ""
