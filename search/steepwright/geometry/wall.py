"""Angle, lip and floor run of a board that stands on its kicker and hangs from its pivot.

In the plane across the wall let s run in the facing direction from the kicker's face and z up
from the floor. With the overhang angle t from the vertical the board's face runs up along
(sin t, cos t) and its back looks along (-cos t, sin t). The foot is at (0, k), the lip at
(L sin t, k + L cos t), and the pivot, A = L - a up the slope and n behind the face, at

    (A sin t - n cos t,  k + A cos t + n sin t).

Setting the pivot's height to Z gives the one equation of this module,

    A cos t + n sin t = Z - k,   or   R cos(t - f) = Z - k,   R = hypot(A, n),  f = atan2(n, A).

**Which root.** t = f + arccos((Z - k)/R) puts the pivot D = R sin(t - f) >= 0 in front of the
foot; the other root, t = f - arccos(...), puts it behind. The foot's height changes with the
angle at the rate D when the board is turned about the pivot, so only with D >= 0 does the foot
rise off the kicker when the board is lifted, and only then does a longer board lean further
out: the other root is a board of at most f (a degree or two) that jams on its kicker. This
module returns the first root only.

**Where it holds, and which way it moves.** Let H = Z - k. A wall exists if and only if

    A > 0,   H > n   and   L >= a + sqrt(H^2 - n^2)          (n >= 0)

and then f <= t < 90 degrees. For a negative n the same holds with H > 0, and t >= 0 is asked
for as well. By implicit differentiation

    dt/dL = cos t / D > 0,    dt/dk = 1 / D > 0,    dt/dZ = -1 / D < 0

wherever D > 0. So over any box of (L, k) with k < Z - n the angle grows strictly with L and
with k, the walls that exist form a set that is closed upwards in both, the angle at the box's
upper corner bounds the whole box from above, and the angle at its lower corner, if a wall
exists there, bounds it from below (if none does, f of the longest board is a lower bound).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

_ROUNDING = 1e-12
"""Relative slack for a wall whose pivot is exactly plumb over its foot."""


def overhang_angle_rad(
    board_mm: npt.ArrayLike,
    kicker_mm: npt.ArrayLike,
    pivot_height_mm: npt.ArrayLike,
    setback_mm: npt.ArrayLike = 0.0,
    behind_mm: npt.ArrayLike = 0.0,
) -> FloatArray:
    """Return the overhang angle from the vertical [rad]; NaN where no such wall exists.

    Parameters
    ----------
    board_mm, kicker_mm
        Length of the board up the slope and height of the kicker [mm].
    pivot_height_mm
        Height of the pivot above the floor: beam underside less the mount's drop [mm].
    setback_mm
        From the lip to the pivot along the board, a [mm].
    behind_mm
        From the climbing face to the pivot, n, positive towards the back [mm].

    All arguments broadcast; the answer has their common shape.
    """
    length, kicker, pivot = _floats(board_mm, kicker_mm, pivot_height_mm)
    setback, behind = _floats(setback_mm, behind_mm)
    along, rise = length - setback, pivot - kicker
    radius = np.hypot(along, behind)
    ratio = np.divide(
        rise, radius, out=np.full(np.broadcast(rise, radius).shape, np.nan), where=radius > 0.0
    )
    exists = (along > 0.0) & (rise > np.maximum(behind, 0.0)) & (ratio <= 1.0 + _ROUNDING)
    turned = np.arccos(np.where(exists, np.minimum(ratio, 1.0), 1.0))
    angle = turned + np.arctan2(behind, along)
    return np.asarray(np.where(exists & (angle >= 0.0), angle, np.nan), dtype=np.float64)


def board_for_angle_mm(
    angle_rad: npt.ArrayLike,
    kicker_mm: npt.ArrayLike,
    pivot_height_mm: npt.ArrayLike,
    setback_mm: npt.ArrayLike = 0.0,
    behind_mm: npt.ArrayLike = 0.0,
) -> FloatArray:
    """Return the board length [mm] that stands at an overhang angle; NaN where none does.

    The inverse of `overhang_angle_rad` in its first argument: L = a + (H - n sin t)/cos t with
    the pivot in front of or above the foot.
    """
    angle, kicker, pivot = _floats(angle_rad, kicker_mm, pivot_height_mm)
    setback, behind = _floats(setback_mm, behind_mm)
    sine, cosine = np.sin(angle), np.cos(angle)
    leans = (angle >= 0.0) & (cosine > _ROUNDING)
    along = (pivot - kicker - behind * sine) / np.where(leans, cosine, 1.0)
    ahead = along * sine - behind * cosine
    slack = _ROUNDING * np.abs(along)
    exists = leans & (along > 0.0) & (ahead >= -slack) & (pivot - kicker > np.maximum(behind, 0.0))
    return np.asarray(np.where(exists, along + setback, np.nan), dtype=np.float64)


def lip_from_pivot_mm(
    angle_rad: npt.ArrayLike, setback_mm: npt.ArrayLike = 0.0, behind_mm: npt.ArrayLike = 0.0
) -> FloatArray:
    """Return the plan distance from the pivot to the lip's plumb line, along the facing [mm].

    a sin t + n cos t.
    """
    angle, setback, behind = _floats(angle_rad, setback_mm, behind_mm)
    return np.asarray(setback * np.sin(angle) + behind * np.cos(angle), dtype=np.float64)


def floor_run_mm(board_mm: npt.ArrayLike, angle_rad: npt.ArrayLike) -> FloatArray:
    """Return the plan length from the kicker's face to the lip's plumb line [mm], L sin t."""
    length, angle = _floats(board_mm, angle_rad)
    return np.asarray(length * np.sin(angle), dtype=np.float64)


def lip_height_mm(
    board_mm: npt.ArrayLike, kicker_mm: npt.ArrayLike, angle_rad: npt.ArrayLike
) -> FloatArray:
    """Return the height of the lip above the floor [mm], k + L cos t."""
    length, kicker, angle = _floats(board_mm, kicker_mm, angle_rad)
    return np.asarray(kicker + length * np.cos(angle), dtype=np.float64)


def climbable_mm(board_mm: npt.ArrayLike, kicker_mm: npt.ArrayLike) -> FloatArray:
    """Return the length of surface that holds can go on, up the kicker and the board [mm]."""
    length, kicker = _floats(board_mm, kicker_mm)
    return np.asarray(length + kicker, dtype=np.float64)


def _floats(*values: npt.ArrayLike) -> tuple[FloatArray, ...]:
    return tuple(np.asarray(value, dtype=np.float64) for value in values)
