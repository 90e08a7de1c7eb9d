"""A climber hanging on the board, for scale: joints in the plane of the side view."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

Point = tuple[int, int]
Place = Callable[[float, float], Point]
"""From (up the slope from the foot, out from the face) to a point of the side view [mm]."""

_TORSO, _UPPER_ARM, _LOWER_ARM, _THIGH, _SHIN = 0.29, 0.16, 0.17, 0.24, 0.25
"""Lengths over body height; for drawing only, common figure-drawing proportions."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A climber on the board: arms, trunk and legs as joined points, the far ones behind."""

    head_mm: Point
    head_radius_mm: int
    arm_mm: tuple[Point, Point, Point]
    trunk_mm: tuple[Point, Point]
    leg_mm: tuple[Point, Point, Point]
    far_arm_mm: tuple[Point, Point, Point]
    far_leg_mm: tuple[Point, Point, Point]


def figure_on(place: Place, board_mm: int, height_mm: int) -> Figure:
    """Return a climber as tall as the arm span, hands near the top, feet where they reach."""
    hand = (0.86 * board_mm, 25.0)
    shoulder = (hand[0] - 0.26 * height_mm, 0.17 * height_mm)
    hip = (shoulder[0] - 0.95 * _TORSO * height_mm, 0.22 * height_mm)
    foot = (max(0.06 * board_mm, hip[0] - 0.40 * height_mm), 25.0)
    far_hand = (hand[0] - 0.15 * height_mm, 25.0)
    far_foot = (min(hip[0] - 0.10 * height_mm, foot[0] + 0.20 * height_mm), 25.0)
    head = (shoulder[0] + 0.10 * height_mm, shoulder[1] + 0.05 * height_mm)

    def arm(end: tuple[float, float]) -> tuple[Point, Point, Point]:
        elbow = _joint(end, shoulder, _LOWER_ARM * height_mm, _UPPER_ARM * height_mm, -1)
        return place(*end), place(*elbow), place(*shoulder)

    def leg(end: tuple[float, float]) -> tuple[Point, Point, Point]:
        knee = _joint(end, hip, _SHIN * height_mm, _THIGH * height_mm, 1)
        return place(*hip), place(*knee), place(*end)

    return Figure(
        head_mm=place(*head),
        head_radius_mm=round(0.062 * height_mm),
        arm_mm=arm(hand),
        trunk_mm=(place(*shoulder), place(*hip)),
        leg_mm=leg(foot),
        far_arm_mm=arm(far_hand),
        far_leg_mm=leg(far_foot),
    )


def _joint(
    end: tuple[float, float], root: tuple[float, float], outer: float, inner: float, bend: int
) -> tuple[float, float]:
    """Return where two links of these lengths meet between two points, bent to one side."""
    span = max(math.dist(end, root), 1.0)
    along = (outer**2 - inner**2 + span**2) / (2 * span)
    aside = math.sqrt(max(0.0, outer**2 - along**2)) * bend
    du, do = (root[0] - end[0]) / span, (root[1] - end[1]) / span
    return end[0] + du * along - do * aside, end[1] + do * along + du * aside
