"""Mounts on anchors in a concrete slab: only stated ratings count; what is missing is told."""

import dataclasses
import json
import math
from dataclasses import asdict

import numpy as np
import pytest

from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.structure import build_tables, checks, uses, worst_use
from steepwright.structure.rows import look_up

STANDARD_GRAVITY = 9.80665  # m/s2, CGPM 1901
TIMBER = ("ceiling beam", "mount pull-out", "mount, parked", "one mount lost", "mount screws")


@pytest.fixture
def on(catalog, make_room):
    def tables(rated=None, least=None, thickness=180):
        room = make_room()
        slab = dataclasses.replace(
            room.beams[0],
            kind="slab",
            depth_mm=thickness,
            grade=None,
            existing_load_n_per_m=None,
            anchor_rated_n=rated,
            anchor_least_mm=least,
        )
        room = dataclasses.replace(room, beams=(slab, *room.beams[1:]))
        return build_tables(catalog, room, sheet_families(catalog), timber_sections(catalog))

    return tables


def told(tables, batch):
    return {check.name: check for check in checks(tables, batch)}


def test_one_anchor_bears_the_climber_and_the_lip_by_hand(on, make_batch):
    """F = sqrt((m g f + W)^2 + (0.5 m g f)^2) times the mount's lever; statics alone."""
    tables, wall = on(rated=6000.0, least=100), make_batch()
    rows = look_up(tables, wall)
    climber = 80.0 * STANDARD_GRAVITY * 2.0
    weight = min(2.0 * rows.hang_n[0], rows.board_n[0] / 2.0)
    force = math.hypot(climber + weight, 0.5 * climber) * rows.mount.lever[0]
    check = told(tables, wall)["anchor working load"]
    assert check.demand == pytest.approx(force, rel=1e-9)
    assert (check.capacity, check.settled) == (6000.0, True)


def test_beside_a_lost_mount_the_anchor_bears_what_levers_by_hand(on, make_batch):
    """The climbers 2.5 times, level too, and the weight 1.5 times, by statics of a seesaw."""
    tables, wall = on(rated=6000.0), make_batch(lost_load=2.5, lost_weight=1.5)
    rows = look_up(tables, wall)
    climber = 2.5 * 80.0 * STANDARD_GRAVITY * 2.0
    weight = 1.5 * rows.board_n[0] / 2.0
    force = math.hypot(climber + weight, 0.5 * climber) * rows.mount.lever[0]
    assert told(tables, wall)["anchor working load"].demand == pytest.approx(force)


def test_nothing_is_said_of_timber_that_is_not_there(on, make_batch):
    names = told(on(rated=6000.0, least=100), make_batch())
    assert not [name for name in names if name.startswith(TIMBER)]
    assert {"anchor working load", "slab thickness", "mount working load"} <= set(names)


def test_without_a_rating_nothing_is_settled_and_the_needed_one_is_told(on, make_batch):
    unknown = told(on(), make_batch())
    anchor, slab = unknown["anchor working load"], unknown["slab thickness"]
    assert (anchor.settled, slab.settled) == (False, False)
    assert anchor.use == slab.use == 1.0
    assert "must be rated for" in anchor.assumption
    known = told(on(rated=anchor.demand * 2, least=90), make_batch())
    assert known["anchor working load"].use == pytest.approx(0.5)
    assert known["slab thickness"].use == 0.5
    assert all(check.settled for check in known.values())


@pytest.mark.parametrize("values", [{"rated": 500.0, "least": 100}, {"rated": 9e4, "least": 181}])
def test_a_weak_anchor_or_a_thin_slab_fails(on, make_batch, values):
    assert worst_use(on(**values), make_batch())[0] > 1.0


def test_a_mount_without_a_rating_fails(on, make_batch):
    tables = on(rated=9e4, least=100)
    assert uses(tables, make_batch(mount=0))["mount working load"][0] > 1.0
    assert uses(tables, make_batch(mount=1))["mount working load"][0] <= 1.0


@pytest.mark.parametrize("rated", [None, 6000.0])
def test_no_use_falls_with_lengths_or_angle(on, make_batch, rated):
    tables = on(rated=rated)
    small = uses(tables, make_batch())
    for name in ("board_mm", "kicker_mm", "width_mm", "bay_mm", "angle_rad"):
        larger = uses(tables, make_batch(**{name: getattr(make_batch(), name)[0] * 1.2}))
        assert all(larger[check][0] >= small[check][0] for check in small), name


def test_every_figure_can_be_written_as_json(on, make_batch):
    for mount in (0, 1):
        rows = [asdict(check) for check in checks(on(), make_batch(mount=mount, lift_beam=-1))]
        text = json.dumps(rows, allow_nan=False)
        assert "anchor" in text
    assert np.isfinite(uses(on(), make_batch(lift_beam=-1))["lift beam bending"]).all()
