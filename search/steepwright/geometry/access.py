"""Whether a piece can be brought in: past the largest size known to pass, doors and corners.

A piece is a cuboid. It is carried upright in one of its three ways, never tilted, so that the
answer is on the safe side: a piece that passes here passes, and one that does not may still be
coaxed round by tilting it. A smaller piece always passes where a larger one does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Factors
from steepwright.geometry.corner import corner_length_mm
from steepwright.room.types import Access, Corridor, Door

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Sides = tuple[FloatArray, FloatArray, FloatArray]
Turn = Callable[[float, float, FloatArray], FloatArray]


def passes_mask(
    access: Access,
    length_mm: npt.ArrayLike,
    width_mm: npt.ArrayLike,
    thickness_mm: npt.ArrayLike,
) -> BoolArray:
    """Tell which pieces can be brought in; the sides [mm] broadcast, in any order of size."""
    sides = _sides(length_mm, width_mm, thickness_mm)
    passed = np.ones(sides[0].shape, dtype=np.bool_)
    for _, mask in _bottlenecks(access, sides, corner_length_mm):
        passed = passed & mask
    return passed


def piece_passes(
    access: Access, length_mm: float, width_mm: float, thickness_mm: float
) -> tuple[bool, str]:
    """Tell whether one piece can be brought in, and if not, what stops it.

    Parameters
    ----------
    length_mm, width_mm, thickness_mm
        Sides of the piece [mm], in any order of size.

    Returns
    -------
    tuple
        (True, "") or (False, words for the first bottleneck that stops it).
    """
    sides = _sides(length_mm, width_mm, thickness_mm)
    for words, mask in _bottlenecks(access, sides, _turn_of_one):
        if not mask:
            return False, words
    return True, ""


def carry_limit_kg(access: Access, factors: Factors) -> float:
    """Return the greatest mass of a piece for the stated carriers [kg].

    The guideline figure for one person at the best height (``carry_one_person_kg``), or what
    the builder says one person carries if that is less, times their number, times the team
    factor (two thirds for two, a half for three: HSE L23, para. 120). Beyond three people
    nothing is gained. A filter that calls for thought, not a legal limit.
    """
    return _team_limit_kg(access, factors, access.carriers)


def people_needed(mass_kg: float, access: Access, factors: Factors) -> int | None:
    """Return how many people a piece of some mass takes, or None if three can't carry it."""
    for people in range(1, len(_shares(factors)) + 1):
        if mass_kg <= _team_limit_kg(access, factors, people):
            return people
    return None


def _team_limit_kg(access: Access, factors: Factors, people: int) -> float:
    one = factors["carry_one_person_kg"]
    if access.max_carry_kg is not None:
        one = min(one, access.max_carry_kg)
    shares = _shares(factors)[: max(1, people)]
    return max(one * n * share for n, share in enumerate(shares, start=1))


def _shares(factors: Factors) -> tuple[float, ...]:
    """Return the share of each carrier's strength that counts in a team of one, two, three.

    The team factors end there: more people round one piece do not carry more (L23 para. 120).
    """
    return 1.0, factors["carry_team2_factor"], factors["carry_team3_factor"]


def _sides(*values_mm: npt.ArrayLike) -> Sides:
    a, b, c = np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in values_mm))
    return a, b, c


def _bottlenecks(access: Access, sides: Sides, turn: Turn) -> Iterator[tuple[str, BoolArray]]:
    """Yield every bottleneck on the way in, in words, with the pieces that pass it."""
    if access.max_piece_mm is not None:
        most = sorted(access.max_piece_mm)
        words = f"larger than the {most[1]} x {most[0]} mm that are known to pass"
        longer, shorter = np.maximum(*sides[:2]), np.minimum(*sides[:2])
        yield words, np.asarray((longer <= most[1]) & (shorter <= most[0]))
    for door in access.doors:
        words = f"does not pass the door {door.name!r}, {door.width_mm} x {door.height_mm} mm"
        yield words, _passes_door(door, sides)
    for corner in access.corridors:
        words = (
            f"does not get round the corner {corner.name!r}, {corner.width_a_mm} x "
            f"{corner.width_b_mm} mm and {corner.height_mm} mm high"
        )
        yield words, _passes_corner(corner, sides, turn)


def _passes_door(door: Door, sides: Sides) -> BoolArray:
    """Two of the three sides fit the opening, the third runs through it."""
    fits = np.zeros(sides[0].shape, dtype=np.bool_)
    for i, j in ((0, 1), (0, 2), (1, 2), (1, 0), (2, 0), (2, 1)):
        fits = fits | ((sides[i] <= door.width_mm) & (sides[j] <= door.height_mm))
    return fits


def _passes_corner(corner: Corridor, sides: Sides, turn: Turn) -> BoolArray:
    """One side upright below the ceiling; the other two are the plan that goes round."""
    fits = np.zeros(sides[0].shape, dtype=np.bool_)
    for upright, one, two in ((1, 0, 2), (0, 1, 2), (2, 0, 1)):
        low = sides[upright] <= corner.height_mm
        if low.any() and not fits.all():
            longest = turn(corner.width_a_mm, corner.width_b_mm, np.minimum(sides[one], sides[two]))
            fits = fits | (low & (np.maximum(sides[one], sides[two]) <= longest))
    return fits


def _turn_of_one(a_mm: float, b_mm: float, width_mm: FloatArray) -> FloatArray:
    return np.asarray(_turn_known(a_mm, b_mm, float(width_mm)))


@lru_cache(maxsize=4096)
def _turn_known(a_mm: float, b_mm: float, width_mm: float) -> float:
    return float(corner_length_mm(a_mm, b_mm, width_mm))
