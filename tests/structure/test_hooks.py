"""The worst way the mounts can hold the board, against a linear program over all ways."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from steepwright.structure.hooks import hook_effects

SPAN = 4000.0


def worst_moment(places, centre):
    """Largest moment at any section over all shares w >= 0 that hold the board."""
    inside = np.array(places)
    worst = 0.0
    for x in np.linspace(0, SPAN, 401)[1:-1]:
        line = np.where(x <= inside, x * (SPAN - inside), inside * (SPAN - x)) / SPAN
        equal = np.vstack([np.ones(len(inside)), inside])
        answer = linprog(-line, A_eq=equal, b_eq=[1.0, centre])
        worst = max(worst, -answer.fun)
    return worst


@settings(max_examples=25, deadline=None)
@given(
    start=st.floats(50, 1500),
    gaps=st.lists(st.floats(200, 700), min_size=1, max_size=3),
)
def test_no_way_to_hold_the_board_is_worse(start, gaps):
    places = tuple(np.cumsum([start, *gaps]))
    centre = (places[0] + places[-1]) / 2
    found = hook_effects(places, centre, SPAN)
    real = worst_moment(places, centre)
    assert real <= found.arm_weight_mm * (1 + 1e-9) + 1e-6
    assert found.arm_weight_mm <= real + 15  # sections every 10 mm; or one within 1 mm of centre


def test_three_mounts_may_hang_it_all_on_the_middle_one():
    found = hook_effects((1400.0, 2000.0, 2600.0), 2000.0, SPAN)
    assert found.arm_weight_mm == found.arm_climb_mm == pytest.approx(1000.0)


def test_two_mounts_far_apart_ease_the_beam():
    near = hook_effects((1700.0, 2300.0), 2000.0, SPAN)
    far = hook_effects((1000.0, 3000.0), 2000.0, SPAN)
    assert far.arm_climb_mm < near.arm_climb_mm
    assert far.arm_weight_mm < near.arm_weight_mm
    assert far.end_climb > near.end_climb


def test_a_mount_beyond_the_support_counts_as_on_it():
    found = hook_effects((-100.0, 1100.0), 500.0, SPAN)
    assert found.end_climb == 1.0
    assert found.arm_climb_mm == pytest.approx(1100 * 2900 / 4000)


def test_a_mount_next_to_the_centre_may_carry_it_alone():
    # Alone at x of 3600 it bends the beam by x (3600 - x) / 3600; from 1 mm on the other helps.
    alone = hook_effects((1199.0, 3000.0), 1200.0, 3600.0).arm_weight_mm
    assert alone == pytest.approx(1199.0 * 2401.0 / 3600)
    shared = hook_effects((1198.0, 3000.0), 1200.0, 3600.0).arm_weight_mm
    share = (3000.0 - 1200.0) / (3000.0 - 1198.0)
    arm = share * 1198.0 * 2402.0 / 3600 + (1 - share) * 600.0 * 1198.0 / 3600
    assert shared == pytest.approx(arm)
    assert shared < 1198.0 * 2402.0 / 3600
