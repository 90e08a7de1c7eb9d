"""What holds up the head beam of a freestanding frame: posts, feet, braces and their joints."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import numpy as np

from steepwright.catalog.types import Catalog, Factors, TimberClass
from steepwright.geometry.stand_parts import brace_reach_mm, stand_parts
from steepwright.room.types import Beam, Room, Stand
from steepwright.structure.screws import (
    ShearJoint,
    embedment_timber_mpa,
    johansen_n,
    yield_moment_nmm,
)
from steepwright.structure.tables_rigs import Stands
from steepwright.structure.tabulate_beams import NEVER, beam_class
from steepwright.structure.tabulate_lip import bolt_core_mm2, bolt_washer_n
from steepwright.structure.timber import (
    kc,
    relative_slenderness,
    require_positive,
    second_moment_mm4,
    section_modulus_mm3,
)
from steepwright.units import weight_n


def stand_table(catalog: Catalog, room: Room) -> Stands:
    """Return one side of every frame; figures that can't fail for all else to hang from."""
    factors = catalog.materials.factors
    rows = [
        _none()
        if beam.stand is None
        else _row(factors, beam, beam.stand, beam_class(catalog, beam))
        for beam in room.beams
    ]
    names = [field.name for field in fields(Stands)]
    numbers = np.array([[row[name] for name in names] for row in rows], dtype=np.float64)
    numbers = numbers.reshape(len(rows), len(names))
    columns: list[Any] = [np.ascontiguousarray(column) for column in numbers.T]
    return Stands(columns[0] > 0.5, *columns[1:])


def _none() -> dict[str, float]:
    row = dict.fromkeys((field.name for field in fields(Stands)), NEVER)
    names = ("top_mm", "brace_up_mm", "foot_mm", "span_mm", "clasp_mm", "head_mm")
    return row | dict.fromkeys(names, 1.0) | {"stands": 0.0, "fixing_n": 0.0, "bolts_use": 0.0}


def _row(factors: Factors, beam: Beam, stand: Stand, timber: TimberClass) -> dict[str, float]:
    across, along = (float(side) for side in stand.post_mm)
    top = float(max(beam.underside_mm) + beam.depth_mm)
    reach = brace_reach_mm(factors, stand)
    require_positive(post_mm=min(across, along), brace_reach_mm=reach, span_mm=float(beam.span_mm))
    design = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    brace_mm = math.hypot(reach, stand.brace_up_mm)
    hole = factors["frame_bolt_mm"] + 1.0
    fm = design * timber.fm_k_mpa
    net = across * (along - hole)
    # A post's height counts twice: as one that is held at its foot alone.
    squeeze = buckling(timber, 2.0 * top, min(across, along)) * design * timber.fc0_k_mpa
    crush = design * timber.fc90_k_mpa * factors["kc90_default"]
    return {
        "stands": 1.0,
        "top_mm": top,
        "brace_up_mm": float(stand.brace_up_mm),
        "foot_mm": float(stand.foot_mm),
        "span_mm": float(beam.span_mm),
        "weight_n": _half_weight_n(factors, beam, stand, timber),
        "post_n": squeeze * across * along,
        "post_along_nmm": fm * float(section_modulus_mm3(across, along)) * (1.0 - hole / along),
        "post_across_nmm": fm * float(section_modulus_mm3(along, across)),
        "brace_n": _brace_n(stand, timber, design, brace_mm, hole),
        "joint_n": _joint_n(factors, beam, stand, timber),
        "foot_n": design * timber.ft0_k_mpa * net,
        "foot_nmm": fm * float(section_modulus_mm3(across, along)) * (1.0 - hole / along),
        "floor_n": crush * across * along,
        **_cheeks(factors, beam, stand, timber),
        "ei_nmm2": timber.e0_mean_mpa * float(second_moment_mm4(across, along)),
        "spring_n_per_mm": _spring_n_per_mm(factors, stand, timber, brace_mm),
        "fixing_n": math.nan if stand.floor_rated_n is None else stand.floor_rated_n,
    }


def buckling(timber: TimberClass, length_mm: float, side_mm: float) -> float:
    """Return kc of a bar about the side it is thinner by (6.21, 6.25)."""
    radius = side_mm / math.sqrt(12.0)
    slender = relative_slenderness(length_mm, radius, timber.fc0_k_mpa, timber.e0_05_mpa)
    return float(kc(slender))


