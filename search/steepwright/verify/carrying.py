"""What the stated carriers carry together."""

from __future__ import annotations

from typing import Any

Document = dict[str, Any]


def carried_kg(access: Document, factors: Document) -> float:
    """Return the greatest mass of a piece [kg] for the room's carriers.

    One person's guideline figure, or the builder's own if less, times their number, times the
    share that counts in a team of two and of three or more (HSE L23, para. 120).
    """
    one = factors["carry_one_person_kg"]
    if access["max_carry_kg"] is not None:
        one = min(one, access["max_carry_kg"])
    shares = (1.0, factors["carry_team2_factor"], factors["carry_team3_factor"])
    teams = range(1, min(max(access["carriers"], 1), len(shares)) + 1)
    return float(max(one * people * shares[people - 1] for people in teams))
