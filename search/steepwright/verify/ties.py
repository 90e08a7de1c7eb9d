"""Studs tied back to a second beam: what a choice of ties costs, and a tied wall's own checks."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.mounts import beam_figure
from steepwright.verify.packs import UNAVAILABLE_CENTS
from steepwright.verify.strength import Loads, bending_use, moment_share, reaction_share

FloatArray = npt.NDArray[np.float64]
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
        self.soft = _softness(given, self.beam) if self.sets else 0.0

    def cheapest_cents(self, studs: IntArray) -> IntArray:
        """Return the least that one tie at every stud costs."""
        costs = [-(-studs // s["pieces"]) * s["price_cents"] for s in self.sets]
        return np.asarray(np.min([*costs, np.full(len(studs), UNAVAILABLE_CENTS)], axis=0))

    def may_tie(self, beam: IntArray) -> BoolArray:
        """Tell which walls, by the beam that they hang from, may be tied back at all."""
        return np.asarray((beam != self.index) & bool(self.sets))


def _softness(given: Document, beam: Document) -> float:
    """Return how far a beam gives way under 1 N at mid-span [mm], L^3 / (48 EI).

    Raises
    ------
    ValueError
        When the file has another figure.
    """
    stiff = beam_figure(given, beam, "e0_mean_mpa") * beam["width_mm"] * beam["depth_mm"] ** 3 / 12
    soft, told = beam["span_mm"] ** 3 / (48 * stiff), given["ties"]["soft_mm_per_n"]
    if not math.isclose(soft, told, rel_tol=1e-6):
        message = f"the ties' beam gives way by {soft:.6g} mm per N, not {told}"
        raise ValueError(message)
    return float(soft)


@dataclass(frozen=True, slots=True)
class Posts:
    """Boards that may be tied back, arrays of one length; where foot and lip are along x [mm]."""

    facing: str
    angle_rad: FloatArray
    board_mm: FloatArray
    kicker_mm: FloatArray
    foot_mm: FloatArray
    lip_mm: FloatArray


def lines_of(posts: Posts, beam: Document) -> tuple[FloatArray, FloatArray]:
    """Return the cosine of ties' angle to the board's normal [-], and their length [mm].

    From the foot up half the board; to the middle of the beam's side that looks to the wall.
    """
    back, up = _run_mm(posts, beam)
    length = np.hypot(back, up)
    return (back * np.cos(posts.angle_rad) + up * np.sin(posts.angle_rad)) / length, length


def run_free(posts: Posts, room: Document, beam: Document, least_cos: float) -> BoolArray:
    """Tell which ties may run: back or upright, up the slope, near the normal, under no beam."""
    back, up = _run_mm(posts, beam)
    cosine, _ = lines_of(posts, beam)
    uphill = up * np.cos(posts.angle_rad) - back * np.sin(posts.angle_rad)
    free = (back >= 0) & (up > 0) & (cosine >= least_cos) & (uphill >= 0)
    ahead = 1 if posts.facing == "+x" else -1
    from_x, from_z = (posts.foot_mm + posts.lip_mm) / 2, min(beam["underside_mm"])
    from_z = from_z + beam["depth_mm"] / 2 - up
    for other in room["beams"]:
        if other is beam or other.get("kind", "beam") != "beam":
            continue
        for way in (-1, 1):
            gone = ahead * (from_x - (other["x_mm"] + way * other["width_mm"] / 2))
            between = (gone > 0) & (gone < back)
            at_z = from_z + up * gone / np.where(back > 0, back, 1.0)
            free &= ~between | (at_z < min(other["underside_mm"]))
    return np.asarray(free)


def _run_mm(posts: Posts, beam: Document) -> tuple[FloatArray, FloatArray]:
    """Return how far back and up a tie runs [mm]."""
    ahead = 1 if posts.facing == "+x" else -1
    x = (posts.foot_mm + posts.lip_mm) / 2
    z = posts.kicker_mm + posts.board_mm / 2 * np.cos(posts.angle_rad)
    back = ahead * (x - beam["x_mm"]) - beam["width_mm"] / 2
    return back, min(beam["underside_mm"]) + beam["depth_mm"] / 2 - z


def tied_bending(ties: Ties, tie: Document, loads: Loads, posts: Posts) -> FloatArray:
    """Return tied studs' use by bending: a beam on a spring at mid-span.

    The largest moment of a load at u L is PL/4 (4u (1 - u) - 2u h (3u - 4u^3)), h being the
    spring's part of a load at mid-span.
    """
    cosine, length = lines_of(posts, ties.beam)
    slim = max(ties.beam["depth_mm"] / ties.beam["width_mm"], 1.0)
    spring = cosine**2 / (length / tie["stiffness_n"] + ties.soft * slim**2)
    stud = 48 * loads.bar("ei") / posts.board_mm**3
    held = spring / (spring + stud)
    left = np.zeros_like(held)
    for u in np.linspace(0, 0.5, 2001):
        left = np.maximum(left, 4 * u * (1 - u) - 2 * u * held * (3 * u - 4 * u**3))
    share = np.minimum(moment_share(loads), left * reaction_share(loads))
    f = loads.known.factors
    along = loads.push_n * np.sqrt(np.maximum(1 - cosine**2, 0)) / cosine
    return bending_use(loads, (f["gamma_q"], f["gamma_g"]), share, along)
