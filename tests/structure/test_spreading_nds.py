"""A timber under joists by the NDS, allowable stress, by hand in inches and pounds."""

import dataclasses
import math

import pytest

from steepwright.room.types import Spreader
from steepwright.structure import checks
from steepwright.structure.rows import look_up
from steepwright.units import INCH_MM, POUND_N, PSI_MPA

SPREADER = Spreader(
    tuple(range(200, 3300, 406)), (38, 235), 406, 4267, "DF-L No.2", 600.0, (11, 254), 0, True,
    held=True,
)  # fmt: skip


@pytest.fixture(scope="module")
def nds_spread(make_tables_below, make_room, american):
    def tables(spreader=SPREADER, **climber):
        own = {"kind": "spreader", "width_mm": 89, "depth_mm": 140, "span_mm": 406}
        own |= {"x_mm": make_room().length_mm // 2, "grade": "SPF No.2", "spreader": spreader}
        return make_tables_below(own, american, climber, code="NDS")

    return tables


def changed(**to):
    return dataclasses.replace(SPREADER, **to)


def told(tables, batch):
    return {check.name: check for check in checks(tables, batch)}


def test_joists_by_hand(nds_spread):
    """NDS 4.3, 3.3.3, 3.4: 2x10 DF-L No.2, CF 1.1; free to tilt its CL is that of 2.06 spans."""
    b, h = 38 / INCH_MM, 235 / INCH_MM
    held = 900 * 1.1 * b * h**2 / 6
    inch_pounds = POUND_N * INCH_MM
    assert nds_spread().spreads.moment_d_nmm[0] / inch_pounds == pytest.approx(held, rel=1e-6)
    edge = 1.2 * 580e3 * b**2 / (2.06 * 4267 / INCH_MM * h) / (900 * 1.1)
    half = (1 + edge) / 1.9
    free = held * (half - math.sqrt(half**2 - edge / 0.95))
    tilts = nds_spread(changed(held=False)).spreads
    assert tilts.moment_d_nmm[0] / inch_pounds == pytest.approx(free, rel=1e-6)
    assert free < 0.6 * held
    sheared = 180 * b * h / 1.5
    assert nds_spread().spreads.shear_d_n[0] / POUND_N == pytest.approx(sheared, rel=1e-6)
    # IRC R502.6: 1 1/2 in of bearing.
    crushed = 625 * PSI_MPA * 38 * 38
    assert nds_spread().spreads.bearing_d_n[0] == pytest.approx(crushed, rel=1e-6)


def test_loads_on_one_joist_have_no_partial_factors(nds_spread, make_batch):
    tables, batch = nds_spread(), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)
    spreads, lever = tables.spreads, rows.mount.lever[0]
    load = spreads.share[0] * (80.0 * 9.80665 * 2.0 + rows.board_n[0] / 2.0) * lever
    load += spreads.own_n[0]
    dense = tables.factors["beam_permanent_share"]
    assert 0.0 < dense < 1.0
    own = spreads.moment_live_nmm[0] + load * 4267.0 / 4.0
    assert check["joist bending"].demand == pytest.approx(own, rel=1e-6)
    assert spreads.moment_live_nmm[0] >= 0.6 * 4267.0**2 / 8.0


def test_the_screw_by_hand(nds_spread):
    """NDS 12.2-1, 3.10.4: 7/16 x 10 in, 4.49 in of it in the joist; a washer of 3 D on SPF."""
    d = 7 / 16
    inside = 10 - 140 / INCH_MM - 0.7 * d
    thread = 1800 * 0.5**1.5 * d**0.75 * inside
    hole = d + 1 / INCH_MM
    washer = 425 * (3 * d + 0.375) / (3 * d) * math.pi / 4 * ((3 * d) ** 2 - hole**2)
    steel = 400 / PSI_MPA * math.pi / 4 * (0.69 * d) ** 2 / 2.0
    pull = nds_spread().spreads.pull_n[0] / POUND_N
    assert pull == pytest.approx(min(thread, washer, steel), rel=1e-6)
    assert washer < min(thread, steel)
    short = nds_spread(changed(screw_mm=(11, 165))).spreads.pull_n[0] / POUND_N
    lef = 165 / INCH_MM - 140 / INCH_MM - 0.7 * d
    assert short == pytest.approx(thread * lef / inside, rel=1e-6)
    # 1 1/2 D to both edges of 38 mm; 4 D to those of the timber.
    room = nds_spread().spreads.room_use[0]
    assert room == pytest.approx(max(3 * d * INCH_MM / 38, 8 * d * INCH_MM / 89), rel=1e-6)


def test_a_lining_lets_the_screw_bend(nds_spread):
    """Statics and 12.3.1: Fe = 11200 G along the joist, Rd 3.6; it yields 1/2 in below it."""
    d, gap = 7 / 16, 13 / INCH_MM
    root = 0.69 * d
    per_inch = 11200 * 0.5 * root
    moment = 0.75 * 400 / PSI_MPA * root**3 / 6
    force = per_inch * (math.sqrt(gap**2 + 2 * moment / per_inch) - gap) / 3.6
    lined = nds_spread(changed(lining_mm=13)).spreads.lateral_n[0]
    assert lined / POUND_N == pytest.approx(force, rel=1e-6)
    # Without it mode IV or IIIs of a joint, whose reduction is 3.2 times 1.25.
    assert nds_spread().spreads.lateral_n[0] > 1.5 * lined


def test_what_is_unknown_settles_nothing(nds_spread, make_batch):
    check = told(nds_spread(changed(grade=None)), make_batch())
    assert not check["joist bending"].settled
    assert told(nds_spread(), make_batch())["joist bending"].settled


def test_no_check_falls_with_the_wall_or_the_climbers(nds_spread, falling_checks):
    light, heavy = nds_spread(), nds_spread(mass_kg=95.0)
    assert falling_checks(light, heavy, ("joist", "spreader", "ceiling beam")) == []


def test_words_are_of_the_nds(nds_spread, make_batch):
    for name, check in told(nds_spread(), make_batch()).items():
        said = check.clause + check.assumption
        if name.startswith(("joist", "spreader")):
            assert check.clause.startswith("NDS")
        assert not any(word in said for word in ("kcr", "(8.28)", "kc,90", "nef", "{")), said
