"""What ties to a second beam may carry, and their bolts in studs and beam."""

from __future__ import annotations

import numpy as np

from steepwright.catalog.families import TimberSection, ties_on_offer
from steepwright.catalog.types import Catalog, Factors, TimberClass
from steepwright.room.types import Room
from steepwright.structure.tables import TieBacks, TieProducts, TieStuds, as_array
from steepwright.structure.tabulate_beams import NEVER, beam_class
from steepwright.structure.tabulate_lip import bolt_core_mm2, bolt_lateral_n, bolt_washer_n
from steepwright.structure.timber import splitting_n


def tie_table(
    catalog: Catalog, room: Room, sections: tuple[TimberSection, ...], classes: list[TimberClass]
) -> TieBacks:
    """Return the ties on offer and the resistances of their bolts; the first tie is none."""
    factors = catalog.materials.factors
    offers = ties_on_offer(catalog) if room.tie_beam is not None else ()
    products = TieProducts(
        as_array([0.0, *(tie.stiffness_n or 0.0 for tie in offers)]),
        as_array([NEVER, *(tie.rated_n or 0.0 for tie in offers)]),
        as_array([NEVER, *(float(tie.length_mm) for tie in offers)]),
    )
    rows = [_stud(factors, s, timber) for s, timber in zip(sections, classes, strict=True)]
    table = np.array(rows, dtype=np.float64).reshape(len(sections), 3)
    studs = TieStuds(*(np.ascontiguousarray(column) for column in table.T))
    if room.tie_beam is None:
        return TieBacks(products, studs, -1, NEVER, NEVER, NEVER)
    return TieBacks(products, studs, room.tie_beam, *_at_beam(catalog, room, room.tie_beam))


def _stud(factors: Factors, section: TimberSection, timber: TimberClass) -> tuple[float, ...]:
    """Return shear of a bolt across a stud, the stud's splitting [N], and the room it needs [-]."""
    b, h, d = float(section.width_mm), float(section.depth_mm), factors["lip_bolt_mm"]
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    solid = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    least = (factors["bolt_loaded_edge_d"] + factors["bolt_unloaded_edge_d"]) * d
    return (
        strength * bolt_lateral_n(factors, b, timber),
        solid * float(splitting_n(b, h, h / 2.0)),
        least / h,
    )


def _at_beam(catalog: Catalog, room: Room, index: int) -> tuple[float, float, float]:
    """Return an eye bolt's pull and shear through a beam, and the beam's splitting [N]."""
    factors, beam = catalog.materials.factors, room.beams[index]
    timber = beam_class(catalog, beam)
    b, h = float(beam.width_mm), float(beam.depth_mm)
    strength = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    solid = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    core = bolt_core_mm2(factors["lip_bolt_mm"])
    steel = factors["bolt_tension_factor"] * factors["lip_bolt_tensile_mpa"] * core
    return (
        min(strength * bolt_washer_n(factors, timber), steel / factors["gamma_m2_steel"]),
        strength * bolt_lateral_n(factors, b, timber),
        solid * float(splitting_n(b, h, h / 2.0)),
    )
