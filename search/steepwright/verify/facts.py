"""The solved bounds that the file states: each is proved here before it is used."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.bars import cost_at_least
from steepwright.verify.bounds import Bounds
from steepwright.verify.choices import LARGEST, Choices, Size
from steepwright.verify.lookup import looked_up
from steepwright.verify.verdict import Verdict

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]


def sheets_stated(
    bounds: Bounds, level: Document, size: Size, c: Choices, verdict: Verdict
) -> IntArray:
    """Return what the sheets of each choice cost at least [cents], 0 where nothing is said.

    A fact holds from a least corner to the end of its box, for all sheetings that lie alike.
    """
    known: dict[tuple[int, ...], int] = {}
    for row, column, width, sheeting, cents in level["sheets"]:
        own = bounds.solved_sheets(sheeting, (row, column, width), size)
        if own < cents:
            verdict.wrong(
                "certificate-bound",
                f"sheets of choice {sheeting} over the box at {row}, {column}, {width}",
                cents,
                f"at most {own}",
            )
        known[row, column, width, sheeting] = min(own, cents)
    return looked_up(known, (c.row, c.column, c.width, bounds.layout[c.sheeting]))


class BarsStated:
    """What the file says of bars, from the largest boxes down.

    No piece of a frame gets shorter, and none is spared, when board, kicker or width grow. So a
    fact holds at all corners, under the same one of the largest boxes, that are nowhere less.
    """

    def __init__(self, bounds: Bounds) -> None:
        self._bounds = bounds
        self._proved: dict[tuple[int, ...], list[tuple[int, int, int, int]]] = {}

    def read(self, level: Document, verdict: Verdict) -> None:
        """Prove what a level says."""
        for *place, cents, worths in level["bars"]:
            need, offers = self._bounds.needed_bars(tuple(place))
            if not cost_at_least(need, offers, tuple(worths), cents):
                verdict.wrong(
                    "certificate-bound", f"bars of {place} are not shown to cost this", cents
                )
                continue
            row, column, width, *made = place
            under = *made, row // LARGEST, column // LARGEST
            self._proved.setdefault(under, []).append((row, column, width, cents))

    def cents(self, c: Choices) -> IntArray:
        """Return what the bars of each choice cost at least [cents], 0 where nothing is said."""
        frame = self._bounds.frame[c.sheeting]
        keys = np.stack([frame, c.section, c.delivered, c.row, c.column, c.width])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        least = [self._least(*key) for key in unique.T.tolist()]
        return np.array(least, dtype=np.int64)[index.ravel()]

    def _least(
        self, frame: int, section: int, delivered: int, row: int, column: int, width: int
    ) -> int:
        under = frame, section, delivered, row // LARGEST, column // LARGEST
        holds = (
            cents
            for at_row, at_column, at_width, cents in self._proved.get(under, ())
            if at_row <= row and at_column <= column and at_width <= width
        )
        return max(holds, default=0)
