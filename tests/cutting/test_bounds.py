"""Cheap bounds against scipy's linear programs, and small helpers against plain enumeration."""

from __future__ import annotations

import itertools
import math

from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from steepwright.cutting.barlist import BarType, maximal
from steepwright.cutting.bounds import (
    bar_bound_cents,
    by_rate,
    fill_bound,
    sheet_lower_bound_cents,
)
from steepwright.cutting.records import BarPart, BarStock, SheetPart, SheetStock
from steepwright.cutting.shapes import SheetSize, least_cuts

CAPACITY = st.tuples(
    st.integers(1, 60), st.integers(0, 60), st.one_of(st.none(), st.integers(0, 4))
)


def fractional_cents(need: int, stocks: list[tuple[int, int, int | None]]) -> float | None:
    """Return the least price of a capacity bought by fractions, by a general solver."""
    if need <= 0:
        return 0.0
    if not stocks:
        return None
    found = linprog(
        [price for _, price, _ in stocks],
        A_ub=[[-capacity for capacity, _, _ in stocks]],
        b_ub=[-need],
        bounds=[(0, limit) for _, _, limit in stocks],
    )
    return float(found.fun) if found.status == 0 else None


@given(st.integers(0, 300), st.lists(CAPACITY, max_size=4))
def test_the_fill_is_the_linear_programs_rounded_up(
    need: int, stocks: list[tuple[int, int, int | None]]
) -> None:
    best = fractional_cents(need, stocks)
    found = fill_bound(need, by_rate(tuple(stocks)))
    assert found == (None if best is None else math.ceil(best - 1e-6))


@given(st.lists(CAPACITY, max_size=5))
def test_stocks_come_cheapest_per_capacity_first(stocks: list[tuple[int, int, int | None]]) -> None:
    ordered = by_rate(tuple(stocks))
    assert sorted(ordered, key=str) == sorted(stocks, key=str)
    for one, other in itertools.pairwise(ordered):
        assert one[1] * other[0] <= other[1] * one[0]
        if one[1] * other[0] == other[1] * one[0]:
            assert one[0] >= other[0]


def test_rates_that_nearly_agree_are_told_apart() -> None:
    # 26 / 53 is a thousandth below 29 / 59.
    stocks = ((59, 29, None), (60, 60, None), (53, 26, None))
    assert [capacity for capacity, _, _ in by_rate(stocks)] == [53, 59, 60]


def test_bars_by_hand() -> None:
    stocks = (BarStock("a", 3000, 900, None), BarStock("b", 4000, 1000, None))
    # 2 x 2100 mm: no two fit 4000 mm, each takes a bar of 3000 at 900; by length 2 x 2104 of 4004.
    assert bar_bound_cents((BarPart("p", 2100, 2),), stocks, 4) == 1800
    # 2 x 2000 mm just fit 4000 without kerf: by length, 4000 of 4000 at 1000.
    assert bar_bound_cents((BarPart("p", 2000, 2),), stocks, 0) == 1000
    # 3 x 3100 mm ask for the longer bar each.
    assert bar_bound_cents((BarPart("p", 3100, 3),), stocks, 4) == 3000
    # 10 x 500 mm: 5000 of 4000 at 1000 is 1250, of 3000 at 900 more.
    assert bar_bound_cents((BarPart("p", 500, 10),), stocks, 0) == 1250
    # Too long for any bar: as many of the longest.
    assert bar_bound_cents((BarPart("p", 5000, 2),), stocks, 0) == 2500
    # One free offcut of 2000, and then at the best rate.
    rest = (BarStock("rest", 2000, 0, 1), *stocks)
    assert bar_bound_cents((BarPart("p", 1000, 4),), rest, 0) == 500
    assert bar_bound_cents((), stocks, 4) == 0
    assert bar_bound_cents((BarPart("p", 500, 1),), (), 4) == 0


def sheet(price: int, cut: int, limit: int | None = None, free: int = 0) -> SheetStock:
    return SheetStock(f"s{price}", 2000, 1000, "length", price, cut, limit, free)


