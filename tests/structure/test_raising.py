"""Forces while a board is raised, against statics in the plane worked out by a solver.

Source of the rule: moments about the hinge (any statics textbook); the solver is numpy's, on the
three equations of equilibrium of a bar on a hinge with an upright force at its other end.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.structure.raising import Body, foot_force_n, lip_force_n, together

G = 9.80665


def upright_force_n(mass_kg: float, from_hinge_mm: float, length_mm: float, up_deg: float) -> float:
    """Solve hinge force (two parts) and upright push at the far end for equilibrium."""
    cosine = np.cos(np.radians(up_deg))
    equations = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 1.0], [0.0, 0.0, length_mm * cosine]])
    weight = np.array([0.0, mass_kg * G, mass_kg * G * from_hinge_mm * cosine])
    return float(np.linalg.solve(equations, weight)[2])


@given(st.floats(1, 200), st.floats(0.0, 1.0), st.floats(1000, 4000), st.floats(0, 85))
def test_push_at_either_end_is_that_of_a_hinged_bar(mass, share, length, elevation):
    body = Body(mass, share * length, 0.0)
    pushed = upright_force_n(mass, share * length, length, elevation)
    assert lip_force_n(body, length) == pytest.approx(pushed, rel=1e-9, abs=1e-9)
    lifted = upright_force_n(mass, (1 - share) * length, length, elevation)
    assert foot_force_n(body, length) == pytest.approx(lifted, rel=1e-9, abs=1e-9)


def test_both_ends_together_carry_the_weight():
    body = Body(40.0, 1000.0, 600.0)
    assert lip_force_n(body, 2500.0) + foot_force_n(body, 2500.0) == pytest.approx(40 * G)


def test_centre_of_joined_masses_by_hand():
    joined = together([Body(10.0, 0.0, 100.0), Body(30.0, 2000.0, 500.0)])
    assert joined == pytest.approx((40.0, 1500.0, 400.0))
    assert together([]) == (0.0, 0.0, 0.0)


def test_masses_add_up_alike_on_every_python():
    # Python 3.12 sums floats with one rounding; before, ten tenths were 0.9999999999999999.
    joined = together([Body(0.1, 1.0, 1.0)] * 10)
    assert joined == Body(1.0, 1.0, 1.0)
