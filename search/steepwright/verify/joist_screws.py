"""One coach screw through a timber into a joist above it, by EN 1995-1-1 section 8 or the NDS."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from steepwright.verify import nds
from steepwright.verify.fixings import gapped_n, single_shear_n, withdrawal_n
from steepwright.verify.strength import NOTHING_BEARS

Document = dict[str, Any]

WASHER_D = 3.0
"""A washer's diameter over that of its screw, EN 1995-1-1 10.4.3."""


class JoistScrew(NamedTuple):
    """Design resistances along the axis and across it [N]; the room it needs over what there is."""

    along_n: float
    across_n: float
    room: float


def joist_screw(
    f: Document, code: str, beam: Document, classes: tuple[Document, Document]
) -> JoistScrew:
    """Return what a screw holds; `classes` are those of the timber and of the joists.

    A lining between the two bears nothing, and takes up a part of the screw.
    """
    under, (own, joist) = beam["spreader"], classes
    d, long = (float(mm) for mm in under["screw_mm"])
    inside = long - beam["depth_mm"] - under["lining_mm"]
    if code == "NDS":
        d = nds.lag_mm(d)
        deep = min(inside, nds.lag_thread_mm(long)) - f["lag_tip_d_nds"] * d
    else:
        deep = min(inside, f["coach_screw_thread"] * long)
    if deep <= 0:
        return JoistScrew(0.0, 0.0, NOTHING_BEARS)
    lasts = f["kmod_solid_short"] / f["gamma_m_connection"]
    ring = math.pi / 4 * ((WASHER_D * d) ** 2 - (d + 1) ** 2)
    screw = {
        "diameter_mm": d,
        "root_mm": f["coach_screw_root"] * d,
        "tensile_mpa": f["frame_bolt_tensile_mpa"],
    }
    parts, gap = (beam["depth_mm"], deep), under["lining_mm"]
    if code == "NDS":
        thread = nds.thread_n_mm(f, joist["rho_k_kg_m3"] / 1000, d) * deep
        washer = nds.washer_mpa(own["fc90_k_mpa"], WASHER_D * d) * ring
        across = nds.lag_under_n(f, screw, parts, gap, classes)
    else:
        thread = withdrawal_n(f, d, deep, joist["rho_k_kg_m3"])
        washer = f["washer_bearing_factor"] * own["fc90_k_mpa"] * ring  # 8.5.2 (2)
        across = _across_n(screw, parts, gap, joist["rho_k_kg_m3"])
    steel = screw["tensile_mpa"] * math.pi * screw["root_mm"] ** 2 / 4  # (8.40c)
    room = max(
        f["joist_screw_width_d"] * d / under["joist_mm"][0],
        f["axial_screw_width_d"] * d / beam["width_mm"],
        f["screw_least_thread_d"] * d / deep,
    )
    along = min(lasts * min(thread, washer), steel / f["gamma_m2_steel"])
    return JoistScrew(along, lasts * across, room)


def _across_n(screw: Document, parts: tuple[float, float], gap_mm: float, rho: float) -> float:
    """Return Fv,Rk square to the grain of both parts, no rope effect (8.6); (8.9) across a gap."""
    d = 1.1 * screw["root_mm"]
    bears = square_mpa(d, rho)
    if not gap_mm:
        timber, joist = parts
        return single_shear_n(((timber, bears), (joist, bears)), d, screw["tensile_mpa"])
    yields, per_mm = 0.3 * screw["tensile_mpa"] * d**2.6, bears * d
    plain = min(0.4 * per_mm * parts[1], 1.15 * math.sqrt(2 * yields * per_mm))
    return float(min(plain, gapped_n(per_mm, yields, parts[1], gap_mm)))


def square_mpa(d: float, rho: float) -> float:
    """Return fh,k square to the grain (8.15); predrilled beyond 6 mm (8.16), (8.31)."""
    return float(0.082 * rho * ((1 - 0.01 * d) / (1.35 + 0.015 * d) if d > 6 else d**-0.3))
