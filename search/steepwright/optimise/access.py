"""Which pieces get in: through the stairs, into the vehicle, in the carriers' hands."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry import carry_limit_kg, passes_mask
from steepwright.optimise.entries import Entries
from steepwright.optimise.space import Sheeting, Space
from steepwright.pricing.wall import columns_of, rows_of

BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class AccessTables:
    """Per sheeting and grid index: do the pieces pass, and do they fit the vehicle.

    A board that can't be divided at some length counts as passing there; the cutting step
    rules it out. So every table is true up to some length and false from there on.
    """

    board: BoolArray
    kicker: BoolArray
    board_in_vehicle: BoolArray
    kicker_in_vehicle: BoolArray

    def passes(self, entries: Entries) -> BoolArray:
        """Return which entries' smallest walls can be brought in."""
        row, column = (entries.sheeting, entries.row), (entries.sheeting, entries.column)
        fits = self.board_in_vehicle[row] & self.kicker_in_vehicle[column]
        fits = fits | (entries.delivered == 1)
        return np.asarray(self.board[row] & self.kicker[column] & fits)


def build_access(space: Space) -> AccessTables:
    """Compute the tables once per distinct split and sheet family."""
    shape_rows = (len(space.sheetings), len(space.boards_mm))
    shape_columns = (len(space.sheetings), len(space.kickers_mm))
    board, board_vehicle = np.ones(shape_rows, np.bool_), np.ones(shape_rows, np.bool_)
    kicker, kicker_vehicle = np.ones(shape_columns, np.bool_), np.ones(shape_columns, np.bool_)
    known: dict[tuple[object, ...], tuple[BoolArray, ...]] = {}
    for i, sheeting in enumerate(space.sheetings):
        key = (sheeting.family, sheeting.split)
        if key not in known:
            known[key] = _tables(space, sheeting)
        board[i], board_vehicle[i], kicker[i], kicker_vehicle[i] = known[key]
    return AccessTables(board, kicker, board_vehicle, kicker_vehicle)


def _tables(space: Space, sheeting: Sheeting) -> tuple[BoolArray, ...]:
    market = space.market
    columns = columns_of(sheeting.split, space.width_mm, market.limits)
    assert columns is not None
    widest = max(columns)
    pieces = []
    for board in space.boards_mm.tolist():
        rows = rows_of(sheeting.split, board, market.limits)
        pieces.append((max(rows), widest) if rows else (0, 0))
    strips = [(widest, kicker) for kicker in space.kickers_mm.tolist()]
    board_pass = pieces_get_in(space, sheeting.family, pieces)
    strip_pass = pieces_get_in(space, sheeting.family, strips)
    board_fits = np.array([market.fits_vehicle(*piece) for piece in pieces])
    strip_fits = np.array([market.fits_vehicle(*piece) for piece in strips])
    return board_pass, board_fits, strip_pass, strip_fits


def sheet_mass_kg(space: Space, family: int, length_mm: int, width_mm: int) -> float:
    """Return the mass of a sheet piece [kg] from the panel's mean density."""
    panel = space.market.catalog.materials.panels[space.market.families[family].panel]
    return panel.rho_mean_kg_m3 * panel.mean_thickness_mm * length_mm * width_mm * 1e-9


def pieces_get_in(space: Space, family: int, pieces: list[tuple[int, int]]) -> BoolArray:
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
