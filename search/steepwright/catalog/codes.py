"""Materials as a design code has them: EN 1995-1-1 as shipped, or the NDS by allowable stress."""

from __future__ import annotations

from dataclasses import replace

from steepwright.catalog.types import Code, Materials, NdsLumber, TimberClass
from steepwright.units import PSI_MPA

WATER_KG_M3 = 1000.0
"""What a specific gravity of 1 weighs."""


def in_code(materials: Materials, code: Code) -> Materials:
    """Return the materials with the constants and strengths of a design code.

    By the NDS a class holds reference design values in place of characteristic ones; grades
    without any are left out.
    """
    factors = materials.factors.in_code(code)
    if code != "NDS":
        return replace(materials, factors=factors)
    known = {
        name: _with_reference_values(materials.timber_classes[name], lumber)
        for name, lumber in materials.nds_lumber.items()
    }
    return replace(materials, factors=factors, timber_classes=known)


def _with_reference_values(timber: TimberClass, lumber: NdsLumber) -> TimberClass:
    """Return a class with what the NDS has of it; the weight stays."""
    return replace(
        timber,
        fm_k_mpa=lumber.fb_psi * PSI_MPA,
        ft0_k_mpa=lumber.ft_psi * PSI_MPA,
        fc0_k_mpa=lumber.fc_psi * PSI_MPA,
        fc90_k_mpa=lumber.fc_perp_psi * PSI_MPA,
        fv_k_mpa=lumber.fv_psi * PSI_MPA,
        e0_mean_mpa=lumber.e_psi * PSI_MPA,
        e0_05_mpa=lumber.e_min_psi * PSI_MPA,
        rho_k_kg_m3=lumber.gravity * WATER_KG_M3,
        source=lumber.source,
        nds_sized=lumber.sized == "by depth",
    )
