"""North American rules against printed tables and worked examples.

Sources: NDS Table 12.2A as reprinted in a public permit file (lfportal.everettwa.gov 1831805);
AWC connection example E2.3; Residential Structural Design Guide, example 5.6; size
factors of NDS Table 4A; NDS Table 12K in the same file (Page32).
Emin, CP's formula and c = 0.8 were recalled; the example confirms them.
AWC, Structural Wood Design Examples, 2015/2018 edition: E1.2a, E1.6, E1.7, E2.4, as quoted in the
verification tests of an open structural program (xcfem/xc, verif/tests/materials/awc_nds).
"""

import numpy as np
import pytest

from steepwright.catalog import read_materials
from steepwright.structure.codes import MEMBER_RULES
from steepwright.structure.nds import (
    INCH_MM,
    POUND_N,
    PSI_MPA,
    beam_factor,
    bearing_mpa,
    column_factor,
    lag_size_mm,
    lag_thread_mm,
    lag_withdrawal_n_per_mm,
    lateral_n,
    nominal_in,
    size_factor,
    washer_n,
    yield_moment_nmm,
)
from steepwright.structure.screws import ShearJoint

INCHES = (1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4)


@pytest.mark.parametrize(
    ("gravity", "pounds"),
    [
        (0.42, (173, 205, 235, 264, 291, 344, 395)),
        (0.50, (225, 266, 305, 342, 378, 447, 513)),
    ],
)
def test_lag_screw_withdrawal_table_12_2a(gravity, pounds):
    for inch, value in zip(INCHES, pounds, strict=True):
        force = lag_withdrawal_n_per_mm(gravity, inch * INCH_MM) * INCH_MM / POUND_N
        assert force == pytest.approx(value, abs=0.6)


def test_lag_screw_example_e2_3():
    thread_mm = 2.1875 * INCH_MM
    force = lag_withdrawal_n_per_mm(0.55, 0.5 * INCH_MM) * thread_mm
    # 437 lb/in is printed rounded: 955 lb.
    assert force / POUND_N == pytest.approx(955, abs=1.5)
    assert force == pytest.approx(4247.9, rel=0.0015)


def test_lag_screws_thread_of_example_e2_3():
    """A 1/2 x 4 in lag has 2 1/2 in of thread, less 5/16 in of tip; ours is no shorter a tip."""
    factors = read_materials().factors.in_code("NDS")
    thread = lag_thread_mm(4.0 * INCH_MM) / INCH_MM
    assert thread == pytest.approx(2.5)
    assert thread - 0.3125 == pytest.approx(2.1875)
    assert 0.3125 <= factors["lag_tip_d_nds"] * 0.5 < 0.36
    # NDS Table L2, from memory: long ones have 6 in at most.
    assert lag_thread_mm(14.0 * INCH_MM) / INCH_MM == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("gravity", "along", "across"),
    [(0.67, 220, 160), (0.55, 200, 140), (0.50, 200, 130), (0.43, 180, 120), (0.42, 180, 120)],
)
def test_lag_screw_sideways_table_12k(gravity, along, across):
    """3/8 in lag, root 0.265 in, Fyb 45 ksi, a side plate of 14 gage, 61850 psi; printed in tens.

    What it is made of is that of the table's footnotes, from memory.
    """
    d, root = 0.375 * INCH_MM, 0.265 * INCH_MM
    for square, printed in ((False, along), (True, across)):
        wood = bearing_mpa(gravity, d, across=square)
        moment = yield_moment_nmm(root, 45e3 * PSI_MPA)
        joint = ShearJoint(0.075 * INCH_MM, 8.0 * d, 61850.0 * PSI_MPA, wood, root, moment)
        assert lateral_n(joint, d, across=square) / POUND_N == pytest.approx(printed, abs=5.1)


def test_a_washer_bears_by_its_own_width():
    """NDS Table 3.10.4, from memory: Cb of 1.75, 1.38, 1.25 and 1.00 for 1/2, 1, 1 1/2, 6 in."""
    for inch, printed in ((0.5, 1.75), (1.0, 1.38), (1.5, 1.25), (6.0, 1.00)):
        area = np.pi / 4.0 * (inch * INCH_MM) ** 2
        own = washer_n(1.0, inch * INCH_MM, 1e-6) / area
        assert own == pytest.approx(printed, abs=0.006)


def test_lag_screws_go_by_sixteenths():
    whole = {6: 4, 8: 5, 10: 6, 11: 7, 13: 8, 16: 10, 19: 12}
    own = {mm: round(lag_size_mm(mm) / INCH_MM * 16.0, 6) for mm in whole}
    assert own == whole
    # What is sold in mm counts as the next lag screw that isn't thicker.
    assert lag_size_mm(12) == pytest.approx(7.0 / 16.0 * INCH_MM)
    assert lag_size_mm(9) == pytest.approx(5.0 / 16.0 * INCH_MM)


