"""What the proof writes down: per size of box which boxes there are and how families end there."""

from __future__ import annotations

import base64
import zlib
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.known import KnownBars

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

BUILT = "built"
"""The reason of single walls that the checker holds against copies of its own."""

WAY_IN = "way in"
"""The one reason among the following that the checker looks at itself."""

TAKEN = ("room with frame and lift", WAY_IN, "other checks")
"""Reasons that are the search's word, in the order in which choices end by them, after `BUILT`."""


@dataclass(frozen=True, slots=True)
class SheetFact:
    """Over a box the sheets of all sheetings that lie like this one cost at least so much."""

    row: int
    column: int
    width: int
    sheeting: int
    cents: int


@dataclass(frozen=True, slots=True)
class BarFact:
    """At a box's least corner, and so beyond it, the bars of such frames cost at least so much.

    `prices` are worths of the lengths, longest first, in 2**-20 cents: no bar that can be bought
    holds pieces worth more than its price.
    """

    row: int
    column: int
    width: int
    sheeting: int
    section: int
    delivered: int
    cents: int
    prices: tuple[int, ...]


@dataclass(slots=True)
class Level:
    """All boxes of one size, columns of one value per box.

    Attributes
    ----------
    size, widths
        Cells along a side, and widths in the range.
    row, column, width
        Grid indices of the least corners, the number of the first width among them.
    families
        How many (beam, mount, sheeting, section, delivery) reach the box.
    closed
        Per reason, how many of them end here.
    masks
        Per reason that is the search's word alone, and for `BUILT`, box by box, which of the
        choices still open end by it, in their order.
    least
        Per reason that has a measure, its least value among them: for ``cost`` and ``solved``
        by how many cents the bound exceeds what is needed, for a check its use.
    """

    size: int
    widths: int
    row: list[int] = field(default_factory=list)
    column: list[int] = field(default_factory=list)
    width: list[int] = field(default_factory=list)
    families: list[int] = field(default_factory=list)
    closed: dict[str, list[int]] = field(default_factory=dict)
    least: dict[str, list[float | int | None]] = field(default_factory=dict)
    sheets: list[SheetFact] = field(default_factory=list)
    bars: list[BarFact] = field(default_factory=list)
    masks: dict[str, list[BoolArray]] = field(default_factory=dict)

    def document(self) -> dict[str, Any]:
        """Return the level as plain data, reasons that close nothing left out."""
        return {
            "size": self.size,
            "widths": self.widths,
            "row": self.row,
            "column": self.column,
            "width": self.width,
            "families": self.families,
            "closed": {name: counts for name, counts in self.closed.items() if any(counts)},
            "least": {
                name: values
                for name, values in self.least.items()
                if any(value is not None for value in values)
            },
            "sheets": [[f.row, f.column, f.width, f.sheeting, f.cents] for f in self.sheets],
            "bars": [self._bar(fact) for fact in self.bars],
            "taken": {name: self._mask(m) for name, m in self.masks.items() if name != BUILT},
            **({BUILT: self._mask(self.masks[BUILT])} if BUILT in self.masks else {}),
        }

    @staticmethod
    def _bar(fact: BarFact) -> list[Any]:
        place = [fact.row, fact.column, fact.width, fact.sheeting, fact.section, fact.delivered]
        return [*place, fact.cents, list(fact.prices)]

    def _mask(self, parts: list[BoolArray]) -> str:
        """Return one mask over all boxes: by row, column, width, as the checker meets them."""
        places = list(zip(self.row, self.column, self.width, strict=True))
        order = sorted(range(len(parts)), key=lambda n: places[n])
        return packed(np.concatenate([parts[n] for n in order]))

    def left(self) -> list[int]:
        """Return per box how many choices no reason has ended."""
        return [a - sum(c) for a, *c in zip(self.families, *self.closed.values(), strict=True)]


