"""The search divided into units of work, in a fixed order.

A unit is one box of lengths, at all places: they share its cut lists. It starts from the front that
the units at least `LAG` before it found, so what it finds depends neither on who works on it nor on
when; up to `LAG` units may be worked on at the same time (`first_told`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import Rates, box_table_cents
from steepwright.optimise.branch import SOLVE_FROM, Branch, Tally
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


class Unit(NamedTuple):
    """Some places in the box at a least corner; `sowing` looks at the box's steepest walls only.

    `wide` looks at the walls that are wider than they must be, not at those of the least width.
    """

    places: tuple[int, ...]
    row: int
    column: int
    sowing: bool
    wide: bool = False


@dataclass(frozen=True, slots=True)
class Harvest:
    """What a unit found that it wasn't told of, and how much it looked at."""

    members: tuple[Member, ...]
    tally: Tally


def units_of(model: Model) -> tuple[Unit, ...]:
    """Return the units that together search the whole space, in their order.

    First the steepest walls of the largest boxes for a first front, place by place, those with most
    fall space first: what a roomy place offers, a tight one can't beat. Then all boxes, and all
    once more for wider walls, nearly all of which are ruled out by then. The longest boards come
    first. What fits the room nowhere is left out.
    """
    reach, units = model.reach, []
    rounds = [(True, False, BOX_SIZES[0]), (False, False, SOLVE_FROM)]
    if model.wider is not None:
        rounds.append((False, True, SOLVE_FROM))
    for sowing, wide, size in rounds:
        for row, column in steepest_first(model.grid, size):
            fall = reach.fall_mm[size][reach.index, row // size, column // size]
            most = fall.max(axis=(1, 2)).tolist()
            roomy = sorted(range(len(most)), key=lambda place: (-most[place], place))
            places = tuple(place for place in roomy if most[place] >= 0)
            groups = [(place,) for place in places] if sowing else [places] if places else []
            units += [Unit(group, row, column, sowing, wide) for group in groups]
    return tuple(units)


def first_told(units: tuple[Unit, ...]) -> list[int]:
    """Return of how many of the first units each one must be told before it begins.

    Those of wider walls are told of all that look at the least width.
    """
    narrow = sum(not unit.wide for unit in units)
    lags = ((WIDE_LAG, narrow) if unit.wide else (LAG, 0) for unit in units)
    return [max(index + 1 - lag, least) for index, (lag, least) in enumerate(lags)]


def work_on(model: Model, rates: Rates, unit: Unit, seeds: Iterable[Member]) -> Harvest:
    """Search one unit, told of some designs."""
    of = WideBranch if unit.wide else Branch
    branch = of(*_looked_at(model, rates, unit.wide), Front.of(seeds, rank_of))
    told = dict(branch.front.members)
    work = branch.sow_box if unit.sowing else branch.search_box
    work(unit.places, (unit.row, unit.column))
    new = (member for member in branch.front.sorted() if told.get(member[0]) != member[1])
    return Harvest(tuple(new), branch.tally)


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
    for number, (places, row, column, sowing, wide) in enumerate(units):
        if sowing:
            continue
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
