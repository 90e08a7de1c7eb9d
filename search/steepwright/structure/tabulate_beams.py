"""Ceiling beams with what they carry already, and what mounts hold in them."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import Any

import numpy as np

from steepwright.catalog.types import Catalog, Factors, Mount, TimberClass
from steepwright.room.types import Beam, Room
from steepwright.structure.beam import middle_deflection_mm, udl_deflection_mm, udl_moment_nmm
from steepwright.structure.codes import MEMBER_RULES
from steepwright.structure.nds_joints import lag_n
from steepwright.structure.screws import (
    effective_number,
    embedment_timber_mpa,
    gapped_plate_n,
    in_withdrawal_range,
    steel_n,
    thin_plate_n,
    yield_moment_nmm,
)
from steepwright.structure.tables import CeilingBeams, Hangers
from steepwright.structure.tabulate_joints import thread_n
from steepwright.structure.timber import (
    critical_stress_mpa,
    require_positive,
    second_moment_mm4,
    section_modulus_mm3,
    splitting_n,
    torsion_modulus_mm3,
)
from steepwright.units import weight_n

NO_ROOM = 1e6
"""Use of the room for screws that don't reach the timber at all: plainly too much."""

NEVER = 1e15
"""Stands for a resistance of timber that isn't there and so can't fail; JSON holds no infinity."""


def beam_class(catalog: Catalog, beam: Beam) -> TimberClass:
    """Return a beam's strength class; when its grade is unknown, what any class has at least.

    Only classes of the standards that the yard's own timber is graded by are looked at.
    """
    classes = catalog.materials.timber_classes
    if beam.grade is None:
        return least_class(catalog)
    if beam.grade not in classes:
        message = f"grade {beam.grade!r} of beam {beam.name!r} is not in timber_classes.csv"
        raise ValueError(message)
    return classes[beam.grade]


def least_class(catalog: Catalog) -> TimberClass:
    """Return what timber of the standards that the yard's own is graded by has at least."""
    return _least(possible_classes(catalog))


def possible_classes(catalog: Catalog) -> list[TimberClass]:
    """Return the classes of the standards that the yard's own timber is graded by."""
    classes = catalog.materials.timber_classes
    sold = {bar.strength_class for bar in catalog.timber}
    here = {c.standard for c in classes.values() if c.name in sold}
    return [c for c in classes.values() if not here or c.standard in here]


def _least(classes: list[TimberClass]) -> TimberClass:
    """Return the weakest class with every figure the least of all; the mean density the most."""
    weakest = min(classes, key=lambda c: (c.fm_k_mpa, c.name))
    lows = {
        field.name: min(getattr(c, field.name) for c in classes)
        for field in fields(TimberClass)
        if field.type == "float"
    }
    return replace(weakest, **lows | {"rho_mean_kg_m3": max(c.rho_mean_kg_m3 for c in classes)})


def beam_table(catalog: Catalog, room: Room) -> CeilingBeams:
    """Return strengths and existing effects of every beam."""
    factors = catalog.materials.factors
    rows = [beam_row(factors, beam, beam_class(catalog, beam)) for beam in room.beams]
    numbers = np.array(rows, dtype=np.float64).reshape(len(rows), 13)
    known = (
        np.array([_is_slab(b) or b.grade is not None for b in room.beams], dtype=np.bool_),
        np.array(
            [_is_slab(b) or b.existing_load_n_per_m is not None for b in room.beams], dtype=np.bool_
        ),
        np.array([beam.found for beam in room.beams], dtype=np.bool_),
        np.array([float(beam.lining_mm) for beam in room.beams], dtype=np.float64),
        np.array([_is_slab(beam) for beam in room.beams], dtype=np.bool_),
        np.array([beam.anchor_rated_n for beam in room.beams], dtype=np.float64),
        np.array([beam.anchor_least_mm for beam in room.beams], dtype=np.float64),
    )
    columns: list[Any] = [*(np.ascontiguousarray(numbers[:, i]) for i in range(13)), *known]
    return CeilingBeams(*columns)


