"""Design strengths, section properties and member factors of solid timber, EN 1995-1-1:2004+A1+A2.

All functions broadcast over arrays. Stresses in MPa, lengths in mm, forces in N, densities
in kg/m3.
"""

from __future__ import annotations

import math

import numpy as np

from steepwright.structure.types import FloatArray

Values = FloatArray | float


def require_positive(**values: Values) -> None:
    """Raise ValueError, naming the quantity, when any value is not a finite number above 0."""
    for name, value in values.items():
        if isinstance(value, float):
            positive = 0.0 < value < math.inf
        else:
            positive = bool(np.all(np.isfinite(value) & (np.asarray(value) > 0.0)))
        if not positive:
            message = f"{name} must be greater than 0, not {value}"
            raise ValueError(message)


def design_mpa(char_mpa: Values, kmod: Values, gamma_m: Values) -> Values:
    """Return the design strength X_d = kmod X_k / gamma_M [MPa] (2.14)."""
    require_positive(kmod=kmod, gamma_m=gamma_m)
    return kmod * char_mpa / gamma_m


def kh_solid(depth_mm: Values) -> Values:
    """Return the depth factor of solid timber, min((150/h)^0.2, 1.3), 1 from 150 mm (3.1)."""
    require_positive(depth_mm=depth_mm)
    return np.clip((150.0 / np.asarray(depth_mm, dtype=np.float64)) ** 0.2, 1.0, 1.3)


def critical_stress_mpa(
    width_mm: Values, depth_mm: Values, e05_mpa: Values, lef_mm: Values
) -> Values:
    """Return sigma_m,crit = 0.78 b^2 E0.05 / (h lef) of a softwood rectangle [MPa] (6.32)."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm, lef_mm=lef_mm)
    return 0.78 * width_mm**2 * e05_mpa / (depth_mm * lef_mm)


def kcrit(fm_k_mpa: Values, critical_mpa: Values) -> Values:
    """Return the factor for lateral buckling of a beam from its critical stress (6.30, 6.34)."""
    lam = np.sqrt(np.asarray(fm_k_mpa / critical_mpa, dtype=np.float64))
    middle = 1.56 - 0.75 * lam
    return np.where(lam <= 0.75, 1.0, np.where(lam <= 1.4, middle, 1.0 / np.maximum(lam, 1.0) ** 2))


def relative_slenderness(lef_mm: Values, radius_mm: Values, fc0_k: Values, e05: Values) -> Values:
    """Return lambda_rel = (lef / i) / pi sqrt(fc,0,k / E0.05) (6.21)."""
    require_positive(radius_mm=radius_mm, e05=e05)
    return lef_mm / radius_mm / np.pi * np.sqrt(fc0_k / e05)


def kc(lam_rel: Values, beta_c: float = 0.2) -> Values:
    """Return the buckling factor kc (6.25 to 6.28); beta_c 0.2 solid timber, 0.1 glulam, LVL.

    Up to a slenderness of 0.3 there is no reduction (6.3.2(2)).
    """
    lam = np.asarray(lam_rel, dtype=np.float64)
    k = 0.5 * (1.0 + beta_c * (lam - 0.3) + lam**2)
    return np.minimum(1.0, 1.0 / (k + np.sqrt(np.maximum(k**2 - lam**2, 0.0))))


def splitting_n(width_mm: Values, depth_mm: Values, edge_mm: Values) -> Values:
    """Return F90,Rk = 14 b sqrt(he / (1 - he/h)) of softwood, w = 1 [N] (8.4).

    `edge_mm` is he, from the loaded edge to the farthest fastener; it must be less than h.
    """
    require_positive(width_mm=width_mm, depth_mm=depth_mm, edge_mm=edge_mm)
    if np.any(np.asarray(edge_mm) >= np.asarray(depth_mm)):
        message = f"the fastener's edge distance {edge_mm} must be less than the depth {depth_mm}"
        raise ValueError(message)
    return 14.0 * width_mm * np.sqrt(edge_mm / (1.0 - edge_mm / depth_mm))


def section_modulus_mm3(width_mm: Values, depth_mm: Values) -> Values:
    """Return W = b h^2 / 6 of a rectangle [mm3]."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    return width_mm * depth_mm**2 / 6.0


def second_moment_mm4(width_mm: Values, depth_mm: Values) -> Values:
    """Return I = b h^3 / 12 of a rectangle [mm4]."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    return width_mm * depth_mm**3 / 12.0


def torsion_modulus_mm3(width_mm: float, depth_mm: float) -> float:
    """Return W_t of a rectangle, torque over its largest shear stress [mm3].

    Saint-Venant's series for the sides a <= b, the stress at the middle of b.
    """
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    short, long = sorted((width_mm, depth_mm))
    # Beyond 700 the hyperbolic functions are at their limits to all digits.
    odd = np.arange(1.0, 40.0, 2.0)
    turn = np.minimum(odd * np.pi * long / (2.0 * short), 700.0)
    stress = 1.0 - 8.0 / np.pi**2 * float((1.0 / (odd**2 * np.cosh(turn))).sum())
    ends = 192.0 / np.pi**5 * short / long * float((np.tanh(turn) / odd**5).sum())
    return short**2 * long * (1.0 - ends) / 3.0 / stress
