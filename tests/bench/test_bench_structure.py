"""How many walls a second the checks judge on one core, beside the plain road wall by wall.

Processor time, so that a busy machine blurs it less; each round measures both roads, one after the
other. Run with `pytest tests/bench`; the figures go to results.json.
"""

import dataclasses
import time

import numpy as np
import pytest
from results import record

from steepwright.catalog import read_catalog
from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.room.types import Access, Beam, Climber, Room, WallRange, Yard
from steepwright.structure import Batch, build_tables, checks, uses, worst_use
from steepwright.structure.wall import RULES

ROWS = 200_000
WANTED_PER_S = 200_000
PLAIN_ROWS = 200
WANTED_RATIO = 100
WANTED_AGREEMENT = 1e-9
ROUNDS = 5


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
        tip_load=draw.uniform(1.05, 1.2, ROWS),
        lost_load=draw.uniform(1.2, 2.5, ROWS),
        lost_weight=draw.uniform(1.0, 1.5, ROWS),
        lost_arm_mm=draw.uniform(900.0, 1800.0, ROWS),
        lift_arm_mm=draw.uniform(300.0, 900.0, ROWS),
        lift_arm_lost_mm=draw.uniform(300.0, 900.0, ROWS),
        lift_end=draw.uniform(0.5, 1.0, ROWS),
        lift_sag=draw.uniform(0.5, 1.0, ROWS),
        eye_mm=board - 100.0,
        lift_beam=draw.integers(-1, len(beams), ROWS),
        tie=np.zeros(ROWS, dtype=np.int64),
        tie_cos=np.ones(ROWS),
        tie_mm=np.zeros(ROWS),
        tie_board_mm=board,
        tie_place=np.full_like(board, 0.5),
        board_mm=board,
        kicker_mm=draw.uniform(200.0, 400.0, ROWS),
        width_mm=np.full(ROWS, 2400.0),
        angle_rad=draw.uniform(0.2, 1.1, ROWS),
    )
    return tables, batch


def _seconds(judge, *arguments):
    start = time.process_time()
    judge(*arguments)
    return time.process_time() - start


def alone(batch):
    """Return the first walls, each a batch of its own."""
    names = [field.name for field in dataclasses.fields(Batch)]
    return [
        Batch(*(getattr(batch, name)[row : row + 1] for name in names)) for row in range(PLAIN_ROWS)
    ]


def one_by_one(tables, walls):
    """The plain road: the checks of every wall as records."""
    return [checks(tables, wall) for wall in walls]


def ten_million_additions():
    total = 0
    for number in range(10_000_000):
        total += number


def largest_difference(tables, batch, walls):
    """Return by how much uses of the two roads differ at most, over the use or 1 if it is less."""
    found, judged = uses(tables, batch), worst_use(tables, batch, limit=np.inf)
    apart = 0.0
    for row, wall in enumerate(one_by_one(tables, walls)):
        pairs = [(found[check.name][row], check.use) for check in wall]
        pairs.append((judged[row], max(use for _, use in pairs)))
        assert np.isfinite(pairs).all()
        apart = max(apart, *(abs(a - b) / max(1.0, abs(b)) for a, b in pairs))
    return apart


@pytest.mark.bench
def test_batches_judge_200_000_walls_a_second_a_hundredfold_of_wall_by_wall_and_agree():
    tables, batch = random_walls()
    walls = alone(batch)
    rounds = [
        (
            ROWS / _seconds(uses, tables, batch),
            ROWS / _seconds(worst_use, tables, batch),
            PLAIN_ROWS / _seconds(one_by_one, tables, walls),
        )
        for _ in range(ROUNDS)
    ]
    every, worst, plain = (sorted(rates)[ROUNDS // 2] for rates in zip(*rounds, strict=True))
    apart = largest_difference(tables, batch, walls)
    figures = {
        "checks": len(RULES),
        "walls_per_second": round(every),
        "walls_per_second_until_all_fail": round(worst),
        "one_by_one_per_second": round(plain),
        "ratio": round(every / plain),
        "largest_difference": float(f"{apart:.1g}"),
        "ten_million_additions_s": round(_seconds(ten_million_additions), 2),
    }
    print(f"\n{figures}")
    record("structural checks", figures)
    assert every > WANTED_PER_S
    assert every / plain > WANTED_RATIO
    assert apart <= WANTED_AGREEMENT
