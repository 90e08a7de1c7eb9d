"""Where in a changed room a better wall may stand: by what it costs at least, then by its angle.

A box of lengths costs at least so much with each mount and thickness of sheet, and a wall of that
cost must be so steep to be of use. Few hangings have such walls that fit the room: tables are made
of these alone, and sheetings, mounts and lengths that none of them needs are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import Rates, box_table_cents, build_rates
from steepwright.optimise.changes_floor import floor_cents
from steepwright.optimise.changes_fresh import tables_of
from steepwright.optimise.changes_known import Angles, Known
from steepwright.optimise.front import Score
from steepwright.optimise.model import (
    BOX_SIZES,
    Model,
    board_thicknesses_mm,
    build_model,
    priced_model,
)
from steepwright.optimise.reach import Reach, pyramid
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.standing import NONE
from steepwright.pricing.market import Market

IntArray = npt.NDArray[np.int64]
Key = tuple[int, int, int]

BOX = 16
"""Steps of the grid, both ways, between the lengths at which costs are bounded."""


@dataclass(frozen=True, slots=True)
class Asked:
    """How steep walls must be [1/1000 degree] to be of use, where they stand for little enough.

    Attributes
    ----------
    least_mdeg
        Flatter walls are of no use at any price.
    mdeg
        By mount, thickness number, board and kicker; a wall that is no steeper costs too much.
    """

    space: Space
    rates: Rates
    thicknesses_mm: tuple[int, ...]
    least_mdeg: int
    mdeg: IntArray


def hopeful_model(
    market: Market, scores: Sequence[Score], known: Known
) -> tuple[Model, Rates] | None:
    """Return a model of the walls that may beat all of some scores, fall space left out of it.

    None when there are none. Walls that can't may be in it too. Its rates come with it.

    Parameters
    ----------
    scores
        One of them costs nothing: flatter walls than that don't count.
    """
    asked = _asked(market, scores, known)
    if asked is None:
        return None
    angles = {
        (place, mount, number): found
        for number, thickness_mm in enumerate(asked.thicknesses_mm)
        for place, mount, found in known.angles(asked.space, thickness_mm, asked.mdeg[:, number])
    }
    return _model(asked, angles, known.like) if angles else None


def _asked(market: Market, scores: Sequence[Score], known: Known) -> Asked | None:
    """Return what is asked for, on the grid of lengths that may be; None when nothing may."""
    like = known.like
    cents, steepest = _stairs(scores)
    least, most = int(steepest[0]) + 1, int(cents[-1])
    space = _steep_space(market, least)
    new = known.kickers(space)
    if not new.any():
        return None
    space = replace(space, kickers_mm=space.kickers_mm[_ends(new)])
    prices = priced_model(replace(space, places=()), like)
    least_mounts = prices.space.mount_counts[0]
    rates, mounts = build_rates(prices), least_mounts * prices.pricer.mount_cents
    most -= int(mounts.min())
    some = known.fresh(space) & (box_table_cents(prices, rates, 0, 0).min(axis=2) < most)
    if not some.any():
        return None
    space, rates = _only(space, rates, *(np.flatnonzero(some.any(axis=way)) for way in (1, 0)))
    thicknesses = board_thicknesses_mm(space)
    cost = _floor_cents(space, rates, thicknesses, like) + mounts[:, None, None, None]
    mdeg = 1 + steepest[np.searchsorted(cents, cost, side="right") - 1]
    some = np.asarray(mdeg <= 1000 * market.room.wall.angle_deg[1])
    if not some.any():
        return None
    rows, columns = (_ends(np.any(some, axis=(0, 1, other))) for other in (3, 2))
    mdeg = mdeg[:, :, rows, columns].repeat(BOX, axis=2).repeat(BOX, axis=3)
    boards, kickers = _cells(space.boards_mm, rows), _cells(space.kickers_mm, columns)
    space = replace(space, boards_mm=boards, kickers_mm=kickers)
    return Asked(space, rates, thicknesses, least, mdeg[:, :, : len(boards), : len(kickers)])


def _stairs(scores: Sequence[Score]) -> tuple[IntArray, IntArray]:
    """Return costs, ascending, and the angle of the steepest score that costs no more."""
    costs = sorted({score.cost_cents for score in scores})
    angles = [max(s.angle_mdeg for s in scores if s.cost_cents <= cents) for cents in costs]
    return np.array(costs, dtype=np.int64), np.array(angles, dtype=np.int64)


def _steep_space(market: Market, least_mdeg: int) -> Space:
    """Return the space of a market, without the boards that only flatter walls need."""
    wall = market.room.wall
    angles = max(wall.angle_deg[0], least_mdeg / 1000), wall.angle_deg[1]
    steep = replace(market.room, wall=replace(wall, angle_deg=angles))
    return replace(build_space(replace(market, room=steep)), market=market)


def _only(
    space: Space, rates: Rates, kept: IntArray, sections: IntArray | None = None
) -> tuple[Space, Rates]:
    """Return a space of some of its sheetings, and sections, and its rates."""
    sheetings = tuple(space.sheetings[number] for number in kept.tolist())
    market = space.market
    if sections is not None:
        some = tuple(market.sections[number] for number in sections.tolist())
        market = replace(market, sections=some)
    return replace(space, sheetings=sheetings, market=market), rates.only(kept, sections)


def _floor_cents(
    space: Space, rates: Rates, thicknesses_mm: tuple[int, ...], like: Model
) -> IntArray:
    """Return what walls cost at least without mounts, by thickness number and box of `BOX` cells.

    The grain that the board needs is left out: it bears on no such bound.
    """
    grains = {(s.family, s.split, s.bays): n for n, s in enumerate(space.sheetings)}
    space, rates = _only(space, rates, np.array(list(grains.values()), dtype=np.int64))
    families, model = space.market.families, priced_model(replace(space, places=()), like)
    numbers = [thicknesses_mm.index(families[s.family].thickness_mm) for s in space.sheetings]
    return floor_cents(model, rates, np.array(numbers), len(thicknesses_mm), BOX)


def _ends(some: npt.NDArray[np.bool_]) -> slice:
    found = np.flatnonzero(some)
    return slice(int(found[0]), int(found[-1]) + 1)


def _cells(lengths_mm: IntArray, boxes: slice) -> IntArray:
    return lengths_mm[BOX * boxes.start : BOX * boxes.stop]


def _model(asked: Asked, angles: dict[Key, Angles], like: Model) -> tuple[Model, Rates]:
    """Return the model of the hangings that have tables; all others share one that fits nowhere."""
    market = asked.space.market
    mounts = sorted({mount for _, mount, _ in angles})
    numbers = sorted({number for _, _, number in angles})
    thicknesses = tuple(asked.thicknesses_mm[number] for number in numbers)
    index = np.zeros((len(asked.space.places), len(mounts), len(numbers)), dtype=np.int64)
    for row, (place, mount, number) in enumerate(angles, start=1):
        index[place, mounts.index(mount), numbers.index(number)] = row
    thick = {n for n, family in enumerate(market.families) if family.thickness_mm in thicknesses}
    kept = [n for n, sheeting in enumerate(asked.space.sheetings) if sheeting.family in thick]
    space, rates = _only(asked.space, asked.rates, np.array(kept, dtype=np.int64))
    catalog = replace(
        market.catalog, mounts=tuple(market.catalog.mounts[mount] for mount in mounts)
    )
    space = replace(space, market=replace(market, catalog=catalog))
    grid = asked.mdeg.shape[2:]
    nowhere = Angles(np.full(grid, np.nan), *(np.full(grid, NONE) for _ in range(2)))
    raw, mdeg, fall = (np.stack(tables) for tables in zip(nowhere, *angles.values(), strict=True))
    raw = np.fmax(raw, np.radians(asked.least_mdeg / 1000))
    steep = pyramid(mdeg.astype(np.int32), BOX_SIZES)
    reach = Reach(thicknesses, index, index, raw, steep, {1: fall.astype(np.int32)})
    return _flat(build_model(space, reach, tables_of(like, space.market))), rates


def _flat(model: Model) -> Model:
    """Return the model with the same fall space everywhere, in tables that take no memory."""
    reach = model.reach
    flat = {size: np.broadcast_to(np.int32(0), t.shape) for size, t in reach.angle_mdeg.items()}
    return replace(model, reach=replace(reach, fall_mm=flat))
