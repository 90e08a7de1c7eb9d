"""Rules of the NDS (National Design Specification for Wood Construction), allowable stress.

Inputs and results in the package's units; the rules themselves are written in inches and pounds.
All results are reference design values or factors on them; load duration is up to the caller.
"""

from __future__ import annotations

import math

import numpy as np

from steepwright.structure.screws import ShearJoint, johansen_modes_n
from steepwright.structure.timber import Values, require_positive
from steepwright.units import INCH_MM, POUND_N, PSI_MPA

_ROUNDING_IN = 0.02
"""What rounding to whole millimetres may add to a depth [in]."""

_DEEP_BENDING = ((4.0, 1.5), (5.0, 1.4), (6.0, 1.3), (8.0, 1.2), (10.0, 1.1), (12.0, 1.0))


def size_factor(nominal_depth_in: float) -> float:
    """Return CF on Fb and Ft of dimension lumber by nominal depth [in], Table 4A.

    Of 2 to 4 in thick lumber; the least of those columns where they differ.
    """
    for depth, factor in _DEEP_BENDING:
        if nominal_depth_in <= depth:
            return factor
    return 0.9


def nominal_in(dressed_mm: float) -> int:
    """Return the nominal depth [in] that lumber of a dressed depth was sawn from, PS 20.

    Up to 6 in it is dressed by 1/2 in, beyond by 3/4 in; what lies between counts as the deeper.
    """
    inches = dressed_mm / INCH_MM
    # Dressed sizes in whole millimetres may lie half a millimetre above those in inches.
    return math.ceil(inches + (0.5 if inches <= 5.5 + _ROUNDING_IN else 0.75) - _ROUNDING_IN)


def lag_withdrawal_n_per_mm(gravity: Values, diameter_mm: Values) -> Values:
    """Return W = 1800 G^1.5 D^0.75 of a lag screw in side grain, per mm of thread [N/mm].

    `gravity` is the specific gravity G; the thread's length counts without the tip.
    """
    require_positive(gravity=gravity, diameter_mm=diameter_mm)
    inches = np.asarray(diameter_mm, dtype=np.float64) / INCH_MM
    pounds_per_inch = 1800.0 * np.asarray(gravity, dtype=np.float64) ** 1.5 * inches**0.75
    return np.asarray(pounds_per_inch * POUND_N / INCH_MM)


def lag_thread_mm(length_mm: float) -> float:
    """Return the threaded part T of a lag screw's length, its tip included [mm], Table L2.

    Half the length and 1/2 in, at most 6 in.
    """
    require_positive(length_mm=length_mm)
    return min(length_mm / 2.0 + 0.5 * INCH_MM, 6.0 * INCH_MM)


def lag_size_mm(whole_mm: int) -> float:
    """Return the diameter of the lag screw that is told in whole mm [mm].

    Lag screws go by sixteenths of an inch; the largest one that isn't thicker when rounded.
    """
    sixteenth = INCH_MM / 16.0
    return math.floor((whole_mm + 0.5) / sixteenth - 1e-9) * sixteenth


def washer_n(fc_perp_mpa: float, washer_mm: float, hole_mm: float) -> float:
    """Return what a washer bears on wood across the grain [N], 3.10.4: Fc_perp Cb by its area.

    The bearing area factor Cb = (lb + 3/8 in) / lb is that of a washer lb wide, below 6 in.
    """
    require_positive(fc_perp_mpa=fc_perp_mpa, washer_mm=washer_mm, hole_mm=hole_mm)
    wider = (washer_mm + 0.375 * INCH_MM) / washer_mm if washer_mm < 6.0 * INCH_MM else 1.0
    return fc_perp_mpa * wider * math.pi / 4.0 * (washer_mm**2 - hole_mm**2)


def column_factor(fc_star_mpa: Values, euler_mpa: Values, c: float = 0.8) -> Values:
    """Return the column stability factor CP (3.7-1); c is 0.8 for sawn lumber."""
    require_positive(fc_star_mpa=fc_star_mpa, euler_mpa=euler_mpa)
    ratio = np.asarray(fc_star_mpa / np.asarray(euler_mpa, dtype=np.float64))
    # (1 + F) / 2c - sqrt(...) with F = 1 / ratio, so written that nothing cancels.
    half = (ratio + 1.0) / (2.0 * c)
    return np.asarray(1.0 / c / (half + np.sqrt(half**2 - ratio / c)))


