"""The quick bounds' tables against lists of pieces that are laid out one by one."""

from __future__ import annotations

import itertools
import random
from functools import cache

import numpy as np
import pytest
from small_rooms import small_catalog, small_room

from steepwright.cutting import bar_cost_cents, sheet_cost_cents
from steepwright.cutting.records import SheetPart, SheetStock
from steepwright.geometry.layout import FrameShape, frame_bars
from steepwright.optimise.bounds import (
    AREA_UNIT_MM2,
    Rates,
    _area_steps,
    _charge_cents,
    area_bound_cents,
    bars_bound_cents,
    bars_cents,
    bars_length_mm,
    box_table_cents,
    build_rates,
    cost_bound_cents,
    least_kicker_mm,
    sheets_bound_cents,
    solved_cost_cents,
)
from steepwright.optimise.entries import Entries
from steepwright.optimise.exact import ExactCosts
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.space import build_space
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.market import build_market
from steepwright.pricing.wall import bar_parts, columns_of, rows_of
from steepwright.verify.area import area_costs, piece_charge_cents

SEEDS = [1, 4, 9]


@cache
def made(seed: int) -> tuple[Model, Rates]:
    model = build_model(build_space(build_market(small_room(seed), small_catalog(seed))))
    return model, build_rates(model)


def every_pair(model: Model, row: int, column: int) -> Entries:
    """All sheetings with all sections, fetched and delivered, at one corner."""
    pairs = itertools.product(
        range(len(model.space.sheetings)), range(len(model.space.market.sections)), (0, 1)
    )
    sheeting, section, delivered = np.array(list(pairs), dtype=np.int64).T
    zero = np.zeros_like(sheeting)
    corner = zero + row, zero + column
    return Entries(zero, zero, sheeting, section, delivered, *corner, zero, zero, zero, zero)


def sheet(name: str, length: int, width: int, price: int, limit: int | None) -> SheetStock:
    return SheetStock(name, length, width, "length", price, 0, limit)


def test_least_price_of_so_much_area() -> None:
    # In units of 2500 mm2: 4, 6 (an offcut that is there twice), and 10 dear ones.
    stock = (
        sheet("a", 100, 100, 50, None), sheet("own", 150, 100, 5, 2),
        sheet("b", 250, 100, 90, None),
    )  # fmt: skip
    assert AREA_UNIT_MM2 == 2500
    units, prices, limits = (4, 6, 10), (50, 5, 90), (9, 2, 9)
    found = _area_steps(stock, 0, 40)
    for area in range(41):
        best = min(
            sum(n * p for n, p in zip(counts, prices, strict=True))
            for counts in itertools.product(*(range(most + 1) for most in limits))
            if sum(n * u for n, u in zip(counts, units, strict=True)) >= area
        )
        assert found[area] == best, area


def test_what_limits_end_is_not_on_offer() -> None:
    found = _area_steps((sheet("own", 100, 100, 5, 2),), 0, 12)
    assert found.tolist() == [0, 5, 5, 5, 5, 10, 10, 10, 10, *[UNAVAILABLE_CENTS] * 4]
    # A sheet counts for its area and kerf, rounded up: 104 x 104 is 4.33 units, so 5.
    assert _area_steps((sheet("a", 100, 100, 5, None),), 4, 6).tolist() == [0, 5, 5, 5, 5, 5, 10]


