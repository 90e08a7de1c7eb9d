"""How a wall is fixed: the cheapest number of mounts, distance of screws and tie that hold."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.front import NO_COST
from steepwright.optimise.model import Model

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Holds = Callable[..., BoolArray]


def cheapest_fixing(model: Model, entries: Entries, holds: Holds) -> Entries:
    """Return the entries that some fixing holds at the box's least corner, with the cheapest.

    No use falls with a length, so a fixing that fails there fails in all of the box; and no price
    does, so those that hold in the box cost no less than the one returned. Closer screws never
    raise a use: a number of mounts and a tie that fail with the closest fail with all, and only
    what costs less than the closest need be tried, by those rules alone that screws change. Of two
    that cost the same the one without a tie or with the earlier one is taken, then with fewer
    mounts, then wider screws.
    """
    least = np.full(len(entries), NO_COST, dtype=np.int64)
    best = np.zeros(len(entries), dtype=np.int64)
    per = len(model.space.fixings) // len(model.space.ties)
    for first in range(0, len(model.space.fixings), per):
        rows = np.arange(len(entries))
        if first:
            floor = small_cents(model, entries.with_fixing(np.full(len(entries), first)))
            rows = np.flatnonzero(floor < least)
        cents, fixing = _cheapest_of(model, entries.take(rows), holds, range(first, first + per))
        better = cents < least[rows]
        least[rows[better]], best[rows[better]] = cents[better], fixing[better]
    return entries.with_fixing(best).take(least < NO_COST)


def any_holds(model: Model, entries: Entries, strongest: Holds) -> BoolArray:
    """Tell which entries some tie, or none, holds; `strongest` looks at one with the best else.

    What fails by a rule that no tie eases is looked at once.
    """
    ties = range(len(model.space.ties))
    if len(ties) == 1:
        return strongest(entries, tie=0)
    holds = np.zeros(len(entries), dtype=np.bool_)
    firm = np.flatnonzero(strongest(entries, tie=0, part="firm"))
    for tie in ties:
        rest = firm[~holds[firm]]
        holds[rest] = strongest(entries.take(rest), tie=tie, part="eased")
    return holds


def _cheapest_of(
    model: Model, entries: Entries, holds: Holds, some: range
) -> tuple[IntArray, IntArray]:
    """Return the cheapest of the fixings with one tie that holds: its cost, `NO_COST` for none."""
    space, count = model.space, len(some)
    rows, fixing = np.divmod(np.arange(len(entries) * count), count)
    every = entries.take(rows).with_fixing(fixing + some.start)
    how, shape = model.fixing(every), (len(entries), len(space.mount_counts), len(space.screws_mm))
    cents = small_cents(model, every).reshape(shape)
    closest = (how.screw_mm == space.screws_mm[-1]).reshape(shape)
    makeable = (how.mounts <= model.sheetings.studs[every.sheeting]).reshape(shape)
    good = _held(holds, every, makeable & closest)
    enough = np.where(good, cents, NO_COST).min(axis=(1, 2), keepdims=True)
    wider = good.any(axis=2, keepdims=True) & ~closest & (cents <= enough)
    good |= _held(partial(holds, part="screwed"), every, wider)
    dear = np.where(good, cents, NO_COST).reshape(-1, count)
    return dear.min(axis=1), dear.argmin(axis=1) + some.start


def _held(holds: Holds, entries: Entries, tried: BoolArray) -> BoolArray:
    held = np.zeros(len(entries), dtype=np.bool_)
    held[tried.ravel()] = holds(entries.take(tried.ravel()))
    return held.reshape(tried.shape)


def small_cents(model: Model, entries: Entries) -> IntArray:
    """Return what screws, mounts and other small parts of each entry's corner cost [cents]."""
    family = model.sheetings.family[entries.sheeting]
    return model.pricer.cost_cents(family, entries.section, entries.mount, model.counts(entries))
