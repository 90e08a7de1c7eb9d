"""Bolts of a mount at the lip against arithmetic written out from the clauses.

A lip rail 45 x 145 C24, two bolts M10 4.6; the wall of `test_rules_by_hand`.
"""

import math

import pytest

from steepwright.structure import checks

G = 9.80665
CLIMBER = 80 * G * 2
SHORT = 0.9 / 1.3
LEAN = math.sin(math.radians(40))
LEVER = 1000 / 940
AREA = (17.6 * 680e-9 + 8e-6) * G
BAR = 45 * 145 * 420e-9 * G
LIP = 1.25 * (2 * 538.75 * (1300 * AREA + 1.5 * BAR) + 3 * 1300 * BAR)


@pytest.fixture(scope="module")
def found(tables, make_batch):
    wall = make_batch(rows=2, seam_mm=1300.0, mount_count=2)
    return {check.name: check for check in checks(tables, wall)}


def test_washers_bear_three_times_fc90(found):
    washer = 3 * 2.5 * math.pi / 4 * (30**2 - 11**2)
    assert found["lip bolts, pull"].demand == pytest.approx(LEVER * (1.5 * CLIMBER + 1.35 * LIP))
    assert found["lip bolts, pull"].capacity == pytest.approx(2 * SHORT * washer)
    assert found["lip bolts, one mount lost"].capacity == pytest.approx(2 * 1.1 * washer)


def test_thin_plate_on_bolts_square_to_the_grain(found):
    embedment = 0.082 * 0.9 * 350 / (1.35 + 0.15)
    shallow = 0.4 * embedment * 45 * 10
    bent = 1.15 * math.sqrt(2 * 0.3 * 400 * 10**2.6 * embedment * 10)
    shear = found["lip bolts, shear"]
    assert shear.capacity == pytest.approx(2 * SHORT * min(shallow, bent))
    assert shear.demand == pytest.approx(LEVER * LEAN * (1.5 * CLIMBER + 1.35 * LIP))
    parked = found["lip bolts, parked"]
    assert parked.demand == pytest.approx(LEVER * 1.35 * LIP)
    assert parked.capacity == pytest.approx(shear.capacity * 0.6 / 0.9)


def test_both_at_once_and_the_rail_that_may_split(found):
    both = math.hypot(found["lip bolts, pull"].use, found["lip bolts, shear"].use)
    assert found["lip bolts combined"].use == pytest.approx(both)
    split = 14 * 45 * math.sqrt(72.5 / (1 - 0.5))
    assert found["lip rail splitting"].capacity == pytest.approx(SHORT * split)
    assert found["lip bolts' room"].use == pytest.approx(7 * 10 / 145)
