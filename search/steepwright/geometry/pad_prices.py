"""What pads in rows cost on many floors at once, each laid as `steepwright.geometry.pads` would.

Of rows of one depth that use up as many pads of each limited kind only the one that covers most
counts, and of these the cheapest: in its place any other one covers less.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.geometry.pads import Pad, Used

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

FLOORS_AT_ONCE = 32768


class Lengths(NamedTuple):
    """One direction of many floors: what is to be padded, and what is clear [mm]."""

    wanted: IntArray
    clear: IntArray

    def part(self, rows: slice) -> Lengths:
        """Return those of some floors."""
        return Lengths(self.wanted[rows], self.clear[rows])


class _Laid(NamedTuple):
    """What is laid on each floor: what it covers [mm or mm2], below 0 for nothing, and costs."""

    covers: IntArray
    cents: IntArray

    def or_better(self, other: _Laid | None) -> _Laid:
        """Return on each floor what covers more, or as much for less."""
        if other is None:
            return self
        less = (other.covers == self.covers) & (other.cents < self.cents)
        better = (other.covers > self.covers) | less
        return _Laid(*(np.where(better, b, a) for a, b in zip(self, other, strict=True)))


class _Row(NamedTuple):
    depth_mm: int
    used: Used
    laid: _Laid


def cheapest_cents(pads: tuple[Pad, ...], out: Lengths, across: Lengths) -> IntArray:
    """Return the price [cents] of the best layout on each floor, as `lay_pads` finds it.

    Parameters
    ----------
    out, across
        The floors away from the walls' feet and along them.
    """
    parts = [np.zeros(0, dtype=np.int64)]
    for start in range(0, len(out.wanted), FLOORS_AT_ONCE):
        rows = slice(start, start + FLOORS_AT_ONCE)
        both = out.part(rows), across.part(rows)
        parts.append(_stacked(pads, *both).or_better(_stacked(pads, *both[::-1])).cents)
    return np.concatenate(parts)


def _stacked(pads: tuple[Pad, ...], stack: Lengths, run: Lengths) -> _Laid:
    nothing = _Laid(np.zeros_like(stack.wanted), np.zeros_like(stack.wanted))
    depths = sorted({side for pad in pads for side in (pad.length_mm, pad.width_mm)})
    rows = [row for depth in depths for row in _rows(pads, depth, run)]
    layers: dict[int, dict[Used, _Laid]] = {0: {_none(pads): nothing}}
    best = nothing
    while layers:
        depth = min(layers)
        for used, laid in layers.pop(depth).items():
            best = best.or_better(laid)
            goes_on = (laid.covers >= 0) & (depth < stack.wanted)
            for row in rows if goes_on.any() else []:
                deeper, more = depth + row.depth_mm, _together(pads, used, row.used)
                may = goes_on & (row.laid.covers > 0) & (deeper <= stack.clear)
                if more is None or not may.any():
                    continue
                fresh = np.minimum(row.depth_mm, stack.wanted - depth) * row.laid.covers
                grown = _Laid(np.where(may, laid.covers + fresh, -1), laid.cents + row.laid.cents)
                layer = layers.setdefault(deeper, {})
                layer[more] = grown.or_better(layer.get(more))
    return best


def _rows(pads: tuple[Pad, ...], depth_mm: int, run: Lengths) -> Iterator[_Row]:
    """Give the best row of a depth for each way to use up limited pads."""
    options = [
        (kind, pad.width_mm if pad.length_mm == depth_mm else pad.length_mm)
        for kind, pad in enumerate(pads)
        if depth_mm in (pad.length_mm, pad.width_mm)
    ]
    zero = np.zeros_like(run.wanted)
    layers: dict[int, dict[Used, _Laid]] = {0: {_none(pads): _Laid(zero, zero)}}
    best: dict[Used, _Laid] = {}
    while layers:
        length = min(layers)
        for used, laid in layers.pop(length).items():
            if length:
                best[used] = laid.or_better(best.get(used))
            goes_on = (laid.covers >= 0) & (length < run.wanted)
            for kind, width in options if goes_on.any() else []:
                longer, more = length + width, _together(pads, used, _one(pads, kind))
                may = goes_on & (longer <= run.clear)
                if more is None or not may.any():
                    continue
                covers = np.where(may, np.minimum(longer, run.wanted), -1)
                grown = _Laid(covers, laid.cents + pads[kind].price_cents)
                layer = layers.setdefault(longer, {})
                layer[more] = grown.or_better(layer.get(more))
    return (_Row(depth_mm, used, laid) for used, laid in best.items())


def _none(pads: tuple[Pad, ...]) -> Used:
    return (0,) * len(pads)


def _one(pads: tuple[Pad, ...], kind: int) -> Used:
    """Return the use of one pad: those of which there is no end aren't counted."""
    return tuple(int(n == kind and pad.limit is not None) for n, pad in enumerate(pads))


def _together(pads: tuple[Pad, ...], used: Used, more: Used) -> Used | None:
    """Return how many of each limited kind are used together; None when too many."""
    both = tuple(a + b for a, b in zip(used, more, strict=True))
    enough = all(p.limit is None or n <= p.limit for p, n in zip(pads, both, strict=True))
    return both if enough else None
