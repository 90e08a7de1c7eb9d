"""The lift of a wall that folds up, as the page tells it."""

from __future__ import annotations

from typing import Any

from steepwright.report.views.hoist import Hoist, hoist_of

LIFT: dict[str, Any] = {
    "beam": None,
    "eye_mm": 2100,
    "lines": 2,
    "tackle_parts": 4,
    "curve": [
        {"angle_deg": 36.0, "lines_n": 300, "hand_n": 100},
        {"angle_deg": 63.0, "lines_n": 420, "hand_n": 140},
        {"angle_deg": 90.0, "lines_n": 480, "hand_n": 160},
    ],
    "hand_limit_one_n": 196,
    "hand_hold_without_brake_n": 120,
    "one_line_lost_n": 480,
    "people": None,
}


def test_the_curve_comes_as_columns_and_too_many_people_as_none() -> None:
    assert hoist_of({"lift": LIFT, "angle_deg": 35.998}) == Hoist(
        beam="",
        eye_mm=2100,
        lines=2,
        parts=4,
        from_deg=35.998,
        to_deg=90.0,
        lines_n=(300, 420, 480),
        hand_n=(100, 140, 160),
        hand_limit_n=196,
        without_brake_n=120,
        line_lost_n=480,
        people=0,
    )


def test_a_wall_that_stays_down_has_no_hoist() -> None:
    assert hoist_of({"lift": None}) is None
    assert hoist_of({}) is None
