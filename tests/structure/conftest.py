"""A small yard and room of our own; material facts are the shipped ones."""

import math
from dataclasses import replace

import numpy as np
import pytest

from steepwright.catalog import (
    Catalog,
    Hardware,
    Mount,
    Screw,
    SheetProduct,
    TimberProduct,
    read_materials,
)
from steepwright.catalog.codes import in_code
from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.room.types import Access, Beam, Climber, Room, WallRange, Yard
from steepwright.structure import Batch, build_tables, uses

PANELS = (("birch", 15), ("birch", 18), ("birch", 21), ("softwood", 18), ("osb3", 18))
SECTIONS = ((45, 95, "C24"), (45, 145, "C24"), (60, 120, "C18"), (60, 160, "C30"))
_HOOKS = {
    "arm_climb_mm": 900.0,
    "arm_weight_mm": 900.0,
    "end_climb": 1.0,
    "end_weight": 1.0,
    "sag_climb": 1.0,
    "sag_weight": 1.0,
    "tip_load": 1.0,
    "lost_load": 1.0,
    "lost_weight": 1.0,
    "lost_arm_mm": 900.0,
    "lift_arm_mm": 900.0,
    "lift_arm_lost_mm": 900.0,
    "lift_end": 1.0,
    "lift_sag": 1.0,
}
"""All at the middle of 3.6 m for a beam's moment, beside a support for its shear."""
_REAL = {
    *_HOOKS,
    "screw_mm",
    "eye_mm",
    "tie_cos",
    "tie_mm",
    "tie_board_mm",
    "tie_place",
    "bay_mm",
    "seam_mm",
    "board_mm",
    "kicker_mm",
    "width_mm",
    "angle_rad",
}


def small_catalog():
    sheets = tuple(
        SheetProduct(f"S{kind}{t}", "", kind, f"{kind}-{t}", t, 2500, 1250, "length", 9000)
        for kind, t in PANELS
    )
    timber = tuple(
        TimberProduct(f"T{b}{h}", "", b, h, 4800, grade, "planed", 1500) for b, h, grade in SECTIONS
    )
    screws = (
        Screw("A", "", "sheet", 4.5, 2.8, 45, 30, 9.0, 600, 100, 600),
        Screw("B", "", "sheet", 5.0, 3.2, 60, 36, 10.0, 600, 100, 800),
        Screw("C", "", "frame", 6.0, 3.9, 100, 60, 12.0, 600, 100, 1700),
        Screw("D", "", "frame", 8.0, 5.2, 160, 80, 15.0, 600, 100, 4500),
    )
    mounts = (
        Mount("M1", "", 40, 0, 30, 1, 10.0, 7.0, 80.0, 400, None, 8, 4.0, 700),
        Mount("M2", "", 75, 60, 60, 4, 10.0, 7.0, 80.0, 400, 7500.0, 0, 0.0, 4900),
    )
    hardware = (
        Hardware("H", "", "hinge", 2, 1400, rated_n=600.0),
        Hardware("R", "", "rope", 1, 3690, 10.0, 20000, rated_n=2000.0, breaking_n=24000.0),
        Hardware("S", "", "strap", 1, 990, 0.0, 1000, rated_n=9800.0, breaking_n=68600.0),
        Hardware("P", "", "pulley", 1, 1790, rated_n=3000.0, breaking_n=15000.0, efficiency=0.917),
        Hardware("K", "", "brake", 1, 6490, rated_n=2500.0, breaking_n=14000.0),
        Hardware("L", "", "latch", 1, 2390, rated_n=3000.0, breaking_n=12000.0),
        Hardware("T", "", "tie", 1, 1500, 5.0, 2000, rated_n=2500.0, stiffness_n=600_000.0),
    )
    return Catalog(
        "small", "EUR", "2026-01-01", "", sheets, timber, screws, mounts, hardware, read_materials()
    )


def small_room(load_n_per_m=500.0, **climber):
    beams = (
        Beam("known", 2500, (2350, 2350), 120, 240, 3600, "C24", load_n_per_m),
        Beam("unknown", 1200, (2350, 2350), 100, 200, 3600, None, None),
    )
    wall = WallRange((10.0, 60.0), (200, 400), (1800, 2500))
    return Room("r", 5000, 3600, 2500, beams, (), Access(), Climber(**climber), wall, Yard())


def small_tables(catalog=None, **climber):
    catalog = catalog or small_catalog()
    room = small_room(**climber)
    return build_tables(catalog, room, sheet_families(catalog), timber_sections(catalog))


