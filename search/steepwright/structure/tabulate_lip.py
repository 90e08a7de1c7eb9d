"""What the bolts hold that fix a mount's plate to the lip rail, per section."""

from __future__ import annotations

import math

import numpy as np

from steepwright.catalog.families import TimberSection
from steepwright.catalog.types import Factors, TimberClass
from steepwright.geometry.mounts import beside_mm, bolts_long_mm, outer_bolt_mm, over_mm
from steepwright.structure.nds_joints import lip_bolt_n
from steepwright.structure.screws import embedment_timber_mpa, thin_plate_n, yield_moment_nmm
from steepwright.structure.tables import Lips
from steepwright.structure.timber import splitting_n


def lip_table(
    factors: Factors, sections: tuple[TimberSection, ...], classes: list[TimberClass]
) -> Lips:
    """Return the resistances of a mount's bolts in a lip rail of each section."""
    rows = [_row(factors, s, timber) for s, timber in zip(sections, classes, strict=True)]
    table = np.array(rows, dtype=np.float64).reshape(len(sections), 7)
    return Lips(*(np.ascontiguousarray(table[:, i]) for i in range(7)))


def _row(factors: Factors, section: TimberSection, timber: TimberClass) -> tuple[float, ...]:
    d, count = factors["lip_bolt_mm"], factors["lip_bolts"]
    b, h = float(section.width_mm), float(section.depth_mm)
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    lost = factors["kmod_solid_instantaneous"] / factors["gamma_m_accidental"]
    washer = bolt_washer_n(factors, timber)
    steel = factors["bolt_tension_factor"] * factors["lip_bolt_tensile_mpa"] * bolt_core_mm2(d)
    edge = factors["bolt_loaded_edge_d"] * d
    least = edge + factors["bolt_unloaded_edge_d"] * d
    split = splitting_n(b, h, min(max(h / 2.0, edge), factors["splitting_deepest_part"] * h))
    return (
        count * min(strength * washer, steel / factors["gamma_m2_steel"]),
        count * min(lost * washer, steel),
        count * strength * bolt_lateral_n(factors, b, timber),
        factors["kmod_solid_short"]
        / factors["gamma_m_solid"]
        / factors["kept_divisor"]
        * float(split),
        max(least / h, _between_use(factors, b)),
        over_mm(factors, b),
        bolts_long_mm(factors) / 2.0 + factors["lip_bolt_apart_d"] * d + beside_mm(factors, b),
    )


def _between_use(factors: Factors, stud_mm: float) -> float:
    """Return the use of the shortest space between studs by an outer mount's bolts; 0 with room.

    Only a very slim stud leaves less than they need.
    """
    last = outer_bolt_mm(factors, stud_mm) + bolts_long_mm(factors)
    washed = last + beside_mm(factors, 0.0) - stud_mm
    use = washed / factors["layout_min_upright_mm"]
    return use if use > 1.0 else 0.0


def bolt_core_mm2(diameter_mm: float) -> float:
    """Return the tensile area of a coarse metric thread [mm2].

    ISO 898-1: pi/4 (d - 0.9382 p)^2, the pitch p taken as 0.15 d, at or above M10's and M12's.
    """
    return math.pi / 4.0 * (diameter_mm * (1.0 - 0.9382 * 0.15)) ** 2


def bolt_washer_n(factors: Factors, timber: TimberClass, of: str = "lip") -> float:
    """Return what a washer of 3 d bears on its timber [N]: 3 fc,90,k on its area, 8.5.2(2).

    `of` tells whose bolts, ``lip`` or ``frame``.
    """
    d = factors[f"{of}_bolt_mm"]
    area = math.pi / 4.0 * ((3.0 * d) ** 2 - (d + 1.0) ** 2)
    return factors["washer_bearing_factor"] * timber.fc90_k_mpa * area


def bolt_lateral_n(factors: Factors, rail_mm: float, timber: TimberClass) -> float:
    """Return Fv,Rk of one bolt through a thin plate, square to the rail's grain [N] (8.9).

    fh,90,k = fh,0,k / (1.35 + 0.015 d), (8.31 to 8.33), softwood; no rope effect.
    """
    if factors.code == "NDS":
        return lip_bolt_n(factors, rail_mm, timber)
    d = factors["lip_bolt_mm"]
    along = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=True))
    moment = yield_moment_nmm(d, factors["lip_bolt_tensile_mpa"])
    return float(thin_plate_n(along / (1.35 + 0.015 * d), rail_mm, d, moment))
