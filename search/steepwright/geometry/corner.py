"""The longest rectangle that can be carried round a right-angled corner, in plan."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

_HALVINGS = 32
"""Leaves the angle within 4e-10; the length is flat there, so its error is far below 1e-6 mm."""


def corner_length_mm(
    a_mm: npt.ArrayLike, b_mm: npt.ArrayLike, width_mm: npt.ArrayLike = 0.0
) -> FloatArray:
    """Return the length of the longest rectangle of some width that passes the corner [mm].

    Parameters
    ----------
    a_mm, b_mm
        Clear widths of the two corridors [mm].
    width_mm
        Width of the rectangle, w [mm].

    A rectangle that turns while it touches both outer walls and the inner corner passes when
    its length is at most

        f(t) = (a cos t + b sin t - w) / (sin t cos t)

    for every angle t between 0 and 90 degrees, so the answer is the least f. f'(t) has the sign
    of g(t) = b sin^3 t - a cos^3 t + w (cos^2 t - sin^2 t), which has exactly one root when
    w <= min(a, b): g(0) = w - a <= 0, g(90) = b - w >= 0, and
    g' = sin t cos t (3 (b sin t + a cos t) - 4 w), where the bracket is concave in t, so g falls,
    rises and falls at most once each. Halving finds that root whatever the numbers. With w = 0
    it is the rod, (a^(2/3) + b^(2/3))^(3/2).

    A rectangle may also go round without turning: along one corridor lengthwise and along
    the other sideways, when it is as short as that corridor is wide. The longer of both answers
    counts. 0 when the rectangle is wider than both corridors. The answer never rises with
    `width_mm` and never falls with either corridor.
    """
    a, b, width = np.broadcast_arrays(
        *(np.asarray(value, dtype=np.float64) for value in (a_mm, b_mm, width_mm))
    )
    slides = np.maximum(np.where(width <= a, b, 0.0), np.where(width <= b, a, 0.0))
    turns = width < np.minimum(a, b)
    least = _turning_length(np.where(turns, a, 1.0), np.where(turns, b, 1.0), width * turns)
    return np.asarray(np.where(turns, np.maximum(least, slides), slides), dtype=np.float64)


def _turning_length(a: FloatArray, b: FloatArray, width: FloatArray) -> FloatArray:
    low, high = np.zeros_like(a), np.full_like(a, np.pi / 2)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        sine, cosine = np.sin(middle), np.cos(middle)
        slope = b * sine**3 - a * cosine**3 + width * (cosine**2 - sine**2)
        low, high = np.where(slope < 0.0, middle, low), np.where(slope < 0.0, high, middle)
    sine, cosine = np.sin(high), np.cos(high)
    return np.asarray((a * cosine + b * sine - width) / (sine * cosine), dtype=np.float64)
