"""Everything one part of a certificate gives, set out as arrays, and the bounds made of it."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify import area, packs
from steepwright.verify.bars import Bars, Need
from steepwright.verify.carrying import carried_kg
from steepwright.verify.choices import Choices, Size
from steepwright.verify.declared import Axes
from steepwright.verify.divisions import Sheeting, blocks_mm, divided, least_board_mm
from steepwright.verify.frames import Frames
from steepwright.verify.packs import UNAVAILABLE_CENTS
from steepwright.verify.sheets import Part, Stock, least_cost, part_of, stock_of
from steepwright.verify.stands import stand_cents
from steepwright.verify.yards import delivery_cents, fits_vehicle

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]


MOST_BARS_MM = 400_000
"""More than the bars of any wall's frame; a file that asks for more is damaged."""


class Bounds:
    """Lower bounds of one market, by tables of the checker's own making."""

    def __init__(self, part: Document, room: Document, axes: Axes) -> None:
        given = part["given"]
        self.given, self.room, self.grid, self.sheetings = given, room, axes.grid, axes.sheetings
        self.factors, self.wall, self.yard = given["factors"], room["wall"], room["yard"]
        self.kerf = int(self.yard["kerf_mm"])
        self.least_piece = int(self.factors["layout_min_piece_mm"])
        self.least_bar = int(self.factors["layout_min_upright_mm"])
        self.widths_mm = axes.widths_mm
        self.frames = Frames(given, axes.sheetings, axes.widths_mm)
        self.narrowest = self.frames.narrowest
        self._lay_out_sheetings()
        self._lay_out_sheets()
        self.narrow = np.array([s["width_mm"] for s in given["sections"]], dtype=np.int64)
        vehicle, most = self.yard["vehicle_max_mm"], self._most_bars_mm()
        self.rates = area.bar_rates(given["sections"], vehicle, self.kerf, most)
        self.least_mounts = int(self.factors["search_least_mounts"])
        least, most, step = (
            int(self.factors[f"search_{what}_screw_mm"]) for what in ("least", "most", "step")
        )
        self.screws_mm = tuple(range(most, least - 1, -step))
        self.small = packs.small_parts(given, self.wall, self._largest())
        self.mount_cents = np.array([m["price_cents"] for m in given["mounts"]], dtype=np.int64)
        self.delivery_cents = delivery_cents(given, self.yard)
        stands = [[stand_cents(given, room, beam, d) for d in (0, 1)] for beam in room["beams"]]
        self.stand_cents = np.array(stands, dtype=np.int64)

    def _lay_out_sheetings(self) -> None:
        rows = self.sheetings

        def column(values: list[int]) -> IntArray:
            return np.array(values, dtype=np.int64)

        self.family = column([s.family for s in rows])
        self.columns = column([s.columns for s in rows])
        self.rows = column([s.rows for s in rows])
        self.studs = column([s.studs for s in rows])
        self.across = np.array([s.grain == "across" for s in rows])
        self.least_board = column([least_board_mm(s, self.least_piece) for s in rows])
        self.layout = _first([s.layout for s in rows])
        ends = [self.frames.ends_mm(n) for n in range(len(rows))]
        self.frame = _first([(e, s.bays, s.rows) for e, s in zip(ends, rows, strict=True)])
        thickness = [f["thickness_mm"] for f in self.given["families"]]
        order = sorted(set(thickness))
        self.thickness = column([order.index(thickness[s.family]) for s in rows])

    def _lay_out_sheets(self) -> None:
        families, panels = self.given["families"], self.given["panels"]
        self.stock = [tuple(stock_of(row) for row in f["stock"]) for f in families]
        self.kickers = [
            [
                i
                for i, f in enumerate(families)
                if i != own and area.stands_in(panels, f["panel"], families[own]["panel"])
            ]
            for own in range(len(families))
        ]
        grid, kerf = self.grid, self.kerf
        long = int(grid.boards_mm[-1] + grid.kickers_mm[-1]) + kerf * (self.wall["max_rows"] + 1)
        wide = int(self.widths_mm[-1]) + kerf * self.wall["max_columns"]
        most = long * wide // area.UNIT_MM2 + 1
        self.by_area = np.stack([area.area_costs(f["stock"], kerf, most) for f in families])
        self.apart = np.full_like(self.by_area, UNAVAILABLE_CENTS)
        for own, others in enumerate(self.kickers):
            for other in others:
                self.apart[own] = np.minimum(self.apart[own], self.by_area[other])
        charge = [area.piece_charge_cents(f["stock"]) for f in families]
        least = [min(charge[f] for f in (own, *more)) for own, more in enumerate(self.kickers)]
        board, kicker = (np.array(cents, dtype=np.int64)[self.family] for cents in (charge, least))
        self.board_cuts, self.kicker_cuts = self.rows * self.columns * board, self.columns * kicker

    def _most_bars_mm(self) -> int:
        """Return a length [mm] that no frame's bars exceed, a kerf added to each.

        Raises
        ------
        ValueError
            When it is more than any wall has.
        """
        up = int(self.grid.boards_mm[-1] + self.grid.kickers_mm[-1]) + 2 * self.kerf
        studs, wide = int(self.studs.max()), int(self.widths_mm[-1]) + self.kerf
        blocking = wide + self.kerf * studs
        most = studs * up + 4 * wide + (int(self.rows.max()) - 1) * blocking
        if most > MOST_BARS_MM:
            message = f"frames with {most} mm of bars are none"
            raise ValueError(message)
        return most

    def _largest(self) -> packs.Sizes:
        def one(value: int) -> IntArray:
            return np.array([value], dtype=np.int64)

        return packs.Sizes(
            one(int(self.studs.max())),
            one(int(self.columns.max())),
            one(int(self.rows.max())),
            one(int(self.grid.boards_mm[-1])),
            one(int(self.grid.kickers_mm[-1])),
            one(int(self.widths_mm[-1])),
            int(self.factors["search_most_mounts"]),
            self.screws_mm[-1],
        )

    def bay_mm(self, c: Choices) -> FloatArray:
        """Return the largest distance of neighbouring studs at the least width of each."""
        return self.frames.bay_mm(c)

    def sheets_cents(self, c: Choices) -> IntArray:
        """Return the sheets' bound by area and by the cuts that pieces need."""
        family, kerf = self.family[c.sheeting], self.kerf
        across = self.widths_mm[c.width] + kerf * self.columns[c.sheeting]
        board = (self.grid.boards_mm[c.row] + kerf * self.rows[c.sheeting]) * across
        kicker = self.grid.kickers_mm[c.column]
        strip = np.where(kicker > 0, (kicker + kerf) * across, 0)
        together = self.by_area[family, (board + strip) // area.UNIT_MM2]
        apart = self.by_area[family, board // area.UNIT_MM2]
        apart = apart + self.apart[family, strip // area.UNIT_MM2]
        sheets = np.where(kicker > 0, np.minimum(together, apart), together)
        cuts = self.board_cuts[c.sheeting]
        return np.asarray(sheets + cuts + np.where(kicker > 0, self.kicker_cuts[c.sheeting], 0))

    def bars_cents(self, c: Choices) -> IntArray:
        """Return the bars' bound by length, one kerf to a piece and to a bar."""
        narrow, studs, kerf = self.narrow[c.section], self.studs[c.sheeting], self.kerf
        board, kicker = self.grid.boards_mm[c.row], self.grid.kickers_mm[c.column]
        wide = self.widths_mm[c.width]
        rails = 2 * (wide + kerf)
        blocking = (self.rows[c.sheeting] - 1) * self.frames.blocking_mm(c, kerf)
        total = studs * (board - 2 * narrow + kerf) + rails + blocking
        framed = rails + studs * (np.maximum(kicker - 2 * narrow, 0) + kerf)
        total = total + np.where(kicker > 0, framed, 0)
        longest = np.maximum(board - 2 * narrow, wide) + kerf
        return self.rates.cost_cents(c.section, c.delivered, total, longest)

    def rest_cents(self, c: Choices, screw_mm: int, mounts: int = 0) -> IntArray:
        """Return the least cost of small parts, mounts, frame, trips and delivery.

        With so many mounts, or the least number.
        """
        mounts = mounts or self.least_mounts
        sizes = packs.Sizes(
            self.studs[c.sheeting],
            self.columns[c.sheeting],
            self.rows[c.sheeting],
            self.grid.boards_mm[c.row],
            self.grid.kickers_mm[c.column],
            self.widths_mm[c.width],
            mounts,
            screw_mm,
        )
        small = self.small.cost_cents(self.family[c.sheeting], c.section, sizes)
        hung = mounts * self.mount_cents[c.mount]
        stand = self.stand_cents[c.beam, c.delivered]
        return np.asarray(small + hung + stand + c.delivered * self.delivery_cents)

    def frame_stands(self, c: Choices, last_column: IntArray) -> BoolArray:
        """Tell whether the frame can be made for some wall of the box."""
        least = 2 * self.narrow[c.section] + self.least_bar
        kicker = self.grid.kickers_mm
        low = kicker[c.column] == 0
        stands = low | (kicker[last_column] >= least)
        made = self.grid.boards_mm[-1] - 2 * self.narrow[c.section] >= self.least_bar
        return np.asarray(stands & made & self.frames.makeable[c.sheeting, c.section])

    def divides(self, c: Choices, last_row: IntArray) -> BoolArray:
        """Tell whether the board's rows can be made for some wall of the box."""
        return np.asarray(self.grid.boards_mm[last_row] >= self.least_board[c.sheeting])

    def taken_home(self, c: Choices) -> BoolArray:
        """Tell whether the pieces of the least corner fit the vehicle, or come by delivery."""
        if self.yard["vehicle_max_mm"] is None:
            return np.ones(len(c), dtype=np.bool_)
        keys = np.stack([self.layout[c.sheeting], c.row, c.column, c.width])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        fits = [self._pieces_fit(*map(int, key)) for key in unique.T]
        return np.asarray((c.delivered == 1) | np.array(fits, dtype=np.bool_)[index.ravel()])

    def _pieces_fit(self, sheeting: int, row: int, column: int, width: int) -> bool:
        made = self.sheetings[sheeting]
        wide = self.frames.widest_mm(sheeting, width)
        rows = divided(int(self.grid.boards_mm[row]), made.rows, made.full_row_mm, self.least_piece)
        kicker = int(self.grid.kickers_mm[column])
        board = rows is None or fits_vehicle(self.yard, max(rows), wide)
        return board and fits_vehicle(self.yard, wide, kicker)

    def carried(self, c: Choices) -> BoolArray:
        """Tell whether the board's largest piece at the least corner can be carried."""
        keys = np.stack([self.layout[c.sheeting], c.row, c.width])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        light = [self._is_light(*map(int, key)) for key in unique.T]
        return np.asarray(np.array(light, dtype=np.bool_)[index.ravel()])

    def _is_light(self, sheeting: int, row: int, width: int) -> bool:
        made = self.sheetings[sheeting]
        rows = self._rows(made, int(self.grid.boards_mm[row]))
        panel = self.given["panels"][self.given["families"][made.family]["panel"]]
        mm3 = (
            panel["mean_thickness_mm"] * max(rows or (0,)) * self.frames.widest_mm(sheeting, width)
        )
        most = carried_kg(self.room["access"], self.factors)
        return bool(panel["rho_mean_kg_m3"] * mm3 * 1e-9 <= most * (1 + 1e-9))

    def needed_bars(self, fact: tuple[int, ...]) -> tuple[Need, Bars]:
        """Return the lengths of a frame at (row, column, width, sheeting, section, delivered)."""
        row, column, width, sheeting, section, delivered = fact
        made, narrow = self.sheetings[sheeting], int(self.narrow[section])
        board, kicker = int(self.grid.boards_mm[row]), int(self.grid.kickers_mm[column])
        kicker = max(kicker, 2 * narrow + self.least_bar) if kicker else 0
        counts = {int(self.widths_mm[width]): 4 if kicker else 2}
        counts[board - 2 * narrow] = counts.get(board - 2 * narrow, 0) + made.studs
        for block in blocks_mm(self.frames.columns_at(sheeting, width), made.bays, narrow):
            counts[block] = counts.get(block, 0) + made.rows - 1
        if kicker:
            counts[kicker - 2 * narrow] = counts.get(kicker - 2 * narrow, 0) + made.studs
        pairs = sorted(((mm + self.kerf, n) for mm, n in counts.items() if n), reverse=True)
        vehicle = self.yard["vehicle_max_mm"]
        stock = area.bar_stock(self.given["sections"][section], vehicle, delivered)
        return (
            Need(tuple(mm for mm, _ in pairs), tuple(n for _, n in pairs)),
            Bars(
                tuple(b["length_mm"] + self.kerf for b in stock),
                tuple(b["price_cents"] for b in stock),
            ),
        )

    def solved_sheets(self, sheeting: int, corner: tuple[int, int, int], size: Size) -> int:
        """Return the least cost of sheets from a corner to its box's end [cents], by exhaustion."""
        made = self.sheetings[sheeting]
        boards, kickers = self.grid.boards_mm, self.grid.kickers_mm
        row, column, width = corner
        last_row = min(row + size.cells, len(boards)) - 1
        last_column = min(column + size.cells, len(kickers)) - 1
        end = width // size.widths * size.widths + size.widths
        rows_high = self._rows(made, int(boards[last_row]))
        if rows_high is None:
            return UNAVAILABLE_CENTS
        rows_low = self._rows(made, int(boards[row]))
        if rows_low is None:
            full = made.full_row_mm or self.least_piece
            rows_low = (*((full,) * (made.rows - 1)), self.least_piece)
        grain = "width" if made.grain == "across" else "any"
        columns = self.frames.range_mm(sheeting, width, min(end, len(self.widths_mm)) - 1)
        board = [
            part_of((low, narrow), (high, wide), grain)
            for low, high in zip(rows_low, rows_high, strict=True)
            for narrow, wide in columns
        ]
        low, high = int(kickers[column]), int(kickers[last_column])
        along = "length" if made.grain == "across" else "any"
        strips = [part_of((w, low), (m, high), along) for w, m in columns] if low else []
        together = self._cost(board + strips, self.stock[made.family])
        if not strips:
            return together
        others = [self._cost(strips, self.stock[i]) for i in self.kickers[made.family]]
        apart = min(others, default=UNAVAILABLE_CENTS)
        if apart >= together:
            return together
        return min(together, self._cost(board, self.stock[made.family]) + apart)

    def _rows(self, made: Sheeting, board_mm: int) -> tuple[int, ...] | None:
        return divided(board_mm, made.rows, made.full_row_mm, self.least_piece)

    def _cost(self, parts: list[Part], stock: tuple[Stock, ...]) -> int:
        cents = least_cost(parts, stock, self.kerf)
        return UNAVAILABLE_CENTS if cents is None else cents


def _first(keys: list[Any]) -> IntArray:
    """Return for each key the place where it first stands."""
    seen: dict[Any, int] = {}
    return np.array([seen.setdefault(key, n) for n, key in enumerate(keys)], dtype=np.int64)