def batch(**columns):
    """Return a batch of walls; what isn't given is a sensible single wall's value."""
    base = {
        "beam": 0,
        "sheet": 1,
        "timber": 1,
        "mount": 1,
        "stud_count": 5,
        "mount_count": 3,
        "columns": 1,
        "rows": 1,
        "bay_mm": 538.75,
        "seam_mm": 0.0,
        "grain_across": True,
        "screw_mm": 150.0,
        "eye_mm": 2300.0,
        **_HOOKS,
        "lift_beam": 0,
        "tie": 0,
        "tie_cos": 1.0,
        "tie_mm": 0.0,
        "tie_board_mm": 2600.0,
        "tie_place": 0.5,
        "board_mm": 2600.0,
        "kicker_mm": 250.0,
        "width_mm": 2200.0,
        "angle_rad": math.radians(40.0),
    } | columns
    kinds = {k: float if k in _REAL else bool if k == "grain_across" else np.int64 for k in base}
    arrays = {k: np.asarray(v, dtype=kinds[k]) for k, v in base.items()}
    size = np.broadcast_shapes(*(a.shape for a in arrays.values()), (1,))
    return Batch(**{k: np.broadcast_to(a, size).copy() for k, a in arrays.items()})


@pytest.fixture(scope="session")
def tied_tables():
    """Tables of a room whose walls may be tied back to its first, or to its second beam."""

    def make(tie_beam):
        catalog = small_catalog()
        room = replace(small_room(), tie_beam=tie_beam)
        return build_tables(catalog, room, sheet_families(catalog), timber_sections(catalog))

    return make


@pytest.fixture(scope="session")
def tables():
    return small_tables()


@pytest.fixture(scope="session")
def make_batch():
    return batch


@pytest.fixture(scope="session")
def make_tables():
    return small_tables


@pytest.fixture(scope="session")
def catalog():
    return small_catalog()


@pytest.fixture(scope="session")
def make_room():
    return small_room


GRADES = {"C18": "SP No.2", "C24": "SPF No.2", "C30": "DF-L No.2"}


@pytest.fixture(scope="session")
def american(catalog):
    timber = tuple(replace(b, strength_class=GRADES[b.strength_class]) for b in catalog.timber)
    return replace(catalog, timber=timber)


@pytest.fixture(scope="session")
def nds_room():
    room = small_room()
    beams = tuple(replace(b, grade=b.grade and "DF-L No.2") for b in room.beams)
    return replace(room, beams=beams, code="NDS")


@pytest.fixture(scope="session")
def nds_tables(american, nds_room):
    known = replace(american, materials=in_code(american.materials, "NDS"))
    return build_tables(known, nds_room, sheet_families(known), timber_sections(known))


@pytest.fixture(scope="session", params=["EN 1995", "NDS"])
def either_tables(request, tables, nds_tables):
    """Return the tables of either design code."""
    return nds_tables if request.param == "NDS" else tables


def tables_below(own, catalog, climber, code="EN 1995", **wall):
    """Return the tables of the small room with another place to hang from in its first beam's."""
    room = replace(small_room(), code=code)
    catalog = replace(catalog, materials=in_code(catalog.materials, code))
    own = {"grade": "C24"} | own
    first = replace(room.beams[0], existing_load_n_per_m=0.0, **own)
    room = replace(
        room,
        beams=(first, *room.beams[1:]),
        wall=replace(room.wall, **wall),
        climber=replace(room.climber, **climber),
    )
    return build_tables(catalog, room, sheet_families(catalog), timber_sections(catalog))


@pytest.fixture(scope="session")
def make_tables_below():
    return tables_below


def growing():
    """Return a dozen walls, each larger and steeper than the one before."""
    steps = np.linspace(0.0, 1.0, 12)
    return batch(
        board_mm=2000 + 1500 * steps,
        kicker_mm=100 + 400 * steps,
        width_mm=1200 + 1300 * steps,
        angle_rad=0.2 + steps,
    )


def falling(light, heavy, starts):
    """Return which of some checks ease off along larger walls, or under a heavier climber."""
    walls = growing()
    before, more = uses(light, walls), uses(heavy, walls)
    mine = [name for name in before if name.startswith(starts)]
    assert mine
    return [
        name
        for name in mine
        if (np.diff(before[name]) < -1e-12).any() or (more[name] < before[name] - 1e-12).any()
    ]


@pytest.fixture(scope="session")
def falling_checks():
    return falling
