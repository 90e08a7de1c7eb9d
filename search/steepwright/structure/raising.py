"""Raising a bar or a board by hand: the force at one end while the other rests or hangs."""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum
from typing import NamedTuple

from steepwright.units import GRAVITY_M_S2


class Body(NamedTuple):
    """A mass [kg] with its centre: up the slope from the foot and across from the left [mm]."""

    mass_kg: float
    up_mm: float
    across_mm: float


def together(bodies: Iterable[Body]) -> Body:
    """Return the mass and centre of bodies that are joined; nothing at all weighs 0 at 0.

    Summed with one rounding: plain sums differ in their last digit from Python 3.12 on.
    """
    rows = tuple(bodies)
    mass = fsum(body.mass_kg for body in rows)
    if mass <= 0:
        return Body(0.0, 0.0, 0.0)
    up = fsum(body.mass_kg * body.up_mm for body in rows) / mass
    return Body(mass, up, fsum(body.mass_kg * body.across_mm for body in rows) / mass)


def lip_force_n(body: Body, length_mm: float) -> float:
    """Return the upright force at the lip of a board whose foot rests on the floor [N].

    Moments about the foot: F L cos e = m g c cos e, whatever the elevation e; so F = m g c / L
    with c the centre's distance from the foot along the board.
    """
    return body.mass_kg * GRAVITY_M_S2 * body.up_mm / length_mm


def foot_force_n(body: Body, length_mm: float) -> float:
    """Return the upright force at the lower edge of a board that hangs at its lip [N].

    Moments about the lip: F = m g (L - c) / L at any elevation. Pulled square to the board it
    is F cos e with e its elevation from level, so never more.
    """
    return body.mass_kg * GRAVITY_M_S2 * (length_mm - body.up_mm) / length_mm
