"""What stays the same for all boxes of one part of a certificate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, back_rise_mm
from steepwright.verify.bounds import Bounds
from steepwright.verify.built import Built
from steepwright.verify.choices import Choices, Size
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
    pads_cents
        What pads cost at least there; None where they are not on the bill.
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
    pads_cents: IntArray | None
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

    def needed_cents(self, c: Choices, cells: int) -> IntArray:
        """Return what each choice's walls must be shown to cost; 0 where none fits."""
        needed = self.stair.needed(self.largest_mdeg(c, cells))
        return np.where(needed > 0, np.maximum(needed - self._least_pads(c, cells), 1), 0)

    def largest_mdeg(self, c: Choices, cells: int) -> IntArray:
        """Return the largest angle that fits in each choice's box."""
        shape, thickness = self.fits_mdeg.shape, self.bounds.thickness[c.sheeting]
        rows, columns = -(-shape[3] // cells), -(-shape[4] // cells)
        padded = np.full((*shape[:3], rows * cells, columns * cells), -1, dtype=np.int32)
        padded[..., : shape[3], : shape[4]] = self.fits_mdeg
        boxes = padded.reshape(*shape[:3], rows, cells, columns, cells).max(axis=(4, 6))
        found = boxes[c.beam, c.mount, thickness, c.row // cells, c.column // cells]
        return np.asarray(found.astype(np.int64))

    def _least_pads(self, c: Choices, cells: int) -> IntArray | int:
        """Return what pads cost at least in each choice's box [cents]."""
        pads, thickness = self.pads_cents, self.bounds.thickness[c.sheeting]
        if pads is None:
            return 0
        ends = [
            np.minimum(c.row + cells, pads.shape[3]),
            np.minimum(c.column + cells, pads.shape[4]),
        ]
        keys = np.stack([c.beam, c.mount, thickness, c.row, c.column, *ends])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        least = [pads[b, m, t, r:to, k:end].min() for b, m, t, r, k, to, end in unique.T]
        return np.array(least, dtype=np.int64)[index.ravel()]

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
