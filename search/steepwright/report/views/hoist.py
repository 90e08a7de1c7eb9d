"""How a wall that folds up is lifted: the pull over the way from standing to parked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Hoist:
    """The lifting gear and its forces [N], slow lifting.

    Attributes
    ----------
    beam
        What carries the blocks; empty for something in the ceiling.
    eye_mm
        From the mounts' pivot down the board to the eyes at its back.
    lines, parts
        Lines to the board, and parts of the tackle between them and the hand.
    from_deg, to_deg
        The board's angle standing and parked.
    lines_n, hand_n
        In all lines together and by hand, at even steps of the angle.
    hand_limit_n
        What one person may be asked to pull.
    without_brake_n
        What the hand has to hold when the brake does not.
    line_lost_n
        In the last line when the other is lost.
    people
        How many it takes; 0 when three are too few.
    """

    beam: str
    eye_mm: int
    lines: int
    parts: int
    from_deg: float
    to_deg: float
    lines_n: tuple[int, ...]
    hand_n: tuple[int, ...]
    hand_limit_n: int
    without_brake_n: int
    line_lost_n: int
    people: int


def hoist_of(design: dict[str, Any]) -> Hoist | None:
    """Return a design's hoist; None for a wall that stays down, or when nothing is told of it."""
    lift = design.get("lift")
    if lift is None:
        return None
    curve = lift["curve"]
    return Hoist(
        beam=lift["beam"] or "",
        eye_mm=lift["eye_mm"],
        lines=lift["lines"],
        parts=lift["tackle_parts"],
        from_deg=design["angle_deg"],
        to_deg=curve[-1]["angle_deg"],
        lines_n=tuple(point["lines_n"] for point in curve),
        hand_n=tuple(point["hand_n"] for point in curve),
        hand_limit_n=lift["hand_limit_one_n"],
        without_brake_n=lift["hand_hold_without_brake_n"],
        line_lost_n=lift["one_line_lost_n"],
        people=lift["people"] or 0,
    )
