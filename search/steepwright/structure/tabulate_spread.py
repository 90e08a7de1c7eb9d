"""What joists along the room bear, and the screws that a timber across it hangs from them by."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import numpy as np

from steepwright.catalog.types import Catalog, Factors, TimberClass
from steepwright.room.types import Beam, Room, Spreader
from steepwright.structure import nds
from steepwright.structure.nds_joints import lag_across_gap_n, lag_under_n
from steepwright.structure.screws import (
    ShearJoint,
    embedment_timber_mpa,
    gapped_plate_n,
    johansen_n,
    steel_n,
    yield_moment_nmm,
)
from steepwright.structure.spreading import spreading
from steepwright.structure.tables_rigs import Spreads
from steepwright.structure.tabulate_beams import NEVER, NO_ROOM, beam_class, beam_row
from steepwright.structure.tabulate_joints import thread_n
from steepwright.structure.timber import second_moment_mm4
from steepwright.units import weight_n


def joist_of(beam: Beam, spreader: Spreader) -> Beam:
    """Return one of the joists that a timber is screwed to as a beam of its own."""
    return Beam(
        name=beam.name,
        x_mm=0,
        underside_mm=(0, 0),
        width_mm=spreader.joist_mm[0],
        depth_mm=spreader.joist_mm[1],
        span_mm=spreader.span_mm,
        grade=spreader.grade,
        existing_load_n_per_m=spreader.load_n_per_m,
        kind="joist",
    )


def spread_table(catalog: Catalog, room: Room) -> Spreads:
    """Return the joists over every timber that hangs from some; the others bear all."""
    rows = [
        _none() if beam.spreader is None else _row(catalog, room, beam, beam.spreader)
        for beam in room.beams
    ]
    names = [field.name for field in fields(Spreads)]
    numbers = np.array([[row[name] for name in names] for row in rows], dtype=np.float64)
    numbers = numbers.reshape(len(rows), len(names))
    flags = {"hangs", "grade_known", "load_known", "place_known"}
    columns: list[Any] = [
        np.ascontiguousarray(numbers[:, i] > 0.5 if name in flags else numbers[:, i])
        for i, name in enumerate(names)
    ]
    return Spreads(*columns)


def _none() -> dict[str, float]:
    row = dict.fromkeys((field.name for field in fields(Spreads)), 0.0)
    bears = ("moment_d_nmm", "shear_d_n", "bearing_d_n", "limit_mm", "pull_n", "lateral_n")
    return row | dict.fromkeys(bears, NEVER) | {"share": 1.0}


def _row(catalog: Catalog, room: Room, beam: Beam, spreader: Spreader) -> dict[str, float]:
    factors, joist = catalog.materials.factors, joist_of(beam, spreader)
    timber, own = beam_class(catalog, joist), beam_class(catalog, beam)
    b, h, span, moment, _, shear, crush, _, live, _, end, _, sag = beam_row(
        factors, joist, timber, held=spreader.held
    )
    a = beam.x_mm - (room.length_mm - span) / 2.0
    a = min(max(a, 1.0), span - 1.0)
    c = span - a
    spring = 3.0 * timber.e0_mean_mpa * float(second_moment_mm4(b, h)) * span / (a * c) ** 2
    ei = own.e0_mean_mpa * float(second_moment_mm4(beam.width_mm, beam.depth_mm))
    spread = spreading(tuple(float(y) for y in spreader.joists_mm), spring, ei)
    contact = factors["joist_bearing_mm"]
    area = (contact + min(factors["bearing_extra_mm"], contact)) * b
    weight = math.prod((beam.width_mm, beam.depth_mm)) * weight_n(own.rho_mean_kg_m3) / 1e9
    return {
        "hangs": 1.0,
        "share": spread.share,
        "arm_mm": spread.arm_mm,
        "soft_mm_per_n": spread.soft_mm_per_n,
        "own_n": weight * spreader.apart_mm,
        "reach_mm": a * c / span,
        "end": max(a, c) / span,
        "moment_live_nmm": live,
        "shear_live_n": end,
        "sag_mm": sag,
        "moment_d_nmm": moment,
        "shear_d_n": shear * b * h / 1.5,
        "bearing_d_n": crush * area,
        "limit_mm": span / factors["deflection_beam_ratio"],
        "grade_known": float(spreader.grade is not None),
        "load_known": float(spreader.load_n_per_m is not None),
        "place_known": float(spreader.found),
        **_screws(factors, beam, spreader, (own, timber)),
    }


def _screws(
    factors: Factors, beam: Beam, spreader: Spreader, classes: tuple[TimberClass, TimberClass]
) -> dict[str, float]:
    """Return what the coach screw in one joist holds, along and across its axis, and its room.

    `classes` are those of the timber, which the washer of 3 d bears on, and of the joists.
    """
    d, (own, timber) = _diameter_mm(factors, spreader), classes
    inside = spreader.screw_mm[1] - beam.depth_mm - float(spreader.lining_mm)
    lef = _thread_mm(factors, spreader, inside)
    room = max(
        factors["joist_screw_width_d"] * d / spreader.joist_mm[0],
        factors["axial_screw_width_d"] * d / beam.width_mm,
        factors["screw_least_thread_d"] * d / max(lef, 1e-3),
    )
    if lef <= 0.0:
        return {"pull_n": 0.0, "lateral_n": 0.0, "room_use": NO_ROOM}
    root, tensile = factors["coach_screw_root"] * d, factors["frame_bolt_tensile_mpa"]
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    steel = float(steel_n(root, tensile)) / factors["gamma_m2_steel"]
    thread = thread_n(factors, d, lef, timber.rho_k_kg_m3)
    return {
        "pull_n": min(strength * min(thread, _washer_n(factors, own, d)), steel),
        "lateral_n": strength * _lateral_n(factors, beam, spreader, classes, lef),
        "room_use": room,
    }


def _diameter_mm(factors: Factors, spreader: Spreader) -> float:
    whole = spreader.screw_mm[0]
    return nds.lag_size_mm(whole) if factors.code == "NDS" else float(whole)


def _thread_mm(factors: Factors, spreader: Spreader, inside_mm: float) -> float:
    """Return the length of thread in a joist that the screw reaches so far into [mm].

    A coach screw's thread is 0.6 of its length (common practice), a lag screw's T; of that its
    tip, E of Table L2, holds nothing by NDS 12.2.1.
    """
    length = spreader.screw_mm[1]
    if factors.code == "NDS":
        tip = factors["lag_tip_d_nds"] * _diameter_mm(factors, spreader)
        return min(inside_mm, nds.lag_thread_mm(length)) - tip
    return min(inside_mm, factors["coach_screw_thread"] * length)


def _washer_n(factors: Factors, own: TimberClass, diameter_mm: float) -> float:
    """Return what a washer of 3 d bears on the timber [N]: 3 fc,90,k, 8.5.2(2), or NDS 3.10.4."""
    outer, hole = 3.0 * diameter_mm, diameter_mm + 1.0
    if factors.code == "NDS":
        return nds.washer_n(own.fc90_k_mpa, outer, hole)
    area = math.pi / 4.0 * (outer**2 - hole**2)
    return factors["washer_bearing_factor"] * own.fc90_k_mpa * area


def _lateral_n(
    factors: Factors,
    beam: Beam,
    spreader: Spreader,
    classes: tuple[TimberClass, TimberClass],
    lef: float,
) -> float:
    """Return Fv,Rk or Z of the screw [N]; a lining between doesn't bear.

    Fv,Rk is square to the grain of both; by the NDS the pull is along the joist's.
    """
    timber, thick, gap = classes[1], float(beam.depth_mm), float(spreader.lining_mm)
    if factors.code == "NDS":
        lag = _diameter_mm(factors, spreader), lef
        if gap:
            return lag_across_gap_n(factors, gap, lag, timber)
        return lag_under_n(factors, thick, lag, classes)
    d = 1.1 * factors["coach_screw_root"] * spreader.screw_mm[0]
    along = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=d > 6.0))
    square = along / (1.35 + 0.015 * d) if d > 6.0 else along
    yields = yield_moment_nmm(d, factors["frame_bolt_tensile_mpa"])
    if gap:
        return float(gapped_plate_n(square, lef, d, yields, gap))
    return float(johansen_n(ShearJoint(thick, lef, square, square, d, yields)))
