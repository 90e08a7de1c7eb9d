"""The proof for bars: what a damaged certificate states can't make the checker eat all memory."""

from __future__ import annotations

import tracemalloc

import pytest

from steepwright.verify.bars import SCALE, Bars, Need, cost_at_least

NEED, BARS = Need((2304, 1204), (2, 2)), Bars((2404, 3604), (900, 1301))


@pytest.mark.parametrize(("cents", "shown"), [(2602, True), (2603, False), (10**9, False)])
def test_a_cost_is_shown_or_not(cents: int, shown: bool) -> None:
    # By hand: both pieces fit a bar of 3.6 m, so two of these hold all, for 2602; a bar of 2.4 m
    # holds one long or two short pieces, and three of them cost 2700.
    worths = (900 * SCALE, 401 * SCALE)
    tracemalloc.start()
    assert cost_at_least(NEED, BARS, worths, cents) is shown
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 50 << 20  # found by fuzzing: 24 GB of sums of prices up to the cost stated
