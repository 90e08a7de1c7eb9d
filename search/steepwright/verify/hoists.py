"""Pulling a wall up by hand: where its eyes lie and what the lines take, worked out anew.

The lines go straight up from the level board, e from the pivot along it. On the way up the lever
arm of a line is at least e sin t, and the weights' at most c sin t, t the angle from the vertical
and c the way from the pivot to the centre: so the force is never more than the sum of W c / e.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.units import GRAVITY_M_S2
from steepwright.verify.mounts import board_weight_n
from steepwright.verify.strength import Loads

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

PULLED = "hand force on the hoist"
"""The check's name in a design."""


class Hoist:
    """The hoist of one part: what a pull by hand starts, and the tackle between."""

    def __init__(self, given: Document, room: Document) -> None:
        self.factors: Document = given["factors"]
        self.beams: list[Document] = room["beams"]
        self.off_mm = 2 * room["wall"].get("tolerance_mm", 0)
        f = self.factors
        sheaves = [e or f["sheave_efficiency_plain"] for e in given["sheaves"]]
        poorest = min(sheaves, default=f["sheave_efficiency_plain"])
        # n parts bear E + E^2 + ... + E^n of the pull; one more sheave turns the free end.
        parts = range(1, int(f["hoist_parts"]) + 1)
        self.gain = float(sum(poorest**n for n in parts) * poorest)
        self.hand_n = _team_n(f, room["access"]["carriers"])

    def by_hand(
        self, loads: Loads, eye_mm: FloatArray, kicker_mm: FloatArray, width_mm: FloatArray
    ) -> FloatArray:
        """Return the use of what people may pull with their hands (HSE L23)."""
        walls, known = loads.walls, loads.known
        deep = known.t_mm[walls.family] + loads.bar("h")
        narrow, line = loads.bar("b"), loads.bar("n_mm")
        uprights = walls.studs * np.maximum(kicker_mm - 2 * narrow, 0)
        kicker = kicker_mm * width_mm * known.sheet_n_mm2.max()
        kicker = np.where(kicker_mm > 0, kicker + (2 * width_mm + uprights) * line, 0.0)
        board = board_weight_n(loads, width_mm)
        turned = board * np.hypot(walls.board_mm / 2, deep)
        turned = turned + kicker * np.hypot(walls.board_mm, deep)
        return np.asarray(turned / eye_mm / self.gain / self.hand_n)

    def eyes_mm(self, facing: str, beam: IntArray, along_mm: FloatArray) -> FloatArray:
        """Return how far from the pivot the eyes lie, of boards that reach so far beyond it [mm].

        Right below the farthest beam or joist behind the pivot that a block under it, or beside
        it where it is in sight, brings over the board; at the board's end if there is none. As
        much nearer as both beams may be elsewhere than was measured.
        """
        f = self.factors
        end = along_mm - f["hoist_margin_mm"]
        eye = end.copy()
        back = -1 if facing == "+x" else 1
        for own in np.unique(beam).tolist():
            rows = beam == own
            for distance, beside in self._behind(own, back):
                under = np.minimum(end, distance)
                enough = under >= f["hoist_eye_share"] * along_mm
                eye = np.where(rows & enough & (distance - beside <= end), under, eye)
        return np.asarray(np.maximum(eye - self.off_mm, 1.0))

    def _behind(self, own: int, back: int) -> list[tuple[float, float]]:
        """Return how far behind a beam others are, and how far beside them blocks hang [mm]."""
        found = []
        for beam in self.beams:
            kind = beam.get("kind", "beam")
            distance = back * (beam["x_mm"] - self.beams[own]["x_mm"])
            if kind in ("beam", "joist") and distance > 0:
                beside = beam["width_mm"] / 2 + self.factors["hoist_beside_mm"]
                found.append((float(distance), beside if kind == "beam" else 0.0))
        return sorted(found)


def _team_n(f: Document, carriers: int) -> float:
    """Return the pull that starts a load by hand, of so many people together [N] (L23)."""
    shares = (1.0, f["carry_team2_factor"], f["carry_team3_factor"])
    people = min(max(carriers, 1), len(shares))
    return float(f["hand_pull_start_kg"] * GRAVITY_M_S2 * people * shares[people - 1])
