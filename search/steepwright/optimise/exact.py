"""Exact costs of one wall's sheets and bars, memoised by what they depend on."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from steepwright.cutting import (
    bar_cost_cents,
    cut_bars,
    cut_sheets,
    ranged_bound_cents,
    sheet_cost_cents,
    sheet_quick_bound_cents,
    verify_bar_plan,
    verify_sheet_plan,
)
from steepwright.cutting.cutlist import PartRange
from steepwright.cutting.records import BarPlan, Grain, SheetPart, SheetPlan
from steepwright.geometry.layout import FrameShape, can_be_framed
from steepwright.optimise.space import Sheeting, Space
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import (
    bar_parts,
    board_parts,
    columns_of,
    kicker_parts,
    rows_of,
)

Lengths = tuple[int, int, int]
"""Board, kicker and width [mm]."""

Frames = tuple[tuple[int, ...], int, int, int, int, bool]
"""Columns [mm], rows, bays, the studs' narrow side [mm], section, and whether it is delivered."""


@dataclass(frozen=True, slots=True, order=True)
class SheetChoice:
    """The cheapest way to make board and kicker: total and the kicker's family (index)."""

    cost_cents: int
    kicker_family: int


@dataclass(slots=True)
class ExactCosts:
    """Asks the cutting solvers and remembers their answers; the answers don't depend on order."""

    space: Space
    sheet_memo: dict[tuple[Sheeting, tuple[int, ...], Lengths], SheetChoice | None] = field(
        default_factory=dict
    )
    strip_memo: dict[tuple[tuple[int, ...], tuple[PartRange, ...], bool], int] = field(
        default_factory=dict
    )
    bars_memo: dict[Frames, dict[tuple[int, int], int]] = field(default_factory=dict)
    frame_memo: dict[tuple[int, int, bool, Lengths], int | None] = field(default_factory=dict)
    bound_memo: dict[tuple[Sheeting, tuple[int, ...], Lengths, Lengths, bool], int] = field(
        default_factory=dict
    )
    table_memo: dict[tuple[int, int], npt.NDArray[np.int64]] = field(default_factory=dict)

    def sheets(
        self, sheeting: Sheeting, kickers: tuple[int, ...], lengths: Lengths
    ) -> SheetChoice | None:
        """Return the cheapest sheets for board and kicker, None when they can't be cut.

        `kickers` are the families that may make the kicker, if there is one.
        """
        key = (sheeting, kickers, lengths)
        if key not in self.sheet_memo:
            self.sheet_memo[key] = self._sheets(sheeting, kickers, lengths)
        return self.sheet_memo[key]

    def _sheets(
        self, sheeting: Sheeting, kickers: tuple[int, ...], lengths: Lengths
    ) -> SheetChoice | None:
        parts = self.parts(sheeting, lengths)
        if parts is None:
            return None
        board, kicker = parts
        own, options = sheeting.family, []
        together = self._cost(own, board + kicker) if not kicker or own in kickers else None
        if together is not None:
            options.append(SheetChoice(together, own))
        priced = [(self._cost(family, kicker), family) for family in kickers if family != own]
        strips = [(c, family) for c, family in priced if c is not None] if kicker else []
        # Most often the board alone is known to be too dear before it is solved.
        cheap = strips and (
            together is None or self._quick(own, board) + min(strips)[0] <= together
        )
        alone = self._cost(own, board) if cheap else None
        if alone is not None:
            options += [SheetChoice(alone + c, family) for c, family in strips]
        return min(options, key=lambda o: (o.cost_cents, o.kicker_family), default=None)

    def sheets_of(self, sheeting: Sheeting, kicker_family: int, lengths: Lengths) -> int | None:
        """Return the cost [cents] with the kicker from one family, None when impossible."""
        parts = self.parts(sheeting, lengths)
        if parts is None:
            return None
        board, kicker = parts
        if not kicker or kicker_family == sheeting.family:
            return self._cost(sheeting.family, board + kicker)
        costs = self._cost(sheeting.family, board), self._cost(kicker_family, kicker)
        return None if costs[0] is None or costs[1] is None else costs[0] + costs[1]

    def _cost(self, family: int, parts: tuple[SheetPart, ...]) -> int | None:
        market = self.space.market
        return sheet_cost_cents(parts, market.sheet_stock[family], market.kerf_mm)

    def _quick(self, family: int, parts: tuple[SheetPart, ...]) -> int:
        market = self.space.market
        stock = market.sheet_stock[family]
        cents = sheet_quick_bound_cents(parts, parts, stock, market.kerf_mm)
        return UNAVAILABLE_CENTS if cents is None else cents

    def _plan(self, family: int, parts: tuple[SheetPart, ...]) -> SheetPlan | None:
        asked = parts, self.space.market.sheet_stock[family], self.space.market.kerf_mm
        plan = cut_sheets(*asked)
        _require_none(() if plan is None else verify_sheet_plan(plan, *asked))
        return plan

    def parts(
        self, sheeting: Sheeting, lengths: Lengths
    ) -> tuple[tuple[SheetPart, ...], tuple[SheetPart, ...]] | None:
        """Return the board's and the kicker's pieces; None when the split can't be made."""
        limits = self.space.market.limits
        board_mm, kicker_mm, width_mm = lengths
        columns = columns_of(sheeting.split, width_mm, limits)
        rows = rows_of(sheeting.split, board_mm, limits)
        if columns is None or rows is None:
            return None
        return board_parts(rows, columns, sheeting.grain), kicker_parts(
            kicker_mm, columns, sheeting.grain
        )

    def plans(
        self, sheeting: Sheeting, choice: SheetChoice, lengths: Lengths
    ) -> tuple[SheetPlan, ...] | None:
        """Return a choice's cut plans (board and kicker may be apart), None if impossible.

        Raises
        ------
        AssertionError
            When a plan, carried out cut by cut, isn't what was asked for: a mistake of ours.
        """
        parts = self.parts(sheeting, lengths)
        assert parts is not None
        groups = [(sheeting.family, parts[0] + parts[1])]
        if parts[1] and choice.kicker_family != sheeting.family:
            groups = [(sheeting.family, parts[0]), (choice.kicker_family, parts[1])]
        plans = [self._plan(family, group) for family, group in groups]
        made = tuple(plan for plan in plans if plan is not None)
        return made if len(made) == len(plans) else None

    def bars(self, shape: FrameShape, section: int, delivered: bool) -> int | None:
        """Return the exact cost of the frame's bars [cents], None when they can't be cut."""
        if not can_be_framed(shape, self.space.market.limits):
            return None
        kind = shape.columns_mm, shape.rows, shape.bays, shape.stud_mm, section, delivered
        known = self.bars_memo.setdefault(kind, {})
        lengths = shape.board_mm, shape.kicker_mm
        cents = known[lengths] if lengths in known else _between(known, *lengths)
        if cents is None:
            cents = known[lengths] = self._bars(shape, section, delivered)
        return cents if cents < UNAVAILABLE_CENTS else None

    def _bars(self, shape: FrameShape, section: int, delivered: bool) -> int:
        market = self.space.market
        parts = bar_parts(shape, market.limits)
        stock = market.bar_stock(market.sections[section], delivered)
        cost = bar_cost_cents(parts, stock, market.kerf_mm) if parts and stock else None
        return UNAVAILABLE_CENTS if cost is None else cost

    def bar_plan(self, shape: FrameShape, section: int, delivered: bool) -> BarPlan | None:
        """Return the cut plan of the frame's bars, checked as `plans` are; None if impossible."""
        market = self.space.market
        parts = bar_parts(shape, market.limits)
        if parts is None:
            return None
        asked = parts, market.bar_stock(market.sections[section], delivered), market.kerf_mm
        plan = cut_bars(*asked)
        _require_none(() if plan is None else verify_bar_plan(plan, *asked))
        return plan

    def sheet_bound(
        self,
        sheeting: Sheeting,
        kickers: tuple[int, ...],
        least: Lengths,
        most: Lengths,
        *,
        quick: bool,
    ) -> int:
        """Return a lower bound [cents] of the sheets' cost for all lengths between two corners.

        `UNAVAILABLE_CENTS` when not even the least lengths can be cut. The `quick` one is never
        higher and takes less work.
        """
        key = (sheeting, kickers, least, most, quick)
        known = self.bound_memo.get(key)
        if known is None:
            known = self._sheet_bound(*key)
            self.bound_memo[key] = known
        return known

    def _sheet_bound(
        self,
        sheeting: Sheeting,
        kickers: tuple[int, ...],
        least: Lengths,
        most: Lengths,
        quick: bool,
    ) -> int:
        corners = self.corners(sheeting, least, most)
        if corners is None:
            return UNAVAILABLE_CENTS
        board, kicker = corners
        together = self._bound(sheeting.family, board + kicker, quick)
        if not kicker:
            return together
        strip = self._strip_bound(kickers, kicker, quick)
        if strip >= together:
            return together
        return min(together, self._bound(sheeting.family, board, quick) + strip)

    def _strip_bound(self, kickers: tuple[int, ...], kicker: list[PartRange], quick: bool) -> int:
        key = (kickers, tuple(kicker), quick)
        if key not in self.strip_memo:
            bounds = [self._bound(family, kicker, quick) for family in kickers]
            self.strip_memo[key] = min(bounds, default=UNAVAILABLE_CENTS)
        return self.strip_memo[key]

    def corners(
        self, sheeting: Sheeting, least: Lengths, most: Lengths
    ) -> tuple[list[PartRange], list[PartRange]] | None:
        """Pair the pieces at both corners; None when the split can't be made anywhere between.

        A rest that is too small at the least corner counts as the least piece allowed. The
        kicker is left out when the box holds walls without one: that only lowers the bound. Of a
        single wall the pieces are its own, so that the bound is its cost.
        """
        limits = self.space.market.limits
        split, box = sheeting.split, least != most
        rows_high = rows_of(split, most[0], limits)
        columns = columns_of(split, least[2], limits)
        wider = columns_of(split, most[2], limits)
        if rows_high is None or columns is None or wider is None:
            return None
        widths = _ranges(columns, wider, alike=box and not split.full_column_mm)
        rows_low = rows_of(split, least[0], limits)
        if rows_low is None:
            full = (split.full_row_mm,) * (split.rows - 1)
            rows_low = (
                (*full, limits.min_piece_mm) if full[0] else (limits.min_piece_mm,) * split.rows
            )
        need: Grain = "width" if sheeting.grain == "across" else "any"
        board = [
            ((low, narrow), (high, wide), need)
            for low, high in _ranges(rows_low, rows_high, alike=box and not split.full_row_mm)
            for narrow, wide in widths
        ]
        kicker: list[PartRange] = []
        if least[1]:
            along: Grain = "length" if sheeting.grain == "across" else "any"
            kicker = [((narrow, least[1]), (wide, most[1]), along) for narrow, wide in widths]
        return board, kicker

    def _bound(self, family: int, ranges: list[PartRange], quick: bool) -> int:
        market = self.space.market
        stock = market.sheet_stock[family]
        cents = ranged_bound_cents(ranges, stock, market.kerf_mm, quick=quick)
        return UNAVAILABLE_CENTS if cents is None else cents


def _ranges(low: tuple[int, ...], high: tuple[int, ...], *, alike: bool) -> list[tuple[int, int]]:
    """Return the ranges [mm] of pieces in a row between two divisions of a length.

    Pieces cut to be `alike` differ by the mm that are left over. All count as having all sizes of
    any: bounds only fall by it, and lists of few kinds of pieces are solved much sooner.
    """
    return [(min(low), max(high))] * len(low) if alike else list(zip(low, high, strict=True))


def _require_none(faults: tuple[str, ...]) -> None:
    if faults:
        raise AssertionError("; ".join(faults))


def _between(known: dict[tuple[int, int], int], board_mm: int, kicker_mm: int) -> int | None:
    """Return a frame's cost [cents] if shorter and longer ones of its kind cost the same.

    No bars get cheaper when a length grows (`bar_cost_cents`), nor when a kicker is added.
    """
    least, most = -1, UNAVAILABLE_CENTS + 1
    for (board, kicker), cents in known.items():
        if board <= board_mm and kicker <= kicker_mm:
            least = max(least, cents)
        elif board >= board_mm and kicker >= kicker_mm:
            most = min(most, cents)
    return least if least == most else None
