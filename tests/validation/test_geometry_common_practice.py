"""Board lengths and angles that home wall builders quote.

Common practice, no source: values that circulate among builders of home walls for a pivot at
2370 mm and a pivot in the plane of the board. They are round figures, so the tolerance is half
a degree or 10 mm.
"""

from __future__ import annotations

import numpy as np
import pytest

from steepwright.geometry.wall import board_for_angle_mm, overhang_angle_rad

PIVOT_MM = 2370.0


def test_common_practice_45_degrees_with_300_kicker_needs_about_2930():
    assert float(board_for_angle_mm(np.deg2rad(45.0), 300.0, PIVOT_MM)) == pytest.approx(
        2930, abs=10
    )


@pytest.mark.parametrize(
    ("board_mm", "kicker_mm", "least_deg", "most_deg"),
    [(2800.0, 200.0, 39.0, 40.0), (3000.0, 0.0, 37.5, 38.5)],
)
def test_common_practice_angle_of_board_and_kicker(board_mm, kicker_mm, least_deg, most_deg):
    angle = float(np.rad2deg(overhang_angle_rad(board_mm, kicker_mm, PIVOT_MM)))
    assert least_deg <= angle <= most_deg


def test_common_practice_kicker_adds_steepness_at_constant_sheet_length():
    kickers = np.arange(0.0, 601.0, 50.0)
    angles = overhang_angle_rad(3000.0 - kickers, kickers, PIVOT_MM)
    assert np.all(np.diff(angles) > 0.0)
