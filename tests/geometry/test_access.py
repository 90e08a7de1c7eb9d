"""Pieces past every kind of narrow place: ways by hand, words, and the order of pieces."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.geometry.access import (
    NO_LIMIT_MM,
    bottlenecks,
    longest_mm,
    passes_mask,
)
from steepwright.room.types import Access, Corridor, Door, Landing, Lift, Stair, Window

LARGEST = Access(max_piece_mm=(1300, 3200))
DOOR = Access(doors=(Door("loft", 830, 2000),))
CORNER = Access(corridors=(Corridor("stair", 950, 900, 2200),))
STAIR = Access(stairs=(Stair("up", 850, 2000, 190, 240, 2300, 2400),))
LANDING = Access(landings=(Landing("turn", 900, 900, 2200, 190, 240),))
LIFT = Access(lifts=(Lift("yard", 800, 2000, 1000, 1200, 2100),))
ALL = Access((3200, 1300), CORNER.corridors, DOOR.doors)


def piece_passes(access, *piece):
    """Whether one piece passes, and the first bottleneck that stops it."""
    if bool(passes_mask(access, *piece)):
        return True, ""
    sides = tuple(np.array([side], dtype=float) for side in piece)
    return False, next(p.name for p in bottlenecks(access) if not p.passes(sides).all())


@pytest.mark.parametrize(
    ("access", "piece", "passes"),
    [
        (Access(), (9000, 3000, 18), True),
        (LARGEST, (3200, 1300, 18), True),
        (LARGEST, (1300, 3200, 18), True),
        (LARGEST, (3201, 600, 18), False),
        (LARGEST, (1400, 1400, 18), False),
        (DOOR, (5000, 2000, 18), True),  # on edge
        (DOOR, (5000, 2000, 831), False),
        (DOOR, (2001, 2001, 18), True),  # leaned
        (DOOR, (2160, 2160, 18), False),  # the opening's diagonal is 2165 mm
        (DOOR, (5000, 830, 830), True),
        (CORNER, (2579, 1200, 18), True),  # on edge: the rod of 2616 mm less about 2 x 18
        (CORNER, (2581, 1200, 18), False),
        (CORNER, (2579, 2201, 18), False),
        (CORNER, (2200, 2579, 18), True),
        (CORNER, (2200, 2200, 900), False),
        (CORNER, (900, 900, 2200), True),
        (CORNER, (2700, 600, 18), True),  # one end raised under the ceiling of 2200 mm
        (CORNER, (3500, 600, 18), False),
        (STAIR, (2500, 830, 18), True),  # flat, tilted with the flight
        (STAIR, (2500, 1200, 18), True),  # on edge: 2000 x cos(38 degrees) = 1568 mm of room
        (STAIR, (6000, 1569, 18), False),
        (STAIR, (1500, 900, 900), False),
        (LANDING, (600, 400, 18), True),
        (LANDING, (1200, 18, 1950), False),  # 1200 - 900 = 300 mm over the steps: 190 + 238 mm up
        (LANDING, (1200, 18, 1770), True),
        (LANDING, (2500, 1200, 18), False),
        (LIFT, (1950, 1150, 18), True),
        (LIFT, (2300, 780, 18), True),  # leaned back in the cage, R = hypot(1200, 2000) = 2332 mm
        (LIFT, (2340, 780, 18), False),
        (LIFT, (1900, 1210, 18), True),  # turned a little from the door to the back
        (LIFT, (1900, 1500, 18), False),
    ],
)
def test_a_piece_passes_in_its_best_way(access, piece, passes):
    assert piece_passes(access, *piece)[0] is passes
    assert bool(passes_mask(access, *piece)) is passes


@pytest.mark.parametrize(
    ("piece", "word"),
    [
        ((3300, 600, 18), "3200 x 1300"),
        ((2900, 1250, 18), "'stair'"),
        ((1200, 1250, 840), "'loft'"),
    ],
)
def test_words_name_the_bottleneck(piece, word):
    passes, words = piece_passes(ALL, *piece)
    assert not passes
    assert word in words
    assert piece_passes(ALL, 2400, 1200, 18) == (True, "")


WINDOW = Access(doors=DOOR.doors, windows=(Window("gable", 700, 1100, 3000),))


def test_what_passes_a_window_need_not_pass_anything_else():
    assert piece_passes(WINDOW, 2900, 1250, 18)[0]  # leaned in 700 x 1100: up to 1303 mm
    assert not piece_passes(WINDOW, 3100, 2200, 18)[0]  # more than the diagonal, 2165 mm
    assert piece_passes(WINDOW, 3100, 1900, 18)[0]  # by the door


@pytest.mark.parametrize(
    ("access", "width", "longest"),
    [(DOOR, 1900, NO_LIMIT_MM), (DOOR, 3000, 2165), (LARGEST, 1300, 3200), (LARGEST, 1301, 1300)],
)
def test_longest_piece_is_the_last_that_passes(access, width, longest):
    (place,) = bottlenecks(access)
    assert longest_mm(place.passes, width, 0) == longest


SIDE = st.integers(10, 3500)


@given(st.tuples(SIDE, SIDE, SIDE), st.tuples(*[st.floats(0.3, 1.0)] * 3))
def test_a_smaller_piece_passes_wherever_a_larger_does(large, shares):
    small = tuple(side * share for side, share in zip(large, shares, strict=True))
    for access in (LARGEST, DOOR, CORNER, STAIR, LANDING, LIFT, WINDOW, ALL):
        if piece_passes(access, *large)[0]:
            assert piece_passes(access, *small)[0]


def test_mask_agrees_with_single_pieces():
    lengths, widths = np.arange(400, 3600, 150)[:, None], np.arange(300, 2400, 110)
    mask = passes_mask(ALL, lengths, widths, 18)
    single = [[piece_passes(ALL, n, m, 18)[0] for m in widths] for n in lengths.ravel()]
    np.testing.assert_array_equal(mask, single)
    assert mask.any()
    assert not mask.all()
