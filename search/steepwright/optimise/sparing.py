"""Widths at which a wall may spare saw cuts, because its pieces fill a sheet's side.

A guess that the search divides its ranges of widths by. Nothing is concluded from it: a piece
turned beside another kind of piece may fill a side too, and the bounds tell.
"""

from __future__ import annotations

from itertools import combinations_with_replacement

import numpy as np
import numpy.typing as npt

from steepwright.optimise.space import Sheeting, Space

IntArray = npt.NDArray[np.int64]

ABREAST = 3
"""So many pieces side by side are looked at."""


def spares_from(space: Space, kickers: tuple[tuple[int, ...], ...]) -> IntArray:
    """Return the first of the widths searched that may spare a cut, from each width on.

    By sheeting and number of width; behind the last there is none, which the number after it says.
    `kickers` holds per sheeting the families other than its own that may make the kicker.
    """
    stocks, none = space.market.sheet_stock, space.searched
    filled: dict[tuple[int, int], list[set[int]]] = {}
    known: dict[tuple[int, int, int], IntArray] = {}
    for sheeting, others in zip(space.sheetings, kickers, strict=True):
        split, family = sheeting.split, sheeting.family
        columns = split.columns, split.full_column_mm
        if columns not in filled:
            filled[columns] = _filled_mm(space, sheeting)
        if (family, *columns) not in known:
            own = [sheet for f in (family, *others) for sheet in stocks[f]]
            sides = {side for sheet in own for side in (sheet.length_mm, sheet.width_mm)}
            spare = [bool(sides & some) for some in filled[columns]]
            first = np.where(spare, np.arange(none), none)
            known[family, *columns] = np.minimum.accumulate(first[::-1])[::-1]
    rows = [known[s.family, s.split.columns, s.split.full_column_mm] for s in space.sheetings]
    return np.array(rows, dtype=np.int64).reshape(len(rows), none)


def _filled_mm(space: Space, sheeting: Sheeting) -> list[set[int]]:
    """Return for each width searched which lengths [mm] some columns side by side fill."""
    kerf, least = space.market.kerf_mm, space.least_width(sheeting)
    filled: list[set[int]] = [set() for _ in range(least)]
    for width in range(least, space.searched):
        columns = sorted(set(space.columns_mm(sheeting, width)))
        rows = (r for n in range(1, ABREAST + 1) for r in combinations_with_replacement(columns, n))
        filled.append({sum(row) + kerf * (len(row) - 1) for row in rows})
    return filled
