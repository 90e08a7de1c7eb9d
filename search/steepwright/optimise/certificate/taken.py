"""Reasons that are the search's own word: the checker counts them and says so.

Each is written as a mask over the choices still open, so that the rest stays checkable.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.optimise.branch import fits_with_depth
from steepwright.optimise.certificate.costs import Costs
from steepwright.optimise.certificate.fits import Fits
from steepwright.optimise.certificate.levels import Ledger
from steepwright.optimise.entries import Entries
from steepwright.structure import worst_use

BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]

CHUNK = 65536


@dataclass(frozen=True, slots=True)
class Taken:
    """Closes what the search rules out by means that the checker does not have."""

    costs: Costs
    fits: Fits

    def settle(self, entries: Entries, needed: IntArray, ledger: Ledger) -> Entries:
        """Return what even the search has nothing against.

        `needed` is what each entry's walls must be shown to cost [cents].
        """
        size = ledger.level.size
        for reason in ("room with frame and lift", "way in", "other checks"):
            if not len(entries):
                break
            if reason == "way in":
                closed = ~self.costs.model.access.passes(entries)
            else:
                ways = [entries.on(place) for place in self._facings(entries)]
                out = [self._no_room(there, size) for there in ways]
                if reason == "other checks":
                    gap = needed - self._bound_cents(entries, size)
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

    def _facings(self, entries: Entries) -> list[IntArray]:
        """Return for each facing the place that lies on each entry's beam."""
        places = self.costs.model.space.places
        beams = np.array([beam for beam, _ in places], dtype=np.int64)
        facings = sorted({facing for _, facing in places})
        tables = [
            np.array([places.index((b, f)) for b in range(int(beams.max()) + 1)], dtype=np.int64)
            for f in facings
        ]
        return [table[beams[entries.place]] for table in tables]

    def _no_room(self, entries: Entries, size: int) -> BoolArray:
        """Tell where no wall fits once folding up, or the frame's depth, is looked at."""
        model = self.costs.model
        where = model.mounting(entries), entries.row // size, entries.column // size
        fits = model.reach.angle_mdeg[size][where] >= 0
        if size == 1:
            for place in np.unique(entries.place[fits]):
                rows = np.flatnonzero(fits & (entries.place == place))
                fits[rows] = fits_with_depth(model, entries.take(rows))
        return np.asarray(~fits)

    def _pads_over(self, entries: Entries, there: Entries, size: int) -> IntArray | int:
        """Return what pads cost more, facing one way, than the least that `needed` is less by."""
        model = self.costs.model
        pads = model.pads.least(model.mounting(there), there, size)
        return np.maximum(pads - self.fits.pads_cents(model, entries, size), 0)

    def _bound_cents(self, entries: Entries, size: int) -> IntArray:
        """Return the best bound there is over each entry's box, with the fewest mounts."""
        costs, s = self.costs, self.costs.model.sheetings
        keys = zip(
            *(
                column.tolist()
                for column in (
                    s.layout[entries.sheeting],
                    s.frame[entries.sheeting],
                    entries.section,
                    entries.delivered,
                    entries.row,
                    entries.column,
                )
            ),
            strict=True,
        )
        known: dict[tuple[int, ...], int] = {}
        found = []
        for key in keys:
            layout, *frame, row, column = key
            if key not in known:
                sheets = costs.sheets_solved(layout, row, column, size)
                known[key] = sheets + costs.bars_solved(frame[0], frame[1], frame[2], row, column)
            found.append(known[key])
        material = np.array(found, dtype=np.int64)
        return np.asarray(material + costs.the_rest(entries))

    def _weak(self, entries: Entries, gap: IntArray, size: int) -> BoolArray:
        """Tell where some check fails with every fixing whose own cost leaves the gap open."""
        model = self.costs.model
        space, studs = model.space, model.sheetings.studs[entries.sheeting]
        weak = np.ones(len(entries), dtype=np.bool_)
        least = self._small_cents(entries)
        for number, (count, *_) in enumerate(space.fixings):
            fixed = entries.with_fixing(np.full(len(entries), number))
            dear = self._small_cents(fixed) - least >= gap
            rows = np.flatnonzero(weak & ~dear & (studs >= count))
            for start in range(0, len(rows), CHUNK):
                part = fixed.take(rows[start : start + CHUNK])
                batch = model.batch(part, model.fixing(part), size)
                weak[rows[start : start + CHUNK]] = worst_use(model.tables, batch) > 1
        return weak

    def _small_cents(self, entries: Entries) -> IntArray:
        model = self.costs.model
        family = model.sheetings.family[entries.sheeting]
        counts = model.counts(entries)
        return model.pricer.cost_cents(family, entries.section, entries.mount, counts)
