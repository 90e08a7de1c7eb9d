"""What mounts hold in their beams, worked out anew: EN 1995-1-1:2004+A1+A2 section 8, or the NDS.

A mount's screws stand upright in the beam's underside. They are pulled along their axis by all
climbers and a part of the board's weight, and sheared by a share of the climbers that pulls level
at the pivot and prises the plate off, too.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.verify import nds
from steepwright.verify.fixings import gapped_n, withdrawal_n
from steepwright.verify.strength import NOTHING_BEARS, Loads, over

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

ROOM, HELD, RATED = "mount screws' room", "mount pull-out and shear", "mount working load"
BESIDE_LOST = "one mount lost"
"""The checks' names in a design."""


class Hanging(NamedTuple):
    """How walls hang: from which beam and mount each, the mounts' lever [-], how many, how wide."""

    beam: IntArray
    mount: IntArray
    lever: FloatArray
    mounts: int
    width_mm: FloatArray


class Levered(NamedTuple):
    """How walls hang: from so many mounts, how wide they are [mm], what levers on an outer mount.

    `outer` is what a load at an outer stud brings its mount, over the load; `lost` what one brings
    the next mount when one is lost, and `lost_weight` what the lip's weight does.
    """

    mounts: int
    width_mm: FloatArray
    outer: FloatArray
    lost: FloatArray
    lost_weight: FloatArray


class Mounts:
    """Every mount in every beam of a room, arrays over [beam, mount]."""

    def __init__(self, given: Document, room: Document) -> None:
        self.factors: Document = given["factors"]
        rows = [
            [_held(given, room["code"], mount, beam) for mount in given["mounts"]]
            for beam in room["beams"]
        ]
        table = np.array(rows, dtype=np.float64)
        self.room_use, self.axial_n, self.lateral_n, self.rated_n, self.lever, *rest = np.moveaxis(
            table, 2, 0
        )
        self.prise, self.sudden_n = rest

    def pulled_and_sheared(
        self, loads: Loads, where: tuple[IntArray, IntArray], hung: Levered
    ) -> FloatArray:
        """Return the use by both forces at once, the root of (8.28).

        `where` are each wall's beam and mount.
        """
        f, lever, all_n = self.factors, self.lever[where], loads.all_n * hung.outer
        weight = hung_weight_n(loads, hung.mounts, hung.width_mm)
        pull = lever * (f["gamma_q"] * all_n + f["gamma_g"] * weight)
        level = lever * (f["gamma_q"] * f["hold_pull_factor"] * all_n)
        pulled = over(pull + level * self.prise[where], self.axial_n[where])
        return np.hypot(pulled, over(level, self.lateral_n[where]))

    def rated(self, loads: Loads, where: tuple[IntArray, IntArray], hung: Levered) -> FloatArray:
        """Return the use of the maker's working load, without partial factors."""
        weight = hung_weight_n(loads, hung.mounts, hung.width_mm)
        return over(self.lever[where] * (loads.all_n * hung.outer + weight), self.rated_n[where])

    def beside_lost(
        self, loads: Loads, where: tuple[IntArray, IntArray], hung: Levered
    ) -> FloatArray:
        """Return the use of a mount's screws beside a lost one, by an accident; none of a slab."""
        weight = weight_beside_lost_n(loads, hung.mounts, hung.width_mm) * hung.lost_weight
        pull = self.lever[where] * (loads.all_n * hung.lost + weight)
        return over(self.factors["gamma_accidental"] * pull, self.sudden_n[where])


def board_weight_n(loads: Loads, width_mm: FloatArray) -> FloatArray:
    """Return what a board weighs with its frame and holds [N]."""
    walls, narrow = loads.walls, loads.bar("b")
    bars = walls.studs * np.maximum(walls.board_mm - 2 * narrow, 0) + 2 * width_mm
    bars = bars + (walls.rows - 1) * np.maximum(width_mm - walls.studs * narrow, 0)
    return np.asarray(walls.board_mm * width_mm * loads.area + bars * loads.bar("n_mm"))


