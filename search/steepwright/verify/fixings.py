"""What screws hold, by EN 1995-1-1:2004+A1+A2 section 8, worked out anew from their sizes."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

Document = dict[str, Any]


class Holding(NamedTuple):
    """Design resistances of one sheet on one section [N], and what a seam's stud needs [mm]."""

    axial_n: float
    bare_n: float
    frame_n: float
    seam_mm: float


def holding(
    factors: Document, family: Document, panel: Document, section: Document, timber: Document
) -> Holding:
    """Return what the screws of a sheet family on a timber section hold."""
    kmod_timber = factors["kmod_solid_short"]
    gamma = factors["gamma_m_connection"]
    frame = 0.0
    screw = section["screw"]
    if screw is not None:
        frame = _in_row(factors, screw, section["depth_mm"]) * _end_grain_n(
            factors, screw, timber, section["width_mm"]
        )
        frame *= kmod_timber / gamma
    screw = family["screw"]
    if screw is None:
        return Holding(0.0, 0.0, frame, 0.0)
    kmod_panel = factors[f"kmod_{panel['kmod_family']}_short"]
    thread = _thread_n(factors, screw, panel, timber)
    head = _head_n(factors, screw["head_mm"], panel)
    steel = screw["tensile_mpa"] * math.pi * screw["root_mm"] ** 2 / 4  # (8.40c)
    axial = min(
        kmod_timber * thread / gamma, kmod_panel * head / gamma, steel / factors["gamma_m2_steel"]
    )
    # The thread that a climber pulls at the same time gives no rope effect besides.
    lateral = _in_sheet_n(screw, panel, timber)
    lateral *= math.sqrt(kmod_timber * kmod_panel) / gamma  # (2.6)
    return Holding(axial, lateral, frame, factors["seam_stud_width_d"] * screw["diameter_mm"])


def _thread_n(factors: Document, screw: Document, panel: Document, timber: Document) -> float:
    """Return the thread's withdrawal square to the grain (8.38), of thin screws (8.40a)."""
    length = min(screw["thread_mm"], screw["length_mm"] - panel["mean_thickness_mm"])
    if length <= 0:
        return 0.0
    return withdrawal_n(factors, screw["diameter_mm"], length, timber["rho_k_kg_m3"])


def withdrawal_n(factors: Document, diameter_mm: float, length_mm: float, rho: float) -> float:
    """Return a thread's characteristic withdrawal square to the grain (8.38), or (8.40a) [N]."""
    d, length = diameter_mm, length_mm
    if d >= factors["withdrawal_rule_least_mm"]:
        strength = 0.52 * rho**0.8 / (math.sqrt(d) * length**0.1)
        return float(strength * d * length * min(d / 8, 1.0))
    denser = rho / factors["small_screw_density_kg_m3"]
    return float(factors["small_screw_withdrawal_mpa"] * d * length * denser**0.8)


def hold_n(factors: Document, panel: Document) -> float:
    """Return what a hold's insert bears before its flange pulls through the sheet [N]."""
    held = factors[f"kmod_{panel['kmod_family']}_short"] / factors["gamma_m_connection"]
    return float(
        held * _head_n(factors, factors["tnut_flange_mm"], panel) / factors["kept_divisor"]
    )


def _head_n(factors: Document, head_mm: float, panel: Document) -> float:
    """Return what pulls a head, or a flange, through the sheet (8.40b)."""
    thick = panel["mean_thickness_mm"] > factors["head_pull_thick_from_mm"]
    strength = factors["head_pull_thick_mpa" if thick else "head_pull_thin_mpa"]
    denser = panel["rho_k_kg_m3"] / factors["head_pull_density_kg_m3"]
    held = float(strength * head_mm**2 * denser**0.8)
    thin = panel["thickness_mm"] < factors["head_pull_thin_from_mm"]
    return min(held, factors["head_pull_thinnest_n"]) if thin else held


