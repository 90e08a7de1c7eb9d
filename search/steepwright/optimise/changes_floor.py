"""What walls cost at least, over a whole grid of boxes at once."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import Rates, area_bound_cents, bars_length_mm
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model
from steepwright.pricing.hardware import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]
Boxes = tuple[IntArray, IntArray]
"""Rows and columns of the least corners."""


def floor_cents(model: Model, rates: Rates, number: IntArray, count: int, size: int) -> IntArray:
    """Return what walls cost at least [cents], by number and box of `size` cells a side.

    Without the price of the mounts, of a frame below them and of pads. It is the least of what
    `box_table_cents` has: sheets with their screws and bars with theirs are added up, so that the
    cheapest bars of a frame are looked for once for all sheets on it.

    Parameters
    ----------
    number
        Of each sheeting: what the floors are told apart by, such as its thickness; below `count`.
    """
    rows, columns = (-(-length // size) for length in model.grid)
    row, column = (size * at.ravel() for at in np.indices((rows, columns)))
    boxes, every, family = (row, column), np.arange(len(number)), model.sheetings.family
    first, kind = rates.kinds
    frames, frame = np.unique(model.sheetings.frame[first], return_inverse=True)
    entries = _over(first, np.zeros_like(first), boxes)
    screws = _small_cents(model, np.repeat(family[first], len(row)), entries)
    screws -= _small_cents(model, np.repeat(family[frames[frame]], len(row)), entries)
    rest = screws.reshape(-1, len(row)) + _framed_cents(model, rates, frames, boxes)[frame]
    sheets = area_bound_cents(model, rates, _over(every, np.zeros_like(every), boxes))
    floor = np.full((count, len(row)), np.iinfo(np.int64).max // 4)
    np.minimum.at(floor, number, sheets.reshape(-1, len(row)) + rest[kind])
    return floor.reshape(count, rows, columns)


def _framed_cents(model: Model, rates: Rates, frames: IntArray, boxes: Boxes) -> IntArray:
    """Return what bars and small parts cost at least, by frame (its first sheeting) and box."""
    sections, market = len(model.space.market.sections), model.space.market
    shape = len(frames), sections, len(boxes[0])
    pairs = np.repeat(frames, sections), np.tile(np.arange(sections), len(frames))
    entries = _over(*pairs, boxes)
    small = _small_cents(model, model.sheetings.family[entries.sheeting], entries)
    bars = bars_length_mm(model, entries)[:, None] * rates.bar[entries.section]
    whole = np.minimum(np.ceil(bars - 1e-6), UNAVAILABLE_CENTS).astype(np.int64)
    cents = np.minimum(whole[:, 0], whole[:, 1] + market.delivery_cents) + small
    return np.asarray(cents.reshape(shape).min(axis=1))


def _small_cents(model: Model, family: IntArray, entries: Entries) -> IntArray:
    """Return what small parts but the mounts cost with the sheets of a family."""
    cents = model.pricer.cost_cents(family, entries.section, entries.mount, model.counts(entries))
    return cents - model.space.mount_counts[0] * int(model.pricer.mount_cents[0])


def _over(sheeting: IntArray, section: IntArray, boxes: Boxes) -> Entries:
    """Return entries of some sheetings and sections, each in every box."""
    count, pairs = len(boxes[0]), len(sheeting)
    flat = np.zeros(pairs * count, dtype=np.int64)
    made = np.repeat(sheeting, count), np.repeat(section, count)
    corners = np.tile(boxes[0], pairs), np.tile(boxes[1], pairs)
    return Entries(flat, flat, *made, flat, *corners, flat, flat, flat, flat)
