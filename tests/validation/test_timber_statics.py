"""Beam formulas against handbook tables and against double integration.

Sources: AWC Design Aid 6, Beam Design Formulas with Shear and Moment Diagrams, figures 1 to 32
(read in copies); for a load anywhere, the beam's curvature integrated twice by numpy here.
"""

import numpy as np
import pytest

from steepwright.structure.beam import (
    middle_deflection_mm,
    overhang_deflection_mm,
    overhang_moment_nmm,
    point_deflection_mm,
    point_largest_deflection,
    point_moment_nmm,
    udl_deflection_mm,
    udl_moment_nmm,
)
from steepwright.structure.timber import second_moment_mm4

EI = 11000.0 * second_moment_mm4(45.0, 145.0)


def integrated(load_n, at_mm, span_mm, ei):
    """Deflection line of a simple beam by trapezoids: w'' = -M/EI, w = 0 at both ends."""
    x = np.linspace(0.0, span_mm, 200_001)
    moment = load_n * np.minimum(x * (span_mm - at_mm), at_mm * (span_mm - x)) / span_mm
    step = x[1]
    slope = np.concatenate([[0.0], np.cumsum((moment[1:] + moment[:-1]) / 2 * step)])
    line = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
    return x, (x / span_mm * line[-1] - line) / ei


def test_even_load_of_a_worked_beam():
    # 4.8 m, 2.4 kN/m, E 11000, I 7119 cm4.
    assert udl_deflection_mm(2.4, 4800.0, 11000.0 * 7119e4) == pytest.approx(21.18, abs=0.005)


def test_point_load_off_the_middle():
    assert second_moment_mm4(45.0, 145.0) == pytest.approx(11_432_344, abs=0.5)
    assert point_moment_nmm(1600.0, 1600.0, 2400.0) == pytest.approx(853_333, abs=0.5)
    assert point_deflection_mm(1600.0, 1600.0, 2400.0, EI) == pytest.approx(2.8952, abs=5e-5)
    sag, place = point_largest_deflection(1600.0, 1600.0, 2400.0, EI)
    assert (sag, place) == (pytest.approx(3.1519, abs=5e-5), pytest.approx(1306.4, abs=0.05))


@pytest.mark.parametrize("at_mm", [300.0, 1200.0, 1600.0, 2200.0])
def test_point_load_against_double_integration(at_mm):
    x, line = integrated(1600.0, at_mm, 2400.0, EI)
    sag, place = point_largest_deflection(1600.0, at_mm, 2400.0, EI)
    assert sag == pytest.approx(line.max(), rel=1e-8)
    far_end = place if at_mm >= 1200.0 else 2400.0 - place
    assert far_end == pytest.approx(x[line.argmax()], abs=0.5)
    at_load = np.interp(at_mm, x, line)
    assert point_deflection_mm(1600.0, at_mm, 2400.0, EI) == pytest.approx(at_load, rel=1e-7)


def test_handbook_cases_in_their_own_letters():
    p, w, length, a = 1000.0, 1.5, 3000.0, 400.0
    assert udl_moment_nmm(w, length) == pytest.approx(w * length**2 / 8)
    assert middle_deflection_mm(p, length, EI) == pytest.approx(p * length**3 / (48 * EI))
    # Overhang a beyond span l, load at its tip: figure 26.
    assert overhang_moment_nmm(p, a) == pytest.approx(p * a)
    assert overhang_deflection_mm(p, a, length, EI) == pytest.approx(
        p * a**2 * (length + a) / (3 * EI)
    )


@pytest.mark.parametrize("at_mm", [200.0, 900.0, 1700.0])
def test_a_mirrored_beam_sags_the_same(at_mm):
    mirrored = 2400.0 - at_mm
    assert point_moment_nmm(1.0, at_mm, 2400.0) == pytest.approx(
        point_moment_nmm(1.0, mirrored, 2400.0)
    )
    assert point_largest_deflection(1.0, at_mm, 2400.0, EI) == pytest.approx(
        point_largest_deflection(1.0, mirrored, 2400.0, EI)
    )
