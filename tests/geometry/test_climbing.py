"""What a wall offers to climb, counted on drawings. A move per part of a span is an assumption."""

from __future__ import annotations

import math

import numpy as np
import pytest

from steepwright.catalog import read_catalog
from steepwright.geometry.climbing import moves, start_height_mm

FACTORS = read_catalog().materials.factors
MARGIN = FACTORS["hold_edge_margin_mm"]
GAIN = FACTORS["move_span_share"] * 1700


def test_moves_lead_from_the_lowest_row_to_the_highest() -> None:
    boards = [2 * MARGIN + part * GAIN for part in (0.0, 0.99, 1.0, 1.01, 4.0, 5.5)]
    assert moves(boards, 1700.0, FACTORS).tolist() == [0, 0, 1, 1, 4, 5]


def test_a_board_too_short_for_two_rows_offers_none() -> None:
    assert moves([0.0, MARGIN, 1.9 * MARGIN], 1700.0, FACTORS).tolist() == [0, 0, 0]


def test_the_lowest_row_stands_a_margin_up_the_board() -> None:
    found = start_height_mm(np.array([300.0]), math.radians(60), FACTORS)
    assert found[0] == pytest.approx(300 + MARGIN / 2)
