"""The boxes of one size: what the file says of them, and what the checker closes itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, back_rise_mm
from steepwright.verify.bars import cost_at_least
from steepwright.verify.bounds import Bounds, Choices
from steepwright.verify.built import BUILT, Built, Said
from steepwright.verify.left_open import listed, unsettled
from steepwright.verify.lookup import looked_up, unpacked
from steepwright.verify.packs import UNAVAILABLE_CENTS
from steepwright.verify.stair import Stair
from steepwright.verify.strength import (
    BEYOND,
    CHECKS,
    SCREWS,
    Check,
    Corners,
    Figures,
    Loads,
    stud_bending_undone,
)
from steepwright.verify.ties import BENDING, Ties
from steepwright.verify.verdict import Verdict

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

LARGEST = 64
"""Cells along a side of the largest boxes."""

CHUNK = 16384
"""Choices checked at once."""


@dataclass(frozen=True, slots=True)
class Ground:
    """What stays the same for all boxes of one part.

    Attributes
    ----------
    angle_rad, fits_mdeg
        Per beam, mount, thickness and grid point: the angle of the wall [rad], and the largest
        one that fits the room facing either way [1/1000 degree], -1 for none.
    pads_cents
        What pads cost at least there; None where they are not on the bill.
    checks
        The checks to try, in order.
    weight
        How many designs each choice stands for at a grid point.
    open_boxes
        Size, beam, row and column of the boxes that a stopped search didn't get to.
    ties
        What may tie the studs back to a second beam.
    built
        What single walls of the grid are held against besides.
    """

    bounds: Bounds
    stair: Stair
    known: Figures
    angle_rad: FloatArray
    fits_mdeg: npt.NDArray[np.int32]
    pads_cents: IntArray | None
    checks: list[str]
    weight: int
    open_boxes: frozenset[tuple[int, ...]]
    ties: Ties
    built: Built

    @property
    def shape(self) -> tuple[int, int]:
        """Numbers of board lengths and kickers."""
        grid = self.bounds.grid
        return len(grid.boards_mm), len(grid.kickers_mm)

    def designs(self, c: Choices, size: int) -> int:
        """Return how many designs choices on boxes of a size stand for."""
        rows = np.minimum(size, self.shape[0] - c.row)
        columns = np.minimum(size, self.shape[1] - c.column)
        return int((rows * columns).sum()) * self.weight


class Boxes:
    """The boxes of one size: what the file says of them, and what the checker closes."""

    def __init__(
        self,
        ground: Ground,
        level: Document,
        choices: Choices,
        ended: dict[str, IntArray],
        verdict: Verdict,
    ) -> None:
        self.ground, self.level, self.choices, self.ended = ground, level, choices, ended
        self.bounds, self.verdict = ground.bounds, verdict
        self.size = int(level["size"])
        self.last_row = np.minimum(choices.row + self.size, ground.shape[0]) - 1
        self.last_column = np.minimum(choices.column + self.size, ground.shape[1]) - 1
        self._number()

    def _number(self) -> None:
        """Give each choice the number of its box in the file; a box the file lacks is told."""
        row, column = self.level["row"], self.level["column"]
        at = {pair: n for n, pair in enumerate(zip(row, column, strict=True))}
        if len(at) != len(row):
            self.verdict.wrong("certificate-boxes", "a box is listed twice", "", "each once")
        keys = self.choices.row * (1 << 20) + self.choices.column
        unique, index, counts = np.unique(keys, return_inverse=True, return_counts=True)
        pairs = [(key >> 20, key & (1 << 20) - 1) for key in unique.tolist()]
        if self.ended:
            pairs = [
                (r, c)
                for r in range(0, self.ground.shape[0], LARGEST)
                for c in range(0, self.ground.shape[1], LARGEST)
            ]
            index = np.searchsorted([r * (1 << 20) + c for r, c in pairs], keys)
            counts = self.ended[""]
        numbers = np.array([at.pop(pair, -1) for pair in pairs], dtype=np.int64)
        for pair, number, count in zip(pairs, numbers.tolist(), counts.tolist(), strict=True):
            said = None if number < 0 else self.level["families"][number]
            if said != count:
                self.verdict.wrong(
                    "certificate-boxes",
                    f"choices that reach the box of size {self.size} at {pair}",
                    "no such box" if said is None else said,
                    count,
                )
        for pair in at:
            self.verdict.wrong(
                "certificate-boxes",
                f"choices that reach the box of size {self.size} at {pair}",
                "a box for some",
                "none reaches it",
            )
        self.verdict.boxes += len(pairs)
        self.box = numbers[index] if len(numbers) else np.zeros(0, dtype=np.int64)
        self.wholesale = {
            reason: np.bincount(
                numbers[numbers >= 0], ended[numbers >= 0], minlength=len(row)
            ).astype(np.int64)
            for reason, ended in self.ended.items()
        }
        self._leave_missing()

    def _leave_missing(self) -> None:
        """Take out choices whose box is missing: nothing is said against them."""
        there = self.box >= 0
        lost = self.choices.take(~there)
        self.verdict.open_designs += self.ground.designs(lost, self.size)
        self.choices, self.box = self.choices.take(there), self.box[there]
        self.last_row, self.last_column = self.last_row[there], self.last_column[there]

    def settle(self) -> Choices:
        """Close what ends here and return the choices that go on."""
        ground, bounds = self.ground, self.bounds
        thickness = bounds.thickness[self.choices.sheeting]
        self.needed = ground.stair.needed(self._largest_angles(thickness))
        self.needed = np.where(
            self.needed > 0, np.maximum(self.needed - self._least_pads(thickness), 1), 0
        )
        self._close("own beam", self._beam_stops())
        self._close("delivery", np.zeros(len(self.choices), dtype=np.bool_))
        self._close("no room", self.needed == 0)
        self._close("frame", ~bounds.frame_stands(self.choices, self.last_column))
        self._close("division", ~bounds.divides(self.choices, self.last_row))
        self.sheets = bounds.sheets_cents(self.choices)
        self.bars = bounds.bars_cents(self.choices)
        self.rest = bounds.rest_cents(self.choices, bounds.screws_mm[0])
        over = self.sheets + self.bars + self.rest - self.needed
        self._close("cost", over >= 0, over)
        self._close("vehicle", ~bounds.taken_home(self.choices))
        self._close("weight", ~bounds.carried(self.choices))
        self._leave_open()
        self._check()
        self.rest = self._rest_held()
        self._use_facts()
        over = self.sheets + self.bars + self.rest - self.needed
        self._close("solved", over >= 0, over)
        if BUILT in self.level:
            self._close(BUILT, self._built())
        for reason, text in self.level["taken"].items():
            mask = self._mask(reason, text)
            said = self.choices.take(mask)
            if not self.ground.built.pieces.confirm(reason, said, self.verdict):
                self.verdict.take(reason, self.ground.designs(said, self.size))
            self._close(reason, mask)
        return self.choices

    def _built(self) -> BoolArray:
        """Return which choices the file says end as they would be built, each looked at."""
        mask = self._mask(BUILT, self.level[BUILT])
        rows = np.flatnonzero(mask)
        cents = (self.needed - self.sheets - self.bars)[rows]
        corners = self._corners(rows, self.bounds.screws_mm[-1])
        said = Said(self.choices.take(rows), corners, cents, self.size)
        self.ground.built.confirm(said, self.verdict)
        return mask

    def _leave_open(self) -> None:
        """Leave open what the search did not get to, by the file's list of such boxes."""
        c = self.choices
        mask = listed(self.ground.open_boxes, self.size, c)
        if mask.any():
            self.verdict.left_designs += self.ground.designs(c.take(mask), self.size)
            angle = self._largest_angles(self.bounds.thickness[c.sheeting])[mask]
            cents = (self.sheets + self.bars + self.rest)[mask]
            self.verdict.unsettled |= unsettled(self.verdict.degrees, angle, cents)
        self._close("open", mask)

    def _beam_stops(self) -> BoolArray:
        """Tell where a single wall's frame rises above its own beam, at its own angle."""
        c, bounds = self.choices, self.bounds
        if self.size > 1 or bounds.wall.get("tolerance_mm", 0):
            return np.zeros(len(c), dtype=np.bool_)
        thickness = bounds.thickness[c.sheeting]
        angle = self.ground.angle_rad[c.beam, c.mount, thickness, c.row, c.column]
        given = bounds.given
        depth = np.array([s["depth_mm"] for s in given["sections"]])[c.section]
        drop, setback, behind = (
            np.array([mount[name] for mount in given["mounts"]])[c.mount]
            for name in ("drop_mm", "setback_mm", "behind_sheet_mm")
        )
        back = np.maximum(depth - behind, 0)
        rise = back_rise_mm(back, setback, angle, bounds.wall["fold_up"])
        return np.asarray(rise > drop + SLACK_MM)

    def _largest_angles(self, thickness: IntArray) -> IntArray:
        """Return the largest angle that fits in each choice's box."""
        c, size, ground = self.choices, self.size, self.ground
        rows, columns = -(-ground.shape[0] // size), -(-ground.shape[1] // size)
        padded = np.full(
            (*ground.fits_mdeg.shape[:3], rows * size, columns * size), -1, dtype=np.int32
        )
        padded[..., : ground.shape[0], : ground.shape[1]] = ground.fits_mdeg
        boxes = padded.reshape(*ground.fits_mdeg.shape[:3], rows, size, columns, size).max(
            axis=(4, 6)
        )
        found = boxes[c.beam, c.mount, thickness, c.row // size, c.column // size]
        return np.asarray(found.astype(np.int64))

    def _least_pads(self, thickness: IntArray) -> IntArray | int:
        """Return what pads cost at least in each choice's box [cents]."""
        c, pads = self.choices, self.ground.pads_cents
        if pads is None:
            return 0
        ends = [
            np.minimum(c.row + self.size, pads.shape[3]),
            np.minimum(c.column + self.size, pads.shape[4]),
        ]
        keys = np.stack([c.beam, c.mount, thickness, c.row, c.column, *ends])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        least = [pads[b, m, t, r:to, k:end].min() for b, m, t, r, k, to, end in unique.T]
        return np.array(least, dtype=np.int64)[index.ravel()]

    def _check(self) -> None:
        for name in self.ground.checks:
            if name not in CHECKS:
                self.verdict.wrong(
                    "certificate-check", "a check that is not known here", name, ", ".join(CHECKS)
                )
                continue
            use = self._uses(CHECKS[name], self.bounds.screws_mm[-1])
            if name == BENDING and self.ground.ties.sets:
                tied = self.ground.ties.may_tie(self.choices.beam)
                undone = self._uses(stud_bending_undone, self.bounds.screws_mm[-1])
                use = np.where(tied, undone, use)
            self._close(name, use > 1 + BEYOND, use)

    def _uses(self, check: Check, screw_mm: int) -> FloatArray:
        uses = [
            check(Loads(self.ground.known, self._corners(slice(n, n + CHUNK), screw_mm)))
            for n in range(0, len(self.choices), CHUNK)
        ]
        return np.concatenate(uses) if uses else np.zeros(0)

    def _rest_held(self) -> IntArray:
        """Return what is left with the cheapest screws, and ties, that hold at the corner."""
        bounds, best = self.bounds, np.full(len(self.choices), UNAVAILABLE_CENTS, dtype=np.int64)
        for screw_mm in bounds.screws_mm:
            holds = self._uses(CHECKS[SCREWS], screw_mm) <= 1 + BEYOND
            cents = bounds.rest_cents(self.choices, screw_mm)
            best = np.where(holds, np.minimum(best, cents), best)
        ties = self.ground.ties
        if not ties.sets:
            return best
        weak = self._uses(CHECKS[BENDING], bounds.screws_mm[-1]) > 1 + BEYOND
        return best + np.where(weak, ties.cheapest_cents(bounds.studs[self.choices.sheeting]), 0)

    def _corners(self, rows: slice | IntArray, screw_mm: int) -> Corners:
        c, bounds = self.choices.take(rows), self.bounds
        thickness = bounds.thickness[c.sheeting]
        angle = self.ground.angle_rad[c.beam, c.mount, thickness, c.row, c.column]
        least = np.radians(bounds.wall["angle_deg"][0])
        return Corners(
            family=bounds.family[c.sheeting],
            section=c.section,
            across=bounds.across[c.sheeting],
            columns=bounds.columns[c.sheeting],
            rows=bounds.rows[c.sheeting],
            studs=bounds.studs[c.sheeting],
            bay_mm=bounds.bay[c.sheeting, c.section],
            board_mm=bounds.grid.boards_mm[c.row].astype(float),
            angle_rad=np.fmax(angle, least),
            screw_mm=np.full(len(angle), float(screw_mm)),
        )

    def _use_facts(self) -> None:
        """Prove the solved bounds that the file states, and use them."""
        c, bounds = self.choices, self.bounds
        sheets: dict[tuple[int, ...], int] = {}
        for row, column, sheeting, cents in self.level["sheets"]:
            last = (
                min(row + self.size, self.ground.shape[0]) - 1,
                min(column + self.size, self.ground.shape[1]) - 1,
            )
            own = bounds.solved_sheets(sheeting, (row, column), last)
            if own < cents:
                self.verdict.wrong(
                    "certificate-bound",
                    f"sheets of choice {sheeting} over the box at {row}, {column}",
                    cents,
                    f"at most {own}",
                )
            sheets[row, column, sheeting] = min(own, cents)
        keys = (c.row, c.column, bounds.layout[c.sheeting])
        self.sheets = np.maximum(self.sheets, looked_up(sheets, keys))
        bars: dict[tuple[int, ...], int] = {}
        for *place, cents, worths in self.level["bars"]:
            need, offers = bounds.needed_bars(tuple(place))
            if cost_at_least(need, offers, tuple(worths), cents):
                bars[tuple(place)] = cents
            else:
                self.verdict.wrong(
                    "certificate-bound", f"bars of {place} are not shown to cost this", cents
                )
        frames = (c.row, c.column, bounds.frame[c.sheeting], c.section, c.delivered)
        self.bars = np.maximum(self.bars, looked_up(bars, frames))

    def _mask(self, reason: str, text: str) -> BoolArray:
        """Return which of the choices still open the file says something of."""
        mask = unpacked(text, len(self.choices))
        if len(mask) == len(self.choices):
            return mask
        count = len(self.choices)
        self.verdict.wrong("certificate-taken", f"{reason!r} is said of", len(mask), count)
        return np.zeros(count, dtype=np.bool_)

    def _close(
        self, reason: str, closed: BoolArray, measure: npt.NDArray[Any] | None = None
    ) -> None:
        boxes = len(self.level["row"])
        counts = np.bincount(self.box[closed], minlength=boxes)
        counts = counts + self.wholesale.get(reason, 0)
        said = np.array(self.level["closed"].get(reason, [0] * boxes))
        wrong = np.flatnonzero(counts[:boxes] != said) if len(said) == boxes else [0]
        for n in wrong:
            self.verdict.wrong(
                "certificate-closed",
                f"choices ended by '{reason}' in the box of size {self.size} at"
                f" ({self.level['row'][n]}, {self.level['column'][n]})",
                said[n] if n < len(said) else "nothing",
                int(counts[n]),
            )
        if measure is not None:
            self._measure(reason, self.box[closed], measure[closed], boxes)
        keep = ~closed
        self.choices, self.box, self.needed = (
            self.choices.take(keep),
            self.box[keep],
            self.needed[keep],
        )
        self.last_row, self.last_column = self.last_row[keep], self.last_column[keep]
        for name in ("sheets", "bars", "rest"):
            if hasattr(self, name):
                setattr(self, name, getattr(self, name)[keep])

    def _measure(self, reason: str, box: IntArray, measure: npt.NDArray[Any], boxes: int) -> None:
        """Compare the least measure that the file states per box with the checker's own."""
        own = np.full(boxes, np.inf)
        np.minimum.at(own, box, measure)
        said = self.level["least"].get(reason, [None] * boxes)
        for n in np.flatnonzero(np.isfinite(own)).tolist():
            stated = said[n]
            if stated is None or stated > own[n] * (1 + 1e-9) + 1e-9:
                self.verdict.wrong(
                    "certificate-bound",
                    f"least measure of '{reason}' in the box of size {self.size} at"
                    f" ({self.level['row'][n]}, {self.level['column'][n]})",
                    stated,
                    f"at most {own[n]:.9g}",
                )
