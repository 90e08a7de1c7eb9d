"""Who makes which cut of a small sheet drawn by hand, and what leaves the shop uncut.

The sheet, 2000 x 1000 with a kerf of 4, is cut at x = 1500 first; the near block, 1500 x 1000, is
cut at y = 600 into a part of 1500 x 600 and one of 1500 x 396; the far block, 496 x 1000, at y = 90
into a strip of 496 x 90 and one of 496 x 500, trimmed off the rest.
"""

from __future__ import annotations

import pytest

from steepwright.cutting.records import PlacedPart, SawCut, SheetLayout
from steepwright.optimise.shop import cut_makers
from steepwright.room.types import Offcut, Yard

LAYOUT = SheetLayout(
    "sheet", 2000, 1000, 4,
    (
        PlacedPart("a", 0, 0, 1500, 600),
        PlacedPart("b", 0, 604, 1500, 396),
        PlacedPart("c", 1504, 0, 496, 90),
        PlacedPart("d", 1504, 94, 496, 500),
    ),
    (
        SawCut("x", 1500, (0, 2000), (0, 1000)),
        SawCut("y", 600, (0, 1500), (0, 1000)),
        SawCut("y", 90, (1504, 2000), (0, 1000)),
        SawCut("y", 594, (1504, 2000), (94, 1000)),
    ),
)  # fmt: skip


@pytest.mark.parametrize(
    ("yard", "makers"),
    [
        (Yard(), "shop shop shop shop"),
        (Yard(saw_least_mm=90), "shop shop shop shop"),
        (Yard(saw_least_mm=91), "shop shop home home"),  # what is left of that block, too
        (Yard(saw_least_mm=397), "shop home home home"),
        (Yard(saw_least_mm=497), "home home home home"),
        (Yard(saw_max_mm=(2000, 1000)), "shop shop shop shop"),
        (Yard(saw_max_mm=(1000, 2000)), "shop shop shop shop"),
        (Yard(saw_max_mm=(1900, 1000)), "home home home home"),  # not even the first
    ],
)
def test_the_shop_cuts_within_its_limits_and_in_the_saw_s_order(yard, makers):
    assert " ".join(cut_makers(LAYOUT, yard)) == makers


def test_waste_may_be_narrower_than_the_least_strip():
    trimmed = SheetLayout(
        "sheet", 2000, 1000, 4,
        (PlacedPart("a", 0, 0, 1950, 1000),),
        (SawCut("x", 1950, (0, 2000), (0, 1000)),),
    )  # fmt: skip
    assert cut_makers(trimmed, Yard(saw_least_mm=100)) == ("shop",)


@pytest.mark.parametrize(("price", "maker"), [(0, "home"), (500, "shop")])
def test_own_offcuts_are_sawn_at_home_and_bought_ones_at_the_shop(price, maker):
    offcut = Offcut("rest", "birch", 18, 800, 500, "length", 1, price)
    layout = SheetLayout(
        "offcut-1", 800, 500, 4,
        (PlacedPart("a", 0, 0, 400, 500),),
        (SawCut("x", 400, (0, 800), (0, 500)),),
    )  # fmt: skip
    assert cut_makers(layout, Yard(offcuts=(offcut,))) == (maker,)
