"""What a timber beam bears of the wall beside its own load: EN 1995-1-1 section 6, or the NDS.

The span is free: nothing keeps the beam from tilting. A slab has no such checks.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify import nds
from steepwright.verify.hooked import Hooked
from steepwright.verify.mounts import Hanging, board_weight_n, hung_weight_n
from steepwright.verify.strength import Loads, over
from steepwright.verify.timbers import (
    deep_factor,
    splits_n,
    tilting,
    timber_of,
    twisting_mm3,
    weight_n_mm3,
)

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]
Uses = dict[str, FloatArray]

BENT, LASTING, LOST = (
    "ceiling beam bending",
    "ceiling beam, permanent loads",
    "ceiling beam, one mount lost",
)
BEFORE, SHEARED, TWISTED = (
    "ceiling beam without the wall",
    "ceiling beam shear",
    "ceiling beam torsion",
)
BOTH, BORNE, SAGGED, SPLIT = (
    "ceiling beam shear and torsion",
    "ceiling beam bearing",
    "ceiling beam deflection",
    "ceiling beam splitting",
)
OF_BEAMS = BENT, LASTING, LOST, BEFORE, SHEARED, TWISTED, BOTH, BORNE, SAGGED, SPLIT
"""The checks' names in a design."""

_FIGURES = (
    "b", "h", "span", "moment", "torque", "fv_d", "crush", "soft", "whole", "always", "end", "sag"
)  # fmt: skip


def is_timber(beam: Document) -> bool:
    """Tell whether a beam is judged by these checks."""
    return beam.get("kind") != "slab"


class Beams:
    """The beams of one room; what is no timber of these has figures that can't fail."""

    def __init__(self, given: Document, room: Document) -> None:
        self.factors: Document = given["factors"]
        rows = [beam_figures(given, room["code"], beam) for beam in room["beams"]]
        self.known = {name: np.array([row[name] for row in rows]) for name in _FIGURES}
        low = [[below_mm(mount, beam) for mount in given["mounts"]] for beam in room["beams"]]
        split = [
            [_splits(given["factors"], mount, beam) for mount in given["mounts"]]
            for beam in room["beams"]
        ]
        self.below_mm, self.split_n = np.array(low), np.array(split)

    def uses(self, loads: Loads, hooks: Hooked, hung: Hanging) -> Uses:
        """Return the uses by the checks' names."""
        f, k = self.factors, {name: row[hung.beam] for name, row in self.known.items()}
        lever, count, width = hung.lever, hung.mounts, hung.width_mm
        where = hung.beam, hung.mount
        climb, board = loads.all_n * lever, board_weight_n(loads, width) / 2 * lever
        level = f["hold_pull_factor"] * climb
        up = (climb + level * k["h"] / k["b"]) * hooks.arm_climb
        bent = f["gamma_q"] * up + f["gamma_g"] * board * hooks.arm_weight
        lasting = k["always"] + f["gamma_g"] * board * hooks.arm_weight
        lost = climb * (1 + f["hold_pull_factor"] * k["h"] / k["b"]) * hooks.arm_lost
        lost = f["gamma_accidental"] * (lost + board * hooks.lost_weight * hooks.arm_climb)
        sudden = f["kmod_solid_instantaneous"] / f["gamma_m_accidental"]
        sudden *= f["gamma_m_solid"] / f["kmod_solid_short"]
        always = f["kmod_solid_permanent"] / f["kmod_solid_short"]
        held = f["gamma_q"] * climb * hooks.end_climb + f["gamma_g"] * board * hooks.end_weight
        held = k["end"] + held
        aside = f["gamma_q"] * level * hooks.end_climb
        twist = aside * self.below_mm[where] / k["torque"]
        area = k["b"] * k["h"] / 1.5 * k["fv_d"]
        shear = np.hypot(held, aside) / area
        static = loads.all_n / loads.known.climber["dynamic_factor"] * lever
        lies = board * (1 + f["kdef_solid"]) * hooks.sag_weight
        sag = k["sag"] + (static * hooks.sag_climb + lies) * k["soft"]
        pull = f["gamma_q"] * climb * hooks.outer
        pull += f["gamma_g"] * lever * hung_weight_n(loads, count, width)
        return {
            BENT: (k["whole"] + bent) / k["moment"],
            LASTING: lasting / (k["moment"] * always),
            LOST: (k["whole"] + lost) / (k["moment"] * sudden),
            BEFORE: k["whole"] / k["moment"],
            SHEARED: held / area,
            TWISTED: twist,
            BOTH: (twist + np.hypot(twist, 2 * shear)) / 2,
            BORNE: held / (k["crush"] * contact_mm(f, "beam_bearing_mm")),
            SAGGED: sag * f["deflection_beam_ratio"] / k["span"],
            SPLIT: over(pull, self.split_n[where]),
        }


