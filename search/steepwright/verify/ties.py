"""Studs tied back to a second beam: what a choice of ties costs, and a tied wall's own checks."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.packs import UNAVAILABLE_CENTS
from steepwright.verify.strength import Loads, bending_use, moment_share, reaction_share

IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

BENDING = "stud bending"
"""The check that ties may relieve."""

UNDONE = "stud bending, ties undone"


class Ties:
    """The ties of one part, none when the room names no beam for them."""

    def __init__(self, given: Document, room: Document) -> None:
        name, beams = room.get("tie_beam"), room["beams"]
        self.sets: list[Document] = given["ties"]["sets"] if name is not None else []
        self.index = next((i for i, b in enumerate(beams) if b["name"] == name), -1)
        self.beam: Document = beams[self.index] if self.sets else {}
        self.soft = float(given["ties"]["soft_mm_per_n"]) if self.sets else 0.0

    def cheapest_cents(self, studs: IntArray) -> IntArray:
        """Return the least that one tie at every stud costs."""
        costs = [-(-studs // s["pieces"]) * s["price_cents"] for s in self.sets]
        return np.asarray(np.min([*costs, np.full(len(studs), UNAVAILABLE_CENTS)], axis=0))

    def may_tie(self, beam: IntArray) -> BoolArray:
        """Tell which walls, by the beam that they hang from, may be tied back at all."""
        return np.asarray((beam != self.index) & bool(self.sets))


def line_of(design: Document, beam: Document) -> tuple[float, float]:
    """Return cosine of a tie's angle to the board's normal, and its length [mm].

    From the foot up half the board; to the middle of the beam's side that looks to the wall.
    """
    ahead = 1 if design["facing"] == "+x" else -1
    angle, half = math.radians(design["angle_deg"]), design["board_mm"] / 2
    x = (design["x_foot_mm"] + design["x_lip_mm"]) / 2
    z = design["kicker_mm"] + half * math.cos(angle)
    back = ahead * (x - beam["x_mm"]) - beam["width_mm"] / 2
    up = min(beam["underside_mm"]) + beam["depth_mm"] / 2 - z
    length = math.hypot(back, up)
    return (back * math.cos(angle) + up * math.sin(angle)) / length, length


def tied_bending(design: Document, ties: Ties, loads: Loads) -> float:
    """Return a tied stud's use by bending: a beam on a spring at mid-span.

    The largest moment of a load at u L is PL/4 (4u (1 - u) - 2u h (3u - 4u^3)), h being the
    spring's part of a load at mid-span.
    """
    found = [s for s in ties.sets if s["sku"] == design["tie_back"]["sku"]]
    if not found:
        message = "a tie that is not on offer"
        raise ValueError(message)
    tie = found[0]
    cosine, length = line_of(design, ties.beam)
    slim = max(ties.beam["depth_mm"] / ties.beam["width_mm"], 1.0)
    spring = cosine**2 / (length / tie["stiffness_n"] + ties.soft * slim**2)
    stud = 48 * float(loads.bar("ei")[0]) / design["board_mm"] ** 3
    held = spring / (spring + stud)
    u = np.linspace(0, 0.5, 2001)
    left = float((4 * u * (1 - u) - 2 * u * held * (3 * u - 4 * u**3)).max())
    share = np.minimum(moment_share(loads), left * reaction_share(loads))
    f = loads.known.factors
    along = loads.push_n * math.sqrt(max(1 - cosine**2, 0)) / cosine
    return float(bending_use(loads, (f["gamma_q"], f["gamma_g"]), share, along)[0])
