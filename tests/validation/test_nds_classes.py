"""North American lumber and panels: what the checks take is never more than the published value.

Sources: NDS Supplement Table 4A, SPF No.2 and DF-L No.2, as quoted in a public reference test;
dressed sizes and size factors in the same place (American Softwood Lumber Standard). Table 4B,
SP (Southern Pine) No.2 of 2013 and later, is recalled. TECO/APA design capacities of 32/16: 126 500
lbf.in2/ft, 407 lbf.in/ft, 198 lbf/ft, as published; those of 48/24 are recalled, and a panel of a
higher rating is stiffer and stronger than one of a lower.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from steepwright.catalog import read_catalog, read_materials
from steepwright.pricelist.panels import nominal_section
from steepwright.resources import catalogs_dir
from steepwright.structure.nds import INCH_MM, POUND_N, PSI_MPA, size_factor

# Fb Ft Fv Fc_perp Fc [psi], E Emin [10^6 psi], G
TABLE_4A = {
    "SPF No.2": (875, 450, 135, 425, 1150, 1.4, 0.51, 0.42),
    "DF-L No.2": (900, 575, 180, 625, 1350, 1.6, 0.58, 0.50),
}
TABLE_4B_2X12_RECALLED = {"SP No.2": (750, 450, 175, 565, 1250, 1.4, 0.51, 0.55)}
ALL = TABLE_4A | TABLE_4B_2X12_RECALLED
# Nominal size and dressed size [in].
DRESSED = {"2x4": (1.5, 3.5), "2x6": (1.5, 5.5), "2x8": (1.5, 7.25), "2x10": (1.5, 9.25),
           "2x12": (1.5, 11.25), "4x4": (3.5, 3.5)}  # fmt: skip


@pytest.mark.parametrize("name", ALL)
def test_no_class_is_worth_more_than_its_reference_design_values(name: str) -> None:
    """EN 1995 with kmod short and the load factor gamma_Q, against NDS with CD = 1 and CF = 1."""
    fb, ft, fv, fc_perp, fc, e, e_min, g = ALL[name]
    row, factors = read_materials().timber_classes[name], read_materials().factors
    live = factors["kmod_solid_short"] / factors["gamma_m_solid"] / factors["gamma_q"] / PSI_MPA
    assert 0.9 * fb <= row.fm_k_mpa * live <= fb
    assert 0.9 * ft <= row.ft0_k_mpa * live <= ft
    assert 0.8 * fc <= row.fc0_k_mpa * live <= fc
    assert row.fv_k_mpa * live <= fv
    assert row.fc90_k_mpa * live <= fc_perp
    assert 0.99 * e <= row.e0_mean_mpa / PSI_MPA / 1e6 <= e
    assert row.e0_05_mpa / PSI_MPA / 1e6 <= e_min * 1.66 / 1.03
    assert row.rho_k_kg_m3 <= 1000 * g <= row.rho_mean_kg_m3


@pytest.mark.parametrize("nominal_in", [4, 6])
def test_the_depth_factor_of_en_1995_stays_below_the_size_factor(nominal_in: int) -> None:
    depth_mm = DRESSED[f"2x{nominal_in}"][1] * INCH_MM
    assert min((150 / depth_mm) ** 0.2, 1.3) <= size_factor(nominal_in)


@pytest.mark.parametrize("panel", ["rated-ply-18", "rated-osb-18"])
def test_rated_panels_lie_between_those_of_32_16_and_twice_that_of_birch(panel: str) -> None:
    row = read_materials().panels[panel]
    t = row.mean_thickness_mm
    per_foot = POUND_N * INCH_MM / (12 * INCH_MM)
    ei = row.e_along_mpa * t**3 / 12 / (per_foot * INCH_MM)
    assert 126_500 < ei <= 400_000
    allowed = row.fm_along_mpa / 2.1 * t**2 / 6 / per_foot
    assert 407 < allowed <= 845
    assert row.fv_planar_mpa / 2.1 * t / 1.5 * (12 * INCH_MM) / POUND_N <= 198
    birch = read_materials().panels["birch-18"]
    assert row.e_along_mpa < birch.e_along_mpa
    assert row.fm_along_mpa < birch.fm_along_mpa


def _inches(nominal: str) -> tuple[Decimal, Decimal]:
    thick, deep = nominal.split("x")
    return Decimal(thick), Decimal(deep)


def test_nominal_lumber_is_sold_in_its_dressed_size() -> None:
    """Whole mm below PS 20's inches, in the shipped yard and in every list that is read."""
    yard = read_catalog(catalogs_dir() / "yard-na")
    seen = set()
    for bar in yard.timber:
        nominal = bar.name.split()[1]
        thick, deep = DRESSED[nominal]
        assert bar.width_mm == int(thick * INCH_MM)
        assert bar.depth_mm == int(deep * INCH_MM)
        listed = nominal_section("us", _inches(nominal), "planed", is_cls=False)
        assert listed == (bar.width_mm, bar.depth_mm, "planed")
        feet = int(bar.name.split(", ")[1].removesuffix(" ft"))
        assert 0 <= feet * 12 * INCH_MM - bar.length_mm < 1
        assert bar.strength_class in ALL
        seen.add(nominal)
    assert seen == set(DRESSED)
