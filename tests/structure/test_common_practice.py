"""What builders of home walls say of weight, studs and holds: common practice, no source."""

from dataclasses import replace

import numpy as np
import pytest

from steepwright.catalog import SheetProduct, read_catalog
from steepwright.structure import checks, self_mass


def by_factor(catalog, make_tables, make_batch, name, **factors):
    """Return one check of the plain wall, with some factors set otherwise."""
    old = catalog.materials.factors
    values = {**old.values, **factors}
    other = replace(catalog.materials, factors=replace(old, values=values))
    found = checks(make_tables(replace(catalog, materials=other)), make_batch())
    return next(check for check in found if check.name == name)


def test_a_holds_pull_grows_with_how_far_it_stands_out(catalog, make_tables, make_batch):
    demands = [
        by_factor(
            catalog, make_tables, make_batch, "hold insert", hold_standoff_mm=standoff_mm
        ).demand
        for standoff_mm in (20, 50, 100, 200)
    ]
    assert np.all(np.diff(np.ravel(demands)) > 0)
    # A hold of 200 mm pulls several times as hard as one that lies nearly flat.
    assert float(np.ravel(demands)[-1]) > 3 * float(np.ravel(demands)[0])


def test_a_wall_of_3000_by_1500_weighs_about_60_kg_bare_and_100_kg_finished(
    catalog, make_tables, make_batch
):
    film = SheetProduct("F18", "", "birch film-faced", "birch-film-18", 18, 3000, 1500, "width", 1)
    tables = make_tables(replace(catalog, sheets=(film,)))
    wall = make_batch(sheet=0, timber=0, board_mm=3000.0, width_mm=1500.0, kicker_mm=0.0,
                      stud_count=4, bay_mm=485.0)  # fmt: skip
    panel = catalog.materials.panels["birch-film-18"]
    bare = panel.rho_mean_kg_m3 * panel.mean_thickness_mm / 1000 * 3.0 * 1.5
    assert bare == pytest.approx(60, rel=0.1)
    # Four studs of 45 x 95, and holds: round figures, so within a fifth.
    finished = float(self_mass(tables, wall, np.array([0]))[0])
    assert finished == pytest.approx(100, rel=0.2)


def test_studs_stand_on_edge_with_the_narrow_face_to_the_sheet(catalog, make_tables, make_batch):
    """Of one section, the stud on edge is the stiffer one; the yard sells each so."""
    assert all(bar.width_mm < bar.depth_mm for bar in read_catalog().timber)
    on_edge = catalog.timber[0]
    flat = replace(on_edge, width_mm=on_edge.depth_mm, depth_mm=on_edge.width_mm)
    sags = [
        next(
            check.demand
            for check in checks(make_tables(replace(catalog, timber=(bar,))), make_batch(timber=0))
            if check.name == "stud deflection"
        )
        for bar in (on_edge, flat)
    ]
    assert float(np.ravel(sags)[0]) * 3 < float(np.ravel(sags)[1])
