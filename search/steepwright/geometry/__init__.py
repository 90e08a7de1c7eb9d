"""Where a wall stands, where it folds to and what it must miss: pure geometry, no materials."""

from __future__ import annotations

from steepwright.geometry.access import (
    carry_limit_kg,
    passes_mask,
    people_needed,
    people_overhead,
)
from steepwright.geometry.climbing import (
    HoldEnds,
    hold_ends,
    moves,
    start_height_mm,
    widest_hold_ends,
)
from steepwright.geometry.corner import corner_length_mm
from steepwright.geometry.foldup import (
    HungBoard,
    Parked,
    park,
    standing_clear_mm,
    sweep_clear_apart_mm,
    sweep_clear_mm,
    sweep_is_clear,
)
from steepwright.geometry.guidance import FallGuidance, fall_guidance, fall_shortfall
from steepwright.geometry.holds import HoldGrid, hold_positions
from steepwright.geometry.levelling import LevelledMount, levelling
from steepwright.geometry.lifting import NO_BEAM, EyeSpan, LiftRules, lift_points, usable_spans
from steepwright.geometry.space import (
    Stance,
    fall_space_mm,
    floor_clear,
    foot_room_mm,
    passage_mm,
    side_space_mm,
    wall_y_range_mm,
)
from steepwright.geometry.surroundings import beam_underside_mm
from steepwright.geometry.wall import (
    board_for_angle_mm,
    climbable_mm,
    floor_run_mm,
    lip_from_pivot_mm,
    lip_height_mm,
    overhang_angle_rad,
)

__all__ = [
    "NO_BEAM",
    "EyeSpan",
    "FallGuidance",
    "HoldEnds",
    "HoldGrid",
    "HungBoard",
    "LevelledMount",
    "LiftRules",
    "Parked",
    "Stance",
    "beam_underside_mm",
    "board_for_angle_mm",
    "carry_limit_kg",
    "climbable_mm",
    "corner_length_mm",
    "fall_guidance",
    "fall_shortfall",
    "fall_space_mm",
    "floor_clear",
    "floor_run_mm",
    "foot_room_mm",
    "hold_ends",
    "hold_positions",
    "levelling",
    "lift_points",
    "lip_from_pivot_mm",
    "lip_height_mm",
    "moves",
    "overhang_angle_rad",
    "park",
    "passage_mm",
    "passes_mask",
    "people_needed",
    "people_overhead",
    "side_space_mm",
    "standing_clear_mm",
    "start_height_mm",
    "sweep_clear_apart_mm",
    "sweep_clear_mm",
    "sweep_is_clear",
    "usable_spans",
    "wall_y_range_mm",
    "widest_hold_ends",
]
