"""The longest rectangle that can be carried round a corner, in one plane."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

_HALVINGS = 32
"""Leaves the angle within 4e-10; the length is flat there, so its error is far below 1e-6 mm."""

RIGHT_ANGLE_RAD = math.pi / 2


def corner_length_mm(
    a_mm: npt.ArrayLike,
    b_mm: npt.ArrayLike,
    width_mm: npt.ArrayLike = 0.0,
    turn_rad: float = RIGHT_ANGLE_RAD,
) -> FloatArray:
    """Return the length of the longest rectangle of some width that passes the corner [mm].

    Parameters
    ----------
    a_mm, b_mm
        Clear widths of the two corridors [mm].
    width_mm
        Width of the rectangle, w [mm].
    turn_rad
        How far the way turns, T [rad], above 0 and at most a right angle.

    A rectangle that turns while it touches both outer walls and the inner corner, at an angle t
    to the first wall, passes when its length is at most

        f(t) = (a sin(T - t) + b sin t - w sin T) / (sin t sin(T - t))
             = (a - w cos t) / sin t + (b - w cos(T - t)) / sin(T - t)

    for every t between 0 and T, so the answer is the least f. Each summand is convex for
    w <= min(a, b): the second derivative of the first is (a (1 + cos^2 t) - 2 w cos t) / sin^3 t,
    and a (1 + c^2) - 2 w c >= a (1 - c)^2 for c >= 0. So f' changes sign once, and halving
    finds that place whatever the numbers. With w = 0 and a right angle it is the rod,
    (a^(2/3) + b^(2/3))^(3/2).

    A rectangle may also go round without turning: along one corridor lengthwise and along
    the other as it lies, when L sin T + w cos T is within that one's width. The longer of both
    answers counts. 0 when the rectangle is wider than both corridors. The answer never rises
    with `width_mm` and never falls with either corridor.
    """
    a, b, width = np.broadcast_arrays(
        *(np.asarray(value, dtype=np.float64) for value in (a_mm, b_mm, width_mm))
    )
    sine, cosine = math.sin(turn_rad), max(0.0, math.cos(turn_rad))
    if turn_rad == RIGHT_ANGLE_RAD:
        sine, cosine = 1.0, 0.0
    through_b = np.where(width <= a, (b - width * cosine) / sine, 0.0)
    through_a = np.where(width <= b, (a - width * cosine) / sine, 0.0)
    slides = np.maximum(np.maximum(through_a, through_b), 0.0)
    turns = width < np.minimum(a, b)
    at = np.where(turns, a, 1.0), np.where(turns, b, 1.0)
    least = _turning_length(*at, width * turns, turn_rad)
    return np.asarray(np.where(turns, np.maximum(least, slides), slides), dtype=np.float64)


def _turning_length(a: FloatArray, b: FloatArray, width: FloatArray, turn: float) -> FloatArray:
    low, high = np.zeros_like(a), np.full_like(a, turn)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        rest = turn - middle
        slope = (width - a * np.cos(middle)) * np.sin(rest) ** 2
        slope -= (width - b * np.cos(rest)) * np.sin(middle) ** 2
        low, high = np.where(slope < 0.0, middle, low), np.where(slope < 0.0, high, middle)
    rest = turn - high
    first = (a - width * np.cos(high)) / np.sin(high)
    return np.asarray(first + (b - width * np.cos(rest)) / np.sin(rest), dtype=np.float64)