@pytest.mark.parametrize("seed", SEEDS)
def test_length_of_all_bars(seed: int) -> None:
    model, _ = made(seed)
    space, kerf = model.space, model.space.market.kerf_mm
    for row, column in itertools.product(range(model.grid[0]), range(model.grid[1])):
        entries = every_pair(model, row, column)
        lengths = bars_length_mm(model, entries)
        board, kicker = int(space.boards_mm[row]), int(space.kickers_mm[column])
        for n in range(len(entries)):
            sheeting = space.sheetings[int(entries.sheeting[n])]
            columns = columns_of(sheeting.split, space.width_mm, space.market.limits)
            assert columns is not None
            narrow = space.market.sections[int(entries.section[n])].width_mm
            shape = FrameShape(board, kicker, columns, sheeting.split.rows, sheeting.bays, narrow)
            bars = frame_bars(shape, space.market.limits)
            if bars is not None:
                assert lengths[n] == sum(count * (length + kerf) for _, length, count in bars)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_bound_is_above_the_cost_and_the_last_is_near_it(seed: int) -> None:
    model, rates = made(seed)
    cut_cents = model.space.market.room.yard.cut_price_cents
    seen = 0
    for row, column in itertools.product(range(model.grid[0]), range(model.grid[1])):
        entries = every_pair(model, row, column)
        one = bars_cents(model, entries, 1)
        exact = solved_cost_cents(model, entries, one)
        offered = exact < UNAVAILABLE_CENTS
        seen += int(offered.sum())
        quick = cost_bound_cents(model, rates, entries, 1)
        bars = bars_bound_cents(model, rates, entries, one, 1)
        both = sheets_bound_cents(model, entries, one, 1, quick=True)
        cuts = sheets_bound_cents(model, entries, one, 1, quick=False)
        assert (quick <= bars).all()
        for bound in (quick, bars, both, cuts):
            assert (bound <= exact).all()
        assert (both <= cuts).all()
        # At a single point the last bound differs from the cost by trims alone.
        assert (exact[offered] - both[offered] <= 10 * cut_cents).all()
        table = box_table_cents(model, rates, row, column)
        mounts = 2 * int(model.pricer.mount_cents[0])
        found = table[entries.sheeting, entries.section, entries.delivered] + mounts
        assert np.array_equal(found[offered], quick[offered])
    assert seen > 10


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("quick", [True, False])
def test_a_larger_box_is_never_bounded_higher(seed: int, quick: bool) -> None:
    model, _ = made(seed)
    entries = every_pair(model, 0, 0)
    sizes = (1, 2, 4)
    found = []
    for size in sizes:
        bars = bars_cents(model, entries, size)
        found.append(sheets_bound_cents(model, entries, bars, size, quick=quick))
    assert all((b <= a).all() for a, b in itertools.pairwise(found))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_box_is_bounded_by_ranges_that_hold_all_pieces_of_its_walls(seed: int) -> None:
    """Pieces cut to be alike are of one kind there, though some are a mm longer than others."""
    model, _ = made(seed)
    space, limits = model.space, model.space.market.limits
    least, most = (2400, 200, 1201), (2405, 210, 1205)
    uneven = 0
    for sheeting in space.sheetings:
        corners = model.exact.corners(sheeting, least, most)
        if corners is None:
            continue
        rows, columns = sheeting.split.rows, sheeting.split.columns
        for board, kicker, width in itertools.product(*map(range, least, (x + 1 for x in most))):
            across = columns_of(sheeting.split, width, limits)
            up = rows_of(sheeting.split, board, limits)
            assert across is not None
            assert up is not None
            uneven += len(set(across)) > 1 and not sheeting.split.full_column_mm
            uneven += len(set(up)) > 1 and not sheeting.split.full_row_mm
            pieces = itertools.product(up, across)
            for piece, (low, high, _) in zip(pieces, corners[0], strict=True):
                assert all(a <= b <= c for a, b, c in zip(low, piece, high, strict=True))
            for wide, (low, high, _) in zip(across, corners[1], strict=True):
                assert low[0] <= wide <= high[0]
                assert low[1] <= kicker <= high[1]
        if not (sheeting.split.full_row_mm or sheeting.split.full_column_mm):
            assert corners[0] == [corners[0][0]] * (rows * columns)
    assert uneven


@pytest.mark.parametrize("seed", SEEDS)
def test_of_a_single_wall_the_bound_of_its_sheets_is_their_cost(seed: int) -> None:
    """Also where columns and rows cut to be alike differ by a mm: proofs end at single walls."""
    model, _ = made(seed)
    seen = 0
    for number, sheeting in enumerate(model.space.sheetings):
        families = model.kickers[number]
        for lengths in ((2401, 200, 1201), (2399, 0, 1199), (2501, 250, 1203)):
            bound = model.exact.sheet_bound(sheeting, families, lengths, lengths, quick=False)
            cost = model.exact.sheets(sheeting, (sheeting.family, *families), lengths)
            assert bound == (UNAVAILABLE_CENTS if cost is None else cost.cost_cents)
            seen += cost is not None
    assert seen


@pytest.mark.parametrize("seed", SEEDS)
def test_sheets_by_area_cost_no_less_than_whole_sheets_of_that_area(seed: int) -> None:
    model, rates = made(seed)
    space, kerf = model.space, model.space.market.kerf_mm
    entries = every_pair(model, 0, model.grid[1] - 1)
    bound = area_bound_cents(model, rates, entries)
    board, kicker = int(space.boards_mm[0]), int(space.kickers_mm[-1])
    for n in range(len(entries)):
        number = int(entries.sheeting[n])
        sheeting = space.sheetings[number]
        families = {sheeting.family, *model.kickers[number]}
        stocks = [s for family in families for s in space.market.sheet_stock[family]]
        rate = min(s.price_cents / ((s.length_mm + kerf) * (s.width_mm + kerf)) for s in stocks)
        area = (board + kicker + kerf) * (space.width_mm + kerf)
        assert bound[n] >= rate * area - 2 * 2500 * rate - 1


