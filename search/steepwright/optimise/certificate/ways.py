"""What both ends of a proof ask of walls that are still open: facings, room, solved bounds."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.optimise.branch import fits_with_depth
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]


def facings(model: Model, entries: Entries) -> list[Entries]:
    """Return the entries facing each way: at each place that lies on their beams."""
    places = model.space.places
    beams = np.array([beam for beam, _ in places], dtype=np.int64)
    ways = sorted({facing for _, facing in places})
    tables = [
        np.array([places.index((b, f)) for b in range(int(beams.max()) + 1)], dtype=np.int64)
        for f in ways
    ]
    return [entries.on(table[beams[entries.place]]) for table in tables]


def no_room(model: Model, entries: Entries, size: int) -> BoolArray:
    """Tell where no wall fits once folding up, or the frame's depth, is looked at."""
    where = model.mounting(entries), entries.row // size, entries.column // size
    fits = model.reach.angle_mdeg[size][where] >= 0
    if size == 1:
        for place in np.unique(entries.place[fits]):
            rows = np.flatnonzero(fits & (entries.place == place))
            fits[rows] = fits_with_depth(model, entries.take(rows))
    return np.asarray(~fits)


def solved_cents(costs: Costs, entries: Entries, size: int) -> tuple[IntArray, IntArray]:
    """Return the best bounds there are of sheets and bars over each entry's box."""
    s = costs.model.sheetings
    columns = (
        s.layout[entries.sheeting],
        s.frame[entries.sheeting],
        entries.section,
        entries.delivered,
        entries.row,
        entries.column,
    )
    keys = np.stack(columns)
    every, index = np.unique(keys, axis=1, return_inverse=True)
    found = []
    for layout, frame, section, delivered, row, column in every.T.tolist():
        bars = costs.bars_solved(frame, section, delivered, row, column)
        found.append((costs.sheets_solved(layout, row, column, size), bars))
    cents = np.array(found, dtype=np.int64).reshape(-1, 2)[index.ravel()]
    return cents[:, 0], cents[:, 1]
