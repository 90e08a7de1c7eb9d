"""What a room file would have to ask less of, for a wall as it is."""

from __future__ import annotations

import math
from dataclasses import replace

from steepwright.geometry import carry_limit_kg
from steepwright.optimise.assess_margins import CARRY
from steepwright.optimise.space import Space

_LEAST = ("min_fall_space_mm", "side_passage_mm", "min_climbable_mm", "min_moves")
"""Keys of [wall] that ask for at least so much."""


def file_changes(space: Space, name: str, margin: float, leans_deg: float) -> list[str]:
    """Return the line of the room file that lets a wall keep one margin, where one would.

    `margin` is what is left of it, below 0; `leans_deg` the wall's angle.
    """
    wall, access = space.market.room.wall, space.market.room.access
    low, high = wall.angle_deg
    key = name.removeprefix("wall.")
    line = ""
    if key in _LEAST:
        line = f"{name} = {math.floor(getattr(wall, key) + margin)}"
    elif key == "max_start_mm" and wall.max_start_mm is not None:
        line = f"{name} = {math.ceil(wall.max_start_mm - margin)}"
    elif name == "wall.angle_deg (least)":
        line = f"wall.angle_deg = [{math.floor(leans_deg):g}, {high:g}]"
    elif name == "wall.angle_deg (greatest)":
        line = f"wall.angle_deg = [{low:g}, {math.ceil(leans_deg):g}]"
    elif "folding up" in name:
        line = "wall.fold_up = false"
    elif name == CARRY:
        factors = space.market.catalog.materials.factors
        mass_kg = carry_limit_kg(access, factors) - margin
        enough = [
            n for n in (2, 3) if carry_limit_kg(replace(access, carriers=n), factors) >= mass_kg
        ]
        line = f"access.carriers = {enough[0]}" if enough else ""
    return [f"in the room file: {line}"] if line else []