def test_column_example_5_6():
    fc_star = 1150.0 * 1.0 * 1.15 * PSI_MPA
    euler = MEMBER_RULES["NDS"].euler * 510e3 * PSI_MPA / (7.3 * 12.0 / 3.5) ** 2
    factor = column_factor(fc_star, euler)
    use = 4800.0 * POUND_N / (3.5 * INCH_MM) ** 2 / (factor * fc_star)
    assert fc_star / PSI_MPA == pytest.approx(1322.5)
    assert euler / PSI_MPA == pytest.approx(669.2, abs=0.05)
    assert factor == pytest.approx(0.4378, abs=5e-5)
    assert use == pytest.approx(0.6767, abs=5e-5)


def test_size_and_duration_factors_of_the_tables():
    factors = read_materials().factors.in_code("NDS")
    assert [size_factor(d) for d in (4, 5, 6, 8, 10, 12, 14)] == [1.5, 1.4, 1.3, 1.2, 1.1, 1.0, 0.9]
    assert factors["kmod_solid_permanent"] == 0.9
    assert factors["kmod_solid_short"] == 1.0
    assert factors["kmod_solid_instantaneous"] == 1.6


def test_beam_example_e1_2a():
    """3 1/2 x 15 1/4 in, free over 20 ft, a load in the middle: le = 1.37 lu + 3 d = 375 in."""
    length = 1.37 * 240.0 + 3.0 * 15.25
    euler = 1.20 * 690e3 * 3.5**2 / (length * 15.25)
    assert euler == pytest.approx(1776.0, rel=1e-3)
    factor = float(beam_factor(1500.0 * PSI_MPA, euler * PSI_MPA))
    assert factor == pytest.approx(0.875623337112, rel=1e-4)
    # What we take is never less than the table's effective length, so never stronger.
    assert length < 2.06 * 240.0


@pytest.mark.parametrize(("duration", "printed"), [(1.6, 0.40445), (1.25, 0.50891), (0.9, 0.67383)])
def test_bending_and_tension_example_e1_6(duration, printed):
    """Hem-Fir No.2, 2x8, 12 ft free: Fb 850 psi, CF 1.2, Emin 470 ksi."""
    euler = 1.20 * 470e3 * 1.5**2 / ((1.63 * 144.0 + 3.0 * 7.25) * 7.25)
    assert size_factor(nominal_in(7.25 * INCH_MM)) == 1.2
    assert float(beam_factor(850.0 * 1.2 * duration, euler)) == pytest.approx(printed, abs=2e-5)


def test_bending_and_compression_example_e1_7():
    """SP No.1 2x6, 9 ft, 1400 lb and 100 lb/ft of wind: use 0.8875."""
    rules = MEMBER_RULES["NDS"]
    compression, moment = 1400.0 / (1.5 * 5.5), 100.0 * 9.0**2 / 8.0 * 12.0
    bend = moment / (1.5 * 5.5**2 / 6.0) / 2158.844
    slender = np.sqrt(2483.524 * PSI_MPA / 8.527263374)
    factor = float(rules.buckling(slender))
    assert factor == pytest.approx(0.432197, abs=2e-6)
    pressed = compression / (2483.524 * factor)
    share = compression * PSI_MPA / 8.527263374
    use = rules.together(np.array([bend]), np.array([pressed]), np.array([share]))
    assert use[0] == pytest.approx(0.8875, abs=1e-4)


def test_nail_in_single_shear():
    """0.148 x 3 in nail, 3/4 in side part, DF-L: 105 lb (467.49 N), as in Table 12N."""
    d, wood = 0.148 * INCH_MM, bearing_mpa(0.5, 0.148 * INCH_MM, across=False)
    joint = ShearJoint(
        0.75 * INCH_MM, 2.25 * INCH_MM, wood, wood, d, yield_moment_nmm(d, 90e3 * PSI_MPA)
    )
    assert lateral_n(joint, d, across=False) == pytest.approx(467.488421732, rel=1e-4)


def test_wood_screw_example_e2_4():
    """No.10 wood screw, G 0.55: mode IV governs, half of the 1039.6 N in double shear."""
    root, wood = 0.152 * INCH_MM, bearing_mpa(0.55, 0.19 * INCH_MM, across=False)
    joint = ShearJoint(
        1.31 * INCH_MM, 3.0 * INCH_MM, wood, wood, root, yield_moment_nmm(root, 80e3 * PSI_MPA)
    )
    both = 2.0 * lateral_n(joint, 0.19 * INCH_MM, across=False)
    assert both == pytest.approx(1039.59600276, rel=1e-3)


def test_dressed_depths_lead_to_nominal_ones():
    dressed = {89: 4, 140: 6, 184: 8, 235: 10, 286: 12}
    assert {depth: nominal_in(depth) for depth in dressed} == dressed
