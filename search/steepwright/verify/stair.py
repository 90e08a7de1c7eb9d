"""The stair of the finished front: what walls of an angle or more must cost."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.verify.packs import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Stair:
    """Angles [1/1000 degree], ascending, with the least cost [cents] at each or more."""

    angle_mdeg: IntArray
    cents: IntArray

    def needed(self, angle_mdeg: IntArray) -> IntArray:
        """Return what walls up to an angle must cost; 0 below an angle of 0."""
        steps = np.append(self.cents, UNAVAILABLE_CENTS)
        return np.where(angle_mdeg < 0, 0, steps[np.searchsorted(self.angle_mdeg, angle_mdeg)])
