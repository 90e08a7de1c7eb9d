"""The ledger on a wall that one end of a beam rests on: EN 1995-1-1, or the anchors' approval.

The two fixings nearest to the beam carry its end; the outermost keep the ledger from turning in
the wall's plane. The end stands half a thickness off the wall.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.beams import beam_figures, below_mm
from steepwright.verify.fixings import single_shear_n, withdrawal_n
from steepwright.verify.hooked import Hooked
from steepwright.verify.joist_screws import square_mpa
from steepwright.verify.mounts import Hanging, beam_figure, board_weight_n
from steepwright.verify.strength import NOTHING_BEARS, Loads, over
from steepwright.verify.timbers import deep_factor, timber_of

FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]

ANCHOR, SCREWS, ROOM = "ledger anchor working load", "ledger screws", "ledger screws' room"
BENT, SHEARED, BORNE = "ledger bending", "ledger shear", "ledger bearing"
OF_LEDGERS = ANCHOR, SCREWS, ROOM, BENT, SHEARED, BORNE
"""The checks' names in a design."""

ROW_D = 5.0
"""Distance of screws in a row along a stud over their diameter."""


class Ledger:
    """One of the two ledgers below one beam."""

    names = OF_LEDGERS

    def __init__(self, given: Document, room: Document, beam: Document) -> None:
        f = self.factors = given["factors"]
        ledger, timber = beam["ledger"], timber_of(given, beam)
        self.thick, self.deep = (float(side) for side in ledger["section_mm"])
        self.apart: float = ledger["apart_mm"]
        self.row = (ledger["fixings"] - 1) * self.apart
        self.anchored: bool = ledger["wall"] == "masonry"
        self.rated_n: float | None = ledger["rated_n"]
        lasts = f["kmod_solid_short"] / f["gamma_m_solid"]
        bend = lasts * timber["fm_k_mpa"] * deep_factor(self.deep)
        self.moment = bend * self.thick * self.deep**2 / 6
        shear = lasts * timber["fv_k_mpa"] * f["kcr_solid"]
        self.shear = shear * self.thick * self.deep / 1.5
        press = lasts * timber["fc90_k_mpa"] * f["kc90_default"]
        self.press = press * self.thick * beam["width_mm"]
        self.end_n = beam_figures(given, room["code"], beam)["end"]
        self.below = np.array([below_mm(mount, beam) for mount in given["mounts"]])
        self.across_n = self.along_n = np.inf
        self.room = 0.0
        if not self.anchored:
            self._screwed(given, ledger, timber["rho_k_kg_m3"])

    def _screwed(self, given: Document, ledger: Document, rho: float) -> None:
        """Work out what the screws in one stud of the wall hold, and the room that they need.

        In a row along the stud's grain (8.34), together along their axes (8.41); the stud is of
        the least class.
        """
        f, screw = self.factors, given["ledger_screws"][str(min(ledger["section_mm"]))]
        inside = 0.0 if screw is None else screw["length_mm"] - self.thick
        if screw is None or min(screw["thread_mm"], inside) <= 0:
            self.across_n, self.along_n, self.room = 0.0, 0.0, NOTHING_BEARS
            return
        big, d, n = screw["diameter_mm"], 1.1 * screw["root_mm"], ledger["screws"]
        thread = min(screw["thread_mm"], inside)
        stud = beam_figure(given, {"grade": None}, "rho_k_kg_m3")
        parts = (self.thick, square_mpa(d, rho)), (inside, square_mpa(d, stud))
        lasts = f["kmod_solid_short"] / f["gamma_m_connection"]
        row = min(n, n**0.9 * (ROW_D / 13) ** 0.25)
        self.across_n = lasts * row * single_shear_n(parts, d, screw["tensile_mpa"])
        head = f["head_pull_thick_mpa"] * screw["head_mm"] ** 2  # (8.40b)
        head *= (rho / f["head_pull_density_kg_m3"]) ** 0.8
        steel = screw["tensile_mpa"] * np.pi * screw["root_mm"] ** 2 / 4 / f["gamma_m2_steel"]
        pulled = min(withdrawal_n(f, big, thread, stud), head)
        self.along_n = min(lasts * n**0.9 * pulled, n * steel)
        loaded, free = f["bolt_loaded_edge_d"] * big, f["bolt_unloaded_edge_d"] * big  # Table 8.4
        self.room = max(
            (loaded + free + (n - 1) * ROW_D * big) / self.deep,
            2 * free / ledger["stud_mm"],
            f["screw_least_thread_d"] * big / thread,
        )

    def uses(self, loads: Loads, hooks: Hooked, hung: Hanging) -> dict[str, FloatArray]:
        """Return the uses by the checks' names of walls whose beam lies on this ledger."""
        f = self.factors
        climb = loads.all_n * hung.lever * hooks.end_climb
        board = board_weight_n(loads, hung.width_mm) / 2 * hung.lever * hooks.end_weight
        down = self.end_n + f["gamma_q"] * climb + f["gamma_g"] * board
        along, off = self._on_one(hung, down, f["gamma_q"] * f["hold_pull_factor"] * climb)
        sheared = over(along, np.full(len(along), self.across_n))
        pulled = over(off, np.full(len(along), self.along_n))
        return {
            ANCHOR: self._anchor(hung, self.end_n + climb + board, climb),
            SCREWS: np.hypot(sheared, pulled),
            ROOM: np.full(len(along), self.room),
            BENT: down * self.apart / 4 / self.moment,
            SHEARED: down / self.shear,
            BORNE: down / self.press,
        }

    def _anchor(self, hung: Hanging, down: FloatArray, climb: FloatArray) -> FloatArray:
        """Return the use of an anchor, no load raised but that of the beam; 1 if unknown."""
        if not self.anchored:
            return np.zeros(len(down))
        force = np.hypot(*self._on_one(hung, down, self.factors["hold_pull_factor"] * climb))
        if self.rated_n is None:
            return np.asarray(force / np.maximum(force, 1.0))
        return force / self.rated_n

    def _on_one(
        self, hung: Hanging, down: FloatArray, level: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Return what one fixing bears along the wall and away from it [N]."""
        turns = level * (self.below[hung.mount] + self.deep / 2) / self.row
        off = down / 2 * self.thick / self.deep
        return np.hypot(down / 2 + turns, level / 2), np.asarray(off)
