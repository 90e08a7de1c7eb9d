"""How boards are divided and framed: the checker's own list of what the space must hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

Document = dict[str, Any]


class Sheeting(NamedTuple):
    """One way to make the board, as the certificate lists it."""

    family: int
    grain: str
    columns: int
    full_column_mm: int
    rows: int
    full_row_mm: int
    bays: int

    @property
    def studs(self) -> int:
        """Number of studs."""
        return self.columns * self.bays + 1

    @property
    def layout(self) -> tuple[Any, ...]:
        """All that the cut list of the sheets depends on."""
        return self[:6]


def divided(total_mm: int, parts: int, full_mm: int, least_mm: int) -> tuple[int, ...] | None:
    """Return the sizes [mm] of a length's parts, None when one would be too small.

    `full_mm` 0 means equal parts, larger ones first; otherwise all but the last have that size.
    """
    if parts == 1:
        return (total_mm,)
    if full_mm:
        sizes = [full_mm] * (parts - 1) + [total_mm - full_mm * (parts - 1)]
    else:
        sizes = [(total_mm + parts - 1 - i) // parts for i in range(parts)]
    return tuple(sizes) if min(sizes) >= least_mm else None


def least_board_mm(sheeting: Sheeting, least_mm: int) -> int:
    """Return the shortest board [mm] that can be divided into the sheeting's rows."""
    return least_total_mm(sheeting.rows, sheeting.full_row_mm, least_mm)


def least_total_mm(parts: int, full_mm: int, least_mm: int) -> int:
    """Return the shortest length [mm] that can be divided so: from there on every one can."""
    if parts == 1:
        return 0
    return full_mm * (parts - 1) + least_mm if full_mm else parts * least_mm


def expected_sheetings(
    part: Document, wall: Document, widths_mm: list[int], longest_mm: int
) -> Iterator[Sheeting]:
    """Yield every sheeting that the declared space must hold, each once."""
    factors = part["given"]["factors"]
    least = int(factors["layout_min_piece_mm"])
    studs = range(int(factors["search_least_studs"]), int(factors["search_most_studs"]) + 1)
    for index, family in enumerate(part["given"]["families"]):
        if not family["for_the_board"]:
            continue
        sides = family["split_sides_mm"]
        for columns, full in _columns(wall["max_columns"], sides, widths_mm, least):
            for rows, full_row in _rows(wall["max_rows"], sides, longest_mm):
                for count in studs:
                    if (count - 1) % columns == 0:
                        bays = (count - 1) // columns
                        for grain in ("across", "any"):
                            yield Sheeting(index, grain, columns, full, rows, full_row, bays)


def _columns(
    most: int, sides: list[int], widths_mm: list[int], least_mm: int
) -> list[tuple[int, int]]:
    """Return the ways to divide some of the widths; of those alike at every one the first."""
    seen: dict[tuple[tuple[int, ...], ...], tuple[int, int]] = {}
    for count in range(1, most + 1):
        for full in [0, *sides] if count > 1 else [0]:
            every = (divided(width, count, full, least_mm) for width in widths_mm)
            sizes = tuple(tuple(sorted(one or ())) for one in every)
            if any(sizes):
                seen.setdefault(sizes, (count, full))
    return list(seen.values())


def _rows(most: int, sides: list[int], longest_mm: int) -> list[tuple[int, int]]:
    split = [(n, full) for n in range(2, most + 1) for full in [0, *sides] if full < longest_mm]
    return [(1, 0), *split]


def stud_middles_mm(columns_mm: Sequence[Any], bays: int, stud_mm: int) -> list[Any]:
    """Return the studs' middle lines [mm] from the wall's left edge, of one wall or of arrays.

    Outer studs are flush with the edges; a stud's middle lies under every seam up the slope.
    """
    edges: list[Any] = [0.0]
    for size in columns_mm:
        edges.append(edges[-1] + size)
    edges[0], edges[-1] = stud_mm / 2, edges[-1] - stud_mm / 2
    middles = [edges[0]]
    for left, right in pairwise(edges):
        middles += [left + (right - left) * (i + 1) / bays for i in range(bays)]
    return middles


def largest_bay_mm(columns_mm: tuple[int, ...], bays: int, stud_mm: int) -> float:
    """Return the largest distance [mm] between neighbouring stud middles."""
    middles = stud_middles_mm(columns_mm, bays, stud_mm)
    return float(max(right - left for left, right in pairwise(middles)))


def blocks_mm(columns_mm: tuple[int, ...], bays: int, stud_mm: int) -> list[int]:
    """Return the length of each piece of blocking along one seam across the slope [mm].

    Cut to whole millimetres, as the design's own pieces are.
    """
    middles = stud_middles_mm(columns_mm, bays, stud_mm)
    return [int(right - left - stud_mm) for left, right in pairwise(middles)]
