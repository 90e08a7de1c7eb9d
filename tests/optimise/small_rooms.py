"""Small random rooms and catalogues, invented, for comparing the search with plain enumeration."""

from __future__ import annotations

import random
from dataclasses import replace

from steepwright.catalog import Catalog, read_catalog
from steepwright.room.types import (
    Access,
    Beam,
    Climber,
    Door,
    Offcut,
    Room,
    Solid,
    Stair,
    WallRange,
    Yard,
)


def small_room(seed: int) -> Room:
    """Return one of the rooms; from number 9 on beams slant and climbers have wishes."""
    r = random.Random(seed)
    more = random.Random(5000 + seed)
    low = r.choice([0, 0, 200])
    tilt = more.choice([0, 4, 8]) if seed > 8 else 0
    vehicle = r.choice([None, (2600, 1300), (3200, 1300)])
    return Room(
        name=f"small {seed}",
        length_mm=r.randrange(5200, 6400, 50),
        width_mm=4000,
        ceiling_mm=2700,
        beams=(
            Beam(
                "only",
                r.randrange(2200, 3300, 50),
                (under := min(2460, r.randrange(2350, 2550, 10)), under + tilt),
                140,
                r.choice([200, 240]),
                4000,
                r.choice(["C24", "C30", None]),
                r.choice([500.0, 900.0]),
            ),
        ),
        solids=(Solid("box", (0, r.choice([100, 900])), (1500, 2500), (0, r.choice([400, 2000]))),),
        access=Access(
            r.choice([None, (2700, 1300), (3200, 1300)]),
            doors=(Door("loft", 700, 2000),),
            carriers=r.choice([2, 3]),
            stairs=more.choice([(), (Stair("up", 800, 1900, 190, 240, 2200, 2300),)]),
        ),
        climber=Climber(70.0, 1700, r.choice([1.5, 2.0]), 1),
        wall=WallRange(
            angle_deg=(20.0, 48.0),
            kicker_mm=(low, low + 200),
            width_mm=(1200, 1200),
            step_mm=200,
            fold_up=r.random() < 0.5,
            min_fall_space_mm=1200,
            side_passage_mm=0,
            board_mm=(2500, 2900),
            max_columns=r.choice([1, 1, 2]),
            max_rows=2,
            min_climbable_mm=more.choice([0, 2700]) if seed > 8 else 0,
            min_moves=more.choice([0, 5]) if seed > 8 else 0,
            max_start_mm=more.choice([None, 300]) if seed > 8 else None,
        ),
        yard=Yard(
            cut_price_cents=r.choice([0, 150]),
            delivery_price_cents=3900,
            vehicle_max_mm=vehicle,
            offcuts=(Offcut("rest", "OSB/3", 18, 1300, r.choice([210, 420]), "length", 1, 0),)
            if r.random() < 0.5
            else (),
        ),
    )


def small_catalog(seed: int) -> Catalog:
    r = random.Random(1000 + seed)
    full = read_catalog()
    kinds = r.sample(["OSB/3", "softwood ply", "birch"], 2)
    sheets = tuple(s for s in full.sheets if s.kind in kinds and s.thickness_mm == 18)
    deep = r.choice([(60, 120), (60, 100), (48, 123)])
    timber = tuple(t for t in full.timber if (t.width_mm, t.depth_mm) in (deep, (80, 120)))
    return replace(
        full,
        sheets=tuple(r.sample(sheets, min(3, len(sheets)))),
        timber=timber,
        mounts=tuple(r.sample(full.mounts, 2)),
    )
