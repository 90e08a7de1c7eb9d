"""Which sheet pieces can be brought in: the way in, the vehicle and the carriers' hands."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

Document = dict[str, Any]

MOST_CARRIERS = 3


def gets_in(room: Document, sides_mm: tuple[float, float, float]) -> bool:
    """Tell whether a flat piece (length, width, thickness [mm]) passes the way in.

    It is carried upright in one of its three ways, never tilted. A corner is passed with one
    side upright below its ceiling while the other two turn in plan.
    """
    access = room["access"]
    length, width, thick = sides_mm
    known = access["max_piece_mm"]
    if known is not None:
        most = sorted(known)
        if max(length, width) > most[1] or min(length, width) > most[0]:
            return False
    for door in access["doors"]:
        pairs = [(length, width), (length, thick), (width, thick)]
        opening = door["width_mm"], door["height_mm"]
        if not any(
            (a <= opening[0] and b <= opening[1]) or (b <= opening[0] and a <= opening[1])
            for a, b in pairs
        ):
            return False
    return all(_turns(corner, sides_mm) for corner in access["corridors"])


def _turns(corner: Document, sides_mm: tuple[float, float, float]) -> bool:
    a, b = corner["width_a_mm"], corner["width_b_mm"]
    for upright in range(3):
        one, two = (side for i, side in enumerate(sides_mm) if i != upright)
        fits = sides_mm[upright] <= corner["height_mm"]
        if fits and max(one, two) <= _longest_mm(a, b, min(one, two)):
            return True
    return False


@lru_cache(maxsize=4096)
def _longest_mm(a: float, b: float, width: float) -> float:
    """Return the longest rectangle of a width that passes a right-angled corner [mm].

    While it turns it touches both outer walls and the inner corner: the least over t of
    (a cos t + b sin t - w) / (sin t cos t), found by golden section; rounded up. Or it slides
    along one corridor lengthwise and the other sideways, if that is wide enough.
    """
    slides = max(b if width <= a else 0.0, a if width <= b else 0.0)
    if width >= min(a, b):
        return slides

    def length(turn: float) -> float:
        sine, cosine = math.sin(turn), math.cos(turn)
        return (a * cosine + b * sine - width) / (sine * cosine)

    low, high = 1e-6, math.pi / 2 - 1e-6
    golden = (math.sqrt(5) - 1) / 2
    for _ in range(90):
        left, right = high - golden * (high - low), low + golden * (high - low)
        low, high = (low, right) if length(left) < length(right) else (left, high)
    return max(slides, length((low + high) / 2) + 1e-6)


def carried_kg(room: Document, factors: Document) -> float:
    """Return the greatest mass of a piece for the stated carriers [kg]."""
    access = room["access"]
    one = factors["carry_one_person_kg"]
    if access["max_carry_kg"] is not None:
        one = min(one, access["max_carry_kg"])
    teams = (1.0, factors["carry_team2_factor"], factors["carry_team3_factor"])
    people = max(1, min(access["carriers"], MOST_CARRIERS))
    return float(max(one * n * teams[n - 1] for n in range(1, people + 1)))


def fits_vehicle(room: Document, length_mm: int, width_mm: int) -> bool:
    """Tell whether a piece lies flat in the builder's vehicle."""
    vehicle = room["yard"]["vehicle_max_mm"]
    if vehicle is None:
        return True
    long, short = max(length_mm, width_mm), min(length_mm, width_mm)
    return bool(long <= max(vehicle) and short <= min(vehicle))


def brought(
    room: Document, factors: Document, panel: Document, thickness_mm: int, piece: tuple[int, int]
) -> tuple[bool, bool]:
    """Tell of a sheet piece (length, width [mm]) whether it gets in, and fits the vehicle."""
    length, width = piece
    if length <= 0 or width <= 0:
        return True, fits_vehicle(room, length, width)
    kg = panel["rho_mean_kg_m3"] * panel["mean_thickness_mm"] * length * width * 1e-9
    light = kg <= carried_kg(room, factors) * (1 + 1e-12)
    passes = gets_in(room, (float(length), float(width), float(thickness_mm)))
    return light and passes, fits_vehicle(room, length, width)
