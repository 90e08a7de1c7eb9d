"""Fall, foot and side space against hand-made rooms, a point-sampled room and mirror images."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.geometry.space import (
    Stance,
    fall_space_mm,
    floor_clear,
    foot_room_mm,
    passage_mm,
    side_space_mm,
    wall_y_range_mm,
)
from steepwright.room.types import Access, Climber, Room, Solid, WallRange, Yard


def room_with(*solids: Solid, align="centre", length=5000, width=3600) -> Room:
    wall = WallRange((30.0, 50.0), (100, 400), (1200, 2600), align=align)
    return Room("test", length, width, 2600, (), solids, Access(), Climber(), wall, Yard())


def mirrored(room: Room) -> Room:
    flip = tuple(
        dataclasses.replace(s, x_mm=(room.length_mm - s.x_mm[1], room.length_mm - s.x_mm[0]))
        for s in room.solids
    )
    return dataclasses.replace(room, solids=flip)


DESK = Solid("desk", (3000, 3800), (0, 1500), (0, 750))
LAMP = Solid("lamp", (2400, 2800), (1500, 2000), (2300, 2500))
PILLAR = Solid("pillar", (1500, 1800), (3000, 3200), (0, 2600))


@pytest.mark.parametrize(
    ("align", "expected"), [("left", (0, 2400)), ("centre", (600, 3000)), ("right", (1200, 3600))]
)
def test_wall_lies_where_align_says(align, expected):
    assert wall_y_range_mm(room_with(align=align), 2400) == expected
    start, end = wall_y_range_mm(room_with(align=align), np.array([1000, 2400]))
    np.testing.assert_array_equal(end - start, [1000, 2400])


def test_fall_space_sees_what_is_in_front_and_lower_than_the_lip():
    room = room_with(DESK, LAMP)
    lips = np.array([1000.0, 2900.0, 3400.0, 4000.0, 5200.0])
    np.testing.assert_array_equal(
        fall_space_mm(room, "+x", lips, 1000, 2500, 2200.0), [2000.0, 100.0, 0.0, 1000.0, -200.0]
    )
    np.testing.assert_array_equal(
        fall_space_mm(room, "+x", lips, 1500, 2500, 2200.0),
        [4000.0, 2100.0, 1600.0, 1000.0, -200.0],
    )
    assert fall_space_mm(room, "+x", 1000.0, 1500, 2500, 2301.0) == 1400.0
    assert fall_space_mm(room, "-x", 4000.0, 1000, 2500, 2200.0) == 200.0


def test_foot_room_behind_the_kicker():
    room = room_with(Solid("stair", (0, 400), (0, 1000), (0, 2600)))
    np.testing.assert_array_equal(
        foot_room_mm(room, "+x", [300.0, 500.0, 700.0], 113.0, 900, 2000), [-213.0, -13.0, 187.0]
    )
    assert foot_room_mm(room, "+x", 500.0, 113.0, 1000, 2000) == 387.0
    assert foot_room_mm(room, "-x", 4900.0, 113.0, 0, 2000) == -13.0


def test_floor_under_the_board_is_clear_only_of_what_is_above_its_back():
    stance = Stance(1000.0, np.pi / 4, 2500.0, 300.0, 113.0)
    run = (2000, 2200)  # the face is 1500 mm up at 2200 mm, its back 1500 + 113 sqrt 2

    def clear(x, z, y=(0, 100), **changes):
        room = room_with(Solid("box", x, y, z))
        return bool(floor_clear(room, "+x", dataclasses.replace(stance, **changes), 0, 2000))

    assert not clear(run, (0, 300))
    assert not clear(run, (1650, 1700))
    assert clear(run, (1661, 1700))
    assert clear(run, (1510, 1700), depth_mm=0.0)
    assert clear(run, (0, 300), y=(2000, 2500))
    assert clear((500, 1000), (0, 300))
    assert clear((2800, 3000), (0, 300))
    assert clear((2600, 3000), (2160, 2300), depth_mm=113.0)
    assert not clear((2600, 3000), (2100, 2300), depth_mm=113.0)
    assert not clear((990, 1010), (0, 300), angle_rad=0.0)


def test_side_space_and_passage_round_a_pillar():
    room = room_with(PILLAR, DESK)
    np.testing.assert_array_equal(side_space_mm(room, 600, 2700, (1000, 2900)), (600, 300))
    np.testing.assert_array_equal(side_space_mm(room, 600, 2700, (1900, 2900)), (600, 900))
    np.testing.assert_array_equal(side_space_mm(room, 1600, 3100, (1000, 3100)), (100, 0))
    assert passage_mm(room, 100, 2700, (1000, 2900)) == 400.0  # between pillar and wall
    assert passage_mm(room, 600, 2700, (1000, 2900)) == 600.0  # on the left
    assert passage_mm(room, 600, 2700, (1000, 3100)) == 400.0  # the desk shuts the left
    assert passage_mm(room, 600, 2700, (1000, 3100), below_mm=0) == 900.0
    widths = np.array([1200.0, 2000.0])
    assert passage_mm(room, 100, 100 + widths, (1000, 2900)).shape == (2,)


RANGE = st.tuples(st.integers(0, 40), st.integers(1, 20)).map(lambda t: (100 * t[0], 100 * sum(t)))
BOX = st.builds(Solid, st.just("box"), RANGE, RANGE, RANGE)


@settings(max_examples=60)
@given(st.lists(BOX, max_size=3), st.integers(0, 50), st.integers(0, 20), st.integers(1, 15))
def test_spaces_agree_with_a_room_of_cells(boxes, lip, start, size):
    """Fill 100 mm cells of a 5 m x 4 m floor plan and walk from the wall until one is taken."""
    room = room_with(*boxes, width=4000)
    y0, y1 = 100 * start, 100 * (start + size)
    height = 2000
    taken = np.zeros((80, 80), dtype=bool)
    for box in boxes:
        if box.z_mm[0] < height:
            (a, b), (c, d) = box.x_mm, box.y_mm
            taken[a // 100 : b // 100, c // 100 : d // 100] = True
    rows = taken[:50, start : start + size].any(axis=1)
    ahead = np.flatnonzero(rows[lip:])
    expected = 100 * (ahead[0] if ahead.size else 50 - lip)
    space = fall_space_mm(room, "+x", 100 * lip, y0, y1, height)
    if lip > 0 and lip < 50 and rows[lip - 1] and rows[lip]:
        assert space == 0
    else:
        assert space == expected
    columns = taken[:50, :40].any(axis=0)
    runs, best = 0, 0
    for y in range(40):
        runs = 0 if columns[y] or start <= y < start + size else runs + 1
        best = max(best, runs)
    assert passage_mm(room, y0, y1, None, height) == 100 * best


PLACE = st.integers(0, 64 * 5000).map(lambda n: n / 64)
"""Mirrored without rounding: at the edge of a box the rounding would decide."""

LEAN = st.integers(0, 1300).map(lambda n: n / 1000)


@settings(max_examples=60)
@given(st.lists(BOX, max_size=3), PLACE, st.integers(0, 20), LEAN)
def test_mirrored_room_gives_the_same_answers_the_other_way(boxes, x, start, angle):
    room = room_with(*boxes, width=6000, length=6000)
    other = mirrored(room)
    y0, y1, back = 100 * start, 100 * start + 1500, 6000 - x
    assert fall_space_mm(room, "+x", x, y0, y1, 2000.0) == pytest.approx(
        fall_space_mm(other, "-x", back, y0, y1, 2000.0)
    )
    assert foot_room_mm(room, "+x", x, 100.0, y0, y1) == pytest.approx(
        foot_room_mm(other, "-x", back, 100.0, y0, y1)
    )
    ways = [
        bool(floor_clear(r, f, Stance(p, angle, 2500.0, 300.0, 100.0), y0, y1))
        for r, f, p in ((room, "+x", x), (other, "-x", back))
    ]
    assert ways[0] == ways[1]
