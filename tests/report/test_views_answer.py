"""The answer, its steps and its words."""

from __future__ import annotations

import math
from typing import Any

import pytest

from steepwright.report.views.answer import (
    Change,
    answer_of,
    certainty,
    change_lines,
    chosen_design,
    describe,
)
from steepwright.report.views.checks import CheckRule, CheckTable, check_table
from steepwright.report.views.rows import rig_kg
from steepwright.report.views.stair import (
    reason,
    safer_steps,
    stair,
    steps_from,
    steps_that_matter,
)
from steepwright.report.words import (
    clear_metres,
    count,
    degrees,
    hung_from,
    metres,
    percent,
    sentence,
)

Doc = dict[str, Any]


def wall(name: str, angle: float, cost: int, fall: int = 2000, **more: Any) -> Doc:
    timber = {"sku": "t", "what": "bar", "quantity": 1, "unit_cents": cost - 100, "group": "timber"}
    sheet = {"sku": "s", "what": "sheet", "quantity": 1, "unit_cents": 100, "group": "sheets"}
    bill = [line | {"amount_cents": line["unit_cents"], "yard": ""} for line in (sheet, timber)]
    return {
        "id": name,
        "angle_deg": angle,
        "cost_cents": cost,
        "fall_space_mm": fall,
        "beam": "ash",
        "lip_height_mm": 2300,
        "settled": True,
        "bill": bill,
        "sheet": "OSB/3 18 mm",
        "stud": "45 x 95 C24",
        "stud_count": 5,
        "mount": "m",
        "mount_count": 2,
        "delivered": False,
        "cut_plan": {"sheets": [], "timber": []},
    } | more


DESIGNS = [
    wall("A", 30.0, 1000),
    wall("B", 40.0, 1500),
    wall("C", 41.0, 1500, 1900),
    wall("D", 45.0, 1600, 1800),
    wall("E", 46.0, 5000, 1800),
]


@pytest.mark.parametrize(
    ("target", "budget", "expected"),
    [
        (None, None, "A"),
        (40.0, None, "B"),  # B and C cost the same: C is short of the guidance on fall space
        (40.5, None, "C"),
        (41.0, None, "C"),
        (41.1, None, "D"),
        (None, 1550, "C"),  # the steepest that the budget allows
        (42.0, 1599, None),
        (60.0, None, None),
    ],
)
def test_the_answer_is_the_cheapest_at_the_asked_angle(
    target: float | None, budget: int | None, expected: str | None
) -> None:
    asked = {"target_angle_deg": target, "max_cost_cents": budget, "designs": DESIGNS}
    chosen = chosen_design(asked)
    assert (chosen and chosen["id"]) == expected


def test_the_stair_keeps_what_is_unbeaten_in_angle_and_cost_alone() -> None:
    assert [d["id"] for d in stair(DESIGNS)] == ["A", "C", "D", "E"]


def test_steps_up_and_down_from_the_answer() -> None:
    steps = steps_from(DESIGNS[2], DESIGNS, "EUR")
    assert [(s.kind, s.id, s.cents) for s in steps] == [
        ("cheaper", "A", -500),
        ("steeper", "D", 100),
        ("dear", "E", 3500),
    ]
    assert steps[0].title == "11.0° less steep costs 5.00 EUR less"
    assert steps[1].title == "4.0° steeper costs 1.00 EUR more"


def test_an_open_answer_is_shown_with_the_cheapest_settled_wall() -> None:
    still_open = wall("X", 40.0, 900, settled=False)
    other = wall("Y", 40.05, 1000)
    (step,) = safer_steps(still_open, [still_open, other], "EUR")
    assert (step.kind, step.id, step.title) == ("settled", "Y", "As steep costs 1.00 EUR more")
    assert safer_steps(other, [other], "EUR") == ()
    assert safer_steps(still_open, [still_open], "EUR") == ()


def test_an_answer_short_of_fall_space_is_shown_with_one_that_is_not() -> None:
    """Guidance for walls up to 3 m: 2.0 m in front (catalogs/materials/factors.csv)."""
    short = wall("X", 40.0, 900, 1700)
    near, far = wall("Y", 41.0, 950, 1999), wall("Z", 40.0, 980, 2000)
    (step,) = safer_steps(short, [short, near, far], "EUR")
    assert (step.kind, step.id) == ("roomy", "Z")
    assert step.because.endswith("the fall space grows by 300 mm to 2.00 m")
    both = wall("W", 40.0, 970, 2100)
    open_and_short = short | {"settled": False}
    (step,) = safer_steps(open_and_short, [open_and_short, both], "EUR")
    assert (step.kind, step.id) == ("settled", "W")


