"""The North American yard: complete, invented, in US dollars, and full enough to build from."""

from __future__ import annotations

import pytest

from steepwright.catalog import Catalog, read_catalog
from steepwright.catalog.families import (
    frame_screws,
    lip_bolts,
    sheet_families,
    sheet_screws,
    timber_sections,
)
from steepwright.catalog.rows import HARDWARE_KINDS
from steepwright.resources import catalogs_dir


@pytest.fixture(scope="module")
def yard() -> Catalog:
    return read_catalog(catalogs_dir() / "yard-na")


def test_it_says_that_its_prices_are_invented(yard: Catalog) -> None:
    assert yard.currency == "USD"
    assert "invented" in yard.note
    assert [finding.code for finding in yard.findings] == ["catalog-without-vat"]


def test_sheets_are_4_x_8_and_5_x_5_ft(yard: Catalog) -> None:
    """1 ft = 304.8 mm; whole mm, never more than the sheet is."""
    assert {(s.length_mm, s.width_mm) for s in yard.sheets} == {(2438, 1219), (1524, 1524)}
    assert {s.kind for s in yard.sheets} == {"birch", "rated plywood", "rated OSB"}


def test_every_sheet_and_section_has_its_screws_and_bolts(yard: Catalog) -> None:
    for family in sheet_families(yard):
        assert len(sheet_screws(yard, family.thickness_mm)) >= 2, family.label
    for section in timber_sections(yard):
        assert len(frame_screws(yard, section.width_mm)) >= 2, section.label
        assert lip_bolts(yard, section.width_mm), section.label
        assert {p.length_mm for p in section.products} == {2438, 3048, 3657, 4267, 4876}


def test_hardware_of_every_kind_with_its_design_factors(yard: Catalog) -> None:
    """Rope at least 12 and slings at least 7 times the working load (factors.csv)."""
    assert {h.kind for h in yard.hardware} == set(HARDWARE_KINDS)
    factors = yard.materials.factors
    needed = {"rope": factors["rope_design_factor"], "strap": factors["sling_design_factor"]}
    for row in yard.hardware:
        if row.kind in needed:
            assert row.breaking_n / row.rated_n >= needed[row.kind] - 1e-9, row.sku


def test_lag_screws_lie_in_the_range_of_ec5_8_7_2(yard: Catalog) -> None:
    """EN 1995-1-1:2004 + A1:2008, 8.7.2: 6 <= d <= 12 mm, 0.6 <= d1/d <= 0.75, thread >= 6 d."""
    for mount in yard.mounts:
        assert 6 <= mount.diameter_mm <= 12
        assert 0.6 <= mount.root_mm / mount.diameter_mm <= 0.75
        assert mount.thread_mm >= 6 * mount.diameter_mm
