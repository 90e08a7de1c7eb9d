"""Guidance on fall space and the words about a shortfall."""

from __future__ import annotations

import pytest

from steepwright.catalog.types import Factors
from steepwright.geometry.guidance import fall_guidance, fall_shortfall

FACTORS = Factors(
    {
        "fall_front_low_mm": 2000.0,
        "fall_front_high_mm": 2500.0,
        "fall_low_wall_mm": 3000.0,
        "fall_side_mm": 1500.0,
        "fall_mat_mm": 300.0,
    },
    {},
)


@pytest.mark.parametrize(("height", "front"), [(2400, 2000), (3000, 2000), (3001, 2500)])
def test_front_figure_rises_with_the_wall(height, front):
    guidance = fall_guidance(height, FACTORS)
    assert (guidance.front_mm, guidance.side_mm, guidance.mat_mm) == (front, 1500, 300)


def test_shortfall_says_where_and_by_how_much():
    guidance = fall_guidance(2400, FACTORS)
    assert fall_shortfall(guidance, 2000, 1500, 1500) == ()
    front, right = fall_shortfall(guidance, 1999.6, 1500, 0)
    assert front == (
        "Clear floor in front of the lip is 1999 mm; the guidance for walls up to 3000 mm high "
        "asks for 2000 mm, so it is 1 mm short."
    )
    assert "right side is 0 mm" in right
    assert "1500 mm short" in right
