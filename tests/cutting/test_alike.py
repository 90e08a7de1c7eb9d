"""Lists that are alike: one stands for another exactly when no comparison of lengths differs.

Checked by going through all small sizes: every table of fits is made anew from the list's own
sizes, and lists called alike must all have the same one.
"""

from __future__ import annotations

import math
from itertools import product

import pytest

from steepwright.cutting.alike import MOST_ROWS, Alike, alike
from steepwright.cutting.cutlist import CutList, with_free_trims
from steepwright.cutting.fits import fits_of
from steepwright.cutting.shapes import PartType, SheetSize

SHEETS = SheetSize(9, 6), SheetSize(7, 8)
KERF_MM = 1


def groups(lists: list[CutList]) -> dict[Alike, list[CutList]]:
    """Return lists that stand for one another."""
    found: dict[Alike, list[CutList]] = {}
    for listed in lists:
        found.setdefault(alike(listed, SHEETS, KERF_MM), []).append(listed)
    return found


def rows_of(listed: CutList) -> object:
    """Return the table of fits made from the list's own sizes."""
    return fits_of.__wrapped__(alike(listed, SHEETS, KERF_MM)).rows


def two_types(sides: range, turns: tuple[bool, bool], longer: tuple[int, ...]) -> list[CutList]:
    """Return two parts of one type and one of another, of all sizes, with all ranges."""
    return [
        CutList(
            (PartType(u, v, u + more, v, turns[0]), PartType(x, y, x, y + more, turns[1])), (2, 1)
        )
        for u, v, x, y, more in product(sides, sides, sides, sides, longer)
    ]


@pytest.mark.parametrize("turns", [(False, False), (True, False), (True, True)])
@pytest.mark.parametrize("longer", [(0,), (0, 1, 5)])
def test_lists_that_are_alike_have_the_same_fits(
    turns: tuple[bool, bool], longer: tuple[int, ...]
) -> None:
    lists = two_types(range(2, 8), turns, longer)
    found = groups(lists)
    assert len(found) < len(lists)
    for same in found.values():
        assert len({rows_of(listed) for listed in same}) == 1


@pytest.mark.parametrize("turns", [(False, False), (True, False), (True, True)])
def test_with_free_trims_only_the_sheets_are_compared_with(turns: tuple[bool, bool]) -> None:
    lists = [with_free_trims(listed) for listed in two_types(range(2, 8), turns, (0,))]
    found = groups(lists)
    assert len(found) < len(lists)
    for same in found.values():
        assert len({rows_of(listed) for listed in same}) == 1


def test_what_differs_in_one_comparison_is_not_alike() -> None:
    def pair(across: int, other: int, most: int) -> Alike:
        types = PartType(4, across, 4, across, False), PartType(4, other, 4, most, False)
        return alike(CutList(types, (1, 1)), (SheetSize(20, 10),), 0)

    assert pair(5, 3, 3) == pair(6, 3, 3)
    # Together as wide as the sheet, and wider.
    assert pair(6, 3, 3) != pair(7, 3, 3)
    assert pair(7, 3, 3) != pair(8, 3, 3)
    # One as wide as the other; a range that reaches the other, and one that doesn't.
    assert pair(3, 3, 3) != pair(4, 3, 3)
    assert pair(6, 3, 5) != pair(6, 3, 6)
    # Beyond every sheet's side nothing more is told apart.
    assert pair(6, 3, 11) == pair(6, 3, 12)


def test_long_lists_are_alike_only_when_equal() -> None:
    many = CutList((PartType(5, 4, 5, 4, True),), (MOST_ROWS,))
    longer = CutList((PartType(6, 4, 6, 4, True),), (MOST_ROWS,))
    assert alike(many, SHEETS, 0) == alike(many, SHEETS, 0) != alike(longer, SHEETS, 0)


def test_what_is_too_large_for_all_sheets_is_alike() -> None:
    def pair(u: int, v: int) -> CutList:
        return CutList((PartType(u, v, math.inf, math.inf, False),), (2,))

    assert rows_of(pair(50, 50)) == ()
    assert alike(pair(50, 50), SHEETS, 0) == alike(pair(60, 70), SHEETS, 0)
