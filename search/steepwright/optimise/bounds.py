"""Lower bounds of cost over boxes, vectorised; each is proven, none is a guess.

All costs but the sheets' trim cuts are non-decreasing in the lengths, so the value at a box's
least corner bounds the box. Sheets are first bounded by area (kerf added to every side), then,
where few boxes are left, by the exact interval solver.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.cutting.records import SheetStock
from steepwright.geometry.layout import FrameShape
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model
from steepwright.optimise.sparing import spares_from
from steepwright.pricing.hardware import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


AREA_UNIT_MM2 = 2500
"""Grain of the area tables; a finer one sharpens the bounds a little and costs memory."""

STEPS_FROM = 512
"""Area tables are made for a multiple of so many units: more is then known already."""


@dataclass(frozen=True, slots=True)
class Rates:
    """What the quick bounds look up.

    Attributes
    ----------
    sheet_steps
        Least price [cents] of whole sheets with at least so much area, by family and area in
        units of `AREA_UNIT_MM2`; the kerf is added to piece and sheet. Of each sheet's price one
        charge for a cut is taken off (`_charge_cents`).
    kicker_steps
        The same from any other family that may make the kicker, by the board's family.
    bar
        Least price [cents/mm] of bars by section and delivery, kerf added likewise.
    board_cuts, kicker_cuts
        The charges [cents] for cuts that a sheeting's board and kicker bring: one for every piece.
    kinds
        The first sheeting of each family and frame, and for every sheeting which of these it is
        like: bars and small parts cost the same for both.
    spares
        The first width from each one on that may spare a saw cut, by sheeting
        (`steepwright.optimise.sparing`).
    wider
        Those of the model's wider walls.
    """

    sheet_steps: IntArray
    kicker_steps: IntArray
    bar: FloatArray
    board_cuts: IntArray
    kicker_cuts: IntArray
    kinds: tuple[IntArray, IntArray]
    spares: IntArray
    wider: Rates | None = None

    def only(self, kept: IntArray, sections: IntArray | None = None) -> Rates:
        """Return the rates of a space that keeps some of the sheetings, and sections (indices)."""
        _, first, kind = np.unique(self.kinds[1][kept], return_index=True, return_inverse=True)
        cuts = self.board_cuts[kept], self.kicker_cuts[kept]
        bar = self.bar if sections is None else self.bar[sections]
        return Rates(
            self.sheet_steps, self.kicker_steps, bar, *cuts, (first, kind), self.spares[kept]
        )


def build_rates(model: Model) -> Rates:
    """Compute the look-up tables."""
    space = model.space
    market, kerf = space.market, space.market.kerf_mm
    wall = market.room.wall
    rows, columns = kerf * (wall.max_rows + 1), kerf * wall.max_columns
    longest = int(space.boards_mm[-1] + space.kickers_mm[-1]) + rows
    widest = int(space.widths_mm[space.searched - 1])
    most = longest * (widest + columns) // AREA_UNIT_MM2 + 1
    steps = np.stack([_area_steps(stock, kerf, most) for stock in market.sheet_stock])
    kicker = np.full_like(steps, UNAVAILABLE_CENTS)
    others = {s.family: model.kickers[i] for i, s in enumerate(space.sheetings)}
    for board, families in others.items():
        kicker[board] = steps[list(families)].min(axis=0, initial=UNAVAILABLE_CENTS)
    bar = np.full((len(market.sections), 2), np.inf)
    for i, section in enumerate(market.sections):
        for delivered in (0, 1):
            options = market.bar_stock(section, bool(delivered))
            rates = [b.price_cents / (b.length_mm + kerf) for b in options]
            bar[i, delivered] = min(rates, default=np.inf)
    s = model.sheetings
    alike = s.family * len(space.sheetings) + s.frame
    _, first, kind = np.unique(alike, return_index=True, return_inverse=True)
    wider = None if model.wider is None else build_rates(model.wider)
    spares = spares_from(space, model.kickers)
    return Rates(steps, kicker, bar, *_piece_charges(model), (first, kind), spares, wider)


def _charge_cents(stock: tuple[SheetStock, ...]) -> int:
    """Return what every piece brings in charges for cuts, a sheet's price being less by as much.

    A sheet with n pieces takes at least n - 1 cuts. With c at most every charge, and at most the
    price of what there is no end of, it costs at least (price - c) + c n, and more sheets never
    cost less. c is nothing where some cuts are free.
    """

    def at_most(sheet: SheetStock) -> int:
        if sheet.free_cuts:
            return 0
        return sheet.cut_cents if sheet.limit else min(sheet.cut_cents, sheet.price_cents)

    return min(map(at_most, stock), default=0)


def _area_steps(stock: tuple[SheetStock, ...], kerf_mm: int, most: int) -> IntArray:
    return _known_steps(stock, kerf_mm, -(-most // STEPS_FROM) * STEPS_FROM)[: most + 1]


@lru_cache(maxsize=256)
def _known_steps(stock: tuple[SheetStock, ...], kerf_mm: int, most: int) -> IntArray:
    # Sheets count for their area rounded up and pieces for theirs rounded down, so that the
    # table never asks for more than the pieces do.
    def units(sheet: SheetStock) -> int:
        return -(-(sheet.length_mm + kerf_mm) * (sheet.width_mm + kerf_mm) // AREA_UNIT_MM2)

    charge = _charge_cents(stock)
    cost, index = np.full(most + 1, UNAVAILABLE_CENTS, dtype=np.int64), np.arange(most + 1)
    cost[0] = 0
    for sheet in (s for s in stock if s.limit is None):
        for start in range(1, most + 1, units(sheet)):
            part = index[start : start + units(sheet)]
            one_less = cost[np.maximum(part - units(sheet), 0)]
            cost[part] = np.minimum(cost[part], one_less + sheet.price_cents - charge)
    for sheet in stock:
        for _ in range(min(sheet.limit or 0, most)):
            without = cost[np.maximum(index - units(sheet), 0)]
            with_it = np.minimum(cost, without + sheet.price_cents - charge)
            cost = np.where(without < UNAVAILABLE_CENTS, with_it, cost)
    return cost


def _piece_charges(model: Model) -> tuple[IntArray, IntArray]:
    """Return what a board's and a kicker's pieces bring in charges for cuts, by sheeting."""
    space, s = model.space, model.sheetings
    charges = [_charge_cents(stock) for stock in space.market.sheet_stock]
    board = np.array(charges, dtype=np.int64)[s.family]
    kickers = zip(space.sheetings, model.kickers, strict=True)
    least = [min(charges[f] for f in (made.family, *others)) for made, others in kickers]
    return s.rows * s.columns * board, s.columns * np.array(least, dtype=np.int64)


def cost_bound_cents(model: Model, rates: Rates, entries: Entries, size: int) -> IntArray:
    """Return a lower bound of the whole cost [cents] over each entry's box."""
    sheet = area_bound_cents(model, rates, entries)
    bars = bars_length_mm(model, entries) * rates.bar[entries.section, entries.delivered]
    return _with_the_rest(model, entries, sheet + bars, size)


