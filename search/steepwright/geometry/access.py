"""Whether a piece can be brought in, what stops it, and how many people carry it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Factors
from steepwright.geometry.ways import (
    BoolArray,
    Sides,
    passes_corner,
    passes_door,
    passes_landing,
    passes_lift,
    passes_stair,
    passes_window,
)
from steepwright.room.types import Access

NO_LIMIT_MM = 20_000
"""Pieces this long count as having no limit."""


@dataclass(frozen=True, slots=True)
class Bottleneck:
    """One narrow place: what it is called, and what passes it."""

    name: str
    passes: Callable[[Sides], BoolArray]


def bottlenecks(access: Access) -> tuple[Bottleneck, ...]:
    """Return every narrow place on the way in; what passes a window need not pass any of them."""
    places = []
    if access.max_piece_mm is not None:
        most = max(access.max_piece_mm), min(access.max_piece_mm)
        known = f"the {most[0]} x {most[1]} mm that are known to pass"
        places.append(Bottleneck(known, partial(_within, most)))
    for table, word, passes in _KINDS:
        places += [
            Bottleneck(f"the {word} {row.name!r}", partial(passes, row)) for row in table(access)
        ]
    return tuple(places)


def windows(access: Access) -> tuple[Callable[[Sides], BoolArray], ...]:
    """Return for every window what passes it."""
    return tuple(partial(passes_window, window) for window in access.windows)


def passes_mask(
    access: Access,
    length_mm: npt.ArrayLike,
    width_mm: npt.ArrayLike,
    thickness_mm: npt.ArrayLike,
) -> BoolArray:
    """Tell which pieces can be brought in; the sides [mm] broadcast, in any order of size."""
    sides = _sides(length_mm, width_mm, thickness_mm)
    a, b, c = sides
    flat = a.tobytes(), b.tobytes(), c.tobytes()
    return _passed(access, flat).reshape(a.shape)


@lru_cache(maxsize=1024)
def _passed(access: Access, flat: tuple[bytes, bytes, bytes]) -> BoolArray:
    """Tell which pieces pass; kept, since sheets of one thickness are divided alike."""
    a, b, c = (np.frombuffer(side) for side in flat)
    sides, passed = (a, b, c), np.ones(len(a), dtype=np.bool_)
    for place in bottlenecks(access):
        passed = passed & place.passes(sides)
    for passes in windows(access):
        passed = passed | passes(sides)
    passed.flags.writeable = False
    return passed


def longest_mm(passes: Callable[[Sides], BoolArray], width_mm: int, thickness_mm: int) -> int:
    """Return the longest piece of some width and thickness that passes [whole mm].

    0 when none does, `NO_LIMIT_MM` when it is no limit. Found in two rounds, of lengths far apart
    and of those between two of them, since a shorter piece passes wherever a longer one does.
    """
    low, step = 0, math.isqrt(NO_LIMIT_MM)
    for apart, most in ((step, NO_LIMIT_MM), (1, step)):
        lengths = np.arange(low, min(low + most, NO_LIMIT_MM) + 1, apart)[1:]
        passed = passes(_sides(lengths, width_mm, thickness_mm))
        low = int(lengths[passed].max(initial=low))
    return low


def carry_limit_kg(access: Access, factors: Factors) -> float:
    """Return the greatest mass of a piece for the stated carriers [kg].

    The guideline figure for one person at the best height (``carry_one_person_kg``), or what
    the builder says one person carries if that is less, times their number, times the team
    factor (two thirds for two, a half for three: HSE L23, para. 120). Beyond three people
    nothing is gained. A filter that calls for thought, not a legal limit.
    """
    return _team_limit_kg(_one_kg(access, factors, CARRYING), factors, access.carriers)


def people_needed(mass_kg: float, access: Access, factors: Factors) -> int | None:
    """Return how many people a piece of some mass takes, or None if three can't carry it."""
    return _people(mass_kg, _one_kg(access, factors, CARRYING), factors)


def people_overhead(force_kg: float, access: Access, factors: Factors) -> int | None:
    """Return how many people raise something overhead, or None if three can't.

    By the guideline figure for above the shoulder (``raise_one_person_kg``); `force_kg` is the
    upward force over g.
    """
    return _people(force_kg, _one_kg(access, factors, "raise_one_person_kg"), factors)


CARRYING = "carry_one_person_kg"
"""The guideline figure at the best height."""


def _one_kg(access: Access, factors: Factors, key: str) -> float:
    one = factors[key]
    return one if access.max_carry_kg is None else min(one, access.max_carry_kg)


def _people(mass_kg: float, one_kg: float, factors: Factors) -> int | None:
    for people in range(1, len(_shares(factors)) + 1):
        if mass_kg <= _team_limit_kg(one_kg, factors, people):
            return people
    return None


def _team_limit_kg(one_kg: float, factors: Factors, people: int) -> float:
    shares = _shares(factors)[: max(1, people)]
    return max(one_kg * n * share for n, share in enumerate(shares, start=1))


def _shares(factors: Factors) -> tuple[float, ...]:
    """Return the share of each carrier's strength that counts in a team of one, two, three.

    The team factors end there: more people round one piece do not carry more (L23 para. 120).
    """
    return 1.0, factors["carry_team2_factor"], factors["carry_team3_factor"]


def _sides(*values_mm: npt.ArrayLike) -> Sides:
    a, b, c = np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in values_mm))
    return a, b, c


def _within(most_mm: tuple[int, int], sides: Sides) -> BoolArray:
    longer, shorter = np.maximum(*sides[:2]), np.minimum(*sides[:2])
    return np.asarray((longer <= most_mm[0]) & (shorter <= most_mm[1]))


_KINDS: tuple[tuple[Callable[[Access], Any], str, Any], ...] = (
    (lambda access: access.doors, "door", passes_door),
    (lambda access: access.corridors, "corner", passes_corner),
    (lambda access: access.stairs, "stair", passes_stair),
    (lambda access: access.landings, "landing", passes_landing),
    (lambda access: access.lifts, "lift", passes_lift),
)
