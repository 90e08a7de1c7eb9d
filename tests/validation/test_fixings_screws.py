"""Screws along and across their axis against published values of EN 1995-1-1 with A1:2008.

Sources: LVL Handbook Europe, 2025, example 9.6, p. 198; Mense, master's thesis BHT Berlin 2022,
notebook on 8.7 (a screw with a European assessment); a public EN 1995-1-1 notebook (splitting);
the grid of (8.38) and the plywood joint were recomputed by hand from the clauses, not printed:
they guard the formulas, they don't prove them.
"""

import math

import pytest

from steepwright.structure.screws import (
    ShearJoint,
    effective_number,
    embedment_osb_mpa,
    embedment_plywood_mpa,
    embedment_timber_mpa,
    head_n,
    in_withdrawal_range,
    johansen_modes_n,
    johansen_n,
    steel_n,
    thin_plate_n,
    withdrawal_by_test_n,
    withdrawal_n,
    withdrawal_strength_mpa,
    yield_moment_nmm,
)
from steepwright.structure.timber import splitting_n

HALF_RIGHT = math.radians(45.0)


@pytest.mark.parametrize(
    ("d", "lef", "strength", "force"),
    [
        (6.0, 48.0, 15.634, 3377),
        (8.0, 80.0, 12.865, 8233),
        (10.0, 100.0, 11.253, 11253),
        (12.0, 120.0, 10.087, 14525),
    ],
)
def test_withdrawal_a1_2008_grid(d, lef, strength, force):
    assert withdrawal_strength_mpa(d, lef, 350.0) == pytest.approx(strength, abs=5e-4)
    assert withdrawal_n(d, lef, 350.0) == pytest.approx(force, abs=0.5)


def test_withdrawal_at_45_degrees():
    assert withdrawal_n(8.0, 80.0, 350.0, HALF_RIGHT) == pytest.approx(7485, abs=0.5)


@pytest.mark.parametrize(
    ("d", "lef", "force"),
    [(6.0, 42.0, 4912), (8.0, 72.0, 9516), (10.0, 90.0, 13599), (12.0, 108.0, 18206)],
)
def test_the_older_rule_promised_more(d, lef, force):
    # lef = thread - d in the edition of 2004; A1:2008 gives 16 to 45 % less.
    # Fax,Rk was 3.6e-3 rho_k^1.5 (pi d lef)^0.8 then.
    old = 3.6e-3 * 350.0**1.5 * (math.pi * d * lef) ** 0.8
    assert old == pytest.approx(force, abs=0.5)
    assert 1.15 < old / withdrawal_n(d, lef + d, 350.0) < 1.46


def test_two_screws_lvl_handbook_9_6():
    one = withdrawal_by_test_n(5.0, 45.0, 10.0)
    assert one == pytest.approx(2250.0)
    assert 0.6 / 1.3 * effective_number(2.0) * one == pytest.approx(1938, abs=0.5)


def test_assessed_screw_axial_mense():
    angle_factor = 0.3 + 0.7 * 15.0 / 45.0
    assert withdrawal_by_test_n(6.0, 140.0, 11.5) * angle_factor == pytest.approx(5152, abs=0.5)
    assert head_n(14.0, 13.0) == pytest.approx(2548)
    design = 0.6 / 1.3 * withdrawal_by_test_n(6.0, 140.0, 11.5) * angle_factor
    assert design == pytest.approx(2.38e3, abs=5.0)


def test_assessed_screw_lateral_mense():
    embedment = embedment_timber_mpa(6.0, 350.0)
    moment = yield_moment_nmm(6.0, 600.0, factor=0.15)
    joint = ShearJoint(100.0, 140.0, 16.77, 16.77, 6.0, moment, axial_n=5152.0)
    modes = johansen_modes_n(joint)
    assert embedment == pytest.approx(16.77, abs=0.005)
    assert moment == pytest.approx(9493.7, abs=0.05)
    for mode, value in zip(modes, (10062, 14087, 6407, 4909, 6289, 2877.5), strict=True):
        assert mode == pytest.approx(value, abs=1.0)
    assert 0.6 / 1.3 * johansen_n(joint) == pytest.approx(1.33e3, abs=5.0)


def test_plywood_to_stud_recomputed_by_hand():
    moment = yield_moment_nmm(4.0, 500.0)
    sheet, stud = embedment_plywood_mpa(4.0, 630.0), embedment_timber_mpa(4.0, 350.0)
    bare = ShearJoint(17.6, 52.0, sheet, stud, 4.0, moment)
    roped = ShearJoint(17.6, 52.0, sheet, stud, 4.0, moment, axial_n=1500.0)
    assert (sheet, stud, moment) == (
        pytest.approx(45.721, abs=5e-4),
        pytest.approx(18.935, abs=5e-4),
        pytest.approx(5513.8, abs=0.05),
    )
    assert johansen_modes_n(bare) == pytest.approx((3219, 3938, 1554, 1169, 1672, 1250), abs=0.6)
    assert johansen_n(bare) == pytest.approx(1169, abs=0.5)
    assert johansen_n(roped) == pytest.approx(1544, abs=0.6)


def test_splitting_by_a_joint_public_notebook():
    assert 0.6 / 1.3 * splitting_n(38.0, 90.0, 45.0) == pytest.approx(2329.38, abs=0.005)


def test_rope_effect_is_capped():
    # 8.2.2(2): at most 100 % of the Johansen part for screws, 15 % for round nails.
    moment = yield_moment_nmm(4.0, 500.0)
    for limit in (1.0, 0.15):
        bare = johansen_modes_n(ShearJoint(20.0, 40.0, 20.0, 20.0, 4.0, moment))
        full = johansen_modes_n(ShearJoint(20.0, 40.0, 20.0, 20.0, 4.0, moment, 1e9, limit))
        assert full[:2] == bare[:2]
        for with_rope, without in zip(full[2:], bare[2:], strict=True):
            assert with_rope == pytest.approx((1.0 + limit) * without)


def test_symmetrical_joint_doesn_t_know_its_head():
    # With equal parts the modes (a), (b) and (d), (e) are the same by symmetry.
    modes = johansen_modes_n(ShearJoint(45.0, 45.0, 20.0, 20.0, 5.0, 8000.0))
    assert modes[0] == pytest.approx(modes[1])
    assert modes[3] == pytest.approx(modes[4])


def test_range_steel_plate_and_embedment():
    assert in_withdrawal_range(8.0, 5.2)
    assert not in_withdrawal_range(5.0, 3.2)
    assert not in_withdrawal_range(8.0, 4.0)
    assert steel_n(7.0, 400.0) == pytest.approx(400.0 * math.pi * 49.0 / 4.0)
    assert thin_plate_n(20.0, 500.0, 8.0, 20_000.0) == pytest.approx(
        1.15 * math.sqrt(2 * 20_000.0 * 20.0 * 8.0)
    )
    # (8.22) by hand: 65 x 4^-0.7 x 18^0.1.
    assert embedment_osb_mpa(4.0, 18.0) == pytest.approx(65 / 4**0.7 * 18**0.1)
    # (8.16) by hand.
    assert embedment_timber_mpa(8.0, 350.0, predrilled=True) == pytest.approx(0.082 * 0.92 * 350)


def test_an_axis_along_the_grain_is_refused():
    with pytest.raises(ValueError, match="30 degrees"):
        withdrawal_n(8.0, 80.0, 350.0, math.radians(15.0))