def _with_the_rest(
    model: Model, entries: Entries, material: FloatArray | IntArray, size: int
) -> IntArray:
    stand = model.stand_cents[entries.place, entries.delivered]
    pads = model.pads.least(model.mounting(entries), entries, size)
    total = _without_a_place(model, entries, material) + stand + pads
    return np.asarray(np.maximum(total, entries.bound_cents), dtype=np.int64)


def _without_a_place(model: Model, entries: Entries, material: FloatArray | IntArray) -> IntArray:
    small = model.pricer.cost_cents(
        model.sheetings.family[entries.sheeting],
        entries.section,
        entries.mount,
        model.counts(entries),
    )
    whole = np.minimum(np.ceil(material - 1e-6), UNAVAILABLE_CENTS).astype(np.int64)
    total = whole + small + entries.delivered * model.space.market.delivery_cents
    return np.asarray(total, dtype=np.int64)


def box_table_cents(model: Model, rates: Rates, row: int, column: int) -> IntArray:
    """Return the same bound for one box and all families, [sheeting, section, delivered].

    Without the price of the mounts, of a frame below them and of pads, so that the table serves
    every place and mount. It is built from sheetings, and kinds of them with sections, apart and
    costs little.
    """
    sheetings, sections = len(model.space.sheetings), len(model.space.market.sections)
    first, kind = rates.kinds
    pairs = np.indices((len(first), sections), dtype=np.int64).reshape(2, -1)
    zero = np.zeros(len(first) * sections, dtype=np.int64)
    where = first[pairs[0]], pairs[1]
    corner, narrowest = (zero + row, zero + column), model.sheetings.narrowest
    width = narrowest[where[0]]
    entries = Entries(zero, zero, *where, zero, *corner, zero, zero, width, width)
    alone = np.arange(sheetings, dtype=np.int64)
    flat = np.zeros(sheetings, dtype=np.int64)
    corner = flat + row, flat + column
    single = Entries(flat, flat, alone, flat, flat, *corner, flat, flat, narrowest, narrowest)
    sheet = area_bound_cents(model, rates, single)[:, None, None]
    bars = bars_length_mm(model, entries).reshape(len(first), sections, 1) * rates.bar
    small = _without_a_place(model, entries, zero).reshape(len(first), sections, 1)
    delivery = np.array([0, model.space.market.delivery_cents])
    rest = small - model.space.mount_counts[0] * int(model.pricer.mount_cents[0]) + delivery
    material = np.minimum(np.ceil(sheet + bars[kind] - 1e-6), UNAVAILABLE_CENTS).astype(np.int64)
    return np.asarray(material + rest[kind], dtype=np.int64)


