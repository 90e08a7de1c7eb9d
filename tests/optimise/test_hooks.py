"""Where the mounts load the beam: by hand from the wall's place in the room, either way round."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from small_rooms import small_room

from steepwright.catalog import read_catalog
from steepwright.optimise.assess import assess
from steepwright.optimise.hooks import build_hooks
from steepwright.optimise.space import build_space
from steepwright.pricing.market import build_market
from steepwright.room.types import Align, Facing, Room

WIDTH, ROOM_WIDTH, SPAN = 3000, 4000, 3800
DESIGN = {
    "board_mm": 2600, "width_mm": WIDTH, "columns": 3, "rows": 2, "stud_count": 4, "kicker_mm": 250,
    "sheet": "OSB/3 18 mm", "stud": "60 x 120 C24 planed", "mount_count": 3,
    "mount": "Chain link set with turnbuckle, two coach screws",
}  # fmt: skip
"""Three mounts at four studs: the middle one is not in the middle."""

OVER = 80 + 20 - 30
"""From an outer stud's middle, half of 60 mm from the end, to its mount's: the first bolt is 80 mm
from the rail's end (EN 1995-1-1 Table 8.4, from memory), the second 4 d = 40 mm further in."""
MOUNTS = (30 + OVER, 2000, 2970 - OVER)
FIRST, LAST = MOUNTS[1] - MOUNTS[0], MOUNTS[2] - MOUNTS[1]
LEVERS = (
    1 + OVER * (1 / FIRST + 1 / (2 * FIRST + 1.5 * LAST)),
    1.0,
    1 + OVER * (1 / LAST + 1 / (2 * LAST + 1.5 * FIRST)),
)
"""What a load at each mount's stud brings it: `tests/geometry/test_mounts.py` has it by a frame."""
LOST = 1 + (2000 - 30) / LAST
"""What a load at the first stud, its mount lost, brings the middle one: a seesaw on the last."""
WEIGHT = 1 + (2000 - WIDTH / 2) / LAST
"""What the whole weight brings it then: its middle is outside of the two that are left."""

SIDES: list[tuple[Align, Facing, int, int]] = [
    ("left", "+x", 0, 1),
    ("left", "-x", 3000, -1),
    ("right", "+x", 1000, 1),
    ("right", "-x", 4000, -1),
]
"""Where the climber's left end of the wall is across the room, and which way y counts from it."""


def beside(align: Align) -> Room:
    """A room whose walls stand along one side, so that none hangs off the beam's middle alone."""
    room = small_room(4)
    beam = replace(room.beams[0], underside_mm=(2400, 2400), span_mm=SPAN)
    wall = replace(room.wall, align=align, fold_up=False, width_mm=(WIDTH, WIDTH), max_columns=3)
    return replace(room, beams=(beam,), wall=wall, solids=())


def arm_mm(place_mm: float) -> float:
    """Moment of a load at p on a simple beam of span s, over the load: p (s - p) / s (statics)."""
    return max(place_mm * (SPAN - place_mm), 0.0) / SPAN


def arms_mm(start: int, way: int) -> list[float]:
    """Moments of a load on each mount over the load."""
    return [arm_mm(start + way * at - (ROOM_WIDTH - SPAN) / 2) for at in MOUNTS]


def worst_arm_mm(start: int, way: int) -> float:
    """The same of a load at any mount's stud, all mounts whole."""
    return max(lever * arm for lever, arm in zip(LEVERS, arms_mm(start, way), strict=True))


def lost_arm_mm(start: int, way: int) -> float:
    """The same with a mount lost: of what is left the middle one gets the most."""
    return max(worst_arm_mm(start, way), LOST * arms_mm(start, way)[1])


def loss_nmm(align: Align, facing: Facing) -> tuple[float, list[float]]:
    """Return what the wall adds to the beam's moment when a mount is lost, and mounts' places."""
    asked = {**DESIGN, "facing": facing}
    found = assess(beside(align), read_catalog(), asked)["designs"][0]
    demand = {row["name"]: row["demand"] for row in found["checks"]}
    bare = demand["ceiling beam without the wall"]
    return demand["ceiling beam, one mount lost"] - bare, found["mount_centres_mm"]


def test_the_beam_bends_by_mounts_where_they_hang() -> None:
    """The same loads hang on the worst mount of each wall, so the moments go like the arms.

    The climbers' is their weight as they fall (and half of it level, by the beam's depth over its
    width), levered.
    """
    moments, arms = [], []
    for align, facing, start, way in SIDES:
        moment, centres = loss_nmm(align, facing)
        assert centres == list(MOUNTS)
        moments.append(moment)
        arms.append((lost_arm_mm(start, way), WEIGHT * worst_arm_mm(start, way)))
    (climbers, weight), (rest, *_), *_ = np.linalg.lstsq(np.array(arms), np.array(moments))
    assert rest < (1e-4 * max(moments)) ** 2
    beam, climber = beside("left").beams[0], beside("left").climber
    down = climbers / (1 + 0.5 * beam.depth_mm / beam.width_mm)
    own = climber.mass_kg * 9.80665 * climber.dynamic_factor * climber.climbers
    assert 1 <= down / own < 1.2, "a mount set back from the lip is levered"
    assert 0 < weight < climbers
    assert loss_nmm("left", "+x")[0] > 1.2 * loss_nmm("left", "-x")[0]


@pytest.mark.parametrize(("align", "facing", "start", "way"), SIDES)
def test_the_search_hangs_mounts_where_they_hang(
    align: Align, facing: Facing, start: int, way: int
) -> None:
    """Four studs 60 mm wide, the outer ones flush, the others under the seams; mounts on three."""
    space = build_space(build_market(beside(align), read_catalog()))
    of_three = [
        s.split.columns == 3 and s.bays == 1 and not s.split.full_column_mm for s in space.sheetings
    ]
    sections = [section.width_mm for section in space.market.sections]
    where = of_three.index(True), sections.index(60), space.places.index((0, facing))
    found = build_hooks(space).look_up(*(np.array([at]) for at in (*where, 3)))
    assert found[0] == pytest.approx(worst_arm_mm(start, way))
    assert found[6:9].ravel() == pytest.approx([max(LEVERS), LOST, WEIGHT])
    assert found[9] == pytest.approx(lost_arm_mm(start, way))
