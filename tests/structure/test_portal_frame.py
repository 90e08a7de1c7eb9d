"""One side of a freestanding frame against a frame solver (PyNiteFEA), and limits by hand.

The model is the statics of the side itself, from the sizes alone: a post on a pin, propped by a
hinged strut from the foot's end; the foot carries the strut's thrust and stands on its ends. The
foot is set hard on the floor, as it is on a floor. Demanded: 2 %.
"""

import dataclasses
import math

import pytest
from Pynite import FEModel3D

from steepwright.room.types import Stand
from steepwright.structure import checks
from steepwright.structure.rows import look_up

G = 9.80665  # m/s2, CGPM 1901
E_C24, RHO_C24 = 11000.0, 420.0  # EN 338 Table 1
SIDES = [
    # post across, post along, brace, brace up, foot, underside
    ((100, 120), (60, 120), 1600, 1400, 2200),
    ((100, 100), (45, 145), 1200, 1000, 2000),
    ((140, 140), (80, 120), 2000, 1600, 2600),
    ((120, 160), (60, 160), 900, 1300, 2100),
]


def stand_of(post, brace, up, foot, rated=2000.0):
    return Stand(post, brace, up, foot, rated)


@pytest.fixture(scope="module")
def frame_tables(make_tables_below, catalog):
    def tables(stand, underside=2200, **climber):
        own = {"kind": "frame", "width_mm": 100, "depth_mm": 200, "span_mm": 2600}
        own |= {"underside_mm": (underside, underside), "stand": stand}
        return make_tables_below(own, catalog, climber, fold_up=False)

    return tables


def told(tables, batch):
    return {check.name: check for check in checks(tables, batch)}


def solved(post, brace, up, foot, top, pull_n, joint_n_per_mm):
    """One side under a level pull at its head: the strut's joints as a softer strut."""
    toe = 100.0  # factors.csv frame_toe_mm
    reach = foot - toe
    length = math.hypot(reach, up)
    bar = E_C24 * brace[0] * brace[1] / length
    softer = 1.0 / (1.0 / bar + 2.0 / joint_n_per_mm) / bar
    model = FEModel3D()
    model.add_material("wood", E_C24, E_C24 / 16, 0.3, 0.0)
    inertia = post[0] * post[1] ** 3 / 12
    model.add_section("post", 1e3 * post[0] * post[1], inertia, inertia, 1.0)
    model.add_section("strut", softer * brace[0] * brace[1], 1e3, 1e3, 1.0)
    for name, x, y in (("foot", 0, 0), ("mid", 0, up), ("head", 0, top), ("toe", reach, 0)):
        model.add_node(name, float(x), float(y), 0.0)
    model.add_member("lower", "foot", "mid", "wood", "post")
    model.add_member("upper", "mid", "head", "wood", "post")
    model.add_member("strut", "toe", "mid", "wood", "strut")
    model.def_releases("strut", Rzi=True, Rzj=True)
    model.def_support("foot", True, True, True, True, True, False)
    model.def_support("toe", True, True, True, True, True, True)
    for name in ("mid", "head"):
        model.def_support(name, False, False, True, True, True, False)
    model.add_node_load("head", "FX", pull_n)
    model.analyze_linear(check_stability=False)
    return model


@pytest.mark.parametrize(("post", "brace", "up", "foot", "underside"), SIDES)
def test_portal_agrees_with_a_frame_solver(
    frame_tables, make_batch, post, brace, up, foot, underside
):
    tables = frame_tables(stand_of(post, brace, up, foot), underside)
    batch = make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)
    top = underside + 200.0
    climber = 80.0 * G * 2.0 * rows.mount.lever[0] * batch.end_climb[0]
    pull = 1.5 * 0.5 * climber
    slip = 2 * RHO_C24**1.5 * 10 / 23  # EN 1995-1-1 Table 7.1, two bolts M10
    model = solved(post, brace, up, foot, top, pull, slip)

    thrust = abs(model.members["strut"].axial(0.5, "Combo 1"))
    toppling = 0.2 * 1.5 * 80.0 * G * 2.0 * rows.mount.lever[0]
    knee = toppling / 2 * top / 600.0 * math.sqrt(2)
    assert check["frame brace"].demand == pytest.approx(max(thrust, knee), rel=0.02)
    moment = abs(model.members["upper"].max_moment("Mz", "Combo 1"))
    moment = max(moment, abs(model.members["upper"].min_moment("Mz", "Combo 1")))
    stand = rows.stand
    post_axial = abs(model.members["lower"].axial(0.5, "Combo 1"))
    down = check["frame foot under the post"].demand - post_axial
    use = (down + post_axial) / stand.post_n[0] + moment / stand.post_along_nmm[0]
    assert check["frame post"].demand == pytest.approx(use, rel=0.02)
    up_n = model.nodes["toe"].RxnFY["Combo 1"]
    assert down > 0.0
    assert abs(up_n) == pytest.approx(post_axial, rel=1e-6)
    static = solved(post, brace, up, foot, top, pull / 1.5 / 2.0, slip)
    sway = static.nodes["head"].DX["Combo 1"]
    assert check["frame sway"].demand == pytest.approx(sway, rel=0.02)


