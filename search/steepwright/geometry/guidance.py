"""Published guidance on the space to fall into, and by how much a wall falls short of it.

The guidance is for public bouldering walls; no source speaks of small walls at home. It is
shown beside every design and is never a hidden limit: the builder sets the hard minimum.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from steepwright.catalog.types import Factors


@dataclass(frozen=True, slots=True)
class FallGuidance:
    """Guidance for one wall: clear floor in front and at each side, mat thickness [mm]."""

    front_mm: float
    side_mm: float
    mat_mm: float
    basis: str


def fall_guidance(height_mm: float, factors: Factors) -> FallGuidance:
    """Return the guidance for a wall whose top is `height_mm` above the floor.

    Reads the factors ``fall_front_low_mm``, ``fall_front_high_mm``, ``fall_low_wall_mm``,
    ``fall_side_mm`` and ``fall_mat_mm``. The front figure rises above ``fall_low_wall_mm``
    (guidance on EN 12572-2: 2.0 m in front of walls up to 3 m, else 2.5 m).
    """
    limit = factors["fall_low_wall_mm"]
    low = height_mm <= limit
    front = factors["fall_front_low_mm" if low else "fall_front_high_mm"]
    basis = f"guidance for walls {'up to' if low else 'above'} {limit:.0f} mm high"
    return FallGuidance(front, factors["fall_side_mm"], factors["fall_mat_mm"], basis)


def fall_shortfall(
    guidance: FallGuidance, front_mm: float, left_mm: float, right_mm: float
) -> tuple[str, ...]:
    """Return one plain sentence for each side on which the clear floor is below the guidance.

    Left and right are the climber's, who looks at the wall. Empty when it is met on all three
    sides.
    """
    sides = (
        ("in front of the lip", front_mm, guidance.front_mm),
        ("at the left side", left_mm, guidance.side_mm),
        ("at the right side", right_mm, guidance.side_mm),
    )
    return tuple(
        f"Clear floor {place} is {math.floor(have)} mm; the {guidance.basis} asks for "
        f"{want:.0f} mm, so it is {want - math.floor(have):.0f} mm short."
        for place, have, want in sides
        if have < want
    )
