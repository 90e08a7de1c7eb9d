"""The room seen from a pivot, measured by hand on one drawing.

A room 5000 long, 3000 wide, ceiling 2600; the pivot hangs at 2300 under a beam at x = 3000. The
climber falls towards +x, so that p runs towards smaller x.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from steepwright.geometry.surroundings import Surroundings, beam_underside_mm, straight_between
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.types import Beam, Solid

BEAM = Beam("own", 3000, (2400, 2460), 120, 200, 3600, "C24", 0.0)
OTHER = replace(BEAM, name="other", x_mm=1500, underside_mm=(2500, 2440))
SOLID = Solid("box", (500, 900), (1000, 2000), (0, 1800))
ROOM = replace(
    read_room(catalogs_dir() / "example" / "room.toml"),
    length_mm=5000, width_mm=3000, ceiling_mm=2600, beams=(BEAM, OTHER), solids=(SOLID,),
)  # fmt: skip


def seen(facing: str = "+x", y_mm: tuple[float, float] = (500.0, 1500.0)) -> Surroundings:
    y0, y1 = (np.array([value]) for value in y_mm)
    return Surroundings(ROOM, BEAM, facing, np.array([2300.0]), y0, y1)  # type: ignore[arg-type]


def sides(box: object) -> list[float]:
    return [float(getattr(box, name)[0]) for name in box.__dataclass_fields__]  # type: ignore[attr-defined]


def test_a_solid_lies_behind_the_climber_or_before() -> None:
    assert sides(seen("+x").solids()[0]) == [2100, 2500, -2300, -500]
    assert sides(seen("-x").solids()[0]) == [-2500, -2100, -2300, -500]


@pytest.mark.parametrize(
    ("y_mm", "is_near"),
    [
        ((0, 1000), False), ((0, 1001), True), ((1999, 3000), True), ((2000, 3000), False),
        ((1200, 1300), True), ((0, 3000), True),
    ],
)  # fmt: skip
def test_a_solid_beside_the_wall_is_in_nobodys_way(
    y_mm: tuple[float, float], is_near: bool
) -> None:
    near, far, low, high = sides(seen(y_mm=y_mm).solids()[0])
    assert (abs(near) < 5000) == is_near
    assert (far - near, low, high) == (400, -2300, -500)


def test_the_end_walls_are_all_that_lies_beyond_them() -> None:
    back, front = (sides(box) for box in seen("+x").end_walls())
    assert back[0] == 3000
    assert front[1] == -2000
    assert min(back[1], -front[0], -back[2], back[3], -front[2], front[3]) > 5e5


def test_ceiling_and_beams_reach_up_to_each_other() -> None:
    names, boxes = zip(*seen("+x").overhead(), strict=True)
    assert names == ("ceiling", "own", "other")
    assert sides(boxes[0])[2] == 300
    # Of a beam out of level the lower end over y = 500 ... 1500 counts.
    assert sides(boxes[1]) == [-60, 60, 2410 - 2300, 300]
    assert sides(boxes[2]) == [1440, 1560, 2470 - 2300, 300]


def test_a_beam_below_the_ceilings_height_is_no_thinner_than_nothing() -> None:
    above = replace(ROOM, ceiling_mm=2405)
    box = sides(replace(seen(), room=above).overhead()[1][1])
    assert box[2:] == [2410 - 2300, 2410 - 2300]


def test_what_is_hidden_is_not_there() -> None:
    hidden = replace(OTHER, kind="joist")
    assert not hidden.seen
    names = [
        name for name, _ in replace(seen(), room=replace(ROOM, beams=(BEAM, hidden))).overhead()
    ]
    assert names == ["ceiling", "own"]


def test_heights_lie_on_the_straight_line_between_both_ends() -> None:
    np.testing.assert_allclose(beam_underside_mm(BEAM, ROOM, [0, 750, 3000]), [2400, 2415, 2460])
    assert straight_between((10.0, 0.0), 4.0, 1.0) == 7.5
