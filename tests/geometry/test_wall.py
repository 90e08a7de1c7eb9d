"""The wall equation: residual, range of validity, direction of growth, inverse."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from steepwright.geometry.wall import (
    board_for_angle_mm,
    climbable_mm,
    floor_run_mm,
    lip_from_pivot_mm,
    lip_height_mm,
    overhang_angle_rad,
)

BOARD = st.floats(500.0, 4500.0)
KICKER = st.floats(0.0, 900.0)
PIVOT = st.floats(1200.0, 3500.0)
SETBACK = st.floats(0.0, 250.0)
BEHIND = st.floats(0.0, 200.0)


def _residual_mm(angle, board, kicker, pivot, setback, behind):
    return (board - setback) * np.cos(angle) + behind * np.sin(angle) - (pivot - kicker)


@given(BOARD, KICKER, PIVOT, SETBACK, st.floats(-100.0, 200.0))
def test_angle_solves_the_equation_and_exists_exactly_where_stated(
    board, kicker, pivot, setback, behind
):
    angle = float(overhang_angle_rad(board, kicker, pivot, setback, behind))
    along, rise = board - setback, pivot - kicker
    margin = np.hypot(along, behind) - rise
    assume(abs(margin) > 1e-6 and abs(rise - max(behind, 0.0)) > 1e-6)
    if not np.isnan(angle):
        assert abs(_residual_mm(angle, board, kicker, pivot, setback, behind)) < 1e-8
        assert 0.0 <= angle < np.pi / 2
        assert along * np.sin(angle) - behind * np.cos(angle) >= -1e-6
    elif behind >= 0.0:
        assert along <= 0.0 or rise <= behind or margin < 0.0


@given(BOARD, KICKER, PIVOT, SETBACK, BEHIND)
def test_angle_is_the_root_with_the_pivot_ahead_of_the_foot(board, kicker, pivot, setback, behind):
    """A general-purpose root finder, told only where the pivot is ahead, finds the same angle."""
    along = board - setback
    plumb = np.arctan2(behind, along)
    answer = float(overhang_angle_rad(board, kicker, pivot, setback, behind))
    values = [_residual_mm(t, board, kicker, pivot, setback, behind) for t in (plumb, np.pi / 2)]
    assume(abs(values[0]) > 1e-6 and abs(values[1]) > 1e-6)
    if np.isnan(answer):
        assert values[0] * values[1] > 0.0
        return
    root = brentq(
        _residual_mm, plumb, np.pi / 2, args=(board, kicker, pivot, setback, behind), xtol=1e-13
    )
    assert answer == pytest.approx(root, abs=1e-7)


@given(BOARD, KICKER, PIVOT, SETBACK, BEHIND, st.floats(1.0, 400.0), st.floats(1.0, 400.0))
def test_angle_grows_with_board_and_kicker_and_walls_are_closed_upwards(
    board, kicker, pivot, setback, behind, longer, higher
):
    assume(pivot - kicker - higher > behind + 1e-6)
    low = overhang_angle_rad(board, kicker, pivot, setback, behind)
    assume(not np.isnan(low))
    up_l = overhang_angle_rad(board + longer, kicker, pivot, setback, behind)
    up_k = overhang_angle_rad(board, kicker + higher, pivot, setback, behind)
    assert up_l > low
    assert up_k > low
    assert overhang_angle_rad(board, kicker, pivot + 1.0, setback, behind) < low or np.isnan(
        overhang_angle_rad(board, kicker, pivot + 1.0, setback, behind)
    )


@given(BOARD, KICKER, PIVOT, SETBACK, BEHIND)
def test_board_for_angle_is_the_inverse(board, kicker, pivot, setback, behind):
    angle = overhang_angle_rad(board, kicker, pivot, setback, behind)
    assume(not np.isnan(angle) and angle < np.deg2rad(85.0))
    assume((board - setback) * np.sin(angle) - behind * np.cos(angle) > 1.0)
    assert float(board_for_angle_mm(angle, kicker, pivot, setback, behind)) == pytest.approx(
        board, abs=1e-6
    )


@given(BOARD, KICKER, PIVOT)
def test_plain_pivot_reduces_to_arccos(board, kicker, pivot):
    ratio = (pivot - kicker) / board
    angle = float(overhang_angle_rad(board, kicker, pivot))
    if 0.0 < ratio <= 1.0:
        assert angle == pytest.approx(np.arccos(ratio), abs=1e-12)
    else:
        assert np.isnan(angle) or ratio <= 1.0 + 1e-12


@given(BOARD, KICKER, PIVOT, SETBACK, BEHIND)
def test_lip_foot_and_pivot_agree_with_rotation_of_the_board(board, kicker, pivot, setback, behind):
    """Turn the three points with a rotation matrix instead of the module's formulas."""
    angle = float(overhang_angle_rad(board, kicker, pivot, setback, behind))
    assume(not np.isnan(angle))
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    foot = np.array([0.0, kicker])
    lip = foot + turn @ [0.0, board]
    hung = foot + turn @ [-behind, board - setback]
    assert hung[1] == pytest.approx(pivot, abs=1e-6)
    assert float(floor_run_mm(board, angle)) == pytest.approx(lip[0], abs=1e-6)
    assert float(lip_height_mm(board, kicker, angle)) == pytest.approx(lip[1], abs=1e-6)
    assert float(lip_from_pivot_mm(angle, setback, behind)) == pytest.approx(
        lip[0] - hung[0], abs=1e-6
    )


