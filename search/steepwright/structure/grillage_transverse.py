"""The members across the studs as a beam on equally spaced ribs, condensed to rib deflections.

Unit bay and unit bending stiffness: multiply a stiffness by D / bay^3. The beam may be parted
by hinges on ribs (a sheet seam up the slope): then each part shares loads by itself.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import numpy as np

from steepwright.structure.types import FloatArray


def _curvature_map(ribs: int) -> FloatArray:
    """Return the matrix from rib deflections to bending curvature at each rib (natural spline).

    Three-moment equations: M[j-1]/6 + 2 M[j]/3 + M[j+1]/6 = w[j-1] - 2 w[j] + w[j+1], with no
    moment at the ends.
    """
    curvature = np.zeros((ribs, ribs))
    inner = ribs - 2
    if inner > 0:
        second = np.diff(np.eye(ribs), n=2, axis=0)
        flexible = (4.0 * np.eye(inner) + np.eye(inner, k=1) + np.eye(inner, k=-1)) / 6.0
        curvature[1:-1] = np.linalg.solve(flexible, second)
    return curvature


def _parts(ribs: int, seams: tuple[int, ...]) -> list[tuple[int, int]]:
    return list(pairwise((0, *seams, ribs - 1)))


@lru_cache(maxsize=256)
def transverse_stiffness(ribs: int, seams: tuple[int, ...] = ()) -> FloatArray:
    """Return the (ribs, ribs) stiffness of the beam across for unit bay and unit stiffness.

    `seams` are the inner ribs, in rising order, where the beam has a hinge. Moving all ribs
    alike, or turning a part as a whole, costs nothing: these are the zero modes.
    """
    stiffness = np.zeros((ribs, ribs))
    for first, last in _parts(ribs, seams):
        size = last - first + 1
        if size > 2:
            second = np.diff(np.eye(size), n=2, axis=0)
            part = second.T @ _curvature_map(size)[1:-1]
            stiffness[first : last + 1, first : last + 1] += part
    stiffness.setflags(write=False)
    return stiffness


def rib_loads(ribs: int, seams: tuple[int, ...], across_bays: FloatArray) -> FloatArray:
    """Return the part of a unit load that each rib gets while no rib gives way.

    `across_bays` [bays] is the load's place from the first rib, 0 to ribs - 1, any shape; the
    result has one more axis (ribs). On a rib that rib gets all; between ribs it is the
    reaction of the continuous beam across (the lever rule when a part has two ribs).
    """
    across = np.asarray(across_bays, dtype=np.float64)
    shares = np.zeros((*across.shape, ribs))
    for first, last in _parts(ribs, seams):
        size = last - first + 1
        left = np.clip(np.floor(across).astype(np.int64), first, last - 1) - first
        ahead = across - first - left
        inside = (across >= first) & ((across < last) | (last == ribs - 1))
        eye, curved = np.eye(size), _curvature_map(size)
        back = 1.0 - ahead
        values = (
            back[..., None] * eye[left]
            + ahead[..., None] * eye[left + 1]
            + ((back**3 - back) / 6.0)[..., None] * curved[left]
            + ((ahead**3 - ahead) / 6.0)[..., None] * curved[left + 1]
        )
        shares[..., first : last + 1] += np.where(inside[..., None], values, 0.0)
    return shares
