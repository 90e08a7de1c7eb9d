"""What a design tells of a place that the builder has to fix mounts in."""

from __future__ import annotations

from typing import Any

from steepwright.pricing.wall import Wall
from steepwright.room.types import Beam

Document = dict[str, Any]


def rig_document(beam: Beam, wall: Wall) -> Document:
    """Return the number of ``anchors`` in a slab, one for each hole of the mounts; else nothing."""
    if beam.kind == "slab":
        return {"anchors": wall.mount.screws * wall.mount_count}
    return {}
