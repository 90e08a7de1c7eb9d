"""Folding the wall up: rope force over the lift, hand force, lines when parked, latches.

Section at right angles to the lip. The pivot is the origin, x runs from it level towards the
wall's foot, z up. The board leaves the pivot at an angle from the vertical: small when it
stands, 90 degrees when it lies level under the ceiling; its back faces up when level.
A raised wall is a load over people: two holds that don't rely on each other are demanded.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from steepwright.structure.types import FloatArray

_MIN_LEVER_MM = 1.0


@dataclass(frozen=True, slots=True)
class Lift:
    """What is lifted and from where.

    Attributes
    ----------
    weight_n
        Weight of all that turns: board, frame, holds, what hangs on it [N].
    cg_mm, cg_behind_mm
        Centre of gravity: along the board from the pivot, and behind its plane [mm].
    attach_mm, attach_behind_mm
        The rope's eye on the board, likewise [mm].
    anchor_x_mm, anchor_z_mm
        The block or anchor the rope runs up to, from the pivot [mm].
    """

    weight_n: float
    cg_mm: float
    cg_behind_mm: float
    attach_mm: float
    attach_behind_mm: float
    anchor_x_mm: float
    anchor_z_mm: float


@dataclass(frozen=True, slots=True)
class LiftForces:
    """Forces over the lift, arrays like the angles.

    `rope_n` [N], infinite where the rope has no lever arm or would have to push;
    `rope_length_mm` from eye to anchor; `pivot_x_n`, `pivot_z_n` what the mounts hold [N].
    """

    angle_rad: FloatArray
    rope_n: FloatArray
    rope_length_mm: FloatArray
    pivot_x_n: FloatArray
    pivot_z_n: FloatArray

    @property
    def largest_rope_n(self) -> float:
        """Largest rope force over the lift [N]."""
        return float(self.rope_n.max())


def lift_forces(lift: Lift, angle_rad: FloatArray) -> LiftForces:
    """Return the rope and pivot forces at each angle from the vertical [rad].

    Moments about the pivot: rope force x its lever arm = weight x level distance of the
    centre of gravity. Slow lifting; a jerk is the caller's dynamic factor.
    """
    angle = np.asarray(angle_rad, dtype=np.float64)
    cg_x, _ = _place(lift.cg_mm, lift.cg_behind_mm, angle)
    eye_x, eye_z = _place(lift.attach_mm, lift.attach_behind_mm, angle)
    run_x, run_z = lift.anchor_x_mm - eye_x, lift.anchor_z_mm - eye_z
    length = np.hypot(run_x, run_z)
    reach = np.maximum(length, _MIN_LEVER_MM)
    lever = (eye_x * run_z - eye_z * run_x) / reach
    needed = lift.weight_n * cg_x
    able = lever >= _MIN_LEVER_MM
    rope = np.where(able, needed / np.where(able, lever, 1.0), np.inf)
    rope = np.where(needed <= 0.0, 0.0, rope)
    with np.errstate(invalid="ignore"):
        pivot_x = -rope * run_x / reach
        pivot_z = lift.weight_n - rope * run_z / reach
    return LiftForces(angle, rope, length, pivot_x, pivot_z)


def _place(along_mm: float, behind_mm: float, angle: FloatArray) -> tuple[FloatArray, FloatArray]:
    sin, cos = np.sin(angle), np.cos(angle)
    return along_mm * sin + behind_mm * cos, behind_mm * sin - along_mm * cos


def mechanical_advantage(parts: int, efficiency: float) -> float:
    """Return load over pull of a tackle with `parts` rope parts at the load [-].

    MA = E (1 - E^n) / (1 - E) with sheave efficiency E (1 for no friction gives n).

    Raises
    ------
    ValueError
        When there is no part, or the efficiency is not within 0 to 1.
    """
    if parts < 1 or not 0.0 < efficiency <= 1.0:
        message = f"a tackle needs parts >= 1 and 0 < efficiency <= 1, not {parts}, {efficiency}"
        raise ValueError(message)
    return math.fsum(efficiency**k for k in range(1, parts + 1))


def redirect_force_n(line_n: float, between_rad: float) -> float:
    """Return the force on a block [N] whose two lines make an angle: 2 cos(angle/2) x line."""
    return 2.0 * float(np.cos(between_rad / 2.0)) * line_n


@dataclass(frozen=True, slots=True)
class HandForce:
    """What one person feels at the rope's end [N]: raising, and holding still.

    Friction may stick or let go, so holding counts none of it. A brake holds by itself and
    then carries `brake_n`.
    """

    raise_n: float
    hold_n: float
    brake_n: float


def hand_force(
    rope_n: float, parts: int, efficiency: float, redirects: int = 0, *, brake: bool = False
) -> HandForce:
    """Return the pull by hand for a rope force at the board [N].

    `redirects` are further blocks that only turn the free end, each with the same efficiency.
    """
    gain = mechanical_advantage(parts, efficiency) * efficiency**redirects
    still = rope_n / parts
    return HandForce(rope_n / gain, 0.0 if brake else still, still if brake else 0.0)


def working_load_n(breaking_n: float, design_factor: float, knot_factor: float = 1.0) -> float:
    """Return what a line may carry [N]: breaking force x what a knot leaves / design factor."""
    return breaking_n * knot_factor / design_factor


@dataclass(frozen=True, slots=True)
class ParkedShares:
    """Largest part of the parked rope force on one line [-]: all lines whole, one failed.

    `one_failed` is infinite when nothing is left to hold the wall.
    """

    whole: float
    one_failed: float


def parked_shares(places_mm: tuple[float, ...], cg_across_mm: float) -> ParkedShares:
    """Return how the lines that hold the parked wall share its rope force.

    `places_mm` are the lines' places across the wall and `cg_across_mm` that of the centre of
    gravity [mm, from the same edge]. Each share is the larger of an equal one (board held
    straight by the lip's mounts) and that of a rigid board the mounts don't keep from
    rolling; the worst line is assumed to fail.
    """
    if not places_mm:
        return ParkedShares(float("inf"), float("inf"))
    left = [places_mm[:i] + places_mm[i + 1 :] for i in range(len(places_mm))]
    worst = max(_largest_share(rest, cg_across_mm) for rest in left)
    return ParkedShares(_largest_share(places_mm, cg_across_mm), worst)


def _largest_share(places_mm: tuple[float, ...], cg_mm: float) -> float:
    count = len(places_mm)
    if count == 0:
        return float("inf")
    middle = math.fsum(places_mm) / count
    spread = math.fsum((p - middle) ** 2 for p in places_mm)
    if spread == 0.0:
        return 1.0 / count if count > 1 else 1.0
    # A line can't push, and the mounts hold the rest: one line never gets more than all.
    lean = max(1.0 / count + (cg_mm - middle) * (p - middle) / spread for p in places_mm)
    return min(max(1.0 / count, lean), 1.0)