def test_at_most_three_steps_and_what_safety_asks_for_first() -> None:
    low, top = wall("L", 30.0, 500), wall("T", 47.0, 9000, 1900)
    answer = wall("X", 40.0, 900, 1700, settled=False)
    walls = [low, answer, wall("Y", 40.0, 1000, 1700), wall("Z", 42.0, 1100), top]
    steps = steps_that_matter(answer, walls, 40.0, "EUR")
    assert [(step.kind, step.id) for step in steps] == [
        ("settled", "Y"),
        ("roomy", "Z"),
        ("cheaper", "L"),
    ]


def test_the_cause_of_a_step_is_where_the_money_goes() -> None:
    deeper = wall("F", 45.0, 2500, 1800, stud="45 x 145 C24")
    assert reason(DESIGNS[0], deeper) == (
        "because of studs of 45 x 145 C24 instead of 45 x 95 C24; "
        "the fall space shrinks by 200 mm to 1.80 m"
    )
    line = {"sku": "p", "what": "pad", "unit_cents": 900, "group": "pads", "yard": ""}
    pads = [line | {"quantity": n, "amount_cents": 900 * n} for n in (1, 3)]
    one, three = (
        DESIGNS[0] | {"bill": [*DESIGNS[0]["bill"], pad], "cost_cents": 5000 + pad["amount_cents"]}
        for pad in pads
    )
    assert reason(one, three).startswith("because of two more pads to buy;")
    assert reason(three, one).startswith("because of two fewer pads to buy;")
    elsewhere = deeper | {"beam": "oak"}
    assert reason(DESIGNS[0], elsewhere).endswith("; hung from “oak”, the fall space shrinks by"
                                                  " 200 mm to 1.80 m")  # fmt: skip


@pytest.mark.parametrize(
    ("change", "mark", "expected"),
    [
        ({}, "Complete", "None of them beats"),
        ({"complete": False}, "Not complete", "stopped before it was done"),
        ({"method": "sampled"}, "Not certified", "A cheaper or steeper wall may exist"),
        ({"method": "assessed", "counts": {}}, "Not searched", "Nothing cheaper or steeper"),
    ],
)
def test_how_sure_it_is_is_said(document: Doc, change: Doc, mark: str, expected: str) -> None:
    said = certainty(document | change)
    assert (said.mark, said.sure) == (mark, mark == "Complete")
    assert expected in said.text


def test_nothing_found_says_what_comes_closest(document: Doc) -> None:
    answer = answer_of(document | {"target_angle_deg": 80.0})
    assert answer.id == ""
    assert "The steepest is W17 with 49.0°" in answer.sentence
    assert "No wall fits" in answer_of(document | {"designs": []}).sentence


def test_a_short_fall_space_and_an_open_question_are_flagged(document: Doc) -> None:
    chosen = chosen_design(document)
    assert chosen is not None
    alone = document | {"designs": [chosen | {"settled": False, "fall_space_mm": 1500}]}
    facts = {fact.label: fact for fact in answer_of(alone).facts}
    assert facts["Fall space"].warns
    assert facts["Fall space"].note == "500 mm short of the guidance of 2.00 m"
    assert facts["Strength used"].warns
    assert "not settled" in facts["Strength used"].note


def test_changes_may_be_sentences_or_pairs() -> None:
    rows: Doc = {"changes": ["Plain.", {"what": "Beam", "text": "A stronger one."}]}
    rows["designs"] = [{"mend": ["5 studs instead of 4 (+9.90)"]}, {}]
    mend = Change("It would pass with", "5 studs instead of 4 (+9.90)")
    assert change_lines(rows) == (Change("", "Plain."), Change("Beam", "A stronger one."), mend)
    assert change_lines({"designs": []}) == ()


def test_checks_come_in_readable_units_and_digits(plain_design: Doc) -> None:
    assert check_table(plain_design) == CheckTable(
        rules=(CheckRule("b", "c1", "kN", "", ()), CheckRule("a", "c2", "MPa", "x", ())),
        use_permille=(617, 950),
        demand=(0.1235, 9.5),
        capacity=(0.2, 10.0),
        state="hc",
    )


@pytest.mark.parametrize(
    ("demand", "use", "settled", "state"),
    [
        (5.0, 1.0001, False, "f"),  # fails
        (5.0, 1.0, False, "u"),  # unsettled
        (5.0, 1.0, True, "c"),  # close to its limit
        (5.0, 0.5, True, "h"),  # holds
        (0.0, 0.0, True, "n"),  # not loaded
    ],
)
def test_the_state_of_a_check(
    plain_design: Doc, demand: float, use: float, settled: bool, state: str
) -> None:
    row = plain_design["checks"][0] | {"demand": demand, "use": use, "settled": settled}
    table = check_table(plain_design | {"checks": [row]})
    assert table.state == state
    assert table.use_permille[0] >= use * 1000  # never rounded to the flattering side


