"""Wood screws along and across their axis, EN 1995-1-1:2004+A1:2008+A2, section 8.

All functions broadcast; N, mm, MPa, kg/m3, angles in rad.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.structure.timber import Values, require_positive
from steepwright.structure.types import FloatArray


def withdrawal_strength_mpa(diameter_mm: Values, lef_mm: Values, rho_k: Values) -> Values:
    """Return fax,k = 0.52 d^-0.5 lef^-0.1 rho_k^0.8 [MPa] (8.39).

    Holds for 6 <= d <= 12 and 0.6 <= root/d <= 0.75, see `in_withdrawal_range`.
    """
    require_positive(diameter_mm=diameter_mm, lef_mm=lef_mm, rho_k=rho_k)
    d, lef, rho = (np.asarray(v, dtype=np.float64) for v in (diameter_mm, lef_mm, rho_k))
    return 0.52 * d**-0.5 * lef**-0.1 * rho**0.8


def in_withdrawal_range(diameter_mm: Values, root_mm: Values) -> bool:
    """Return whether a screw lies in the range of (8.38), 8.7.2(4)."""
    ratio = np.asarray(root_mm) / np.asarray(diameter_mm)
    inside = (np.asarray(diameter_mm) >= 6.0) & (np.asarray(diameter_mm) <= 12.0)
    return bool(np.all(inside & (ratio >= 0.6) & (ratio <= 0.75)))


def withdrawal_n(
    diameter_mm: Values, lef_mm: Values, rho_k: Values, angle_rad: Values = np.pi / 2
) -> Values:
    """Return Fax,a,Rk of one screw by its thread at an angle to the grain [N] (8.38 to 8.40).

    Raises
    ------
    ValueError
        When the angle to the grain is less than 30 degrees, 8.7.2(2).
    """
    _require_steep(angle_rad)
    strength = withdrawal_strength_mpa(diameter_mm, lef_mm, rho_k)
    kd = np.minimum(np.asarray(diameter_mm) / 8.0, 1.0)
    return strength * diameter_mm * lef_mm * kd / _grain_term(angle_rad)


def withdrawal_by_test_n(
    diameter_mm: Values, lef_mm: Values, strength_mpa: Values, density_ratio: Values = 1.0
) -> Values:
    """Return Fax,Rk square to the grain from a tested fax,k at rho_a [N] (8.40a).

    `density_ratio` is rho_k / rho_a.
    """
    require_positive(diameter_mm=diameter_mm, lef_mm=lef_mm, strength_mpa=strength_mpa)
    return strength_mpa * diameter_mm * lef_mm * np.asarray(density_ratio) ** 0.8


def head_n(head_mm: Values, strength_mpa: Values, density_ratio: Values = 1.0) -> Values:
    """Return the head's pull-through fhead,k dh^2 (rho_k / rho_a)^0.8 [N] (8.40b)."""
    require_positive(head_mm=head_mm, strength_mpa=strength_mpa)
    return strength_mpa * head_mm**2 * np.asarray(density_ratio) ** 0.8


def steel_n(root_mm: Values, tensile_mpa: Values) -> Values:
    """Return the steel's tensile strength on the thread's root [N] (8.40c)."""
    require_positive(root_mm=root_mm, tensile_mpa=tensile_mpa)
    return tensile_mpa * np.pi * root_mm**2 / 4.0


def effective_number(count: Values) -> Values:
    """Return nef = n^0.9 of screws that act together along their axis (8.41)."""
    require_positive(count=count)
    return np.asarray(count, dtype=np.float64) ** 0.9


def embedment_timber_mpa(diameter_mm: Values, rho_k: Values, *, predrilled: bool = False) -> Values:
    """Return fh,k of timber [MPa]: 0.082 rho d^-0.3 (8.15), predrilled (8.16)."""
    require_positive(diameter_mm=diameter_mm, rho_k=rho_k)
    if predrilled:
        return 0.082 * (1.0 - 0.01 * diameter_mm) * rho_k
    return 0.082 * rho_k * np.asarray(diameter_mm, dtype=np.float64) ** -0.3


def embedment_plywood_mpa(diameter_mm: Values, rho_k: Values) -> Values:
    """Return fh,k = 0.11 rho_k d^-0.3 of plywood with heads of 2 d and more [MPa] (8.20)."""
    require_positive(diameter_mm=diameter_mm, rho_k=rho_k)
    return 0.11 * rho_k * np.asarray(diameter_mm, dtype=np.float64) ** -0.3


def embedment_osb_mpa(diameter_mm: Values, thickness_mm: Values) -> Values:
    """Return fh,k = 65 d^-0.7 t^0.1 of OSB [MPa] (8.22)."""
    require_positive(diameter_mm=diameter_mm, thickness_mm=thickness_mm)
    d, t = (np.asarray(v, dtype=np.float64) for v in (diameter_mm, thickness_mm))
    return 65.0 * d**-0.7 * t**0.1


def yield_moment_nmm(diameter_mm: Values, tensile_mpa: Values, factor: float = 0.3) -> Values:
    """Return My,Rk = 0.3 fu d^2.6 [Nmm] (8.14, 8.30); for a screw give 1.1 times its root."""
    require_positive(diameter_mm=diameter_mm, tensile_mpa=tensile_mpa)
    return factor * tensile_mpa * np.asarray(diameter_mm, dtype=np.float64) ** 2.6


