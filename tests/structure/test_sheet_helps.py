"""The sheet's help to the studs' stiffness: exact series, limits, and what a seam across costs."""

import dataclasses

import numpy as np
import pytest

from elastic.composite import Joint, Rib, effective
from steepwright.catalog import read_catalog
from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.structure import build_tables, uses
from steepwright.structure.rows import look_up, timber_length_mm


@pytest.fixture(scope="module")
def yard(make_room):
    catalog = read_catalog()
    families, sections = sheet_families(catalog), timber_sections(catalog)
    return build_tables(catalog, make_room(), families, sections), families, sections


def rib_of(tables, row, sheet, timber):
    """The same stud as a `Rib`; the strip's E comes back from its EA."""
    bar = tables.timber.take(np.array([timber]))
    t = float(tables.sheets.t_mm[sheet, 1])
    width = tables.factors["composite_strip_mm"]
    e_sheet = float(tables.sheets.ea_strip_n[sheet, 1]) / width / t
    b, h = float(bar.b_mm[0]), float(bar.h_mm[0])
    e_stud = float(bar.ei_nmm2[0]) * 12 / b / h**3
    slip = float(tables.joints.slip_n_per_mm[sheet, timber])
    return Rib(e_sheet, width, t, e_stud, b, h), Joint(slip, 150.0)


def test_it_is_annex_b_without_the_strips_own_bending(yard, make_batch):
    tables, families, sections = yard
    for sheet in range(0, len(families), 3):
        for timber in range(0, len(sections), 5):
            if not tables.joints.slip_n_per_mm[sheet, timber]:
                continue
            wall = make_batch(sheet=sheet, timber=timber, board_mm=2700.0)
            found = float(look_up(tables, wall).stiffer[0])
            rib, joint = rib_of(tables, wall, sheet, timber)
            whole = effective(rib, joint, 2700.0).ei_nmm2 - rib.ei_separate_nmm2
            assert found == pytest.approx(1 + whole / rib.ei_stud_nmm2, rel=1e-9)


@pytest.mark.parametrize("span_mm", [1500.0, 2500.0, 4000.0])
def test_deflection_under_a_point_load_against_the_exact_series(yard, make_batch, span_mm):
    # Partial interaction (Newmark; Girhammar): for a sine of n half waves 1/EI = 1/EIinf
    # + (1/EI0 - 1/EIinf) / (1 + alpha^2 (l / n pi)^2); a load at mid-span is the sum of all odd n.
    tables, families, sections = yard
    for sheet in range(0, len(families), 2):
        for timber in range(0, len(sections), 4):
            if not tables.joints.slip_n_per_mm[sheet, timber]:
                continue
            wall = make_batch(sheet=sheet, timber=timber, board_mm=span_mm)
            rib, joint = rib_of(tables, wall, sheet, timber)
            alpha2 = (
                joint.slip_n_per_mm
                / joint.spacing_mm
                * (1 / rib.ea_joint_n + rib.arm_mm**2 / rib.ei_separate_nmm2)
            )
            n = np.arange(1, 400, 2)
            soft = 1 / rib.ei_rigid_nmm2 + (1 / rib.ei_separate_nmm2 - 1 / rib.ei_rigid_nmm2) / (
                1 + alpha2 * (span_mm / n / np.pi) ** 2
            )
            exact = (2 / span_mm * (span_mm / n / np.pi) ** 4 * soft).sum()
            ei = float(look_up(tables, wall).stiffer[0]) * rib.ei_stud_nmm2
            ours = span_mm**3 / 48 / ei
            # Annex B takes the load as a sine: up to half a per cent too stiff under a point.
            assert exact <= ours * 1.005
            assert ours <= exact * 1.1


def test_a_seam_across_takes_the_help_and_one_up_the_slope_does_not(tables, make_batch):
    plain, along, across = (
        float(look_up(tables, make_batch(**split)).stiffer[0])
        for split in ({}, {"columns": 2}, {"rows": 2, "seam_mm": 1300.0})
    )
    assert plain == along > 1.1
    assert across == 1.0


def test_more_screws_stiffen_and_loose_ones_do_nothing(tables, make_batch):
    def with_slip(factor):
        joints = dataclasses.replace(
            tables.joints, slip_n_per_mm=tables.joints.slip_n_per_mm * factor
        )
        return float(look_up(dataclasses.replace(tables, joints=joints), make_batch()).stiffer[0])

    assert 1.0 == with_slip(0.0) < with_slip(1.0) < with_slip(2.0)
    assert with_slip(1e-9) == pytest.approx(1.0)


def least_timber_dm3(catalog, make_tables, make_batch, **split):
    """Timber of the board's frame of the least depth, 45 mm wide, whose studs pass."""
    depths = np.arange(60, 200)
    bars = tuple(dataclasses.replace(catalog.timber[0], depth_mm=int(h)) for h in depths)
    tables = make_tables(dataclasses.replace(catalog, timber=bars))
    wall = {"board_mm": 2440.0, "stud_count": 7, "bay_mm": 400.0, "width_mm": 2445.0} | split
    walls = make_batch(timber=np.arange(len(bars)), **wall)
    found = uses(tables, walls)
    worst = np.max([found[f"stud {name}"] for name in ("bending", "shear", "deflection")], axis=0)
    length = timber_length_mm(walls, np.full(len(bars), 45.0))
    return float((length * 45.0 * depths / 1e6)[int((worst <= 1).argmax())])


def test_splitting_crosswise_needs_more_timber_than_lengthwise(catalog, make_tables, make_batch):
    # Common practice, no source: the cut across the slope wants a much stronger frame.
    lengthwise = least_timber_dm3(catalog, make_tables, make_batch, columns=2)
    crosswise = least_timber_dm3(catalog, make_tables, make_batch, rows=2, seam_mm=1220.0)
    whole = least_timber_dm3(catalog, make_tables, make_batch)
    print(f"\nlengthwise {lengthwise:.0f}, crosswise {crosswise:.0f}, whole {whole:.0f} dm3")
    assert crosswise >= 1.15 * lengthwise
    assert whole == pytest.approx(lengthwise, rel=0.05)
