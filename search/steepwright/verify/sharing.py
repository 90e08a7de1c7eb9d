"""How much of one load the worst stud carries, worked out anew for one pattern of studs.

Ribs on one span, coupled by a layer of beams across them that is parted at seams up the slope.
In each harmonic m along the span the deflections w of the ribs satisfy

    (E + (m pi / z)^4 I) w = (share of the load per rib),   z = span (D / (EI bay^3))^(1/4),

with E the stiffness across for unit bay and stiffness. The moments are those of the load on
stiff ribs less what E moves away. The search's table is the least curve above the worst value
that does not rise with z and whose z-fold (z^3-fold for deflections) does not fall; so is this.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

LEAST_Z, MOST_Z, STEPS = 0.25, 40.0, 240
HARMONICS, ALONG, PER_BAY = 64, 20, 12


class Sharing(NamedTuple):
    """Factors of moment and deflection over ln z, and of the end reaction."""

    log_z: FloatArray
    log_moment: FloatArray
    log_sag: FloatArray
    reaction: float

    def moment(self, z: FloatArray) -> FloatArray:
        """Return the largest moment over P span / 4."""
        return np.asarray(np.exp(np.interp(_log(z), self.log_z, self.log_moment)))

    def sag(self, z: FloatArray) -> FloatArray:
        """Return the largest deflection over P span^3 / 48 EI."""
        return np.asarray(np.exp(np.interp(_log(z), self.log_z, self.log_sag)))


def _log(z: FloatArray) -> FloatArray:
    return np.asarray(np.log(np.maximum(z, LEAST_Z * 1e-6)))


@lru_cache(maxsize=256)
def sharing(columns: int, studs: int) -> Sharing:
    """Return the factors for a number of studs under so many columns of the board."""
    bays = (studs - 1) // columns
    seams = [0, *range(bays, studs - 1, bays), studs - 1]
    across, direct = _across(studs, seams), _direct(studs, seams)
    z = np.geomspace(LEAST_Z, MOST_Z, STEPS)
    moment, sag = _worst(z, across, direct)
    alone = float(direct.max())
    low = np.log(LEAST_Z * 0.5)
    curves = [_steady(z, moment, alone, 1), _steady(z, sag, alone, 3)]
    logs = [np.log(np.concatenate([[alone], curve])) for curve in curves]
    return Sharing(np.concatenate([[low], np.log(z)]), logs[0], logs[1], alone)


def _spline(size: int) -> FloatArray:
    """Return the matrix from deflections to support moments of a beam on unit bays."""
    moments = np.zeros((size, size))
    if size > 2:
        inner = size - 2
        second = np.zeros((inner, size))
        for row in range(inner):
            second[row, row : row + 3] = 1.0, -2.0, 1.0
        three = np.diag(np.full(inner, 2 / 3)) + np.diag(np.full(inner - 1, 1 / 6), 1)
        three += np.diag(np.full(inner - 1, 1 / 6), -1)
        moments[1:-1] = np.linalg.inv(three) @ second
    return moments


def _across(studs: int, seams: list[int]) -> FloatArray:
    stiffness = np.zeros((studs, studs))
    for first, last in pairwise(seams):
        size = last - first + 1
        second = np.zeros((size, size))
        for row in range(1, size - 1):
            second[row, row - 1 : row + 2] = 1.0, -2.0, 1.0
        stiffness[first : last + 1, first : last + 1] += second.T @ _spline(size)
    return stiffness


def _direct(studs: int, seams: list[int]) -> FloatArray:
    """Return what each rib gets of a unit load, a row per place across: PER_BAY to a bay.

    By Betti's law the reaction of a rib is the deflection at the load of the beam across when
    that rib alone is moved by one: a natural cubic spline.
    """
    places = np.linspace(0.0, studs - 1.0, (studs - 1) * PER_BAY + 1)
    rows = np.zeros((len(places), studs))
    for first, last in pairwise(seams):
        curved = _spline(last - first + 1)
        for n, place in enumerate(places):
            if not first <= place <= last or (place == last and last != studs - 1):
                continue
            left = min(int(place), last - 1)
            b = place - left
            a = 1.0 - b
            i = left - first
            row = (a**3 - a) / 6 * curved[i] + (b**3 - b) / 6 * curved[i + 1]
            row[i] += a
            row[i + 1] += b
            rows[n, first : last + 1] = row
    return rows


def _worst(z: FloatArray, across: FloatArray, direct: FloatArray) -> tuple[FloatArray, FloatArray]:
    soft, modes = np.linalg.eigh(across)
    soft = np.maximum(soft, 0.0)
    soft[soft < 1e-9] = 0.0
    weight = ((direct @ modes)[:, None, :] * modes[None, :, :]).reshape(-1, len(soft))
    part = np.linspace(0.0, 0.5, ALONG + 1)[1:]
    order = np.arange(1, HARMONICS + 1)
    wave = np.sin(np.pi * np.outer(part, order)) ** 2
    shape = 4.0 * part * (1.0 - part)
    moment, sag = np.empty(len(z)), np.empty(len(z))
    for n, value in enumerate(z):
        ratio = value**4 * soft / np.pi**4
        moved = ratio[:, None] / (order[None, :] ** 4 + ratio[:, None])
        less_moment = 8.0 / np.pi**2 * (wave / order**2) @ moved.T
        less_sag = 96.0 / np.pi**4 * (wave / order**4) @ moved.T
        moment[n] = (weight @ (shape[:, None] - less_moment).T).max()
        sag[n] = (weight @ (shape[:, None] ** 2 - less_sag).T).max()
    return moment, sag


def _steady(z: FloatArray, real: FloatArray, alone: float, power: int) -> FloatArray:
    falling = np.maximum.accumulate(real[::-1])[::-1]
    return np.minimum(np.maximum.accumulate(z**power * falling) / z**power, alone)
