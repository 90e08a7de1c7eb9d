"""A timber under several joists, as a beam on springs: where a load on it goes.

Beam theory by its own influence function: a load bends an endless beam as |x|^3 / 12, joists push
back the same way, and a straight line on top is as the joists give way.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

PER_BAY = 8
"""The load is tried at so many places from one joist to the next one."""


class Spread(NamedTuple):
    """The worst of a unit load: part on one joist [-], moment [mm], sag under it [mm/N]."""

    share: float
    arm_mm: float
    soft_mm_n: float


def spread_over(joists_mm: list[float], spring_n_mm: float, ei_nmm2: float) -> Spread:
    """Return what a load anywhere on a timber does, the worst of all places tried."""
    joists = np.asarray(joists_mm, dtype=np.float64)
    n, long = len(joists), float(joists[-1] - joists[0])
    x = (joists - joists[0]) / long
    at = np.interp(np.arange((n - 1) * PER_BAY + 1) / PER_BAY, np.arange(n), x)
    bends = _cubes(x, x) + np.diag(np.full(n, ei_nmm2 / (spring_n_mm * long**3)))
    line = np.stack([np.ones(n), x], axis=1)
    both = np.block([[bends, -line], [line.T, np.zeros((2, 2))]])
    solved = np.linalg.solve(both, np.vstack([_cubes(x, at), np.ones(len(at)), at]))
    borne, line_up = solved[:n], solved[n:]
    straight = line_up[0] + line_up[1] * at
    sag = straight - np.einsum("pj,jp->p", _cubes(at, x), borne)  # |x|^3 is 0 under the load
    bent = np.abs(at[:, None] - at[None, :]) - np.abs(at[:, None] - x[None, :]) @ borne
    most = float(np.abs(bent).max()) / 2
    return Spread(float(borne.max()), most * long, float(sag.max()) * long**3 / ei_nmm2)


def _cubes(one: FloatArray, other: FloatArray) -> FloatArray:
    return np.asarray(np.abs(one[:, None] - other[None, :]) ** 3 / 12)
