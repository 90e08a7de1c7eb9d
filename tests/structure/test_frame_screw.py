"""Screws between sheet, studs and rails against the clauses of EN 1995-1-1 written out.

Figures are reckoned here from (8.6), (8.14), (8.16), (8.31), (8.32), (8.40a) and (8.40b); the
embedment across the grain from 1.35 + 0.015 d for softwood.
"""

import math

import numpy as np
import pytest

from steepwright.catalog.types import Screw
from steepwright.structure.tabulate_joints import SheetScrew, frame_screw_n, screws_that_fit


def johansen(t1, t2, f1, f2, d, moment, axial=0.0):
    """Least of the six modes of (8.6), written from the figure's equilibrium equations."""
    b = f2 / f1
    c = math.sqrt(b + 2 * b * b * (1 + t2 / t1 + (t2 / t1) ** 2) + b**3 * (t2 / t1) ** 2)
    modes = [
        (f1 * t1 * d, 0),
        (f2 * t2 * d, 0),
        (f1 * t1 * d / (1 + b) * (c - b * (1 + t2 / t1)), 1),
        (
            1.05 * f1 * t1 * d / (2 + b)
            * (math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * moment / (f1 * d * t1**2)) - b),
            1,
        ),
        (
            1.05 * f1 * t2 * d / (1 + 2 * b)
            * (
                math.sqrt(2 * b * b * (1 + b) + 4 * b * (1 + 2 * b) * moment / (f1 * d * t2**2))
                - b
            ),
            1,
        ),
        (1.15 * math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * moment * f1 * d), 1),
    ]  # fmt: skip
    return min(mode + rope * min(axial / 4, mode) for mode, rope in modes)


def screw(diameter, root, length, thread, head=10.0):
    return Screw("X", "", "frame", diameter, root, length, thread, head, 600, 100, 1000)


@pytest.mark.parametrize(
    ("root", "length", "rail"), [(5.2, 160, 45), (7.2, 160, 45), (7.2, 120, 60), (3.9, 100, 45)]
)
def test_a_screw_into_a_studs_end(catalog, root, length, rail):
    materials = catalog.materials
    factors, timber = materials.factors, materials.timber_classes["C24"]
    d = 1.1 * root
    # Up to 6 mm as nails without predrilled holes (8.15); beyond as bolts (8.16), (8.31), (8.32).
    base = 0.082 * 350 * d**-0.3 if d <= 6 else 0.082 * (1 - 0.01 * d) * 350
    across = base / (1.35 + 0.015 * d) if d > 6 else base
    moment = 0.3 * 600 * d**2.6
    end = base / factors["end_grain_embedment_factor"]
    held = johansen(rail, length - rail, across, end, d, moment)
    found = frame_screw_n(factors, screw(root * 1.5, root, length, 60), timber, rail)
    assert found == pytest.approx(0.9 * held / 1.3)


def test_a_screw_that_only_just_reaches_the_stud_holds_nothing(catalog):
    factors, timber = catalog.materials.factors, catalog.materials.timber_classes["C24"]
    for length, holds in ((44, False), (45, False), (46, True)):
        assert (frame_screw_n(factors, screw(6, 3.9, length, 30), timber, 45) > 0) == holds


def test_screws_in_a_row_at_a_studs_end(catalog):
    # Table 8.2 [M]: the same least distance between screws and to both edges.
    factors = catalog.materials.factors
    least = factors["predrilled_spacing_d"] * 6
    for depth, number in ((2 * least - 0.1, 0), (2 * least, 1), (3 * least, 2), (5.5 * least, 4)):
        assert screws_that_fit(factors, screw(6, 3.9, 100, 60), depth) == number


@pytest.mark.parametrize(("kind", "length"), [("birch-18", 60), ("osb3-18", 60), ("birch-18", 40)])
def test_a_screw_through_the_sheet(catalog, kind, length):
    materials = catalog.materials
    factors, timber, panel = (
        materials.factors, materials.timber_classes["C24"], materials.panels[kind],
    )  # fmt: skip
    one = screw(5.0, 3.2, length, 36)
    found = SheetScrew(factors, one, panel, timber)
    t, d = panel.mean_thickness_mm, 1.1 * 3.2
    assert found.thread_mm == pytest.approx(min(36, length - t))
    if kind.startswith("birch"):
        sheet, kmod_panel = 0.11 * panel.rho_k_kg_m3 * d**-0.3, 0.9
    else:
        sheet, kmod_panel = 65 * d**-0.7 * t**0.1, 0.9
    stud = 0.082 * 350 * d**-0.3
    rope = min(found.withdrawal_n, found.head_n)
    assert rope > 0
    held = johansen(t, length - t, sheet, stud, d, 0.3 * 600 * d**2.6, rope)
    assert found.lateral_n == pytest.approx(math.sqrt(0.9 * kmod_panel) * held / 1.3)
    steel = 600 * math.pi * 3.2**2 / 4 / 1.25
    weakest = min(0.9 * found.withdrawal_n / 1.3, kmod_panel * found.head_n / 1.3, steel)
    assert found.axial_n == pytest.approx(weakest, rel=0.2)
    assert found.axial_n <= 1.0001 * weakest
    slip = math.sqrt(panel.rho_mean_kg_m3 * 420) ** 1.5 * d / factors["kser_divisor"]
    assert found.slip_n_per_mm == pytest.approx(slip)


def test_a_screw_no_longer_than_the_sheet_holds_nothing(catalog):
    materials = catalog.materials
    panel = materials.panels["birch-18"]
    short = SheetScrew(
        materials.factors, screw(5.0, 3.2, 17, 12), panel, materials.timber_classes["C24"]
    )
    assert (short.thread_mm, short.withdrawal_n, short.axial_n, short.lateral_n) == (0, 0, 0, 0)


def test_the_table_of_joints_holds_them_in_their_columns(tables, catalog):
    # 18 mm birch on 45 x 145 C24: screw B into the stud, screw C through the rail of 45 mm.
    materials = catalog.materials
    factors, timber = materials.factors, materials.timber_classes["C24"]
    sheet = SheetScrew(factors, catalog.screws[1], materials.panels["birch-18"], timber)
    joints = tables.joints
    at = (1, 1)
    assert joints.axial_n[at] == pytest.approx(sheet.axial_n)
    assert joints.lateral_n[at] == pytest.approx(sheet.lateral_n)
    assert joints.slip_n_per_mm[at] == pytest.approx(sheet.slip_n_per_mm)
    assert joints.thread_mm[at] == pytest.approx(36)
    number = min(
        factors["frame_screws_per_joint"], screws_that_fit(factors, catalog.screws[2], 145)
    )
    one = frame_screw_n(factors, catalog.screws[2], timber, 45)
    found = [getattr(joints, name)[at] for name in joints.__dataclass_fields__]
    assert any(np.isclose(value, number * one) for value in found)
    assert any(np.isclose(value, factors["screw_least_thread_d"] * 5.0) for value in found)
    assert any(np.isclose(value, factors["seam_stud_width_d"] * 5.0) for value in found)
