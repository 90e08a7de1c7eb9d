"""Sheet plans against exhaustive search, the interval bound, and what callers rely on."""

from __future__ import annotations

import itertools
from dataclasses import replace
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from solver_memory import clear_caches, solve_counts
from steepwright.cutting import (
    cut_sheets,
    sheet_bound_cents,
    sheet_cost_cents,
    sheet_quick_bound_cents,
    verify_sheet_plan,
)
from steepwright.cutting.records import SheetPart, SheetStock

Parts = tuple[SheetPart, ...]
Stocks = tuple[SheetStock, ...]
Sides = tuple[tuple[int, int], ...]
"""The ways a part may lie on a sheet: length along x, width along y."""

IMPOSSIBLE = 10**9


def ways(part: SheetPart, stock: SheetStock) -> Sides:
    sides = (part.length_mm, part.width_mm)
    if part.grain == "any":
        return tuple(sorted({sides, sides[::-1]}))
    return (sides if part.grain == stock.face_grain else sides[::-1],)


@cache
def fewest_cuts(length: int, width: int, wanted: tuple[Sides, ...], kerf: int) -> int:
    """Try every cut of a rectangle at every millimetre and every way to share the parts out."""
    if not wanted:
        return 0
    if len(wanted) == 1 and (length, width) in wanted[0]:
        return 0
    best = IMPOSSIBLE
    for taken in itertools.product((True, False), repeat=len(wanted)):
        near = tuple(part for part, here in zip(wanted, taken, strict=True) if here)
        far = tuple(part for part, here in zip(wanted, taken, strict=True) if not here)
        if not near:
            continue
        for at in range(1, length):
            rest = length - at - kerf
            if not far or rest > 0:
                cuts = 1 + fewest_cuts(at, width, near, kerf)
                best = min(best, cuts + (fewest_cuts(rest, width, far, kerf) if far else 0))
        for at in range(1, width):
            rest = width - at - kerf
            if not far or rest > 0:
                cuts = 1 + fewest_cuts(length, at, near, kerf)
                best = min(best, cuts + (fewest_cuts(length, rest, far, kerf) if far else 0))
    return best


def exhaustive_cents(parts: Parts, stocks: Stocks, kerf: int) -> int | None:
    """Try every way to share single parts out among sheets."""
    single = [part for part in parts for _ in range(part.count)]

    def cover(left: tuple[int, ...], used: tuple[int, ...]) -> int:
        if not left:
            return 0
        first, *others = left
        best = IMPOSSIBLE
        for number in range(len(others) + 1):
            for more in itertools.combinations(others, number):
                group = (first, *more)
                rest = tuple(i for i in others if i not in more)
                for index, stock in enumerate(stocks):
                    if stock.limit is not None and used[index] >= stock.limit:
                        continue
                    wanted = tuple(sorted(ways(single[i], stock) for i in group))
                    cuts = fewest_cuts(stock.length_mm, stock.width_mm, wanted, kerf)
                    if cuts < IMPOSSIBLE:
                        then = (*used[:index], used[index] + 1, *used[index + 1 :])
                        charged = max(0, cuts - stock.free_cuts)
                        cost = stock.price_cents + stock.cut_cents * charged
                        best = min(best, cost + cover(rest, then))
        return best

    cost = cover(tuple(range(len(single))), (0,) * len(stocks))
    return cost if cost < IMPOSSIBLE else None


def part_lists(most_parts: int, most_mm: int) -> st.SearchStrategy[Parts]:
    part = st.tuples(
        st.integers(1, most_mm),
        st.integers(1, most_mm),
        st.sampled_from(("length", "width", "any")),
        st.integers(1, 2),
    )
    return st.lists(part, min_size=1, max_size=most_parts).map(
        lambda rows: tuple(SheetPart(f"part {i}", *row) for i, row in enumerate(rows))
    )


def stock_lists(least_mm: int, most_mm: int) -> st.SearchStrategy[Stocks]:
    stock = st.tuples(
        st.integers(least_mm, most_mm),
        st.integers(least_mm, most_mm),
        st.sampled_from(("length", "width")),
        st.integers(0, 20),
        st.integers(0, 3),
        st.sampled_from((None, None, 0, 1, 2)),
        st.sampled_from((0, 0, 1, 3)),
    )
    return st.lists(stock, min_size=1, max_size=3).map(
        lambda rows: tuple(SheetStock(f"stock {i}", *row) for i, row in enumerate(rows))
    )


@settings(max_examples=150, deadline=None)
@given(parts=part_lists(3, 4), stocks=stock_lists(2, 6), kerf=st.integers(0, 2))
def test_as_cheap_as_exhaustive_search(parts: Parts, stocks: Stocks, kerf: int) -> None:
    if sum(part.count for part in parts) > 4:
        parts = tuple(replace(part, count=1) for part in parts)
    cheapest = exhaustive_cents(parts, stocks, kerf)
    plan = cut_sheets(parts, stocks, kerf)
    assert (None if plan is None else plan.cost_cents) == cheapest
    assert sheet_cost_cents(parts, stocks, kerf) == cheapest
    if plan is not None:
        assert verify_sheet_plan(plan, parts, stocks, kerf) == ()


