"""Which pieces get in: through the stairs, into the vehicle, in the carriers' hands.

Bars are sawn before they are carried in where they are too long whole, so that only their pieces
have to pass; the longest pieces of a frame are its studs and its rails.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import TimberProduct
from steepwright.geometry import carry_limit_kg, passes_mask
from steepwright.geometry.layout import Split, divided_range_mm
from steepwright.optimise.entries import Entries
from steepwright.optimise.space import Sheeting, Space
from steepwright.pricing.market import Market
from steepwright.pricing.wall import Wall, columns_of, rows_of

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class AccessTables:
    """Per sheeting and grid index: do the pieces pass, and do they fit the vehicle.

    A board that can't be divided at some length counts as passing there; the cutting step
    rules it out. So every table is true up to some length and false from there on.

    Attributes
    ----------
    kicker
        Whether the strips pass made from any family that may make them.
    strips
        The same per family, by family and width of the widest column [mm].
    widest_mm
        Width of each sheeting's widest column [mm].
    bars
        Per section and board length, whether the frame's bars pass.
    """

    board: BoolArray
    kicker: BoolArray
    board_in_vehicle: BoolArray
    kicker_in_vehicle: BoolArray
    strips: dict[tuple[int, int], BoolArray]
    widest_mm: tuple[int, ...]
    bars: BoolArray

    def passes(self, entries: Entries) -> BoolArray:
        """Return which entries' smallest walls can be brought in."""
        row, column = (entries.sheeting, entries.row), (entries.sheeting, entries.column)
        fits = self.board_in_vehicle[row] & self.kicker_in_vehicle[column]
        fits = fits | (entries.delivered == 1)
        bars = self.bars[entries.section, entries.row]
        return np.asarray(self.board[row] & self.kicker[column] & fits & bars)

    def kickers_at(self, sheeting: int, column: int, families: tuple[int, ...]) -> tuple[int, ...]:
        """Return which families' strips can be brought in at a grid index of the kicker."""
        widest = self.widest_mm[sheeting]
        return tuple(f for f in families if self.strips[f, widest][column])


def build_access(space: Space, kickers: tuple[tuple[int, ...], ...]) -> AccessTables:
    """Compute the tables once per distinct split and sheet family.

    `kickers` holds per sheeting the families other than its own that may make the kicker.
    """
    one_of = {sheeting.split: sheeting for sheeting in space.sheetings}
    widest_of = {split: max(space.columns_mm(one)) for split, one in one_of.items()}
    widest = tuple(widest_of[sheeting.split] for sheeting in space.sheetings)
    count, lengths = len(space.sheetings), (len(space.boards_mm), len(space.kickers_mm))
    board, board_fits = (np.ones((count, lengths[0]), np.bool_) for _ in range(2))
    kicker, kicker_fits = (np.ones((count, lengths[1]), np.bool_) for _ in range(2))
    largest, strips = _pieces(space, widest), _strips(space, widest, kickers)
    boards = _boards(space, {split: pieces for split, (pieces, _, _) in largest.items()})
    any_strip: dict[tuple[int, int], BoolArray] = {}
    for i, (sheeting, wide) in enumerate(zip(space.sheetings, widest, strict=True)):
        _, board_fits[i], kicker_fits[i] = largest[sheeting.split]
        board[i] = boards[sheeting.family, sheeting.split]
        if (sheeting.family, wide) not in any_strip:
            made = [strips[family, wide] for family in (sheeting.family, *kickers[i])]
            any_strip[sheeting.family, wide] = np.logical_or.reduce(made)
        kicker[i] = any_strip[sheeting.family, wide]
    bars = np.ones((len(space.market.sections), lengths[0]), np.bool_)
    for section in range(len(bars)):
        bars[section] = bars_get_in(space, section, longest_bar_mm(space, section))
    return AccessTables(board, kicker, board_fits, kicker_fits, strips, widest, bars)


def _pieces(
    space: Space, widest_mm: tuple[int, ...]
) -> dict[Split, tuple[IntArray, BoolArray, BoolArray]]:
    """Return by split each board length's largest piece, and whether it and strips lie flat."""
    market = space.market
    found: dict[Split, tuple[IntArray, BoolArray, BoolArray]] = {}
    for sheeting, wide in zip(space.sheetings, widest_mm, strict=True):
        if sheeting.split not in found:
            pieces = board_pieces(space, sheeting, wide)
            strips = np.stack([np.full_like(space.kickers_mm, wide), space.kickers_mm], axis=1)
            board, strip = (_lie_flat(market, some) for some in (pieces, strips))
            found[sheeting.split] = pieces, board, strip
    return found


def _lie_flat(market: Market, pieces: IntArray) -> BoolArray:
    """Return which pieces (length, width [mm]) lie flat in the builder's vehicle."""
    vehicle = market.room.yard.vehicle_max_mm
    if vehicle is None:
        return np.ones(len(pieces), dtype=np.bool_)
    return np.asarray((np.sort(pieces, axis=1) <= sorted(vehicle)).all(axis=1))


def _boards(space: Space, largest: dict[Split, IntArray]) -> dict[tuple[int, Split], BoolArray]:
    """Return whether each board length's largest piece gets in, by family and split."""
    found = {}
    for family in sorted({sheeting.family for sheeting in space.sheetings}):
        splits = sorted({s.split for s in space.sheetings if s.family == family})
        passes = pieces_get_in(space, family, np.concatenate([largest[s] for s in splits]))
        for split, part in zip(splits, np.split(passes, len(splits)), strict=True):
            found[family, split] = part
    return found


