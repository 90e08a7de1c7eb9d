"""Semi-rigid composite action against published and independently solved values.

Sources: LVL Handbook Europe (Federation of the Finnish Woodworking Industries, 2025), worked
example 9.1, p. 182-183; Dlubal knowledge base 000873 (slip modulus of a screw); the exact
solution of the two-layer beam with a flexible joint (Newmark, Siess, Viest 1951; Girhammar)
under a sinusoidal load, written out here as a formula of its own.
"""

from types import SimpleNamespace

import numpy as np
import pytest

from elastic.composite import Joint, Rib, effective, gamma
from steepwright.structure.rows import stiffening
from steepwright.structure.screws import slip_n_per_mm

# Birch plywood 17.6 mm, 400 mm wide, on a 45 x 95 stud.
RIB = Rib(9000.0, 400.0, 17.6, 11000.0, 45.0, 95.0)


def test_slip_modulus_of_screws():
    assert slip_n_per_mm(6.0, 420.0, 750.0, 23.0) == pytest.approx(3469, abs=0.5)  # Dlubal
    assert slip_n_per_mm(5.0, 420.0, 420.0, 23.0) == pytest.approx(1871.18, abs=0.005)


def stiffer(ea_strip, t, ei_stud, depth, joint, span):
    """What the checks count: (EI)ef over the stud's EI, without the strip's own EI."""
    one = np.ones(1)
    wall = SimpleNamespace(rows=one, screw_mm=joint.spacing_mm * one, board_mm=span * one)
    sheet = SimpleNamespace(ea_strip_n=ea_strip, t_mm=t)
    bar = SimpleNamespace(ei_nmm2=ei_stud, h_mm=depth)
    found = stiffening(wall, sheet, bar, SimpleNamespace(slip_n_per_mm=joint.slip_n_per_mm * one))
    return float(found[0])


def test_floor_cross_bracing_of_the_lvl_handbook():
    # The example's nails have Kser 454 N/mm.
    chord = gamma(7000.0 * 22 * 100, Joint(454.0, 200.0), 5000.0)
    assert chord == pytest.approx(0.27, abs=0.005)
    own, arm = 100 * 22**3 / 12, (240 + 22) / 2
    per_width = 4 * 7000 * (own + chord * 22 * 100 * arm**2) / 4500  # two chords, two sides
    assert per_width * 1e-3 == pytest.approx(6.44e4, rel=1e-3)  # [Nm2/m]
    # What the checks count is the same for one chord on a web that doesn't stretch.
    web = 1e12 * 240**2 / 12
    helped = (stiffer(7000.0 * 22 * 100, 22.0, web, 240.0, Joint(454.0, 200.0), 5000.0) - 1) * web
    assert helped / (7000 * 22 * 100 * arm**2) == pytest.approx(0.27, abs=0.005)
    whole = 4 * (7000 * own + helped) / 4500
    assert whole * 1e-3 == pytest.approx(6.44e4, rel=1e-3)


@pytest.mark.parametrize(
    ("spacing", "gamma_1", "ei"),
    [
        (100.0, 0.1470, 6.16461268e10),
        (150.0, 0.1031, 5.51764933e10),
        (300.0, 0.0543, 4.71692329e10),
    ],
)
def test_annex_b_is_the_exact_solution_for_a_sinusoidal_load(spacing, gamma_1, ei):
    slip, span = 420**1.5 * 5 / 23, 2400.0
    ea1, ea2 = 9000 * 400 * 17.6, 11000 * 45 * 95
    ei0 = ea1 * 17.6**2 / 12 + ea2 * 95**2 / 12
    r = (17.6 + 95) / 2
    joint_ea = ea1 * ea2 / (ea1 + ea2)
    alpha2 = slip / spacing * (1 / joint_ea + r**2 / ei0)
    stiff = 1 / (ei0 + joint_ea * r**2)
    exact = 1 / (stiff + (1 / ei0 - stiff) / (1 + alpha2 * (span / np.pi) ** 2))

    part = effective(RIB, Joint(slip, spacing), span)
    assert part.ei_nmm2 == pytest.approx(exact, rel=1e-13)
    assert part.ei_nmm2 == pytest.approx(ei, rel=1e-8)
    stud = ea2 * 95**2 / 12
    counted = stud * stiffer(ea1, 17.6, stud, 95.0, Joint(slip, spacing), span)
    assert counted + ea1 * 17.6**2 / 12 == pytest.approx(ei, rel=1e-8)
    assert part.gamma == pytest.approx(gamma_1, abs=5e-5)
    if spacing == 100.0:
        assert part.a_stud_mm == pytest.approx(9.3083, abs=5e-5)