def beam_factor(fb_star_mpa: Values, euler_mpa: Values) -> Values:
    """Return the beam stability factor CL (3.3-6) from Fb* and FbE."""
    require_positive(fb_star_mpa=fb_star_mpa, euler_mpa=euler_mpa)
    ratio = np.asarray(fb_star_mpa / np.asarray(euler_mpa, dtype=np.float64))
    # (1 + F) / 1.9 - sqrt(...) with F = 1 / ratio, so written that nothing cancels.
    half = (ratio + 1.0) / 1.9
    return np.asarray(1.0 / 0.95 / (half + np.sqrt(half**2 - ratio / 0.95)))


def wood_screw_withdrawal_n_per_mm(gravity: Values, diameter_mm: Values) -> Values:
    """Return W = 2850 G^2 D of a wood screw in side grain, per mm of thread [N/mm] (12.2-2)."""
    require_positive(gravity=gravity, diameter_mm=diameter_mm)
    inches = np.asarray(diameter_mm, dtype=np.float64) / INCH_MM
    pounds_per_inch = 2850.0 * np.asarray(gravity, dtype=np.float64) ** 2 * inches
    return np.asarray(pounds_per_inch * POUND_N / INCH_MM)


def head_pull_through_n(head_mm: float, gravity: float, thickness_mm: float) -> float:
    """Return WH = 690 pi DH G^2 t of a round head [N], t at most 2.5 DH (12.2-6)."""
    require_positive(head_mm=head_mm, gravity=gravity, thickness_mm=thickness_mm)
    head, thick = head_mm / INCH_MM, min(thickness_mm, 2.5 * head_mm) / INCH_MM
    return 690.0 * math.pi * head * gravity**2 * thick * POUND_N


def bearing_mpa(gravity: float, diameter_mm: float, *, across: bool) -> float:
    """Return the dowel bearing strength Fe of wood [MPa], Table 12.3.3.

    Below 1/4 in 16600 G^1.84 whatever the grain; else 11200 G along it, 6100 G^1.45 / D^0.5
    across.
    """
    require_positive(gravity=gravity, diameter_mm=diameter_mm)
    inches = diameter_mm / INCH_MM
    if inches < _THIN_IN:
        return float(16600.0 * gravity**1.84 * PSI_MPA)
    psi = 6100.0 * gravity**1.45 / math.sqrt(inches) if across else 11200.0 * gravity
    return float(psi * PSI_MPA)


def yield_moment_nmm(diameter_mm: float, yield_mpa: float) -> float:
    """Return Fyb D^3 / 6, the moment in the yield limit equations of Table 12.3.1A [Nmm]."""
    require_positive(diameter_mm=diameter_mm, yield_mpa=yield_mpa)
    return yield_mpa * diameter_mm**3 / 6.0


def lateral_n(joint: ShearJoint, nominal_mm: float, *, across: bool) -> float:
    """Return Z of one dowel in single shear [N], Tables 12.3.1A and 12.3.1B.

    Modes Is, Im, II, IIIs, IIIm and IV are those of Johansen without the allowances of (8.6),
    each over its reduction term; `joint` holds Fe, the root's diameter and Fyb D^3 / 6.
    `nominal_mm` is the diameter D that the reduction term goes by, `across` whether one of the
    parts is loaded square to its grain.
    """
    plain = [mode / extra for mode, extra in zip(johansen_modes_n(joint), _ALLOWED, strict=True)]
    terms = reduction_terms(nominal_mm, across=across)
    return float(min(mode / term for mode, term in zip(plain, terms, strict=True)))


def reduction_terms(diameter_mm: float, *, across: bool) -> tuple[float, ...]:
    """Return Rd for the modes Is, Im, II, IIIs, IIIm and IV, Table 12.3.1B."""
    inches = diameter_mm / INCH_MM
    if inches < _THIN_IN:
        return (max(2.2, 10.0 * inches + 0.5),) * 6
    turned = 1.25 if across else 1.0
    return tuple(turned * term for term in (4.0, 4.0, 3.6, 3.2, 3.2, 3.2))


_THIN_IN = 0.25
_ALLOWED = (1.0, 1.0, 1.0, 1.05, 1.05, 1.15)
"""What EN 1995-1-1 (8.6) adds to Johansen's modes for friction and the spread of strengths."""
