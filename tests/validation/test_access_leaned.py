"""A rectangle in a rectangle.

Source: J. H. Carver (1957), "Fitting one box inside another", as quoted by J. E. Wetzel (2000),
"Rectangles in rectangles", Mathematics Magazine 73: p x q (p >= q) fits a x b (a >= b) if and
only if p <= a and q <= b, or p > a, q <= b and
b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)) / (p^2 + q^2). From memory; so it is also held
against a rectangle that is turned in small steps.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.geometry.lean import leaned_mm

SIDE = st.floats(5.0, 4000.0)


def carver(p: float, q: float, a: float, b: float) -> bool:
    p, q, a, b = max(p, q), min(p, q), max(a, b), min(a, b)
    if p <= a:
        return q <= b
    if q > b:
        return False
    square = p * p + q * q
    return b >= (2 * p * q * a + (p * p - q * q) * np.sqrt(square - a * a)) / square


@given(SIDE, SIDE, SIDE, SIDE)
def test_carver_tells_when_a_rectangle_fits_an_opening(p, q, a, b):
    width = float(leaned_mm(p, q, a))
    if abs(width - b) > 1e-6:
        assert (width <= b) == carver(p, q, a, b)


@given(SIDE, SIDE, SIDE)
def test_no_step_of_a_turn_is_narrower(p, q, limit):
    turn = np.linspace(0.0, np.pi / 2, 4001)
    high = p * np.cos(turn) + q * np.sin(turn)
    wide = p * np.sin(turn) + q * np.cos(turn)
    best = wide[high <= limit].min(initial=np.inf)
    found = float(leaned_mm(p, q, limit))
    assert found <= best + 1e-6
    if np.isinf(found):
        assert min(p, q) > limit


@pytest.mark.parametrize(
    ("p", "q", "height", "width"),
    [
        (1000, 18, 1000, 18),
        (1000, 0, 600, 800),  # 3-4-5
        (1300, 0, 500, 1200),  # 5-12-13
        (1000, 700, 700, 1000),  # only flat
        (1000, 701, 700, np.inf),
    ],
)
def test_leaning_by_hand(p, q, height, width):
    assert float(leaned_mm(p, q, height)) == pytest.approx(width)