def beam_row(
    factors: Factors, beam: Beam, timber: TimberClass, *, held: bool = False
) -> tuple[float, ...]:
    """Return a beam's first columns of `CeilingBeams`, in their order.

    One that is `held` can't tilt: its upper edge is kept in place all along, EN 1995-1-1
    6.3.3(5), NDS 3.3.3.3.
    """
    if _is_slab(beam):
        return 1.0, float(beam.depth_mm), 1.0, *(NEVER,) * 4, *(0.0,) * 6
    b, h, span = float(beam.width_mm), float(beam.depth_mm), float(beam.span_mm)
    require_positive(beam_width_mm=b, beam_depth_mm=h, beam_span_mm=span)
    design = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    bend = _bending_mpa(factors, beam, timber, design, held=held)
    shear = design * timber.fv_k_mpa * factors["kcr_solid"]
    dead, live = existing_n_per_mm(factors, beam, timber)
    always = factors["gamma_g"] * dead
    whole = always + factors["gamma_q"] * live
    ei = timber.e0_mean_mpa * float(second_moment_mm4(b, h))
    kdef = factors["kdef_solid"]
    lasting = dead * (1.0 + kdef) + live * (1.0 + factors["psi2_domestic"] * kdef)
    return (
        b,
        h,
        span,
        bend * float(section_modulus_mm3(b, h)),
        torsion_shape(factors, b, h) * shear * torsion_modulus_mm3(b, h),
        shear,
        design * timber.fc90_k_mpa * factors["kc90_default"],
        float(middle_deflection_mm(1.0, span, ei)),
        float(udl_moment_nmm(whole, span)),
        float(udl_moment_nmm(always, span)),
        whole * span / 2.0,
        always * span / 2.0,
        float(udl_deflection_mm(lasting, span, ei)),
    )


def _bending_mpa(
    factors: Factors, beam: Beam, timber: TimberClass, design: float, *, held: bool
) -> float:
    """Return the design strength in bending of a beam [MPa].

    Unless held it is free to tilt over its span, which counts whole by EN 1995-1-1, by the NDS as
    `lef_ratio` of it.
    """
    b, h, span = float(beam.width_mm), float(beam.depth_mm), float(beam.span_mm)
    rules = MEMBER_RULES[factors.code]
    strength = design * timber.fm_k_mpa * rules.depth_factor(timber, h)
    if held:
        return float(strength)
    if factors.code == "NDS":
        critical = rules.tilting * b**2 * timber.e0_05_mpa / (h * factors["lef_ratio"] * span)
        return float(strength * rules.stability(strength, critical))
    critical = float(critical_stress_mpa(b, h, timber.e0_05_mpa, span))
    return float(strength * rules.stability(timber.fm_k_mpa, critical))


def torsion_shape(factors: Factors, b_mm: float, h_mm: float) -> float:
    """Return k_shape of a rectangle (6.15) [-], its longer side over the shorter one."""
    slim = max(b_mm, h_mm) / min(b_mm, h_mm)
    return min(1.0 + factors["torsion_shape_per_hb"] * slim, factors["torsion_shape_most"])


def existing_n_per_mm(factors: Factors, beam: Beam, timber: TimberClass) -> tuple[float, float]:
    """Return a beam's permanent (own weight included) and variable existing load [N/mm]."""
    given = beam.existing_load_n_per_m
    per_m = factors["beam_unknown_load_n_per_m"] if given is None else given
    if not math.isfinite(per_m) or per_m < 0.0:
        message = f"the existing load of beam {beam.name!r} must be 0 or more, not {per_m} N/m"
        raise ValueError(message)
    share = factors["beam_permanent_share"]
    own = beam.width_mm * beam.depth_mm * weight_n(timber.rho_mean_kg_m3) / 1e9
    return share * per_m / 1000.0 + own, (1.0 - share) * per_m / 1000.0


def hanger_table(catalog: Catalog, room: Room) -> Hangers:
    """Return what every mount holds in every beam."""
    factors = catalog.materials.factors
    rows = [
        [_hanger_row(factors, mount, beam, beam_class(catalog, beam)) for beam in room.beams]
        for mount in catalog.mounts
    ]
    shape = (len(catalog.mounts), len(room.beams), 11)
    numbers = np.array(rows, dtype=np.float64).reshape(shape)
    columns: list[Any] = [np.ascontiguousarray(numbers[:, :, i]) for i in range(9)]
    columns += [numbers[:, :, 9] > 0.5, numbers[:, :, 10] > 0.5]
    return Hangers(*columns)


