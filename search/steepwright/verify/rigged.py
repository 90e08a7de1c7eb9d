"""One design held against what holds its beam up: a slab's anchors, ledgers, joists."""

from __future__ import annotations

from typing import Any

import numpy as np

from steepwright.verify.divisions import stud_middles_mm
from steepwright.verify.hooked import Hooked, hooked, mounts_mm, with_mount
from steepwright.verify.mounts import Hanging, Mounts
from steepwright.verify.strength import Loads
from steepwright.verify.upheld import rig_of

Document = dict[str, Any]


def rigged_uses(
    design: Document, given: Document, room: Document, mount: Document, loads: Loads
) -> dict[str, float]:
    """Return the uses by the checks' names; none of a ceiling beam."""
    beam = [beam["name"] for beam in room["beams"]].index(design["beam"])
    rig = rig_of(given, room, room["beams"][beam])
    if rig is None:
        return {}
    at, hung = np.array([beam]), np.array([given["mounts"].index(mount)])
    lever, wide = Mounts(given, room).lever[at, hung], np.array([float(design["width_mm"])])
    hanging = Hanging(at, hung, lever, design["mount_count"], wide)
    uses = rig.uses(loads, _hooks(design, room, room["beams"][beam], loads), hanging)
    return {name: float(use[0]) for name, use in uses.items()}


def _hooks(design: Document, room: Document, beam: Document, loads: Loads) -> Hooked:
    """Return what the design's mounts do to its beam at their places."""
    bays = (design["stud_count"] - 1) // design["columns"]
    narrow = int(loads.bar("b")[0])
    middles = stud_middles_mm(design["column_widths_mm"], bays, narrow)
    held = [middles[n] for n in with_mount(design["stud_count"], design["mount_count"])]
    wide = np.array([float(design["width_mm"])])
    at = mounts_mm(room, beam, design["facing"], np.array([held]), wide)
    return Hooked(*hooked(*at, beam["span_mm"]))
