"""Small helpers of the solvers against plain enumeration."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from steepwright.cutting.barlist import BarType, maximal
from steepwright.cutting.shapes import SheetSize, least_cuts


@given(
    st.lists(st.tuples(st.integers(1, 9), st.integers(0, 3)), min_size=1, max_size=3),
    st.integers(0, 20),
)
def test_choices_to_which_nothing_can_be_added(types: list[tuple[int, int]], room: int) -> None:
    left = tuple(count for _, count in types)
    wanted = []
    for counts in itertools.product(*(range(count + 1) for count in left)):
        used = sum(n * length for n, (length, _) in zip(counts, types, strict=True))
        more = any(
            n < count and used + length <= room
            for n, count, (length, _) in zip(counts, left, types, strict=True)
        )
        if used <= room and not more:
            wanted.append((used, counts))
    found = maximal(tuple(BarType(*one) for one in types), left, room)
    assert sorted(found) == sorted(wanted)


def test_trims_are_counted_where_a_block_is_smaller_than_its_sheet() -> None:
    # Blocks: cuts, width, height, and the negated sizes up to which no trim is asked for.
    whole = SheetSize(2000, 1000)
    assert least_cuts([(3, 2000, 1000, -2000, -1000)], whole, 0) == 3
    assert least_cuts([(3, 1900, 1000, -1900, -1000)], whole, 0) == 4
    assert least_cuts([(3, 1900, 900, -1900, -900)], whole, 0) == 5
    assert least_cuts([(3, 2001, 900, -2001, -900)], whole, 0) is None
    assert least_cuts([(3, 2000, 1001, -2000, -1001)], whole, 0) is None
    assert least_cuts([], whole, 0) is None
    # One more cut inside, but no trim.
    assert least_cuts([(3, 1900, 900, -1900, -900), (4, 2000, 1000, -2000, -1000)], whole, 0) == 4
    # The sheet is one kerf longer, as every part is.
    assert least_cuts([(1, 2004, 1004, -2004, -1004)], whole, 4) == 1