def area_bound_cents(model: Model, rates: Rates, entries: Entries) -> IntArray:
    """Return a lower bound of the sheets [cents]: by area, and by the cuts that pieces need."""
    s, space = model.sheetings, model.space
    kerf = space.market.kerf_mm
    family = s.family[entries.sheeting]
    across = space.widths_mm[entries.width] + kerf * s.columns[entries.sheeting]
    board = (space.boards_mm[entries.row] + kerf * s.rows[entries.sheeting]) * across
    kicker = space.kickers_mm[entries.column]
    strip = np.where(kicker > 0, (kicker + kerf) * across, 0)
    together = rates.sheet_steps[family, (board + strip) // AREA_UNIT_MM2]
    alone = rates.sheet_steps[family, board // AREA_UNIT_MM2]
    apart = alone + rates.kicker_steps[family, strip // AREA_UNIT_MM2]
    cuts = rates.board_cuts[entries.sheeting]
    cuts = cuts + np.where(kicker > 0, rates.kicker_cuts[entries.sheeting], 0)
    sheets = np.where(kicker > 0, np.minimum(together, apart), together)
    return np.asarray(sheets + cuts, dtype=np.int64)


def bars_length_mm(model: Model, entries: Entries) -> IntArray:
    """Return the length of all bars at each entry's least corner [mm], a kerf added to each."""
    s, f, space = model.sheetings, model.frames, model.space
    kerf = space.market.kerf_mm
    narrow = model.section_mm[entries.section]
    studs = s.studs[entries.sheeting]
    pair = (entries.sheeting, entries.section)
    board = space.boards_mm[entries.row]
    kicker = space.kickers_mm[entries.column]
    seams = s.rows[entries.sheeting] - 1
    rails = 2 * (space.widths_mm[entries.width] + kerf)
    total = studs * (board - 2 * narrow + kerf) + rails
    total = total + seams * (f.blocking_mm[pair] + kerf * f.blocking_pieces[pair])
    framed = rails + studs * (np.maximum(kicker - 2 * narrow, 0) + kerf)
    total = total + np.where(kicker > 0, framed, 0)
    return np.asarray(total, dtype=np.int64)


def bars_bound_cents(
    model: Model, rates: Rates, entries: Entries, bars: IntArray, size: int
) -> IntArray:
    """Return a bound [cents] with the sheets by area and the bars as solved (`bars_cents`)."""
    return _with_the_rest(model, entries, area_bound_cents(model, rates, entries) + bars, size)


def sheets_bound_cents(
    model: Model, entries: Entries, bars: IntArray, size: int, *, quick: bool
) -> IntArray:
    """Return a bound [cents] with the sheets bounded over the box and the bars as solved."""
    sheets = _sheets_solved(model, entries, size, quick=quick)
    return _with_the_rest(model, entries, sheets + bars, size)


def solved_cost_cents(model: Model, entries: Entries, bars: IntArray) -> IntArray:
    """Return the cost [cents] of single grid points fixed as they say, the bars as solved."""
    return _with_the_rest(model, entries, _sheets_solved(model, entries, 0) + bars, 1)


def _sheets_solved(model: Model, entries: Entries, size: int, *, quick: bool = False) -> IntArray:
    """Return bounds over boxes of `size` cells a side, or with 0 the cost at the corner itself."""
    space = model.space
    shape = len(space.sheetings), *model.grid, space.searched, space.searched
    layout = model.sheetings.layout[entries.sheeting]
    where = layout, entries.row, entries.column, entries.width, entries.widest
    keys = np.ravel_multi_index(where, shape)
    unique, inverse = np.unique(keys, return_inverse=True)
    columns = np.unravel_index(unique, shape)
    last_row, last_column = model.grid[0] - 1, model.grid[1] - 1
    values = np.empty(len(unique), dtype=np.int64)
    for n, (sheeting, row, column, first, last) in enumerate(np.stack(columns).T.tolist()):
        if quick and first == 1 and space.least_width(space.sheetings[sheeting]) == 0:
            first = 0  # a little less, but known from the walls of the least width
        widths = int(space.widths_mm[first]), int(space.widths_mm[last])
        corner = int(space.boards_mm[row]), int(space.kickers_mm[column]), widths[0]
        if not size:
            strips = model.strip_families(sheeting, column)
            choice = model.exact.sheets(space.sheetings[sheeting], strips, corner)
            values[n] = UNAVAILABLE_CENTS if choice is None else choice.cost_cents
            continue
        most_row, most_column = min(row + size - 1, last_row), min(column + size - 1, last_column)
        values[n] = model.exact.sheet_bound(
            space.sheetings[sheeting],
            model.kickers[sheeting],
            corner,
            (int(space.boards_mm[most_row]), int(space.kickers_mm[most_column]), widths[1]),
            quick=quick,
        )
    return values[inverse]


def bars_cents(model: Model, entries: Entries, size: int) -> IntArray:
    """Return the exact cost of the bars [cents] at the corner of each box of `size` cells a side.

    Inside a box a kicker too low for its frame stands for the lowest that can be framed.
    """
    space = model.space
    shape = len(space.sheetings), len(space.market.sections), 2, *model.grid, space.searched
    frame = model.sheetings.frame[entries.sheeting]
    where = (frame, entries.section, entries.delivered, entries.row, entries.column, entries.width)
    unique, inverse = np.unique(np.ravel_multi_index(where, shape), return_inverse=True)
    values = np.empty(len(unique), dtype=np.int64)
    rows = np.stack(np.unravel_index(unique, shape)).T.tolist()
    for n, (sheeting, section, delivered, row, column, width) in enumerate(rows):
        least = least_kicker_mm(model, section)
        kicker = int(space.kickers_mm[column])
        if size > 1 and 0 < kicker < least:
            kicker = least
        lengths = int(space.boards_mm[row]), kicker, width
        cents = frame_cost_cents(model, (sheeting, section, bool(delivered)), lengths)
        values[n] = UNAVAILABLE_CENTS if cents is None else cents
    return values[inverse]


def least_kicker_mm(model: Model, section: int) -> int:
    """Return the lowest kicker [mm] that can be framed from a section."""
    market = model.space.market
    return 2 * market.sections[section].width_mm + market.limits.min_upright_mm


Frame = tuple[int, int, bool]
"""Sheeting and section (indices), and whether it is delivered."""


def frame_cost_cents(model: Model, frame: Frame, lengths: tuple[int, int, int]) -> int | None:
    """Return the exact cost [cents] of one frame's bars, None when it can't be made.

    `lengths` are board and kicker [mm], and the number of the width.
    """
    sheeting, section, delivered = frame
    key = (int(model.sheetings.frame[sheeting]), section, delivered, lengths)
    memo = model.exact.frame_memo
    if key not in memo:
        memo[key] = _frame_cost_cents(model, frame, lengths)
    return memo[key]


def _frame_cost_cents(model: Model, frame: Frame, lengths: tuple[int, int, int]) -> int | None:
    (sheeting, section, delivered), (board_mm, kicker_mm, width) = frame, lengths
    space = model.space
    made = space.sheetings[sheeting]
    columns = space.columns_mm(made, width)
    narrow = space.market.sections[section].width_mm
    shape = FrameShape(board_mm, kicker_mm, columns, made.split.rows, made.bays, narrow)
    return model.exact.bars(shape, section, delivered)
