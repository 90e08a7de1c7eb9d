"""The shipped example yard: enough to choose from, complete, and priced like a yard."""

from __future__ import annotations

from collections import defaultdict
from statistics import mean

import pytest

from steepwright.catalog import Catalog, read_catalog
from steepwright.catalog.families import (
    frame_screws,
    sheet_families,
    sheet_screws,
    timber_sections,
)
from steepwright.catalog.rows import HARDWARE_KINDS

KINDS = {"birch film-faced", "birch", "softwood ply", "OSB/3"}


@pytest.fixture(scope="module")
def yard() -> Catalog:
    return read_catalog()


def test_the_heading_says_that_prices_are_invented(yard: Catalog) -> None:
    assert (yard.currency, yard.date, yard.vat) == ("EUR", "2026-11-01", "included")
    assert yard.note == "prices are invented for this example"
    assert yard.findings == ()


def test_sheets_to_choose_from(yard: Catalog) -> None:
    assert len(yard.sheets) >= 30
    assert len({(s.length_mm, s.width_mm) for s in yard.sheets}) >= 5
    assert len({s.thickness_mm for s in yard.sheets}) >= 4
    assert {s.kind for s in yard.sheets} == KINDS


def test_film_faced_birch_often_has_its_grain_along_the_short_side(yard: Catalog) -> None:
    """Common practice, no source: form boards are laid across their bearers."""
    grain = [s.face_grain for s in yard.sheets if s.kind == "birch film-faced"]
    assert grain.count("width") > grain.count("length") > 0
    assert all(s.face_grain == "length" for s in yard.sheets if s.kind in ("OSB/3", "softwood ply"))


def test_timber_to_choose_from(yard: Catalog) -> None:
    sections = timber_sections(yard)
    assert len(yard.timber) >= 40
    assert len(sections) >= 12
    assert {t.strength_class for t in yard.timber} == {"C18", "C24"}
    assert {t.surface for t in yard.timber} == {"planed", "sawn"}
    assert min(t.length_mm for t in yard.timber) == 2400
    assert max(t.length_mm for t in yard.timber) == 6000
    for section in sections:
        assert len({t.length_mm for t in section.products}) >= 3, section.label


def test_long_bars_cost_slightly_more_per_metre(yard: Catalog) -> None:
    for section in timber_sections(yard):
        rate = [t.price_cents / t.length_mm for t in section.products]
        assert rate[0] < rate[-1] < 1.25 * rate[0], section.label


def test_every_sheet_and_section_has_its_screw_in_several_packs(yard: Catalog) -> None:
    for family in sheet_families(yard):
        assert len(sheet_screws(yard, family.thickness_mm)) >= 2, family.label
    for section in timber_sections(yard):
        assert len(frame_screws(yard, section.width_mm)) >= 2, section.label


def test_larger_packs_are_cheaper_per_piece(yard: Catalog) -> None:
    packs = defaultdict(list)
    for screw in yard.screws:
        packs[screw.role, screw.diameter_mm, screw.length_mm].append(screw)
    assert {screw.pack_quantity for screw in yard.screws} == {100, 200, 500}
    for rows in packs.values():
        rate = [
            s.price_cents / s.pack_quantity for s in sorted(rows, key=lambda s: s.pack_quantity)
        ]
        assert rate == sorted(rate, reverse=True)
        assert len(set(rate)) == len(rate)


def test_mounts_to_choose_from(yard: Catalog) -> None:
    assert len(yard.mounts) >= 4
    assert len({(m.drop_mm, m.setback_mm, m.behind_sheet_mm) for m in yard.mounts}) >= 4
    assert all(40 <= m.drop_mm <= 140 for m in yard.mounts)
    assert all(0 <= m.setback_mm <= 60 for m in yard.mounts)
    assert all(30 <= m.behind_sheet_mm <= 60 for m in yard.mounts)
    assert {m.rated_n is None for m in yard.mounts} == {True, False}
    assert {m.adjust_mm > 0 for m in yard.mounts} == {True, False}
    assert all(m.thread_pitch_mm > 0 for m in yard.mounts if m.adjust_mm)


@pytest.mark.parametrize("mount", read_catalog().mounts, ids=lambda m: m.sku)
def test_mount_screws_lie_in_the_range_of_ec5_8_7_2(mount: object) -> None:
    """EN 1995-1-1:2004 + A1:2008, 8.7.2: 6 <= d <= 12 mm, 0.6 <= d1/d <= 0.75, thread >= 6 d."""
    d, root, thread = mount.diameter_mm, mount.root_mm, mount.thread_mm  # type: ignore[attr-defined]
    assert 6 <= d <= 12
    assert 0.6 <= root / d <= 0.75
    assert thread >= 6 * d


def test_hardware_of_every_kind(yard: Catalog) -> None:
    assert {h.kind for h in yard.hardware} == set(HARDWARE_KINDS)
    assert all(h.diameter_mm == 10 for h in yard.hardware if h.kind == "tnut")
    assert all(h.length_mm % 1000 == 0 for h in yard.hardware if h.kind == "rope")
    assert all(h.stiffness_n for h in yard.hardware if h.kind == "rope")
    assert all(h.efficiency for h in yard.hardware if h.kind == "pulley")


def test_breaking_forces_keep_their_design_factors(yard: Catalog) -> None:
    """Rope at least 12 and slings at least 7 times the working load (factors.csv)."""
    factors = yard.materials.factors
    needed = {"rope": factors["rope_design_factor"], "strap": factors["sling_design_factor"]}
    for row in yard.hardware:
        if row.kind in needed:
            assert row.rated_n is not None
            assert row.breaking_n is not None
            assert row.breaking_n / row.rated_n >= needed[row.kind] - 1e-9, row.sku


def test_prices_lie_where_the_trade_has_them(yard: Catalog) -> None:
    """Recalled 2023-25 prices per m2 at 18 mm and per m of C24 45 x 145, widened for 2026."""
    bands = {"birch": (30, 55), "birch film-faced": (30, 55), "softwood ply": (15, 28),
             "OSB/3": (8, 16)}  # fmt: skip
    for kind, (low, high) in bands.items():
        rows = [s for s in yard.sheets if s.kind == kind and s.thickness_mm == 18]
        rate = mean(s.price_cents / 100 / (s.length_mm * s.width_mm * 1e-6) for s in rows)
        assert low <= rate <= high, kind
    bars = [t for t in yard.timber if (t.width_mm, t.depth_mm) == (45, 145)]
    assert 4 <= mean(t.price_cents / 100 / (t.length_mm / 1000) for t in bars) <= 7


def test_some_articles_are_limited(yard: Catalog) -> None:
    assert any(s.limit for s in yard.sheets)
    assert any(t.limit for t in yard.timber)
    assert any(s.limit is None for s in yard.sheets)
