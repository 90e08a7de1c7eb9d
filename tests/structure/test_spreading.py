"""A timber under joists against a frame solver (PyNiteFEA) and limits by hand; joists' checks."""

import dataclasses
import math
from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D

from steepwright.room.types import Spreader
from steepwright.structure import checks
from steepwright.structure.rows import look_up
from steepwright.structure.spreading import POINTS_PER_BAY, spreading

G = 9.80665  # m/s2, CGPM 1901
E_C24 = 11000.0  # EN 338
SPREADER = Spreader(
    tuple(range(250, 3000, 500)), (80, 240), 500, 6000, "C24", 400.0, (10, 220), 15, True
)


def solved(joists, spring, ei):
    """The same by a frame solver, the load at every place in turn."""
    steps = (np.arange(POINTS_PER_BAY) / POINTS_PER_BAY).tolist()
    places = [a + (b - a) * s for a, b in pairwise(joists) for s in steps]
    places.append(joists[-1])
    model = FEModel3D()
    model.add_material("wood", E_C24, E_C24 / 16, 0.3, 0.0)
    model.add_section("bar", 1e4, ei / E_C24, ei / E_C24, 1.0)
    for n, y in enumerate(places):
        model.add_node(str(n), float(y), 0.0, 0.0)
        model.def_support(str(n), True, False, True, True, True, False)
        if n % POINTS_PER_BAY == 0:
            model.def_support_spring(str(n), "DY", spring)
    for n in range(len(places) - 1):
        model.add_member(str(n), str(n), str(n + 1), "wood", "bar")
    for n in range(len(places)):
        model.add_load_combo(str(n), {str(n): 1.0})
        model.add_node_load(str(n), "FY", -1.0, str(n))
    model.analyze_linear(check_stability=False)
    combos = [str(n) for n in range(len(places))]
    share = max(
        -spring * model.nodes[str(n)].DY[c]
        for n in range(0, len(places), POINTS_PER_BAY)
        for c in combos
    )
    soft = max(-model.nodes[c].DY[c] for c in combos)
    arm = max(
        abs(value)
        for m in model.members.values()
        for c in combos
        for value in (m.max_moment("Mz", c), m.min_moment("Mz", c))
    )
    return share, arm, soft


@pytest.mark.parametrize(
    ("joists", "spring", "ei"),
    [
        ((0.0, 500.0, 1000.0, 1500.0), 300.0, 1.6e11),
        ((0.0, 400.0, 800.0), 2000.0, 5e10),
        ((250.0, 950.0, 1650.0, 2350.0), 120.0, 7e11),
    ],
)
def test_a_frame_solver_spreads_the_load_alike(joists, spring, ei):
    own = spreading(joists, spring, ei)
    share, arm, soft = solved(joists, spring, ei)
    assert own.share == pytest.approx(share, rel=1e-4)
    assert own.arm_mm == pytest.approx(arm, rel=1e-3)
    assert own.soft_mm_per_n == pytest.approx(soft, rel=1e-3)


def test_limits_by_hand():
    """Two joists: a lever. Rigid timber on three: 1/3 + 1/2 at an end. Stiff joists: all on one."""
    two = spreading((0.0, 600.0), 100.0, 1e11)
    assert two.share == pytest.approx(1.0, rel=1e-9)
    assert two.arm_mm == pytest.approx(150.0, rel=1e-9)
    assert spreading((0.0, 600.0, 1200.0), 1.0, 1e15).share == pytest.approx(5 / 6, rel=1e-4)
    assert spreading((0.0, 600.0, 1200.0), 1e12, 1e9).share == pytest.approx(1.0, rel=1e-4)
    with pytest.raises(ValueError, match="two joists"):
        spreading((0.0,), 1.0, 1.0)


