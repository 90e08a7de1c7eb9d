"""Pads in rows against plain enumeration and against a general solver of whole-number programs."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from steepwright.geometry.pads import Laid, Pad, Padding, Span, lay_pads

LARGE = Pad("large", 2000, 1000, 21900, None)
SMALL = Pad("small", 1000, 1000, 15900, None)


def span(wanted: int, clear: int) -> Span:
    return Span((0, wanted), (0, clear))


def check(layout: Padding, pads: tuple[Pad, ...], out: Span, across: Span) -> None:
    """Pads lie within the clear floor, none on another, and cover and cost what is said."""
    grid = 50
    floor = np.zeros(
        ((out.clear[1] - out.clear[0]) // grid, (across.clear[1] - across.clear[0]) // grid)
    )
    for pad in layout.pads:
        u = [(value - out.clear[0]) / grid for value in pad.out_mm]
        v = [(value - across.clear[0]) / grid for value in pad.across_mm]
        assert 0 <= u[0] < u[1] <= floor.shape[0]
        assert 0 <= v[0] < v[1] <= floor.shape[1]
        kind = next(p for p in pads if p.name == pad.name)
        sides = {pad.out_mm[1] - pad.out_mm[0], pad.across_mm[1] - pad.across_mm[0]}
        assert sides == {kind.length_mm, kind.width_mm}
    for one, other in itertools.combinations(layout.pads, 2):
        apart_u = one.out_mm[1] <= other.out_mm[0] or other.out_mm[1] <= one.out_mm[0]
        apart_v = one.across_mm[1] <= other.across_mm[0] or other.across_mm[1] <= one.across_mm[0]
        assert apart_u or apart_v
    covered = sum(
        max(0, min(p.out_mm[1], out.wanted[1]) - max(p.out_mm[0], out.wanted[0]))
        * max(0, min(p.across_mm[1], across.wanted[1]) - max(p.across_mm[0], across.wanted[0]))
        for p in layout.pads
    )
    assert layout.covered_mm2 == covered
    prices = {p.name: p.price_cents for p in pads}
    assert layout.cost_cents == sum(prices[p.name] for p in layout.pads)
    for pad in pads:
        count = sum(p.name == pad.name for p in layout.pads)
        assert pad.limit is None or count <= pad.limit


def test_three_metres_by_two_take_three_large_pads():
    layout = lay_pads((LARGE, SMALL), span(3000, 3000), span(2000, 2000))
    assert layout.cost_cents == 3 * 21900
    assert layout.covered_mm2 == 6_000_000
    assert {p.name for p in layout.pads} == {"large"}


def test_a_corner_left_over_is_filled_with_the_small_one():
    layout = lay_pads((LARGE, SMALL), span(3000, 3000), span(1000, 1000))
    assert sorted(p.name for p in layout.pads) == ["large", "small"]


def test_own_pads_come_first_and_no_more_of_them_than_there_are():
    own = Pad("own", 2000, 1000, 0, 2)
    layout = lay_pads((LARGE, own), span(2000, 2000), span(3000, 3000))
    assert layout.cost_cents == LARGE.price_cents
    assert sorted(p.name for p in layout.pads) == ["large", "own", "own"]


def test_where_nothing_fits_nothing_is_laid():
    assert lay_pads((LARGE,), span(900, 900), span(900, 900)) == Padding((), 0, 0)


def test_pads_reach_over_the_edge_where_the_floor_is_clear():
    out, across = span(1500, 2500), Span((1000, 2500), (0, 4000))
    layout = lay_pads((SMALL,), out, across)
    assert layout.covered_mm2 == 1500 * 1500
    check(layout, (SMALL,), out, across)


Used = tuple[str, ...]
SIDE = st.sampled_from([500, 1000, 1500, 2000])
KIND = st.tuples(SIDE, SIDE, st.integers(1, 9), st.sampled_from([None, 1, 2]))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(KIND, min_size=1, max_size=2),
    st.integers(2, 6), st.integers(2, 6), st.integers(0, 2), st.integers(0, 2),
)  # fmt: skip
def test_no_layout_in_rows_covers_more_or_costs_less(kinds, deep, wide, more_out, more_across):
    """Rows enumerated outright, row by row, in half metres."""
    pads = tuple(
        Pad(f"p{n}", a, b, 100 * cents, most) for n, (a, b, cents, most) in enumerate(kinds)
    )
    out = Span((0, 500 * deep), (0, 500 * (deep + more_out)))
    across = Span((500, 500 + 500 * wide), (500 - 500 * min(1, more_across), 500 + 500 * wide))
    layout = lay_pads(pads, out, across)
    check(layout, pads, out, across)
    best = min(everything(pads, out, across) + everything(pads, across, out))
    assert (-layout.covered_mm2, layout.cost_cents) == best


def test_rows_of_unlike_cover_hang_over_where_least_is_lost():
    # 2500 x 3000 wanted at one end of 3000 x 3500 clear: of two rows 2000 and 1500 deep the one
    # that covers less stands on the edge. Counted by hand: 2500 x 2000 + 2000 x 1000.
    pad = Pad("one", 1500, 2000, 100, None)
    layout = lay_pads((pad,), Span((0, 2500), (0, 3000)), Span((500, 3500), (0, 3500)))
    assert layout.covered_mm2 == 7_000_000
    check(layout, (pad,), Span((0, 2500), (0, 3000)), Span((500, 3500), (0, 3500)))


def test_what_hangs_over_at_both_ends_is_not_counted():
    # 900 deep is wanted in the middle of 3000, and two rows of 1500 are no use.
    pad = Pad("one", 1500, 1500, 100, None)
    out, across = Span((1050, 1950), (0, 3000)), Span((0, 1500), (0, 1500))
    layout = lay_pads((pad,), out, across)
    assert (len(layout.pads), layout.covered_mm2) == (1, 900 * 1500)
    check(layout, (pad,), out, across)


def fits_of(pads: tuple[Pad, ...]) -> list[tuple[Pad, int, int]]:
    """Both ways to turn each kind."""
    return [
        (pad, *sides)
        for pad in pads
        for sides in {(pad.length_mm, pad.width_mm), (pad.width_mm, pad.length_mm)}
    ]


def filled(pads: tuple[Pad, ...], depth: int, run: Span, used: Used) -> dict[tuple[int, Used], int]:
    """Return the least price of a row by what it covers and the limited pads used up."""
    least: dict[tuple[int, Used], int] = {}
    waiting = [(0, 0, used)]
    while waiting:
        length, cost, spent = waiting.pop()
        key = min(length, run.size_mm), spent
        if length:
            least[key] = min(least.get(key, cost), cost)
        for pad, d, w in fits_of(pads) if length < run.size_mm else []:
            if d == depth and length + w <= run.clear_mm and spent.count(pad.name) != pad.limit:
                more = tuple(sorted((*spent, pad.name))) if pad.limit is not None else spent
                waiting.append((length + w, cost + pad.price_cents, more))
    return least


def everything(pads: tuple[Pad, ...], stack: Span, run: Span) -> list[tuple[int, int]]:
    """Return (-area, price) of every stack of rows."""
    found = []
    waiting: list[tuple[int, int, int, Used]] = [(0, 0, 0, ())]
    while waiting:
        depth, area, cost, used = waiting.pop()
        found.append((-area, cost))
        for side in {d for _, d, _ in fits_of(pads)} if depth < stack.size_mm else set():
            if depth + side <= stack.clear_mm:
                fresh = min(side, stack.size_mm - depth)
                for (covered, spent), more in filled(pads, side, run, used).items():
                    waiting.append((depth + side, area + fresh * covered, cost + more, spent))
    return found


def least_price_of_any_cover(pads: tuple[Pad, ...], deep: int, wide: int, grid: int) -> float:
    """Return the least price of an exact cover, rows or not, by scipy's whole-number programs."""
    rows, columns = deep // grid, wide // grid
    places, prices = [], []
    for pad in pads:
        for a, b in {(pad.length_mm, pad.width_mm), (pad.width_mm, pad.length_mm)}:
            for r, c in itertools.product(
                range(rows - a // grid + 1), range(columns - b // grid + 1)
            ):
                cells = np.zeros((rows, columns))
                cells[r : r + a // grid, c : c + b // grid] = 1
                places.append(cells.ravel())
                prices.append(pad.price_cents)
    every = LinearConstraint(np.array(places).T, 1, 1)
    found = milp(prices, constraints=every, integrality=np.ones(len(prices)), bounds=Bounds(0, 1))
    return float(found.fun)


@pytest.mark.parametrize(("deep", "wide"), [(3000, 2000), (3000, 4000), (4000, 3000), (5000, 3000)])
def test_whole_floors_cost_what_a_general_solver_says(deep, wide):
    layout = lay_pads((LARGE, SMALL), span(deep, deep), span(wide, wide))
    best = least_price_of_any_cover((LARGE, SMALL), deep, wide, 1000)
    assert layout.covered_mm2 == deep * wide
    assert layout.cost_cents == pytest.approx(best)


def test_order_of_laying_is_from_the_wall_outwards():
    layout = lay_pads((SMALL,), span(2000, 2000), span(2000, 2000))
    assert layout.pads[0] == Laid("small", (0, 1000), (0, 1000))
    assert layout.pads[-1] == Laid("small", (1000, 2000), (1000, 2000))


def test_pads_begin_at_the_wall_or_lie_in_the_middle():
    # 1000 ... 2000 is wanted, 0 ... 5000 clear; what doesn't fit is pushed back in.
    for anchored, length, start in (
        (True, 1500, 1000), (False, 1500, 750), (False, 500, 1250), (True, 4500, 500),
        (False, 4500, 0), (False, 5000, 0),
    ):  # fmt: skip
        assert Span((1000, 2000), (0, 5000), anchored).start_mm(length) == start, length
    assert Span((100, 300), (50, 5000)).start_mm(1000) == 50
    assert (Span((100, 300), (50, 5000)).size_mm, Span((100, 300), (50, 5000)).clear_mm) == (
        200,
        4950,
    )
