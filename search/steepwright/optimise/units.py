"""The search divided into units of work, in a fixed order.

A unit is one box of lengths, at all places: they share its cut lists. Boxes of which little fits
the room go together. A unit starts from the front that the units at least `LAG` before it found, so
what it finds depends neither on who works on it nor on when; up to `LAG` units may be worked on at
the same time (`first_told`). One that takes long is done in parts (`PART_S`).
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import Rates, box_table_cents
from steepwright.optimise.branch import SOLVE_FROM, Branch, Open, Tally
from steepwright.optimise.branch_wide import WideBranch
from steepwright.optimise.entries import steepest_first
from steepwright.optimise.found import Found
from steepwright.optimise.front import NO_COST, Front, Score
from steepwright.optimise.model import BOX_SIZES, Model

IntArray = npt.NDArray[np.int64]

Member = tuple[Score, Found]
"""A design of the front and its score."""


def rank_of(found: Found) -> tuple[int, Found]:
    """Return what decides between two designs of equal score: the narrower one is kept."""
    return found.width_mm, found


LAG = 4
"""More of it keeps more workers busy, less of it lets a unit profit from what was just found."""

WIDE_LAG = 8
"""The same for units of wider walls: hardly any of them finds something."""


LEAST_FULL = 0.25
"""Boxes go together until what fits the room of them makes up so much of a whole box."""


class Box(NamedTuple):
    """Some places in the box at a least corner."""

    places: tuple[int, ...]
    row: int
    column: int


class Unit(NamedTuple):
    """Some boxes; `sowing` looks at the one's steepest walls only.

    `wide` looks at the walls that are wider than they must be, not at those of the least width.
    """

    boxes: tuple[Box, ...]
    sowing: bool
    wide: bool = False


PART_S = 0.2
"""A unit done elsewhere that has taken so long [s] is left, for whoever is next to go on with it.

A step is never left half done. What a unit finds doesn't depend on where it is left. Workers forked
here do it whole: they know its cut lists, which another would have to find again.
"""

FEW = 32
"""So few entries are not left: whoever went on with them would be done at once."""


@dataclass(frozen=True, slots=True)
class Harvest:
    """What a unit found that it wasn't told of, how much it looked at, and what it has left."""

    members: tuple[Member, ...]
    tally: Tally
    left: tuple[Open, ...] = ()

    def then(self, more: Harvest) -> Harvest:
        """Return what the unit found with what going on with it gave."""
        best: Front[Found] = Front.of(self.members + more.members, rank_of)
        return Harvest(tuple(best.sorted()), self.tally.plus(more.tally), more.left)


def units_of(model: Model) -> tuple[Unit, ...]:
    """Return the units that together search the whole space, in their order.

    First the steepest walls of the largest boxes for a first front, place by place, those with most
    fall space first: what a roomy place offers, a tight one can't beat. Then all boxes, and all
    once more for wider walls, nearly all of which are ruled out by then. The longest boards come
    first. What fits the room nowhere is left out.
    """
    sown = _boxes(model, BOX_SIZES[0])
    units = [Unit((box._replace(places=(n,)),), True) for box in sown for n in box.places]
    boxes = tuple(_together(model, _boxes(model, SOLVE_FROM)))
    for wide in (False,) if model.wider is None else (False, True):
        units += [Unit(some, False, wide) for some in boxes]
    return tuple(units)


