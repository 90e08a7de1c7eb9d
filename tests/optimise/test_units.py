"""How the search is cut into units, and these into parts."""

from __future__ import annotations

from concurrent.futures import Executor, Future
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from test_drive import catalog, model, room, same, whole

from steepwright.catalog import read_catalog
from steepwright.optimise import units, workers
from steepwright.optimise.branch import SOLVE_FROM
from steepwright.optimise.drive import search_front
from steepwright.optimise.model import Model, build_wide_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.units import LEAST_FULL, Harvest, units_of
from steepwright.pricing.market import build_market
from steepwright.resources import catalogs_dir
from steepwright.room import read_room


@cache
def example() -> Model:
    room = read_room(catalogs_dir() / "example" / "room.toml")
    return build_wide_model(build_space(build_market(room, read_catalog())))


def fitting(model: Model, place: int, row: int, column: int) -> float:
    """Return the part of a box that fits at a place, counted cell by cell."""
    angle = model.reach.angle_mdeg[1][model.reach.index[place].ravel()]
    cells = [
        angle[mounting, r, c] >= 0
        for mounting in range(len(angle))
        for r in range(row, min(row + SOLVE_FROM, model.grid[0]))
        for c in range(column, min(column + SOLVE_FROM, model.grid[1]))
    ]
    return sum(map(bool, cells)) / len(cells)


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("of", [model, example])
def test_every_box_where_a_wall_fits_is_in_one_unit(of: object, wide: bool) -> None:
    space = of()  # type: ignore[operator]
    if wide and space.wider is None:
        assert not any(unit.wide for unit in units_of(space))
        return
    looked_at = [
        (place, box.row, box.column)
        for unit in units_of(space)
        if not unit.sowing and unit.wide == wide
        for box in unit.boxes
        for place in box.places
    ]
    assert len(set(looked_at)) == len(looked_at)
    every = {
        (place, row, column)
        for place in range(len(space.space.places))
        for row in range(0, space.grid[0], SOLVE_FROM)
        for column in range(0, space.grid[1], SOLVE_FROM)
        if fitting(space, place, row, column)
    }
    assert set(looked_at) == every


def test_boxes_go_together_as_long_as_they_are_hardly_full() -> None:
    searched = [unit for unit in units_of(example()) if not unit.sowing and not unit.wide]
    for unit in searched:
        full = [
            np.mean([fitting(example(), p, b.row, b.column) for p in b.places]) for b in unit.boxes
        ]
        assert sum(full[:-1]) < LEAST_FULL
        assert sum(full) >= LEAST_FULL or unit is searched[-1]
    assert any(len(unit.boxes) > 1 for unit in searched)


class Counting(Executor):
    """Works at once and counts what it was given, and what of that went on with something left."""

    def __init__(self) -> None:
        self.begun = self.gone_on = 0

    def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]
        self.gone_on += bool(args[-1])
        self.begun += not args[-1]
        done: Future[Harvest] = Future()
        done.set_result(fn(*args, **kwargs))
        return done


def test_where_a_unit_is_left_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Left after every single step; forked processes of our own do it whole."""
    wall = replace(room().wall, width_mm=(1200, 1260))
    market = build_market(replace(room(), wall=wall), catalog())
    wide = build_wide_model(build_space(market))
    assert wide.wider is not None
    at_once = search_front(wide, Terms())
    assert same(search_front(wide, Terms(workers=2)), at_once)
    monkeypatch.setattr(workers, "PART_S", -1.0)
    monkeypatch.setattr(units, "FEW", 0)
    for of, expected in ((model(), whole()), (wide, at_once)):
        once = Counting()
        assert same(search_front(of, Terms(executor=once)), expected)
        assert once.begun == len(units_of(of))
        assert once.gone_on > once.begun


def test_a_quick_unit_is_not_left() -> None:
    once = Counting()
    assert same(search_front(model(), Terms(executor=once)), whole())
    assert once.gone_on < once.begun
