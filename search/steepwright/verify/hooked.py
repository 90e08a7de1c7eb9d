"""Where mounts hang along their beam, and the worst that this does to it, at every width.

Mounts hang at studs, but at an outer one further in, for bolts need their distance from the lip
rail's end. The climbers hang on any one mount, or at an outer stud beyond it, which may have lost
its mount. Half the board's weight hangs on one mount under its middle, or on two around it,
whichever is worse: all other ways to share it lie between these.
"""

from __future__ import annotations

import math
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
    deflections over that by the same load at mid-span [-]; what a load at an outer stud brings its
    mount [-]. With a mount lost: what climbers and what the lip's weight bring the next one [-],
    and the moment of such climbers [mm].
    """

    arm_climb: FloatArray
    arm_weight: FloatArray
    end_climb: FloatArray
    end_weight: FloatArray
    sag_climb: FloatArray
    sag_weight: FloatArray
    outer: FloatArray
    lost: FloatArray
    lost_weight: FloatArray
    arm_lost: FloatArray


def beyond_mm(f: Document, stud_mm: float) -> float:
    """Return how far the middle of an outer stud is beyond its mount's [mm].

    The mount's bolts, in one row, begin where they may by EN 1995-1-1 Table 8.4 or the NDS, or
    where a washer of 3 d is clear of the stud.
    """
    d = f["lip_bolt_mm"]
    first = max(f["lip_bolt_end_mm"], f["lip_bolt_end_d"] * d, stud_mm + 3 * d / 2)
    row = (f["lip_bolts"] - 1) * f["lip_bolt_apart_d"] * d
    return float(math.ceil(first - 1e-9) + row / 2 - stud_mm / 2)


def hung_at(studs_mm: FloatArray, beyond: float) -> FloatArray:
    """Return the places of mounts at these studs [wall, mount] [mm]."""
    inwards = np.sign(studs_mm[:, -1] - studs_mm[:, 0]) * beyond
    at = studs_mm.astype(float)
    at[:, 0] += inwards
    at[:, -1] -= inwards
    return at


def _levers(at_mm: FloatArray, beyond: float) -> FloatArray:
    """Return what a load beyond each mount brings it, 1 but for the outer ones [wall, mount].

    A beam that goes through: F at e bends it by F e over the first support and by at most
    F e g / (2 g + 1.5 h) the other way over the second; g and h are the gaps that follow.
    """
    gaps = _gaps_mm(at_mm)
    levers = np.ones(at_mm.shape)
    levers[:, 0] += beyond * _turned(gaps)
    levers[:, -1] += beyond * _turned(gaps[:, ::-1])
    return levers


def _gaps_mm(at_mm: FloatArray) -> FloatArray:
    """Return the distances of neighbouring mounts [wall, gap] [mm], of those that meet 1 mm."""
    return np.asarray(np.maximum(np.abs(np.diff(at_mm, axis=1)), 1.0))


def _turned(gaps: FloatArray) -> FloatArray:
    """Return what a moment over a mount adds to its load, by the gaps inwards from it [1/mm]."""
    arms = 1 / gaps[:, 0]
    if gaps.shape[1] > 1:
        arms = arms + 1 / (2 * gaps[:, 0] + 1.5 * gaps[:, 1])
    return np.asarray(arms)


def _lost(at_mm: FloatArray, middle_mm: FloatArray, beyond: float) -> tuple[FloatArray, FloatArray]:
    """Return what climbers bring each mount when an outer one next to it is lost, and the weight.

    Both are 1 where nothing is to lever on. The rail reaches out to the outer stud from the next
    mount. The weight hangs at the board's middle [wall], which may be left outside as well.
    """
    levers, weight = np.ones(at_mm.shape), np.ones(len(at_mm))
    if at_mm.shape[1] < 3:
        return levers, weight
    outwards = np.sign(at_mm[:, 0] - at_mm[:, -1])
    gaps = _gaps_mm(at_mm)
    for near, way, left, gone in (
        (1, outwards, gaps[:, 1:], gaps[:, 0]),
        (-2, -outwards, gaps[:, -2::-1], gaps[:, -1]),
    ):
        levers[:, near] = np.maximum(levers[:, near], 1 + (gone + beyond) * _turned(left))
        outside = np.maximum(way * (middle_mm - at_mm[:, near]), 0.0)
        weight = np.maximum(weight, 1 + outside * _turned(left))
    return levers, weight


def hooked(
    studs_mm: FloatArray, middle_mm: FloatArray, span_mm: float, beyond: float = 0.0
) -> FloatArray:
    """Return the effects, one row each in the order of `Hooked`, by walls.

    `studs_mm` are the places of studs with a mount [wall, mount] from a support, `middle_mm` that
    of the board's middle [wall], `beyond` how far outer studs are from their mounts. Beyond a
    support counts as at it.
    """
    s, hung = float(span_mm), hung_at(studs_mm, beyond)
    levers, studs = _levers(hung, beyond), np.clip(studs_mm, 0.0, s)
    lost, lost_weight = _lost(hung, middle_mm, beyond)
    lost = np.maximum(lost, levers)
    at, middle = np.clip(hung, 0.0, s), np.clip(middle_mm, 0.0, s)
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
    end_climb = 1 - np.minimum(studs, s - studs).min(axis=1) / s
    return np.stack(
        [
            (levers * alone).max(axis=1),
            arm_weight,
            end_climb,
            np.maximum(middle, s - middle) / s,
            (levers * sag).max(axis=1),
            sag_weight,
            levers.max(axis=1),
            lost.max(axis=1),
            lost_weight,
            (lost * alone).max(axis=1),
        ]
    )


def mounts_mm(
    room: Document, beam: Document, facing: str, middles_mm: FloatArray, wide_mm: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return where these studs and the board's middle are, from the beam's support at y = 0 [mm].

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


def studs_hung_mm(design: Document, narrow: int) -> FloatArray:
    """Return the middles of a design's studs with a mount, from the climber's left [1, mount]."""
    bays = (design["stud_count"] - 1) // design["columns"]
    middles = stud_middles_mm(design["column_widths_mm"], bays, narrow)
    return np.array([[middles[n] for n in with_mount(design["stud_count"], design["mount_count"])]])


def hooks_of(
    design: Document, room: Document, beam: Document, made: tuple[Document, int]
) -> Hooked:
    """Return what a design's mounts do to its beam; `made` are the factors and its studs' width."""
    factors, narrow = made
    wide = np.array([float(design["width_mm"])])
    at = mounts_mm(room, beam, design["facing"], studs_hung_mm(design, narrow), wide)
    return Hooked(*hooked(*at, beam["span_mm"], beyond_mm(factors, narrow)))


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
        found = np.empty((len(Hooked.__slots__), unique.shape[1]))
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
            beyond = beyond_mm(self.bounds.factors, narrow)
            self._tables[key] = hooked(*at, hung["span_mm"], beyond)
        return self._tables[key]