@dataclass(frozen=True, slots=True)
class ShearJoint:
    """One fastener in single shear between two parts; part 1 holds the head.

    Attributes
    ----------
    t1_mm, t2_mm
        Thickness of part 1 and penetration in part 2 [mm].
    fh1_mpa, fh2_mpa
        Embedment strengths [MPa].
    diameter_mm
        Effective diameter [mm].
    yield_nmm
        My,Rk [Nmm].
    axial_n
        Fax,Rk for the rope effect [N]; 0 for none.
    rope_limit
        Largest rope effect as part of the Johansen part: 0.15 round nails, 0.25 bolts, 0.5
        other nails, 1.0 screws, 8.2.2(2).
    """

    t1_mm: Values
    t2_mm: Values
    fh1_mpa: Values
    fh2_mpa: Values
    diameter_mm: Values
    yield_nmm: Values
    axial_n: Values = 0.0
    rope_limit: float = 1.0


def johansen_modes_n(joint: ShearJoint) -> tuple[Values, ...]:
    """Return Fv,Rk of the six failure modes (a) to (f) [N] (8.6)."""
    require_positive(
        t1_mm=joint.t1_mm, t2_mm=joint.t2_mm, fh1_mpa=joint.fh1_mpa, fh2_mpa=joint.fh2_mpa
    )
    require_positive(diameter_mm=joint.diameter_mm, yield_nmm=joint.yield_nmm)
    t1, t2, d = joint.t1_mm, joint.t2_mm, joint.diameter_mm
    fh1, my = joint.fh1_mpa, joint.yield_nmm
    b = joint.fh2_mpa / fh1
    r = t2 / t1
    c = np.sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r)
    dd = np.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * my / (fh1 * d * t1**2)) - b
    e = np.sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * my / (fh1 * d * t2**2)) - b
    bent = (
        fh1 * t1 * d / (1 + b) * c,
        1.05 * fh1 * t1 * d / (2 + b) * dd,
        1.05 * fh1 * t2 * d / (1 + 2 * b) * e,
        1.15 * np.sqrt(2 * b / (1 + b)) * np.sqrt(2 * my * fh1 * d),
    )
    rope = joint.axial_n / 4.0
    return (
        fh1 * t1 * d,
        joint.fh2_mpa * t2 * d,
        *(mode + np.minimum(rope, joint.rope_limit * mode) for mode in bent),
    )


def johansen_n(joint: ShearJoint) -> Values:
    """Return Fv,Rk of one fastener in single shear, the least of all modes [N] (8.6)."""
    modes = johansen_modes_n(joint)
    least: FloatArray = np.asarray(modes[0], dtype=np.float64)
    for mode in modes[1:]:
        least = np.minimum(least, mode)
    return least


def slip_n_per_mm(
    diameter_mm: Values, rho_1_kg_m3: Values, rho_2_kg_m3: Values, divisor: Values
) -> Values:
    """Return Kser of a screw per shear plane [N/mm].

    EN 1995-1-1 Table 7.1, rho_m^1.5 d / divisor with rho_m = sqrt(rho_1 rho_2), 7.1(2); mean
    densities [kg/m3], diameter [mm]; the divisor is factor `kser_divisor` (23).
    """
    return (rho_1_kg_m3 * rho_2_kg_m3) ** 0.75 * diameter_mm / divisor


def thin_plate_n(
    embedment_mpa: Values, depth_mm: Values, diameter_mm: Values, yield_nmm: Values
) -> Values:
    """Return Fv,Rk of a screw through a thin steel plate, no rope effect [N] (8.9)."""
    require_positive(depth_mm=depth_mm, diameter_mm=diameter_mm, embedment_mpa=embedment_mpa)
    shallow = 0.4 * embedment_mpa * depth_mm * diameter_mm
    bent = 1.15 * np.sqrt(2 * yield_nmm * embedment_mpa * diameter_mm)
    return np.asarray(np.minimum(shallow, bent))


def gapped_plate_n(
    embedment_mpa: Values, depth_mm: Values, diameter_mm: Values, yield_nmm: Values, gap_mm: Values
) -> Values:
    """Return Fv,Rk of a screw through a thin plate across a gap that doesn't bear [N].

    Equilibrium of Johansen's model with the load F at g above the timber and p = fh d: the stiff
    screw turns in the timber, F = p (sqrt((t + 2 g)^2 + t^2) - (t + 2 g)), or it yields where
    the shear vanishes, My = F g + F^2 / (2 p). Without a gap these are the modes of (8.9), whose
    allowance of 1.15 is left out; never more than (8.9).
    """
    require_positive(gap_mm=gap_mm)
    per_mm = np.asarray(embedment_mpa) * diameter_mm
    arm = np.asarray(depth_mm) + 2 * np.asarray(gap_mm)
    turned = per_mm * (np.hypot(arm, depth_mm) - arm)
    bent = per_mm * (np.sqrt(np.square(gap_mm) + 2 * yield_nmm / per_mm) - gap_mm)
    plain = thin_plate_n(embedment_mpa, depth_mm, diameter_mm, yield_nmm)
    return np.asarray(np.minimum(np.minimum(turned, bent), plain))


def _grain_term(angle_rad: Values) -> Values:
    return np.asarray(1.2 * np.cos(angle_rad) ** 2 + np.sin(angle_rad) ** 2)


def _require_steep(angle_rad: Values) -> None:
    if np.any(np.asarray(angle_rad) < np.radians(30.0) - 1e-12):
        message = "a screw's axis must stand at 30 degrees or more to the grain"
        raise ValueError(message)
