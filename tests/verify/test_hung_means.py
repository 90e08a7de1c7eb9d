"""The checker's own mounts, hoist and turning boards against published values and plain sums."""

from __future__ import annotations

import math

import numpy as np
import pytest

from steepwright.units import INCH_MM, POUND_N
from steepwright.verify import nds
from steepwright.verify.fixings import gapped_n, withdrawal_n
from steepwright.verify.hoists import Hoist
from steepwright.verify.narrow import leaned_mm, longest_mm
from steepwright.verify.tie_bolts import TieBolts
from steepwright.verify.turning import Box, meet, overlap, reach

FACTORS = {
    "withdrawal_rule_least_mm": 6.0,
    "small_screw_density_kg_m3": 350.0,
    "small_screw_withdrawal_mpa": 10.0,
}


@pytest.mark.parametrize(
    ("d", "length", "force"),
    [(6.0, 48.0, 3377), (8.0, 80.0, 8233), (10.0, 100.0, 11253), (12.0, 120.0, 14525)],
)
def test_threads_bear_what_the_rule_of_2008_gives(d: float, length: float, force: float) -> None:
    """(8.38) on C24, with kd = d/8 up to 8 mm: the values of tests/validation."""
    assert withdrawal_n(FACTORS, d, length, 350.0) == pytest.approx(force, abs=0.5)


@pytest.mark.parametrize(("inch", "pounds"), [(1 / 4, 225), (3 / 8, 305), (1 / 2, 378)])
def test_lag_screws_bear_what_table_12_2a_gives(inch: float, pounds: float) -> None:
    """NDS Table 12.2A, G = 0.50, per inch of thread."""
    per_mm = nds.thread_n_mm(FACTORS, 0.50, inch * INCH_MM)
    assert per_mm * INCH_MM / POUND_N == pytest.approx(pounds, abs=0.6)


@pytest.mark.parametrize("gap", [1.0, 12.5, 40.0])
def test_a_slender_screw_yields_where_its_shear_vanishes(gap: float) -> None:
    """The moment along the screw, summed in small steps: its peak under F is what it bears."""
    force = gapped_n(160.0, 29_000.0, 1e5, gap)
    x = np.linspace(0.0, 2 * force / 160.0, 200_001)
    moment = force * (gap + x) - 160.0 * x**2 / 2
    assert float(moment.max()) == pytest.approx(29_000.0, rel=1e-6)


def test_an_eye_bolt_bears_what_its_washer_and_its_thread_do() -> None:
    """By hand, M10 of 4.6 through 100 mm of C24, the figures of tests/validation for its washer.

    Washer 3 x 2.5 x 611.8 mm2 = 4589 N, before its steel. Across: fh = 0.082 x 0.9 x 350 / 1.5 =
    17.22 MPa; My = 0.3 x 400 x 10^2.6 = 47773 Nmm; 1.15 sqrt(2 x 47773 x 17.22 x 10) = 4665 N.
    """
    factors = {
        "lip_bolt_mm": 10.0, "lip_bolt_tensile_mpa": 400.0, "bolt_tension_factor": 0.9,
        "washer_bearing_factor": 3.0, "kmod_solid_short": 0.9, "gamma_m_connection": 1.3,
        "gamma_m2_steel": 1.25,
    }  # fmt: skip
    c24 = {"rho_k_kg_m3": 350.0, "fc90_k_mpa": 2.5}
    given = {"factors": factors, "sections": [], "timber_classes": {"C24": c24}}
    bolts = TieBolts(given, {"width_mm": 100, "grade": "C24"})
    lasts = 0.9 / 1.3
    told = math.hypot(1 / (lasts * 4589), 1 / (lasts * 4665))
    assert bolts.per_n == pytest.approx(told, rel=1e-3)


HOIST = {
    "sheave_efficiency_plain": 0.9,
    "hoist_parts": 3,
    "hoist_beside_mm": 40.0,
    "hoist_margin_mm": 50.0,
    "hoist_eye_share": 0.55,
    "hand_pull_start_kg": 20.0,
    "carry_team2_factor": 2 / 3,
    "carry_team3_factor": 0.5,
}
ROOM = {
    "beams": [{"x_mm": x, "width_mm": 100} for x in (1000, 2000, 3200)],
    "wall": {},
    "access": {"carriers": 2},
}


def test_a_tackle_gains_what_its_sheaves_leave() -> None:
    """Rope over sheaves one by one: each part bears E of the one before, the free end turns once.

    The poorest on offer counts, a plain one where nothing is stated.
    """
    hoist = Hoist({"factors": HOIST, "sheaves": [0.95, None]}, ROOM)
    part, borne = 0.9, 0.0
    for _ in range(3):
        part *= 0.9
        borne += part
    assert hoist.gain == pytest.approx(borne)
    # HSE L23: 20 kg of pull to start a load, two people two thirds of both.
    assert hoist.hand_n == pytest.approx(20 * 9.80665 * 2 * 2 / 3)


