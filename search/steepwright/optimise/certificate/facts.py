"""Bounds that need a solver: found by ours, written down so that another can check them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.cutting.barlist import BarType, maximal
from steepwright.cutting.dual import maximise, piece_prices
from steepwright.geometry.layout import FrameShape
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.levels import BarFact, Ledger, SheetFact
from steepwright.optimise.entries import Entries
from steepwright.pricing.wall import bar_parts, columns_of

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


def solve_level(
    costs: Costs, entries: Entries, parts: tuple[IntArray, IntArray, IntArray], ledger: Ledger
) -> BoolArray:
    """Close entries by solved bounds, write down those that are needed, return what stays.

    Parameters
    ----------
    parts
        Bounds of sheets and bars, and what both together must reach [cents].
    """
    sheets, bars, target = parts
    size = ledger.level.size
    bar_keys, bar_of = _numbered(_bar_columns(costs, entries))
    solved = np.array([costs.bars_solved(*key) for key in bar_keys], dtype=np.int64)
    bars_exact = solved[bar_of] if len(entries) else bars
    left = np.flatnonzero(sheets + bars_exact < target)
    sheet_keys, sheet_of = _numbered(_sheet_columns(costs, entries.take(left)))
    whole = np.array(
        [costs.sheets_solved(key[0], key[1], key[2], size) for key in sheet_keys], dtype=np.int64
    )
    sheets_exact = np.maximum(sheets[left], whole[sheet_of]) if len(left) else sheets[left]
    by_sheets = sheets_exact + bars[left] >= target[left]
    by_both = ~by_sheets & (sheets_exact + bars_exact[left] >= target[left])
    used_sheets = np.zeros(len(sheet_keys), dtype=np.bool_)
    used_sheets[sheet_of[by_sheets | by_both]] = True
    used_bars = np.zeros(len(bar_keys), dtype=np.bool_)
    used_bars[bar_of[left[by_both]]] = True
    by_bars = np.setdiff1d(np.arange(len(entries)), left)
    used_bars[bar_of[by_bars]] = True
    _write(costs, ledger, (sheet_keys, whole, used_sheets), (bar_keys, solved, used_bars))
    # What is written down closes all it can, not only the entries it was needed for.
    bars = np.where(used_bars[bar_of], bars_exact, bars) if len(entries) else bars
    known = dict(zip(sheet_keys, np.where(used_sheets, whole, 0).tolist(), strict=True))
    every, of = _numbered(_sheet_columns(costs, entries))
    fact = np.array([known.get(key, 0) for key in every], dtype=np.int64)
    sheets = np.maximum(sheets, fact[of]) if len(entries) else sheets
    over = sheets + bars - target
    return ledger.close("solved", over >= 0, over)


def write_solved(costs: Costs, entries: Entries, ledger: Ledger) -> None:
    """Write down the solved bounds of some entries that are not written down yet."""
    level, size = ledger.level, ledger.level.size
    sheets = {(fact.sheeting, fact.row, fact.column) for fact in level.sheets}
    keys = [key for key in _numbered(_sheet_columns(costs, entries))[0] if key not in sheets]
    cents = [costs.sheets_solved(key[0], key[1], key[2], size) for key in keys]
    bars = {(f.sheeting, f.section, f.delivered, f.row, f.column) for f in level.bars}
    frames = [key for key in _numbered(_bar_columns(costs, entries))[0] if key not in bars]
    whole = [costs.bars_solved(*key) for key in frames]
    every = [(np.array(n, dtype=np.int64), np.ones(len(n), dtype=np.bool_)) for n in (cents, whole)]
    _write(costs, ledger, (keys, *every[0]), (frames, *every[1]))


Key = tuple[int, ...]


def _sheet_columns(costs: Costs, entries: Entries) -> tuple[IntArray, ...]:
    return costs.model.sheetings.layout[entries.sheeting], entries.row, entries.column


def _bar_columns(costs: Costs, entries: Entries) -> tuple[IntArray, ...]:
    frame = costs.model.sheetings.frame[entries.sheeting]
    return frame, entries.section, entries.delivered, entries.row, entries.column


def _numbered(columns: tuple[IntArray, ...]) -> tuple[list[Key], IntArray]:
    """Return the distinct rows of some columns, and each row's number among them."""
    if not len(columns[0]):
        return [], np.zeros(0, dtype=np.int64)
    sizes = tuple(int(column.max()) + 1 for column in columns)
    flat, inverse = np.unique(np.ravel_multi_index(columns, sizes), return_inverse=True)
    rows = np.stack(np.unravel_index(flat, sizes)).T.tolist()
    return [tuple(row) for row in rows], inverse


Solved = tuple[list[Key], IntArray, BoolArray]


def _write(costs: Costs, ledger: Ledger, sheets: Solved, bars: Solved) -> None:
    level = ledger.level
    for key, cents in _used(sheets):
        sheeting, row, column = key
        level.sheets.append(SheetFact(row, column, sheeting, cents))
    for key, cents in _used(bars):
        sheeting, section, delivered, row, column = key
        prices = _prices(costs, key)
        level.bars.append(BarFact(row, column, sheeting, section, delivered, cents, prices))


def _used(solved: Solved) -> list[tuple[Key, int]]:
    keys, cents, used = solved
    return [(keys[n], int(cents[n])) for n in np.flatnonzero(used).tolist()]


def _prices(costs: Costs, key: Key) -> tuple[int, ...]:
    """Return what each length of a frame is worth, by a linear program over ways to use a bar."""
    sheeting, section, delivered, row, column = key
    model = costs.model
    space = model.space
    made, market = space.sheetings[sheeting], space.market
    columns = columns_of(made.split, space.width_mm, market.limits)
    assert columns is not None
    narrow = market.sections[section].width_mm
    board = int(space.boards_mm[row])
    kicker = costs.kicker_at(section, column)
    shape = FrameShape(board, kicker, columns, made.split.rows, made.bays, narrow)
    parts = bar_parts(shape, market.limits)
    stock = market.bar_stock(market.sections[section], bool(delivered))
    if parts is None or not stock:
        return ()
    counts: Counter[int] = Counter()
    for part in parts:
        counts[part.length_mm + market.kerf_mm] += part.count
    types = tuple(BarType(length, n) for length, n in sorted(counts.items(), reverse=True))
    offers = tuple((s.length_mm + market.kerf_mm, s.price_cents) for s in stock)
    return _worths(types, offers, maximal)


@lru_cache(maxsize=4096)
def _worths(
    types: tuple[BarType, ...],
    offers: tuple[tuple[int, int], ...],
    ways: Callable[..., list[tuple[int, tuple[int, ...]]]],
) -> tuple[int, ...]:
    needed = tuple(t.needed for t in types)
    rows, cents = [], []
    for length, price in offers:
        for _, pieces in ways(types, needed, length):
            rows.append(pieces)
            cents.append(price)
    table, limits = np.array(rows, dtype=np.int64), np.array(cents, dtype=np.int64)
    proposal, _ = maximise(table, limits, np.array(needed, dtype=np.int64))
    return tuple(piece_prices(table, limits, proposal).tolist())
