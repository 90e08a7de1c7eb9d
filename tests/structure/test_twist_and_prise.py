"""Level pulls below the beam: its twisting, and the plate that is prised off, by hand.

The wall of `test_rules_by_hand`: beam 120 x 240 C24, a climber of 80 kg x 2, half of it level; the
bracket has 4 screws of 10 mm and a pivot 75 mm below the beam, set back 60 mm.
"""

import dataclasses
import math

import numpy as np
import pytest

from steepwright.catalog.types import Mount
from steepwright.structure import checks, uses
from steepwright.structure.tabulate_beams import prise, torsion_shape
from steepwright.structure.timber import torsion_modulus_mm3

G = 9.80665
LEVEL = 1.5 * 0.5 * 80 * G * 2 * 1000 / 940
SHEAR_D = 4.0 * 0.67 * 0.9 / 1.3

SAINT_VENANT = {1: 0.208, 1.5: 0.231, 2: 0.246, 2.5: 0.258, 3: 0.267, 4: 0.282, 5: 0.291, 10: 0.312}
"""Timoshenko & Goodier, Theory of Elasticity, table of rectangular bars, k1 by b/a; from memory."""


@pytest.mark.parametrize("ratio", SAINT_VENANT)
def test_torsion_modulus_timoshenko_goodier_from_memory(ratio):
    found = torsion_modulus_mm3(40.0, 40.0 * ratio) / (40.0**3 * ratio)
    assert found == pytest.approx(SAINT_VENANT[ratio], abs=6e-4)
    assert torsion_modulus_mm3(40.0 * ratio, 40.0) == torsion_modulus_mm3(40.0, 40.0 * ratio)


def test_a_thin_strip_has_a_third_of_b_h_squared():
    assert torsion_modulus_mm3(1.0, 1e4) == pytest.approx(1e4 / 3, rel=1e-3)


@pytest.fixture(scope="module")
def found(tables, make_batch):
    return {check.name: check for check in checks(tables, make_batch())}


def test_ceiling_beam_torsion(found):
    # (6.15) with k_shape of A2, from memory: min(1 + 0.05 x 2, 1.3); k1 = 0.246 from the table.
    twisting = found["ceiling beam torsion"]
    assert twisting.demand == pytest.approx(LEVEL * (120 + 75))
    assert twisting.capacity == pytest.approx(1.1 * SHEAR_D * 0.246 * 120**2 * 240, rel=2e-3)


def test_shear_and_torsion_together_are_at_their_limit_where_the_rule_says_so(found):
    twist = found["ceiling beam torsion"].use
    shear = math.hypot(found["ceiling beam shear"].demand, LEVEL) * 1.5 / (120 * 240) / SHEAR_D
    use = found["ceiling beam shear and torsion"].use
    assert twist / use + (shear / use) ** 2 == pytest.approx(1)
    assert use > max(twist, shear)


def test_a_flat_beam_twists_like_one_on_edge(catalog):
    factors = catalog.materials.factors
    assert torsion_shape(factors, 100, 300) == torsion_shape(factors, 300, 100) == 1.15
    assert torsion_shape(factors, 50, 500) == 1.3


def plate(**sizes):
    made = Mount("M", "", 75, 60, 60, 4, 10.0, 7.0, 80.0, 400, 7500.0, 0, 0.0, 4900)
    return dataclasses.replace(made, **sizes)


def test_plate_is_prised_about_its_edge(catalog):
    # Moments about the edge: H x stiff = T x 0.85 x (90/2 + 40/2), T on two of four screws.
    factors = catalog.materials.factors
    two_rows = plate(plate_mm=90, row_gap_mm=40, stiff_mm=75)
    assert prise(factors, two_rows) == pytest.approx(75 / (0.85 * 65) * 2)
    one_row = plate(plate_mm=90, stiff_mm=20)
    assert prise(factors, one_row) == pytest.approx(20 / (0.85 * 45))


def test_a_plate_that_nobody_measured_is_taken_as_narrow_and_stiff(catalog):
    factors = catalog.materials.factors
    assert prise(factors, plate()) == pytest.approx(75 / (0.85 * 20))
    assert prise(factors, plate()) >= prise(factors, plate(plate_mm=60, stiff_mm=75))
    assert prise(factors, plate(stiff_mm=500)) == prise(factors, plate())


def test_prising_adds_to_the_pull_and_counts_beside_shear(found):
    prised, pull = found["mount plate prised off"], found["mount pull-out"]
    assert prised.demand == pytest.approx(pull.demand + LEVEL * 75 / (0.85 * 20))
    assert prised.capacity == pull.capacity
    both = found["mount pull-out and shear"].use
    assert both > prised.use > pull.use


def test_wider_plates_and_shallower_pivots_never_raise_a_use(catalog, make_tables, make_batch):
    last = np.inf
    for wide, stiff in ((30, 75), (60, 75), (90, 75), (90, 20), (90, 0)):
        mounts = (catalog.mounts[0], plate(plate_mm=wide, stiff_mm=stiff))
        made = make_tables(dataclasses.replace(catalog, mounts=mounts))
        now = uses(made, make_batch())["mount pull-out and shear"][0]
        assert now < last
        last = now


def test_sheet_screws_pulled_and_sheared_at_once_have_no_rope_effect(tables, make_batch):
    # 8.2.2(2) lets a quarter of the axial resistance help in shear; the same screw can't hold the
    # climber's pull with it as well, so (8.28) takes the bare Johansen resistance.
    found = {check.name: check for check in checks(tables, make_batch())}
    pull, shear = found["sheet screw pull-out"], found["sheet screw shear"]
    both = found["sheet screw combined"].use
    bare_n = shear.demand / math.sqrt(both**2 - pull.use**2)
    assert bare_n < shear.capacity
    # The mode that decides is bent: rope effect at most its own share again (100 % for screws).
    assert bare_n >= shear.capacity / 2
    # EN 1995-1-1 (8.6): 18 mm birch of 630 kg/m3 on C24, screw 5 x 60, d_ef = 1.1 x 3.2.
    d, t1 = 1.1 * 3.2, 17.6
    f1, f2 = 0.11 * 630 * d**-0.3, 0.082 * 350 * d**-0.3
    bend, beta = 0.3 * 600 * d**2.6, f2 / f1
    mode_d = (
        1.05
        * f1
        * t1
        * d
        / (2 + beta)
        * (
            math.sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * bend / (f1 * d * t1**2))
            - beta
        )
    )
    mode_f = 1.15 * math.sqrt(2 * beta / (1 + beta)) * math.sqrt(2 * bend * f1 * d)
    assert bare_n == pytest.approx(min(mode_d, mode_f) * 0.9 / 1.3, rel=1e-6)
