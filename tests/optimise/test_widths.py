"""What mounts do to a beam over a range of widths, against every width of it by itself."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from small_rooms import tiny_room

from steepwright.geometry.layout import divide, stud_centres
from steepwright.optimise.hooks import HungOn, hooks_of, least_effects
from steepwright.room.types import FACINGS


@pytest.mark.parametrize("seed", range(60))
def test_no_width_between_two_undercuts_the_least_effects(seed: int) -> None:
    r = random.Random(seed)
    room = tiny_room(seed)
    room = replace(room, wall=replace(room.wall, align=r.choice(["left", "centre", "right"])))
    first = r.randrange(900, 2400, 5)
    last = first + r.randrange(5, 900, 5)
    columns, bays, stud, mounts = r.choice([1, 2, 3]), r.choice([1, 2, 3]), 60, r.choice([2, 3, 4])
    full = r.choice([0, 300]) if columns > 1 else 0
    span = float(room.width_mm + r.choice([-900, -300, 0, 150]))
    on = HungOn(span, r.choice(FACINGS), r.choice([0.0, 70.0, 77.5]))

    def centres(width_mm: int) -> tuple[float, ...]:
        made = divide(width_mm, columns, full, 100)
        assert made is not None
        return stud_centres(made, bays, stud)

    ends = centres(first), centres(last)
    count = min(mounts, len(ends[0]))
    least = least_effects(room, on, ends, count)
    for width in range(first, last + 1, 5):
        alone = hooks_of(room, on, centres(width), count).row
        assert all(low <= one + 1e-9 for low, one in zip(least, alone, strict=True)), width
    if count > 2 and columns * full == 0:
        # Of even bays all is told but for the millimetres that columns are rounded by.
        widest = hooks_of(room, on, ends[1], count)
        assert least[7] >= 1 + 0.9 * (widest.lost_load - 1)
