"""What a stopped search did not get to: boxes of lengths that a proof leaves open, and says so."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt

from steepwright.optimise.branch import SOLVE_FROM
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.units import Unit, units_of

BoolArray = npt.NDArray[np.bool_]

OpenBox = tuple[int, int, int, int]
"""Cells along a side, number of the beam, and grid indices of the least corner."""


def open_boxes(model: Model, open_units: Iterable[Unit] | None) -> tuple[OpenBox, ...]:
    """Return the boxes per beam that open units lie in; None stands for all units.

    A largest box all of whose units are open is told as one. A beam's box is open when it is so
    towards either side.
    """
    beams = [beam for beam, _ in model.space.places]
    every = {box for unit in units_of(model) if not unit.sowing for box in _boxes(beams, unit)}
    left = None if open_units is None else [_boxes(beams, unit) for unit in open_units]
    small = every if left is None else set().union(*left)
    found = set()
    for box in small:
        whole = _within(box)
        if {one for one in every if _within(one) == whole} <= small:
            found.add(whole)
        else:
            found.add(box)
    return tuple(sorted(found, key=lambda box: (-box[0], box[1:])))


def _boxes(beams: list[int], unit: Unit) -> set[OpenBox]:
    return {
        (SOLVE_FROM, beams[place], row, column)
        for places, row, column in unit.boxes
        for place in places
    }


def _within(box: OpenBox) -> OpenBox:
    largest, (_, beam, row, column) = BOX_SIZES[0], box
    return largest, beam, row // largest * largest, column // largest * largest


def lie_open(
    boxes: tuple[OpenBox, ...], beam: npt.NDArray[np.int64], entries: Entries, size: int
) -> BoolArray:
    """Tell which entries' boxes, of `size` cells a side, are among those left open."""
    listed = [box[1:] for box in boxes if box[0] == size]
    if not listed or not len(entries):
        return np.zeros(len(entries), dtype=np.bool_)
    columns = np.stack([beam, entries.row, entries.column], axis=1)
    unique, inverse = np.unique(columns, axis=0, return_inverse=True)
    known = set(listed)
    among = np.array([tuple(row) in known for row in unique.tolist()])
    return np.asarray(among[inverse.ravel()])
