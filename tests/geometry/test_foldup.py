"""Parking and sweep in a room: plane trigonometry by hand, and mirror images."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from steepwright.geometry.foldup import (
    HungBoard,
    park,
    standing_clear_mm,
    sweep_clear_mm,
    sweep_is_clear,
)
from steepwright.geometry.surroundings import beam_underside_mm
from steepwright.geometry.wall import overhang_angle_rad
from steepwright.room.types import Access, Beam, Climber, Room, Solid, WallRange, Yard

Y = (600.0, 3000.0)
PIVOT, SETBACK, BEHIND, DEPTH, KICKER = 2370.0, 50.0, 63.0, 113.0, 300.0


def beam(x, underside, name="own", width=100):
    ends = underside if isinstance(underside, tuple) else (underside, underside)
    return Beam(name, x, ends, width, 150, 3600, "C24", 0.0)


OWN = beam(3000, 2450)


def room_with(*solids, beams=(OWN,), ceiling=2600):
    wall = WallRange((30.0, 50.0), (100, 400), (1200, 2600))
    return Room(
        "test", 5000, 3600, ceiling, beams, tuple(solids), Access(), Climber(), wall, Yard()
    )


def hung(board=2800.0, front=0.0, depth=DEPTH):
    angle = overhang_angle_rad(board, KICKER, PIVOT, SETBACK, BEHIND)
    return HungBoard(board, angle, PIVOT, SETBACK, BEHIND, depth, front)


def test_parks_level_under_its_beam_and_the_ceiling():
    boards = np.array([2600.0, 2800.0])
    parked = park(room_with(), OWN, "+x", hung(boards, front=25.0), Y)
    assert [parked.stops[i] for i in parked.stop] == ["level", "level"]
    np.testing.assert_allclose(parked.angle_rad, np.pi / 2)
    np.testing.assert_allclose(parked.headroom_mm, PIVOT - BEHIND - 25.0)
    np.testing.assert_allclose(parked.x_from_mm, 3000.0 - (boards - SETBACK))
    np.testing.assert_allclose(parked.x_to_mm, 3000.0 + SETBACK)


def test_next_beam_stops_the_back_at_its_near_edge():
    """The back's line, d = depth - n from the pivot, meets (1450, 30): p cos t + z sin t = d."""
    room = room_with(beams=(OWN, beam(1500, 2400, "next")))
    parked = park(room, OWN, "+x", hung(), Y)
    angle = brentq(lambda t: 1450 * np.cos(t) + 30 * np.sin(t) - (DEPTH - BEHIND), 1.0, np.pi / 2)
    assert parked.stops[int(parked.stop)] == "next"
    assert float(parked.angle_rad) == pytest.approx(angle, abs=1e-8)
    foot = 2750 * np.cos(angle) + BEHIND * np.sin(angle)
    assert float(parked.headroom_mm) == pytest.approx(PIVOT - foot, abs=1e-4)


def test_beam_beyond_reach_and_beam_in_front_stop_nothing():
    room = room_with(beams=(OWN, beam(150, 2300, "beyond"), beam(3400, 2300, "in front")))
    assert float(park(room, OWN, "+x", hung(), Y).angle_rad) == pytest.approx(np.pi / 2)


def test_low_ceiling_and_beam_leave_no_room_for_the_lip():
    """The lip's back corner is at z = a cos t + d sin t above the pivot."""
    room = room_with(beams=(dataclasses.replace(OWN, underside_mm=(2410, 2410)),), ceiling=2415)
    parked = park(room, room.beams[0], "+x", hung(board=2800.0), Y)
    start = float(hung().angle_rad)
    lip = SETBACK * np.cos(start) + (DEPTH - BEHIND) * np.sin(start)
    assert lip > 2415 - PIVOT  # it does not even stand
    assert float(parked.angle_rad) == pytest.approx(start)
    assert float(standing_clear_mm(room, room.beams[0], "+x", hung(), Y)) < 0.0

    shallow = hung(depth=100.0)  # d = 37: the back passes under its beam and the ceiling
    room = dataclasses.replace(room, ceiling_mm=2500, beams=(OWN,))
    assert float(park(room, OWN, "+x", shallow, Y).angle_rad) == pytest.approx(np.pi / 2)
    assert float(standing_clear_mm(room, OWN, "+x", shallow, Y)) > 0.0


def test_beam_out_of_level_counts_with_its_lowest_point_over_the_wall():
    slanted = beam(1500, (2400, 2472), "slanted")
    room = room_with(beams=(OWN, slanted))
    assert float(beam_underside_mm(slanted, room, 1800.0)) == 2436.0
    stopped = park(room, OWN, "+x", hung(), (np.array([900.0, 1800.0]), 3600.0))
    assert [stopped.stops[i] for i in stopped.stop] == ["slanted", "level"]
    other_way = room_with(beams=(OWN, beam(1500, (2472, 2400), "slanted")))
    stopped = park(other_way, OWN, "+x", hung(), (0.0, np.array([2700.0, 1800.0])))
    assert [stopped.stops[i] for i in stopped.stop] == ["slanted", "level"]


