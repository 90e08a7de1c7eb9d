"""What the ledgers on both side walls hold up that a beam of one's own rests on."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import numpy as np

from steepwright.catalog.families import frame_screws
from steepwright.catalog.types import Catalog, Screw, TimberClass
from steepwright.room.types import Beam, Ledger, Room
from steepwright.structure.screws import (
    ShearJoint,
    effective_number,
    embedment_timber_mpa,
    head_n,
    johansen_n,
    steel_n,
    yield_moment_nmm,
)
from steepwright.structure.tables_rigs import Ledgers
from steepwright.structure.tabulate_beams import NEVER, NO_ROOM, beam_class, least_class
from steepwright.structure.tabulate_joints import thread_n
from steepwright.structure.timber import kh_solid, require_positive, section_modulus_mm3


def ledger_table(catalog: Catalog, room: Room) -> Ledgers:
    """Return one ledger of every beam that lies on two; figures that can't fail for the others."""
    rows = [
        _none() if beam.ledger is None else _row(catalog, beam, beam.ledger) for beam in room.beams
    ]
    names = [field.name for field in fields(Ledgers)]
    numbers = np.array([[row[name] for name in names] for row in rows], dtype=np.float64)
    numbers = numbers.reshape(len(rows), len(names))
    columns: list[Any] = [np.ascontiguousarray(column) for column in numbers.T]
    return Ledgers(columns[0] > 0.5, columns[1] > 0.5, *columns[2:])


def _none() -> dict[str, float]:
    row = dict.fromkeys((field.name for field in fields(Ledgers)), NEVER)
    lengths = dict.fromkeys(("thick_mm", "deep_mm", "apart_mm", "row_mm"), 1.0)
    return row | lengths | {"lies": 0.0, "masonry": 0.0, "room_use": 0.0}


def _row(catalog: Catalog, beam: Beam, ledger: Ledger) -> dict[str, float]:
    factors, timber = catalog.materials.factors, beam_class(catalog, beam)
    thick, deep = (float(side) for side in ledger.section_mm)
    row = (ledger.fixings - 1) * float(ledger.apart_mm)
    require_positive(ledger_mm=min(thick, deep), ledger_row_mm=row)
    design = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    bend = design * timber.fm_k_mpa * float(kh_solid(deep))
    masonry = ledger.wall == "masonry"
    return {
        "lies": 1.0,
        "masonry": float(masonry),
        "thick_mm": thick,
        "deep_mm": deep,
        "apart_mm": float(ledger.apart_mm),
        "row_mm": row,
        "rated_n": math.nan if ledger.rated_n is None else ledger.rated_n,
        "moment_nmm": bend * float(section_modulus_mm3(thick, deep)),
        "shear_n": design * timber.fv_k_mpa * factors["kcr_solid"] * thick * deep / 1.5,
        "bearing_n": design * timber.fc90_k_mpa * factors["kc90_default"] * thick * beam.width_mm,
        **(_anchored() if masonry else _screwed(catalog, ledger, timber)),
    }


def _anchored() -> dict[str, float]:
    return {"lateral_n": NEVER, "pull_n": NEVER, "room_use": 0.0}


def _screwed(catalog: Catalog, ledger: Ledger, timber: TimberClass) -> dict[str, float]:
    """Return what the screws through the ledger hold in one of a wall's studs, of the least class.

    They are the yard's frame screws for timber of this thickness; square to the grain of both, no
    rope effect; 5 d apart in a row along the stud's grain (8.34), together along their axes (8.41).
    """
    factors, stud = catalog.materials.factors, least_class(catalog)
    screw = ledger_screw(catalog, ledger)
    thick, deep = (float(side) for side in ledger.section_mm)
    lef = 0.0 if screw is None else min(screw.thread_mm, screw.length_mm - thick)
    if screw is None or lef <= 0.0:
        return {"lateral_n": 0.0, "pull_n": 0.0, "room_use": NO_ROOM}
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    d, big = 1.1 * screw.root_mm, screw.diameter_mm
    joint = ShearJoint(
        t1_mm=thick,
        t2_mm=screw.length_mm - thick,
        fh1_mpa=_square_mpa(d, timber.rho_k_kg_m3),
        fh2_mpa=_square_mpa(d, stud.rho_k_kg_m3),
        diameter_mm=d,
        yield_nmm=yield_moment_nmm(d, screw.tensile_mpa),
    )
    steel = float(steel_n(screw.root_mm, screw.tensile_mpa)) / factors["gamma_m2_steel"]
    ratio = timber.rho_k_kg_m3 / factors["head_pull_density_kg_m3"]
    head = float(head_n(screw.head_mm, factors["head_pull_thick_mpa"], ratio))
    held = min(thread_n(factors, big, lef, stud.rho_k_kg_m3), head)
    loaded, free = factors["bolt_loaded_edge_d"] * big, factors["bolt_unloaded_edge_d"] * big
    least, count = factors["screw_least_thread_d"] * big, ledger.screws
    together = float(effective_number(count))
    row = loaded + free + (count - 1) * 5.0 * big
    return {
        "lateral_n": float(strength * johansen_n(joint)) * min(count, together * (5 / 13) ** 0.25),
        "pull_n": min(strength * held * together, steel * count),
        "room_use": max(row / deep, 2.0 * free / ledger.stud_mm, least / lef),
    }


def ledger_screw(catalog: Catalog, ledger: Ledger) -> Screw | None:
    """Return the yard's screw that a ledger is fixed to studs with, None when it has none."""
    packs = frame_screws(catalog, min(ledger.section_mm))
    return packs[0] if packs else None


def _square_mpa(d_mm: float, rho_k: float) -> float:
    along = float(embedment_timber_mpa(d_mm, rho_k, predrilled=d_mm > 6.0))
    return along / (1.35 + 0.015 * d_mm) if d_mm > 6.0 else along
