"""Re-pricing: the reference that the page is held against."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repricing import reprice
from steepwright.report.views.prices import bill_lines, price_lines

Doc = dict[str, Any]


def test_without_a_new_price_nothing_moves(document: Doc) -> None:
    same = reprice(document, {})
    assert same.cost_cents == {d["id"]: d["cost_cents"] for d in document["designs"]}
    assert same.front == tuple(d["id"] for d in document["designs"])
    assert same.least_ratio == 1.0


def test_a_new_price_counts_once_per_unit(document: Doc) -> None:
    line = document["designs"][0]["bill"][0]
    moved = reprice(document, {line["sku"]: line["unit_cents"] + 7})
    for design in document["designs"]:
        units = sum(x["quantity"] for x in design["bill"] if x["sku"] == line["sku"])
        assert moved.cost_cents[design["id"]] == design["cost_cents"] + 7 * units


def test_every_article_is_listed_once_with_its_pack(plain_document: Doc) -> None:
    lines = price_lines(plain_document)
    assert [(x.sku, x.what, x.unit_cents) for x in lines] == [
        ("s", "Sheet", 400),
        ("n", "T-nut, pack of 50 pieces", 200),
    ]


@pytest.mark.parametrize(
    ("what", "shown", "listed"),
    [
        ("Rope (pack of 20 m, 12 needed)", "Rope (pack of 20 m, 12 needed)", "Rope, pack of 20 m"),
        ("Nut, pack of 50 (pack of 50 pieces, 9 needed)", "Nut, pack of 50 (9 needed)", None),
        ("Nut, pack of 50 (pack of 50 pieces)", "Nut, pack of 50", None),
        (
            "Nut, pack of 50 (pack of 50 pieces, 72 needed in all)",
            "Nut, pack of 50 (72 needed in all)",
            None,
        ),
        ("Latch (pack of 1 pieces, 2 needed)", "Latch", "Latch"),
        ("Sheet", "Sheet", "Sheet"),
    ],
)
def test_a_pack_is_told_once(
    plain_document: Doc, what: str, shown: str, listed: str | None
) -> None:
    line = plain_document["designs"][0]["bill"][1] | {"what": what}
    design = plain_document["designs"][0] | {"bill": [line]}
    assert bill_lines(design)[0].what == shown
    assert price_lines({"designs": [design]})[0].what == (listed or "Nut, pack of 50")


PRICES = st.lists(st.integers(0, 50), min_size=3, max_size=3)


@given(
    st.lists(
        st.tuples(*[st.integers(0, 4)] * 3, st.integers(20, 25), st.integers(0, 3)), min_size=1
    ),
    PRICES,
    PRICES,
)
def test_bound_and_front_hold_for_any_walls(
    walls: list[tuple[int, ...]], old: list[int], new: list[int]
) -> None:
    """The bound on walls outside the page, tried on walls that are left out of it."""
    designs = [
        {
            "id": str(n),
            "angle_deg": float(wall[3]),
            "fall_space_mm": wall[4],
            "bill": [
                {
                    "sku": f"a{i}",
                    "what": "x",
                    "quantity": wall[i],
                    "unit_cents": old[i],
                    "group": "sheets",
                    "yard": "",
                }
                for i in range(3)
                if wall[i]
            ],
        }
        for n, wall in enumerate(walls)
    ]
    everything = {"designs": designs}
    before = reprice(everything, {})
    page = {"designs": [d for d in designs if d["id"] in before.front]}
    on_page = {line.sku for line in price_lines(page)}
    prices = {f"a{i}": cents for i, cents in enumerate(new) if f"a{i}" in on_page}
    after, all_after = reprice(page, prices), reprice(everything, prices)
    for angle in range(20, 26):
        here = [d["id"] for d in page["designs"] if d["angle_deg"] >= angle]
        if here:
            least = min(before.cost_cents[i] for i in here) * after.least_ratio
            steep = [d["id"] for d in designs if d["angle_deg"] >= angle]
            assert min(all_after.cost_cents[i] for i in steep) >= least - 1e-6
    for one, other in itertools.permutations(page["designs"], 2):
        if one["id"] in after.front and other["id"] in after.front:
            assert not _beats(one, other, after.cost_cents)


def _beats(one: Doc, other: Doc, cost: Any) -> bool:
    a = (-cost[one["id"]], one["angle_deg"], one["fall_space_mm"])
    b = (-cost[other["id"]], other["angle_deg"], other["fall_space_mm"])
    return all(x >= y for x, y in zip(a, b, strict=True)) and a != b


@pytest.mark.parametrize(("new", "ratio"), [(200, 0.5), (800, 1.0), (0, 0.0)])
def test_the_ratio_is_that_of_the_deepest_cut(plain_document: Doc, new: int, ratio: float) -> None:
    assert reprice(plain_document, {"s": new}).least_ratio == ratio
