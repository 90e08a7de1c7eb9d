"""Fold-up forces from statics done another way, and holds that must be there."""

import numpy as np
import pytest

from steepwright.structure.hoist import (
    Lift,
    hand_force,
    lift_forces,
    parked_shares,
    working_load_n,
)

LIFT = Lift(
    weight_n=900.0,
    cg_mm=1250.0,
    cg_behind_mm=60.0,
    attach_mm=2300.0,
    attach_behind_mm=110.0,
    anchor_x_mm=2100.0,
    anchor_z_mm=250.0,
)
ANGLES = np.radians(np.linspace(20, 88, 35))


def test_level_wall_under_a_plumb_rope_is_a_lever():
    flat = Lift(900.0, 1200.0, 0.0, 2400.0, 0.0, 2400.0, 300.0)
    forces = lift_forces(flat, np.array([np.pi / 2]))
    assert forces.rope_n[0] == pytest.approx(450.0)
    assert forces.pivot_x_n[0] == pytest.approx(0.0, abs=1e-9)
    assert forces.pivot_z_n[0] == pytest.approx(450.0)
    assert forces.rope_length_mm[0] == pytest.approx(300.0)


def test_rope_does_the_work_that_raises_the_centre_of_gravity():
    # Energy: sum of force x rope taken in equals weight x rise, whatever the path.
    fine = np.radians(np.linspace(20, 88, 4001))
    forces = lift_forces(LIFT, fine)
    taken = -np.diff(forces.rope_length_mm)
    work = (0.5 * (forces.rope_n[1:] + forces.rope_n[:-1]) * taken).sum()
    height = LIFT.cg_behind_mm * np.sin(fine) - LIFT.cg_mm * np.cos(fine)
    assert work == pytest.approx(LIFT.weight_n * (height[-1] - height[0]), rel=1e-5)


def test_rope_weight_and_pivot_forces_balance():
    forces = lift_forces(LIFT, ANGLES)
    eye_x = LIFT.attach_mm * np.sin(ANGLES) + LIFT.attach_behind_mm * np.cos(ANGLES)
    eye_z = LIFT.attach_behind_mm * np.sin(ANGLES) - LIFT.attach_mm * np.cos(ANGLES)
    to = np.array([LIFT.anchor_x_mm - eye_x, LIFT.anchor_z_mm - eye_z]) / forces.rope_length_mm
    np.testing.assert_allclose(forces.pivot_x_n + forces.rope_n * to[0], 0.0, atol=1e-6)
    np.testing.assert_allclose(forces.pivot_z_n + forces.rope_n * to[1], 900.0, rtol=1e-9)


def test_a_rope_in_line_with_the_pivot_cannot_lift():
    dead = Lift(900.0, 1200.0, 0.0, 2400.0, 0.0, 0.0, 300.0)
    assert np.isinf(lift_forces(dead, np.array([1e-4, np.pi])).rope_n[0])
    below = Lift(900.0, 1200.0, 0.0, 2400.0, 0.0, 2400.0, -300.0)
    assert np.isinf(lift_forces(below, np.array([np.pi / 2])).rope_n[0])


def test_hand_force_with_and_without_a_brake():
    bare = hand_force(600.0, 3, 0.9, redirects=1)
    assert bare.raise_n == pytest.approx(600 / ((0.9 + 0.81 + 0.729) * 0.9))
    assert bare.hold_n == pytest.approx(200.0)
    held = hand_force(600.0, 3, 0.9, redirects=1, brake=True)
    assert (held.hold_n, held.brake_n) == (0.0, pytest.approx(200.0))


def test_line_against_its_working_load():
    working = working_load_n(12_000.0, 12.0, knot_factor=0.5)
    assert working == pytest.approx(500.0)


def test_lines_of_the_parked_wall():
    two = parked_shares((100.0, 1100.0), 600.0)
    assert (two.whole, two.one_failed) == (0.5, 1.0)
    lean = parked_shares((100.0, 1100.0), 850.0)  # lever: (850 - 100) / 1000
    assert lean.whole == pytest.approx(0.75)
    three = parked_shares((0.0, 600.0, 1200.0), 600.0)
    assert three.whole == pytest.approx(1 / 3)
    assert three.one_failed == pytest.approx(1.0)  # an outer one fails: all on the middle
    assert parked_shares((600.0,), 600.0).one_failed == float("inf")
    assert parked_shares((), 600.0).whole == float("inf")


def test_the_line_whose_loss_is_worst_may_be_the_last_one() -> None:
    # Without the last line all lies beyond the third; without the first, the last one gets
    # 1/3 + (1100 - 800) x 400 / 320,000.
    shares = parked_shares((0.0, 400.0, 800.0, 1200.0), 1100.0)
    assert shares.one_failed == pytest.approx(1.0)
    rest = parked_shares((400.0, 800.0, 1200.0), 1100.0)
    assert rest.whole == pytest.approx(1 / 3 + 300 * 400 / 320_000)
