"""Which trims no list of parts can do without: by hand, and against every row of parts there is."""

from __future__ import annotations

import itertools
import math

from hypothesis import given
from hypothesis import strategies as st

from steepwright.cutting.cutlist import CutList
from steepwright.cutting.fits import least_trims
from steepwright.cutting.shapes import PartType, SheetSize


def trims(parts: list[tuple[PartType, int]], sheet: tuple[int, int], kerf_mm: int) -> int:
    listed = CutList(tuple(kind for kind, _ in parts), tuple(count for _, count in parts))
    (found,) = least_trims(listed, (SheetSize(*sheet),), kerf_mm)
    return found


def test_trims_by_hand() -> None:
    # One part of 100 to 120 along and 50 to 60 across, which may not be turned.
    one = [(PartType(100, 50, 120, 60, False), 1)]
    for along, at_least in ((99, 1), (100, 0), (120, 0), (121, 1)):
        assert trims(one, (along, 55), 4) == at_least, along
        assert trims(one, (along, 61), 4) == at_least + 1, along
    # Two in a row with a kerf of 4 between them fill 204 to 244.
    two = [(PartType(100, 50, 120, 60, False), 2)]
    for along, at_least in ((203, 1), (204, 0), (244, 0), (245, 1)):
        assert trims(two, (along, 55), 4) == at_least, along
    # Turned, the part's 50 to 60 lie along the sheet, and its 100 to 120 across.
    turned = [(PartType(100, 50, 120, 60, True), 1)]
    assert trims(turned, (55, 110), 4) == 0
    assert trims(turned, (55, 121), 4) == 1
    # A part that keeps any rest fills every larger sheet.
    free = [(PartType(100, 50, math.inf, math.inf, False), 1)]
    assert trims(free, (5000, 5000), 4) == 0
    assert trims(free, (99, 5000), 4) == 1
    # Sheets of several sizes are told apart.
    listed = CutList((one[0][0],), (1,))
    assert least_trims(listed, (SheetSize(110, 55), SheetSize(300, 55), SheetSize(300, 90)), 4) == (
        0, 1, 2,
    )  # fmt: skip


SIDE = st.tuples(st.integers(1, 9), st.integers(0, 3))
PART = st.builds(
    lambda u, v, turns, count: (PartType(u[0], v[0], u[0] + u[1], v[0] + v[1], turns), count),
    SIDE, SIDE, st.booleans(), st.integers(1, 2),
)  # fmt: skip


@given(
    st.lists(PART, min_size=1, max_size=3), st.tuples(st.integers(1, 25), st.integers(1, 25)),
    st.integers(0, 3),
)  # fmt: skip
def test_trims_are_those_that_no_row_of_parts_avoids(
    parts: list[tuple[PartType, int]], sheet: tuple[int, int], kerf_mm: int
) -> None:
    missing = 0
    for axis, side in enumerate(sheet):
        ways = []
        for kind, count in parts:
            lying = [(kind[axis], kind[axis + 2])]
            if kind.turns:
                lying.append((kind[1 - axis], kind[3 - axis]))
            ways += [[None, *lying]] * count
        filled = False
        for row in itertools.product(*ways):
            taken = [sides for sides in row if sides]
            kerfs = kerf_mm * (len(taken) - 1)
            least, most = (sum(sides[end] for sides in taken) + kerfs for end in (0, 1))
            filled = filled or (bool(taken) and least <= side <= most)
        missing += not filled
    assert trims(parts, sheet, kerf_mm) == missing
