"""How a wall is fixed: the cheapest number of mounts and distance of screws that hold."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Fixing, Model

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Holds = Callable[[Entries, Fixing], BoolArray]


def cheapest_fixing(model: Model, entries: Entries, holds: Holds) -> Fixing:
    """Return each single wall's cheapest number of mounts and screws that hold, 0 for none.

    Closer screws never raise a use, so a number of mounts that fails with the closest fails with
    all. Of two that cost the same the one with fewer mounts, then wider screws.
    """
    space = model.space
    closest = space.screws_mm[-1]
    sturdy = _sturdy(model, entries, holds)
    made = Fixing.of(0, 0, len(entries))
    left = np.flatnonzero(sturdy.any(axis=0))
    if not len(left):
        return made
    options = [(m, screw) for m in range(len(sturdy)) for screw in space.screws_mm]
    for rank in _ranked(model, entries.take(left), options):
        number, screw = np.array(options)[rank].T
        fixing = Fixing(np.array(space.mount_counts)[number], screw)
        tried = np.flatnonzero((made.mounts[left] == 0) & sturdy[number, left])
        part, rows = fixing.take(tried), left[tried]
        good = part.screw_mm == closest
        unsure = np.flatnonzero(~good)
        good[unsure] = holds(entries.take(rows[unsure]), part.take(unsure))
        made.mounts[rows[good]] = part.mounts[good]
        made.screw_mm[rows[good]] = part.screw_mm[good]
    return made


def _sturdy(model: Model, entries: Entries, holds: Holds) -> BoolArray:
    """Tell which numbers of mounts hold with the closest screws, [number, entry]."""
    space = model.space
    sturdy = np.zeros((len(space.mount_counts), len(entries)), dtype=np.bool_)
    studs = model.sheetings.studs[entries.sheeting]
    for number, mounts in enumerate(space.mount_counts):
        rows = np.flatnonzero(studs >= mounts)
        fixing = Fixing.of(mounts, space.screws_mm[-1], len(rows))
        sturdy[number, rows] = holds(entries.take(rows), fixing)
    return sturdy


def _ranked(model: Model, entries: Entries, options: list[tuple[int, int]]) -> IntArray:
    """Return the options' numbers by their cost, cheapest first, [rank, entry]."""
    family, space = model.sheetings.family[entries.sheeting], model.space
    cents = [
        model.pricer.cost_cents(
            family,
            entries.section,
            entries.mount,
            model.counts(entries, Fixing.of(space.mount_counts[number], screw, len(entries))),
        )
        for number, screw in options
    ]
    return np.argsort(np.stack(cents), axis=0, kind="stable")