def _boxes(model: Model, size: int) -> Iterator[Box]:
    """Give the boxes of a size, and the places where some wall in it fits, the roomy ones first."""
    reach = model.reach
    for row, column in steepest_first(model.grid, size):
        fall = reach.fall_mm[size][reach.index, row // size, column // size]
        most = fall.max(axis=(1, 2)).tolist()
        roomy = sorted(range(len(most)), key=lambda place: (-most[place], place))
        places = tuple(place for place in roomy if most[place] >= 0)
        if places:
            yield Box(places, row, column)


def _together(model: Model, boxes: Iterable[Box]) -> Iterator[tuple[Box, ...]]:
    """Give boxes of `SOLVE_FROM` cells a side by ones, but those that are hardly full together."""
    some: tuple[Box, ...] = ()
    full = 0.0
    for box in boxes:
        some += (box,)
        full += _full(model, box)
        if full >= LEAST_FULL:
            yield some
            some, full = (), 0.0
    if some:
        yield some


def _full(model: Model, box: Box) -> float:
    """Return what part of a box fits the room, of all its lengths and sheets at its places."""
    reach = model.reach
    rows, columns = (slice(at, at + SOLVE_FROM) for at in (box.row, box.column))
    angle = reach.angle_mdeg[1][reach.index[list(box.places)], rows, columns]
    return float(np.mean(angle >= 0))


def first_told(units: tuple[Unit, ...]) -> list[int]:
    """Return of how many of the first units each one must be told before it begins.

    Those of wider walls are told of all that look at the least width.
    """
    narrow = sum(not unit.wide for unit in units)
    lags = ((WIDE_LAG, narrow) if unit.wide else (LAG, 0) for unit in units)
    return [max(index + 1 - lag, least) for index, (lag, least) in enumerate(lags)]


def work_on(
    model: Model,
    rates: Rates,
    unit: Unit,
    seeds: Iterable[Member],
    left: tuple[Open, ...] = (),
    part_s: float = math.inf,
) -> Harvest:
    """Search one unit, told of some designs, for some time [s] or little more.

    `left` is what it had left last time.
    """
    until = time.perf_counter() + part_s
    of = WideBranch if unit.wide else Branch
    branch = of(*_looked_at(model, rates, unit.wide), Front.of(seeds, rank_of), open=list(left))
    told = dict(branch.front.members)
    if not left:
        begin = branch.sow_box if unit.sowing else branch.open_box
        for places, row, column in reversed(unit.boxes):
            begin(places, (row, column))
    while branch.open:
        branch.go_on()
        if time.perf_counter() > until and branch.still_open() > FEW:
            break
    new = (member for member in branch.front.sorted() if told.get(member[0]) != member[1])
    return Harvest(tuple(new), branch.tally, tuple(branch.open))


def _looked_at(model: Model, rates: Rates, wide: bool) -> tuple[Model, Rates]:
    """Return what a unit looks at: the walls of the least width, or those of all."""
    if not wide:
        return model, rates
    assert model.wider is not None
    assert rates.wider is not None
    return model.wider, rates.wider


def least_cents(model: Model, rates: Rates, units: tuple[Unit, ...], degrees: IntArray) -> IntArray:
    """Return a bound of the cost [cents] of a unit's walls at each angle [deg] or more.

    By unit and angle; `NO_COST` where the unit has no such wall, and for units that only sow.
    """
    least_mounts = model.space.mount_counts[0]
    reach, bounds = model.reach, np.full((len(units), len(degrees)), NO_COST, dtype=np.int64)
    boxes = [(n, u.wide, box) for n, u in enumerate(units) if not u.sowing for box in u.boxes]
    for number, wide, (places, row, column) in boxes:
        table = _by_thickness(*_looked_at(model, rates, wide), row, column)
        cents = table + least_mounts * model.pricer.mount_cents[:, None]
        for place in places:
            where = reach.index[place], row // SOLVE_FROM, column // SOLVE_FROM
            steep = reach.angle_mdeg[SOLVE_FROM][where] >= 1000 * degrees[:, None, None]
            stands = cents + model.stand_cents[place].min()
            least = np.where(steep, stands, NO_COST).min(axis=(1, 2))
            bounds[number] = np.minimum(bounds[number], least)
    return bounds


def _by_thickness(model: Model, rates: Rates, row: int, column: int) -> IntArray:
    """Return the least of a box's table of bounds per thickness of sheet."""
    least = np.full(len(model.reach.thicknesses_mm), NO_COST, dtype=np.int64)
    table = box_table_cents(model, rates, row, column).min(axis=(1, 2))
    thickness = model.sheetings.thickness
    known = thickness >= 0
    np.minimum.at(least, thickness[known], table[known])
    return least
