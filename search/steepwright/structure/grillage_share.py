"""How much of one load the worst stud gets: a table once per stud pattern, then look-ups.

With equal ribs the sharing depends on one number, z = span (D_t / (EI bay^3))^(1/4). The
transverse beam's own modes turn n coupled ribs into n single beams on elastic ground, so the
table is exact up to its step. It covers loads on and between all studs and along the span.

The search needs moments and deflections that never fall when the span or the bay grows. The
largest moment is PL/4 f(z) with z proportional to the span and falling with the bay: f must
not rise and z f must not fall. Real curves break the second by a little (a beam on elastic
ground overshoots); the table holds the smallest curve above the real one that keeps both.
It lies less than 2 % above (tests/structure/test_grillage_share.py). Between two steps of the table
the straight line (in logarithms) may be some 1e-5 of the value too low.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from steepwright.structure.grillage_transverse import rib_loads, transverse_stiffness
from steepwright.structure.types import FloatArray, IntArray

_Z_FROM, _Z_TO, _Z_STEPS = 0.25, 40.0, 240
_HARMONICS = 64
_PLACES_ALONG = 21
_PLACES_PER_BAY = 12


@dataclass(frozen=True, slots=True)
class Share:
    """Worst stud of each candidate under one load anywhere on the board, arrays (B,).

    `moment` times P span / 4 is the largest moment, `deflection` times P span^3 / (48 EI) the
    largest deflection, `reaction` times P the largest end reaction and shear force, and what a stud
    gets of the load that stands on it; `lift` times P is the most by which one is lifted.
    """

    moment: FloatArray
    deflection: FloatArray
    reaction: FloatArray
    lift: FloatArray


def stud_share(  # noqa: PLR0913  one array per property of a rib
    columns: IntArray,
    studs: IntArray,
    bay_mm: FloatArray,
    span_mm: FloatArray,
    ei_rib_nmm2: FloatArray,
    across_nmm2_per_mm: FloatArray,
    stiffer: FloatArray | float = 1.0,
) -> Share:
    """Return how much of a point load the worst stud carries.

    Parameters
    ----------
    columns, studs
        Board pieces across and number of studs; a seam up the slope lies on a stud, with
        equal bays in every column, so studs - 1 is a multiple of columns.
    bay_mm, span_mm
        Largest bay and span of the studs [mm].
    ei_rib_nmm2
        Bending stiffness of a rib [Nmm2]; take the smallest when they differ (softer
        neighbours take less off the loaded stud).
    across_nmm2_per_mm
        D_t, bending stiffness across per unit length [Nmm2/mm]; 0 for no sharing.
    stiffer
        The ribs' stiffness in service over `ei_rib_nmm2`; the deflection's share goes by it.

    Raises
    ------
    ValueError
        When a pattern of studs is impossible.
    """
    z = span_mm * (across_nmm2_per_mm / (ei_rib_nmm2 * bay_mm**3)) ** 0.25
    log_z = np.log(np.maximum(z, _Z_FROM * 1e-6))
    log_z_sag = log_z - 0.25 * np.log(stiffer)
    moment, deflection, reaction, lift = (np.empty(len(log_z)) for _ in range(4))
    code = columns * 1_000 + studs
    for value in np.unique(code):
        rows = code == value
        table = _table(int(value) // 1_000, int(value) % 1_000)
        moment[rows] = np.interp(log_z[rows], table.log_z, table.log_moment)
        deflection[rows] = np.interp(log_z_sag[rows], table.log_z, table.log_deflection)
        reaction[rows], lift[rows] = table.reaction, table.lift
    return Share(np.exp(moment), np.exp(deflection), reaction, lift)


def prepare(patterns: Iterable[tuple[int, int]]) -> None:
    """Make the tables of some patterns (columns, studs) now: before processes are forked.

    Raises
    ------
    ValueError
        When a pattern of studs is impossible.
    """
    for columns, studs in patterns:
        _table(columns, studs)


@dataclass(frozen=True, slots=True)
class _Table:
    log_z: FloatArray
    log_moment: FloatArray
    log_deflection: FloatArray
    reaction: float
    lift: float


@lru_cache(maxsize=256)
def _table(columns: int, studs: int) -> _Table:
    if columns < 1 or studs < 2 or (studs - 1) % columns:
        message = f"{studs} studs can't carry {columns} columns with equal bays"
        raise ValueError(message)
    bays = (studs - 1) // columns
    seams = tuple(range(bays, studs - 1, bays))
    z = np.geomspace(_Z_FROM, _Z_TO, _Z_STEPS)
    across = np.linspace(0.0, studs - 1.0, (studs - 1) * _PLACES_PER_BAY + 1)
    loads = rib_loads(studs, seams, across)
    moment, deflection = _worst(z, transverse_stiffness(studs, seams), loads)
    # No sharing at all: the worst stud gets the largest direct part of the load.
    alone = float(loads.max())
    low = np.log(_Z_FROM * 0.5)
    return _Table(
        log_z=np.concatenate([[low], np.log(z)]),
        log_moment=np.log(np.concatenate([[alone], _steady(z, moment, alone, 1)])),
        log_deflection=np.log(np.concatenate([[alone], _steady(z, deflection, alone, 3)])),
        reaction=alone,
        lift=max(0.0, -float(loads.min())),
    )


def _steady(z: FloatArray, real: FloatArray, alone: float, power: int) -> FloatArray:
    """Return the smallest curve above `real` that keeps both directions of the search.

    It doesn't rise, z^power times it doesn't fall, and it is at most `alone`.
    """
    falling = np.maximum.accumulate(real[::-1])[::-1]
    growing = np.maximum.accumulate(z**power * falling) / z**power
    return np.minimum(growing, alone)


def _worst(
    z: FloatArray, stiffness: FloatArray, loads: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the largest moment and deflection factor (Z,) over ribs and places of the load."""
    ground, modes = np.linalg.eigh(stiffness)
    ground = np.where(ground < 1e-9, 0.0, ground)
    # (places across, rib, mode): part of the load in a mode, times the rib's part of it.
    weight = np.einsum("tj,jk,ik->tik", loads, modes, modes).reshape(-1, len(ground))
    along = np.linspace(0.0, 0.5, _PLACES_ALONG)[1:]
    order = np.arange(1, _HARMONICS + 1)
    wave = np.sin(np.pi * order[None, :] * along[:, None]) ** 2
    phi = (z[:, None] ** 4 * ground / np.pi**4)[:, None, :, None]
    eased = phi / (order**4 + phi)
    eased_m = 8.0 / np.pi**2 * (eased * wave[:, None, :] / order**2).sum(axis=-1)
    eased_w = 96.0 / np.pi**4 * (eased * wave[:, None, :] / order**4).sum(axis=-1)
    ratio = (4.0 * along * (1.0 - along))[None, :, None]
    moment = ((ratio - eased_m) @ weight.T).max(axis=(1, 2))
    sag = ((ratio**2 - eased_w) @ weight.T).max(axis=(1, 2))
    return moment, sag
