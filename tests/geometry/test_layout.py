"""The frame's layout: what must add up, adds up."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from steepwright.geometry.layout import (
    FrameShape,
    LayoutLimits,
    blocking_lengths,
    divide,
    frame_bars,
    stud_centres,
)

LIMITS = LayoutLimits(150, 20)


@given(st.integers(300, 4000), st.integers(1, 3), st.sampled_from([0, 610, 1220, 1250]))
def test_pieces_add_up_to_the_board(total: int, parts: int, full: int) -> None:
    sizes = divide(total, parts, full, LIMITS.min_piece_mm)
    if sizes is not None:
        assert sum(sizes) == total
        assert len(sizes) == parts


def test_equal_division_differs_by_a_millimetre_at_most() -> None:
    assert divide(1205, 2, 0, 150) == (603, 602)
    assert divide(2930, 2, 2500, 150) == (2500, 430)
    assert divide(2600, 2, 2500, 150) is None


@given(st.integers(1000, 2600), st.integers(1, 3), st.integers(1, 3), st.sampled_from([38, 45, 60]))
def test_blocking_and_studs_fill_the_width(width: int, columns: int, bays: int, stud: int) -> None:
    sizes = divide(width, columns, 0, 150)
    assert sizes is not None
    centres = stud_centres(sizes, bays, stud)
    assert len(centres) == columns * bays + 1
    assert centres[0] == stud / 2
    assert centres[-1] == width - stud / 2
    seams = list(itertools.accumulate(sizes))[:-1]
    assert all(seam in centres for seam in seams)
    total = sum(length * count for length, count in blocking_lengths(sizes, bays, stud))
    lost_to_rounding = width - stud * len(centres) - total
    assert 0 <= lost_to_rounding < columns * bays


def test_a_kicker_lower_than_its_plates_cannot_be_framed() -> None:
    assert frame_bars(FrameShape(2500, 105, (1200,), 1, 3, 45), LIMITS) is None
    bars = frame_bars(FrameShape(2500, 110, (1200,), 1, 3, 45), LIMITS)
    assert bars is not None
    assert ("kicker upright", 20, 4) in bars
    assert ("stud", 2410, 4) in bars