def test_tipping_by_hand_about_the_foots_end(frame_tables, make_batch):
    """EN 1990 6.4.1: 1.5 x 0.5 F h against (1.5 F + 0.9 G) e, with G of the timber's volume."""
    tables, batch = frame_tables(stand_of((100, 120), (60, 120), 1600, 1400)), make_batch()
    rows = look_up(tables, batch)
    weight = 1.5 * 80.0 * G * 2.0 * rows.mount.lever[0] * batch.end_climb[0]
    # Braces run 7 d past two bolts 5 d apart; cheeks of 300 + 70 + 100 and 210 + 60 mm.
    braces = 2 * 2.252 + 1.039 + 2 * 0.470 + 2 * 0.270
    bars = 0.1 * 0.12 * (2.08 + 2.8) + 0.06 * 0.12 * braces
    own = (bars + 0.1 * 0.2 * 2.7 / 2) * RHO_C24 * G
    check = told(tables, batch)["frame tips over"]
    assert check.demand == pytest.approx(weight * 0.5 * 2400.0, rel=1e-9)
    assert check.capacity == pytest.approx((weight + 0.9 * own) * 1400.0, rel=1e-9)


def test_bolts_by_johansens_modes_written_out(frame_tables):
    """EN 1995-1-1 (8.6) with (8.16), (8.30), (8.31), (8.34); M10 of class 4.6 in C24."""
    tables = frame_tables(stand_of((100, 120), (60, 120), 1600, 1400))
    d, t1, t2 = 10.0, 60.0, 100.0
    f1 = 0.082 * (1 - 0.01 * d) * 350.0
    b = 1.0 / (1.35 + 0.015 * d)
    my = 0.3 * 400.0 * d**2.6
    root = math.sqrt(b + 2 * b * b * (1 + t2 / t1 + (t2 / t1) ** 2) + b**3 * (t2 / t1) ** 2)
    c = f1 * t1 * d / (1 + b) * (root - b * (1 + t2 / t1))
    tilt = math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * my / (f1 * d * t1**2)) - b
    other = math.sqrt(2 * b * b * (1 + b) + 4 * b * (1 + 2 * b) * my / (f1 * d * t2**2)) - b
    modes = (
        f1 * t1 * d,
        b * f1 * t2 * d,
        c,
        1.05 * f1 * t1 * d / (2 + b) * tilt,
        1.05 * f1 * t2 * d / (1 + 2 * b) * other,
        1.15 * math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * my * f1 * d),
    )
    two = 2**0.9 * (5.0 / 13.0) ** 0.25
    assert tables.stands.joint_n[0] == pytest.approx(0.9 / 1.3 * two * min(modes), rel=1e-9)


def test_cheeks_by_levers_written_out(frame_tables, make_batch):
    """EN 1995-1-1 8.5.2, 6.1.6 and (8.6); EN 1993-1-8 Table 3.4; moments about the cheek's end."""
    tables, batch = frame_tables(stand_of((100, 120), (60, 120), 1600, 1400)), make_batch()
    rows, check = look_up(tables, batch), told(tables, batch)
    everyone = 1.5 * 80.0 * G * 2.0 * rows.mount.lever[0]
    pull = 0.5 * everyone * batch.end_climb[0]
    # A bolt 70 mm below the post's top, the cheek's end 300 mm below it, the pull 200 mm above.
    washer = 3.0 * 2.5 * math.pi / 4 * (30.0**2 - 11.0**2)  # C24, fc,90,k of EN 338:2016
    tension = pull * 500.0 / 230.0 / (0.9 / 1.3 * washer)
    bending = pull * 270.0 / ((120 - 11) * 60.0**2 / 6.0) / (0.9 / 1.3 * 24.0)
    assert check["frame head's joint"].use == pytest.approx(max(tension, bending), rel=1e-6)
    level, lift = pull * (2400.0 / 1600.0 - 1.0), pull * (2400.0 / 1300.0 - 2.0)
    assert lift < 0.0
    assert check["frame post's foot joint"].demand == pytest.approx(level, rel=1e-9)