def _half_weight_n(factors: Factors, beam: Beam, stand: Stand, timber: TimberClass) -> float:
    """Return the weight of half the frame's timber [N]."""
    parts = stand_parts(factors, beam, stand)
    volume = sum(math.prod(part.section_mm) * part.length_mm * part.count for part in parts)
    return volume / 2.0 * weight_n(timber.rho_mean_kg_m3) / 1e9


def _cheeks(factors: Factors, beam: Beam, stand: Stand, timber: TimberClass) -> dict[str, float]:
    """Return what the cheeks at a post's ends bear, and the room that all bolts need.

    A bolt keeps the distance of a loaded edge in what may be pushed to either side: post, foot
    and head beam; that of an unloaded one in braces and cheeks, which are loaded along their grain.
    """
    d, thin, deep = factors["frame_bolt_mm"], float(min(stand.brace_mm)), float(max(stand.brace_mm))
    design = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    tensile = factors["frame_bolt_tensile_mpa"]
    steel = factors["bolt_tension_factor"] * tensile * bolt_core_mm2(d) / factors["gamma_m2_steel"]
    hole = d + 1.0
    loaded, free = (
        2.0 * factors["bolt_loaded_edge_d"] * d,
        2.0 * factors["bolt_unloaded_edge_d"] * d,
    )
    return {
        "cheek_n": strength * _bolt_n(factors, beam, stand, timber, square=True),
        "clasp_n": min(steel, strength * bolt_washer_n(factors, timber, "frame")),
        "cheek_nmm": design * timber.fm_k_mpa * (deep - hole) * thin**2 / 6.0,
        "clasp_mm": 7.0 * d,
        "head_mm": float(beam.depth_mm),
        "bolts_use": max(loaded / min(*stand.post_mm, beam.depth_mm), free / deep),
    }


def _brace_n(
    stand: Stand, timber: TimberClass, design: float, brace_mm: float, hole_mm: float
) -> float:
    """Return what a brace bears: the less of compression (6.3.2) and tension beside its bolts."""
    thick, deep = (float(side) for side in stand.brace_mm)
    press = buckling(timber, brace_mm, min(thick, deep)) * timber.fc0_k_mpa * thick * deep
    return float(design * min(press, timber.ft0_k_mpa * thick * (deep - hole_mm)))


def _joint_n(factors: Factors, beam: Beam, stand: Stand, timber: TimberClass) -> float:
    """Return what the bolts at one end of a brace bear, single shear (8.6, 8.34), no rope effect.

    The post, foot or head beam is loaded at an angle to its grain; it counts as square to it
    (8.31), in which it is weakest.
    """
    count = factors["frame_bolts_per_joint"]
    number = min(count, count**0.9 * (5.0 / 13.0) ** 0.25)
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    return float(strength * number * _bolt_n(factors, beam, stand, timber, square=False))


def _bolt_n(
    factors: Factors, beam: Beam, stand: Stand, timber: TimberClass, *, square: bool
) -> float:
    """Return Fv,Rk of one bolt in single shear [N] (8.6); `square` to the grain of both parts."""
    d = factors["frame_bolt_mm"]
    along = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=True))
    across = along / (1.35 + 0.015 * d)
    joint = ShearJoint(
        t1_mm=float(min(stand.brace_mm)),
        t2_mm=float(min(*stand.post_mm, beam.width_mm)),
        fh1_mpa=across if square else along,
        fh2_mpa=across,
        diameter_mm=d,
        yield_nmm=yield_moment_nmm(d, factors["frame_bolt_tensile_mpa"]),
    )
    return float(johansen_n(joint))


def _spring_n_per_mm(factors: Factors, stand: Stand, timber: TimberClass, brace_mm: float) -> float:
    """Return the stiffness of a brace with the slip of both its joints (Table 7.1) [N/mm]."""
    slip = timber.rho_mean_kg_m3**1.5 * factors["frame_bolt_mm"] / 23.0
    slip = slip * factors["frame_bolts_per_joint"]
    bar = timber.e0_mean_mpa * math.prod(stand.brace_mm) / brace_mm
    return float(1.0 / (2.0 / slip + 1.0 / bar))
