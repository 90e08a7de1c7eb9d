"""Tackle and block factors against published charts.

Sources: Pipeline Rules of Thumb Handbook, p. 6 (sheave efficiency, plain bearings 1/1.09, four
parts: 3.25; the formula itself gives 3.24); block manufacturers' rigging charts (angle factors
of a redirect block).
"""

import numpy as np
import pytest

from steepwright.structure.hoist import mechanical_advantage, redirect_force_n


def test_four_parts_over_plain_sheaves():
    gain = mechanical_advantage(4, 1 / 1.09)
    assert gain == pytest.approx(3.24, abs=0.005)
    assert gain == pytest.approx(3.25, abs=0.015)
    assert mechanical_advantage(4, 1.0) == 4.0


@pytest.mark.parametrize(
    ("degrees", "factor"),
    [
        (0, 2.00),
        (30, 1.93),
        (45, 1.85),
        (60, 1.73),
        (90, 1.41),
        (120, 1.00),
        (135, 0.765),
        (150, 0.52),
    ],
)
def test_redirect_block(degrees, factor):
    assert redirect_force_n(1000.0, np.radians(degrees)) / 1000 == pytest.approx(factor, abs=0.006)
