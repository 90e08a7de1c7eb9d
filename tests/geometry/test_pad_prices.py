"""Prices of many floors' pads at once, against each floor laid by itself."""

from __future__ import annotations

import random

import numpy as np

from steepwright.geometry.pad_prices import FLOORS_AT_ONCE, Lengths, cheapest_cents
from steepwright.geometry.pads import Pad, Span, lay_pads


def kinds_of(r: random.Random) -> tuple[Pad, ...]:
    """Some kinds of pads; a few of which there are only so many."""
    kinds = []
    for n in range(r.choice([1, 2, 2, 3])):
        long = r.randrange(900, 2400, 50)
        wide = r.choice([long, long // 2, r.randrange(500, long + 1, 50)])
        few = n > 0 and r.random() < 0.4
        price = 0 if few else r.randrange(5000, 40000, 100)
        kinds.append(Pad(str(n), long, wide, price, r.choice([1, 2, 3]) if few else None))
    return tuple(kinds)


def floors_of(r: random.Random, count: int) -> list[tuple[Span, Span]]:
    """Floors with more or less clear beyond what is to be padded, at either end."""
    found = []
    for _ in range(count):
        wanted, ahead = r.randrange(1500, 4500, 7), r.randrange(0, 900, 7)
        left, right = r.randrange(0, 2500, 11), r.randrange(0, 2500, 11)
        low, high = 3000, 3000 + r.randrange(900, 2000, 10)
        out = Span((0, wanted), (0, wanted + ahead), anchored=True)
        across = Span((low - min(left, 1500), high + min(right, 1500)), (low - left, high + right))
        found.append((out, across))
    return found


def lengths_of(spans: list[Span]) -> Lengths:
    return Lengths(*np.array([(span.size_mm, span.clear_mm) for span in spans]).T)


def test_many_floors_at_once_cost_what_each_one_does() -> None:
    r = random.Random(23)
    for _ in range(40):
        kinds, floors = kinds_of(r), floors_of(r, 8)
        outs, acrosses = (list(spans) for spans in zip(*floors, strict=True))
        cents = cheapest_cents(kinds, lengths_of(outs), lengths_of(acrosses))
        assert cents.tolist() == [lay_pads(kinds, *floor).cost_cents for floor in floors]


def test_more_floors_than_are_looked_at_together_cost_the_same() -> None:
    kinds = (Pad("large", 2000, 1000, 28900, None), Pad("small", 1000, 1000, 15900, None))
    wanted = np.arange(FLOORS_AT_ONCE + 100, dtype=np.int64) % 5000
    out = Lengths(wanted, wanted + 400)
    across = Lengths(np.full_like(wanted, 4000), np.full_like(wanted, 4300))
    cents = cheapest_cents(kinds, out, across)
    assert np.array_equal(cents[5000:10000], cents[:5000])
    assert np.array_equal(cents[-100:], cents[FLOORS_AT_ONCE % 5000 :][:100])


def test_no_pad_fits_a_floor_that_is_shorter_than_each() -> None:
    one = Lengths(np.array([400]), np.array([450]))
    assert cheapest_cents((Pad("one", 900, 500, 9900, None),), one, one).tolist() == [0]
