"""Lifting a wall that folds up: arithmetic by hand, and the bound against the statics of the lift.

The wall of `test_rules_by_hand`: 18 mm birch, 5 studs 45 x 145 C24, 2.6 m x 2.2 m, kicker 250 mm.
"""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.structure import checks, self_weights_n, uses
from steepwright.structure.hoist import Lift, lift_forces
from steepwright.structure.hooks import hook_effects
from steepwright.structure.rows import look_up
from steepwright.structure.rules_lift import RULES
from steepwright.structure.types import NO_CAPACITY

G = 9.80665
BAR = 45 * 145 * 420e-9 * G
BOARD = 2600 * 2200 * (17.6 * 680e-9 + 8e-6) * G + BAR * (5 * (2600 - 90) + 2 * 2200)
# The kicker counts as of the heaviest sheet on offer, birch of 21 mm.
KICKER = 250 * 2200 * 20.4 * 680e-9 * G + BAR * (2 * 2200 + 5 * (250 - 90))
DEEP = 17.6 + 145


def lines_n(eye_mm):
    return (BOARD * math.hypot(1300, DEEP) + KICKER * math.hypot(2600, DEEP)) / eye_mm


@pytest.fixture(scope="module")
def found(tables, make_batch):
    return {check.name: check for check in checks(tables, make_batch(eye_mm=2300.0))}


def test_lines_share_and_one_lost_holds_all(found):
    assert found["lifting line"].demand == pytest.approx(lines_n(2300) / 2)
    # Rope of 24 kN, half left by knots: 12 as a life line, 6 when the other one is lost.
    assert found["lifting line"].capacity == pytest.approx(24000 * 0.5 / 12)
    assert found["lifting line, one lost"].demand == pytest.approx(lines_n(2300))
    assert found["lifting line, one lost"].capacity == pytest.approx(24000 * 0.5 / 6)


def test_a_block_that_turns_a_line_back_carries_it_twice(found):
    assert found["lifting block and sling"].demand == pytest.approx(2 * lines_n(2300))
    assert found["lifting block and sling"].capacity == pytest.approx(3000)  # rating, < 15000 / 4


def test_hand_force_of_four_parts_on_plain_sheaves(found):
    # Pipeline Rules of Thumb p. 6: four parts on plain sheaves (1/1.09) gain 3.25; one more turn.
    gain = 3.25 / 1.09
    assert found["hand force on the hoist"].demand == pytest.approx(lines_n(2300) / gain, rel=5e-3)
    # L23: 20 kg to start a pull; two people two thirds of the sum (0.667 in our table).
    assert found["hand force on the hoist"].capacity == pytest.approx(20 * G * 2 * 0.667)
    assert found["hoist brake"].demand == pytest.approx(lines_n(2300) / 4)


def test_lift_beam_carries_both_blocks_besides_its_permanent_load(found):
    own = 120 * 240 * 420e-9 * G
    dead = 1.35 * (0.25 + own) * 3600**2 / 8
    moment = dead + 1.35 * 2 * lines_n(2300) * 3600 / 4
    bending = found["lift beam bending"]
    assert bending.use == pytest.approx(moment / (120 * 240**2 / 6 * 24 * 0.6 / 1.3))


def test_lift_beam_carries_both_blocks_besides_its_whole_load(catalog, make_tables, make_batch):
    # EN 1990 (6.10): with 3 kN/m on the beam its variable half decides, kmod 0.9 in place of 0.6.
    tables = make_tables(catalog, load_n_per_m=3000.0)
    bending = {c.name: c for c in checks(tables, make_batch(eye_mm=2300.0))}["lift beam bending"]
    own = 120 * 240 * 420e-9 * G
    even = (1.35 * (1.5 + own) + 1.5 * 1.5) * 3600**2 / 8
    moment = even + 1.35 * 2 * lines_n(2300) * 3600 / 4
    assert bending.use == pytest.approx(moment / (120 * 240**2 / 6 * 24 * 0.9 / 1.3))


def test_lift_beam_carries_the_blocks_at_their_own_places(catalog, make_tables, make_batch):
    # Blocks at 600 and 2600 of 3600 mm, the board's middle at 1600: P/2 each, so by statics
    # R = P 2000/3600 beside the first one, M = R 600 or (P - R) 1000, P a b / l on one alone.
    tables = make_tables(catalog, load_n_per_m=3000.0)
    made = hook_effects((600.0, 2600.0), 1600.0, 3600.0)
    wall = make_batch(
        eye_mm=2300.0,
        lift_arm_mm=made.arm_weight_mm,
        lift_arm_lost_mm=made.arm_climb_mm,
        lift_end=made.end_weight,
        lift_sag=made.sag_weight,
    )
    found = {c.name: c for c in checks(tables, wall)}
    blocks, own = 2 * lines_n(2300), 120 * 240 * 420e-9 * G
    dead, live = 1.35 * (1.5 + own), 1.5 * 1.5
    near = 2000 / 3600
    arm = max(near * 600, (1 - near) * 1000)
    moment = (dead + live) * 3600**2 / 8 + 1.35 * blocks * arm
    assert found["lift beam bending"].demand == pytest.approx(moment)
    lost = (dead + live) * 3600**2 / 8 + blocks * 2600 * 1000 / 3600
    assert found["lift beam, one line lost"].demand == pytest.approx(lost)
    assert found["lift beam, one line lost"].capacity == pytest.approx(
        120 * 240**2 / 6 * 24 * 1.1, rel=1e-3
    )
    force = (dead + live) * 1800 + 1.35 * blocks * near
    assert found["lift beam shear"].demand == pytest.approx(force)
    assert found["lift beam bearing"].demand == pytest.approx(force)
    assert found["lift beam shear"].capacity == pytest.approx(
        4.0 * 0.9 / 1.3 * 0.67 * 120 * 240 / 1.5
    )
    assert found["lift beam bearing"].capacity == pytest.approx(2.5 * 0.9 / 1.3 * 120 * (80 + 30))
    ei = 11000 * 120 * 240**3 / 12
    lasting = (1.5 + own) * 1.6 + 1.5 * (1 + 0.3 * 0.6)
    exact = sum(blocks / 2 * _sag(at, 1640.0) / ei for at in (600.0, 2600.0))
    sag = found["lift beam deflection"].demand - 5 * lasting * 3600**4 / (384 * ei)
    assert exact <= sag <= 1.05 * exact
    assert found["lift beam deflection"].capacity == pytest.approx(12.0)


