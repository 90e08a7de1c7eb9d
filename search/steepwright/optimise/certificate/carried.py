"""Which walls' pieces can be taken home, carried and brought in, at the least width of a range."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry import carry_limit_kg
from steepwright.geometry.layout import Split
from steepwright.optimise.access import (
    bars_get_in,
    board_pieces,
    pieces_get_in,
    sheet_mass_kg,
)
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]

ROUNDING = 1e-9
"""A piece counts as too heavy when it is so by more than this share."""

Piece = tuple[int, int]
"""Length and width [mm]."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """The largest pieces of one layout: sheeting that stands for it, board's and kicker's."""

    sheeting: int
    board: Piece
    strip: Piece


@dataclass(frozen=True, slots=True)
class Carried:
    """Tells it of choices; `heavy` is told per sheeting and board length at the least width."""

    model: Model
    heavy: BoolArray

    def taken_home(self, entries: Entries) -> BoolArray:
        """Tell whether the pieces fit the vehicle, or come by delivery."""
        access, market = self.model.access, self.model.space.market
        board = access.board_in_vehicle[entries.sheeting, entries.row]
        kicker = access.kicker_in_vehicle[entries.sheeting, entries.column]

        def lie_flat(made: Pieces) -> bool:
            return market.fits_vehicle(*made.board) and market.fits_vehicle(*made.strip)

        fits = self._at_width(entries, board & kicker, lie_flat)
        return np.asarray(fits | (entries.delivered == 1))

    def too_heavy(self, entries: Entries) -> BoolArray:
        """Tell whether a piece of the board is too heavy to carry."""
        space = self.model.space
        access, factors = space.market.room.access, space.market.catalog.materials.factors
        most = carry_limit_kg(access, factors) * (1 + ROUNDING)

        def light(made: Pieces) -> bool:
            family = space.sheetings[made.sheeting].family
            return sheet_mass_kg(space, family, *made.board) <= most

        return ~self._at_width(entries, ~self.heavy[entries.sheeting, entries.row], light)

    def get_in(self, entries: Entries) -> BoolArray:
        """Tell whether all pieces can be brought in."""
        model, space = self.model, self.model.space

        def pass_(made: Pieces) -> bool:
            own = space.sheetings[made.sheeting].family
            strips = (own, *model.kickers[made.sheeting])
            board = bool(pieces_get_in(space, own, [made.board])[0])
            return board and any(pieces_get_in(space, f, [made.strip])[0] for f in strips)

        passes = self._at_width(entries, model.access.passes(entries), pass_)
        keys = np.stack([entries.section, entries.width])
        for section, width in np.unique(keys[:, passes], axis=1).T.tolist():
            if not bars_get_in(space, section, int(space.widths_mm[width])):
                passes &= (entries.section != section) | (entries.width != width)
        return passes

    def _at_width(
        self, entries: Entries, first: BoolArray, tell: Callable[[Pieces], bool]
    ) -> BoolArray:
        """Tell it of each entry: what is so at the least width possible, where it is wider, too."""
        model, s, found = self.model, self.model.sheetings, first.copy()
        rows = np.flatnonzero(first & (entries.width > s.narrowest[entries.sheeting]))
        some = entries.take(rows)
        keys = np.stack([s.layout[some.sheeting], some.row, some.column, some.width])
        every, index = np.unique(keys, axis=1, return_inverse=True)
        told = [tell(_pieces(model, *key)) for key in every.T.tolist()]
        found[rows] = np.array(told, dtype=np.bool_)[index.ravel()]
        return found


def _pieces(model: Model, sheeting: int, row: int, column: int, width: int) -> Pieces:
    space = model.space
    made = space.sheetings[sheeting]
    wide = max(space.columns_mm(made, width))
    length, across = board_pieces(space, made, wide)[row].tolist()
    return Pieces(sheeting, (length, across), (wide, int(space.kickers_mm[column])))


def carried_of(model: Model) -> Carried:
    """Return what tells which walls' pieces can be carried, for one market."""
    space = model.space
    access, factors = space.market.room.access, space.market.catalog.materials.factors
    most = carry_limit_kg(access, factors) * (1 + ROUNDING)
    pieces: dict[Split, IntArray] = {}
    known: dict[int, BoolArray] = {}
    rows = []
    for i, sheeting in enumerate(space.sheetings):
        layout = int(model.sheetings.layout[i])
        if sheeting.split not in pieces:
            pieces[sheeting.split] = board_pieces(space, sheeting, model.access.widest_mm[i])
        if layout not in known:
            kg = sheet_mass_kg(space, sheeting.family, 1, 1) * pieces[sheeting.split].prod(axis=1)
            known[layout] = kg > most
        rows.append(known[layout])
    return Carried(model, np.stack(rows))
