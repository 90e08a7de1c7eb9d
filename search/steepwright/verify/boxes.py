"""The boxes of one size: what the file says of them, and what the checker closes itself."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.built import BUILT, Said
from steepwright.verify.choices import LARGEST, Choices, Size, number_of, place_of
from steepwright.verify.facts import BarsStated, sheets_stated
from steepwright.verify.ground import Ground
from steepwright.verify.left_open import listed, unsettled
from steepwright.verify.lookup import unpacked
from steepwright.verify.packs import UNAVAILABLE_CENTS
from steepwright.verify.strength import BEYOND, CHECKS, SCREWS, Check, Loads, stud_bending_undone
from steepwright.verify.ties import BENDING
from steepwright.verify.verdict import Verdict

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

CHUNK = 16384
"""Choices checked at once."""


class Boxes:
    """The boxes of one size: what the file says of them, and what the checker closes."""

    def __init__(
        self,
        ground: Ground,
        level: Document,
        choices: Choices,
        ended: dict[str, IntArray],
        known: BarsStated,
        verdict: Verdict,
    ) -> None:
        self.ground, self.level, self.choices, self.ended = ground, level, choices, ended
        self.known = known
        self.bounds, self.verdict = ground.bounds, verdict
        self.size = Size(int(level["size"]), int(level["widths"]))
        self.last_row = np.minimum(choices.row + self.size.cells, ground.ends[0]) - 1
        self.last_column = np.minimum(choices.column + self.size.cells, ground.ends[1]) - 1
        self._number()

    def _number(self) -> None:
        """Give each choice the number of its box in the file; a box the file lacks is told."""
        stated = [self.level[name] for name in ("row", "column", "width")]
        at = {place: n for n, place in enumerate(zip(*stated, strict=True))}
        if len(at) != len(stated[0]):
            self.verdict.wrong("certificate-boxes", "a box is listed twice", "", "each once")
        keys, counts = _runs(self.choices.boxes(self.size))
        places = [place_of(key) for key in keys.tolist()]
        index = np.repeat(np.arange(len(keys)), counts)
        if self.ended:
            places = [
                (r, c, 0)
                for r in range(0, self.ground.ends[0], LARGEST)
                for c in range(0, self.ground.ends[1], LARGEST)
            ]
            index = np.searchsorted([number_of(*place) for place in places], keys)
            index = np.repeat(index, counts)
            counts = self.ended[""]
        numbers = np.array([at.pop(place, -1) for place in places], dtype=np.int64)
        for place, number, count in zip(places, numbers.tolist(), counts.tolist(), strict=True):
            said = None if number < 0 else self.level["families"][number]
            if said != count:
                self.verdict.wrong(
                    "certificate-boxes",
                    f"choices that reach the box of size {self.size} at {place}",
                    "no such box" if said is None else said,
                    count,
                )
        for place in at:
            self.verdict.wrong(
                "certificate-boxes",
                f"choices that reach the box of size {self.size} at {place}",
                "a box for some",
                "none reaches it",
            )
        self.verdict.boxes += len(places)
        self.box = numbers[index] if len(numbers) else np.zeros(0, dtype=np.int64)
        self.wholesale = {
            reason: np.bincount(
                numbers[numbers >= 0], ended[numbers >= 0], minlength=len(stated[0])
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
        self.needed = ground.needed_cents(self.choices, self.size)
        self._close("own beam", ground.beam_stops(self.choices, self.size.cells))
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
        stated = sheets_stated(bounds, self.level, self.size, self.choices, self.verdict)
        self.sheets = np.maximum(self.sheets, stated)
        self.known.read(self.level, self.verdict)
        self.bars = np.maximum(self.bars, self.known.cents(self.choices))
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
        some = self.choices.take(rows)
        corners = self.ground.corners(some, self.bounds.screws_mm[-1])
        said = Said(some, corners, cents, self.size)
        self.ground.built.confirm(said, self.verdict)
        return mask

    def _leave_open(self) -> None:
        """Leave open what the search did not get to, by the file's list of such boxes."""
        c = self.choices
        mask = listed(self.ground.open_boxes, self.size.cells, c)
        if mask.any():
            self.verdict.left_designs += self.ground.designs(c.take(mask), self.size)
            angle = self.ground.largest_mdeg(c, self.size.cells)[mask]
            cents = (self.sheets + self.bars + self.rest)[mask]
            self.verdict.unsettled |= unsettled(self.verdict.degrees, angle, cents)
        self._close("open", mask)

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
            check(Loads(self.ground.known, self.ground.corners(some, screw_mm)))
            for some in self._chunks()
        ]
        return np.concatenate(uses) if uses else np.zeros(0)

    def _chunks(self) -> Iterator[Choices]:
        for n in range(0, len(self.choices), CHUNK):
            yield self.choices.take(slice(n, n + CHUNK))

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
        for n in map(int, wrong):
            self.verdict.wrong(
                "certificate-closed",
                f"choices ended by '{reason}' in {self._named(n)}",
                said[n] if n < len(said) else "nothing",
                int(counts[n]),
            )
        if measure is not None:
            self._measure(reason, self.box[closed], measure[closed], boxes)
        if not closed.any():
            return
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
                    f"least measure of '{reason}' in {self._named(n)}",
                    stated,
                    f"at most {own[n]:.9g}",
                )

    def _named(self, n: int) -> str:
        place = ", ".join(str(self.level[name][n]) for name in ("row", "column", "width"))
        return f"the box of size {self.size} at ({place})"


def _runs(numbers: IntArray) -> tuple[IntArray, IntArray]:
    """Return the distinct ones of ascending numbers, and how often each is there."""
    if not len(numbers):
        return numbers, numbers
    starts = np.flatnonzero(np.diff(numbers, prepend=numbers[0] - 1))
    return numbers[starts], np.diff(starts, append=len(numbers))
