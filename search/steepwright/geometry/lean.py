"""How narrow a rectangle's shadow can be made by leaning it, under a limit on its height."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]


def leaned_mm(
    side_mm: npt.ArrayLike, other_mm: npt.ArrayLike, height_mm: npt.ArrayLike
) -> FloatArray:
    """Return the least width that a rectangle takes when it may be no higher than a limit [mm].

    Infinite when it is too high however it is turned. A rectangle p x q (p >= q) leaned by t is
    p cos t + q sin t high and p sin t + q cos t wide. If p is within the limit it stands upright
    and is q wide. Otherwise it leans until it just fits, cos(t - d) = H / R with
    R = hypot(p, q) and tan d = q / p; from there on the width R sin(t + d) is concave in t, so
    its least value lies there or where the rectangle lies flat.

    A rectangle fits into a rectangular opening exactly when this width is within the opening's:
    it is the condition of J. H. Carver (1957), Fitting one box inside another. The answer never
    falls with either side and never rises with the limit, for a larger rectangle or a lower
    limit leaves fewer ways to lean.
    """
    one, two, limit = np.broadcast_arrays(
        *(np.asarray(value, dtype=np.float64) for value in (side_mm, other_mm, height_mm))
    )
    longer, shorter = np.maximum(one, two), np.minimum(one, two)
    square = np.maximum(longer**2 + shorter**2, 1e-12)
    sine = np.sqrt(np.maximum(square - limit**2, 0.0))
    leaned = (2 * longer * shorter * limit + (longer**2 - shorter**2) * sine) / square
    fits = np.where(longer <= limit, shorter, np.minimum(leaned, longer))
    return np.asarray(np.where(shorter <= limit, fits, np.inf), dtype=np.float64)