def gapped_n(per_mm: float, yields_nmm: float, deep_mm: float, gap_mm: float) -> float:
    """Return what a screw bears a gap in front of the wood, by Johansen's model [N].

    Turning stiff, or yielding where its shear vanishes: M = F g + F^2 / (2 p).
    """
    arm = deep_mm + 2 * gap_mm
    stiff = per_mm * (math.hypot(arm, deep_mm) - arm)
    return min(stiff, per_mm * (math.sqrt(gap_mm**2 + 2 * yields_nmm / per_mm) - gap_mm))


def _in_sheet_n(screw: Document, panel: Document, timber: Document) -> float:
    d, t = 1.1 * screw["root_mm"], panel["mean_thickness_mm"]
    if screw["length_mm"] <= t:
        return 0.0
    if panel["kmod_family"] == "osb3":
        sheet = 65 * d**-0.7 * t**0.1  # (8.22)
    else:
        sheet = 0.11 * panel["rho_k_kg_m3"] * d**-0.3  # (8.20)
    wood = 0.082 * timber["rho_k_kg_m3"] * d**-0.3  # (8.15)
    parts = (t, sheet), (screw["length_mm"] - t, wood)
    return single_shear_n(parts, d, screw["tensile_mpa"])


def _end_grain_n(factors: Document, screw: Document, timber: Document, rail_mm: float) -> float:
    """Return one screw's resistance through a rail into end grain, without the rope effect."""
    d, inside = 1.1 * screw["root_mm"], screw["length_mm"] - rail_mm
    if inside <= 0:
        return 0.0
    rho = timber["rho_k_kg_m3"]
    if d > 6:
        wood = 0.082 * (1 - 0.01 * d) * rho  # (8.16)
        across = wood / (1.35 + 0.015 * d)  # (8.31), (8.33)
    else:
        wood = across = 0.082 * rho * d**-0.3
    end = wood / factors["end_grain_embedment_factor"]
    return single_shear_n(((rail_mm, across), (inside, end)), d, screw["tensile_mpa"])


def _in_row(factors: Document, screw: Document, depth_mm: float) -> int:
    """Return how many screws have their distances in one row along a stud's depth."""
    pitch = factors["predrilled_spacing_d"] * screw["diameter_mm"]
    fits = max(0, math.floor(depth_mm / pitch + 1e-9) - 1)
    return int(min(factors["frame_screws_per_joint"], fits))


def single_shear_n(
    parts: tuple[tuple[float, float], tuple[float, float]],
    d: float,
    tensile_mpa: float,
) -> float:
    """Return Fv,Rk of a fastener between two parts (thickness, embedment), (8.6) a to f.

    Without the rope effect.

    Each bending mode follows from the part's equation of equilibrium, a quadratic in its own
    crushed length; the factors 1.05 and 1.15 are the standard's.
    """
    (t1, f1), (t2, f2) = parts
    yields = 0.3 * tensile_mpa * d**2.6  # (8.14)
    beta, whole = f2 / f1, f1 * d
    both = beta + 2 * beta**2 * (1 + t2 / t1 + (t2 / t1) ** 2) + beta**3 * (t2 / t1) ** 2
    turning = whole * t1 / (1 + beta) * (math.sqrt(both) - beta * (1 + t2 / t1))
    one = math.sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * yields / (whole * t1**2))
    in_first = 1.05 * whole * t1 / (2 + beta) * (one - beta)
    two = math.sqrt(2 * beta**2 * (1 + beta) + 4 * beta * (1 + 2 * beta) * yields / (whole * t2**2))
    in_second = 1.05 * whole * t2 / (1 + 2 * beta) * (two - beta)
    twice = 1.15 * math.sqrt(2 * beta / (1 + beta) * 2 * yields * whole)
    return min(f1 * t1 * d, f2 * t2 * d, turning, in_first, in_second, twice)
