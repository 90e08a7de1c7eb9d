"""What a sheet seam across the slope takes from the studs, solved exactly.

The checks count no help at all past such a seam; this tells by how much that is cautious.

The sheet helps a stud by an axial force N that the screws feed in. At a seam across the slope
the sheet is cut, so N = 0 there as at its ends: the stud alone carries the moment at the seam,
and the help only grows back over the transfer length 1/alpha on each side. On each stretch of
sheet the equation of partial interaction, N'' = alpha^2 N - (K r / s EI0) M, is solved exactly
with N = 0 at both of its ends. A seam up the slope lies along a stud and cuts no such force.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from elastic.composite import (
    Joint,
    Rib,
    Values,
    effective,
    slip_decay_per_mm,
)
from steepwright.structure.types import FloatArray

_PLACES = 16


@dataclass(frozen=True, slots=True)
class SeamFactors:
    """A rib with a seam across the slope beside the same rib without one; arrays (B,).

    Attributes
    ----------
    transfer_mm
        1/alpha, the length over which the sheet's help grows back [mm].
    ei_nmm2, ei_ratio
        Bending stiffness with the seam [Nmm2], never more than without, and its ratio to
        (EI)ef of Annex B without a seam.
    seam_place
        4 x (1 - x), x the seam's place as part of the span: the moment at the seam over that
        at mid-span while a load passes over the span.
    stud_stress_per_mm3, plain_stress_per_mm3
        Largest stud stress while a point load passes over the span, per P span / 4 [1/mm3],
        with and without the seam; axial stress counted `axial_weight` times.
    moment_ratio
        Bending capacity with the seam over that without, at most 1.
    """

    transfer_mm: FloatArray
    ei_nmm2: FloatArray
    ei_ratio: FloatArray
    seam_place: FloatArray
    stud_stress_per_mm3: FloatArray
    plain_stress_per_mm3: FloatArray
    moment_ratio: FloatArray


def seam_factors(
    rib: Rib, joint: Joint, span_mm: Values, seam_mm: Values, axial_weight: Values = 1.0
) -> SeamFactors:
    """Return what a seam across the slope costs in stiffness and bending capacity.

    Parameters
    ----------
    rib, joint
        Section and screws, with E along the studs for the sheet as it lies.
    span_mm, seam_mm
        Span of the studs and the seam's distance from its lower end [mm]; 0 for no seam.
    axial_weight
        Bending over axial strength of the stud, so that stresses add as in EN 1995-1-1
        (6.17): fm,d / ft,0,d or 1 for a plain sum.

    Notes
    -----
    The stiffness is exact for a load at the seam: with a = alpha times the stretch's length
    the stretch has 1 - 3 (coth a / a - 1 / a^2) of full help. For a load at mid-span, which
    bends the stud most, the real stiffness is that or more.
    For a box of designs take the moment at the longest span and the stresses per moment at
    the shortest: their product alone may dip by a few per cent as the span grows.
    """
    span, seam = np.broadcast_arrays(
        np.asarray(span_mm, dtype=np.float64), np.asarray(seam_mm, dtype=np.float64)
    )
    cut = (seam > 0.0) & (seam < span)
    alpha = np.asarray(slip_decay_per_mm(rib, joint)) * np.ones_like(span)
    whole = effective(rib, joint, span)
    line = _stress_line(rib, axial_weight)
    half = alpha * span / 2.0
    plain = line[0] + line[1] * (1.0 - np.tanh(half) / half)
    lower = np.where(cut, seam, span / 2.0)
    stretches = (lower, span - lower)
    soft = sum(part / _stretch_ei(rib, alpha * part) for part in stretches)
    ei = np.where(cut, np.minimum(span / soft, whole.ei_nmm2), whole.ei_nmm2)
    place = np.where(cut, 4.0 * seam * (span - seam) / span**2, 0.0)
    alone = place * 6.0 / (rib.stud_mm * rib.depth_mm**2)
    beside = [_passing_stress(line, alpha, part, span) for part in stretches]
    stress = np.where(cut, np.maximum.reduce([alone, plain, *beside]), plain)
    return SeamFactors(
        transfer_mm=1.0 / alpha,
        ei_nmm2=ei,
        ei_ratio=ei / whole.ei_nmm2,
        seam_place=place,
        stud_stress_per_mm3=stress,
        plain_stress_per_mm3=plain,
        moment_ratio=plain / stress,
    )


def _stretch_ei(rib: Rib, decay: FloatArray) -> FloatArray:
    """Return the stiffness of a stretch whose moment grows in a line from 0 to the seam."""
    safe = np.maximum(decay, 1e-3)
    help_share = 1.0 - 3.0 * (1.0 / (safe * np.tanh(safe)) - 1.0 / safe**2)
    soft = 1.0 - help_share * (1.0 - rib.ei_separate_nmm2 / rib.ei_rigid_nmm2)
    return np.asarray(rib.ei_separate_nmm2 / soft)


def _stress_line(rib: Rib, axial_weight: Values) -> tuple[Values, Values]:
    """Return the stud's stress per moment [1/mm3] without help, and its change by full help.

    Help eases the bending, M (1 - help (1 - EI0/EIinf)) / EI0, and adds the axial stress of
    N = help r EA* M / EIinf.
    """
    bending = 0.5 * rib.e_stud_mpa * rib.depth_mm / rib.ei_separate_nmm2
    eased = 1.0 - rib.ei_separate_nmm2 / rib.ei_rigid_nmm2
    area = rib.stud_mm * rib.depth_mm
    axial = rib.arm_mm * rib.ea_joint_n / (rib.ei_rigid_nmm2 * area)
    return bending, axial_weight * axial - bending * eased


def _passing_stress(
    line: tuple[Values, Values], alpha: FloatArray, stretch: FloatArray, span: FloatArray
) -> FloatArray:
    """Return the largest stud stress under a load on the stretch next to a support, per PL/4.

    With the load at x of a stretch of length l (x from the support, span L) the sheet's force
    under it is that of full help for M less the two edge terms
    M(l) sinh(ax)/sinh(al) and P sinh(ax) sinh(a(l-x)) / (a sinh(al)).
    """
    steps = np.arange(_PLACES + 1).reshape(-1, *(1 for _ in span.shape)) / _PLACES
    fade = np.exp(-alpha * stretch * steps)
    whole = 1.0 - fade[-1] ** 2
    beyond = (span - stretch) / span
    worst = np.zeros_like(span)
    for place in range(1, _PLACES):
        at = stretch * (place / _PLACES)
        moment = at * (span - at) / span
        far = fade[_PLACES - place]
        edge = at * beyond * far + (1.0 - far * far) / (2.0 * alpha)
        helped = np.maximum(moment - edge * (1.0 - fade[place] ** 2) / whole, 0.0)
        np.maximum(worst, line[0] * moment + line[1] * helped, out=worst)
    return 4.0 / span * worst
