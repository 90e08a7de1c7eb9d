"""A seam across the slope: limits, and the trade's rule that it needs a stronger frame.

That studs must be much stronger when the sheets are split across the slope is common
practice, no source; nothing in the model says so, it follows from the cut sheet.
"""

import numpy as np
import pytest

from elastic.composite import Joint, Rib, effective
from elastic.seams import seam_factors
from steepwright.structure.grillage_share import stud_share
from steepwright.structure.rules_frame import seam_blocking

RIB = Rib(9000.0, 400.0, 17.6, 11000.0, 45.0, 95.0)
JOINT = Joint(1871.18, 100.0)


def test_no_seam_costs_nothing():
    for seam in (0.0, 2400.0):
        part = seam_factors(RIB, JOINT, 2400.0, seam)
        assert (part.ei_ratio, part.moment_ratio, part.seam_place) == (1.0, 1.0, 0.0)


def test_at_a_seam_at_mid_span_the_stud_stands_alone():
    part = seam_factors(RIB, JOINT, 2400.0, 1200.0)
    assert part.stud_stress_per_mm3 == pytest.approx(6 / (45 * 95**2))
    assert part.ei_nmm2 > RIB.ei_stud_nmm2


def test_stiffness_between_loose_parts_and_none_lost_for_a_perfect_joint():
    loose = seam_factors(RIB, Joint(1e-6, 100.0), 2400.0, 1200.0)
    assert loose.ei_nmm2 == pytest.approx(RIB.ei_separate_nmm2, rel=1e-4)
    glued = seam_factors(RIB, Joint(1e9, 100.0), 2400.0, 1200.0)
    assert glued.ei_nmm2 == pytest.approx(RIB.ei_rigid_nmm2, rel=0.01)
    assert glued.moment_ratio < 0.75  # glue doesn't help the section at the seam


def test_cost_grows_towards_mid_span_and_is_the_same_from_either_end():
    seams = np.linspace(100.0, 2300.0, 45)
    part = seam_factors(RIB, JOINT, np.full(45, 2400.0), seams)
    np.testing.assert_allclose(part.moment_ratio, part.moment_ratio[::-1], rtol=1e-9)
    np.testing.assert_allclose(part.ei_nmm2, part.ei_nmm2[::-1], rtol=1e-9)
    assert np.all(np.diff(part.moment_ratio[:23]) <= 1e-9)
    assert part.moment_ratio.argmin() == 22
    assert np.all(part.ei_ratio < 1.0)


def needed_depth_mm(*, crosswise: bool, stress_mpa: float) -> float:
    """Return the stud depth for 1.6 kN anywhere on a wall 2440 wide and 2440 long.

    Both ways take the same birch plywood 18 mm in sheets 1220 x 2440 with the face grain
    along the length, on seven studs: side by side, or one above the other.
    """
    e_along, e_across = (7452.0, 10048.0) if crosswise else (10048.0, 7452.0)
    depth = np.arange(60.0, 260.0, 0.25)
    ones = np.ones_like(depth)
    rib = Rib(e_along, 400.0, 17.6, 11000.0, 45.0, depth)
    part = seam_factors(rib, JOINT, 2440.0 * ones, 1220.0 * ones * crosswise)
    columns = np.full(len(depth), 1 if crosswise else 2)
    share = stud_share(
        columns,
        np.full(len(depth), 7),
        407.0 * ones,
        2440.0 * ones,
        part.ei_nmm2,
        e_across * 17.6**3 / 12 * ones,
    )
    stress = share.moment * 1600 * 2440 / 4 * part.stud_stress_per_mm3
    return float(depth[(stress <= stress_mpa).argmax()])


@pytest.mark.parametrize("stress_mpa", [9.0, 12.0, 16.6])
def test_splitting_across_the_slope_needs_deeper_studs(stress_mpa):
    lengthwise = needed_depth_mm(crosswise=False, stress_mpa=stress_mpa)
    crosswise = needed_depth_mm(crosswise=True, stress_mpa=stress_mpa)
    assert crosswise > 1.05 * lengthwise


def test_a_split_up_the_slope_keeps_the_sheets_help():
    whole = effective(RIB, JOINT, 2400.0)
    assert seam_factors(RIB, JOINT, 2400.0, 0.0).ei_nmm2 == whole.ei_nmm2


def test_blocking_under_a_seam_is_a_simple_beam():
    forces = seam_blocking(1600.0, 407.0)
    assert forces.moment_nmm == pytest.approx(1600 * 407 / 4)
    assert forces.end_n == forces.shear_n == 1600.0
