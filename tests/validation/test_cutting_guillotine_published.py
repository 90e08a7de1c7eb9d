"""Published guillotine patterns: the most value from one sheet, fixed orientation, no kerf.

Sources: cgcut1-3 = Christofides & Whitlock, Operations Research 25 (1977) 30-44, as kept in
OR-Library and in the ESICUP collection of data sets (CC0 1.0); Wang = P. Y. Wang, Operations
Research 31 (1983) 573-586; OF1, OF2 = Oliveira & Ferreira, European Journal of Operational
Research 44 (1990) 256-266. Optimal values as given with these data sets; page numbers from
memory.

The product never maximises value on one sheet, so the values are computed here, bottom up as
Wang does it, from the same joins and the same dominance that the cut plans rest on. A pattern
that can't reach `at_least` any more is dropped and all others are made, so a result of exactly
the published optimum shows both that it can be cut and that nothing better can.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import pytest

from steepwright.cutting.lattice import Packing
from steepwright.cutting.shapes import Block, PartType, SheetSize, join, part_blocks, room_of

ANY_LARGER = 10**6
"""A part may be made with any rest still on it: trims are free in these problems."""


class Item(NamedTuple):
    length: int
    width: int
    most: int
    value: int


def items(text: str) -> tuple[Item, ...]:
    """Read rows of ``length width xmost=value``; without a value the area counts."""
    rows = []
    for row in text.split(";"):
        sides, _, value = row.partition("=")
        length, width, most = (int(word.strip("x ")) for word in sides.split())
        rows.append(Item(length, width, most, int(value) if value else length * width))
    return tuple(rows)


def promise(
    parts: tuple[Item, ...], packing: Packing, sheet: SheetSize
) -> Callable[[int, Block], int]:
    """Return the bound on the value of a sheet that has a block in it: the rest by area."""
    by_rate = sorted(
        range(len(parts)), key=lambda i: -parts[i].value / (parts[i].length * parts[i].width)
    )

    def bound(code: int, block: Block) -> int:
        digits = packing.digits(code)
        area = sheet.u * sheet.v - block[1] * block[2]
        value = sum(n * p.value for n, p in zip(digits, parts, strict=True))
        for i in by_rate:
            part = parts[i]
            size = part.length * part.width
            number = min(part.most - digits[i], area // size)
            value += number * part.value
            area -= number * size
            if number < part.most - digits[i]:
                return value - (-area * part.value // size)
        return value

    return bound


def best_value(parts: tuple[Item, ...], sheet: SheetSize, at_least: int) -> int:
    """Return the greatest value of one sheet if it is not below `at_least`, 0 otherwise."""
    packing = Packing(tuple(p.most for p in parts))
    room = room_of((sheet,), 0)
    bound = promise(parts, packing, sheet)
    kept: dict[int, list[tuple[int, int]]] = {}
    done: list[tuple[int, Block]] = []
    best = 0

    def offer(code: int, block: Block) -> None:
        nonlocal best
        _, w, h, _, _ = block
        if any(x <= w and y <= h for x, y in kept.get(code, ())):
            return
        if bound(code, block) < at_least:
            return
        kept.setdefault(code, []).append((w, h))
        waiting.append((code, (0, w, h, -ANY_LARGER, -ANY_LARGER)))
        digits = packing.digits(code)
        best = max(best, sum(n * p.value for n, p in zip(digits, parts, strict=True)))

    waiting: list[tuple[int, Block]] = []
    for unit, part in zip(packing.units, parts, strict=True):
        kind = PartType(part.length, part.width, ANY_LARGER, ANY_LARGER, False)
        for block in part_blocks(kind, 0, room):
            offer(unit, block)
    while waiting:
        code, block = waiting.pop()
        done.append((code, block))
        guarded = (packing.full | packing.guards) - code
        for other, other_block in tuple(done):
            if guarded - other & packing.guards == packing.guards:
                made: set[Block] = set()
                join([block], [other_block], room, made)
                for joined in sorted(made):
                    offer(code + other, joined)
    return best if best >= at_least else 0


CGCUT1 = items("8 4 x2=66; 3 7 x1=35; 8 2 x3=24; 3 4 x5=17; 3 3 x2=11; 3 2 x2=8; 2 1 x1=2")
CGCUT2 = items(
    "21 22 x1=582; 31 13 x1=403; 9 35 x3=315; 9 24 x3=216; 30 7 x2=210; 11 13 x3=143;"
    "10 14 x1=140; 14 8 x3=110; 12 8 x3=94; 13 7 x3=90"
)
CGCUT3 = items(
    "31 43 x4=500; 30 41 x2=480; 29 39 x4=460; 28 38 x4=440; 27 37 x3=420; 26 36 x4=410;"
    "25 35 x3=400; 24 34 x4=380; 33 23 x4=360; 22 32 x3=340; 31 21 x3=320; 29 18 x3=300;"
    "17 27 x2=280; 15 24 x2=240; 16 25 x4=260; 15 24 x1=240; 23 14 x4=220; 21 12 x3=180;"
    "19 11 x4=160; 9 17 x1=140"
)
WANG = items(
    "31 43 x1; 30 41 x1; 29 39 x1; 28 38 x1; 27 37 x1; 26 36 x1; 25 35 x2; 24 34 x2; 33 23 x3;"
    "22 32 x2; 31 21 x3; 29 18 x3; 17 27 x2; 16 25 x4; 15 24 x2; 15 24 x1; 23 14 x4; 21 12 x3;"
    "19 11 x4; 9 17 x1"
)
OF1 = items(
    "29 5 x1; 9 39 x4; 55 9 x1; 31 15 x1; 11 16 x2; 23 21 x3; 29 14 x4; 16 19 x3; 9 36 x2; 22 4 x2"
)
OF2 = items(
    "22 18 x2; 40 10 x1; 13 27 x3; 23 18 x2; 29 8 x4; 16 4 x1; 47 9 x1; 19 19 x4;13 16 x2; 36 16 x4"
)


@pytest.mark.parametrize(
    ("parts", "sheet", "optimum"),
    [
        pytest.param(CGCUT1, SheetSize(15, 10), 244, id="cgcut1"),
        pytest.param(CGCUT2, SheetSize(40, 70), 2892, id="cgcut2"),
        pytest.param(CGCUT3, SheetSize(40, 70), 1860, id="cgcut3"),
        pytest.param(WANG, SheetSize(40, 70), 2721, id="Wang 40x70"),
        pytest.param(WANG, SheetSize(33, 69), 2277, id="Wang 33x69"),
        pytest.param(WANG, SheetSize(39, 70), 2694, id="Wang 39x70"),
        pytest.param(OF1, SheetSize(70, 40), 2737, id="OF1"),
        pytest.param(OF2, SheetSize(70, 40), 2690, id="OF2"),
    ],
)
def test_most_value_of_one_sheet(parts: tuple[Item, ...], sheet: SheetSize, optimum: int) -> None:
    assert best_value(parts, sheet, optimum) == optimum
