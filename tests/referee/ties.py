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
    """What is left of moment and deflection [-], and the most pulled along the stud per load."""

    moment: float
    sag: float
    along: float


def tie_beam(document: Doc) -> Doc:
    """Return the beam that the ties pull at."""
    room = document["room"]
    found: Doc = next(b for b in room["beams"] if b["name"] == room["tie_beam"])
    return found


class Firm(NamedTuple):
    """What a support that doesn't give way takes of one load at the worst place and of a weight."""

    load: float
    weight: float


def place_of(design: Doc) -> float:
    """Return how far up its stud a tie is fixed, over the board's length; half is told in mm."""
    at: int = design["tie_back"]["at_mm"]
    return 0.5 if at == design["board_mm"] // 2 else at / design["board_mm"]


def runs(shop: Shop, document: Doc, design: Doc) -> tuple[float, float, float]:
    """Return a tie's length [mm] and its parts square to the board and up the slope [mm]."""
    beam = tie_beam(document)
    hung = next(b for b in document["room"]["beams"] if b["name"] == design["beam"])
    angle, _, pivot = standing_rad(shop, document, design)
    facing = 1 if design["facing"] == "+x" else -1
    run, up = turned(design["board_mm"] * place_of(design), 0.0, angle)
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
    stud = Stud(design["board_mm"], ei, place_of(design))
    moment, sag = stud.on_spring(spring)
    return Tied(moment, sag, abs(along) / square * stud.firm().load)


class Stud:
    """A stud as beam elements of two lengths, that a node lies where the tie is fixed."""

    def __init__(self, span: float, ei: float, place: float) -> None:
        below = round(STEPS * place)
        self.tie, self.span, self.ei = below, span, ei
        lengths = [place * span / below] * below
        self.lengths = lengths + [(1 - place) * span / (STEPS - below)] * (STEPS - below)
        self.parts = [self._part(a) for a in self.lengths]
        size = 2 * (STEPS + 1)
        self.whole = np.zeros((size, size))
        for i, part in enumerate(self.parts):
            self.whole[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += part

    def _part(self, a: float) -> np.ndarray[Any, Any]:
        return self.ei / a**3 * np.array(
            [[12, 6 * a, -12, 6 * a], [6 * a, 4 * a * a, -6 * a, 2 * a * a],
             [-12, -6 * a, 12, -6 * a], [6 * a, 2 * a * a, -6 * a, 4 * a * a]]
        )  # fmt: skip

    def moved(self, spring: float) -> np.ndarray[Any, Any]:
        """Return what every node does, a column for a unit load on each of them."""
        whole = self.whole.copy()
        whole[2 * self.tie, 2 * self.tie] += spring
        size = len(whole)
        free = [i for i in range(size) if i not in (0, size - 2)]
        inverse = np.zeros((size, size))
        inverse[np.ix_(free, free)] = np.linalg.inv(whole[np.ix_(free, free)])
        return inverse[:, 0:size:2]

    def on_spring(self, spring: float) -> tuple[float, float]:
        """Return the largest moment and deflection of a load anywhere over those without it."""
        loads = self.moved(spring)
        sag = np.abs(loads[0::2]).max()
        bent = [part[1] @ loads[2 * i : 2 * i + 4] for i, part in enumerate(self.parts)]
        moment = np.abs(np.stack(bent)).max()
        return float(moment / (self.span / 4)), float(sag / (self.span**3 / 48 / self.ei))

    def firm(self) -> Firm:
        """Return what a support that doesn't give way takes: what moves its place back by force."""
        sags = self.moved(0.0)[2 * self.tie]
        taken = sags / sags[self.tie]
        ends = np.concatenate(([0.0], np.cumsum(self.lengths)))
        return Firm(float(taken.max()), float(np.trapezoid(taken, ends) / self.span))
