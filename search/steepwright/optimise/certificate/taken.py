"""Reasons that are the search's own word: the checker counts them and says so.

Each is written as a mask over the choices still open, so that the rest stays checkable. The way in
is among them, but of that the checker has a copy and holds each choice against it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.certificate.carried import Carried
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.fits import Fits
from steepwright.optimise.certificate.levels import TAKEN, WAY_IN, Ledger
from steepwright.optimise.certificate.ways import facings, no_room, solved_cents
from steepwright.optimise.entries import Entries
from steepwright.optimise.fixings import small_cents
from steepwright.optimise.widths import hung_between
from steepwright.structure import worst_use

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]

CHUNK = 65536


@dataclass(frozen=True, slots=True)
class Taken:
    """Closes what the search rules out by means that the checker does not have."""

    costs: Costs
    fits: Fits
    carried: Carried

    def settle(self, entries: Entries, needed: IntArray, ledger: Ledger) -> Entries:
        """Return what even the search has nothing against.

        `needed` is what each entry's walls must be shown to cost [cents].
        """
        size = ledger.level.size
        for reason in TAKEN:
            if not len(entries):
                break
            if reason == WAY_IN:
                closed = ~self.carried.get_in(entries)
            else:
                ways = facings(self.costs.model, entries)
                out = [no_room(self.costs.model, there, size) for there in ways]
                if reason == "other checks":
                    material = sum(solved_cents(self.costs, entries, size, ledger.level.widths))
                    gap = needed - material - self.costs.the_rest(entries)
                    dearer = [self._pads_over(entries, there, size) for there in ways]
                    weak = [
                        self._weak(there, gap - more, size)
                        for there, more in zip(ways, dearer, strict=True)
                    ]
                    out = [a | b for a, b in zip(out, weak, strict=True)]
                closed = np.logical_and.reduce(out)
            keep = ledger.take(reason, closed)
            entries, needed = entries.take(keep), needed[keep]
        return entries

    def _pads_over(self, entries: Entries, there: Entries, size: int) -> IntArray:
        """Return what pads cost more, facing one way, than the least that `needed` is less by.

        Of larger boxes that is left out: `needed` is that of some wall, its pads not the least.
        """
        if size > 1 or self.fits.pads is None:
            return np.zeros(len(entries), dtype=np.int64)
        model = self.costs.model
        pads = self.fits.pads_facing_cents(model, there)
        return np.asarray(np.maximum(pads - self.fits.pads_cents(model, entries), 0))

    def _weak(self, entries: Entries, gap: IntArray, size: int) -> BoolArray:
        """Tell where some check fails with every fixing whose own cost leaves the gap open."""
        model = self.costs.model
        space, studs = model.space, model.sheetings.studs[entries.sheeting]
        weak = np.ones(len(entries), dtype=np.bool_)
        least = small_cents(model, entries)
        for number, (count, *_) in enumerate(space.fixings):
            fixed = entries.with_fixing(np.full(len(entries), number))
            dear = small_cents(model, fixed) - least >= gap
            rows = np.flatnonzero(weak & ~dear & (studs >= count))
            for start in range(0, len(rows), CHUNK):
                part = fixed.take(rows[start : start + CHUNK])
                batch = model.batch(part, model.fixing(part), size)
                batch = hung_between(model, part, batch)
                weak[rows[start : start + CHUNK]] = worst_use(model.tables, batch) > 1
        return weak