def test_the_lowest_kicker_has_room_for_its_uprights() -> None:
    model, _ = made(SEEDS[0])
    market = model.space.market
    for number, section in enumerate(market.sections):
        low = 2 * section.width_mm + market.limits.min_upright_mm
        assert least_kicker_mm(model, number) == low


@pytest.mark.parametrize("seed", SEEDS)
def test_a_frame_between_two_of_equal_cost_costs_the_same(seed: int) -> None:
    """What is inferred from shorter and longer frames, against every frame solved by itself."""
    model, _ = made(seed)
    space, costs = model.space, ExactCosts(model.space)
    market = space.market
    lengths = list(itertools.product(range(1200, 2400, 75), (0, 180, 300, 420)))
    columns = columns_of(space.sheetings[0].split, space.width_mm, market.limits)
    assert columns is not None
    asked = 0
    for board, kicker in lengths[::-5] + lengths:
        for section, delivered in itertools.product(range(len(market.sections)), (False, True)):
            narrow = market.sections[section].width_mm
            shape = FrameShape(board, kicker, columns, 1, 3, narrow)
            parts = bar_parts(shape, market.limits)
            stock = market.bar_stock(market.sections[section], delivered)
            alone = bar_cost_cents(parts, stock, market.kerf_mm) if parts and stock else None
            assert costs.bars(shape, section, delivered) == alone
            asked += parts is not None
    solved = sum(len(known) for known in costs.bars_memo.values())
    assert 0 < solved < asked


@pytest.mark.parametrize("kerf_mm", [0, 2, 4])
def test_pieces_that_fill_a_sheet_take_one_cut_less_than_there_are(kerf_mm: int) -> None:
    """By hand: a whole sheet takes no cut, two halves take one, two sheets of halves take two."""
    half = (1220 - kerf_mm) // 2
    stock = (SheetStock("a", 2440, 1220, "length", 5000, 150, None),)
    row = {"length_mm": 2440, "width_mm": 1220, "price_cents": 5000, "cut_cents": 150}
    for across, pieces, plain in ((1220, 1, 5000), (half, 2, 5150), (half, 4, 10300)):
        assert (
            sheet_cost_cents((SheetPart("", 2440, across, "any", pieces),), stock, kerf_mm) == plain
        )
        units = pieces * (2440 + kerf_mm) * (across + kerf_mm) // AREA_UNIT_MM2
        steps = _area_steps(stock, kerf_mm, units)
        assert int(steps[units]) + _charge_cents(stock) * pieces == plain
        checker = [row | {"limit": None}]
        steps = area_costs(checker, kerf_mm, units)
        assert int(steps[units]) + piece_charge_cents(checker) * pieces == plain


@pytest.mark.parametrize("seed", range(60))
def test_no_list_of_pieces_costs_less_than_by_area_and_number(seed: int) -> None:
    r = random.Random(seed)
    kerf_mm = r.choice([0, 3, 10])
    stock, rows = [], []
    for n in range(r.randint(1, 3)):
        sides = r.choice([(200, 100), (200, 200), (310, 100), (100, 100)])
        price, cut, limit = (
            r.choice([0, 30, 100, 250]),
            r.choice([0, 20, 60]),
            r.choice([None, 1, 2]),
        )
        free = r.choice([0, 0, 0, 1])
        stock.append(SheetStock(f"s{n}", *sides, "length", price, cut, limit, free_cuts=free))
        row = {"price_cents": price, "cut_cents": cut, "limit": limit, "free_cuts": free}
        rows.append(row | dict(zip(("length_mm", "width_mm"), sides, strict=True)))
    sizes = [(100, 100), (100, (100 - kerf_mm) // 2), ((200 - kerf_mm) // 2, 100), (60, 40)]
    parts = tuple(SheetPart("", *size, "any", 1) for size in r.choices(sizes, k=r.randint(1, 4)))
    cost = sheet_cost_cents(parts, tuple(stock), kerf_mm)
    covered = sum((p.length_mm + kerf_mm) * (p.width_mm + kerf_mm) for p in parts)
    units = covered // AREA_UNIT_MM2
    for least, charge in (
        (_area_steps(tuple(stock), kerf_mm, units), _charge_cents(tuple(stock))),
        (area_costs(rows, kerf_mm, units), piece_charge_cents(rows)),
    ):
        if cost is not None:
            assert int(least[units]) + charge * len(parts) <= cost