def _sag(at, x, span=3600.0):
    """EI times the deflection at x by 1 N at `at` of a simple beam (any table of formulas)."""
    far, x = (span - at, x) if x <= at else (at, span - x)
    return far * x * (span**2 - far**2 - x**2) / (6 * span)


def test_a_beam_that_is_not_over_the_eye_carries_no_blocks(tables, make_batch):
    found = {c.name: c for c in checks(tables, make_batch(lift_beam=-1))}
    for name, check in found.items():
        if name.startswith("lift beam"):
            assert check.demand == 0, name
            assert not check.settled, name


def test_without_a_latch_on_offer_no_wall_that_folds_up_passes(catalog, make_tables, make_batch):
    hardware = tuple(h for h in catalog.hardware if h.kind != "latch")
    bare = make_tables(dataclasses.replace(catalog, hardware=hardware))
    found = uses(bare, make_batch())
    assert found["second independent hold"][0] == 2.0
    assert found["latch alone"][0] > 1


def test_each_latch_holds_the_parked_wall_alone(found):
    # Breaking 12 kN over 4 is its rating, 3 kN.
    assert found["latch alone"].demand == pytest.approx(lines_n(2300))
    assert found["latch alone"].capacity == pytest.approx(3000)
    assert found["latch alone"].use == pytest.approx(lines_n(2300) / 3000)


@pytest.mark.parametrize(("latches", "use"), [(0, 2.0), (1, 1.0), (2, 2 / 3)])
def test_a_missing_second_hold_fails_however_strong_the_first(tables, make_batch, latches, use):
    # The hoist with its brake is one hold.
    strong = dataclasses.replace(tables.hoist, holds=1.0 + latches, latch_n=9e9, brake_n=9e9)
    found = uses(dataclasses.replace(tables, hoist=strong), make_batch())
    assert found["second independent hold"][0] == pytest.approx(use)


def test_a_line_that_carries_nothing_is_never_enough(tables, make_batch):
    bare = dataclasses.replace(tables, hoist=dataclasses.replace(tables.hoist, line_n=0.0))
    assert uses(bare, make_batch())["lifting line"][0] >= NO_CAPACITY


def test_lines_that_go_to_the_ceiling_are_not_settled(tables, make_batch):
    by_beam = {
        above: {c.name: c for c in checks(tables, make_batch(lift_beam=above))}["lift beam bending"]
        for above in (-1, 0, 1)
    }
    assert [by_beam[above].settled for above in (-1, 0, 1)] == [False, True, False]
    assert by_beam[-1].demand == 0
    assert "ceiling" in by_beam[-1].assumption
    assert "graded" in by_beam[1].assumption


def test_a_wall_that_stays_down_needs_no_hoist(tables, make_batch):
    still = dataclasses.replace(tables, loads=dataclasses.replace(tables.loads, fold_up=False))
    own = {rule.name for rule in RULES} | {"kicker hinge", "foot rail, parked"}
    batch = make_batch(lift_beam=-1)
    none = uses(still, batch)
    assert {name for name in own if none[name][0] == 0} == own
    shown = {check.name for check in checks(still, batch)}
    assert not own & shown
    assert {check.name for check in checks(tables, batch)} == own | shown


@settings(max_examples=200, deadline=None)
@given(
    board=st.floats(1500, 4200),
    kicker=st.sampled_from([0.0, 200.0, 400.0]),
    share=st.floats(0.55, 0.98),
    setback=st.floats(0, 60),
    behind=st.floats(30, 90),
    over=st.floats(-150, 600),
    standing=st.floats(0, math.radians(60)),
)
def test_bound_holds_over_the_whole_lift(
    board, kicker, share, setback, behind, over, standing, tables, make_batch
):
    # Independent of the proof in `rows`: moments about the pivot at 400 angles.
    eye = share * (board - setback)
    wall = make_batch(board_mm=board, kicker_mm=kicker, eye_mm=eye)
    weights = [float(w[0]) for w in self_weights_n(tables, wall, wall.sheet)]
    back = max(163.0 - behind, 0.0)
    along = (weights[0] * board / 2 + weights[1] * (board - kicker / 2)) / sum(weights)
    lift = Lift(
        sum(weights), along - setback, 163 / 2 - behind, eye, back, eye, max(over, back + 100)
    )
    curve = lift_forces(lift, np.linspace(standing, np.pi / 2, 400))
    bound = look_up(tables, wall).lines_n[0]
    assert curve.largest_rope_n <= bound * (1 + 1e-9)
