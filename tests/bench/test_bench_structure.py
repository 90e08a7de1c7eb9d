"""How many walls a second the checks judge on one core, beside the plain road wall by wall.

Run with `pytest tests/bench`.
"""

import dataclasses
import time

import numpy as np
import pytest

from steepwright.catalog import read_catalog
from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.room.types import Access, Beam, Climber, Room, WallRange, Yard
from steepwright.structure import Batch, build_tables, checks, uses, worst_use

ROWS = 200_000
WANTED_PER_S = 200_000
PLAIN_ROWS = 200
WANTED_RATIO = 100


def random_walls():
    catalog = read_catalog()
    families, sections = sheet_families(catalog), timber_sections(catalog)
    beams = (
        Beam("a", 2500, (2350, 2350), 120, 240, 3600, "C24", 500.0),
        Beam("b", 1500, (2350, 2350), 80, 180, 3600, None, None),
    )
    wall = WallRange((10.0, 60.0), (200, 400), (2400, 2400))
    room = Room("r", 5000, 3600, 2500, beams, (), Access(), Climber(), wall, Yard())
    tables = build_tables(catalog, room, families, sections)
    draw = np.random.default_rng(7)
    pattern = draw.integers(0, 4, ROWS)
    columns = np.array([1, 1, 2, 3])[pattern]
    studs = np.array([5, 7, 5, 7])[pattern]
    rows = draw.integers(1, 3, ROWS)
    board = draw.uniform(2000.0, 4200.0, ROWS)
    batch = Batch(
        beam=draw.integers(0, len(beams), ROWS),
        sheet=draw.integers(0, len(families), ROWS),
        timber=draw.integers(0, len(sections), ROWS),
        mount=draw.integers(0, len(catalog.mounts), ROWS),
        stud_count=studs,
        mount_count=draw.integers(2, 5, ROWS),
        columns=columns,
        rows=rows,
        bay_mm=2355.0 / (studs - 1),
        seam_mm=np.where(rows > 1, board / 2, 0.0),
        grain_across=draw.integers(0, 2, ROWS).astype(bool),
        screw_mm=draw.choice([100.0, 150.0, 200.0], ROWS),
        arm_climb_mm=draw.uniform(500.0, 900.0, ROWS),
        arm_weight_mm=draw.uniform(500.0, 900.0, ROWS),
        end_climb=draw.uniform(0.5, 1.0, ROWS),
        end_weight=np.full(ROWS, 0.5),
        sag_climb=draw.uniform(0.7, 1.0, ROWS),
        sag_weight=draw.uniform(0.7, 1.0, ROWS),
        lift_arm_mm=draw.uniform(300.0, 900.0, ROWS),
        lift_arm_lost_mm=draw.uniform(300.0, 900.0, ROWS),
        lift_end=draw.uniform(0.5, 1.0, ROWS),
        lift_sag=draw.uniform(0.5, 1.0, ROWS),
        eye_mm=board - 100.0,
        lift_beam=draw.integers(-1, len(beams), ROWS),
        board_mm=board,
        kicker_mm=draw.uniform(200.0, 400.0, ROWS),
        width_mm=np.full(ROWS, 2400.0),
        angle_rad=draw.uniform(0.2, 1.1, ROWS),
    )
    return tables, batch


@pytest.mark.bench
@pytest.mark.parametrize("judge", [uses, worst_use])
def test_walls_per_second(judge):
    tables, batch = random_walls()
    judge(tables, batch)
    best = min(_seconds(judge, tables, batch) for _ in range(3))
    print(f"\n{judge.__name__}: {ROWS / best:,.0f} walls/s")
    assert ROWS / best > WANTED_PER_S


def _seconds(judge, tables, batch):
    start = time.perf_counter()
    judge(tables, batch)
    return time.perf_counter() - start


def one_by_one(tables, batch):
    """The plain road: every wall a batch of its own, its checks as records."""
    names = [field.name for field in dataclasses.fields(Batch)]
    alone = [
        Batch(*(getattr(batch, name)[row : row + 1] for name in names)) for row in range(PLAIN_ROWS)
    ]
    return [checks(tables, wall) for wall in alone]


@pytest.mark.bench
def test_batches_beat_the_plain_road_a_hundredfold_and_agree():
    tables, batch = random_walls()
    plain = one_by_one(tables, batch)
    found = uses(tables, batch)
    for row, wall in enumerate(plain):
        for check in wall:
            assert found[check.name][row] == pytest.approx(check.use, rel=1e-9, abs=1e-12)
    slow = min(_seconds(one_by_one, tables, batch) for _ in range(3)) / PLAIN_ROWS
    for judge in (uses, worst_use):
        fast = min(_seconds(judge, tables, batch) for _ in range(3)) / ROWS
        print(f"\n{judge.__name__}: {slow / fast:,.0f} times as fast as wall by wall")
        assert slow / fast > WANTED_RATIO
