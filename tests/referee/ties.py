"""Studs tied back to a second beam: how the tie runs, and a stud on three supports, one a spring.

The stud is solved by the stiffness method with beam elements, the load on every node in turn.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from places import standing_rad, turned
from shop import Shop, num

Doc = dict[str, Any]

STEPS = 120


class Tied(NamedTuple):
    """What is left of moment and deflection [-], and the pull along the stud per load square."""

    moment: float
    sag: float
    along: float


def tie_beam(document: Doc) -> Doc:
    """Return the beam that the ties pull at."""
    room = document["room"]
    found: Doc = next(b for b in room["beams"] if b["name"] == room["tie_beam"])
    return found


def runs(shop: Shop, document: Doc, design: Doc) -> tuple[float, float, float]:
    """Return a tie's length [mm] and its parts square to the board and up the slope [mm]."""
    beam = tie_beam(document)
    hung = next(b for b in document["room"]["beams"] if b["name"] == design["beam"])
    angle, _, pivot = standing_rad(shop, document, design)
    facing = 1 if design["facing"] == "+x" else -1
    run, up = turned(design["board_mm"] / 2, 0.0, angle)
    x, z = facing * hung["x_mm"] - pivot + run, design["kicker_mm"] + up
    to_x = facing * beam["x_mm"] + beam["width_mm"] / 2
    to_z = min(beam["underside_mm"]) + beam["depth_mm"] / 2
    slope = np.array(turned(1.0, 0.0, angle))
    behind = np.array([-slope[1], slope[0]])
    tie = np.array([to_x - x, to_z - z])
    return float(np.hypot(*tie)), float(tie @ behind), float(tie @ slope)


def tied_part(shop: Shop, document: Doc, design: Doc, ei: float, beam_e: float) -> Tied:
    """Return what a tie leaves on a stud of stiffness EI [Nmm2]."""
    beam, tie = tie_beam(document), shop.hardware[design["tie_back"]["sku"]]
    length, square, along = runs(shop, document, design)
    b, h = beam["width_mm"], beam["depth_mm"]
    # The beam gives way upright or sideways: the softer of both counts.
    soft = beam["span_mm"] ** 3 / 48 / (beam_e * min(b * h**3, h * b**3) / 12)
    part = square / length
    spring = part**2 / (length / num(tie, "stiffness_n") + soft)
    return stud_on_spring(design["board_mm"], ei, spring, abs(along) / square)


def stud_on_spring(span: float, ei: float, spring: float, along: float) -> Tied:
    """Return the largest moment and deflection of a load anywhere over those without the spring."""
    a = span / STEPS
    part = ei / a**3 * np.array(
        [[12, 6 * a, -12, 6 * a], [6 * a, 4 * a * a, -6 * a, 2 * a * a],
         [-12, -6 * a, 12, -6 * a], [6 * a, 2 * a * a, -6 * a, 4 * a * a]]
    )  # fmt: skip
    size = 2 * (STEPS + 1)
    whole = np.zeros((size, size))
    for i in range(STEPS):
        whole[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += part
    whole[STEPS, STEPS] += spring  # the deflection of the middle node
    free = [i for i in range(size) if i not in (0, size - 2)]
    inverse = np.zeros((size, size))
    inverse[np.ix_(free, free)] = np.linalg.inv(whole[np.ix_(free, free)])
    loads = inverse[:, 0:size:2]  # a column for a unit load on every node
    sag = np.abs(loads[0:size:2]).max()
    bent = np.stack([part[1] @ loads[2 * i : 2 * i + 4] for i in range(STEPS)])
    moment = np.abs(bent).max()
    return Tied(float(moment / (span / 4)), float(sag / (span**3 / 48 / ei)), along)
