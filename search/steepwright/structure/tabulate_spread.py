"""What joists along the room bear, and the screws that a timber across it hangs from them by."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import numpy as np

from steepwright.catalog.types import Catalog, Factors, TimberClass
from steepwright.room.types import Beam, Room, Spreader
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
    b, h, span, moment, _, shear, crush, _, live, _, end, _, sag = beam_row(factors, joist, timber)
    a = beam.x_mm - (room.length_mm - span) / 2.0
    a = min(max(a, 1.0), span - 1.0)
    c = span - a
    spring = 3.0 * timber.e0_mean_mpa * float(second_moment_mm4(b, h)) * span / (a * c) ** 2
    ei = own.e0_mean_mpa * float(second_moment_mm4(beam.width_mm, beam.depth_mm))
    spread = spreading(tuple(float(y) for y in spreader.joists_mm), spring, ei)
    contact = factors["beam_bearing_mm"]
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
        **_screws(factors, beam, spreader, timber),
    }


def _screws(
    factors: Factors, beam: Beam, spreader: Spreader, timber: TimberClass
) -> dict[str, float]:
    """Return what the coach screw in one joist holds, along and across its axis, and its room.

    Its thread is 0.6 of its length, its root 0.7 of its diameter (common practice); a washer
    under its head, of 3 d, bears on the timber with 3 fc,90,k, 8.5.2(2).
    """
    d = float(spreader.screw_mm[0])
    inside = spreader.screw_mm[1] - beam.depth_mm - float(spreader.lining_mm)
    lef = min(inside, factors["coach_screw_thread"] * spreader.screw_mm[1])
    room = max(
        factors["axial_screw_width_d"] * d / spreader.joist_mm[0],
        factors["axial_screw_width_d"] * d / beam.width_mm,
        factors["screw_least_thread_d"] * d / max(lef, 1e-3),
    )
    if lef <= 0.0:
        return {"pull_n": 0.0, "lateral_n": 0.0, "room_use": NO_ROOM}
    root, tensile = factors["coach_screw_root"] * d, factors["frame_bolt_tensile_mpa"]
    washer = math.pi / 4.0 * ((3.0 * d) ** 2 - (d + 1.0) ** 2)
    head = factors["washer_bearing_factor"] * timber.fc90_k_mpa * washer
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    steel = float(steel_n(root, tensile)) / factors["gamma_m2_steel"]
    thread = thread_n(factors, d, lef, timber.rho_k_kg_m3)
    return {
        "pull_n": min(strength * min(thread, head), steel),
        "lateral_n": strength * _lateral_n(beam, spreader, timber, lef, root, tensile),
        "room_use": room,
    }


def _lateral_n(
    beam: Beam, spreader: Spreader, timber: TimberClass, lef: float, root: float, tensile: float
) -> float:
    """Return Fv,Rk of the screw [N], square to the grain; a lining between doesn't bear."""
    d = 1.1 * root
    along = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=d > 6.0))
    square = along / (1.35 + 0.015 * d) if d > 6.0 else along
    yields = yield_moment_nmm(d, tensile)
    if spreader.lining_mm:
        return float(gapped_plate_n(square, lef, d, yields, float(spreader.lining_mm)))
    thick = float(beam.depth_mm)
    return float(johansen_n(ShearJoint(thick, lef, square, square, d, yields)))
