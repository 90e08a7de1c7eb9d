"""The archive of unbeaten designs: more angle, less cost, more fall space."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

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

    Of two designs with equal scores the one kept is the one of lower `rank`, whichever comes
    first; without a rank the one offered first.
    """

    rank: Callable[[Payload], Any] | None = None
    members: dict[Score, Payload] = field(default_factory=dict)
    _angles: IntArray = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    _falls: IntArray = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    _least: IntArray = field(default_factory=lambda: np.full((1, 1), NO_COST, dtype=np.int64))
    _own: IntArray = field(default_factory=lambda: np.full((1, 1), NO_COST, dtype=np.int64))

    @classmethod
    def of(
        cls, members: Iterable[tuple[Score, Payload]], rank: Callable[[Payload], Any] | None = None
    ) -> Front[Payload]:
        """Return the front of another one's members, none of which beats another."""
        front = cls(rank, dict(members))
        if front.members:
            front._rebuild()
        return front

    def offer(self, score: Score, design: Payload) -> bool:
        """Keep a design unless one already kept is at least as good; return whether it was kept."""
        if self.rank is not None and score in self.members:
            lower = self.rank(design) < self.rank(self.members[score])
            if lower:
                self.members[score] = design
            return bool(lower)
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
        self._own = least
        least = np.minimum.accumulate(least[::-1], axis=0)[::-1]
        self._least = np.minimum.accumulate(least[:, ::-1], axis=1)[:, ::-1]

    def least_cost_cents(self, angle_mdeg: IntArray, fall_mm: IntArray) -> IntArray:
        """Return per row the least known cost [cents] at that angle and fall space or more."""
        rows = np.searchsorted(self._angles, angle_mdeg)
        return self._least[rows, np.searchsorted(self._falls, fall_mm)]

    def worth_below_cents(self, angle_mdeg: IntArray, fall_mm: IntArray) -> IntArray:
        """Return below which cost [cents] a wall of at most that angle and fall space is of use.

        That is the least known cost of so much angle and fall space. Where it is that of a member
        with just that angle and fall space it is a cent more, if members are ranked: one with the
        same score may rank lower. Anything else at that cost is beaten.
        """
        least = self.least_cost_cents(angle_mdeg, fall_mm)
        if self.rank is None or not self.members:
            return least
        rows = np.minimum(np.searchsorted(self._angles, angle_mdeg), len(self._angles) - 1)
        columns = np.minimum(np.searchsorted(self._falls, fall_mm), len(self._falls) - 1)
        same = (self._angles[rows] == angle_mdeg) & (self._falls[columns] == fall_mm)
        return np.asarray(least + (same & (self._own[rows, columns] == least)))

    def sorted(self) -> list[tuple[Score, Payload]]:
        """Return the members from the cheapest up."""
        return sorted(self.members.items(), key=lambda item: item[0])
