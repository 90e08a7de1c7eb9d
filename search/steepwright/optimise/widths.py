"""Walls over ranges of widths: what holds at some width, and single widths worked out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.geometry.layout import largest_bay_mm, stud_centres
from steepwright.geometry.mounts import over_mm
from steepwright.optimise.access import comes_in, fits_vehicle, pieces_get_in
from steepwright.optimise.entries import Entries, joined
from steepwright.optimise.evaluate import cost_cents, fits_room, stance
from steepwright.optimise.exact import SheetChoice
from steepwright.optimise.fixings import small_cents
from steepwright.optimise.found import Found
from steepwright.optimise.hooks import HungOn, hook_columns, least_effects, lift_of
from steepwright.optimise.model import Model
from steepwright.optimise.walls import wall_of, workshop
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.structure import Batch, worst_use

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


def halves(entries: Entries) -> Entries:
    """Return both halves of every range of widths."""
    middle = (entries.width + entries.widest) // 2
    lower = entries.between(entries.width, middle)
    return joined([lower, entries.between(middle + 1, entries.widest)])


def parted(entries: Entries, spares: IntArray) -> Entries:
    """Return every range of widths divided: at the first that may spare a saw cut, or halved.

    Such a width stands alone, for those on both sides of it cost more cuts. `spares` tells it by
    sheeting and width (`Rates.spares`).
    """
    spare = spares[entries.sheeting, entries.width]
    inside = spare <= entries.widest
    rest, spare, entries = entries.take(~inside), spare[inside], entries.take(inside)
    below, above = spare > entries.width, spare < entries.widest
    lower, upper = entries.take(below), entries.take(above)
    parts = [
        halves(rest),
        lower.between(lower.width, spare[below] - 1),
        entries.between(spare, spare),
        upper.between(spare[above] + 1, upper.widest),
    ]
    return joined(parts)


def hung_between(model: Model, entries: Entries, batch: Batch) -> Batch:
    """Return structural candidates at each range's least width, hung as well as at any of it."""
    s, last = model.sheetings, model.space.searched - 1
    whole = (entries.width == s.narrowest[entries.sheeting]) & (entries.widest == last)
    if whole.all():
        return batch
    space, room = model.space, model.space.market.room
    above = np.maximum(batch.lift_beam, 0)
    stud, studs = np.unique(model.section_mm[entries.section], return_inverse=True)
    made_at = s.frame[entries.sheeting], studs, entries.width, entries.widest
    columns = (*made_at, entries.place, above, batch.mount_count)
    sizes = tuple(int(column.max()) + 1 for column in columns)
    keys, which = np.unique(np.ravel_multi_index(columns, sizes), return_inverse=True)
    hooks, lifts, bays = [], [], []
    for key in np.stack(np.unravel_index(keys, sizes)).T.tolist():
        frame, number, first, wide, place, over, mounts = key
        made, stud_mm = space.sheetings[frame], int(stud[number])
        ends = space.columns_mm(made, first), space.columns_mm(made, wide)
        centres = _centres(ends[0], made.bays, stud_mm), _centres(ends[1], made.bays, stud_mm)
        beam, facing = space.places[place]
        far = over_mm(space.market.catalog.materials.factors, stud_mm)
        on = HungOn(room.beams[beam].span_mm, facing, far)
        under = HungOn(room.beams[over].span_mm, "+x")
        hooks.append(_effects(room, on, centres, mounts))
        lifts.append(lift_of(_effects(room, under, centres, 2)))
        bays.append(largest_bay_mm(ends[0], made.bays, stud_mm))
    rows = np.array(hooks)[which].T, np.array(lifts)[which].T
    hung: dict[str, Any] = {**hook_columns(*rows)}
    return replace(batch, **hung, bay_mm=np.array(bays)[which])


_centres = lru_cache(maxsize=65536)(stud_centres)
_effects = lru_cache(maxsize=65536)(least_effects)


def settled(
    model: Model, single: Entries, worth_cents: Callable[[int], int]
) -> tuple[int, int, Found] | None:
    """Return cost [cents], fall space [mm] and design of one width, None if it's of no use.

    Parameters
    ----------
    single
        One row, of one width.
    worth_cents
        Below which cost [cents] a wall with so much fall space [mm] is of use.
    """
    sheets = _sheets(model, single)
    if sheets is None:
        return None
    every = np.arange(len(model.space.fixings))
    ways = single.take(np.zeros_like(every)).with_fixing(every)
    cents = small_cents(model, ways)
    first = _found(model, single, sheets, 0)
    shop, wall = workshop(model), wall_of(model, first)
    gets_in = comes_in(shop.space, wall) and (wall.delivered or fits_vehicle(shop.space, wall))
    if not gets_in or not fits_room(shop, wall):
        return None
    fall = stance(shop, wall).fall_space_mm
    rest = cost_cents(shop, wall) - int(cents[0])
    useful = rest + cents < min(worth_cents(fall), UNAVAILABLE_CENTS)
    ranked = np.argsort(cents, kind="stable")
    ranked = ranked[useful[ranked]]
    good = ranked[_hold(model, ways.take(ranked))]
    if not len(good):
        return None
    best = int(good[0])
    return rest + int(cents[best]), fall, _found(model, single, sheets, best)


def _hold(model: Model, ways: Entries) -> BoolArray:
    """Tell which fixed walls of single widths hold."""
    made = model.fixing(ways)
    kept = np.flatnonzero(made.mounts <= model.sheetings.studs[ways.sheeting])
    found = np.zeros(len(ways), dtype=np.bool_)
    if len(kept):
        ways = ways.take(kept)
        batch = hung_between(model, ways, model.batch(ways, model.fixing(ways)))
        found[kept] = worst_use(model.tables, batch) <= 1
    return found


def _sheets(model: Model, single: Entries) -> SheetChoice | None:
    space, sheeting = model.space, int(single.sheeting[0])
    made, width = space.sheetings[sheeting], int(single.width[0])
    lengths = _lengths(model, single)
    strip = [(max(space.columns_mm(made, width)), lengths[1])]
    families = (made.family, *model.kickers[sheeting])
    strips = tuple(f for f in families if pieces_get_in(space, f, strip)[0])
    return model.exact.sheets(made, strips, lengths)


def _lengths(model: Model, single: Entries) -> tuple[int, int, int]:
    space, row, column = model.space, int(single.row[0]), int(single.column[0])
    width_mm = int(space.widths_mm[single.width[0]])
    return int(space.boards_mm[row]), int(space.kickers_mm[column]), width_mm


def _found(model: Model, single: Entries, sheets: SheetChoice, fixing: int) -> Found:
    place, mount, sheeting, section = (
        int(column[0]) for column in (single.place, single.mount, single.sheeting, single.section)
    )
    mounts, screw, tie = model.space.fixings[fixing]
    family = place, mount, mounts, screw, tie, sheeting, section, bool(single.delivered[0])
    return Found(*family, *_lengths(model, single), sheets)
