"""How walls are fixed, one array for each thing to choose."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]

Way = tuple[int, int, int]
"""Number of mounts, distance of the sheet's screws [mm], tie (index)."""


@dataclass(frozen=True, slots=True)
class Fixing:
    """How walls are fixed: number of mounts, distance of the sheet's screws [mm], tie; arrays."""

    mounts: IntArray
    screw_mm: IntArray
    tie: IntArray

    @classmethod
    def of(cls, mounts: int, screw_mm: int, count: int, tie: int = 0) -> Fixing:
        """Return the same fixing for `count` walls."""
        return cls(*(np.full(count, value) for value in (mounts, screw_mm, tie)))

    @classmethod
    def picked(cls, ways: tuple[Way, ...], index: IntArray) -> Fixing:
        """Return those of some ways that an index picks."""
        return cls(*_columns(ways)[:, index])

    def take(self, index: npt.NDArray[np.intp]) -> Fixing:
        """Return the rows of an index."""
        return Fixing(self.mounts[index], self.screw_mm[index], self.tie[index])


@lru_cache(maxsize=16)
def _columns(ways: tuple[Way, ...]) -> IntArray:
    return np.array(ways, dtype=np.int64).T
