"""Load sharing: what statics demands whatever the stiffness, and the batch against its rows."""

import numpy as np
import pytest

from elastic.grillage import (
    Grillage,
    PointLoad,
    TieBack,
    across_stiffness_nmm2_per_mm,
    respond,
)
from steepwright.structure.beam import simple_deflection


def grillage(ribs=5, across=3.4e6, batch=1, **more):
    one = np.ones(batch)
    return Grillage(2400 * one, 400 * one, np.full((batch, ribs), 6e10), across * one, **more)


def load(across, part, batch=1):
    return PointLoad(np.full(batch, float(across)), np.full(batch, 2400.0 * part))


def test_without_a_sheet_the_loaded_stud_is_a_simple_beam():
    alone = respond(grillage(across=0.0), load(1, 1 / 3))
    assert alone.moment_nmm[0] == pytest.approx([0, 2400 * 2 / 9, 0, 0, 0], abs=1e-9)
    assert alone.foot_n[0, 1] == pytest.approx(2 / 3)
    # Off-centre load, AWC Design Aid 6: 45 x 145, E 11000, 1600 N at 1600 of 2400 mm: 2.8952 mm.
    ei = 11000 * 45 * 145**3 / 12
    at = np.array(1600.0)
    sag = 1600 * simple_deflection(at, at, np.array(2400.0)) / ei
    assert sag == pytest.approx(2.8952, abs=5e-5)


def test_a_very_stiff_sheet_turns_the_studs_into_springs_under_a_rigid_beam():
    # Rigid beam on n equal springs, load on the first: shares 1/n + (x - m)^2 / sum.
    stiff = respond(grillage(across=1e14), load(0, 0.5))
    shares = 1 / 5 + np.array([4.0, 2.0, 0.0, -2.0, -4.0]) / 10
    sag = shares * 2400**3 / (48 * 6e10)
    assert stiff.deflection_mm[0] == pytest.approx(np.abs(sag), rel=1e-3, abs=1e-9)


@pytest.mark.parametrize("across", [0, 0.37, 2, 4])
@pytest.mark.parametrize("part", [0.0, 0.2, 0.5, 0.98])
@pytest.mark.parametrize("seams", [(), (2,)])
def test_reactions_balance_force_and_both_turning_moments(across, part, seams):
    ties = TieBack(np.array([1700.0]), np.array([[150.0, 0, 0, 80.0, 0]]))
    one = respond(grillage(seams=seams, ties=(ties,)), load(across, part))
    foot, lip, tie = one.foot_n[0], one.lip_n[0], one.tie_n[0, 0]
    assert (foot + lip + tie).sum() == pytest.approx(1.0, abs=1e-9)
    assert (foot + lip + tie) @ np.arange(5) == pytest.approx(across, abs=1e-9)
    assert lip.sum() * 2400 + tie.sum() * 1700 == pytest.approx(2400 * part, abs=0.2)


def test_a_seam_up_the_slope_keeps_the_load_on_its_side():
    parted = respond(grillage(ribs=3, seams=(1,)), load(0, 0.5))
    assert parted.moment_nmm[0] == pytest.approx([600, 0, 0], abs=1e-9)


def test_a_stiff_tie_back_takes_the_load_standing_on_it():
    ties = TieBack(np.array([1200.0]), np.full((1, 5), 1e9))
    held = respond(grillage(ties=(ties,)), load(2, 0.5))
    assert held.tie_n[0, 0] == pytest.approx([0, 0, 1, 0, 0], abs=1e-4)
    assert held.moment_nmm.max() < 1.0


def test_a_batch_gives_every_row_what_it_gets_alone():
    rng = np.random.default_rng(7)
    rows = 6
    parts = {
        "span": rng.uniform(1800, 3600, rows),
        "bay": rng.uniform(300, 700, rows),
        "ei": rng.uniform(2e10, 9e10, (rows, 4)),
        "across": rng.uniform(1e6, 9e6, rows),
        "at": rng.uniform(0, 3, rows),
    }

    def run(pick):
        p = {key: value[pick] for key, value in parts.items()}
        grid = Grillage(p["span"], p["bay"], p["ei"], p["across"])
        return respond(grid, PointLoad(p["at"], 0.4 * p["span"])).moment_nmm

    whole = run(slice(None))
    for row in range(rows):
        assert run(slice(row, row + 1))[0] == pytest.approx(whole[row], rel=1e-12)


def test_a_load_outside_the_wall_is_refused():
    with pytest.raises(ValueError, match="foot and lip"):
        respond(grillage(), load(1, 1.1))
    with pytest.raises(ValueError, match="outer ribs"):
        respond(grillage(), load(4.5, 0.5))


def test_stiffness_of_a_sheet_across():
    # Birch plywood 17.6 mm across its grain, Handbook of Finnish Plywood [from memory].
    d = across_stiffness_nmm2_per_mm(np.array(7452.0), np.array(17.6))
    assert d == pytest.approx(3.386e6, rel=1e-3)
