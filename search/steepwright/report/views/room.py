"""The document's room as the record that the geometry reads."""

from __future__ import annotations

from typing import Any

from steepwright.room.types import Access, Climber, Room, Solid, WallRange, Yard


def room_of(room: dict[str, Any]) -> Room:
    """Return the room's size and solids; what else a room has plays no part in the drawings."""
    solids = tuple(
        Solid(s["name"], tuple(s["x_mm"]), tuple(s["y_mm"]), tuple(s["z_mm"]))
        for s in room["solids"]
    )
    return Room(
        name=room["name"],
        length_mm=room["length_mm"],
        width_mm=room["width_mm"],
        ceiling_mm=room["ceiling_mm"],
        beams=(),
        solids=solids,
        access=Access(),
        climber=Climber(),
        wall=WallRange(angle_deg=(0.0, 90.0), kicker_mm=(0, 0), width_mm=(0, room["width_mm"])),
        yard=Yard(),
    )
