"""The stair of a front: what a wall of some angle must cost at least, if nothing was missed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.pricing.hardware import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Stair:
    """Angles [1/1000 degree], ascending, and the least cost [cents] at that angle or more."""

    angle_mdeg: IntArray
    least_cents: IntArray

    def needed_cents(self, angle_mdeg: npt.ArrayLike) -> IntArray:
        """Return what walls up to an angle must be shown to cost [cents].

        0 where no wall fits (an angle below 0): there is nothing to show. Beyond the steepest
        step no wall at all may be left, so nothing that can be bought is dear enough.
        """
        angle = np.asarray(angle_mdeg, dtype=np.int64)
        steps = np.append(self.least_cents, UNAVAILABLE_CENTS)
        needed = steps[np.searchsorted(self.angle_mdeg, angle)]
        return np.asarray(np.where(angle < 0, 0, needed), dtype=np.int64)


def stair_of(points: Iterable[tuple[int, int]]) -> Stair:
    """Return the stair of (angle [1/1000 degree], cost [cents]) pairs."""
    rows = sorted(points)
    angle = np.array([angle for angle, _ in rows], dtype=np.int64)
    cost = np.array([cost for _, cost in rows], dtype=np.int64)
    return Stair(angle, np.minimum.accumulate(cost[::-1])[::-1])
