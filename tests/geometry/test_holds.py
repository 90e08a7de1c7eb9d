"""The hold grid keeps its distances, and no shift of it does better."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.geometry.holds import HoldGrid, hold_positions

COLUMNS, ROWS = (1220, 780), (1500, 1250)
STUDS = (22.5, 621.0, 1220.0, 1599.0, 1977.5)


def _free_by_hand(y, u, columns, rows, studs, stud, clear, edge):
    width, length = sum(columns), sum(rows)
    timber_y = all(abs(y - s) >= stud / 2 + clear for s in studs)
    seam_y = all(abs(y - s) >= clear for s in itertools.accumulate(columns[:-1], initial=0))
    timber_u = stud + clear <= u <= length - stud - clear
    edges = edge <= y <= width - edge and edge <= u <= length - edge
    seam_u = all(abs(u - s) >= stud / 2 + clear for s in itertools.accumulate(rows[:-1]))
    return timber_y and seam_y and timber_u and seam_u and edges


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.integers(300, 1250), min_size=1, max_size=3).map(tuple),
    st.lists(st.integers(400, 1500), min_size=1, max_size=2).map(tuple),
    st.integers(1, 4),
    st.sampled_from([100, 200, 250]),
    st.sampled_from([15, 30]),
    st.sampled_from([30, 75, 100]),
)
def test_free_points_keep_every_distance_and_blocked_ones_break_one(
    columns, rows, bays, spacing, clear, edge
):
    studs = tuple(np.linspace(22.5, sum(columns) - 22.5, bays + 1).tolist())
    free, blocked = hold_positions(columns, rows, studs, 45, HoldGrid(spacing, clear, edge))
    assert all(_free_by_hand(y, u, columns, rows, studs, 45, clear, edge) for y, u in free)
    assert not any(_free_by_hand(y, u, columns, rows, studs, 45, clear, edge) for y, u in blocked)
    points = {*free, *blocked}
    ys, us = sorted({y for y, _ in points}), sorted({u for _, u in points})
    assert len(points) == len(ys) * len(us) == len(free) + len(blocked)
    assert set(np.diff(ys)) | set(np.diff(us)) <= {float(spacing)}
    best = 0
    for shift_y, shift_u in itertools.product(range(0, spacing, 25), repeat=2):
        grid = itertools.product(
            range(edge + shift_y, sum(columns), spacing),
            range(edge + shift_u, sum(rows), spacing),
        )
        best = max(
            best, sum(_free_by_hand(y, u, columns, rows, studs, 45, clear, edge) for y, u in grid)
        )
    assert len(free) >= best


def test_grid_of_a_common_board():
    free, blocked = hold_positions(COLUMNS, ROWS, STUDS, 45, HoldGrid(200, 15, 100))
    assert len(free) >= 100
    assert free == hold_positions(COLUMNS, ROWS, STUDS, 45, HoldGrid(200, 15, 100))[0]
    assert len({*free, *blocked}) == len(free) + len(blocked)


def test_board_smaller_than_its_margins_has_no_holds():
    assert hold_positions((25,), (25,), (12.5,), 25, HoldGrid(200, 15, 100)) == ((), ())


def test_spacing_must_be_positive():
    with pytest.raises(ValueError, match="positive"):
        hold_positions(COLUMNS, ROWS, STUDS, 45, HoldGrid(0, 15, 100))
