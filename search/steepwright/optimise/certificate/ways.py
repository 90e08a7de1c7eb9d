"""What both ends of a proof ask of walls that are still open: facings, room, solved bounds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from steepwright.geometry.layout import largest_bay_mm
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.facts import bar_columns, numbered, sheet_columns
from steepwright.optimise.depth import fits_with_depth
from steepwright.optimise.entries import Entries
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.model import Model
from steepwright.optimise.space import Space
from steepwright.structure import Batch

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
    """Tell where no wall fits once folding up, or the frame's depth, is looked at.

    A wider wall takes the room of a narrower one, and more: the least width of each is asked for.
    """
    where = model.mounting(entries), entries.row // size, entries.column // size
    fits = model.reach.angle_mdeg[size][where] >= 0
    if size == 1:
        widths_mm = model.space.widths_mm
        keys = np.stack([entries.place, entries.width])
        for place, width in np.unique(keys[:, fits], axis=1).T.tolist():
            rows = np.flatnonzero(fits & (entries.place == place) & (entries.width == width))
            fits[rows] = fits_with_depth(model, entries.take(rows), int(widths_mm[width]))
    return np.asarray(~fits)


def candidates(model: Model, entries: Entries, fixing: Fixing | None, size: int = 1) -> Batch:
    """Return the structural candidates at each box's least corner and least width.

    For the checks that do not ask where mounts hang along their beam: no other use falls when the
    wall gets wider, for its bays do.
    """
    space, stud = model.space, model.section_mm[entries.section]
    keys = np.stack([model.sheetings.frame[entries.sheeting], stud, entries.width])
    every, index = np.unique(keys, axis=1, return_inverse=True)
    bays = [_bay_mm(space, *key) for key in every.T.tolist()]
    batch = model.batch(entries, fixing, size)
    return replace(batch, bay_mm=np.array(bays, dtype=np.float64)[index.ravel()])


def _bay_mm(space: Space, frame: int, stud_mm: int, width: int) -> float:
    made = space.sheetings[frame]
    return largest_bay_mm(space.columns_mm(made, width), made.bays, stud_mm)


def solved_cents(
    costs: Costs, entries: Entries, size: int, widths: int
) -> tuple[IntArray, IntArray]:
    """Return the best bounds there are of sheets and bars over each entry's box."""
    keys, of = numbered(sheet_columns(costs, entries))
    sheets = [costs.sheets_solved(key, size, widths) for key in keys]
    frames, made_of = numbered(bar_columns(costs, entries))
    bars = [costs.bars_solved(*key) for key in frames]
    return np.array(sheets, dtype=np.int64)[of], np.array(bars, dtype=np.int64)[made_of]
