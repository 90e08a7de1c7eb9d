"""A climber hanging on the board, for scale: joints in the plane of the side view.

A joint is (down the slope from the lip, out from the face) [mm]: all boards that are long enough
share one climber, whatever their angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Joint = tuple[int, int]

_TORSO, _UPPER_ARM, _LOWER_ARM, _THIGH, _SHIN = 0.29, 0.16, 0.17, 0.24, 0.25
"""Lengths over body height; for drawing only, common figure-drawing proportions."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A climber on the board: arms, trunk and legs as joined points, the far ones behind."""

    head_mm: Joint
    head_radius_mm: int
    arm_mm: tuple[Joint, Joint, Joint]
    trunk_mm: tuple[Joint, Joint]
    leg_mm: tuple[Joint, Joint, Joint]
    far_arm_mm: tuple[Joint, Joint, Joint]
    far_leg_mm: tuple[Joint, Joint, Joint]


def figure_on(board_mm: int, height_mm: int) -> Figure:
    """Return a climber as tall as the arm span, hands near the top, feet where they reach."""
    hand = (board_mm - 0.2 * height_mm, 25.0)
    shoulder = (hand[0] - 0.26 * height_mm, 0.17 * height_mm)
    hip = (shoulder[0] - 0.95 * _TORSO * height_mm, 0.22 * height_mm)
    foot = (max(0.06 * board_mm, hip[0] - 0.40 * height_mm), 25.0)
    far_hand = (hand[0] - 0.15 * height_mm, 25.0)
    far_foot = (min(hip[0] - 0.10 * height_mm, foot[0] + 0.20 * height_mm), 25.0)
    head = (shoulder[0] + 0.10 * height_mm, shoulder[1] + 0.05 * height_mm)

    def whole(point: tuple[float, float]) -> Joint:
        return round(board_mm - point[0]), round(point[1])

    def arm(end: tuple[float, float]) -> tuple[Joint, Joint, Joint]:
        elbow = _joint(end, shoulder, _LOWER_ARM * height_mm, _UPPER_ARM * height_mm, -1)
        return whole(end), whole(elbow), whole(shoulder)

    def leg(end: tuple[float, float]) -> tuple[Joint, Joint, Joint]:
        knee = _joint(end, hip, _SHIN * height_mm, _THIGH * height_mm, 1)
        return whole(hip), whole(knee), whole(end)

    return Figure(
        head_mm=whole(head),
        head_radius_mm=round(0.062 * height_mm),
        arm_mm=arm(hand),
        trunk_mm=(whole(shoulder), whole(hip)),
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
