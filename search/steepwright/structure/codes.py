"""What differs between the design codes that a wall may be checked by.

Strengths come as the code has them (`steepwright.catalog.codes`); here is how they go together:
depth, buckling, tilting, bending with a load along the bar.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from steepwright.catalog.types import Code, TimberClass
from steepwright.structure import nds
from steepwright.structure.timber import Values, kc, kcrit, kh_solid
from steepwright.structure.types import NO_CAPACITY, FloatArray


@dataclass(frozen=True, slots=True)
class MemberRules:
    """The member rules of one code.

    Attributes
    ----------
    depth_factor
        Factor on bending strength by depth [mm]; `tension_depth_factor` that on tension.
    euler
        Buckling stress of a bar over E / (length / depth)^2.
    tilting
        Buckling stress of a beam over E b^2 / (depth x effective length).
    buckling
        Factor on compression strength from the relative slenderness, sqrt(strength / buckling
        stress).
    stability
        Factor on bending strength from that strength and the buckling stress [MPa].
    with_duration
        Whether buckling and tilting count the strength under the load's duration, or its own.
    together
        Use of bending and compression at once, from the use of bending, of compression, and
        compression over the buckling stress.
    """

    depth_factor: Callable[[TimberClass, float], float]
    tension_depth_factor: Callable[[TimberClass, float], float]
    euler: float
    tilting: float
    buckling: Callable[[FloatArray], Values]
    stability: Callable[[Values, Values], Values]
    with_duration: bool
    together: Callable[[FloatArray, FloatArray, FloatArray], FloatArray]


def _en_depth(_: TimberClass, depth_mm: float) -> float:
    return float(kh_solid(depth_mm))


def _en_tension(_: TimberClass, __: float) -> float:
    return 1.0


def _en_together(bend: FloatArray, press: FloatArray, _: FloatArray) -> FloatArray:
    """(6.23) with km taken as 1 and bending about one axis."""
    return bend + press


def _nds_depth(timber: TimberClass, depth_mm: float) -> float:
    return nds.size_factor(nds.nominal_in(depth_mm)) if timber.nds_sized else 1.0


def _nds_buckling(slender: FloatArray) -> Values:
    """CP (3.7-1) by the slenderness; 1 for a bar without length."""
    return nds.column_factor(1.0, 1.0 / np.maximum(slender, 1e-6) ** 2)


def _nds_together(bend: FloatArray, press: FloatArray, share: FloatArray) -> FloatArray:
    """(3.9-3) for bending about one axis: (fc/Fc')^2 + fb / (Fb' (1 - fc/FcE))."""
    stays = share < 1.0
    use = press**2 + bend / np.where(stays, 1.0 - share, 1.0)
    return np.where(stays, np.minimum(use, NO_CAPACITY), NO_CAPACITY)


MEMBER_RULES: dict[Code, MemberRules] = {
    "EN 1995": MemberRules(
        depth_factor=_en_depth,
        tension_depth_factor=_en_tension,
        euler=np.pi**2 / 12.0,
        tilting=0.78,
        buckling=kc,
        stability=kcrit,
        with_duration=False,
        together=_en_together,
    ),
    "NDS": MemberRules(
        depth_factor=_nds_depth,
        tension_depth_factor=_nds_depth,
        euler=0.822,
        tilting=1.20,
        buckling=_nds_buckling,
        stability=nds.beam_factor,
        with_duration=True,
        together=_nds_together,
    ),
}
"""EN 1995-1-1 (3.1), (6.21) to (6.34); NDS Table 4A, 3.3.3, 3.7.1, 3.9."""
