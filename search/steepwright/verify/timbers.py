"""What timbers that aren't studs bear: a beam's classes, slenderness, splitting and twisting.

The clauses named are those of EN 1995-1-1.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from steepwright.units import GRAVITY_M_S2

Document = dict[str, Any]

TERMS = 40
"""So many terms of a series in 1 / n^2 cosh(n), of which one or two count."""


def timber_of(given: Document, beam: Document) -> Document:
    """Return a beam's class; of an unknown grade the least figures of all, but the most weight."""
    classes = given["timber_classes"]
    if beam["grade"] is not None:
        return dict(classes[beam["grade"]])
    every = [classes[name] for name in given["graded"]]
    weakest = dict(min(every, key=lambda c: (c["fm_k_mpa"], c["name"])))
    least = {k: min(c[k] for c in every) for k, v in weakest.items() if isinstance(v, float)}
    return weakest | least | {"rho_mean_kg_m3": max(c["rho_mean_kg_m3"] for c in every)}


def weight_n_mm3(timber: Document) -> float:
    """Return what timber weighs [N/mm3]."""
    return float(timber["rho_mean_kg_m3"] * GRAVITY_M_S2 / 1e9)


def deep_factor(h_mm: float) -> float:
    """Return kh on the bending strength of solid timber (3.1)."""
    return float(min(max((150 / h_mm) ** 0.2, 1.0), 1.3))


def buckling(timber: Document, length_mm: float, side_mm: float) -> float:
    """Return kc of a bar about a side (6.21, 6.25 to 6.28), beta_c 0.2; 1 up to 0.3."""
    slender = math.sqrt(12 * timber["fc0_k_mpa"] / timber["e0_05_mpa"])
    slender *= length_mm / side_mm / math.pi
    k = (1 + 0.2 * (slender - 0.3) + slender**2) / 2
    return min(1.0, 1 / (k + math.sqrt(max(k**2 - slender**2, 0.0))))


def tilting(timber: Document, b_mm: float, h_mm: float, free_mm: float) -> float:
    """Return kcrit of a beam that nothing keeps from tilting over a length (6.30, 6.32, 6.34)."""
    critical = 0.78 * b_mm**2 * timber["e0_05_mpa"] / (h_mm * free_mm)
    slender = math.sqrt(timber["fm_k_mpa"] / critical)
    if slender <= 0.75:
        return 1.0
    return 1.56 - 0.75 * slender if slender <= 1.4 else 1 / slender**2


def splits_n(b_mm: float, h_mm: float, edge_mm: float) -> float:
    """Return F90,Rk of softwood, w = 1 (8.4) [N]."""
    return 14 * b_mm * math.sqrt(edge_mm / (1 - edge_mm / h_mm))


def twisting_mm3(b_mm: float, h_mm: float) -> float:
    """Return torque over the largest shear stress of a rectangle, by Saint-Venant [mm3]."""
    a, b = sorted((b_mm, h_mm))
    n = np.arange(1, 2 * TERMS, 2)
    x = np.minimum(np.pi * n * b / (2 * a), 500.0)
    turns = a**3 * b * (1 / 3 - 64 / np.pi**5 * a / b * float((np.tanh(x) / n**5).sum()))
    sheared = a * (1 - 8 / np.pi**2 * float((1 / (n**2 * np.cosh(x))).sum()))
    return float(turns / sheared)
