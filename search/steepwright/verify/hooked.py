"""Where mounts hang along their beam, and the worst that this does to it, at every width.

The climbers hang on any one mount. Half the board's weight hangs on one mount under its middle,
or on two around it, whichever is worse: all other ways to share it lie between these.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.bounds import Bounds
from steepwright.verify.choices import Choices, Size
from steepwright.verify.divisions import stud_middles_mm

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

UNDER_MM = 1.0
"""A mount so near to the board's middle may bear all of its weight."""


@dataclass(frozen=True, slots=True)
class Hooked:
    """Effects of unit loads on simple beams, arrays of one length.

    Moments [mm] and support reactions [-] of a load on one mount and of the board's weight, and
    deflections over that by the same load at mid-span [-].
    """

    arm_climb: FloatArray
    arm_weight: FloatArray
    end_climb: FloatArray
    end_weight: FloatArray
    sag_climb: FloatArray
    sag_weight: FloatArray


def hooked(at_mm: FloatArray, middle_mm: FloatArray, span_mm: float) -> FloatArray:
    """Return the effects, one row each in the order of `Hooked`, by walls.

    `at_mm` are the places of mounts [wall, mount] from a support, `middle_mm` that of the board's
    middle [wall]. Beyond a support counts as at it.
    """
    s = float(span_mm)
    at, middle = np.clip(at_mm, 0.0, s), np.clip(middle_mm, 0.0, s)
    nearest = np.minimum(at, s - at)
    # P b (s^2 - b^2)^(3/2) / (9 sqrt(3) s EI), b to the nearer support, over P s^3 / (48 EI).
    sag = 16 / (3 * np.sqrt(3)) * nearest * (s**2 - nearest**2) ** 1.5 / s**4
    alone = at * (s - at) / s
    under = np.abs(at - middle[:, None]) <= UNDER_MM
    arm_weight = np.where(under, alone, 0.0).max(axis=1)
    sag_weight = np.where(under, sag, 0.0).max(axis=1)
    for i, j in np.ndindex(at.shape[1], at.shape[1]):
        left, right = at[:, i], at[:, j]
        around = (left < middle) & (middle < right)
        part = np.where(around, (right - middle) / np.where(around, right - left, 1.0), 0.0)
        # The supports bear the weight as if it lay at the board's middle.
        arm = np.maximum(left * (s - middle), (s - right) * middle) / s
        arm_weight = np.maximum(arm_weight, np.where(around, arm, 0.0))
        both = part * sag[:, i] + (1 - part) * sag[:, j]
        sag_weight = np.maximum(sag_weight, np.where(around, both, 0.0))
    end_climb, end_weight = 1 - nearest.min(axis=1) / s, np.maximum(middle, s - middle) / s
    return np.stack(
        [alone.max(axis=1), arm_weight, end_climb, end_weight, sag.max(axis=1), sag_weight]
    )


def mounts_mm(
    room: Document, beam: Document, facing: str, middles_mm: FloatArray, wide_mm: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return where mounts and the board's middle are, from the beam's support at y = 0 [mm].

    `middles_mm` are those of the studs with a mount, from the climber's left [wall, mount]. The
    span lies in the middle of the room's width.
    """
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[room["wall"]["align"]]
    start = share * (room["width_mm"] - wide_mm)
    support = (room["width_mm"] - beam["span_mm"]) / 2
    across = middles_mm if facing == "+x" else wide_mm[:, None] - middles_mm
    return across + (start - support)[:, None], start + wide_mm / 2 - support


def with_mount(studs: int, mounts: int) -> list[int]:
    """Return the numbers of the studs that so many mounts hang at: spread from edge to edge."""
    return [round(i * (studs - 1) / (mounts - 1)) for i in range(mounts)]


class Hooks:
    """Effects of mounts for the choices of one part, the least over ranges of widths."""

    def __init__(self, bounds: Bounds, facing: str) -> None:
        self.bounds, self.facing = bounds, facing
        self._tables: dict[tuple[int, ...], FloatArray] = {}

    def least(self, c: Choices, count: int, size: Size) -> Hooked:
        """Return the least of each effect over the widths of each choice's box."""
        b = self.bounds
        last = np.minimum(c.first_width(size) + size.widths, len(b.widths_mm)) - 1
        split = np.array(b.frames.split, dtype=np.int64)[c.sheeting]
        keys = np.stack([c.beam, split, b.studs[c.sheeting], b.narrow[c.section], c.width, last])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        found = np.empty((6, unique.shape[1]))
        for n, (*made, low, high) in enumerate(unique.T.tolist()):
            table = self._table((*made, count))
            past = len(b.widths_mm) - table.shape[1]
            found[:, n] = table[:, low - past : high + 1 - past].min(axis=1)
        return Hooked(*found[:, index.ravel()])

    def _table(self, key: tuple[int, ...]) -> FloatArray:
        """Return the effects at every width that the board can be divided at.

        `key` tells beam, way to divide, studs, their width and the number of mounts.
        """
        if key not in self._tables:
            beam, split, studs, narrow, count = key
            columns = self.bounds.frames.columns_mm[split]
            bays = (studs - 1) // columns.shape[1]
            middles = stud_middles_mm(tuple(columns.T.astype(float)), bays, narrow)
            held = [
                middles[n] + np.zeros(len(columns)) for n in with_mount(studs, min(count, studs))
            ]
            wide, hung = columns.sum(axis=1).astype(float), self.bounds.room["beams"][beam]
            at = mounts_mm(self.bounds.room, hung, self.facing, np.stack(held, axis=1), wide)
            self._tables[key] = hooked(*at, hung["span_mm"])
        return self._tables[key]
