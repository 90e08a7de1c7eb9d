"""Uses of bars: bending, shear, tension or compression with bending, bearing.

EN 1995-1-1:2004+A1+A2, section 6. All functions broadcast; stresses in MPa, forces in N,
moments in Nmm, lengths in mm. A use is demand over capacity.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.timber import Values, require_positive


def section_modulus_mm3(width_mm: Values, depth_mm: Values) -> Values:
    """Return W = b h^2 / 6 of a rectangle [mm3]."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    return width_mm * depth_mm**2 / 6.0


def second_moment_mm4(width_mm: Values, depth_mm: Values) -> Values:
    """Return I = b h^3 / 12 of a rectangle [mm4]."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm)
    return width_mm * depth_mm**3 / 12.0


def bending_use(y: Values, z: Values = 0.0, km: float = 0.7) -> Values:
    """Return the use of biaxial bending from sigma/f about both axes (6.11, 6.12)."""
    return np.maximum(y + km * z, km * y + z)


def shear_stress_mpa(shear_n: Values, width_mm: Values, depth_mm: Values, kcr: Values) -> Values:
    """Return 1.5 V / (kcr b h), cracks counted by kcr [MPa] (6.13, 6.13a)."""
    require_positive(width_mm=width_mm, depth_mm=depth_mm, kcr=kcr)
    return 1.5 * shear_n / (kcr * width_mm * depth_mm)


def tension_bending_use(tension: Values, y: Values, z: Values = 0.0, km: float = 0.7) -> Values:
    """Return the use of tension with bending, from sigma/f of each (6.17, 6.18)."""
    return tension + bending_use(y, z, km)


def stocky_compression_use(
    compression: Values, y: Values, z: Values = 0.0, km: float = 0.7
) -> Values:
    """Return the use of compression with bending without buckling (6.19, 6.20)."""
    return np.asarray(compression) ** 2 + bending_use(y, z, km)


def column_uses(
    compression: Values,
    kc_y_z: tuple[Values, Values],
    bending_y_z: tuple[Values, Values] = (0.0, 0.0),
    km: float = 0.7,
) -> tuple[Values, Values]:
    """Return the uses of a column with bending about y and about z (6.23, 6.24).

    `compression` is sigma/f,c,0,d; `bending_y_z` are sigma/f,m,d about both axes.
    """
    y, z = bending_y_z
    return compression / kc_y_z[0] + y + km * z, compression / kc_y_z[1] + km * y + z


def lateral_column_use(
    bending: Values, kcrit_m: Values, compression: Values, kc_z: Values
) -> Values:
    """Return (sigma_m / (kcrit fm))^2 + sigma_c / (kc,z fc) (6.35)."""
    return (bending / kcrit_m) ** 2 + compression / kc_z


def bearing_length_mm(contact_mm: Values, free_start_mm: Values, free_end_mm: Values) -> Values:
    """Return the effective bearing length along the grain [mm], 6.1.5(1).

    30 mm more on each side, but not more than is free there nor than the contact itself.
    """
    require_positive(contact_mm=contact_mm)
    start = np.minimum(np.minimum(30.0, free_start_mm), contact_mm)
    end = np.minimum(np.minimum(30.0, free_end_mm), contact_mm)
    return contact_mm + start + end
