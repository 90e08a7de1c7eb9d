"""What ties and their bolts bear, worked out anew: EN 1995-1-1 8.2.3, 8.5; the maker's rating.

A tie half-way up its stud takes as much as a firm support there: all of the climbers' load, and
five eighths of the stud's weight. By the NDS nothing is tied.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.mounts import beam_figure
from steepwright.verify.strength import Loads, over, reaction_share

FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]

RATED, LONG = "tie working load", "tie length"
AT_STUD, AT_BEAM = "tie bolt at the stud", "tie bolt at the beam"
OF_TIES = RATED, LONG, AT_STUD, AT_BEAM
"""The checks' names in a design."""


class TieBolts:
    """The bolts of ties through a room's studs and through the beam that they run to."""

    def __init__(self, given: Document, beam: Document) -> None:
        f = self.factors = given["factors"]
        lasts = f["kmod_solid_short"] / f["gamma_m_connection"]
        classes = given["timber_classes"]
        self.at_stud_n = np.array(
            [
                lasts * _across_n(f, s["width_mm"], classes[s["strength_class"]]["rho_k_kg_m3"])
                for s in given["sections"]
            ]
        )
        d = f["lip_bolt_mm"]
        shear = lasts * _across_n(f, beam["width_mm"], beam_figure(given, beam, "rho_k_kg_m3"))
        # 8.5.2 (2): a washer of 3 d, its hole 1 mm wider than the bolt.
        washer = math.pi / 4 * ((3 * d) ** 2 - (d + 1) ** 2)
        washer *= f["washer_bearing_factor"] * beam_figure(given, beam, "fc90_k_mpa")
        # ISO 898-1: pi/4 (d - 0.9382 p)^2 with a pitch of 0.15 d.
        core = math.pi / 4 * (d - 0.9382 * 0.15 * d) ** 2
        steel = f["bolt_tension_factor"] * f["lip_bolt_tensile_mpa"] * core
        pull = min(lasts * washer, steel / f["gamma_m2_steel"])
        self.per_n = math.hypot(1 / pull, 1 / shear)

    def uses(
        self, tie: Document, loads: Loads, cosine: FloatArray, length_mm: FloatArray
    ) -> dict[str, FloatArray]:
        """Return the uses of a tie by the checks' names, where it lies so."""
        f, walls = self.factors, loads.walls
        climb = loads.push_n * reaction_share(loads) / cosine
        weight = 5 / 8 * loads.line * loads.lean * walls.board_mm / cosine
        design = f["gamma_q"] * climb + f["gamma_g"] * weight
        return {
            RATED: over(climb + weight, np.full(len(climb), float(tie["rated_n"]))),
            LONG: length_mm / tie["length_mm"],
            AT_STUD: design / self.at_stud_n[walls.section],
            AT_BEAM: design * self.per_n,
        }


def _across_n(f: Document, timber_mm: float, rho: float) -> float:
    """Return Fv,Rk of one bolt through a thin plate, square to the grain (8.9), (8.31)."""
    d = f["lip_bolt_mm"]
    per_mm = 0.082 * (1 - 0.01 * d) * rho / (1.35 + 0.015 * d) * d
    yields = 0.3 * f["lip_bolt_tensile_mpa"] * d**2.6
    return float(min(0.4 * per_mm * timber_mm, 1.15 * math.sqrt(2 * yields * per_mm)))