def test_across_the_room_a_cheeks_bolt_holds_what_the_brace_adds(frame_tables, make_batch):
    """A portal with braces 600 mm from the corner: 0.2 F level, half on each post on a pin."""
    tables = frame_tables(stand_of((100, 120), (60, 120), 1600, 1400), 2800)
    stiff = dataclasses.replace(
        tables.stands, clasp_n=1e6 * tables.stands.clasp_n, cheek_nmm=1e6 * tables.stands.cheek_nmm
    )
    tables = dataclasses.replace(tables, stands=stiff)
    rows, check = look_up(tables, make_batch()), told(tables, make_batch())
    aside = 0.2 * 1.5 * 80.0 * G * 2.0 * rows.mount.lever[0] / 2.0
    brace = aside * 3000.0 / 600.0  # moments of the post about the pin: level part of the brace
    shear = math.hypot(brace - aside, brace) / rows.stand.cheek_n[0]
    assert check["frame head's joint"].use == pytest.approx(shear, rel=1e-9)


def test_the_brace_lifts_the_post_where_the_foot_is_short(frame_tables, make_batch):
    tables = frame_tables(stand_of((100, 120), (60, 120), 1600, 900))
    rows, check = look_up(tables, make_batch()), told(tables, make_batch())
    climb = 1.5 * 80.0 * G * 2.0 * rows.mount.lever[0] * make_batch().end_climb[0]
    lift, level = 0.5 * climb * 2400.0 / 800.0 - climb, 0.5 * climb * 0.5
    demand = check["frame post's foot joint"].demand
    assert demand == pytest.approx(math.hypot(lift, level), rel=1e-9)


def test_bolts_need_room_for_their_edge_distances(frame_tables, make_batch):
    """EN 1995-1-1 Table 8.4, M10: 40 mm to both edges of a post, 30 mm in a brace."""
    for post, brace, use in (
        ((100, 120), (60, 120), 0.8),
        ((70, 120), (60, 120), 80 / 70),
        ((100, 120), (45, 50), 1.2),
    ):
        check = told(frame_tables(stand_of(post, brace, 1600, 1400)), make_batch())
        assert check["frame bolts' room"].use == pytest.approx(use, rel=1e-12)


def test_friction_alone_is_too_little_and_an_unknown_fixing_settles_nothing(
    frame_tables, make_batch
):
    stand, batch = stand_of((100, 120), (60, 120), 1600, 1400), make_batch()
    known = told(frame_tables(stand), batch)["frame slides"]
    unknown = told(frame_tables(dataclasses.replace(stand, floor_rated_n=None)), batch)
    none = told(frame_tables(dataclasses.replace(stand, floor_rated_n=0.0)), batch)
    assert known.demand > 0.0
    assert (known.settled, known.capacity) == (True, 2000.0)
    assert (unknown["frame slides"].settled, unknown["frame slides"].use) == (False, 1.0)
    assert none["frame slides"].use > 1.0


def test_nothing_is_said_of_frames_elsewhere(frame_tables, make_batch):
    tables = frame_tables(stand_of((100, 120), (60, 120), 1600, 1400))
    names = set(told(tables, make_batch(beam=1)))
    assert not [name for name in names if name.startswith("frame ") and "screw" not in name]
    assert {"ceiling beam bending", "frame tips over"} <= set(told(tables, make_batch()))


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"foot_mm": 900}, "frame tips over"),
        ({"post_mm": (80, 100)}, "frame post"),
        ({"post_mm": (80, 100)}, "frame post, sideways"),
        ({"post_mm": (80, 100)}, "frame foot"),
        ({"post_mm": (80, 100)}, "frame sway"),
        ({"post_mm": (80, 100)}, "frame foot under the post"),
        ({"brace_mm": (45, 95)}, "frame brace"),
        ({"brace_mm": (45, 95)}, "frame brace's joint"),
    ],
)
def test_less_timber_never_lowers_a_use(frame_tables, make_batch, change, name):
    stand = stand_of((100, 120), (60, 120), 1600, 1400)
    thick = told(frame_tables(stand), make_batch())[name].use
    thin = told(frame_tables(dataclasses.replace(stand, **change)), make_batch())[name].use
    assert thin > thick > 0.0


def test_no_frame_check_falls_with_the_wall_or_the_climbers(frame_tables, falling_checks):
    stand = stand_of((100, 120), (60, 120), 1600, 1400)
    light, heavy = frame_tables(stand), frame_tables(stand, mass_kg=95.0)
    assert falling_checks(light, heavy, "frame ") == []
