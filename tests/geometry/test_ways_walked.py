"""Pieces walked past narrow places in small steps: what is said to pass has a way through.

Each motion is sampled and every position is checked against the walls by its corner points alone,
without the formulas under test.
"""

from __future__ import annotations

import math

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from steepwright.geometry.access import passes_mask
from steepwright.geometry.corner import corner_length_mm
from steepwright.geometry.ways import passes_corner, passes_landing, passes_stair
from steepwright.room.types import Access, Corridor, Landing, Stair

WIDTH = st.floats(500.0, 2600.0)


def walks_round(a: float, b: float, length: float, width: float, turn: float) -> bool:
    """Turn a plank with its outer side's ends on the outer walls; the inner corner stays clear.

    Wall 1 is the x-axis from the outer corner O = 0 to the left, wall 2 leaves O at `turn`.
    """
    theta = np.linspace(1e-4, turn - 1e-4, 4001)
    way1, way2 = np.array([-1.0, 0.0]), np.array([math.cos(turn), math.sin(turn)])
    in1, in2 = np.array([0.0, 1.0]), np.array([-math.sin(turn), math.cos(turn)])
    corner = np.linalg.solve(np.array([in1, in2]), np.array([a, b]))
    foot = (length * np.sin(turn - theta) / math.sin(turn))[:, None] * way1
    head = (length * np.sin(theta) / math.sin(turn))[:, None] * way2
    along = (head - foot) / length
    off = along[:, 0] * (corner - foot)[:, 1] - along[:, 1] * (corner - foot)[:, 0]
    return bool((off >= width - 1e-6).all())


@given(WIDTH, WIDTH, st.floats(0.0, 0.9), st.floats(0.2, math.pi / 2), st.floats(0.9, 1.1))
def test_corner_of_any_turn_is_exact_for_a_plank_that_turns(a, b, share, turn, stretch):
    width = share * min(a, b)
    limit = float(corner_length_mm(a, b, width, turn))
    slides = max(b - width * math.cos(turn), a - width * math.cos(turn)) / math.sin(turn)
    assume(limit > 1.001 * slides and abs(stretch - 1) > 1e-3)
    assert walks_round(a, b, limit * stretch, width, turn) == (stretch < 1)


@given(WIDTH, WIDTH, st.floats(50, 1500), st.floats(0.2, math.pi / 2))
def test_a_smaller_plank_goes_round_at_any_turn(a, b, width, turn):
    now = corner_length_mm(a, b, width, turn)
    assert corner_length_mm(a, b, width + 20, turn) <= now + 1e-6
    assert corner_length_mm(a + 20, b, width, turn) >= now - 1e-6


@settings(max_examples=60)
@given(st.integers(300, 3200), st.integers(100, 1600), st.integers(1400, 2600))
def test_a_sheet_that_passes_a_corner_has_a_leaned_way_round(length, width, height):
    corner = Corridor("c", 950, 900, height)
    if not passes_corner(corner, tuple(map(np.asarray, (length, width, 18.0)))):
        return
    lean = np.linspace(0, np.pi / 2, 361)
    found = False
    for one, two, level in ((length, width, 18), (width, 18, length), (length, 18, width)):
        high = one * np.cos(lean) + two * np.sin(lean)
        wide = one * np.sin(lean) + two * np.cos(lean)
        # Steps of a quarter degree miss the best lean by up to half a per cent of the sides.
        kept = high <= height + 0.005 * (one + two)
        for shadow in wide[kept]:
            long, short = max(shadow, level), min(shadow, level)
            fits = short <= 900 and long <= 950
            found |= fits or walks_round(950, 900, long * 0.98, short * 0.98, math.pi / 2)
            if found:
                return
    assert found


@settings(max_examples=60)
@given(st.integers(300, 4000), st.integers(100, 1700), st.integers(160, 210))
def test_a_sheet_that_passes_a_stair_bends_in_and_out_of_it(length, width, rise):
    stair = Stair("s", 850, 2000, rise, 240, 2300, 2400)
    if not passes_stair(stair, tuple(map(np.asarray, (length, width, 18.0)))):
        return
    turn = math.atan2(rise, 240)
    flight = 2000 * math.cos(turn)
    leans = np.linspace(0, np.pi / 2, 361)
    ways = []
    for along, one, two in ((length, width, 18), (width, length, 18), (18, length, width)):
        across = one * np.sin(leans) + two * np.cos(leans)
        up = one * np.cos(leans) + two * np.sin(leans)
        ways += [(along, height) for height in up[across <= 850 + 0.005 * (one + two)]]
    assert any(
        all(
            min(way) <= min(a, b)
            and (
                max(way) * math.sin(turn) + min(way) * math.cos(turn) <= max(a, b)
                or walks_round(a, b, 0.98 * max(way), 0.98 * min(way), turn)
            )
            for a, b in ((2300, flight), (flight, 2400))
        )
        for way in ways
    )


@settings(max_examples=100)
@given(st.integers(200, 2600), st.integers(100, 1800), st.integers(1900, 2600))
def test_a_sheet_turned_on_a_landing_clears_steps_and_ceilings_at_every_step(length, width, height):
    """The corner points of plank and landing, and the steps' edges one by one."""
    landing = Landing("l", 900, 950, height, 180, 250)
    sides = (float(length), float(width), 18.0)
    if not passes_landing(landing, tuple(map(np.asarray, sides))):
        return
    held = []
    for upright, one, two in ((width, length, 18), (length, width, 18), (18, length, width)):
        if float(corner_length_mm(900, 950, min(one, two))) < max(one, two):
            continue
        theta = np.linspace(0, np.pi / 2, 181)
        east = one * np.cos(theta) + two * np.sin(theta) - 950  # beyond the landing, falling
        north = one * np.sin(theta) + two * np.cos(theta) - 900  # beyond the landing, rising
        rising = np.where(north > 0, 180 * (1 + np.floor(np.maximum(north, 0) / 250)), 0)
        falling = np.where(east > 0, 180 * (1 + np.floor(np.maximum(east, 0) / 250)), 0)
        held.append(bool((upright <= height - rising - falling).all()))
    assert any(held)


def test_walls_of_the_room_file_are_asked_together():
    access = Access(
        corridors=(Corridor("c", 950, 900, 2200),),
        stairs=(Stair("s", 850, 2000, 180, 250, 2300, 2400),),
    )
    assert passes_mask(access, 2400, 1200, 18)
    assert not passes_mask(access, 2400, 1900, 18)
