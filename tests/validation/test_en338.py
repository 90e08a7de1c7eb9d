"""Strength classes against the printed table.

Source: EN 338:2016 Table 1, as quoted in the open textbook "Vademecum", TU Delft TeachBooks,
chapter on timber. Copied here by hand, class by class, independently of the shipped file.
Cross-relations: EN 384:2016 gives rules by which the table was made; recalled, not read.
"""

from __future__ import annotations

import pytest

from steepwright.catalog import read_materials

# fm,k ft,0,k ft,90,k fc,0,k fc,90,k fv,k E0,mean E0,05 E90,mean Gmean rho_k rho_mean
EN338_2016_TABLE_1 = {
    "C14": (14, 7.2, 0.4, 16, 2.0, 3.0, 7000, 4700, 230, 440, 290, 350),
    "C16": (16, 8.5, 0.4, 17, 2.2, 3.2, 8000, 5400, 270, 500, 310, 370),
    "C18": (18, 10, 0.4, 18, 2.2, 3.4, 9000, 6000, 300, 560, 320, 380),
    "C20": (20, 11.5, 0.4, 19, 2.3, 3.6, 9500, 6400, 320, 590, 330, 400),
    "C22": (22, 13, 0.4, 20, 2.4, 3.8, 10000, 6700, 330, 630, 340, 410),
    "C24": (24, 14.5, 0.4, 21, 2.5, 4.0, 11000, 7400, 370, 690, 350, 420),
    "C27": (27, 16.5, 0.4, 22, 2.5, 4.0, 11500, 7700, 380, 720, 360, 430),
    "C30": (30, 19, 0.4, 24, 2.7, 4.0, 12000, 8000, 400, 750, 380, 460),
}


def test_the_classes_are_those_of_the_table() -> None:
    classes = read_materials().timber_classes.values()
    of_the_table = [row.name for row in classes if row.source == "en338-2016"]
    assert of_the_table == list(EN338_2016_TABLE_1)


@pytest.mark.parametrize("name", EN338_2016_TABLE_1)
def test_en_338_2016_table_1(name: str) -> None:
    row = read_materials().timber_classes[name]
    shipped = (
        row.fm_k_mpa,
        row.ft0_k_mpa,
        row.ft90_k_mpa,
        row.fc0_k_mpa,
        row.fc90_k_mpa,
        row.fv_k_mpa,
        row.e0_mean_mpa,
        row.e0_05_mpa,
        row.e90_mean_mpa,
        row.g_mean_mpa,
        row.rho_k_kg_m3,
        row.rho_mean_kg_m3,
    )
    assert shipped == EN338_2016_TABLE_1[name]


@pytest.mark.parametrize("name", EN338_2016_TABLE_1)
def test_en_384_relations_recalled(name: str) -> None:
    """EN 384:2016 for softwood: E0,05 = 0.67 E0, E90 = E0/30, G = E0/16, rho_mean = 1.2 rho_k."""
    row = read_materials().timber_classes[name]
    assert row.e0_05_mpa == pytest.approx(0.67 * row.e0_mean_mpa, rel=0.01)
    assert row.e90_mean_mpa == pytest.approx(row.e0_mean_mpa / 30, rel=0.02)
    assert row.g_mean_mpa == pytest.approx(row.e0_mean_mpa / 16, rel=0.015)
    assert row.rho_mean_kg_m3 == pytest.approx(1.2 * row.rho_k_kg_m3, rel=0.02)
