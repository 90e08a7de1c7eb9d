"""The anchors in a concrete slab, against what they are rated for: the approval's working load."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.hooked import Hooked
from steepwright.verify.mounts import Hanging, weight_beside_lost_n
from steepwright.verify.strength import Loads, over

FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]

ANCHOR, THICK = "anchor working load", "slab thickness"
OF_SLABS = ANCHOR, THICK
"""The checks' names in a design."""


class Slab:
    """One slab; what isn't known of its anchors is taken to just do."""

    names = OF_SLABS

    def __init__(self, given: Document, beam: Document) -> None:
        self.pulls: float = given["factors"]["hold_pull_factor"]
        self.rated_n: float | None = beam["anchor_rated_n"]
        least = beam["anchor_least_mm"]
        self.thin = 1.0 if least is None else least / beam["depth_mm"]

    def uses(self, loads: Loads, hooks: Hooked, hung: Hanging) -> dict[str, FloatArray]:
        """Return the uses by the checks' names; where along the slab mounts hang is all one.

        One anchor bears all climbers, a part of them level, and the weight that hangs on a mount
        beside one that is lost, with what both lever there.
        """
        climb = loads.all_n * hooks.lost
        weight = weight_beside_lost_n(loads, hung.mounts, hung.width_mm) * hooks.lost_weight
        force = np.hypot(climb + weight, self.pulls * climb) * hung.lever
        rated = force if self.rated_n is None else np.full(len(force), self.rated_n)
        return {ANCHOR: over(force, rated), THICK: np.full(len(hooks.end_climb), self.thin)}
