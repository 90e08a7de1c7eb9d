"""Bolts of a mount at the lip against arithmetic written out from the clauses.

A lip rail 45 x 145 C24, two bolts M10 4.6; the wall of `test_rules_by_hand`.
"""

import math

import pytest

from steepwright.catalog import read_materials
from steepwright.catalog.families import TimberSection
from steepwright.structure import checks
from steepwright.structure.tabulate_lip import lip_table

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


def told(tables, make_batch, **own):
    wall = make_batch(rows=2, seam_mm=1300.0, mount_count=2, **own)
    return {check.name: check for check in checks(tables, wall)}


def test_a_climber_beyond_an_outer_mount_levers_on_it_and_its_bolts(tables, make_batch, found):
    """By statics: mounts 775 mm apart, a climber 77.5 mm outside one brings it a tenth more.

    The board's weight doesn't: its middle stays between the mounts.
    """
    levered = told(tables, make_batch, tip_load=1 + 77.5 / 775, lost_load=1 + 77.5 / 775)
    more = 0.1 * LEVER * CLIMBER
    prised = found["mount plate prised off"].demand - found["mount pull-out"].demand
    for name, part in (
        ("mount pull-out", 1.5),
        ("mount working load", 1.0),
        ("one mount lost", 1.0),
        ("mount plate prised off", 1.5 + prised / LEVER / CLIMBER),
        ("lip bolts, pull", 1.5),
        ("lip bolts, one mount lost", 1.0),
        ("lip bolts, shear", 1.5 * LEAN),
        ("lip rail splitting", 1.5 * LEAN),
        ("ceiling beam splitting", 1.5),
    ):
        assert levered[name].demand == pytest.approx(found[name].demand + part * more), name
    for name in ("lip bolts, parked", "ceiling beam shear", "ceiling beam torsion"):
        assert levered[name].demand == found[name].demand, name


def test_a_lost_mounts_neighbour_bears_what_the_lost_corner_levers(tables, make_batch):
    """By statics: studs 538.75 mm apart, mounts on the first, the fourth and the last of five.

    Outer mounts are 77.5 mm further in. The first lost, climbers at its stud are 1616.25 mm beyond
    the next one, which is 461.25 mm from the last; the lip's middle, 1077.5 mm from that stud, is
    538.75 mm beyond it. Two spans of three mounts on five studs are more than all of the weight.
    """
    lost_load, lost_weight = 1 + 1616.25 / 461.25, 1 + 538.75 / 461.25
    effects = {"lost_load": lost_load, "lost_weight": lost_weight, "lost_arm_mm": 900 * lost_load}
    wall = make_batch(rows=2, seam_mm=1300.0, **effects)
    lost = {check.name: check for check in checks(tables, wall)}
    bars = 5 * (2600 - 2 * 45) + 2 * 2200 + (2200 - 5 * 45)
    half = (2600 * 2200 * AREA + bars * BAR) / 2
    for name in ("one mount lost", "lip bolts, one mount lost"):
        own = LEVER * (lost_load * CLIMBER + lost_weight * half)
        assert lost[name].demand == pytest.approx(own), name
    plain = {check.name: check for check in checks(tables, make_batch(rows=2, seam_mm=1300.0))}
    # Half of the climbers pull level; the beam is twice as strong upright as sideways.
    more = (lost_load - 1) * CLIMBER * (1 + 0.5 * 240 / 120) + (lost_weight - 1) * half
    name = "ceiling beam, one mount lost"
    assert lost[name].demand == pytest.approx(plain[name].demand + LEVER * more * 900)
    same = set(plain) - {name, "one mount lost", "lip bolts, one mount lost"}
    assert all(lost[name].demand == plain[name].demand for name in same)


def test_the_rail_hangs_over_an_outer_mount(tables, make_batch):
    """A load at e beyond a support bends the rail by F e over it: more than F l / 4 of a short gap.

    From the last stud's middle to its mount's 77.5 mm: the first bolt 80 mm from the rail's end
    (EN 1995-1-1 Table 8.4, from memory), the second 4 d further in, the stud 45 mm wide.
    """
    narrow = told(tables, make_batch, width_mm=250.0, bay_mm=100.0, stud_count=3)
    half = AREA * 1300 * 100 + BAR * (1300 + 1.5 * 100)
    tip = LEAN * (1.5 * CLIMBER + 1.35 * half)
    assert narrow["lip rail bending"].demand == pytest.approx(tip * 77.5)
    whole = AREA * 1300 * 200 + BAR * (2 * 1300 + 1.5 * 200)
    between = LEAN * (1.5 * CLIMBER / 4 + 1.35 * whole / 8) * 200
    assert between < tip * 77.5
    sheared = LEAN * (1.5 * CLIMBER + 1.35 * max(1.25 * whole / 2, half))
    assert narrow["lip rail shear"].demand == pytest.approx(sheared)
    # Two mounts 50 mm apart: F e / g between them.
    close = told(tables, make_batch, width_mm=250.0, bay_mm=100.0, tip_load=1 + 77.5 / 50)
    assert close["lip rail shear"].demand > 1.5 * 77.5 / 50 * LEAN * CLIMBER


def test_mounts_have_to_be_as_far_apart_as_their_bolts(tables, make_batch):
    """Half a row, 4 d to the next mount's bolt, which is 22.5 + 15 mm beside its stud: 97.5 mm."""
    just = told(tables, make_batch, tip_load=1 + 77.5 / 97.5)
    assert just["lip bolts' room"].use == pytest.approx(1.0)
    assert told(tables, make_batch, tip_load=1 + 77.5 / 90)["lip bolts' room"].use > 1.0


def test_a_slim_stud_leaves_too_little_room_between_studs():
    """The second bolt is 120 mm from the end, its washer's edge 15 mm more; studs 100 mm apart."""
    made = read_materials()
    factors, timber = made.factors, made.timber_classes["C24"]
    sections = tuple(TimberSection(width, 145, "C24", "", ()) for width in (34, 35, 45))
    uses = lip_table(factors, sections, [timber] * 3).room_use
    assert uses == pytest.approx([(120 + 15 - 34) / 100, 7 * 10 / 145, 7 * 10 / 145])
