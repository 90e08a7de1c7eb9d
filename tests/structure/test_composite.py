"""Annex B: limits that statics fixes, and equilibrium of the stresses it gives."""

import numpy as np
import pytest

from elastic.composite import (
    Joint,
    Rib,
    effective,
    gamma_of_help,
    gamma_point_load,
    with_gamma,
)

RIB = Rib(9000.0, 400.0, 17.6, 11000.0, 45.0, 95.0)
JOINT = Joint(1871.18, 100.0)


@pytest.mark.parametrize("gamma_1", [0.0, 0.2, 1.0])
def test_stresses_balance_the_moment_and_no_axial_force_remains(gamma_1):
    part = with_gamma(RIB, JOINT, gamma_1)
    stud_area, sheet_area = 45 * 95, 400 * 17.6
    axial = part.stud_axial_per_mm3 * stud_area
    assert axial == pytest.approx(part.sheet_axial_per_mm3 * sheet_area, abs=1e-12)
    moment = (
        part.stud_bending_per_mm3 * stud_area * 95 / 6
        + part.sheet_bending_per_mm3 * sheet_area * 17.6 / 6
        + axial * RIB.arm_mm
    )
    assert moment == pytest.approx(1.0, rel=1e-12)


def test_limits_are_loose_parts_and_no_slip():
    assert with_gamma(RIB, JOINT, 0.0).ei_nmm2 == pytest.approx(RIB.ei_separate_nmm2)
    assert with_gamma(RIB, JOINT, 1.0).ei_nmm2 == pytest.approx(RIB.ei_rigid_nmm2)
    assert gamma_of_help(RIB, 1.0) == pytest.approx(1.0)
    assert gamma_of_help(RIB, 0.0) == pytest.approx(0.0, abs=1e-12)


def test_screw_force_is_the_change_of_the_sheet_force():
    part = effective(RIB, JOINT, 2400.0)
    flow = part.sheet_axial_per_mm3 * 400 * 17.6  # sheet force per moment; V = dM/dx
    assert part.screw_n_per_n == pytest.approx(flow * JOINT.spacing_mm)


def test_a_point_load_gets_less_help_than_annex_b_says():
    spans = np.array([1500.0, 2400.0, 4000.0])
    local = gamma_point_load(RIB, JOINT, spans)
    annex = effective(RIB, JOINT, spans).gamma
    assert np.all((local > 0) & (local < annex))


def test_stiffness_never_falls_with_span_width_of_sheet_or_depth():
    for name in ("span", "width", "depth"):
        grow = np.linspace(1.0, 2.5, 40)
        scale = {key: grow if key == name else 1.0 for key in ("span", "width", "depth")}
        rib = Rib(9000.0, 300 * scale["width"], 17.6, 11000.0, 45.0, 95 * scale["depth"])
        ei = effective(rib, JOINT, 1500 * scale["span"]).ei_nmm2
        assert np.all(np.diff(ei) > 0)