@pytest.mark.parametrize(
    ("pads", "expected"),
    [
        ({"cost_cents": 0, "on_bill": False}, "everything on the bill"),
        ({"cost_cents": 159_500, "on_bill": True}, "everything on the bill"),
        (
            {"cost_cents": 159_500, "on_bill": False},
            "everything on the bill; pads are not, 1595.00 EUR more",
        ),
    ],
)
def test_the_cost_says_whether_pads_are_in_it(document: Doc, pads: Doc, expected: str) -> None:
    chosen = chosen_design(document)
    assert chosen is not None
    padded = chosen | {"pads": (chosen.get("pads") or {}) | pads}
    facts = answer_of(document | {"designs": [padded]}).facts
    assert next(fact for fact in facts if fact.label == "Cost").note == expected


def test_a_piece_that_three_cannot_carry_is_flagged(document: Doc) -> None:
    chosen = chosen_design(document)
    assert chosen is not None
    pieces = [chosen["pieces"][0] | {"people": None}, *chosen["pieces"][1:]]
    alone = document | {"designs": [chosen | {"pieces": pieces}]}
    facts = {fact.label: fact for fact in answer_of(alone).facts}
    assert facts["Mass"].warns
    assert "too heavy for three" in facts["Mass"].note


@pytest.mark.parametrize(
    ("parked", "expected"),
    [
        (None, "“middle”."),
        ({"stops_at": "level"}, "folds up until it is level, with 0.82 m of headroom below."),
        ({"stops_at": "ceiling"}, "folds up to the ceiling, with"),
        ({"stops_at": "oak"}, "folds up until it meets the beam “oak”, with"),
    ],
)
def test_where_the_fold_ends_is_said(document: Doc, parked: Doc | None, expected: str) -> None:
    chosen = chosen_design(document)
    assert chosen is not None
    parked = None if parked is None else parked | {"headroom_mm": 829}
    assert expected in describe(document, chosen | {"parked": parked})


def test_what_it_hangs_from_is_named_once(document: Doc) -> None:
    kinds = {"oak": "beam", "Middle beam": "beam", "joist 4": "joist", "garage 2": "joist"}
    beams = [{"name": name, "kind": kind} for name, kind in kinds.items()]
    beams += [{"name": "slab 1", "kind": "slab"}, {"name": "old"}]
    room = {"room": {"beams": beams}}
    assert [hung_from(room, beam["name"]) for beam in beams] == [
        "the beam “oak”",
        "“Middle beam”",
        "“joist 4”",
        "the joist “garage 2”",
        "“slab 1”",
        "the beam “old”",
    ]
    assert hung_from(room, "gone") == "the beam “gone”"


def test_numbers_are_never_rounded_to_the_flattering_side() -> None:
    assert degrees(41.99) == "41.9°"
    assert clear_metres(1999) == "1.99 m"
    assert percent(0.7801) == "79 %"
    assert percent(1.0) == "100 %"
    assert percent(0.07) == "7 %"  # 0.07 * 100 is a little more than 7
    assert metres(1499) == "1.50 m"
    assert (count(1, "sheet"), count(2, "box", "boxes"), count(7, "bar")) == (
        "one sheet",
        "two boxes",
        "7 bars",
    )
    assert (sentence([]), sentence(["a"]), sentence(["a", "b", "c"])) == ("", "a", "a, b and c")
    assert math.isclose(float(degrees(0.1)[:-1]), 0.1)


def test_the_mass_tells_what_the_wall_hangs_from_beside_the_wall(
    plain_document: Doc, plain_design: Doc
) -> None:
    """Two posts of 16.4 kg and a head beam of 19.4 kg are no part of the wall's 80 kg."""
    piece = plain_design["pieces"][0] | {"kind": "timber"}
    post = piece | {"name": "frame post", "count": 2, "mass_kg": 16.4}
    head = piece | {"name": "frame head beam", "count": 1, "mass_kg": 19.4}
    design = plain_design | {"pieces": [*plain_design["pieces"], post, head]}
    answer = answer_of(plain_document | {"designs": [design], "method": "assessed"})
    (mass,) = [fact for fact in answer.facts if fact.label == "Mass"]
    assert mass.value == "80 kg"
    assert mass.note.startswith("and 52.2 kg of timber that it hangs from; heaviest piece")
    assert rig_kg(plain_design) == 0
