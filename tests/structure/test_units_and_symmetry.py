"""What doesn't depend on the units it is written in, or on which side is called left.

Newtons and millimetres give the same as kilonewtons and metres: with lengths in another unit and
forces in another one, a moment changes by both. Formulas that are empirical in their units, (8.38)
and the embedment strengths, can't be tested so.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elastic.composite import Joint, Rib, effective
from elastic.grillage import Grillage, PointLoad, respond
from steepwright.structure.beam import point_moment_nmm, udl_deflection_mm
from steepwright.structure.hooks import hook_effects
from steepwright.structure.screws import ShearJoint, johansen_n
from steepwright.structure.timber import kcrit, splitting_n

LENGTH, FORCE = st.floats(1e-3, 10.0), st.floats(1e-3, 10.0)
SPAN, PART = st.floats(1200, 4200), st.floats(0.05, 0.95)


def grillage_of(span, bay, ei, across, where, part, studs=5):
    one = np.array([1.0])
    grid = Grillage(span * one, bay * one, np.full((1, studs), ei), across * one, ())
    return respond(grid, PointLoad(where * one, part * span * one))


@settings(max_examples=60, deadline=None)
@given(SPAN, PART, LENGTH, FORCE)
def test_a_beam_in_other_units(span, part, mm, n):
    moment = float(point_moment_nmm(900.0, part * span, span))
    assert float(point_moment_nmm(900.0 * n, part * span * mm, span * mm)) == pytest.approx(
        moment * n * mm, rel=1e-9
    )
    ei, line = 1.1e11, 0.4
    sag = float(udl_deflection_mm(line, span, ei))
    other = float(udl_deflection_mm(line * n / mm, span * mm, ei * n * mm**2))
    assert other == pytest.approx(sag * mm, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(SPAN, st.floats(60, 200), st.floats(100, 5000), LENGTH, FORCE)
def test_stud_and_sheet_in_other_units(span, depth, slip, mm, n):
    def stiffness(mm, n):
        stress = n / mm**2
        rib = Rib(9000 * stress, 400 * mm, 18 * mm, 11000 * stress, 45 * mm, depth * mm)
        return float(effective(rib, Joint(slip * n / mm, 150.0 * mm), span * mm).ei_nmm2)

    assert stiffness(mm, n) == pytest.approx(stiffness(1.0, 1.0) * n * mm**2, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(9, 30), st.floats(20, 90), st.floats(3, 8), st.floats(0, 900), LENGTH, FORCE)
def test_a_screw_across_its_axis_in_other_units(t1, t2, d, axial, mm, n):
    def force(mm, n):
        stress = n / mm**2
        return float(
            johansen_n(
                ShearJoint(
                    t1_mm=t1 * mm,
                    t2_mm=t2 * mm,
                    fh1_mpa=25.0 * stress,
                    fh2_mpa=18.0 * stress,
                    diameter_mm=d * mm,
                    yield_nmm=9000.0 * n * mm,
                    axial_n=axial * n,
                )
            )
        )

    assert force(mm, n) == pytest.approx(force(1.0, 1.0) * n, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(14, 40), st.floats(2, 200), FORCE)
def test_tilting_depends_on_the_ratio_of_stresses_alone(strength, critical, n):
    assert float(kcrit(strength * n, critical * n)) == pytest.approx(
        float(kcrit(strength, critical)), rel=1e-9
    )


@settings(max_examples=40, deadline=None)
@given(SPAN, st.floats(250, 700), st.floats(1e6, 1e7), st.floats(0, 4), PART, LENGTH, FORCE)
def test_load_sharing_in_other_units(span, bay, across, where, part, mm, n):
    plain = grillage_of(span, bay, 5e10, across, where, part)
    other = grillage_of(span * mm, bay * mm, 5e10 * n * mm**2, across * n * mm, where, part)
    np.testing.assert_allclose(other.moment_nmm, plain.moment_nmm * mm, rtol=1e-6, atol=1e-6)
    np.testing.assert_allclose(other.lip_n, plain.lip_n, rtol=1e-6, atol=1e-9)
    np.testing.assert_allclose(
        other.deflection_mm, plain.deflection_mm * mm / n, rtol=1e-6, atol=1e-12
    )


@settings(max_examples=40, deadline=None)
@given(SPAN, st.floats(250, 700), st.floats(1e6, 1e7), st.floats(0, 4), PART)
def test_a_load_on_the_other_side_loads_the_other_studs_alike(span, bay, across, where, part):
    left = grillage_of(span, bay, 5e10, across, where, part)
    right = grillage_of(span, bay, 5e10, across, 4 - where, part)
    for name in ("moment_nmm", "deflection_mm", "lip_n"):
        one, other = getattr(left, name)[0], getattr(right, name)[0]
        np.testing.assert_allclose(one, other[::-1], rtol=1e-9, atol=1e-9 * np.abs(one).max())


@settings(max_examples=60, deadline=None)
@given(SPAN, st.lists(PART, min_size=2, max_size=4, unique=True))
def test_mounts_seen_from_the_other_end_of_the_beam_ask_the_same(span, parts):
    places = tuple(sorted(part * span for part in parts))
    centre = (places[0] + places[-1]) / 2
    mirrored = tuple(sorted(span - place for place in places))
    here = hook_effects(places, centre, span)
    there = hook_effects(mirrored, span - centre, span)
    np.testing.assert_allclose(here.row, there.row, rtol=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(60, 200), st.floats(120, 300), st.floats(0.2, 0.7), st.floats(1.0, 3.0))
def test_a_wider_beam_splits_later_in_proportion(b, h, part, times):
    """(8.4) is F = 14 b sqrt(he / (1 - he / h)): linear in the width."""
    one = float(splitting_n(b, h, part * h))
    assert float(splitting_n(b * times, h, part * h)) == pytest.approx(one * times, rel=1e-9)