@pytest.fixture(scope="module")
def spread_tables(make_tables_below, make_room, catalog):
    def tables(spreader=SPREADER, **climber):
        own = {"kind": "spreader", "width_mm": 100, "depth_mm": 120, "span_mm": 500}
        own |= {"x_mm": make_room().length_mm // 2, "spreader": spreader}
        return make_tables_below(own, catalog, climber)

    return tables


def told(tables, batch):
    return {check.name: check for check in checks(tables, batch)}


def test_one_joist_by_hand(spread_tables, make_batch):
    """EN 1995-1-1 6.1.6, 6.3.3, 6.1.7; a joist's stiffness at mid-span is 48 EI / L^3."""
    tables, batch = spread_tables(), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)
    spring = 48.0 * E_C24 * 80.0 * 240.0**3 / 12.0 / 6000.0**3
    share, arm, _ = solved([float(y) for y in SPREADER.joists_mm], spring,
                           E_C24 * 100.0 * 120.0**3 / 12.0)  # fmt: skip
    assert share < 0.7
    lever = rows.mount.lever[0]
    own = 0.1 * 0.12 * 0.5 * 420.0 * G
    board = rows.board_n[0] / 2.0 * lever
    load = share * (1.5 * 80.0 * G * 2.0 * lever + 1.35 * board) + 1.35 * own
    # Permanent and variable parts as for a ceiling beam.
    part = tables.factors["beam_permanent_share"]
    dead = 0.08 * 0.24 * 420.0 * G + part * 400.0
    there = (1.35 * dead + 1.5 * (1.0 - part) * 400.0) / 1000.0
    bending = there * 6000.0**2 / 8.0 + load * 1500.0
    assert check["joist bending"].demand == pytest.approx(bending, rel=2e-3)
    assert check["joist shear"].demand == pytest.approx(there * 3000.0 + load / 2.0, rel=2e-3)
    timber = 1.5 * 80.0 * G * 2.0 * lever * arm * (1.0 + 0.5 * 120.0 / 100.0) + 1.35 * board * arm
    assert check["ceiling beam bending"].demand == pytest.approx(timber, rel=0.02)


def test_the_screw_by_hand(spread_tables, make_batch):
    """EN 1995-1-1 (8.38), (8.39), 8.5.2: 10 x 220 through 120 mm of timber and 15 mm of lining."""
    tables = spread_tables()
    lef = 85.0
    thread = 0.52 * 10**-0.5 * lef**-0.1 * 350.0**0.8 * 10 * lef
    washer = 3.0 * 2.5 * math.pi / 4.0 * (30.0**2 - 11.0**2)
    own = 0.9 / 1.3 * min(thread, washer)
    assert tables.spreads.pull_n[0] == pytest.approx(own, rel=1e-9)
    assert tables.spreads.room_use[0] == pytest.approx(1.0, rel=1e-9)  # 8 d in a joist of 80 mm
    short = spread_tables(dataclasses.replace(SPREADER, screw_mm=(10, 130)))
    assert told(short, make_batch())["spreader's screw"].use > 1.0


def test_joists_that_are_held_do_not_tilt(spread_tables):
    """EN 1995-1-1 6.3.3(5): kcrit is 1; fm,k of C24 is 24 MPa, no kh beyond 150 mm."""
    own = spread_tables(dataclasses.replace(SPREADER, held=True)).spreads.moment_d_nmm[0]
    assert own == pytest.approx(0.9 / 1.3 * 24.0 * 80.0 * 240.0**2 / 6.0, rel=1e-9)
    assert spread_tables().spreads.moment_d_nmm[0] < own
    slim = dataclasses.replace(SPREADER, joist_mm=(38, 240))
    assert spread_tables(slim).spreads.moment_d_nmm[0] < 0.8 * 38.0 / 80.0 * own


def test_what_is_unknown_settles_nothing(spread_tables, make_batch):
    for change, name in (
        ({"grade": None}, "joist bending"),
        ({"load_n_per_m": None}, "joist shear"),
        ({"found": False}, "spreader's screw"),
    ):
        check = told(spread_tables(dataclasses.replace(SPREADER, **change)), make_batch())
        assert not check[name].settled
    assert told(spread_tables(), make_batch())["joist bending"].settled
    names = set(told(spread_tables(), make_batch(beam=1)))
    assert not [n for n in names if n.startswith(("joist", "spreader"))]


def test_no_check_falls_with_the_wall_or_the_climbers(spread_tables, falling_checks):
    light, heavy = spread_tables(), spread_tables(mass_kg=95.0)
    assert falling_checks(light, heavy, ("joist", "spreader", "ceiling beam")) == []
