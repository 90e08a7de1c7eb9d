"""Time of the exact cutting solvers on one core; run with `pytest tests/bench`.

The walls are drawn at random and laid out as the product does: equal columns, or stock-wide ones
and a rest. Process time, so that a busy machine does not blur it.
"""

from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable

import pytest

from solver_memory import clear_caches
from steepwright.cutting import bar_cost_cents, sheet_cost_cents
from steepwright.cutting.records import BarPart, BarStock, SheetPart, SheetStock

KERF_MM = 4
SHEETS = tuple(
    SheetStock(f"sheet {i}", *row)
    for i, row in enumerate(
        (
            (2500, 1250, "length", 6200, 150, None),
            (2440, 1220, "length", 5600, 150, None),
            (3000, 1500, "length", 9800, 150, None),
            (2500, 1250, "width", 6400, 150, None),
            (1525, 1525, "length", 4100, 150, None),
            (3050, 1525, "length", 10100, 150, None),
            (1830, 1220, "length", 4300, 150, None),
            (2135, 1220, "length", 5000, 150, None),
            (3660, 1220, "length", 9000, 150, None),
            (1250, 800, "length", 0, 0, 1),
        )
    )
)
ASSORTMENT = (
    SheetStock("2500 x 1250", 2500, 1250, "length", 190, 0, None),
    SheetStock("2440 x 1220", 2440, 1220, "length", 150, 0, None),
    SheetStock("3000 x 1500", 3000, 1500, "length", 300, 0, None),
)


def divided(total: int, parts: int, full: int) -> tuple[int, ...]:
    if full:
        return (full,) * (parts - 1) + (total - full * (parts - 1),)
    size, larger = divmod(total, parts)
    return (size + 1,) * larger + (size,) * (parts - larger)


def wall(draw: random.Random, columns: int, rows: int) -> tuple[SheetPart, ...]:
    while True:
        wide = divided(draw.randrange(600 * columns, 1250 * columns, 5), columns, 0)
        if draw.random() < 0.5:
            wide = divided(sum(wide), columns, draw.choice((1220, 1250)))
        long = draw.randrange(1300 * rows, min(1850 * rows, 4000), 5)
        high = divided(long, rows, draw.choice((0, 0, 2500, 2440, 1220)))
        if min(*wide, *high, 10**6) >= 200:
            break
    kicker = draw.randrange(150, 450, 5)
    parts = [
        SheetPart(f"piece {x}.{y}", length, width, "length", 1)
        for x, width in enumerate(wide)
        for y, length in enumerate(high)
    ]
    parts += [SheetPart(f"kicker {x}", kicker, width, "any", 1) for x, width in enumerate(wide)]
    return tuple(parts)


def frame(draw: random.Random) -> tuple[tuple[BarPart, ...], tuple[BarStock, ...]]:
    studs = draw.randint(3, 10)
    lengths = sorted(draw.sample(range(2400, 6001, 300), draw.randint(3, 7)))
    rate = draw.uniform(0.25, 0.6)
    stocks = tuple(
        BarStock(f"{x}", x, round(x * rate * draw.uniform(0.96, 1.04)), None) for x in lengths
    )
    rows = (
        (draw.randrange(2300, min(3300, lengths[-1]), 5), studs),
        (draw.randrange(1200, 2401, 5), draw.randint(2, 4)),
        (draw.randrange(150, 350), studs),
        (draw.randrange(300, 500), draw.randint(1, studs - 1)),
        (draw.randrange(250, 500), draw.randint(1, studs - 1)),
    )
    return tuple(BarPart(f"part {i}", *row) for i, row in enumerate(rows)), stocks


def told(what: str, solve: Callable[[], object], times: int) -> list[float]:
    clear_caches()
    taken = []
    for _ in range(times):
        start = time.process_time()
        solve()
        taken.append((time.process_time() - start) * 1000)
    taken.sort()
    print(f"\n{what}: median {statistics.median(taken):.2f} ms, max {taken[-1]:.1f} ms")
    return taken


@pytest.mark.bench
@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (2, 1), (2, 2), (3, 2)])
def test_sheets_of_typical_walls(columns: int, rows: int) -> None:
    draw = random.Random(1)
    taken = told(
        f"sheets, {columns} x {rows} pieces and {columns} kicker strips, 10 stock sizes",
        lambda: sheet_cost_cents(wall(draw, columns, rows), SHEETS, KERF_MM),
        60,
    )
    assert statistics.median(taken) < 50


@pytest.mark.bench
def test_bars_of_typical_frames() -> None:
    draw = random.Random(1)
    taken = told("bars", lambda: bar_cost_cents(*frame(draw), KERF_MM), 300)
    assert statistics.median(taken) < 10


@pytest.mark.bench
@pytest.mark.parametrize(("seed", "least"), list(enumerate((450, 600, 450, 600, 450))))
def test_assortment_of_12_parts(seed: int, least: int) -> None:
    # Least costs as in tests/validation/test_cutting_sheets_published.py.
    draw = random.Random(seed)
    parts = []
    for i in range(12):
        length, width = draw.randrange(200, 1500, 5), draw.randrange(150, 1220, 5)
        turns = draw.random() < 0.5
        parts.append(SheetPart(f"part {i}", length, width, "any" if turns else "length", 1))
    costs = []
    told(
        f"12 different parts, seed {seed}",
        lambda: costs.append(sheet_cost_cents(tuple(parts), ASSORTMENT, KERF_MM)),
        1,
    )
    assert costs == [least]
