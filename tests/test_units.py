"""Numbers as text."""

from __future__ import annotations

import pytest

from steepwright.units import degrees_down


@pytest.mark.parametrize(
    ("angle_deg", "decimals", "text"),
    [
        (39.96, 1, "39.9"),
        (39.999, 2, "39.99"),
        (40.0, 1, "40.0"),
        (35.3, 1, "35.3"),
        (0.05, 1, "0.0"),
        (7.006, 2, "7.00"),
    ],
)
def test_an_angle_is_never_said_steeper_than_it_is(
    angle_deg: float, decimals: int, text: str
) -> None:
    assert degrees_down(angle_deg, decimals) == text