def _strips(
    space: Space, widest_mm: tuple[int, ...], kickers: tuple[tuple[int, ...], ...]
) -> dict[tuple[int, int], BoolArray]:
    """Return whether strips of each kicker's height get in, by family and width."""
    asked: dict[int, set[int]] = {}
    for sheeting, wide, others in zip(space.sheetings, widest_mm, kickers, strict=True):
        for family in (sheeting.family, *others):
            asked.setdefault(family, set()).add(wide)
    found = {}
    for family, widths in asked.items():
        sizes = np.meshgrid(sorted(widths), space.kickers_mm, indexing="ij")
        passes = pieces_get_in(space, family, np.stack(sizes, axis=-1).reshape(-1, 2))
        for width, part in zip(sorted(widths), np.split(passes, len(widths)), strict=True):
            found[family, width] = part
    return found


def board_pieces(space: Space, sheeting: Sheeting, widest_mm: int) -> IntArray:
    """Return each board length's largest piece (length, width [mm]), 0 both where none is made."""
    rows, full_mm = sheeting.split.rows, sheeting.split.full_row_mm
    least_mm, largest_mm = divided_range_mm(space.boards_mm, rows, full_mm)
    made = (rows == 1) | (least_mm >= space.market.limits.min_piece_mm)
    return np.where(made, [largest_mm, np.full_like(largest_mm, widest_mm)], 0).T


def longest_bar_mm(space: Space, section: int) -> IntArray:
    """Return the longest bar of a frame [mm] per board length: a stud, or a rail."""
    studs = space.boards_mm - 2 * space.market.sections[section].width_mm
    return np.maximum(studs, space.width_mm)


def sheet_mass_kg(space: Space, family: int, length_mm: int, width_mm: int) -> float:
    """Return the mass of a sheet piece [kg] from the panel's mean density."""
    panel = space.market.catalog.materials.panels[space.market.families[family].panel]
    return panel.rho_mean_kg_m3 * panel.mean_thickness_mm * length_mm * width_mm * 1e-9


def bar_mass_kg(space: Space, section: int, length_mm: int) -> float:
    """Return the mass of a bar [kg] from its class's mean density."""
    bar = space.market.sections[section]
    rho = space.market.catalog.materials.timber_classes[bar.strength_class].rho_mean_kg_m3
    return rho * bar.width_mm * bar.depth_mm * length_mm * 1e-9


def pieces_get_in(space: Space, family: int, pieces: IntArray | list[tuple[int, int]]) -> BoolArray:
    """Return which sheet pieces (length, width [mm]) pass the way in and may be carried.

    A piece without area always does.
    """
    market = space.market
    access, factors = market.room.access, market.catalog.materials.factors
    length, width = np.array(pieces, dtype=float).T
    thickness = market.families[family].thickness_mm
    real = (length > 0) & (width > 0)
    passes = passes_mask(access, np.where(real, length, 1), np.where(real, width, 1), thickness)
    mass = sheet_mass_kg(space, family, 1, 1) * length * width
    return np.asarray(~real | (passes & (mass <= carry_limit_kg(access, factors))))


def bars_get_in(space: Space, section: int, length_mm: npt.ArrayLike) -> BoolArray:
    """Return which bars pass the way in and may be carried."""
    market = space.market
    access, factors = market.room.access, market.catalog.materials.factors
    bar, length = market.sections[section], np.asarray(length_mm, dtype=np.float64)
    passes = passes_mask(access, length, bar.depth_mm, bar.width_mm)
    mass = bar_mass_kg(space, section, 1) * length
    return np.asarray(passes & (mass <= carry_limit_kg(access, factors)))


def bar_gets_in(space: Space, bar: TimberProduct, length_mm: int) -> bool:
    """Return whether one bar on sale, of the wall or of what it hangs from, gets in whole."""
    market = space.market
    access, factors = market.room.access, market.catalog.materials.factors
    rho = market.catalog.materials.timber_classes[bar.strength_class].rho_mean_kg_m3
    mass_kg = rho * bar.width_mm * bar.depth_mm * length_mm * 1e-9
    passes = passes_mask(access, float(length_mm), bar.depth_mm, bar.width_mm)
    return bool(passes) and mass_kg <= carry_limit_kg(access, factors)


def comes_in(space: Space, wall: Wall) -> bool:
    """Return whether every piece of a wall gets in, its bars sawn where they are too long."""
    market = space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    if columns is None or rows is None:
        return False
    board = market.families.index(wall.sheet)
    kicker = market.families.index(wall.kicker_sheet)
    section = market.sections.index(wall.section)
    longest = max(wall.board_mm - 2 * wall.section.width_mm, wall.width_mm)
    return bool(
        pieces_get_in(space, board, [(max(rows), max(columns))])[0]
        and pieces_get_in(space, kicker, [(max(columns), wall.kicker_mm)])[0]
        and bars_get_in(space, section, longest)
    )


def fits_vehicle(space: Space, wall: Wall) -> bool:
    """Return whether every sheet piece of a wall fits the builder's vehicle.

    Pieces of the builder's own offcuts are held to it as well.
    """
    market = space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    if columns is None or rows is None:
        return False
    pieces = ((max(rows), max(columns)), (max(columns), wall.kicker_mm))
    return all(market.fits_vehicle(*piece) for piece in pieces)


def too_long_whole_mm(space: Space) -> int | None:
    """Return the shortest bar on sale that doesn't get in whole [mm], None when all do."""
    lengths = [
        product.length_mm
        for number, section in enumerate(space.market.sections)
        for product in section.products
        if not bars_get_in(space, number, product.length_mm)
    ]
    return min(lengths, default=None)