def test_eyes_lie_below_the_farthest_beam_over_the_board() -> None:
    """By hand: from the beam at 3200 the others are 1200 and 2200 behind, blocks 90 beside."""
    hoist = Hoist({"factors": HOIST, "sheaves": []}, ROOM)
    own = np.array([2, 2, 2, 2])
    eyes = hoist.eyes_mm("+x", own, np.array([2300.0, 2200.0, 2100.0, 1500.0]))
    assert eyes.tolist() == [2200.0, 2150.0, 1200.0, 1200.0]
    # Nothing lies behind a wall that faces the others.
    assert hoist.eyes_mm("-x", own[:1], np.array([2300.0])).tolist() == [2250.0]


def sampled(rect: tuple[float, ...], turn: tuple[float, float], box: tuple[float, ...]) -> bool:
    """Tell whether one of many points of a rectangle gets into a box at one of many angles."""
    u, v = np.meshgrid(np.linspace(rect[0], rect[1], 61), np.linspace(rect[2], rect[3], 61))
    t = np.linspace(*turn, 200)[:, None]
    x = u.ravel() * np.cos(t) - v.ravel() * np.sin(t)
    y = u.ravel() * np.sin(t) + v.ravel() * np.cos(t)
    inside = (x > box[0]) & (x < box[1]) & (y > box[2]) & (y < box[3])
    return bool(inside.any())


def test_turning_boards_meet_what_points_of_them_meet() -> None:
    """Points tried one by one: none gets in unseen, and what is said to meet is next to one."""
    r, seen = np.random.default_rng(1), 0
    for _ in range(150):
        u, v, start = r.uniform(-3, 1), r.uniform(-3, 1), r.uniform(0, 1.5)
        rect = (u, u + r.uniform(0.2, 3), v, v + r.uniform(0.2, 3))
        x, y, turn = r.uniform(-5, 5), r.uniform(-5, 5), (start, start + r.uniform(0, 1.5))
        box = (x, x + r.uniform(0.1, 4), y, y + r.uniform(0.1, 4))
        ends = [np.array([angle]) for angle in turn]
        told = bool(meet(_box(rect), *ends, _box(box))[0])
        grown = (box[0] - 0.06, box[1] + 0.06, box[2] - 0.06, box[3] + 0.06)
        assert told or not sampled(rect, turn, box)
        assert sampled(rect, turn, grown) or not told
        at_first = bool(overlap(_box(rect), ends[0], _box(box))[0])
        assert told or not at_first
        seen += told
    assert 20 < seen < 130


def test_a_rod_gets_round_a_corner_by_the_astroid() -> None:
    """A rod of no width: (a^(2/3) + b^(2/3))^(3/2), a worked example of every calculus book."""
    for a, b in ((900.0, 950.0), (700.0, 1300.0)):
        rod = longest_mm(a, b, np.zeros(1), math.pi / 2)[0]
        assert rod == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5, rel=1e-12)


@pytest.mark.parametrize("turn", [math.pi / 2, 0.6])
def test_the_longest_piece_round_a_corner_is_the_least_over_its_angles(turn: float) -> None:
    """The same width tried at a million angles; sliding through sideways is longer at times."""
    a, b, w = 900.0, 950.0, 400.0
    t = np.linspace(0, turn, 1_000_001)[1:-1]
    turning = (a - w * np.cos(t)) / np.sin(t) + (b - w * np.cos(turn - t)) / np.sin(turn - t)
    slides = (max(a, b) - w * round(math.cos(turn), 12)) / math.sin(turn)
    longest = longest_mm(a, b, np.array([w]), turn)[0]
    assert longest == pytest.approx(max(turning.min(), slides), rel=1e-9)


def test_a_sheet_leans_in_a_doorway_until_it_just_fits() -> None:
    """Turned step by step from upright to lying: the least width of all that are low enough."""
    t = np.linspace(0, math.pi / 2, 200_001)
    for p, q, most in ((2400.0, 1200.0, 1900.0), (2000.0, 300.0, 2000.0), (1500.0, 900.0, 1000.0)):
        high, wide = p * np.cos(t) + q * np.sin(t), p * np.sin(t) + q * np.cos(t)
        told = leaned_mm(np.array([p]), np.array([q]), most)[0]
        assert told == pytest.approx(wide[high <= most + 1e-9].min(), rel=1e-4)
    assert leaned_mm(np.array([2400.0]), np.array([1200.0]), 1100.0)[0] == math.inf


def _box(sides: tuple[float, ...]) -> Box:
    return Box(*(np.array([side]) for side in sides))


def test_a_board_reaches_as_far_as_its_corner_when_that_is_level() -> None:
    """By hand: the corner at (3, 4) turns back through the level one way, at 5 to the left."""
    board, level = _box((0.0, 3.0, 0.0, 4.0)), np.array([math.pi / 2])
    low, high = reach(board, np.zeros(1), level)
    assert (low[0], high[0]) == pytest.approx((-4.0, 3.0))
    low, high = reach(board, np.zeros(1), 2 * level)
    assert low[0] == pytest.approx(-5.0)
