"""What pads cost on many floors at once, laid in rows by the checker itself.

Pads lie square to the wall in rows; all pads of a row are equally deep. Rows lie along the wall, or
away from it, one behind the other. Of all layouts that cover the most the cheapest counts. A last
row that reaches beyond what is wanted covers what the others leave.

Of rows of one depth that take the same pads from those that are few, the one that covers most
stands for all: put in another's place it covers more.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]
Kind = tuple[int, int, int, int]
"""Sides [mm], price [cents], and how many there are (-1: any number)."""

Used = tuple[int, ...]
"""How many are used of each kind that is limited."""

NEVER = 1 << 40
"""Cost of pads where nothing can lie; above every other."""

PART = 20_000
"""Floors looked at together."""


def cheapest(kinds: tuple[Kind, ...], floors: IntArray) -> IntArray:
    """Return the price of the best layout on each floor.

    Rows of `floors`: what is wanted and what is clear away from the wall, and the same along it.
    """
    found = np.zeros(floors.shape[1], dtype=np.int64)
    if not kinds:
        return found
    for start in range(0, floors.shape[1], PART):
        out, across = floors[:2, start : start + PART], floors[2:, start : start + PART]
        both = [_stacks(kinds, *sides) for sides in ((out, across), (across, out))]
        found[start : start + PART] = _first(*both)[1]
    return found


def _first(one: IntArray, other: IntArray) -> IntArray:
    """Return on each floor what covers more or, at equal cover, costs less.

    Both hold minus the cover and the price.
    """
    later = (one[0] > other[0]) | ((one[0] == other[0]) & (one[1] > other[1]))
    return np.where(later, other, one)


def _stacks(kinds: tuple[Kind, ...], stack: IntArray, run: IntArray) -> IntArray:
    """Return minus the area covered [mm2] and price [cents] of the best rows in a stack."""
    wanted, clear = stack
    nothing, best = np.zeros_like(stack), np.zeros_like(stack)
    rows = list(_rows(kinds, run))
    open_: dict[int, dict[Used, IntArray]] = {0: {(0,) * len(kinds): nothing}}
    while open_:
        depth = min(open_)
        for used, laid in open_.pop(depth).items():
            best = _first(best, laid)
            short = (laid[1] < NEVER) & (wanted > depth)
            for deep, more, row in rows:
                both = tuple(a + b for a, b in zip(used, more, strict=True))
                lies = short & (row[1] < NEVER) & (depth + deep <= clear)
                if not _enough(kinds, both) or not lies.any():
                    continue
                area = laid[0] + np.minimum(deep, wanted - depth) * row[0]
                new = np.where(lies, np.stack([area, laid[1] + row[1]]), _lost(stack))
                layer = open_.setdefault(depth + deep, {})
                layer[both] = _first(layer.get(both, new), new)
    return best


def _rows(kinds: tuple[Kind, ...], run: IntArray) -> Iterable[tuple[int, Used, IntArray]]:
    """Yield depth, limited pads used, and minus the length covered and price, of rows."""
    wanted, clear = run
    for depth in sorted({side for kind in kinds for side in kind[:2]}):
        best: dict[Used, IntArray] = {}
        open_: dict[int, dict[Used, IntArray]] = {0: {(0,) * len(kinds): np.zeros_like(run)}}
        while open_:
            at = min(open_)
            for used, laid in open_.pop(at).items():
                if at:
                    best[used] = _first(best.get(used, laid), laid)
                short = (laid[1] < NEVER) & (wanted > at)
                for n, wide in _of_depth(kinds, depth):
                    limited = kinds[n][3] >= 0
                    more = (*used[:n], used[n] + limited, *used[n + 1 :])
                    lies = short & (at + wide <= clear)
                    if not _enough(kinds, more) or not lies.any():
                        continue
                    new = np.stack([-np.minimum(at + wide, wanted), laid[1] + kinds[n][2]])
                    new = np.where(lies, new, _lost(run))
                    layer = open_.setdefault(at + wide, {})
                    layer[more] = _first(layer.get(more, new), new)
        for used, laid in best.items():
            yield depth, used, laid


def _lost(like: IntArray) -> IntArray:
    """Return what stands for nothing laid where nothing can be: no cover, at no price."""
    return np.stack([np.ones_like(like[0]), np.full_like(like[1], NEVER)])


def _enough(kinds: tuple[Kind, ...], used: Used) -> bool:
    return all(k[3] < 0 or number <= k[3] for k, number in zip(kinds, used, strict=True))


def _of_depth(kinds: tuple[Kind, ...], depth: int) -> list[tuple[int, int]]:
    """Return the kinds that can lie in rows of a depth, by number, with their width there."""
    sides = [(n, {k[:2], (k[1], k[0])}) for n, k in enumerate(kinds)]
    return [(n, wide) for n, ways in sides for deep, wide in sorted(ways) if deep == depth]
