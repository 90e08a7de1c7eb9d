"""Lists that are alike: one stands for another exactly when no comparison of lengths differs.

Checked by going through all small sizes: every table of fits is made anew from the list's own
sizes, and lists called alike must all have the same one; lists of bars the same cost.
"""

from __future__ import annotations

import math
from itertools import combinations, product

import pytest

from steepwright.cutting.alike import MOST_CHOICES, MOST_PAIRS, Alike, BarsAlike, alike, bars_alike
from steepwright.cutting.barlist import BarOffer, BarType
from steepwright.cutting.barsearch import solve_bars
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
    assert pair(6, 3, 4) == pair(6, 3, 5) != pair(6, 3, 6)
    # Beyond every sheet's side nothing more is told apart.
    assert pair(6, 3, 11) == pair(6, 3, 12)


def test_long_lists_are_alike_only_when_equal() -> None:
    many = CutList((PartType(5, 4, 5, 4, True),), (MOST_PAIRS,))
    longer = CutList((PartType(6, 4, 6, 4, True),), (MOST_PAIRS,))
    assert alike(many, SHEETS, 0) == alike(many, SHEETS, 0) != alike(longer, SHEETS, 0)


def test_what_is_too_large_for_all_sheets_is_alike() -> None:
    def pair(u: int, v: int) -> CutList:
        return CutList((PartType(u, v, math.inf, math.inf, False),), (2,))

    assert rows_of(pair(50, 50)) == ()
    assert alike(pair(50, 50), SHEETS, 0) == alike(pair(60, 70), SHEETS, 0)


def test_lists_of_bars_that_are_alike_cost_the_same() -> None:
    offers = BarOffer(9, 10, None), BarOffer(14, 13, 1), BarOffer(16, 17, None)
    found: dict[BarsAlike, set[int | None]] = {}
    number = 0
    for a, b in combinations(range(2, 17), 2):
        types = BarType(b, 2), BarType(a, 3)
        solved = solve_bars(types, offers)
        costs = found.setdefault(bars_alike(types, offers), set())
        costs.add(None if solved is None else solved.cents)
        number += 1
    assert len(found) < number / 2
    assert {len(costs) for costs in found.values()} == {1}


def test_bars_are_not_alike_when_a_choice_of_pieces_fits_another_stock() -> None:
    offers = (BarOffer(10, 5, None),)

    def two(long: int, short: int) -> BarsAlike:
        return bars_alike((BarType(long, 1), BarType(short, 1)), offers)

    assert two(6, 3) == two(7, 3) == two(6, 4) != two(7, 4)
    many = (BarType(7, MOST_CHOICES),)
    assert bars_alike(many, offers) != bars_alike((BarType(6, MOST_CHOICES),), offers)
