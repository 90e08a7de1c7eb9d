"""Stated shares and widths against elastic models that know nothing of the checks.

Beams on springs are solved here by the direct stiffness method (numpy); sheets by the plate
series, which is itself checked against Timoshenko's tables.
"""

import numpy as np
import pytest

from elastic.plate import effective_width_mm
from steepwright.catalog import read_materials

MATERIALS = read_materials()
FACTORS = MATERIALS.factors


def largest_spring_share(ei_nmm2, length_mm, spring_n_per_mm, springs, loads_mm, elements=240):
    """Largest part of a unit load that one of equally spaced springs under a beam takes."""
    step = length_mm / elements
    part = np.array(
        [
            [12, 6 * step, -12, 6 * step],
            [6 * step, 4 * step**2, -6 * step, 2 * step**2],
            [-12, -6 * step, 12, -6 * step],
            [6 * step, 2 * step**2, -6 * step, 4 * step**2],
        ]
    )
    stiffness = np.zeros((2 * elements + 2, 2 * elements + 2))
    for e in range(elements):
        stiffness[2 * e : 2 * e + 4, 2 * e : 2 * e + 4] += ei_nmm2 / step**3 * part
    places = [2 * round(i * elements / (springs - 1)) for i in range(springs)]
    stiffness[places, places] += spring_n_per_mm
    loads = np.zeros((2 * elements + 2, len(loads_mm)))
    loads[[2 * round(x / step) for x in loads_mm], range(len(loads_mm))] = 1.0
    sag = np.linalg.solve(stiffness, loads)
    return float((spring_n_per_mm * sag[places]).max())


def test_springs_share_evenly_under_a_stiff_beam():
    assert largest_spring_share(1e12, 900.0, 1.0, 7, [450.0], 12) == pytest.approx(1 / 7, rel=1e-3)


@pytest.mark.parametrize("panel", ["birch-18", "birch-21"])
def test_share_of_the_nearest_sheet_screw(panel):
    # A strip of 400 mm along the stud on screws that give 1 kN/mm, 150 mm apart; the hold's insert
    # stands half a 45 mm stud and 15 mm off the line, so a bay of 400 mm takes a part of the pull.
    sheet, spacing = MATERIALS.panels[panel], FACTORS["sheet_screw_spacing_mm"]
    ei = sheet.e_across_mpa * 400.0 * sheet.mean_thickness_mm**3 / 12.0
    on_stud = largest_spring_share(ei, 12 * spacing, 1000.0, 13, [6 * spacing])
    beside = on_stud * (1.0 - (45.0 / 2 + FACTORS["hold_clear_mm"]) / 400.0)
    assert beside == pytest.approx(FACTORS["sheet_screw_axial_share"], rel=0.12)


@pytest.mark.parametrize("depth_mm", [70.0, 95.0, 145.0])
def test_share_of_the_nearest_hinge(depth_mm):
    # 6 hinges under 2.4 m of foot rail; the outermost hold 100 mm from the edge.
    rail = 11000.0 * 45.0 * depth_mm**3 / 12.0
    places = np.arange(FACTORS["hold_edge_margin_mm"], 1201.0, 50.0)
    for hinge in (500.0, 2000.0):
        share = largest_spring_share(rail, 2400.0, hinge, 6, places)
        assert 0.6 < share <= FACTORS["hinge_share"]


@pytest.mark.parametrize("panel", ["birch-15", "birch-18", "softwood-18", "osb3-18"])
@pytest.mark.parametrize("bay_mm", [250.0, 450.0, 800.0])
def test_strip_of_sheet_that_carries_a_hold(panel, bay_mm):
    # Never wider than the strip whose moment and deflection the plate has under a 50 mm hold.
    sheet = MATERIALS.panels[panel]
    strip = min(FACTORS["sheet_strip_ratio"] * bay_mm, FACTORS["sheet_strip_limit_mm"])
    directions = (sheet.e_along_mpa, sheet.e_across_mpa)
    for along, across in (directions, directions[::-1]):
        width = effective_width_mm(
            bay_mm, sheet.mean_thickness_mm, along, across, sheet.g_panel_mpa, 50.0
        )
        assert strip <= width.moment_mm
        assert strip <= width.deflection_mm
