"""The checker's own solvers and formulas against published values and other libraries."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq, linprog

from steepwright.verify.angles import Grid, Pivot, angles_rad
from steepwright.verify.bars import SCALE, Bars, Need, cost_at_least, worths_hold
from steepwright.verify.sharing import _direct, sharing
from steepwright.verify.sheets import Stock, least_cost, part_of

ASSORTMENTS = {
    # Least costs found by two independent solvers, one of them a general packing library:
    # sheets 2500 x 1250 at 190, 2440 x 1220 at 150, 3000 x 1500 at 300, kerf 4, seeds 0 to 4.
    4: (300, 150, 150, 300, 150),
    6: (340, 300, 300, 300, 300),
    8: (450, 300, 340, 450, 300),
}


@pytest.mark.parametrize("count", ASSORTMENTS)
def test_sheets_of_generated_assortments(count: int) -> None:
    stocks = tuple(
        Stock(u, v, cents, 0, None)
        for u, v, cents in ((2500, 1250, 190), (2440, 1220, 150), (3000, 1500, 300))
    )
    for seed, cents in enumerate(ASSORTMENTS[count]):
        r = random.Random(seed)
        parts = []
        for _ in range(count):
            size = r.randrange(200, 1500, 5), r.randrange(150, 1220, 5)
            parts.append(part_of(size, size, "any" if r.random() < 0.5 else "length"))
        assert least_cost(parts, stocks, 4) == cents, seed


def test_four_parts_round_a_hole_can_not_be_sawn_from_one_sheet() -> None:
    """Four 1000 x 1500 fit 2504 x 2504 like a pinwheel; no edge-to-edge cut parts them."""
    size = (1000, 1500)
    parts = [part_of(size, size, "any")] * 4
    assert least_cost(parts, (Stock(2504, 2504, 100, 0, None),), 4) == 200
    assert least_cost(parts[:3], (Stock(2504, 2504, 100, 0, None),), 4) == 100


def test_cuts_are_counted_to_the_last_trim() -> None:
    """By hand: a 600 strip off a 1200 x 2400 sheet is one cut, 600 x 2000 takes two."""
    sheet = (Stock(2400, 1200, 1000, 10, None),)
    assert least_cost([part_of((2400, 1200), (2400, 1200), "length")], sheet, 4) == 1000
    assert least_cost([part_of((2400, 600), (2400, 600), "length")], sheet, 4) == 1010
    assert least_cost([part_of((2000, 600), (2000, 600), "length")], sheet, 4) == 1020
    assert least_cost([part_of((2000, 600), (2400, 600), "length")], sheet, 4) == 1010


FRAMES = [
    # Found by a mixed-integer solver and by a full recursion; bars 3000 to 6000 mm in steps of
    # 600 at 0.36 a mm, 40 more above 4.8 m, kerf 4 (tests/validation has the same).
    (((2890, 6), (2500, 2), (560, 10)), 10368),
    (((3005, 6), (2500, 2), (560, 10), (500, 6)), 11664),
    (((2890, 6), (2500, 3)), 9192),
]


@pytest.mark.parametrize(("pieces", "cents"), FRAMES)
def test_bars_are_proven_up_to_their_cost_and_no_further(
    pieces: tuple[tuple[int, int], ...], cents: int
) -> None:
    lengths = range(3000, 6001, 600)
    bars = Bars(
        tuple(length + 4 for length in lengths),
        tuple(int(length * 0.36) + 40 * (length > 4800) for length in lengths),
    )
    rows = sorted(pieces, reverse=True)
    need = Need(tuple(length + 4 for length, _ in rows), tuple(n for _, n in rows))
    worths = worths_by_length(need, bars)
    assert worths_hold(need, bars, worths)
    assert cost_at_least(need, bars, worths, cents)
    assert not cost_at_least(need, bars, worths, cents + 1)


def worths_by_length(need: Need, bars: Bars) -> tuple[int, ...]:
    """Return each piece's worth by the linear program of a general library, rounded down."""
    patterns, limits = [], []
    for room, price in zip(bars.lengths, bars.prices, strict=True):
        for pattern in fillings(need, room):
            patterns.append(pattern)
            limits.append(price)
    solved = linprog([-n for n in need.counts], A_ub=patterns, b_ub=limits, method="highs")
    return tuple(int(x * SCALE * (1 - 1e-9)) for x in solved.x)


def fillings(need: Need, room: int) -> list[tuple[int, ...]]:
    found = [((), room)]
    for length, count in zip(need.lengths, need.counts, strict=True):
        found = [
            ((*taken, n), left - n * length)
            for taken, left in found
            for n in range(min(count, left // length) + 1)
        ]
    return [taken for taken, _ in found if any(taken)]


def test_worths_that_are_too_high_are_refused() -> None:
    need, bars = Need((1004, 504), (4, 4)), Bars((3004,), (300,))
    # A bar holds two of the long pieces and one short one, or one and three, or the four short.
    assert worths_hold(need, bars, (125 * SCALE, 50 * SCALE))
    assert not worths_hold(need, bars, (125 * SCALE, 50 * SCALE + 1))
    assert not worths_hold(need, bars, (125 * SCALE,))
    assert not worths_hold(need, bars, (-1, 0))


def test_angles_solve_the_equation_of_the_pivot() -> None:
    """A cos t + n sin t = Z - k by a general root finder; the root with the pivot in front."""
    grid = Grid(np.arange(2200, 3400, 100), np.arange(0, 500, 50), 1200)
    pivot = Pivot(3000.0, 2360.0, 20.0, 78.0)
    found = angles_rad(grid, pivot)
    for i, board in enumerate(grid.boards_mm.tolist()):
        for j, kicker in enumerate(grid.kickers_mm.tolist()):
            along, rise = board - pivot.setback_mm, pivot.height_mm - kicker
            top = math.atan2(pivot.behind_mm, along)

            def above(t: float, along: float = along, rise: float = rise) -> float:
                return along * math.cos(t) + pivot.behind_mm * math.sin(t) - rise

            if above(top) < 0:
                assert math.isnan(found[i, j])
                continue
            assert found[i, j] == pytest.approx(brentq(above, top, math.pi / 2), abs=1e-9)


@pytest.mark.parametrize("studs", [3, 4, 6])
def test_the_part_of_a_load_that_each_stud_gets_is_a_natural_spline(studs: int) -> None:
    rows = _direct(studs, [0, studs - 1])
    places = np.linspace(0, studs - 1, len(rows))
    for rib in range(studs):
        moved = np.zeros(studs)
        moved[rib] = 1.0
        spline = CubicSpline(np.arange(studs), moved, bc_type="natural")
        assert rows[:, rib] == pytest.approx(spline(places), abs=1e-9)
    assert rows.sum(axis=1) == pytest.approx(1.0)


def test_sharing_ends_where_statics_says() -> None:
    """A sheet without stiffness shares nothing; a stiff one shares as rigid-body statics does.

    Three studs under a stiff beam and a load on the outer one: 1/3 + 1/2 = 5/6 of it stays there.
    """
    three = sharing(1, 3)
    soft, stiff = three.moment(np.array([1e-3, 40.0]))
    assert soft == pytest.approx(three.reaction, rel=1e-9)
    assert stiff == pytest.approx(5 / 6, rel=0.02)
    assert three.sag(np.array([40.0]))[0] == pytest.approx(5 / 6, rel=0.02)
