"""What a stud that is tied back at mid-length carries of a load, over what it carries alone.

A simple span L of stiffness EI with an elastic support k at its middle, a load P at u L from an
end, u <= 1/2. Alone, the middle would sag by PL^3/(48 EI) (3u - 4u^3); the tie takes
T = P h (3u - 4u^3) with h = K / (1 + K), K = k L^3 / (48 EI). Moments and deflections are then
straight lines in h for every place of the load, and their largest a convex curve: read between
the steps of a table it is never too low.

The sheet's sharing and the ties' are not combined: the true stud carries at most the lesser of
what either leaves (tests/structure/test_tie_share.py holds that against the grillage). What a load
between studs lifts a neighbour by is borne by no tie, for a tie can't push: it stays.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from steepwright.structure.grillage import simple_deflection, simple_moment
from steepwright.structure.types import FloatArray

_STEPS = 128
_PLACES = 400


class TiedPart(NamedTuple):
    """Over PL/4 and over PL^3/(48 EI): the tied stud's largest moment and deflection [-]."""

    moment: FloatArray
    deflection: FloatArray


def held_part(stiffness_n_per_mm: FloatArray, soft_mm_per_n: FloatArray) -> FloatArray:
    """Return h = K / (1 + K) [-], K being the tie's stiffness times the stud's L^3/(48 EI)."""
    ratio = stiffness_n_per_mm * soft_mm_per_n
    return np.asarray(ratio / (1.0 + ratio))


def tied_part(held: FloatArray) -> TiedPart:
    """Return what is left of moment and deflection at each h, 0 to 1; neither rises with it."""
    steps, moment, deflection = _table()
    return TiedPart(np.interp(held, steps, moment), np.interp(held, steps, deflection))


@lru_cache(maxsize=1)
def _table() -> tuple[FloatArray, FloatArray, FloatArray]:
    steps = np.linspace(0.0, 1.0, _STEPS + 1)
    load = np.linspace(0.0, 0.5, _PLACES // 2 + 1)[1:, None]
    at = np.linspace(0.0, 1.0, _PLACES + 1)[None, :]
    one, middle = np.array(1.0), np.array(0.5)
    pull = 3.0 * load - 4.0 * load**3
    bent = 4.0 * simple_moment(at, load, one), 4.0 * simple_moment(at, middle, one)
    sunk = 48.0 * simple_deflection(at, load, one), 48.0 * simple_deflection(at, middle, one)
    left = [[np.abs(alone - h * pull * tie).max() for h in steps] for alone, tie in (bent, sunk)]
    # Read from the stiffest tie back: a softer one never leaves less.
    moment, deflection = (np.maximum.accumulate(np.array(row)[::-1])[::-1] for row in left)
    return steps, moment, deflection
