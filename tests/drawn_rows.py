"""Rows of holds up a board, found by trying every way to shift them: what drawings must show.

Written down from the drawing's rule, with no code of the package: rows lie whole spacings apart;
of all shifts by whole mm the one counts that leaves most rows clear of rails and blocking, then
the one with fewest rows, then the one nearest to the board's middle, then the lowest.
"""

from __future__ import annotations

from functools import cache

CLEAR_MM = 15
"""From a hold's middle to timber: half an M10 T-nut's flange and some play (an assumption)."""

EDGE_MM = 100
"""From a board's edge to the first hold: half a grid step (common practice, no source)."""


@cache
def drawn_rows(rows_mm: tuple[int, ...], stud_mm: int, spacing_mm: int) -> tuple[int, ...]:
    """Return how far up the board its free rows are [mm]."""
    board = sum(rows_mm)
    seams = [sum(rows_mm[:n]) for n in range(1, len(rows_mm))]

    def free(up: int) -> bool:
        rails = stud_mm + CLEAR_MM <= up <= board - stud_mm - CLEAR_MM
        return rails and all(abs(up - seam) >= stud_mm / 2 + CLEAR_MM for seam in seams)

    found = []
    for shift in range(spacing_mm):
        rows = list(range(EDGE_MM + shift, board - EDGE_MM + 1, spacing_mm))
        if rows:
            kept = [up for up in rows if free(up)]
            off = abs(rows[0] + rows[-1] - board)
            found.append((-len(kept), len(rows), off, shift, tuple(kept)))
    return min(found)[-1]


def ends_mm(rows_mm: tuple[int, ...], stud_mm: int, spacing_mm: int) -> tuple[int, int]:
    """Return the lowest and the highest free row [mm]."""
    rows = drawn_rows(rows_mm, stud_mm, spacing_mm)
    return rows[0], rows[-1]
