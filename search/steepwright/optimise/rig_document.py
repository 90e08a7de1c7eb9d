"""What a design tells of a place that the builder sets up or fixes mounts in: a frame, a slab."""

from __future__ import annotations

from typing import Any

from steepwright.catalog.types import Factors
from steepwright.geometry.stand_parts import stand_bolts
from steepwright.plain import plain
from steepwright.pricing.wall import Wall
from steepwright.room.types import Beam, Stand

Document = dict[str, Any]


def rig_document(factors: Factors, beam: Beam, wall: Wall) -> Document:
    """Return what a builder needs of a slab or a frame, nothing of other places.

    The number of ``anchors`` in a slab, one for each hole of the mounts. Of a freestanding
    ``frame`` where its joints are and which bolts go where; no bolts of one that is there already.
    """
    if beam.kind == "slab":
        return {"anchors": wall.mount.screws * wall.mount_count}
    return {"frame": _frame(factors, beam, beam.stand)} if beam.stand is not None else {}


def _frame(factors: Factors, beam: Beam, stand: Stand) -> Document:
    d = factors["frame_bolt_mm"]
    bolts = () if stand.owned else stand_bolts(factors, beam, stand)
    return {
        "brace_up_mm": stand.brace_up_mm,
        "brace_toe_mm": round(factors["frame_toe_mm"]),
        "knee_mm": round(factors["frame_knee_mm"]),
        "bolt_mm": round(d),
        "bolt_end_mm": round(7.0 * d),
        "bolt_apart_mm": round(5.0 * d),
        "bolts": [plain(bolt) for bolt in bolts],
    }
