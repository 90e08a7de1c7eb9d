"""Pieces past doors and corners: orientations by hand, words, and the order of pieces."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.geometry.access import passes_mask, piece_passes
from steepwright.room.types import Access, Corridor, Door

LARGEST = Access(max_piece_mm=(1300, 3200))
DOOR = Access(doors=(Door("loft", 830, 2000),))
CORNER = Access(corridors=(Corridor("stair", 950, 900, 2200),))
ALL = Access((3200, 1300), CORNER.corridors, DOOR.doors)


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
        (DOOR, (2001, 2001, 18), False),
        (DOOR, (5000, 830, 830), True),
        (CORNER, (2579, 1200, 18), True),  # on edge: the rod of 2616 mm less about 2 x 18
        (CORNER, (2581, 1200, 18), False),
        (CORNER, (2579, 2201, 18), False),
        (CORNER, (2200, 2579, 18), True),
        (CORNER, (2200, 2200, 900), False),
        (CORNER, (900, 900, 2200), True),
    ],
)
def test_a_piece_passes_in_its_best_upright_way(access, piece, passes):
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


SIDE = st.integers(10, 3500)


@given(st.tuples(SIDE, SIDE, SIDE), st.tuples(*[st.floats(0.3, 1.0)] * 3))
def test_a_smaller_piece_passes_wherever_a_larger_does(large, shares):
    small = tuple(side * share for side, share in zip(large, shares, strict=True))
    for access in (LARGEST, DOOR, CORNER, ALL):
        if piece_passes(access, *large)[0]:
            assert piece_passes(access, *small)[0]


def test_mask_agrees_with_single_pieces():
    lengths, widths = np.arange(400, 3600, 150)[:, None], np.arange(300, 2400, 110)
    mask = passes_mask(ALL, lengths, widths, 18)
    single = [[piece_passes(ALL, n, m, 18)[0] for m in widths] for n in lengths.ravel()]
    np.testing.assert_array_equal(mask, single)
    assert mask.any()
    assert not mask.all()
