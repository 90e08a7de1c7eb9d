"""The tables of where walls fit agree with looking at every wall of the grid one by one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from small_rooms import small_catalog, small_room

from steepwright.geometry import wall_y_range_mm
from steepwright.optimise.certificate.fits import fits_of
from steepwright.optimise.certificate.stair import stair_of
from steepwright.optimise.fit import room_fit
from steepwright.optimise.fold import fold_clearance_mm
from steepwright.optimise.model import BOX_SIZES, board_thicknesses_mm, build_model
from steepwright.optimise.reach import build_reach
from steepwright.optimise.space import Space, build_space
from steepwright.optimise.standing import Standing, hanging, stand
from steepwright.pricing.market import build_market

SEEDS = tuple(range(8))


def space_of(seed: int, tolerance_mm: int, fold_up: bool) -> Space:
    room = small_room(seed)
    wall = replace(room.wall, tolerance_mm=tolerance_mm, fold_up=fold_up)
    return build_space(build_market(replace(room, wall=wall), small_catalog(seed)))


def walls_of(space: Space, place: int, mount: int, thickness_mm: int) -> Standing:
    lengths = space.boards_mm[:, None], space.kickers_mm[None, :]
    return stand(place, hanging(space, place, mount, thickness_mm), *lengths)


@pytest.mark.parametrize("tolerance_mm", [0, 15])
@pytest.mark.parametrize("seed", SEEDS)
def test_every_cell_is_that_of_its_wall(seed: int, tolerance_mm: int) -> None:
    space = space_of(seed, tolerance_mm, fold_up=False)
    thicknesses = board_thicknesses_mm(space)
    reach = build_reach(space, thicknesses, BOX_SIZES)
    for place, mount, number in np.ndindex(reach.index.shape):
        walls = walls_of(space, place, mount, thicknesses[number])
        fit = room_fit(space, walls)
        at = reach.index[place, mount, number]
        np.testing.assert_array_equal(reach.angle_mdeg[1][at] >= 0, fit.fits)
        fall = np.where(fit.fits, fit.fall_mm, -1)
        np.testing.assert_array_equal(reach.fall_mm[1][at], fall)
        if not tolerance_mm:
            pose = reach.pose[place, mount, number]
            np.testing.assert_array_equal(reach.steepest_rad[pose], walls.angle)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_wall_is_left_out_only_if_even_a_line_can_not_be_lifted(seed: int) -> None:
    lifted, standing = (space_of(seed, 0, fold_up) for fold_up in (True, False))
    thicknesses = board_thicknesses_mm(lifted)
    with_lift, without = (build_reach(s, thicknesses, (1,)) for s in (lifted, standing))
    y_mm = wall_y_range_mm(lifted.market.room, lifted.width_mm)
    for place, mount, number in np.ndindex(without.index.shape):
        tables = [r.angle_mdeg[1][r.index[place, mount, number]] for r in (with_lift, without)]
        assert ((tables[0] == tables[1]) | (tables[0] == -1)).all()
        walls = walls_of(lifted, place, mount, thicknesses[number])
        out = (tables[0] == -1) & (tables[1] >= 0)
        walls = replace(walls, angle=np.where(out, walls.angle, np.nan))
        behind = walls.hanging.behind_mm
        assert (fold_clearance_mm(lifted, walls, behind, y_mm)[out] < 0).all()


@pytest.mark.parametrize("size", BOX_SIZES)
def test_a_box_holds_the_largest_of_its_cells(size: int) -> None:
    space = space_of(4, 0, fold_up=False)
    reach = build_reach(space, board_thicknesses_mm(space), BOX_SIZES)
    cells, boxes = reach.fall_mm[1], reach.fall_mm[size]
    for at in np.ndindex(boxes.shape):
        rows, columns = (slice(n * size, (n + 1) * size) for n in at[1:])
        assert boxes[at] == cells[at[0], rows, columns].max()


@pytest.mark.parametrize("tolerance_mm", [0, 15])
@pytest.mark.parametrize("seed", SEEDS)
def test_the_proof_finds_the_same_walls_to_fit_by_itself(seed: int, tolerance_mm: int) -> None:
    model = build_model(space_of(seed, tolerance_mm, fold_up=True))
    anew = replace(model, reach=replace(model.reach, fitted=None))
    known, found = (fits_of(one, stair_of([])) for one in (model, anew))
    for size in BOX_SIZES:
        np.testing.assert_array_equal(known.pyramid[size], found.pyramid[size])
    by_hand = space_of(seed, 0, fold_up=True)
    for place, mount, number in np.ndindex(model.reach.index.shape):
        walls = walls_of(by_hand, place, mount, model.reach.thicknesses_mm[number])
        fits = room_fit(by_hand, walls).fits
        assert (known.pyramid[1][known.places[place], mount, number][fits] >= 0).all()
