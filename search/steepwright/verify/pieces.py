"""Which choices' pieces get in: the largest of board and kicker, and the longest bars."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.bounds import Bounds
from steepwright.verify.carrying import carried_kg
from steepwright.verify.choices import Choices
from steepwright.verify.divisions import divided
from steepwright.verify.narrow import gets_in
from steepwright.verify.verdict import Verdict

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

WAY_IN = "way in"
"""What the file calls the reason."""


class Pieces:
    """The pieces of one part's walls on their way in."""

    def __init__(self, bounds: Bounds) -> None:
        self.bounds, given = bounds, bounds.given
        self.access: Document = bounds.room["access"]
        self.most_kg = carried_kg(self.access, bounds.factors)
        families = given["families"]
        panels = [given["panels"][family["panel"]] for family in families]
        self.thick_mm = [float(family["thickness_mm"]) for family in families]
        self.kg_mm2 = [p["rho_mean_kg_m3"] * p["mean_thickness_mm"] * 1e-9 for p in panels]

    def confirm(self, reason: str, c: Choices, verdict: Verdict) -> bool:
        """Return whether a reason is looked at here; tell of choices that don't end by it."""
        if reason != WAY_IN:
            return False
        inside = self.get_in(c)
        if inside.any():
            row, column = (int(at[inside][0]) for at in (c.row, c.column))
            message = f"choices said to end by the way in, one in the box at ({row}, {column})"
            verdict.wrong("certificate-built", message, len(c), f"{int((~inside).sum())} of them")
        return True

    def get_in(self, c: Choices) -> BoolArray:
        """Tell of which choices the pieces at the least corner of the box get in."""
        return self._boards(c) & self._strips(c) & self._bars(c)

    def _boards(self, c: Choices) -> BoolArray:
        """Tell of which the board's largest piece gets in; one that is in no rows counts so."""
        bounds = self.bounds
        layout, row, width, index = _alike(bounds.layout[c.sheeting], c.row, c.width)
        sizes = np.zeros((len(layout), 2))
        keys = zip(layout.tolist(), row.tolist(), width.tolist(), strict=True)
        for n, (sheeting, at, wide) in enumerate(keys):
            made, board = bounds.sheetings[sheeting], int(bounds.grid.boards_mm[at])
            rows = divided(board, made.rows, made.full_row_mm, bounds.least_piece)
            if rows is not None:
                sizes[n] = max(rows), bounds.frames.widest_mm(sheeting, wide)
        return self._sheets(bounds.family[layout], sizes)[index]

    def _strips(self, c: Choices) -> BoolArray:
        """Tell of which the kicker's strips get in, of one of the families they may be of."""
        bounds = self.bounds
        layout, column, width, index = _alike(bounds.layout[c.sheeting], c.column, c.width)
        keys = zip(layout.tolist(), width.tolist(), strict=True)
        wide = [bounds.frames.widest_mm(*key) for key in keys]
        sizes = np.stack(
            [np.array(wide, dtype=np.float64), bounds.grid.kickers_mm[column].astype(float)], axis=1
        )
        own = bounds.family[layout]
        passed = self._sheets(own, sizes)
        for family in np.unique(own).tolist():
            rows = np.flatnonzero(own == family)
            for other in bounds.kickers[family]:
                passed[rows] |= self._sheets(np.full(len(rows), other), sizes[rows])
        return passed[index]

    def _sheets(self, family: npt.NDArray[np.int64], sizes: FloatArray) -> BoolArray:
        real = np.asarray((sizes > 0).all(axis=1))
        length, width = np.where(real[:, None], sizes, 1.0).T
        thick = np.array(self.thick_mm)[family]
        kg = np.array(self.kg_mm2)[family] * sizes[:, 0] * sizes[:, 1]
        return np.asarray(
            ~real | (gets_in(self.access, (length, width, thick)) & (kg <= self.most_kg))
        )

    def _bars(self, c: Choices) -> BoolArray:
        """Tell of which the longest bar gets in: a stud, or a rail."""
        bounds, given = self.bounds, self.bounds.given
        section, row, width, index = _alike(c.section, c.row, c.width)
        bars = [given["sections"][n] for n in section.tolist()]
        classes = [given["timber_classes"][bar["strength_class"]] for bar in bars]
        narrow, deep = (
            np.array([bar[name] for bar in bars], dtype=np.float64)
            for name in ("width_mm", "depth_mm")
        )
        rho = np.array([one["rho_mean_kg_m3"] for one in classes], dtype=np.float64)
        rails = bounds.widths_mm[width].astype(float)
        long = np.maximum(bounds.grid.boards_mm[row] - 2 * narrow, rails)
        light = rho * narrow * deep * 1e-9 * long <= self.most_kg
        return np.asarray(light & gets_in(self.access, (long, deep, narrow)))[index]


def _alike(*columns: npt.NDArray[np.int64]) -> tuple[npt.NDArray[np.int64], ...]:
    """Return the distinct rows of some columns, and each one's number among them."""
    unique, index = np.unique(np.stack(columns), axis=1, return_inverse=True)
    return (*unique, index.ravel())