def beam_figures(
    given: Document, code: str, beam: Document, *, held: bool = False
) -> dict[str, float]:
    """Return a beam's design resistances and what its existing load does to it [N, mm].

    One that is `held` doesn't tilt: its upper edge is kept in place all along.
    """
    if not is_timber(beam):
        never = dict.fromkeys(("moment", "torque", "fv_d", "crush"), np.inf)
        nothing = dict.fromkeys(("soft", "whole", "always", "end", "sag"), 0.0)
        return {"b": 1.0, "h": 1.0, "span": 1.0} | never | nothing
    f, timber = given["factors"], timber_of(given, beam)
    b, h, span = (float(beam[name]) for name in ("width_mm", "depth_mm", "span_mm"))
    lasts = f["kmod_solid_short"] / f["gamma_m_solid"]
    fm = lasts * timber["fm_k_mpa"]
    if code == "NDS":
        fm = nds.beam_mpa(f, timber, fm, (b, h, 0.0 if held else span))
    else:
        tilts = 1.0 if held else tilting(timber, b, h, span)
        fm *= deep_factor(h) * tilts
    shear = lasts * timber["fv_k_mpa"] * f["kcr_solid"]
    shape = min(1 + f["torsion_shape_per_hb"] * max(b, h) / min(b, h), f["torsion_shape_most"])
    told = beam["existing_load_n_per_m"]
    load = (f["beam_unknown_load_n_per_m"] if told is None else told) / 1000
    dead = f["beam_permanent_share"] * load + b * h * weight_n_mm3(timber)
    live = (1 - f["beam_permanent_share"]) * load
    always, whole = f["gamma_g"] * dead, f["gamma_g"] * dead + f["gamma_q"] * live
    ei, kdef = timber["e0_mean_mpa"] * b * h**3 / 12, f["kdef_solid"]
    creeps = dead * (1 + kdef) + live * (1 + f["psi2_domestic"] * kdef)
    return {
        "b": b,
        "h": h,
        "span": span,
        "moment": fm * b * h**2 / 6,
        "torque": shape * shear * twisting_mm3(b, h),
        "fv_d": shear,
        "crush": lasts * timber["fc90_k_mpa"] * f["kc90_default"] * b,
        "soft": span**3 / (48 * ei),
        "whole": whole * span**2 / 8,
        "always": always * span**2 / 8,
        "end": whole * span / 2,
        "sag": 5 * creeps * span**4 / (384 * ei),
    }


def contact_mm(f: Document, bearing: str) -> float:
    """Return the length that a beam's end bears on [mm], 6.1.5(1); `bearing` names its support."""
    return float(f[bearing] + min(f["bearing_extra_mm"], f[bearing]))


def below_mm(mount: Document, beam: Document) -> float:
    """Return how far a pivot is below the middle of its beam [mm], let down to the low end."""
    if not is_timber(beam):
        return 0.0
    ends = beam["underside_mm"]
    down = beam["depth_mm"] / 2 + beam.get("lining_mm", 0) + mount["drop_mm"]
    return float(down + max(ends) - min(ends))


def _splits(f: Document, mount: Document, beam: Document) -> float:
    """Return what a beam bears square to its grain where a mount's screws end (8.4) [N]."""
    if not is_timber(beam):
        return np.inf
    b, h = float(beam["width_mm"]), float(beam["depth_mm"])
    deep = min(mount["thread_mm"] - beam.get("lining_mm", 0), f["splitting_deepest_part"] * h)
    if deep <= 0:
        return 0.0
    lasts = f["kmod_solid_short"] / f["gamma_m_solid"]
    return float(splits_n(b, h, deep) * lasts / f["kept_divisor"])