@pytest.mark.parametrize(
    ("board", "kicker", "pivot", "behind"),
    [
        (2000.0, 0.0, 2370.0, 0.0),
        (100.0, 0.0, 90.0, 0.0),
        (3000.0, 2370.0, 2370.0, 0.0),
        (3000.0, 2500.0, 2370.0, 0.0),
        (3000.0, 2270.0, 2370.0, 100.0),
        (0.0, 0.0, 0.0, 0.0),
    ],
)
def test_no_such_wall_is_nan(board, kicker, pivot, behind):
    setback = 100.0
    assert np.isnan(overhang_angle_rad(board, kicker, pivot, setback, behind))


def test_arrays_broadcast():
    boards, kickers = np.arange(2500.0, 3000.0, 50.0)[:, None], np.arange(0.0, 400.0, 100.0)
    angles = overhang_angle_rad(boards, kickers, 2370.0, 40.0, 60.0)
    assert angles.shape == (10, 4)
    one = overhang_angle_rad(boards[3, 0], kickers[2], 2370.0, 40.0, 60.0)
    assert angles[3, 2] == one
    assert climbable_mm(boards, kickers).shape == (10, 4)


@given(st.floats(0.0, 1.5), KICKER, PIVOT, SETBACK, BEHIND)
def test_a_board_for_an_angle_stands_at_that_angle_or_does_not_exist(
    angle, kicker, pivot, setback, behind
):
    board = float(board_for_angle_mm(angle, kicker, pivot, setback, behind))
    if np.isnan(board):
        boards = setback + np.geomspace(1.0, 1e5, 4000)
        reached = overhang_angle_rad(boards, kicker, pivot, setback, behind)
        assert np.isnan(reached).all() or angle <= np.nanmin(reached) + 0.01
    else:
        back = float(overhang_angle_rad(board, kicker, pivot, setback, behind))
        assert back == pytest.approx(angle, abs=1e-6)


def test_an_angle_that_would_put_the_pivot_behind_the_foot_has_no_board():
    assert np.isnan(board_for_angle_mm(np.deg2rad(1.0), 300.0, 2370.0, 50.0, 100.0))
    assert np.isnan(board_for_angle_mm(np.deg2rad(-5.0), 300.0, 2370.0))
    assert np.isnan(board_for_angle_mm(np.deg2rad(90.0), 300.0, 2370.0))


def test_a_board_that_ends_at_its_pivot_is_no_wall():
    # The pivot 100 before the face and level with the lip: the board has no length below it.
    assert np.isnan(overhang_angle_rad(500.0, 0.0, 50.0, setback_mm=500.0, behind_mm=-100.0))
