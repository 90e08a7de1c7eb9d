"""What a timber across the room hangs from: one joist of many, and one coach screw in it.

EN 1995-1-1 6.1.5 to 6.1.7, 8.2, 8.5.2, 8.7.2 (A1), or the NDS, chapters 3 and 12.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.beams import beam_figures, contact_mm
from steepwright.verify.hooked import Hooked
from steepwright.verify.joist_screws import JoistScrew, joist_screw
from steepwright.verify.mounts import Hanging, board_weight_n
from steepwright.verify.springs import spread_over
from steepwright.verify.strength import Loads, over
from steepwright.verify.timbers import timber_of, weight_n_mm3

FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]

BENT, SHEARED, BORNE = "joist bending", "joist shear", "joist bearing"
SAGGED, SCREW, ROOM = "joists' deflection", "spreader's screw", "spreader's screws' room"
OF_JOISTS = BENT, SHEARED, BORNE, SAGGED, SCREW, ROOM
"""The checks' names in a design."""


class Joists:
    """The joists over one timber, alike; the load is where it does the most to each check."""

    names = OF_JOISTS

    def __init__(self, given: Document, room: Document, beam: Document) -> None:
        f = self.factors = given["factors"]
        under = beam["spreader"]
        (b, h), span = under["joist_mm"], under["span_mm"]
        joist: Document = {"width_mm": b, "depth_mm": h, "span_mm": span, "grade": under["grade"]}
        joist["existing_load_n_per_m"] = under["load_n_per_m"]
        self.joist = beam_figures(given, room["code"], joist, held=under["held"])
        timber, own = timber_of(given, joist), timber_of(given, beam)
        # A joist spans about the middle of the room's length.
        near = min(max(beam["x_mm"] - (room["length_mm"] - span) / 2, 1.0), span - 1.0)
        far = span - near
        spring = timber["e0_mean_mpa"] * b * h**3 / 4 * span / (near * far) ** 2
        ei = own["e0_mean_mpa"] * beam["width_mm"] * beam["depth_mm"] ** 3 / 12
        self.spread = spread_over(under["joists_mm"], spring, ei)
        self.arm_mm, self.end = near * far / span, max(near, far) / span
        section = beam["width_mm"] * beam["depth_mm"]
        self.own_n = section * weight_n_mm3(own) * under["apart_mm"]
        self.screw: JoistScrew = joist_screw(f, room["code"], beam, (own, timber))

    def under(self, hooks: Hooked) -> Hooked:
        """Return what mounts do to the timber: the worst, wherever they are.

        One joist may take all that is beside it; the timber's own sag is part of the joists'.
        """
        outer, one = hooks.outer, np.ones(len(hooks.outer))
        arm = self.spread.arm_mm
        lost = hooks.lost, hooks.lost_weight, arm * hooks.lost
        return Hooked(arm * outer, arm * one, outer, one, outer, one, outer, *lost)

    def uses(self, loads: Loads, hooks: Hooked, hung: Hanging) -> dict[str, FloatArray]:
        """Return the uses by the checks' names, of one joist and its screw."""
        f, k, spread = self.factors, self.joist, self.spread
        climb, board = loads.all_n * hung.lever, board_weight_n(loads, hung.width_mm) / 2
        climb = climb * hooks.outer
        board = board * hung.lever
        one = f["gamma_q"] * climb * spread.share
        one = one + f["gamma_g"] * (board * spread.share + self.own_n)
        end = k["end"] + one * self.end
        level = f["gamma_q"] * f["hold_pull_factor"] * climb * spread.share
        static = climb / loads.known.climber["dynamic_factor"]
        sag = k["sag"] + (static + board * (1 + f["kdef_solid"])) * spread.soft_mm_n
        pulled = over(one, np.full(len(one), self.screw.along_n))
        return {
            BENT: (k["whole"] + one * self.arm_mm) / k["moment"],
            SHEARED: end / (k["b"] * k["h"] / 1.5 * k["fv_d"]),
            BORNE: end / (k["crush"] * contact_mm(f, "joist_bearing_mm")),
            SAGGED: sag * f["deflection_beam_ratio"] / k["span"],
            SCREW: np.hypot(pulled, over(level, np.full(len(one), self.screw.across_n))),
            ROOM: np.full(len(hooks.end_climb), self.screw.room),
        }
