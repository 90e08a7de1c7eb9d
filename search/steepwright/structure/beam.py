"""Moments, forces and deflections of simple beams; N, mm, MPa. All functions broadcast.

Formulas of any statics handbook; checked against a published table of beam formulas.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.timber import Values, require_positive
from steepwright.structure.types import FloatArray


def udl_moment_nmm(load_n_per_mm: Values, span_mm: Values) -> Values:
    """Return w l^2 / 8, the largest moment of a simple beam under an even load [Nmm]."""
    return load_n_per_mm * span_mm**2 / 8.0


def udl_deflection_mm(load_n_per_mm: Values, span_mm: Values, ei_nmm2: Values) -> Values:
    """Return 5 w l^4 / (384 EI), the deflection of a simple beam at mid-span [mm]."""
    require_positive(ei_nmm2=ei_nmm2)
    return 5.0 * load_n_per_mm * span_mm**4 / (384.0 * ei_nmm2)


def point_moment_nmm(load_n: Values, at_mm: Values, span_mm: Values) -> Values:
    """Return P a b / l, the moment under a point load at `at_mm` of a simple beam [Nmm]."""
    require_positive(span_mm=span_mm)
    return load_n * at_mm * (span_mm - at_mm) / span_mm


def point_deflection_mm(load_n: Values, at_mm: Values, span_mm: Values, ei_nmm2: Values) -> Values:
    """Return P a^2 b^2 / (3 EI l), the deflection under a point load of a simple beam [mm]."""
    require_positive(span_mm=span_mm, ei_nmm2=ei_nmm2)
    return load_n * at_mm**2 * (span_mm - at_mm) ** 2 / (3.0 * ei_nmm2 * span_mm)


def point_largest_deflection(
    load_n: Values, at_mm: Values, span_mm: Values, ei_nmm2: Values
) -> tuple[Values, Values]:
    """Return the largest deflection [mm] of a simple beam under a point load.

    The second value is its place [mm], from the end that is farther from the load.
    """
    require_positive(span_mm=span_mm, ei_nmm2=ei_nmm2)
    long = np.maximum(at_mm, span_mm - at_mm)
    short = span_mm - long
    place = np.sqrt(long * (long + 2.0 * short) / 3.0)
    sag = load_n * short * place**3 / (3.0 * ei_nmm2 * span_mm)
    return sag, place


def simple_moment(at_mm: FloatArray, load_mm: FloatArray, span_mm: FloatArray) -> FloatArray:
    """Return the moment at a place of a simple beam under a unit load [Nmm]."""
    near = np.minimum(at_mm, load_mm)
    far = span_mm - np.maximum(at_mm, load_mm)
    return np.asarray(near * far / span_mm)


def simple_deflection(at_mm: FloatArray, load_mm: FloatArray, span_mm: FloatArray) -> FloatArray:
    """Return EI times the deflection of a simple beam under a unit load [Nmm3 per N]."""
    near = np.minimum(at_mm, load_mm)
    far = span_mm - np.maximum(at_mm, load_mm)
    return np.asarray(near * far * (span_mm**2 - far**2 - near**2) / (6.0 * span_mm))


def middle_deflection_mm(load_n: Values, span_mm: Values, ei_nmm2: Values) -> Values:
    """Return P l^3 / (48 EI) [mm]."""
    return point_deflection_mm(load_n, span_mm / 2.0, span_mm, ei_nmm2)


def overhang_moment_nmm(load_n: Values, overhang_mm: Values) -> Values:
    """Return P a, the hogging moment over the support by a load at an overhang's tip [Nmm]."""
    return load_n * overhang_mm


def overhang_deflection_mm(
    load_n: Values, overhang_mm: Values, span_mm: Values, ei_nmm2: Values
) -> Values:
    """Return P a^2 (l + a) / (3 EI), the deflection of a loaded overhang's tip [mm]."""
    require_positive(ei_nmm2=ei_nmm2)
    return load_n * overhang_mm**2 * (span_mm + overhang_mm) / (3.0 * ei_nmm2)
