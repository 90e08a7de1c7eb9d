"""The plate series against Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells.

Simply supported rectangular plate, central point load, w = c P a^2 / D, a the shorter side:
the coefficients of the book's table (from memory; its hand-reckoned digits are up to 0.2 %
off for long plates, as the book's own single series shows) and that single series itself, a
solution of another form than ours. Beam limit: a load all along a long strip.
"""

import numpy as np
import pytest

from elastic.plate import Plate, central_load

COEFFICIENTS = [
    (1.0, 0.01160),
    (1.1, 0.01265),
    (1.2, 0.01353),
    (1.4, 0.01484),
    (1.6, 0.01570),
    (2.0, 0.01651),
    (3.0, 0.01690),
]


@pytest.mark.parametrize(("aspect", "coefficient"), COEFFICIENTS)
def test_isotropic_plate_under_a_central_load(aspect, coefficient):
    a, d = 500.0, 4.0e6
    plate = Plate(a, aspect * a, d, d, d, poisson=0.3)
    sag = central_load(plate, (2.0, 2.0)).deflection_mm
    assert sag * d / a**2 == pytest.approx(coefficient, rel=2.5e-3)
    odd = np.arange(1, 200, 2)
    edge = odd * np.pi * aspect / 2
    single = ((np.tanh(edge) - edge * (1 - np.tanh(edge) ** 2)) / odd**3).sum() / (2 * np.pi**3)
    assert sag * d / a**2 == pytest.approx(single, rel=2e-4)


def test_a_load_all_along_a_long_strip_bends_it_as_a_beam():
    a, b, d, patch = 500.0, 5000.0, 4.0e6, 20.0
    strip = central_load(Plate(a, b, d, d, d), (patch, b))
    # Patch of 20 mm on a simple beam (AWC Design Aid 6): M = P/4 (a - c/2); w = P a^3 / 48 D.
    assert strip.moment_nmm_per_mm * b == pytest.approx(a / 4 - patch / 8, rel=2e-3)
    assert strip.deflection_mm * b == pytest.approx(a**3 / (48 * d), rel=3e-3)
