"""How a timber under several joists spreads a load to them: a beam on springs.

The joists are springs where the timber crosses them, as stiff as a simple beam under a load
there; the timber is a plain beam (Euler and Bernoulli) screwed to each of them. A load anywhere
between the outermost joists is looked at, the worst of a fine row of places counts.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from steepwright.structure.types import FloatArray

POINTS_PER_BAY = 8
"""Places of the load from one joist to the next one."""


class Spreading(NamedTuple):
    """The worst effects of a unit load: part on one joist [-], moment [mm], sag [mm/N]."""

    share: float
    arm_mm: float
    soft_mm_per_n: float


def spreading(joists_mm: tuple[float, ...], spring_n_per_mm: float, ei_nmm2: float) -> Spreading:
    """Return the worst effects of a load on a timber under evenly stiff joists.

    Raises
    ------
    ValueError
        When there are fewer than two joists, or something is not stiff at all.
    """
    if len(joists_mm) < 2 or spring_n_per_mm <= 0.0 or ei_nmm2 <= 0.0:
        message = "a load is spread over two joists or more that are stiff, as the timber is"
        raise ValueError(message)
    places = _places(joists_mm)
    springs = np.arange(0, len(places), POINTS_PER_BAY)
    stiff = _stiffness(places, ei_nmm2)
    stiff[2 * springs, 2 * springs] += spring_n_per_mm
    loads = np.zeros((len(stiff), len(places)))
    loads[2 * np.arange(len(places)), np.arange(len(places))] = 1.0
    moved: FloatArray = np.asarray(np.linalg.solve(stiff, loads), dtype=np.float64)
    share = spring_n_per_mm * moved[2 * springs].max()
    soft = moved[2 * np.arange(len(places)), np.arange(len(places))].max()
    return Spreading(float(share), _largest_moment(places, ei_nmm2, moved), float(soft))


def _places(joists_mm: tuple[float, ...]) -> FloatArray:
    steps = np.arange(POINTS_PER_BAY) / POINTS_PER_BAY
    bays = [a + (b - a) * steps for a, b in pairwise(joists_mm)]
    return np.concatenate([*bays, joists_mm[-1:]])


def _element(length_mm: float, ei_nmm2: float) -> FloatArray:
    """Return the stiffness of a piece of beam for [deflection, slope] at both ends."""
    n = length_mm
    return (ei_nmm2 / n**3) * np.array(
        [
            [12.0, 6.0 * n, -12.0, 6.0 * n],
            [6.0 * n, 4.0 * n * n, -6.0 * n, 2.0 * n * n],
            [-12.0, -6.0 * n, 12.0, -6.0 * n],
            [6.0 * n, 2.0 * n * n, -6.0 * n, 4.0 * n * n],
        ]
    )


def _stiffness(places: FloatArray, ei_nmm2: float) -> FloatArray:
    whole = np.zeros((2 * len(places), 2 * len(places)))
    for n, length in enumerate(np.diff(places).tolist()):
        at = slice(2 * n, 2 * n + 4)
        whole[at, at] += _element(length, ei_nmm2)
    return whole


def _largest_moment(places: FloatArray, ei_nmm2: float, moved: FloatArray) -> float:
    ends = [
        _element(length, ei_nmm2)[[1, 3]] @ moved[2 * n : 2 * n + 4]
        for n, length in enumerate(np.diff(places).tolist())
    ]
    return float(np.abs(np.array(ends)).max())
