"""The archive of unbeaten designs: more angle, less cost, more fall space."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Generic, TypeVar

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]
Payload = TypeVar("Payload")

NO_COST = np.iinfo(np.int64).max // 4
"""Cost of "nothing found yet"; above every bill."""


@dataclass(frozen=True, slots=True, order=True)
class Score:
    """The three objectives as integers, so that equality is exact.

    Attributes
    ----------
    cost_cents, angle_mdeg, fall_mm
        Cost [cents]; overhang angle in thousandths of a degree, rounded down; fall space [mm].
    """

    cost_cents: int
    angle_mdeg: int
    fall_mm: int

    def at_least(self, other: Score) -> bool:
        """Return whether this score is as good as the other in every objective."""
        return (
            self.cost_cents <= other.cost_cents
            and self.angle_mdeg >= other.angle_mdeg
            and self.fall_mm >= other.fall_mm
        )


@dataclass(slots=True)
class Front(Generic[Payload]):
    """Non-dominated scores, each with the design that reaches it.

    Of two designs with equal scores the one kept is the one offered first.
    """

    members: dict[Score, Payload] = field(default_factory=dict)
    _angles: IntArray = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    _falls: IntArray = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    _least: IntArray = field(default_factory=lambda: np.full((1, 1), NO_COST, dtype=np.int64))

    def offer(self, score: Score, design: Payload) -> bool:
        """Keep a design unless one already kept is at least as good; return whether it was kept."""
        if any(kept.at_least(score) for kept in self.members):
            return False
        for beaten in [kept for kept in self.members if score.at_least(kept)]:
            del self.members[beaten]
        self.members[score] = design
        self._rebuild()
        return True

    def _rebuild(self) -> None:
        scores = np.array(
            [(s.cost_cents, s.angle_mdeg, s.fall_mm) for s in self.members], dtype=np.int64
        )
        self._angles = np.unique(scores[:, 1])
        self._falls = np.unique(scores[:, 2])
        shape = (len(self._angles) + 1, len(self._falls) + 1)
        least = np.full(shape, NO_COST, dtype=np.int64)
        rows = np.searchsorted(self._angles, scores[:, 1])
        columns = np.searchsorted(self._falls, scores[:, 2])
        np.minimum.at(least, (rows, columns), scores[:, 0])
        least = np.minimum.accumulate(least[::-1], axis=0)[::-1]
        self._least = np.minimum.accumulate(least[:, ::-1], axis=1)[:, ::-1]

    def least_cost_cents(self, angle_mdeg: IntArray, fall_mm: IntArray) -> IntArray:
        """Return per row the least known cost [cents] at that angle and fall space or more."""
        rows = np.searchsorted(self._angles, angle_mdeg)
        return self._least[rows, np.searchsorted(self._falls, fall_mm)]

    def sorted(self) -> list[tuple[Score, Payload]]:
        """Return the members from the cheapest up."""
        return sorted(self.members.items(), key=lambda item: item[0])
