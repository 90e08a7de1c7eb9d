"""A sheet between studs under a load on a small patch: orthotropic plate, Navier's series.

Simply supported on the two stud lines, and far away at the ends of a long strip. A
cross-check for the stated assumption about the width of sheet that carries a hold's load.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.structure.types import FloatArray

_ASPECT = 6.0
_TERMS_PER_PATCH = 6


@dataclass(frozen=True, slots=True)
class Plate:
    """A rectangular plate, simply supported on all four edges.

    Attributes
    ----------
    span_mm, length_mm
        Sides a (from stud to stud) and b (along the studs) [mm].
    d_span_nmm, d_length_nmm, d_twist_nmm
        Bending stiffness per width along a, along b [Nmm], and H = D12 + 2 Dk [Nmm], so that
        D1 w,xxxx + 2 H w,xxyy + D2 w,yyyy = q.
    poisson
        Ratio that couples the moments along a to the curvature along b [-].
    """

    span_mm: float
    length_mm: float
    d_span_nmm: float
    d_length_nmm: float
    d_twist_nmm: float
    poisson: float = 0.0


@dataclass(frozen=True, slots=True)
class PlateResponse:
    """Under the middle of a central unit load: deflection [mm] and moment along a [Nmm/mm]."""

    deflection_mm: float
    moment_nmm_per_mm: float


@dataclass(frozen=True, slots=True)
class EffectiveWidth:
    """Width of a beam of sheet that has the plate's largest moment, and its deflection [mm]."""

    moment_mm: float
    deflection_mm: float


def sheet_plate(
    span_mm: float, thickness_mm: float, e_along_mpa: float, e_across_mpa: float, g_mpa: float
) -> Plate:
    """Return a long strip of sheet between studs.

    Parameters
    ----------
    span_mm, thickness_mm
        Distance of the studs and thickness [mm].
    e_along_mpa, e_across_mpa
        E in bending in the direction of the span, and square to it [MPa].
    g_mpa
        Panel shear modulus [MPa]. Poisson's effect is left out (small in plywood, and it
        would only stiffen the strip), so H = 2 G t^3 / 12.
    """
    inertia = thickness_mm**3 / 12.0
    return Plate(
        span_mm=span_mm,
        length_mm=_ASPECT * span_mm,
        d_span_nmm=e_along_mpa * inertia,
        d_length_nmm=e_across_mpa * inertia,
        d_twist_nmm=2.0 * g_mpa * inertia,
    )


def central_load(plate: Plate, patch_mm: tuple[float, float]) -> PlateResponse:
    """Return the response to 1 N spread evenly over a patch (along a, along b) in the middle.

    Navier's double sine series of w with the load's coefficients
    4/(ab) sinc(m pi u / 2a) sinc(n pi v / 2b) sin(m pi / 2) sin(n pi / 2); only odd m, n
    remain. The moment under a true point load is infinite: the patch must have a size.

    Raises
    ------
    ValueError
        When a side of the patch is not positive or the patch is larger than the plate.
    """
    if not (0 < patch_mm[0] <= plate.span_mm and 0 < patch_mm[1] <= plate.length_mm):
        message = f"the patch {patch_mm} mm must have a size and fit on the plate"
        raise ValueError(message)
    along, part_a = _terms(plate.span_mm, patch_mm[0])
    across, part_b = _terms(plate.length_mm, patch_mm[1])
    a2, b2 = (along**2)[:, None], (across**2)[None, :]
    stiff = (
        plate.d_span_nmm * a2**2 + 2.0 * plate.d_twist_nmm * a2 * b2 + plate.d_length_nmm * b2**2
    )
    load = 4.0 / (plate.span_mm * plate.length_mm) * part_a[:, None] * part_b[None, :]
    shape = load / stiff
    curve = plate.d_span_nmm * (shape * (a2 + plate.poisson * b2))
    return PlateResponse(float(shape.sum()), float(curve.sum()))


def _terms(side_mm: float, patch_mm: float) -> tuple[FloatArray, FloatArray]:
    """Return wave numbers [1/mm] of the odd terms and the load's factors in the middle."""
    count = int(np.ceil(_TERMS_PER_PATCH * side_mm / patch_mm)) + 20
    wave: FloatArray = np.pi * np.arange(1, 2 * count, 2, dtype=np.float64) / side_mm
    # sin^2(m pi / 2) = 1 for odd m: once from the load, once from the place looked at.
    return wave, np.asarray(np.sinc(wave * patch_mm / (2.0 * np.pi)), dtype=np.float64)


def effective_width_mm(
    span_mm: float,
    thickness_mm: float,
    e_along_mpa: float,
    e_across_mpa: float,
    g_mpa: float,
    patch_mm: float,
) -> EffectiveWidth:
    """Return the width of sheet that works when a hold between studs is loaded.

    A beam of that width over the same span, under the same central load spread over
    `patch_mm` [mm], has the plate's largest moment (`moment_mm`) or deflection
    (`deflection_mm`). Parameters as in `sheet_plate`; `patch_mm` is the square patch's side.
    """
    plate = sheet_plate(span_mm, thickness_mm, e_along_mpa, e_across_mpa, g_mpa)
    real = central_load(plate, (patch_mm, patch_mm))
    moment = span_mm / 4.0 - patch_mm / 8.0
    # Simple beam with 1 N over a central length c: (8 l^3 - 4 l c^2 + c^3) / (384 EI).
    cubes = 8.0 * span_mm**3 - 4.0 * span_mm * patch_mm**2 + patch_mm**3
    sag = cubes / (384.0 * plate.d_span_nmm)
    return EffectiveWidth(moment / real.moment_nmm_per_mm, sag / real.deflection_mm)
