"""What a stud that is tied back carries of a load, over what it carries alone.

A simple span L of stiffness EI with an elastic support k at p L from an end, a load P at u L.
Alone, the place of the tie would sag by P f(u), under a load at that place by P f(p), f(p) =
L^3/(3 EI) p^2 (1 - p)^2; the tie takes T = P h f(u)/f(p) with h = K / (1 + K), K = k f(p). At
mid-length f(p) is L^3/(48 EI) and f(u)/f(p) is 3u - 4u^3, u <= 1/2. Moments and deflections are
straight lines in h for every place of the load, and their largest a convex curve: read between
the steps of a table it is never too low, and from some h on the largest at an end.

A firm support at p, b the lesser of p and 1 - p, takes (1 - b^2)^(3/2) / (3 sqrt(3) b (1 - b)^2) of
a load at the worst place, which is the largest of f(u)/f(p), and (1 + p - p^2) / (8 p (1 - p)) of
an even load: all of the one and 5/8 of the other in the middle.

The sheet's sharing and the ties' are not combined: the true stud carries at most the lesser of
what either leaves (tests/structure/test_tie_share.py holds that against the grillage). What a load
between studs lifts a neighbour by is borne by no tie, for a tie can't push: it stays.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from steepwright.structure.beam import simple_deflection, simple_moment
from steepwright.structure.types import FloatArray

MIDDLE = 0.5
"""Where ties are fixed unless a wall has a place of its own, over the board's length."""

_STEPS = 128
_PLACES = 400

_Line = tuple[FloatArray, FloatArray]
"""What there is without a tie, and what a firm one takes off: straight lines in h."""


class TiedPart(NamedTuple):
    """Over PL/4 and over PL^3/(48 EI): the tied stud's largest moment and deflection [-]."""

    moment: FloatArray
    deflection: FloatArray


def held_part(stiffness_n_per_mm: FloatArray, soft_mm_per_n: FloatArray) -> FloatArray:
    """Return h = K / (1 + K) [-], K being the tie's stiffness times the stud's L^3/(48 EI)."""
    ratio = stiffness_n_per_mm * soft_mm_per_n
    return np.asarray(ratio / (1.0 + ratio))


def softness(place: FloatArray) -> FloatArray:
    """Return f(p) over that in the middle, L^3/(48 EI) [-]."""
    return np.asarray(np.square(4.0 * place * (1.0 - place)))


def most_of_load(place: FloatArray) -> FloatArray:
    """Return the most that a firm support at a place takes of one load [-]."""
    b = np.minimum(place, 1.0 - place)
    most = (1.0 - b * b) ** 1.5 / (np.sqrt(27.0) * b * np.square(1.0 - b))
    return np.where(place == MIDDLE, 1.0, most)


def part_of_weight(place: FloatArray) -> FloatArray:
    """Return what a firm support at a place takes of an even load [-]."""
    apart = place * (1.0 - place)
    return np.asarray((1.0 + apart) / (8.0 * apart))


def tied_part(held: FloatArray, place: FloatArray) -> TiedPart:
    """Return what is left of moment and deflection at each h, 0 to 1; neither rises with it."""
    steps, moment, deflection = _table()
    left = TiedPart(np.interp(held, steps, moment), np.interp(held, steps, deflection))
    for row in np.flatnonzero(place != MIDDLE):
        ends = np.array([held[row], 1.0])
        lines = _lines_of(float(place[row]))
        left.moment[row], left.deflection[row] = (_largest(line, ends).max() for line in lines)
    return left


@lru_cache(maxsize=1)
def _table() -> tuple[FloatArray, FloatArray, FloatArray]:
    steps = np.linspace(0.0, 1.0, _STEPS + 1)
    lines = _lines(MIDDLE, np.linspace(0.0, 0.5, _PLACES // 2 + 1)[1:])
    # Read from the stiffest tie back: a softer one never leaves less.
    moment, deflection = (
        np.maximum.accumulate(_largest(line, steps)[::-1])[::-1] for line in lines
    )
    return steps, moment, deflection


@lru_cache(maxsize=4)
def _lines_of(place: float) -> tuple[_Line, _Line]:
    return _lines(place, np.linspace(0.0, 1.0, _PLACES + 1)[1:-1])


def _lines(place: float, loads: FloatArray) -> tuple[_Line, _Line]:
    """Return moment over PL/4 and deflection over PL^3/(48 EI) by load and place, as lines in h."""
    load, tie, one = loads[:, None], np.array(place), np.array(1.0)
    at = np.append(np.linspace(0.0, 1.0, _PLACES + 1), place)[None, :]
    pull = simple_deflection(tie, load, one) / simple_deflection(tie, tie, one)
    return (
        (4.0 * simple_moment(at, load, one), 4.0 * pull * simple_moment(at, tie, one)),
        (48.0 * simple_deflection(at, load, one), 48.0 * pull * simple_deflection(at, tie, one)),
    )


def _largest(line: _Line, held: FloatArray) -> FloatArray:
    alone, tie = line
    return np.array([np.abs(alone - h * tie).max() for h in held])
