"""The published guidance on fall space for one design, and who is preferred among equals."""

from __future__ import annotations

from typing import Any

from steepwright.catalog import read_materials
from steepwright.geometry.guidance import FallGuidance, fall_guidance


def guidance_of(design: dict[str, Any]) -> FallGuidance:
    """Return the published guidance on fall space for one design's height."""
    return fall_guidance(design["lip_height_mm"], read_materials().factors)


def short_mm(design: dict[str, Any]) -> int:
    """Return by how much the fall space is below the guidance [mm]; 0 when it isn't."""
    return max(0, round(guidance_of(design).front_mm) - int(design["fall_space_mm"]))


def cheapest(designs: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the cheapest; of equals the least short of the guidance, then the steepest.

    The page's ``model.cheapest`` is the same rule.
    """
    return min(
        designs,
        key=lambda d: (d["cost_cents"], short_mm(d), -d["angle_deg"], -d["fall_space_mm"]),
    )
