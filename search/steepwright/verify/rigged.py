"""One design held against what holds its beam up: a slab's anchors, ledgers, joists."""

from __future__ import annotations

from typing import Any

import numpy as np

from steepwright.verify.hooked import hooks_of
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
    made = given["factors"], int(loads.bar("b")[0])
    uses = rig.uses(loads, hooks_of(design, room, room["beams"][beam], made), hanging)
    return {name: float(use[0]) for name, use in uses.items()}
