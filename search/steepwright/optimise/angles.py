"""How far a search has got, told by whole degrees: which angles are settled, and the gap.

An angle is settled when no unit that is still open can hold a wall of that angle or more for
less than the cheapest found.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from steepwright.optimise.bounds import Rates
from steepwright.optimise.front import NO_COST, Score
from steepwright.optimise.model import Model
from steepwright.optimise.units import IntArray, Unit, least_cents
from steepwright.units import money


@dataclass(frozen=True, slots=True)
class Angle:
    """One whole angle [deg]: the cheapest wall of that angle or more found, and what is open.

    Attributes
    ----------
    found_cents
        What the cheapest found costs; None when none was found.
    open_cents
        No wall that is not yet looked at costs less; None when there is no such wall.
    """

    angle_deg: int
    found_cents: int | None
    open_cents: int | None

    @property
    def settled(self) -> bool:
        """Whether nothing cheaper can be found."""
        if self.open_cents is None:
            return True
        return self.found_cents is not None and self.open_cents >= self.found_cents

    @property
    def gap_cents(self) -> int | None:
        """How much cheaper a wall may still be; None when none was found, 0 when settled."""
        if self.settled:
            return 0
        return None if self.found_cents is None else self.found_cents - (self.open_cents or 0)


class Angles:
    """The angles of one model's search."""

    def __init__(self, model: Model, rates: Rates, units: tuple[Unit, ...]) -> None:
        self.degrees = whole_degrees(model)
        self._bounds = least_cents(model, rates, units, self.degrees)

    def now(self, scores: Iterable[Score], open_units: Sequence[int]) -> tuple[Angle, ...]:
        """Return every angle's state, given the designs found and the units still open."""
        bounds = self._bounds[list(open_units)]
        least = bounds.min(axis=0, initial=NO_COST)
        return states(self.degrees, scores, least)


def whole_degrees(model: Model) -> IntArray:
    """Return the whole degrees of the room's range."""
    low, high = model.space.market.room.wall.angle_deg
    return np.arange(math.ceil(low), math.floor(high) + 1, dtype=np.int64)


def states(degrees: IntArray, scores: Iterable[Score], least: IntArray) -> tuple[Angle, ...]:
    """Return the angles, given a bound [cents] of what is open at each."""
    found = np.full(len(degrees), NO_COST, dtype=np.int64)
    for score in scores:
        reached = degrees * 1000 <= score.angle_mdeg
        found[reached] = np.minimum(found[reached], score.cost_cents)
    rows = zip(degrees.tolist(), found.tolist(), least.tolist(), strict=True)
    return tuple(
        Angle(d, None if f == NO_COST else f, None if low >= NO_COST else low) for d, f, low in rows
    )


def told(angles: tuple[Angle, ...]) -> str:
    """Return how far the search is, in a few words."""
    settled = sum(angle.settled for angle in angles)
    text = f"angles settled {settled} of {len(angles)}"
    gaps = [angle.gap_cents for angle in angles if not angle.settled]
    if not gaps:
        return text
    known = [gap for gap in gaps if gap is not None]
    if len(known) < len(gaps):
        return f"{text}, gap not known yet"
    return f"{text}, gap at most {money(max(known))}"
