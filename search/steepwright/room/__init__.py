"""The builder's room: read from TOML, every problem told at once with its key and line."""

from __future__ import annotations

from steepwright.room.design_file import read_design
from steepwright.room.reader import catalog_folder, read_room
from steepwright.room.types import (
    FACINGS,
    Access,
    Align,
    Beam,
    Climber,
    Corridor,
    Door,
    Facing,
    Offcut,
    Room,
    Solid,
    WallRange,
    Yard,
)
from steepwright.room.with_catalog import check_with_catalog

__all__ = [
    "FACINGS",
    "Access",
    "Align",
    "Beam",
    "Climber",
    "Corridor",
    "Door",
    "Facing",
    "Offcut",
    "Room",
    "Solid",
    "WallRange",
    "Yard",
    "catalog_folder",
    "check_with_catalog",
    "read_design",
    "read_room",
]