def part(length: int, width: int, count: int, grain: str = "any") -> SheetPart:
    return SheetPart("p", length, width, grain, count)  # type: ignore[arg-type]


def test_sheets_by_hand() -> None:
    quarter = part(1000, 500, 4)
    # Four quarters of one sheet at 1000 and three cuts at 10 at least.
    assert sheet_lower_bound_cents((quarter,), (sheet(1000, 10),), 0) == 1000 - 10 + 4 * 10
    assert sheet_lower_bound_cents((quarter,), (sheet(1000, 10, free=2),), 0) == 1000
    # A cut's charge counts for no more than a sheet costs.
    assert sheet_lower_bound_cents((quarter,), (sheet(4, 10),), 0) == 0 + 4 * 4
    # Of two prices the lower; a limit leaves the dearer for the rest.
    both = (sheet(1000, 0), sheet(600, 0, limit=1))
    assert sheet_lower_bound_cents((part(1000, 500, 6),), both, 0) == 600 + 500
    # Kerfs are added to part and sheet alike: 4 x 1005 x 505 of 2005 x 1005.
    kerfed = math.ceil(1000 * 4 * 1005 * 505 / (2005 * 1005))
    assert sheet_lower_bound_cents((quarter,), (sheet(1000, 0),), 5) == kerfed
    assert sheet_lower_bound_cents((part(1000, 500, 0),), (sheet(1000, 0),), 0) == 0
    assert sheet_lower_bound_cents((), (), 0) == 0
    assert sheet_lower_bound_cents((quarter,), (), 0) is None
    assert sheet_lower_bound_cents((part(1000, 500, 5),), (sheet(9, 0, limit=1),), 0) is None


def test_a_part_fits_the_way_its_grain_lets_it_lie() -> None:
    one = (sheet(1000, 0),)
    for length, width, grain, fits in (
        (2000, 1000, "length", True), (1000, 2000, "length", False), (1000, 2000, "width", True),
        (2000, 1000, "width", False), (1000, 2000, "any", True), (2000, 1000, "any", True),
        (2001, 1000, "any", False), (2000, 1001, "any", False),
    ):  # fmt: skip
        found = sheet_lower_bound_cents((part(length, width, 1, grain),), one, 0)
        assert (found is not None) == fits, (length, width, grain)


@given(
    st.lists(st.tuples(st.integers(1, 9), st.integers(0, 3)), min_size=1, max_size=3),
    st.integers(0, 20),
)
def test_choices_to_which_nothing_can_be_added(types: list[tuple[int, int]], room: int) -> None:
    left = tuple(count for _, count in types)
    wanted = []
    for counts in itertools.product(*(range(count + 1) for count in left)):
        used = sum(n * length for n, (length, _) in zip(counts, types, strict=True))
        more = any(
            n < count and used + length <= room
            for n, count, (length, _) in zip(counts, left, types, strict=True)
        )
        if used <= room and not more:
            wanted.append((used, counts))
    found = maximal(tuple(BarType(*one) for one in types), left, room)
    assert sorted(found) == sorted(wanted)


def test_trims_are_counted_where_a_block_is_smaller_than_its_sheet() -> None:
    # Blocks: cuts, width, height, and the negated sizes up to which no trim is asked for.
    whole = SheetSize(2000, 1000)
    assert least_cuts([(3, 2000, 1000, -2000, -1000)], whole, 0) == 3
    assert least_cuts([(3, 1900, 1000, -1900, -1000)], whole, 0) == 4
    assert least_cuts([(3, 1900, 900, -1900, -900)], whole, 0) == 5
    assert least_cuts([(3, 2001, 900, -2001, -900)], whole, 0) is None
    assert least_cuts([(3, 2000, 1001, -2000, -1001)], whole, 0) is None
    assert least_cuts([], whole, 0) is None
    # One more cut inside, but no trim.
    assert least_cuts([(3, 1900, 900, -1900, -900), (4, 2000, 1000, -2000, -1000)], whole, 0) == 4
    # The sheet is one kerf longer, as every part is.
    assert least_cuts([(1, 2004, 1004, -2004, -1004)], whole, 4) == 1