def _hanger_row(
    factors: Factors, mount: Mount, beam: Beam, timber: TimberClass
) -> tuple[float, ...]:
    d, root, count = mount.diameter_mm, mount.root_mm, mount.screws
    require_positive(mount_diameter_mm=d, mount_thread_mm=mount.thread_mm, screws=float(count))
    if _is_slab(beam):
        return _on_slab(factors, mount)
    lef = min(mount.thread_mm - beam.lining_mm, float(beam.depth_mm))
    if lef <= 0.0:
        return _nothing(factors, mount, beam)
    together = count if factors.code == "NDS" else float(effective_number(count))
    thread = together * thread_n(factors, d, lef, timber.rho_k_kg_m3)
    steel = count * float(steel_n(root, mount.tensile_mpa))
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    lost = factors["kmod_solid_instantaneous"] / factors["gamma_m_accidental"]
    edge = min(lef, factors["splitting_deepest_part"] * beam.depth_mm)
    split = float(splitting_n(float(beam.width_mm), float(beam.depth_mm), edge))
    reference = factors["lip_reference_board_mm"]
    axial = min(strength * thread, steel / factors["gamma_m2_steel"])
    return (
        axial,
        min(lost * thread, steel),
        strength * count * _lateral_n(factors, mount, lef, timber, float(beam.lining_mm)),
        axial / factors["gamma_q"] if mount.rated_n is None else mount.rated_n,
        reference / (reference - mount.setback_mm),
        max(
            (factors["axial_screw_width_d"] * d + mount.row_gap_mm) / beam.width_mm,
            factors["axial_screw_depth_d"] * d / beam.depth_mm,
            factors["screw_least_thread_d"] * d / lef if beam.lining_mm else 0.0,
        ),
        split * factors["kmod_solid_short"] / factors["gamma_m_solid"] / factors["kept_divisor"],
        _twist_mm(mount, beam),
        prise(factors, mount),
        float(in_withdrawal_range(d, root)),
        float(mount.rated_n is not None),
    )


def _twist_mm(mount: Mount, beam: Beam) -> float:
    """Return the pivot's depth below the middle of its beam [mm], let down as at the low end."""
    let_down = max(beam.underside_mm) - min(beam.underside_mm)
    return beam.depth_mm / 2.0 + beam.lining_mm + mount.drop_mm + let_down


def prise(factors: Factors, mount: Mount) -> float:
    """Return a load along all the mount's screws over the level pull that prises as much [-].

    The plate turns about its edge; only the row of screws farthest from it holds, and each of
    them must bear as much as if all shared so many times the pull.
    """
    plate = mount.plate_mm
    wide = factors["mount_plate_d"] * mount.diameter_mm if plate is None else float(plate)
    deep = mount.drop_mm if mount.stiff_mm is None else min(mount.stiff_mm, mount.drop_mm)
    arm = factors["prise_arm_share"] * (wide + mount.row_gap_mm) / 2.0
    require_positive(mount_plate_mm=arm)
    return deep / arm * (2.0 if mount.row_gap_mm else 1.0)


def _is_slab(beam: Beam) -> bool:
    return beam.kind == "slab"


def _on_slab(factors: Factors, mount: Mount) -> tuple[float, ...]:
    """Return the row of a mount on anchors: only what its maker rates it for counts."""
    reference = factors["lip_reference_board_mm"]
    lever = reference / (reference - mount.setback_mm)
    rated = mount.rated_n or 0.0
    known = float(mount.rated_n is not None)
    return NEVER, NEVER, NEVER, rated, lever, 0.0, NEVER, 0.0, 0.0, 1.0, known


def _nothing(factors: Factors, mount: Mount, beam: Beam) -> tuple[float, ...]:
    """Return the row of screws that end in the lining: they hold nothing."""
    reference = factors["lip_reference_board_mm"]
    lever, rated = reference / (reference - mount.setback_mm), mount.rated_n or 0.0
    known = float(in_withdrawal_range(mount.diameter_mm, mount.root_mm))
    twist, prised = _twist_mm(mount, beam), prise(factors, mount)
    stated = float(mount.rated_n is not None)
    return 0.0, 0.0, 0.0, rated, lever, NO_ROOM, 0.0, twist, prised, known, stated


def _lateral_n(
    factors: Factors, mount: Mount, depth_mm: float, timber: TimberClass, gap_mm: float
) -> float:
    """Return Fv,Rk of one mount screw through its plate [N], 8.2.3, thin plate, no rope effect.

    Square to the grain, so that the embedment strength is the lesser one. A lining between plate
    and timber doesn't bear: the screw bends across it.
    """
    if factors.code == "NDS":
        return lag_n(factors, mount, depth_mm, timber, gap_mm)
    d = 1.1 * mount.root_mm
    along = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=d > 6.0))
    embedment = along / (1.35 + 0.015 * d) if d > 6.0 else along
    moment = yield_moment_nmm(d, mount.tensile_mpa)
    if gap_mm > 0.0:
        return float(gapped_plate_n(embedment, depth_mm, d, moment, gap_mm))
    return float(thin_plate_n(embedment, depth_mm, d, moment))