class Ledger:
    """Counts, per box of one level, what each reason closes.

    `bars` is what this level and those above it say of bars.
    """

    def __init__(self, level: Level, box: IntArray, bars: KnownBars | None = None) -> None:
        self.level, self.bars = level, bars or KnownBars()
        self._boxes = len(level.row)
        self._box = box
        level.families = np.bincount(box, minlength=self._boxes).tolist()

    def close(
        self, reason: str, closed: BoolArray, measure: npt.NDArray[Any] | None = None
    ) -> BoolArray:
        """Write down the entries closed for a reason and return those that stay."""
        counts = np.bincount(self._box[closed], minlength=self._boxes)
        before = self.level.closed.get(reason, [0] * self._boxes)
        self.level.closed[reason] = (counts + np.array(before, dtype=np.int64)).tolist()
        if measure is not None:
            least = _least(self._box[closed], measure[closed], counts)
            earlier = self.level.least.get(reason, least)
            self.level.least[reason] = [*map(_lesser, earlier, least)]
        self._box = self._box[~closed]
        return np.asarray(~closed)

    def take(self, reason: str, closed: BoolArray) -> BoolArray:
        """Write down which entries end by the search's word and return those that stay."""
        counts = np.bincount(self._box, minlength=self._boxes)
        self.level.masks[reason] = np.split(closed, np.cumsum(counts)[:-1])
        return self.close(reason, closed)

    def part(self, rows: IntArray) -> Ledger:
        """Return a ledger of the same level that counts some of its open entries."""
        part = copy(self)
        part._box = self._box[rows]
        return part

    def go_on(self, parts: Sequence[Ledger]) -> None:
        """Keep the entries that are still open in the parts."""
        self._box = np.concatenate([part._box for part in parts])

    @property
    def box(self) -> IntArray:
        """The box number of every entry that is still open."""
        return self._box


def _least(box: IntArray, values: npt.NDArray[Any], counts: IntArray) -> list[float | int | None]:
    whole = np.issubdtype(values.dtype, np.integer)
    least = np.full(len(counts), np.inf)
    np.minimum.at(least, box, values)
    return [
        None if not n else int(v) if whole else rounded_down(float(v))
        for n, v in zip(counts.tolist(), least.tolist(), strict=True)
    ]


def _lesser(one: float | int | None, other: float | int | None) -> float | int | None:
    if one is None or other is None:
        return other if one is None else one
    return min(one, other)


def rounded_down(value: float) -> float:
    """Return a positive number cut to six decimals: what is told is never more than found."""
    return float(np.floor(value * 1e6)) / 1e6


def packed(mask: BoolArray) -> str:
    """Return a mask as text: bits, eight to a byte, compressed (zlib), in base 64."""
    return base64.b64encode(zlib.compress(np.packbits(mask).tobytes(), 9)).decode()


def joined_levels(parts: Sequence[list[Level]]) -> list[Level]:
    """Return the levels of several boxes as one list, largest boxes first."""
    sizes = sorted({(lv.size, lv.widths) for part in parts for lv in part}, reverse=True)
    return [
        _one_level(size, [lv for p in parts for lv in p if (lv.size, lv.widths) == size])
        for size in sizes
    ]


def _one_level(size: tuple[int, int], parts: list[Level]) -> Level:
    whole = Level(*size)
    reasons = list(dict.fromkeys(name for part in parts for name in part.closed))
    taken = [name for name in (BUILT, *TAKEN) if any(name in part.masks for part in parts)]
    whole.masks = {name: [] for name in taken}
    for part in parts:
        boxes = len(part.row)
        whole.row += part.row
        whole.column += part.column
        whole.width += part.width
        whole.families += part.families
        whole.sheets += part.sheets
        whole.bars += part.bars
        open_ = np.array(part.left(), dtype=np.int64)
        for name in reversed(taken):
            open_ += np.array(part.closed.get(name, [0] * boxes), dtype=np.int64)
            # Where a reason wasn't asked for, it ends nothing of what is open by then.
            unasked = [np.zeros(count, dtype=np.bool_) for count in open_.tolist()]
            whole.masks[name] += part.masks.get(name, unasked)
        for name in reasons:
            whole.closed.setdefault(name, []).extend(part.closed.get(name, [0] * boxes))
            whole.least.setdefault(name, []).extend(part.least.get(name, [None] * boxes))
    return whole
