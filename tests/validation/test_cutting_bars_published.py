"""Bars: published cutting-stock instances and their proven optima.

Sources: the paper-mill order (5600 wide, 13 widths) is the worked example of the cutting-stock
article of a public encyclopaedia, optimum 73; 100-inch rolls with 97, 610, 395 and 211 finals is
Chvatal, Linear Programming (1983), ch. 13, and the GAMS model library's `cutstock`, optimum 453;
L2 = Martello & Toth, Knapsack Problems (1990), ch. 8; the instance of length 132 without the
integer round-up property is ascribed to Nitsche, Scheithauer & Terno (from memory). The frames
are generated; their least costs were found by a mixed-integer solver and by a full recursion
that share no code with this package.
"""

from __future__ import annotations

import pytest

from steepwright.cutting import bar_cost_cents, cut_bars, verify_bar_plan
from steepwright.cutting.records import BarPart, BarStock

Rows = tuple[tuple[int, int], ...]


def bar_parts(rows: Rows) -> tuple[BarPart, ...]:
    return tuple(BarPart(f"{length}", length, count) for length, count in rows)


PAPER_MILL = (
    (1380, 22),
    (1520, 25),
    (1560, 12),
    (1710, 14),
    (1820, 18),
    (1880, 18),
    (1930, 20),
    (2000, 10),
    (2050, 12),
    (2100, 14),
    (2140, 16),
    (2150, 18),
    (2200, 20),
)


@pytest.mark.parametrize(
    ("length", "rows", "optimum"),
    [
        pytest.param(5600, PAPER_MILL, 73, id="paper mill"),
        pytest.param(100, ((45, 97), (36, 610), (31, 395), (14, 211)), 453, id="Chvatal 453"),
        pytest.param(
            100, ((70, 1), (60, 1), (50, 1), (33, 3), (11, 1), (7, 1), (3, 1)), 4, id="L2 = 4"
        ),
        pytest.param(132, ((44, 2), (33, 3), (12, 6)), 3, id="no integer round-up"),
    ],
)
def test_fewest_bars_of_one_length(length: int, rows: Rows, optimum: int) -> None:
    parts, stocks = bar_parts(rows), (BarStock("bar", length, 1, None),)
    plan = cut_bars(parts, stocks, 0)
    assert plan is not None
    assert plan.cost_cents == optimum
    assert verify_bar_plan(plan, parts, stocks, 0) == ()


FRAME_STOCKS = tuple(
    BarStock(f"{length}", length, int(length * 0.36) + (40 if length > 4800 else 0), None)
    for length in range(3000, 6001, 600)
)


@pytest.mark.parametrize(
    ("rows", "least"),
    [
        pytest.param(((2890, 6), (2500, 2), (560, 10)), 10368, id="A"),
        pytest.param(((3005, 6), (2500, 2), (500, 6), (560, 10)), 11664, id="B"),
        pytest.param(((2890, 6), (2500, 3)), 9192, id="C"),
    ],
)
def test_frame_from_priced_lengths(rows: Rows, least: int) -> None:
    parts = bar_parts(rows)
    plan = cut_bars(parts, FRAME_STOCKS, 4)
    assert plan is not None
    assert plan.cost_cents == bar_cost_cents(parts, FRAME_STOCKS, 4) == least
    assert verify_bar_plan(plan, parts, FRAME_STOCKS, 4) == ()
