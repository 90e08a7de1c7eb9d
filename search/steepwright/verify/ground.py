"""What stays the same for all boxes of one part of a certificate."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, back_rise_mm
from steepwright.verify.bounds import Bounds
from steepwright.verify.built import Built
from steepwright.verify.choices import Choices, Size
from steepwright.verify.pad_rows import NEVER
from steepwright.verify.pads_wide import PadsWide
from steepwright.verify.stair import Stair
from steepwright.verify.strength import Corners, Figures
from steepwright.verify.ties import Ties

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Ground:
    """What all boxes of one part are judged by.

    Attributes
    ----------
    angle_rad, fits_mdeg
        Per beam, mount, thickness and grid point: the angle of the wall [rad], and the largest
        one that fits the room facing either way [1/1000 degree], -1 for none; of walls of the
        least width, for a wider one takes the same room and more.
    pads, needed
        What pads cost, and what each wall must be shown to cost without them at any width [cents];
        None where they are not on the bill.
    checks
        The checks to try, in order.
    weight
        How many designs each choice stands for at a grid point and width.
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
    pads: PadsWide | None
    needed: IntArray | None
    checks: list[str]
    weight: int
    open_boxes: frozenset[tuple[int, ...]]
    ties: Ties
    built: Built

    @property
    def ends(self) -> tuple[int, int, int]:
        """Numbers of board lengths, kickers and widths."""
        grid = self.bounds.grid
        return len(grid.boards_mm), len(grid.kickers_mm), len(self.bounds.widths_mm)

    def designs(self, c: Choices, size: Size) -> int:
        """Return how many designs choices on boxes of a size stand for."""
        rows = np.minimum(size.cells, self.ends[0] - c.row)
        columns = np.minimum(size.cells, self.ends[1] - c.column)
        widths = np.minimum(c.first_width(size) + size.widths, self.ends[2]) - c.width
        return int((rows * columns * widths).sum()) * self.weight

    def needed_cents(self, c: Choices, size: Size) -> IntArray:
        """Return what each choice's walls must be shown to cost; 0 where none fits.

        With pads on the bill that is the most over the box's walls, each less the least that its
        pads cost: over all widths, or at single lengths over those of the box.
        """
        if self.pads is None or self.needed is None:
            return self.stair.needed(self.largest_mdeg(c, size.cells))
        if size.cells > 1 or size.widths >= self.ends[2]:
            return self._largest(self.needed, c, size.cells, 0)
        at = c.beam, c.mount, self.bounds.thickness[c.sheeting], c.row, c.column
        last = np.minimum(c.first_width(size) + size.widths, self.ends[2]) - 1
        pads = self.pads.least_between(at, c.width, last)
        return less_pads(self.stair.needed(self.fits_mdeg[at].astype(np.int64)), pads)

    def largest_mdeg(self, c: Choices, cells: int) -> IntArray:
        """Return the largest angle that fits in each choice's box."""
        return self._largest(self.fits_mdeg, c, cells, -1)

    def _largest(self, table: npt.NDArray[Any], c: Choices, cells: int, least: int) -> IntArray:
        """Return the largest value of a table over the grid in each choice's box."""
        shape, thickness = table.shape, self.bounds.thickness[c.sheeting]
        rows, columns = -(-shape[3] // cells), -(-shape[4] // cells)
        padded = np.full((*shape[:3], rows * cells, columns * cells), least, dtype=table.dtype)
        padded[..., : shape[3], : shape[4]] = table
        boxes = padded.reshape(*shape[:3], rows, cells, columns, cells).max(axis=(4, 6))
        found = boxes[c.beam, c.mount, thickness, c.row // cells, c.column // cells]
        return np.asarray(found.astype(np.int64))

    def beam_stops(self, c: Choices, cells: int) -> BoolArray:
        """Tell where a single wall's frame rises above its own beam, at its own angle."""
        bounds = self.bounds
        if cells > 1 or bounds.wall.get("tolerance_mm", 0):
            return np.zeros(len(c), dtype=np.bool_)
        given = bounds.given
        depth = np.array([s["depth_mm"] for s in given["sections"]])[c.section]
        drop, setback, behind = (
            np.array([mount[name] for mount in given["mounts"]])[c.mount]
            for name in ("drop_mm", "setback_mm", "behind_sheet_mm")
        )
        back = np.maximum(depth - behind, 0)
        rise = back_rise_mm(back, setback, self._angles(c), bounds.wall["fold_up"])
        return np.asarray(rise > drop + SLACK_MM)

    def _angles(self, c: Choices) -> FloatArray:
        thickness = self.bounds.thickness[c.sheeting]
        return self.angle_rad[c.beam, c.mount, thickness, c.row, c.column]

    def corners(self, c: Choices, screw_mm: int) -> Corners:
        """Return the walls of the choices' least corners, their screws so far apart."""
        bounds = self.bounds
        least = np.radians(bounds.wall["angle_deg"][0])
        return Corners(
            family=bounds.family[c.sheeting],
            section=c.section,
            across=bounds.across[c.sheeting],
            columns=bounds.columns[c.sheeting],
            rows=bounds.rows[c.sheeting],
            studs=bounds.studs[c.sheeting],
            bay_mm=bounds.bay_mm(c),
            board_mm=bounds.grid.boards_mm[c.row].astype(float),
            angle_rad=np.fmax(self._angles(c), least),
            screw_mm=np.full(len(c), float(screw_mm)),
        )


def less_pads(needed: IntArray, pads: IntArray) -> IntArray:
    """Return what walls must be shown to cost without their pads; 0 where none fits."""
    left = np.where(needed > 0, np.maximum(needed - pads, 1), 0)
    return np.where(pads < NEVER, left, 0)
