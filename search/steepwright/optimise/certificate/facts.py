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
from steepwright.optimise.certificate.known import Key
from steepwright.optimise.certificate.levels import BarFact, Ledger, SheetFact
from steepwright.optimise.entries import Entries
from steepwright.pricing.wall import bar_parts

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
    if not len(entries):
        return ledger.close("solved", np.zeros(0, dtype=np.bool_), sheets)
    bar_keys, bar_of = numbered(bar_columns(costs, entries))
    solved = np.array([costs.bars_solved(*key) for key in bar_keys], dtype=np.int64)
    exact = solved[bar_of]
    bars = np.maximum(bars, _known(ledger, bar_keys)[bar_of])
    left = np.flatnonzero(sheets + exact < target)
    sheet_keys, sheet_of = numbered(sheet_columns(costs, entries.take(left)))
    size = ledger.level.size, ledger.level.widths
    whole = np.array([costs.sheets_solved(key, *size) for key in sheet_keys], dtype=np.int64)
    sheets_exact = np.maximum(sheets[left], whole[sheet_of]) if len(left) else sheets[left]
    by_sheets = sheets_exact + bars[left] >= target[left]
    by_both = ~by_sheets & (sheets_exact + exact[left] >= target[left])
    used_sheets = np.zeros(len(sheet_keys), dtype=np.bool_)
    used_sheets[sheet_of[by_sheets | by_both]] = True
    used_bars = np.zeros(len(bar_keys), dtype=np.bool_)
    used_bars[bar_of[left[by_both]]] = True
    used_bars[bar_of[(sheets + bars < target) & (sheets + exact >= target)]] = True
    _write_sheets(ledger, sheet_keys, whole, used_sheets)
    _write_bars(costs, ledger, [bar_keys[n] for n in np.flatnonzero(used_bars).tolist()])
    # What is written down closes all it can, not only the entries it was needed for.
    over = np.sum(written_cents(costs, entries, (sheets, bars), ledger), axis=0) - target
    return ledger.close("solved", over >= 0, over)


def write_solved(costs: Costs, entries: Entries, ledger: Ledger) -> None:
    """Write down the solved bounds of some entries that are not written down yet."""
    level = ledger.level
    known = {_sheet_key(fact) for fact in level.sheets}
    keys = [key for key in numbered(sheet_columns(costs, entries))[0] if key not in known]
    cents = [costs.sheets_solved(key, level.size, level.widths) for key in keys]
    every = np.ones(len(keys), dtype=np.bool_)
    _write_sheets(ledger, keys, np.array(cents, dtype=np.int64), every)
    _write_bars(costs, ledger, numbered(bar_columns(costs, entries))[0])


def written_cents(
    costs: Costs, entries: Entries, bounds: tuple[IntArray, IntArray], ledger: Ledger
) -> tuple[IntArray, IntArray]:
    """Return what sheets and bars cost at least by other bounds and what is written down."""
    known = {_sheet_key(fact): fact.cents for fact in ledger.level.sheets}
    keys, of = numbered(sheet_columns(costs, entries))
    sheets = np.array([known.get(key, 0) for key in keys], dtype=np.int64)[of]
    keys, of = numbered(bar_columns(costs, entries))
    bars = _known(ledger, keys)[of]
    return np.maximum(bounds[0], sheets), np.maximum(bounds[1], bars)


def _known(ledger: Ledger, keys: list[Key]) -> IntArray:
    return np.array([ledger.bars.least_cents(key) for key in keys], dtype=np.int64)


def _sheet_key(fact: SheetFact) -> Key:
    return fact.sheeting, fact.row, fact.column, fact.width


def sheet_columns(costs: Costs, entries: Entries) -> tuple[IntArray, ...]:
    """Return the keys of facts on the sheets of each entry: sheetings that lie alike share one."""
    layout = costs.model.sheetings.layout[entries.sheeting]
    return layout, entries.row, entries.column, entries.width


def bar_columns(costs: Costs, entries: Entries) -> tuple[IntArray, ...]:
    """Return the keys of facts on the bars of each entry."""
    frame = costs.model.sheetings.frame[entries.sheeting]
    corner = entries.row, entries.column, entries.width
    return frame, entries.section, entries.delivered, *corner


def numbered(columns: tuple[IntArray, ...]) -> tuple[list[Key], IntArray]:
    """Return the distinct rows of some columns, and each row's number among them."""
    if not len(columns[0]):
        return [], np.zeros(0, dtype=np.int64)
    sizes = tuple(int(column.max()) + 1 for column in columns)
    flat, inverse = np.unique(np.ravel_multi_index(columns, sizes), return_inverse=True)
    rows = np.stack(np.unravel_index(flat, sizes)).T.tolist()
    return [tuple(row) for row in rows], inverse


def _write_sheets(ledger: Ledger, keys: list[Key], cents: IntArray, used: BoolArray) -> None:
    for n in np.flatnonzero(used).tolist():
        sheeting, row, column, width = keys[n]
        ledger.level.sheets.append(SheetFact(row, column, width, sheeting, int(cents[n])))


def _write_bars(costs: Costs, ledger: Ledger, keys: list[Key]) -> None:
    """Write down what says more than what is known; lesser corners come first."""
    for key in sorted(keys):
        cents = costs.bars_solved(*key)
        if ledger.bars.add(key, cents):
            sheeting, section, delivered, row, column, width = key
            made = row, column, width, sheeting, section, delivered
            ledger.level.bars.append(BarFact(*made, cents, _prices(costs, key)))


def _prices(costs: Costs, key: Key) -> tuple[int, ...]:
    """Return what each length of a frame is worth, by a linear program over ways to use a bar."""
    sheeting, section, delivered, row, column, width = key
    model = costs.model
    space = model.space
    made, market = space.sheetings[sheeting], space.market
    columns = space.columns_mm(made, width)
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
