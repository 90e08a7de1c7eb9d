"""Wall ledgers by hand: levers, Johansen's modes and withdrawal written out once more."""

import dataclasses
import math

import pytest

from steepwright.room.types import Ledger
from steepwright.structure import checks
from steepwright.structure.rows import look_up

G = 9.80665  # m/s2, CGPM 1901
STUDS = Ledger((60, 160), "studs", 4, 400, 60, 2, None)
MASONRY = Ledger((60, 160), "masonry", 4, 400, 60, 1, 4000.0)


@pytest.fixture(scope="module")
def ledger_tables(make_tables_below, catalog):
    def tables(ledger, **climber):
        own = {"kind": "ledger", "width_mm": 100, "depth_mm": 200, "span_mm": 3000}
        return make_tables_below(own | {"ledger": ledger}, catalog, climber)

    return tables


def told(tables, batch):
    return {check.name: check for check in checks(tables, batch)}


def ends(rows, batch, partial):
    """Down and level at the worse end: 1.35 and 1.5 with partial factors, 1 without."""
    lever = rows.mount.lever[0]
    climb = 80.0 * G * 2.0 * lever * batch.end_climb[0]
    board = rows.board_n[0] / 2.0 * lever * batch.end_weight[0]
    own = 1.35 * 0.1 * 0.2 * 420.0 * G * 1.5  # 1.35 x half of 3 m, counted with its factor in both
    if not partial:
        return climb + board + own, 0.5 * climb
    return 1.5 * climb + 1.35 * board + own, 0.75 * climb


def test_anchors_bear_what_levers_give_them(ledger_tables, make_batch):
    tables, batch = ledger_tables(MASONRY), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)["ledger anchor working load"]
    down, level = ends(rows, batch, partial=False)
    drop = rows.mount.twist_mm[0] + 80.0  # pivot below the beam's middle, ledger's middle below it
    upright = down / 2.0 + level * drop / 1200.0
    away = down / 2.0 * 30.0 / 80.0  # half a thickness off the wall, held half a depth up
    own = math.sqrt(upright**2 + (level / 2.0) ** 2 + away**2)
    assert check.demand == pytest.approx(own, rel=1e-9)
    assert (check.capacity, check.settled) == (4000.0, True)


def test_an_unknown_anchor_settles_nothing(ledger_tables, make_batch):
    unknown = ledger_tables(dataclasses.replace(MASONRY, rated_n=None))
    check = told(unknown, make_batch())["ledger anchor working load"]
    assert (check.use, check.settled) == (1.0, False)
    assert "approval" in check.assumption


def test_screws_in_studs_by_johansen_and_withdrawal(ledger_tables, make_batch):
    """EN 1995-1-1 (8.6), (8.15), (8.30), (8.34), (8.38) to (8.41), A1:2008."""
    tables, batch = ledger_tables(STUDS), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)["ledger screws"]
    # The small yard's frame screw for 60 mm: 8 x 160, root 5.2, thread 80, head 15, 600 MPa; the
    # studs are of the least class of EN 338 in the tables, C14 with 290 kg/m3.
    d, t1, t2, least = 1.1 * 5.2, 60.0, 100.0, 290.0
    f1, f2 = (0.082 * rho * d**-0.3 for rho in (350.0, least))
    b, my = f2 / f1, 0.3 * 600.0 * d**2.6
    r = t2 / t1
    modes = (
        f1 * t1 * d,
        f2 * t2 * d,
        f1 * t1 * d / (1 + b) * (math.sqrt(b + 2 * b * b * (1 + r + r * r) + b**3 * r * r)
                                 - b * (1 + r)),
        1.05 * f1 * t1 * d / (2 + b) * (math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * my
                                                  / (f1 * d * t1**2)) - b),
        1.05 * f1 * t2 * d / (1 + 2 * b) * (math.sqrt(2 * b * b * (1 + b) + 4 * b * (1 + 2 * b)
                                                      * my / (f1 * d * t2**2)) - b),
        1.15 * math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * my * f1 * d),
    )  # fmt: skip
    lateral = 0.9 / 1.3 * min(modes) * 2**0.9 * (5.0 / 13.0) ** 0.25
    thread = 0.52 * 8**-0.5 * 80**-0.1 * least**0.8 * 8 * 80
    head = 10.0 * 15.0**2
    pull = 0.9 / 1.3 * min(thread, head) * 2**0.9
    down, level = ends(rows, batch, partial=True)
    upright = down / 2.0 + level * (rows.mount.twist_mm[0] + 80.0) / 1200.0
    sheared = math.hypot(upright, level / 2.0) / lateral
    pulled = down / 2.0 * 60.0 / 160.0 / pull
    assert check.use == pytest.approx(math.hypot(sheared, pulled), rel=1e-6)


def test_the_ledger_bends_shears_and_bears(ledger_tables, make_batch):
    """EN 1995-1-1 6.1.5 to 6.1.7 with EN 338 C24: 24, 4.0 x 0.67 and 2.5 MPa; kmod 0.9."""
    tables, batch = ledger_tables(STUDS), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)
    down, _ = ends(rows, batch, partial=True)
    design = 0.9 / 1.3
    assert check["ledger bending"].demand == pytest.approx(down * 400.0 / 4.0, rel=1e-9)
    strength = design * 24.0 * 60.0 * 160.0**2 / 6.0
    assert check["ledger bending"].capacity == pytest.approx(strength, rel=1e-9)
    shear = design * 4.0 * 0.67 * 60.0 * 160.0 / 1.5
    assert check["ledger shear"].use == pytest.approx(down / shear, rel=1e-9)
    bearing = design * 2.5 * 60.0 * 100.0
    assert check["ledger bearing"].use == pytest.approx(down / bearing, rel=1e-9)


def test_screws_need_room(ledger_tables, make_batch):
    """EN 1995-1-1 Table 8.4: 4 d + 5 d + 3 d in the ledger, 3 d to both sides in the stud."""
    narrow = dataclasses.replace(STUDS, stud_mm=38)
    assert told(ledger_tables(STUDS), make_batch())["ledger screws' room"].use == 0.8
    assert told(ledger_tables(narrow), make_batch())["ledger screws' room"].use == 48 / 38
    thick = dataclasses.replace(STUDS, section_mm=(100, 160))
    assert told(ledger_tables(thick), make_batch())["ledger screws"].use > 1.0


def test_nothing_is_said_of_ledgers_elsewhere(ledger_tables, make_batch):
    names = set(told(ledger_tables(STUDS), make_batch(beam=1)))
    assert not [name for name in names if name.startswith("ledger")]


@pytest.mark.parametrize("ledger", [STUDS, MASONRY])
def test_no_ledger_check_falls_with_the_wall_or_the_climbers(ledger_tables, falling_checks, ledger):
    light, heavy = ledger_tables(ledger), ledger_tables(ledger, mass_kg=95.0)
    assert falling_checks(light, heavy, "ledger") == []