def test_sweep_passes_or_meets_a_cabinet_by_the_circle_of_the_far_corner():
    far = np.hypot(2750.0, BEHIND)
    level = np.pi / 2
    passes = Solid("cabinet", (0, 300), (0, 3600), (0, 1370))
    clear = sweep_clear_mm(room_with(passes), OWN, "+x", hung(), level, Y)
    assert float(clear) == pytest.approx(np.hypot(2700.0, 1000.0) - far, abs=1e-5)
    meets = Solid("cabinet", (0, 400), (0, 3600), (0, 1900))
    clear = sweep_clear_mm(room_with(meets), OWN, "+x", hung(), level, Y)
    assert float(clear) == pytest.approx(np.hypot(2600.0, 470.0) - far, abs=1e-5)
    assert float(sweep_clear_mm(room_with(meets), OWN, "+x", hung(), 1.0, Y)) > 0.0
    beside = dataclasses.replace(meets, y_mm=(0, 600))
    clear = sweep_clear_mm(room_with(beside), OWN, "+x", hung(), level, Y)
    back = np.hypot(2750.0, DEPTH - BEHIND)  # the back corner passes the pivot's height
    assert float(clear) == pytest.approx(3000.0 - back, abs=1e-5)  # the end wall is nearest


def test_low_duct_in_front_of_the_lip_and_wall_out_of_the_room():
    nose = Solid("duct", (3030, 3060), (0, 3600), (2300, 2500))
    assert float(sweep_clear_mm(room_with(nose), OWN, "+x", hung(), np.pi / 2, Y)) < 0.0
    close = beam(2000, 2450)
    room = room_with(beams=(close,))
    assert float(sweep_clear_mm(room, close, "+x", hung(), np.pi / 2, Y)) == pytest.approx(
        2000.0 - np.hypot(2750.0, BEHIND)
    )


@pytest.mark.parametrize("turned", [False, True])
def test_a_touching_solid_does_not_hide_one_that_is_hit(turned):
    """At level the face is at PIVOT - BEHIND: one solid's top just there, another's 1 mm higher."""
    touching = Solid("touching", (1000, 1200), (0, 3600), (2000, int(PIVOT - BEHIND)))
    level = dataclasses.replace(hung(), angle_rad=np.pi / 2)
    room = room_with(touching)
    assert float(sweep_clear_mm(room, OWN, "+x", level, np.pi / 2, Y)) == 0.0
    hit = dataclasses.replace(touching, z_mm=(2000, int(PIVOT - BEHIND) + 1))
    pair = (hit, touching) if turned else (touching, hit)
    assert float(sweep_clear_mm(room_with(*pair), OWN, "+x", level, np.pi / 2, Y)) < 0.0


def test_no_wall_gives_nan():
    boards = np.array([1000.0, 2800.0])
    room = room_with()
    parked = park(room, OWN, "+x", hung(boards), Y)
    clear = sweep_clear_mm(room, OWN, "+x", hung(boards), parked.angle_rad, Y)
    for values in (parked.angle_rad, parked.headroom_mm, parked.x_from_mm, clear):
        np.testing.assert_array_equal(np.isnan(values), [True, False])


def mirrored(room: Room) -> Room:
    def flip(x):
        return (room.length_mm - x[1], room.length_mm - x[0])

    return dataclasses.replace(
        room,
        solids=tuple(dataclasses.replace(s, x_mm=flip(s.x_mm)) for s in room.solids),
        beams=tuple(dataclasses.replace(b, x_mm=room.length_mm - b.x_mm) for b in room.beams),
    )


RANGE = st.tuples(st.integers(0, 4500), st.integers(1, 900)).map(lambda t: (t[0], sum(t)))
HEIGHT = st.tuples(st.integers(0, 2300), st.integers(1, 500)).map(lambda t: (t[0], sum(t)))
BOX = st.builds(Solid, st.just("box"), RANGE, st.just((0, 3600)), HEIGHT)
OTHER = st.builds(beam, st.integers(0, 5000), st.integers(2300, 2500), st.just("other"))


@settings(max_examples=40, deadline=None)
@given(st.lists(BOX, max_size=2), st.lists(OTHER, max_size=2), st.integers(2150, 3200))
def test_mirrored_room_mirrors_everything(boxes, others, board):
    room = room_with(*boxes, beams=(OWN, *others))
    other = mirrored(room)
    one = park(room, OWN, "+x", hung(float(board)), Y)
    two = park(other, other.beams[0], "-x", hung(float(board)), Y)
    np.testing.assert_allclose(one.angle_rad, two.angle_rad, atol=1e-9)
    np.testing.assert_allclose(one.headroom_mm, two.headroom_mm, atol=1e-6)
    np.testing.assert_allclose(one.x_from_mm, room.length_mm - two.x_to_mm, atol=1e-6)
    np.testing.assert_allclose(one.x_to_mm, room.length_mm - two.x_from_mm, atol=1e-6)
    sides = [
        sweep_clear_mm(r, r.beams[0], f, hung(float(board)), one.angle_rad, Y)
        for r, f in ((room, "+x"), (other, "-x"))
    ]
    np.testing.assert_allclose(sides[0], sides[1], atol=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.lists(BOX, max_size=3), st.lists(st.integers(2150, 3200), min_size=1, max_size=4))
def test_a_sweep_is_clear_where_its_clearance_is_not_negative(boxes, boards):
    room, level = room_with(*boxes), np.pi / 2
    boards = hung(np.array([1000.0, *boards]))  # the first doesn't reach its beam
    clear = sweep_clear_mm(room, OWN, "+x", boards, level, Y)
    found = sweep_is_clear(room, OWN, "+x", boards, level, Y)
    np.testing.assert_array_equal(found, clear >= 0.0)


def test_hidden_joists_are_in_nobodys_way():
    hidden = dataclasses.replace(beam(1500, 2400, "next"), kind="joist")
    parked = park(room_with(beams=(OWN, hidden)), OWN, "+x", hung(), Y)
    alone = park(room_with(), OWN, "+x", hung(), Y)
    assert parked.stops == ("level", "ceiling", "own")
    assert float(parked.angle_rad) == float(alone.angle_rad)
