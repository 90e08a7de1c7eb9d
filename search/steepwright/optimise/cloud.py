"""A thinned sample of the designs that others beat, to show where the front lies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import build_rates
from steepwright.optimise.branch_wide import WideBranch, points_of
from steepwright.optimise.entries import Entries
from steepwright.optimise.fixings import small_cents
from steepwright.optimise.found import Found
from steepwright.optimise.front import Score
from steepwright.optimise.model import Model

IntArray = npt.NDArray[np.int64]

MOST_POINTS = 600
"""Points that a page can show and a reader can still take in."""


def dominated_sample(seen: Iterable[Score], most: int = MOST_POINTS) -> list[list[float]]:
    """Return at most `most` scores as [angle [deg], cost [cents], fall space [mm]], evenly thinned.

    The scores are sorted by cost and angle first, so that the sample doesn't depend on the order
    of the search.
    """
    rows = sorted(set(seen))
    stride = max(1, -(-len(rows) // most))
    return [[s.angle_mdeg / 1000, s.cost_cents, s.fall_mm] for s in rows[::stride]]


def otherwise_hung(kept: Sequence[tuple[Score, tuple[Model, Found]]]) -> list[Score]:
    """Return the scores of a front's walls hung from every beam, either way, on every mount.

    Only those that fit and hold, each with its cheapest fixing. They follow from the front alone,
    not from the road that led to it.
    """
    models = {id(model): model for _, (model, _) in kept}
    return [
        score
        for key, model in models.items()
        for score in _hung(model, [(s, found) for s, (own, found) in kept if id(own) == key])
    ]


def _hung(model: Model, kept: list[tuple[Score, Found]]) -> Iterator[Score]:
    own = points_of(model, [found for _, found in kept])
    # Sheets, bars and delivery stay what they are wherever a wall hangs.
    stays = [score.cost_cents for score, _ in kept] - _hanging_cents(model, own)
    material = dict(zip(_made(own), stays.tolist(), strict=True))
    mounts = len(model.hangs)
    wall, mount = np.divmod(np.arange(len(kept) * mounts, dtype=np.int64), mounts)
    walls = replace(own.take(wall), mount=mount, fixing=np.zeros_like(mount))
    walls = walls.take(model.hangs[walls.mount, walls.sheeting, walls.section])
    branch = WideBranch(model, build_rates(model))
    for place in range(len(model.space.places)):
        hung = branch.fitting_points(walls.on(np.full(len(walls), place)))
        where = model.mounting(hung), hung.row, hung.column
        angle, fall = (table[1][where] for table in (model.reach.angle_mdeg, model.reach.fall_mm))
        small = _hanging_cents(model, hung).tolist()
        rows = zip(_made(hung), small, angle.tolist(), fall.tolist(), strict=True)
        yield from (Score(material[made] + cents, mdeg, mm) for made, cents, mdeg, mm in rows)


def _hanging_cents(model: Model, walls: Entries) -> IntArray:
    """Return what depends on where and by what single walls hang [cents]."""
    pads = model.pads.least(model.mounting(walls), walls, 1)
    stand = model.stand_cents[walls.place, walls.delivered]
    return np.asarray(small_cents(model, walls) + stand + pads, dtype=np.int64)


def _made(walls: Entries) -> list[tuple[int, ...]]:
    columns = walls.sheeting, walls.section, walls.delivered, walls.row, walls.column
    return list(zip(*(column.tolist() for column in columns), strict=True))
