"""The search of the walls that are wider than they must be, after those that are not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
import numpy.typing as npt

from steepwright.optimise.branch import Branch
from steepwright.optimise.entries import Entries, children, joined
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.found import Found
from steepwright.optimise.front import Score
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.widths import halves, hung_between, parted, settled
from steepwright.structure import Batch

IntArray = npt.NDArray[np.int64]

AT_ONCE = 2048
"""Entries taken down together; each may become several ranges of widths."""

_POINTS = len(BOX_SIZES)
"""Beyond the sizes of boxes: single grid points whose sheets are bounded already."""


class WideBranch(Branch):
    """One run of the search over a model of all widths, told of the best walls of the least one.

    Width is no objective. But for saw cuts every cost grows with it, and room, way in and strength
    only get tighter, save that mounts further apart may ease the beam. So a box has a range of
    widths as it has ranges of lengths, and is divided in all three: its sheets are bounded over the
    whole range, the mounts hang as favourably as at any width of it, and the rest is that of the
    least one.
    """

    __slots__ = ()

    def roots(self, place: int, corner: tuple[int, int], size: int) -> Entries:
        """Return the families of a place that are not ruled out, at all widths but the least."""
        entries = Branch.roots(self, place, corner, size)
        return entries.between(np.maximum(entries.width, 1), entries.widest)

    def _hopeful_first(self, entries: Entries, size: int) -> Iterator[Entries]:
        """Give as many entries as are taken at once: hardly any of them leads to a design."""
        for start in range(0, len(entries), AT_ONCE):
            yield entries.take(np.arange(start, min(start + AT_ONCE, len(entries))))

    def _quarter(self, entries: Entries, level: int) -> None:
        if level == _POINTS:
            self._narrow_down(entries)
            return
        size = BOX_SIZES[level]
        entries = self._solved_bound(self._unbeaten(entries, size), size)
        if size == 1:
            self._narrow_down(entries)
            return
        wide = entries.width < entries.widest
        inner = joined([halves(entries.take(wide)), entries.take(~wide)])
        inner, half = children(inner, size, self.model.grid), size // 2
        inner = self._cheap_bound(self._unbeaten(inner, half), half)
        if half == 1:
            inner = self._fitting(inner)
        inner = self._fixed(inner, half)
        self.tally.boxes += len(inner)
        if len(inner):
            self._put(inner, level + 1)

    def _narrow_down(self, entries: Entries) -> None:
        """Settle single widths of single grid points, and divide the others' ranges.

        Most of the parts end by their sheets, so these come first.
        """
        single = entries.width == entries.widest
        self._settle(entries.take(single))
        parts = parted(entries.take(~single), self.rates.spares)
        parts = self._solved_bound(self._fixed(self._solved_bound(parts, 1), 1), 1)
        self.tally.boxes += len(parts)
        if len(parts):
            self.open.append((parts, _POINTS))

    def _solved_bound(self, entries: Entries, size: int) -> Entries:
        return self._ranged_bound(entries, size, quick=size > 1)

    def _settle(self, entries: Entries) -> None:
        """Work out single widths of single grid points, those of least bound first."""
        if not len(entries):
            return
        order = np.lexsort((entries.row, entries.sheeting, entries.section, entries.bound_cents))
        for n in order.tolist():
            single = entries.take(np.array([n]))
            if self._of_use(single):
                self._offer_wide(single)

    def _reached(self, entries: Entries, size: int) -> tuple[IntArray, IntArray]:
        """Return the largest angle and fall space; with pads, those of single cells at a width."""
        angle, fall = Branch._reached(self, entries, size)
        by_width = self.model.pads.by_width
        if size == 1 and by_width is not None:
            at = self.model.mounting(entries), entries.row, entries.column
            fall = np.minimum(fall, by_width.fall_mm(at, entries.width))
        return angle, fall

    def _of_use(self, single: Entries) -> bool:
        """Tell whether a wall at one width may beat all, or stand in for its equal."""
        angle, fall = self._reached(single, 1)
        cents, best = single.bound_cents, self.front.worth_below_cents(angle, fall)
        if cents[0] >= best[0]:
            return False
        equal = self.front.members.get(Score(int(cents[0]), int(angle[0]), int(fall[0])))
        return equal is None or equal.width_mm >= self.model.space.widths_mm[single.width[0]]

    def _offer_wide(self, single: Entries) -> None:
        angle, most_mm = (int(reached[0]) for reached in self._reached(single, 1))

        def worth_cents(fall_mm: int) -> int:
            sought = np.array([angle]), np.array([min(fall_mm, most_mm)])
            return int(self.front.worth_below_cents(*sought)[0])

        self.tally.points += 1
        found = settled(self.model, single, worth_cents)
        if found is not None:
            cost, fall_mm, design = found
            self.front.offer(Score(cost, angle, min(fall_mm, most_mm)), design)

    def _batch(self, entries: Entries, some: Fixing | None, size: int, tie: int) -> Batch:
        batch = self.model.batch(entries, some, size, tie)
        return batch if some is None else hung_between(self.model, entries, batch)


def points_of(model: Model, found: Iterable[Found]) -> Entries:
    """Return some of a model's designs as single grid points, nothing known of their costs."""
    space = model.space
    boards, kickers = space.boards_mm.tolist(), space.kickers_mm.tolist()
    widths, rows = space.widths_mm.tolist(), []
    for one in found:
        where = boards.index(one.board_mm), kickers.index(one.kicker_mm)
        fixing = space.fixings.index((one.mount_count, one.screw_mm, one.tie))
        family = one.place, one.mount, one.sheeting, one.section, int(one.delivered)
        rows.append((*family, *where, 0, fixing, *[widths.index(one.width_mm)] * 2))
    return Entries(*np.array(rows, dtype=np.int64).reshape(-1, 11).T)
