"""Where a wall stands, where it folds to and what it must miss: pure geometry, no materials."""

from __future__ import annotations

from steepwright.geometry.wall import (
    board_for_angle_mm,
    climbable_mm,
    floor_run_mm,
    lip_from_pivot_mm,
    lip_height_mm,
    overhang_angle_rad,
)

__all__ = [
    "board_for_angle_mm",
    "climbable_mm",
    "floor_run_mm",
    "lip_from_pivot_mm",
    "lip_height_mm",
    "overhang_angle_rad",
]
