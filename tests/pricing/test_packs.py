"""Whole packs against plain enumeration."""

from __future__ import annotations

import itertools

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from steepwright.pricing.packs import PackTable

PACKS = st.lists(
    st.tuples(st.integers(1, 9), st.integers(1, 50)), min_size=1, max_size=3, unique=True
)


@given(PACKS, st.integers(0, 14))
def test_no_mix_of_packs_is_cheaper(sizes: list[tuple[int, int]], quantity: int) -> None:
    packs = tuple((f"p{i}", pieces, price) for i, (pieces, price) in enumerate(sizes))
    table = PackTable(packs, 14)
    brute = min(
        sum(n * price for n, (_, _, price) in zip(counts, packs, strict=True))
        for counts in itertools.product(range(15), repeat=len(packs))
        if sum(n * pieces for n, (_, pieces, _) in zip(counts, packs, strict=True)) >= quantity
    )
    assert int(table.cost_cents(np.array([quantity]))[0]) == brute


@given(PACKS, st.integers(0, 40))
def test_what_is_bought_is_enough_and_costs_what_was_said(
    sizes: list[tuple[int, int]], quantity: int
) -> None:
    packs = tuple((f"p{i}", pieces, price) for i, (pieces, price) in enumerate(sizes))
    table = PackTable(packs, 40)
    known = {sku: (pieces, price) for sku, pieces, price in packs}
    bought = table.buy(quantity)
    assert sum(known[sku][0] * n for sku, n in bought) >= quantity
    cost = sum(known[sku][1] * n for sku, n in bought)
    assert cost == int(table.cost_cents(np.array([quantity]))[0])
