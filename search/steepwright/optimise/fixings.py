"""How a wall is fixed: the cheapest number of mounts and distance of screws that hold."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.front import NO_COST
from steepwright.optimise.model import Model

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Holds = Callable[[Entries], BoolArray]


def cheapest_fixing(model: Model, entries: Entries, holds: Holds) -> Entries:
    """Return the entries that some fixing holds at the box's least corner, with the cheapest.

    No use falls with a length, so a fixing that fails there fails in all of the box; and no price
    does, so those that hold in the box cost no less than the one returned. Closer screws never
    raise a use: a number of mounts that fails with the closest fails with all, and only what
    costs less than the closest need be tried. Of two that cost the same the one with fewer mounts
    is taken, then wider screws.
    """
    space, count = model.space, len(model.space.fixings)
    rows, fixing = np.divmod(np.arange(len(entries) * count), count)
    every = entries.take(rows).with_fixing(fixing)
    how, shape = model.fixing(every), (len(entries), len(space.mount_counts), len(space.screws_mm))
    cents = small_cents(model, every).reshape(shape)
    closest = (how.screw_mm == space.screws_mm[-1]).reshape(shape)
    makeable = (how.mounts <= model.sheetings.studs[every.sheeting]).reshape(shape)
    good = _held(holds, every, makeable & closest)
    enough = np.where(good, cents, NO_COST).min(axis=(1, 2), keepdims=True)
    good |= _held(holds, every, good.any(axis=2, keepdims=True) & ~closest & (cents <= enough))
    best = np.where(good, cents, NO_COST).reshape(-1, count).argmin(axis=1)
    return entries.with_fixing(best).take(np.asarray(good.any(axis=(1, 2))))


def _held(holds: Holds, entries: Entries, tried: BoolArray) -> BoolArray:
    held = np.zeros(len(entries), dtype=np.bool_)
    held[tried.ravel()] = holds(entries.take(tried.ravel()))
    return held.reshape(tried.shape)


def small_cents(model: Model, entries: Entries) -> IntArray:
    """Return what screws, mounts and other small parts of each entry's corner cost [cents]."""
    family = model.sheetings.family[entries.sheeting]
    return model.pricer.cost_cents(family, entries.section, entries.mount, model.counts(entries))
