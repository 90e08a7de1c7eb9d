"""The corner against a general-purpose minimiser and a plank walked round in steps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from steepwright.geometry.corner import corner_length_mm

WIDTH = st.floats(300.0, 3000.0)
SHARE = st.floats(0.0, 0.999)


@given(WIDTH, WIDTH, SHARE)
@example(900.0, 800.0, 0.375)
@example(2000.0, 1000.0, 0.999)
def test_least_length_agrees_with_a_minimiser_started_everywhere(a, b, share):
    width = share * min(a, b)

    def length(t):
        return (a * np.cos(t) + b * np.sin(t) - width) / (np.sin(t) * np.cos(t))

    grid = np.linspace(1e-4, np.pi / 2 - 1e-4, 2000)
    best = length(grid).argmin()
    ends = grid[max(best - 1, 0)], grid[min(best + 1, 1999)]
    found = minimize_scalar(length, bounds=ends, method="bounded", options={"xatol": 1e-10}).fun
    assert float(corner_length_mm(a, b, width)) == pytest.approx(max(found, a, b), rel=1e-9)


@given(WIDTH, WIDTH, SHARE, st.floats(0.9, 1.1))
def test_plank_of_that_length_walks_round_and_a_longer_one_sticks(a, b, share, stretch):
    """Slide the plank's outer side with its ends on the outer walls; its inner side stays w off.

    The outer walls are the axes, the inner corner is at (b, a).
    """
    width = share * min(a, b)
    limit = float(corner_length_mm(a, b, width))
    assume(limit > 1.0001 * max(a, b) and abs(stretch - 1.0) > 1e-4)
    angle = np.linspace(1e-3, np.pi / 2 - 1e-3, 20001)
    length = limit * stretch
    on_x = np.stack([length * np.cos(angle), np.zeros_like(angle)], axis=-1)
    on_y = np.stack([np.zeros_like(angle), length * np.sin(angle)], axis=-1)
    way, to = on_y - on_x, np.array([b, a]) - on_x
    off = -(way[:, 0] * to[:, 1] - way[:, 1] * to[:, 0]) / length
    assert (off.min() >= width) == (stretch < 1.0)


@given(WIDTH, WIDTH, st.floats(0.0, 3500.0), st.floats(0.0, 200.0))
def test_never_rises_with_width_nor_falls_with_the_corridors(a, b, width, more):
    length = corner_length_mm(a, b, width)
    slack = 1e-6
    assert corner_length_mm(a, b, width + more) <= length + slack
    assert corner_length_mm(a + more, b, width) >= length - slack
    assert corner_length_mm(b, a, width) == pytest.approx(length, rel=1e-12)


@pytest.mark.parametrize(
    ("a", "b", "width", "expected"),
    [(900, 800, 900, 800), (900, 800, 850, 800), (900, 900, 900, 900), (900, 800, 901, 0)],
)
def test_too_wide_to_turn_may_still_slide_round(a, b, width, expected):
    assert float(corner_length_mm(a, b, width)) == expected