def hung_weight_n(loads: Loads, mounts: int, width_mm: FloatArray) -> FloatArray:
    """Return the weight that hangs on the most loaded one of so many mounts [N].

    What lies half-way to its neighbours, raised for a middle support; never more than half the
    board. Two mounts bear a quarter of the board each, and at least what one of three would.
    """
    f, walls = loads.known.factors, loads.walls
    bays = -(-(walls.studs - 1) // (max(mounts, 3) - 1))
    wide = np.minimum(width_mm, bays * walls.bay_mm)
    bars = (bays + 1) * walls.board_mm / 2 + (1 + walls.rows) * wide / 2
    part = wide * walls.board_mm * loads.area / 2 + bars * loads.bar("n_mm")
    board = board_weight_n(loads, width_mm)
    part = np.minimum(f["self_weight_continuity"] * part, board / 2)
    return np.asarray(np.maximum(part, board / 4) if mounts <= 2 else part)


def weight_beside_lost_n(loads: Loads, mounts: int, width_mm: FloatArray) -> FloatArray:
    """Return the weight that hangs on a mount beside a lost one [N]: twice, but never all."""
    twice = 2 * hung_weight_n(loads, mounts, width_mm)
    return np.asarray(np.minimum(twice, board_weight_n(loads, width_mm) / 2))


def _held(given: Document, code: str, mount: Document, beam: Document) -> tuple[float, ...]:
    """Return the use of room, what it bears along, across and is rated for [N], lever, prising.

    Last what it bears along in an accident [N].

    Without a working load of the maker's that of the screws along their axis is taken.
    """
    f = given["factors"]
    lever = f["lip_reference_board_mm"] / (f["lip_reference_board_mm"] - mount["setback_mm"])
    if beam.get("kind") == "slab":
        return 0.0, math.inf, math.inf, mount["rated_n"] or 0.0, lever, 0.0, math.inf
    lining = beam.get("lining_mm", 0)
    d, deep = mount["diameter_mm"], min(mount["thread_mm"] - lining, beam["depth_mm"])
    prise = _prise(f, mount)
    if deep <= 0:
        return NOTHING_BEARS, 0.0, 0.0, mount["rated_n"] or 0.0, lever, prise, 0.0
    room = max(
        (f["axial_screw_width_d"] * d + mount["row_gap_mm"]) / beam["width_mm"],
        f["axial_screw_depth_d"] * d / beam["depth_mm"],
        f["screw_least_thread_d"] * d / deep if lining else 0.0,
    )
    rho, count = beam_figure(given, beam, "rho_k_kg_m3"), mount["screws"]
    lasts = f["kmod_solid_short"] / f["gamma_m_connection"]
    if code == "NDS":
        thread = count * nds.thread_n_mm(f, rho / 1000, d) * deep
        across = nds.thin_plate_n(f, mount, rho / 1000, deep, lining)
    else:
        thread = count**0.9 * withdrawal_n(f, d, deep, rho)  # (8.41)
        across = _thin_plate_n(mount, rho, deep, lining)
    steel = count * mount["tensile_mpa"] * math.pi * mount["root_mm"] ** 2 / 4  # (8.40c)
    axial = min(lasts * thread, steel / f["gamma_m2_steel"])
    rated = axial / f["gamma_q"] if mount["rated_n"] is None else mount["rated_n"]
    sudden = f["kmod_solid_instantaneous"] / f["gamma_m_accidental"] * thread
    return room, axial, lasts * count * across, rated, lever, prise, min(sudden, steel)


def beam_figure(given: Document, beam: Document, name: str) -> float:
    """Return a figure of a beam's timber; of an unknown grade the least that there is."""
    classes = given["timber_classes"]
    grades = given["graded"] if beam["grade"] is None else [beam["grade"]]
    return float(min(classes[grade][name] for grade in grades))


def _prise(f: Document, mount: Document) -> float:
    """Return the pull along the screws that a level one at the pivot has the effect of [-].

    The plate turns about its edge; the farthest row alone holds it.
    """
    plate, stiff = mount["plate_mm"], mount["stiff_mm"]
    wide = f["mount_plate_d"] * mount["diameter_mm"] if plate is None else plate
    down = mount["drop_mm"] if stiff is None else min(stiff, mount["drop_mm"])
    arm = f["prise_arm_share"] * (wide + mount["row_gap_mm"]) / 2
    return float((2 if mount["row_gap_mm"] else 1) * down / arm)


def _thin_plate_n(mount: Document, rho: float, deep_mm: float, gap_mm: float) -> float:
    """Return Fv,Rk of one screw through a thin plate, square to the grain, without rope effect.

    (8.9) with the embedment of (8.15), (8.16), (8.31); across a lining that bears nothing by
    `gapped_n`, and never more.
    """
    d = 1.1 * mount["root_mm"]
    bears = 0.082 * rho * ((1 - 0.01 * d) / (1.35 + 0.015 * d) if d > 6 else d**-0.3)
    yields = 0.3 * mount["tensile_mpa"] * d**2.6  # (8.14)
    per_mm = bears * d
    plain = min(0.4 * per_mm * deep_mm, 1.15 * math.sqrt(2 * yields * per_mm))
    return float(min(plain, gapped_n(per_mm, yields, deep_mm, gap_mm)) if gap_mm else plain)
