"""Mounts on the ceiling beam against published beam formulas.

AWC Design Aid 6, "Beam design formulas with shear and moment diagrams": figure numbers below.
"""

import pytest

from steepwright.structure.hooks import hook_effects

E_MPA, I_MM4 = 11000.0, 45.0 * 145.0**3 / 12.0


def test_one_load_anywhere_figure_8():
    # 1600 N at 1600 of 2400 mm on 45 x 145: M = Pab/l = 853 333 Nmm, 3.1519 mm at most.
    one = hook_effects((1600.0,), 1600.0, 2400.0)
    assert 1600 * one.arm_climb_mm == pytest.approx(853_333, rel=1e-6)
    middle = 1600 * 2400**3 / (48 * E_MPA * I_MM4)
    assert one.sag_climb * middle == pytest.approx(3.1519, abs=5e-5)
    assert one.end_climb == pytest.approx(2 / 3)
    assert one.arm_weight_mm == pytest.approx(one.arm_climb_mm)


def test_one_load_in_the_middle_figure_7():
    one = hook_effects((1200.0,), 1200.0, 2400.0)
    assert (one.arm_climb_mm, one.end_climb, one.sag_climb) == pytest.approx((600, 0.5, 1))


def test_two_equal_loads_placed_evenly_figure_9():
    # M = P a, V = P, deflection P a (3 l^2 - 4 a^2) / (24 EI) at mid-span; W = 2 P.
    two = hook_effects((700.0, 1700.0), 1200.0, 2400.0)
    assert two.arm_weight_mm == pytest.approx(700 / 2)
    assert two.end_weight == pytest.approx(0.5)
    real = 0.5 * 700 * (3 * 2400**2 - 4 * 700**2) / 24
    bound = two.sag_weight * 2400**3 / 48
    # Each load's own largest sag is counted, a little beside the middle.
    assert real < bound < 1.03 * real
