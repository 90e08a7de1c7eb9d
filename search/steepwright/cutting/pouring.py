"""Short pieces as a liquid: two ways to measure them, each a relaxation of really fitting them.

Give every short piece a measure >= 0, and every use of a bar the largest measure of short pieces
that fits it. Bars that hold all short pieces then take up at least their total measure, so
asking only for that loses no plan.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from steepwright.cutting.barlist import BarList, maximal
from steepwright.cutting.dual import SHIFT, IntArray, maximise, piece_prices

WORTH_SHIFT = 4
"""Measures by worth are in units of 2**-WORTH_SHIFT cent."""


class Pour(NamedTuple):
    """The measure of all short pieces, and what each use of a bar can take of it."""

    total: int
    amounts: tuple[int, ...]


def by_length(bars: BarList) -> Pour:
    """Measure short pieces by their length [mm]."""
    return Pour(bars.short_mm, tuple(use.room for use in bars.uses))


def by_worth(bars: BarList) -> Pour:
    """Measure short pieces by their price in the linear program over all patterns.

    The relaxation then is at least as good, but for rounding, as that program's bound.
    """
    needed = tuple(t.needed for t in bars.short)
    fills = {room: maximal(bars.short, needed, room) for room in {u.room for u in bars.uses}}
    rows, cents = [], []
    for use in bars.uses:
        limits = tuple(-(use.offer == i) for i in bars.capped)
        for _, counts in fills[use.room]:
            rows.append((*use.pieces, *limits, *counts))
            cents.append(use.price)
    matrix: IntArray = np.array(rows, dtype=np.int64)
    price = np.array(cents, dtype=np.int64)
    gains = np.array(
        [
            *(t.needed for t in bars.long),
            *(-(bars.offers[i].limit or 0) for i in bars.capped),
            *needed,
        ]
    )
    proposal, _ = maximise(matrix, price, gains)
    worths = piece_prices(matrix, price, proposal)[len(bars.long) + len(bars.capped) :]
    measure = (worths >> SHIFT - WORTH_SHIFT).tolist()
    most = {
        room: max(sum(n * m for n, m in zip(counts, measure, strict=True)) for _, counts in ways)
        for room, ways in fills.items()
    }
    total = sum(n * m for n, m in zip(needed, measure, strict=True))
    return Pour(total, tuple(most[use.room] for use in bars.uses))
