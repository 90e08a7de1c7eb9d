"""Which boxes of walls may still be of use, where pads are on the bill.

A steeper wall reaches further and has more floor to pad, so that the least cost of pads in a box
and its largest angle belong to different walls; its largest fall space, too. What a wall may cost
without its pads is therefore told of every grid point, and of a box the most of these.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from steepwright.optimise.entries import Entries
from steepwright.optimise.found import Found
from steepwright.optimise.front import Front
from steepwright.optimise.model import Model
from steepwright.pricing.hardware import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

NOTHING = -UNAVAILABLE_CENTS
"""What walls that don't fit may cost: less than any bound without its pads."""


def mdeg_to_sow(model: Model, mounting: IntArray, corner: tuple[int, int], size: int) -> IntArray:
    """Return the angles [1/1000 degree] in a box, below 0 where no wall is worth looking at first.

    With pads on the bill those with the least pads of each mounting are, for they cost most of all.
    """
    row, column = corner
    at = mounting, slice(row, row + size), slice(column, column + size)
    angle = model.reach.angle_mdeg[1][at].astype(np.int64)
    if not model.pads.cents:
        return angle
    pads = np.where(angle >= 0, model.pads.cents[1][at], np.iinfo(np.int64).max)
    return np.where(pads == pads.min(axis=(1, 2), keepdims=True), angle, NOTHING)


def may_pay(model: Model, front: Front[Found], entries: Entries, size: int) -> BoolArray:
    """Tell which entries' bounds leave some wall of their box below what it may cost.

    A wall costs at least its box's bound, less the least cost of pads there, and its own pads.
    """
    number, down, right = model.mounting(entries), entries.row // size, entries.column // size
    least = np.asarray(model.pads.least(number, entries, size))
    boxes = model.pads.cents[size].shape
    keys = np.ravel_multi_index((number, down, right), boxes)
    every, which = np.unique(keys, return_inverse=True)
    worth = without_pads_cents(model, front, np.unravel_index(every, boxes), size)
    return np.asarray(entries.bound_cents - least < worth[which])


def without_pads_cents(
    model: Model, front: Front[Found], boxes: tuple[IntArray, ...], size: int
) -> IntArray:
    """Return below which cost [cents], pads aside, some wall of each box is of use.

    Parameters
    ----------
    boxes
        Mounting, and number of the box down and to the right.
    """
    number, down, right = boxes
    cells = np.arange(size)
    row = np.minimum(down[:, None] * size + cells, model.grid[0] - 1)
    column = np.minimum(right[:, None] * size + cells, model.grid[1] - 1)
    at = number[:, None, None], row[:, :, None], column[:, None, :]
    angle = model.reach.angle_mdeg[1][at].astype(np.int64)
    most = np.full(len(number), NOTHING, dtype=np.int64)
    for fall, pads in _ways(model, at):
        worth = np.minimum(front.worth_below_cents(angle, fall), UNAVAILABLE_CENTS)
        worth = np.where((angle >= 0) & (fall >= 0), worth - pads, NOTHING)
        most = np.maximum(most, worth.max(axis=(1, 2)))
    return most


def _ways(model: Model, at: tuple[IntArray, ...]) -> Iterator[tuple[IntArray, IntArray]]:
    """Give fall space [mm] and least cost of pads [cents] at some cells: of widths alike in both.

    Where more stands in front of a wider wall it has less fall space, and less to pad. Where it has
    no less to pad than narrower ones these are of more use.
    """
    if model.pads.by_width is None:
        yield model.reach.fall_mm[1][at].astype(np.int64), model.pads.cents[1][at]
        return
    for one in model.pads.cheaper:
        yield one.fall_mm[at].astype(np.int64), one.least[one.floor[at]]
