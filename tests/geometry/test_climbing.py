"""What a wall offers to climb, by the rows of holds that are drawn. A gain per move is assumed."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawn_rows import ends_mm
from steepwright.catalog import read_catalog
from steepwright.geometry import HoldEnds, hold_ends, moves, start_height_mm, widest_hold_ends
from steepwright.geometry.holds import HoldGrid, hold_positions

FACTORS = read_catalog().materials.factors
GAIN = FACTORS["move_span_share"] * 1700


def test_moves_lead_from_the_lowest_row_to_the_highest() -> None:
    highest = [120 + part * GAIN for part in (0.0, 0.99, 1.0, 1.01, 4.0, 5.5)]
    assert moves(HoldEnds(120.0, highest), 1700.0, FACTORS).tolist() == [0, 0, 1, 1, 4, 5]


def test_the_lowest_row_stands_up_the_board() -> None:
    found = start_height_mm([120.0, 150.0], np.array([300.0]), math.radians(60))
    assert found == pytest.approx([360.0, 375.0])


def test_rows_of_a_board_on_paper() -> None:
    """Studs of 60 mm: rows from 100 to 2340 of 2440, and none within 45 mm of the seam at 1220.

    Twelve rows of 200 mm, from 120 to 2320, are as near to the middle as can be.
    """
    assert hold_ends((1220, 1220), 60.0, HoldGrid(200.0, 15.0, 100.0)) == (120.0, 2320.0)
    assert hold_ends((1220, 1220), 60.0, HoldGrid(200.0, 15.0, 100.0)) == ends_mm(
        (1220, 1220), 60, 200
    )


def test_a_board_without_a_row_is_climbed_from_its_lip() -> None:
    assert hold_ends((140,), 60.0, HoldGrid(200.0, 15.0, 100.0)) == (140.0, 140.0)


@given(
    st.lists(st.integers(300, 1500), min_size=1, max_size=3).map(tuple),
    st.integers(35, 80),
    st.sampled_from([100, 150, 200, 250]),
)
def test_the_ends_are_those_of_the_drawing_and_of_every_shift_tried(
    rows: tuple[int, ...], stud: int, spacing: int
) -> None:
    ends = hold_ends(rows, float(stud), HoldGrid(spacing, 15.0, 100.0))
    assert ends == ends_mm(rows, stud, spacing)
    centres = (stud / 2, 600.0, 1200.0 - stud / 2)
    free, _ = hold_positions((1200,), rows, centres, stud, HoldGrid(spacing, 15.0, 100.0))
    assert ends == (min(u for _, u in free), max(u for _, u in free))


@given(
    st.lists(st.integers(200, 1500), min_size=1, max_size=3).map(tuple),
    st.integers(35, 80),
    st.sampled_from([100, 150, 200, 250]),
    st.integers(0, 20),
)
def test_no_division_has_rows_beyond_the_widest_ends(
    rows: tuple[int, ...], stud: int, spacing: int, thinner: int
) -> None:
    ends = ends_mm(rows, stud, spacing)
    widest = widest_hold_ends([sum(rows)], float(stud - thinner), HoldGrid(spacing, 15.0, 100.0))
    assert widest.lowest_mm <= ends[0]
    assert np.subtract(*widest[::-1]) >= ends[1] - ends[0]
