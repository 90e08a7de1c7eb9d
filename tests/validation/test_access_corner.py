"""Longest rod and plank round a right-angled corner: published answers.

Sources: MathWorld, "Moving Ladder Problem" (corridors of width 1: 2 sqrt 2); a worked problem
on a public mathematics forum (freemathhelp thread 90868: a 5 ft and a 3 ft corridor). The plank in
equal corridors, 2 (sqrt 2 a - w), is the textbook closed form of the same problem by symmetry.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from steepwright.geometry.corner import corner_length_mm


def test_mathworld_moving_ladder_in_equal_corridors():
    assert float(corner_length_mm(1.0, 1.0)) == pytest.approx(2 * math.sqrt(2), abs=1e-9)


def test_freemathhelp_90868_five_and_three_feet():
    assert float(corner_length_mm(5.0, 3.0)) == pytest.approx(11.194, abs=5e-4)


def test_textbook_plank_in_equal_corridors():
    width = np.linspace(0.0, 0.35, 8)
    np.testing.assert_allclose(
        corner_length_mm(1.0, 1.0, width), 2 * (math.sqrt(2) - width), rtol=1e-12
    )


def test_textbook_rod_in_any_two_corridors():
    a = np.array([600.0, 830.0, 950.0, 1200.0])[:, None]
    b = np.array([700.0, 900.0, 2500.0])
    expected = (a ** (2 / 3) + b ** (2 / 3)) ** 1.5
    np.testing.assert_allclose(corner_length_mm(a, b), expected, rtol=0, atol=1e-6)
