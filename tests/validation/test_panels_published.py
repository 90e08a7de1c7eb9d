"""Panels against published tables and against the rule that the birch table follows.

Sources: a birch plywood datasheet (1.4 mm veneers; plies, mean thickness, mass of a sheet of
1220 x 2440 mm), public; the lamination rule of the Handbook of Finnish Plywood (Finnish Forest
Industries Federation), recalled: along 17500 N/mm2 per veneer, inner veneers 1.4 mm;
EN 12369-1:2001 for OSB/3 as quoted in a panel maker's technical catalogue; Swedish P30 plywood,
declared values. The mass of a film-faced sheet is common practice, no source.
"""

from __future__ import annotations

import pytest

from steepwright.catalog import Panel, read_materials

VENEER_MM, VENEER_E_MPA, STRAIN_LIMIT = 1.4, 17500.0, 0.004
PLIES = {9: 7, 12: 9, 15: 11, 18: 13, 21: 15, 24: 17}
BIRCH_KINDS = ("birch", "birch film-faced")


def panels(kind: str) -> list[Panel]:
    return [panel for panel in read_materials().panels.values() if panel.kind == kind]


def laminate(mean_mm: float, plies: int) -> tuple[float, float, float, float]:
    """Return fm along, fm across, E along, E across [MPa] of a balanced birch panel."""
    face = (mean_mm - VENEER_MM * (plies - 2)) / 2
    layers = [face, *[VENEER_MM] * (plies - 2), face]
    low, along, across = -mean_mm / 2, 0.0, 0.0
    for i, layer in enumerate(layers):
        third = ((low + layer) ** 3 - low**3) / 3
        along, across = (along + third, across) if i % 2 == 0 else (along, across + third)
        low += layer
    whole = mean_mm**3 / 12
    e_along, e_across = VENEER_E_MPA * along / whole, VENEER_E_MPA * across / whole
    reach = (mean_mm / 2) / (mean_mm / 2 - face)
    return STRAIN_LIMIT * e_along, STRAIN_LIMIT * e_across * reach, e_along, e_across


@pytest.mark.parametrize("kind", BIRCH_KINDS)
def test_birch_table_follows_the_lamination_rule(kind: str) -> None:
    rows = panels(kind)
    assert [row.thickness_mm for row in rows] == list(PLIES)
    for row in rows:
        rule = laminate(row.mean_thickness_mm, PLIES[row.thickness_mm])
        shipped = (row.fm_along_mpa, row.fm_across_mpa, row.e_along_mpa, row.e_across_mpa)
        assert shipped[:2] == pytest.approx(rule[:2], abs=0.051), row.id
        assert shipped[2:] == pytest.approx(rule[2:], abs=0.51), row.id


@pytest.mark.parametrize(
    ("thickness_mm", "mean_mm", "kg_per_sheet"),
    [(9, 9.2, 19.0), (12, 12.0, 24.8), (15, 14.9, 30.8), (18, 17.7, 36.7), (21, 20.5, 42.5),
     (24, 23.4, 48.6)],
)  # fmt: skip
def test_birch_thickness_and_mass_of_the_datasheet(
    thickness_mm: int, mean_mm: float, kg_per_sheet: float
) -> None:
    panel = read_materials().panels[f"birch-{thickness_mm}"]
    mass = panel.rho_mean_kg_m3 * panel.mean_thickness_mm * 1.220 * 2.440 / 1000
    assert panel.mean_thickness_mm == pytest.approx(mean_mm, abs=0.2)
    assert mass == pytest.approx(kg_per_sheet, rel=0.05)


def test_film_faced_18_mm_is_about_13_kg_m2() -> None:
    """Common practice, no source."""
    panel = read_materials().panels["birch-film-18"]
    assert panel.rho_mean_kg_m3 * panel.mean_thickness_mm / 1000 == pytest.approx(13, abs=1)


@pytest.mark.parametrize(
    ("thicknesses", "fm_along", "fm_across"),
    [((9,), 18.0, 9.0), ((12, 15, 18), 16.4, 8.2), ((22, 25), 14.8, 7.4)],
)
def test_osb3_bands_of_en_12369_1(
    thicknesses: tuple[int, ...], fm_along: float, fm_across: float
) -> None:
    for thickness in thicknesses:
        row = read_materials().panels[f"osb3-{thickness}"]
        assert (row.fm_along_mpa, row.fm_across_mpa) == (fm_along, fm_across)
        assert (row.e_along_mpa, row.e_across_mpa) == (4930, 1980)
        assert (row.fv_panel_mpa, row.g_panel_mpa) == (6.8, 1080)
        assert row.fv_planar_mpa == row.fv_planar_across_mpa == 1.0
        assert (row.rho_k_kg_m3, row.kmod_family) == (550, "osb3")


def test_birch_is_about_1_9_times_as_stiff_as_osb_of_18_mm() -> None:
    """Both tables' own E and I: 10048 x 454 against 4930 x 486 N mm2/mm."""

    def stiffness(name: str) -> float:
        row = read_materials().panels[name]
        return row.e_along_mpa * row.mean_thickness_mm**3 / 12

    assert stiffness("birch-18") / stiffness("osb3-18") == pytest.approx(1.9, abs=0.05)


@pytest.mark.parametrize("thickness_mm", [12, 15, 18, 21, 24])
def test_softwood_ply_never_promises_more_than_p30(thickness_mm: int) -> None:
    """P30 is declared for 12 and 24 mm; between them the lower of the two must do."""
    p30 = {12: (23.0, 11.4, 9200, 4600, 410, 460), 24: (21.6, 12.4, 8700, 5000, 410, 460)}
    row = read_materials().panels[f"softwood-{thickness_mm}"]
    shipped = (
        row.fm_along_mpa,
        row.fm_across_mpa,
        row.e_along_mpa,
        row.e_across_mpa,
        row.rho_k_kg_m3,
        row.rho_mean_kg_m3,
    )
    lower = tuple(map(min, *p30.values()))
    assert shipped == p30.get(thickness_mm, lower)


def test_softwood_planar_shear_is_the_lowest_declared() -> None:
    """A spruce plywood's declaration of performance; its series carries no thickness labels."""
    along = (1.42, 0.94, 1.58, 1.63, 1.76, 1.41, 2.15, 1.46, 1.50)
    across = (0.81, 0.87, 0.64, 1.18, 0.39, 1.12, 0.72)
    for row in panels("softwood ply"):
        assert (row.fv_planar_mpa, row.fv_planar_across_mpa) == (min(along), min(across))
