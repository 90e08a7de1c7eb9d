"""Goes down through the boxes of one part, from the largest to single grid points."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import (
    angles_rad,
    back_clears,
    levels_out,
    lowered,
    pivot_of,
)
from steepwright.verify.bounds import Bounds
from steepwright.verify.boxes import Boxes
from steepwright.verify.built import Built
from steepwright.verify.choices import (
    LARGEST,
    Choices,
    Size,
    joined,
    largest_of,
    next_of,
    parts_of,
)
from steepwright.verify.facts import BarsStated
from steepwright.verify.fitting import fitting_mdeg
from steepwright.verify.ground import Ground, less_pads
from steepwright.verify.pads import Pads, on_bill
from steepwright.verify.pads_wide import Hung, PadsWide, pads_wide
from steepwright.verify.stair import Stair
from steepwright.verify.strength import figures
from steepwright.verify.ties import Ties
from steepwright.verify.verdict import Verdict

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]


class Walk:
    """One part of the certificate, box by box."""

    def __init__(self, part: Document, bounds: Bounds, stair: Stair, verdict: Verdict) -> None:
        self.part, self.bounds, self.stair, self.verdict = part, bounds, stair, verdict
        self.shape = len(bounds.grid.boards_mm), len(bounds.grid.kickers_mm)
        places = part["space"]["places"]
        facings = len(places) // len({beam for beam, _ in places})
        angle, self.fits, pads, ways = self._hang()
        known = figures(part["given"], bounds.room["climber"], bounds.room["code"])
        self.ground = Ground(
            bounds,
            stair,
            known,
            angle,
            self.fits,
            pads,
            None
            if pads is None
            else less_pads(stair.needed(self.fits.astype(np.int64)), pads.least_of_all()),
            part["checks"],
            facings
            * len(part["space"]["mount_counts"])
            * len(part["space"]["screws_mm"])
            * (1 + len(part["space"].get("ties", []))),
            frozenset(tuple(int(n) for n in box) for box in part["open_boxes"]),
            Ties(part["given"], bounds.room),
            Built(part, bounds, known, ways),
        )
        self.own_beam = np.array(
            [
                [back_clears(bounds.wall, mount, s["depth_mm"]) for s in part["given"]["sections"]]
                for mount in part["given"]["mounts"]
            ]
        )

    def _unpadded(self) -> IntArray:
        """Return what each wall must be shown to cost with its pads."""
        return self.stair.needed(self.fits.astype(np.int64))

    def _hang(
        self,
    ) -> tuple[
        npt.NDArray[np.float64],
        npt.NDArray[np.int32],
        PadsWide | None,
        dict[str, npt.NDArray[np.bool_]],
    ]:
        """Return, per beam, mount and thickness, the angles that exist and those that fit.

        And what pads cost where a wall fits, if they are on the bill; and where walls fit by their
        facing.
        """
        room, given, grid = self.bounds.room, self.part["given"], self.bounds.grid
        thicknesses = sorted({f["thickness_mm"] for f in given["families"]})
        beams, mounts = room["beams"], given["mounts"]
        shape = (len(beams), len(mounts), len(thicknesses), *self.shape)
        angle = np.empty(shape)
        fits = np.empty(shape, dtype=np.int32)
        hung: list[Hung] = []
        facings: dict[int, list[str]] = {}
        faced = {way: np.zeros(shape, dtype=np.bool_) for way in ("+x", "-x")}
        for beam, facing in self.part["space"]["places"]:
            facings.setdefault(beam, []).append(facing)
        for b, m, t in np.ndindex(shape[:3]):
            pivot = pivot_of(beams[b], mounts[m], thicknesses[t])
            angle[b, m, t] = angles_rad(grid, lowered(pivot, room))
            if not levels_out(room, beams[b], mounts[m], given["factors"], grid.width_mm):
                fits[b, m, t] = -1
                continue
            ways = [fitting_mdeg(room, given, facing, pivot, grid) for facing in facings[b]]
            fits[b, m, t] = np.max(ways, axis=0)
            for facing, way in zip(facings[b], ways, strict=True):
                faced[facing][b, m, t] = way >= 0
            hung += [
                Hung((list(faced).index(facing), b, m, t), facing, pivot, beams[b], mounts[m], way)
                for facing, way in zip(facings[b], ways, strict=True)
            ]
        pads = None
        if on_bill(room):
            widths = self.bounds.widths_mm
            pads = pads_wide(Pads(room, given), grid, widths, (len(faced), *shape), hung)
        return angle, fits, pads, faced

    def run(self) -> None:
        """Go through all levels; what stays open or disagrees is told."""
        size, known = largest_of(self.ground.ends[2]), BarsStated(self.bounds)
        choices, ended = self._roots()
        for level in self.part["levels"]:
            seen = Size(level["size"], level["widths"])
            if seen != size:
                self.verdict.wrong("certificate-boxes", "boxes of a size are missing", seen, size)
                return
            choices = Boxes(self.ground, level, choices, ended, known, self.verdict).settle()
            ended, inner = {}, next_of(size)
            if inner is None:
                break
            choices = parts_of(choices, size, self.ground.ends)
            size = inner
        self._tell_open(choices, size)

    def _tell_open(self, choices: Choices, size: Size) -> None:
        if not len(choices):
            return
        self.verdict.open_designs += self.ground.designs(choices, size)
        first = self._named(choices.take(slice(0, 1)))
        self.verdict.wrong(
            "certificate-open",
            f"{len(choices)} choices are neither ruled out nor shown to cost enough",
            first,
            "a reason for each",
        )

    def _named(self, one: Choices) -> str:
        grid, given = self.bounds.grid, self.part["given"]
        row, column, section = int(one.row[0]), int(one.column[0]), int(one.section[0])
        sheeting = self.bounds.sheetings[int(one.sheeting[0])]
        timber = given["sections"][section]
        sheet = given["families"][sheeting.family]
        return (
            f"board {grid.boards_mm[row]}, kicker {grid.kickers_mm[column]},"
            f" width {self.bounds.widths_mm[int(one.width[0])]},"
            f" beam {self.bounds.room['beams'][int(one.beam[0])]['name']},"
            f" {given['mounts'][int(one.mount[0])]['name']},"
            f" {sheet['kind']} {sheet['thickness_mm']}, {sheeting.studs} studs of"
            f" {timber['width_mm']} x {timber['depth_mm']}"
        )

    def _roots(self) -> tuple[Choices, dict[str, IntArray]]:
        """Return the largest boxes' choices, and how many ended there for wholesale reasons.

        Hanging and section alone, and hanging and thickness alone, end most of them; so these
        are counted before the choices are set out one by one.
        """
        bounds, found = self.bounds, []
        rows = range(0, self.shape[0], LARGEST)
        columns = range(0, self.shape[1], LARGEST)
        ended: dict[str, list[int]] = {"": [], "own beam": [], "delivery": [], "no room": []}
        ways = (0,) if bounds.yard["vehicle_max_mm"] is None else (0, 1)
        for row, column in ((r, c) for r in rows for c in columns):
            box = self.fits[..., row : row + LARGEST, column : column + LARGEST].max(axis=(3, 4))
            room = (box >= 0)[:, :, bounds.thickness][..., None]
            clears = self.own_beam[None, :, None, :]
            both = np.broadcast_arrays(room, clears)
            beam, mount, sheeting, section = np.nonzero(both[0] & both[1])
            clear = int(both[1].sum())
            ended[""].append(2 * both[0].size)
            ended["own beam"].append(2 * (both[0].size - clear))
            ended["delivery"].append((2 - len(ways)) * clear)
            ended["no room"].append(len(ways) * (clear - len(beam)))
            # Each choice once per way to take it home, so that all are in order.
            beam, mount, sheeting, section = (
                np.repeat(column, len(ways)) for column in (beam, mount, sheeting, section)
            )
            delivered, zero = np.tile(ways, len(beam) // len(ways)), np.zeros_like(beam)
            family = beam, mount, sheeting, section, delivered
            width = bounds.narrowest[sheeting, section]
            found.append(Choices(*family, zero + row, zero + column, width))
        return joined(found), {name: np.array(counts) for name, counts in ended.items()}