@settings(max_examples=150, deadline=None)
@given(
    parts=part_lists(4, 12),
    stocks=stock_lists(10, 24),
    kerf=st.integers(0, 3),
    data=st.data(),
)
def test_bound_holds_for_every_list_inside(
    parts: Parts, stocks: Stocks, kerf: int, data: st.DataObject
) -> None:
    def grown(part: SheetPart, most: tuple[int, int]) -> SheetPart:
        return replace(
            part,
            length_mm=part.length_mm + data.draw(st.integers(0, most[0])),
            width_mm=part.width_mm + data.draw(st.integers(0, most[1])),
        )

    largest = tuple(grown(part, (4, 4)) for part in parts)
    inside = tuple(
        grown(low, (high.length_mm - low.length_mm, high.width_mm - low.width_mm))
        for low, high in zip(parts, largest, strict=True)
    )
    bound = sheet_bound_cents(parts, largest, stocks, kerf)
    cost = sheet_cost_cents(inside, stocks, kerf)
    if bound is None:
        assert sheet_cost_cents(parts, stocks, kerf) is None
    if cost is not None:
        assert bound is not None
        assert bound <= cost
    quick = sheet_quick_bound_cents(parts, largest, stocks, kerf)
    assert (quick is None) == (bound is None)
    assert bound is None or (quick is not None and quick <= bound)


@settings(max_examples=60, deadline=None)
@given(parts=part_lists(4, 9), stocks=stock_lists(9, 16), kerf=st.integers(0, 2), data=st.data())
def test_plan_does_not_depend_on_order_or_caches(
    parts: Parts, stocks: Stocks, kerf: int, data: st.DataObject
) -> None:
    plan = cut_sheets(parts, stocks, kerf)
    clear_caches()
    assert cut_sheets(parts, stocks, kerf) == plan
    shuffled = tuple(data.draw(st.permutations(parts)))
    reordered = tuple(data.draw(st.permutations(stocks)))
    assert cut_sheets(shuffled, reordered, kerf) == plan
    if plan is not None:
        assert verify_sheet_plan(plan, parts, stocks, kerf) == ()


STOCK = SheetStock("full", 2500, 1250, "length", 6000, 100, None)


def test_trims_are_charged_only_where_no_size_in_the_range_does_without() -> None:
    def bound(low: int, high: int) -> int | None:
        part = SheetPart("board", low, 1250, "length", 1)
        return sheet_bound_cents((part,), (replace(part, length_mm=high),), (STOCK,), 4)

    assert bound(2400, 2499) == 6100
    assert bound(2400, 2500) == 6000
    assert bound(2501, 2600) is None


def test_joined_blocks_pay_a_trim_only_when_their_ranges_cannot_meet() -> None:
    def bound(other: tuple[int, int]) -> int | None:
        low = SheetPart("a", 1000, 700, "length", 1)
        high = replace(low, width_mm=720)
        lows = (low, SheetPart("b", 1100, other[0], "length", 1))
        highs = (high, SheetPart("b", 1100, other[1], "length", 1))
        return sheet_bound_cents(lows, highs, (STOCK,), 4)

    # One cut between the two, one off the end, one along both; and a trim when widths differ.
    assert bound((715, 740)) == 6300
    assert bound((721, 740)) == 6400


def test_equal_strips_are_sawn_at_one_setting_of_the_fence() -> None:
    # Common practice, no source: a trim first would make the last strip depend on the saw's kerf.
    strips = (SheetPart("board", 800, 1200, "length", 3),)
    plan = cut_sheets(strips, (STOCK,), 4)
    assert plan is not None
    assert verify_sheet_plan(plan, strips, (STOCK,), 4) == ()
    cuts = plan.layouts[0].cuts
    fences = [c.at_mm - (c.x_mm if c.axis == "x" else c.y_mm)[0] for c in cuts]
    assert fences == [1200, 800, 800, 800]
    assert [c.axis for c in cuts] == ["y", "x", "x", "x"]


def test_grain_decides_between_sheets() -> None:
    part = (SheetPart("board", 2400, 1200, "length", 1),)
    along = replace(STOCK, sku="along", price_cents=7000)
    across = replace(STOCK, sku="across", face_grain="width")
    assert cut_sheets(part, (across,), 4) is None
    plan = cut_sheets(part, (along, across), 4)
    assert plan is not None
    assert plan.layouts[0].sku == "along"
    turned = (SheetPart("board", 1200, 2400, "width", 1),)
    assert sheet_cost_cents(turned, (along, across), 4) == plan.cost_cents
    free = (replace(part[0], grain="any"),)
    assert sheet_cost_cents(free, (along, across), 4) == 6200


def test_own_offcut_is_used_first_and_only_as_often_as_it_is_there() -> None:
    offcut = SheetStock("offcut", 800, 500, "length", 0, 0, 1)
    part = SheetPart("kicker", 700, 400, "any", 1)
    assert sheet_cost_cents((part,), (STOCK, offcut), 4) == 0
    # One from the offcut, one from a sheet (two cuts).
    assert sheet_cost_cents((replace(part, count=2),), (STOCK, offcut), 4) == 6200
    assert sheet_cost_cents((part,), (STOCK, replace(offcut, limit=0)), 4) == 6200


def test_prices_and_names_do_not_solve_the_fits_again() -> None:
    clear_caches()
    parts = (SheetPart("a", 1200, 700, "length", 2), SheetPart("b", 700, 300, "any", 1))
    first = sheet_cost_cents(parts, (STOCK,), 4)
    assert solve_counts()["sheet_tables"] == 1
    renamed = tuple(replace(part, name=part.name * 2) for part in parts)
    assert sheet_cost_cents(renamed, (STOCK,), 4) == first
    assert solve_counts()["sheet_costs"] == 1
    dearer = (replace(STOCK, price_cents=9000),)
    assert sheet_cost_cents(parts, dearer, 4) == (first or 0) + 3000
    assert solve_counts() == {
        "sheet_tables": 1,
        "sheet_sawings": 0,
        "sheet_trims": 0,
        "sheet_quick_bounds": 0,
        "sheet_costs": 2,
        "sheet_covers": 2,
        "bar_costs": 0,
        "bar_covers": 0,
    }
