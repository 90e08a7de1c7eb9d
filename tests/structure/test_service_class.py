"""Service class of the room: kmod and kdef of EN 1995-1-1 Tables 3.1 and 3.2, sheets allowed."""

import dataclasses

import pytest

from steepwright.catalog import Materials, read_materials
from steepwright.errors import InputError
from steepwright.optimise.grading import grading_assumptions
from steepwright.pricing.market import build_market
from steepwright.room import check_with_catalog
from steepwright.structure import assumptions, build_tables

# EN 1995-1-1 Tables 3.1 and 3.2, service classes 1 and 2 (reference notes: four sources agree).
TABLES = {
    "kmod_solid_permanent": (0.60, 0.60),
    "kmod_solid_short": (0.90, 0.90),
    "kmod_solid_instantaneous": (1.10, 1.10),
    "kmod_plywood_permanent": (0.60, 0.60),
    "kmod_plywood_short": (0.90, 0.90),
    "kmod_osb3_permanent": (0.40, 0.30),
    "kmod_osb3_short": (0.90, 0.70),
    "kdef_solid": (0.60, 0.80),
}


@pytest.mark.parametrize("key", TABLES)
def test_kmod_and_kdef_of_both_classes_en_1995_tables_3_1_and_3_2(key):
    factors = read_materials().factors
    both = tuple(factors.in_service_class(number)[key] for number in (1, 2))
    assert both == TABLES[key]


def tables_of(room, catalog):
    market = build_market(room, catalog)
    return build_tables(market.catalog, room, market.families, market.sections)


def test_a_damp_room_weakens_osb_alone_and_lets_timber_creep(catalog, make_room):
    dry = make_room()
    damp = dataclasses.replace(dry, service_class=2)
    one, two = tables_of(dry, catalog), tables_of(damp, catalog)
    kinds = [family.kind for family in build_market(dry, catalog).families]
    ratio = two.sheets.fm_d_mpa[:, 0] / one.sheets.fm_d_mpa[:, 0]
    assert ratio == pytest.approx([7 / 9 if kind == "osb3" else 1.0 for kind in kinds])
    assert (two.beams.moment_d_nmm == one.beams.moment_d_nmm).all()
    assert (two.beams.sag_mm > one.beams.sag_mm).all()
    assert any("service class 2 (a dry unheated room)" in text for text in assumptions(two))
    assert any("service class 1 (a heated room)" in text for text in assumptions(one))


def birch_for_dry_rooms(catalog):
    panels = {
        name: dataclasses.replace(p, service_class=1) if p.kind == "birch" else p
        for name, p in catalog.materials.panels.items()
    }
    old = catalog.materials
    made = Materials(old.timber_classes, panels, old.factors, old.sources)
    return dataclasses.replace(catalog, materials=made)


def test_sheets_for_heated_rooms_are_left_out_of_a_damp_one_and_told(catalog, make_room):
    # EN 636-1 plywood is for dry conditions: EN 1995-1-1 Table 3.1 has no kmod for it in class 2.
    indoor, damp = birch_for_dry_rooms(catalog), dataclasses.replace(make_room(), service_class=2)
    kinds = {family.kind for family in build_market(damp, indoor).families}
    assert "birch" not in kinds
    assert kinds
    assert any("birch are left out" in text for text in grading_assumptions(damp, indoor))
    assert "birch" in {family.kind for family in build_market(make_room(), indoor).families}
    assert not any("left out" in text for text in grading_assumptions(make_room(), indoor))


def test_asking_for_a_kind_that_the_room_is_too_damp_for_is_refused(catalog, make_room):
    damp = dataclasses.replace(make_room(), service_class=2)
    asked = dataclasses.replace(damp, wall=dataclasses.replace(damp.wall, sheet_kinds=("birch",)))
    check_with_catalog(asked, catalog)
    with pytest.raises(InputError) as refused:
        check_with_catalog(asked, birch_for_dry_rooms(catalog))
    (finding,) = refused.value.findings
    assert finding.code == "room-damp-sheet"
    assert "birch" in finding.seen
