"""Checks of the bolts that fix each mount's plate to the lip rail."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_mount import design_n, lost_n
from steepwright.structure.types import FloatArray

_BOLTS = "{lip_bolts} bolts M{lip_bolt_mm} with washers through the rail's narrow side, one mount"


def _square_n(rows: Rows) -> FloatArray:
    """Return the design load of one mount square to the board [N]."""
    weight = rows.factor("gamma_g") * rows.hang_n * rows.lean
    climb = rows.factor("gamma_q") * rows.push_n * rows.batch.tip_load
    return (climb + weight) * rows.mount.lever


def _pull(rows: Rows) -> Ratio:
    return Ratio(design_n(rows), rows.lip.axial_n)


def _shear(rows: Rows) -> Ratio:
    return Ratio(_square_n(rows), rows.lip.lateral_n)


def _combined(rows: Rows) -> Ratio:
    use = np.hypot(_pull(rows).use, _shear(rows).use)
    return Ratio(use, np.ones_like(use))


def _lost(rows: Rows) -> Ratio:
    return Ratio(lost_n(rows), rows.lip.lost_n)


def _parked(rows: Rows) -> Ratio:
    weight = rows.factor("gamma_g") * rows.hang_n * rows.mount.lever
    return Ratio(weight, rows.lip.lateral_n * rows.tables.loads.permanent)


def _splitting(rows: Rows) -> Ratio:
    return Ratio(_square_n(rows), rows.lip.split_n)


def _room(rows: Rows) -> Ratio:
    # tip_load - 1 is no less than over / gap, the gap between the outer mount and the next one.
    apart = (rows.batch.tip_load - 1.0) * rows.lip.apart_mm / rows.lip.over_mm
    use = np.maximum(rows.lip.room_use, apart)
    return Ratio(use, np.ones_like(use))


RULES = (
    Rule(
        "lip bolts, pull",
        "EN 1995-1-1 8.5.2",
        "N",
        _pull,
        _BOLTS + " carries all climbers and its weight; washers of 3 d bear on the rail; the"
        " maker's rating is checked besides",
    ),
    Rule(
        "lip bolts, shear",
        "EN 1995-1-1 8.2.3, 8.5.1.1",
        "N",
        _shear,
        _BOLTS + " carries all climbers square to the board, F sin t or {hold_pull_factor} F,"
        " whichever is more; thin plate",
    ),
    Rule(
        "lip bolts combined",
        "EN 1995-1-1 (8.28)",
        "-",
        _combined,
        "the whole load as a pull and its part square to the board at once; the root of (8.28),"
        " which is written for screws",
    ),
    Rule(
        "lip bolts, one mount lost",
        "EN 1990 A1.3.2",
        "N",
        _lost,
        "accidental: the next mount takes over the climbers and the lost one's weight, and what"
        " they lever on it at the lost corner",
    ),
    Rule(
        "lip bolts, parked",
        "EN 1995-1-1 8.2.3, 3.1.3",
        "N",
        _parked,
        "board level: its weight, as a permanent load, square to the bolts",
    ),
    Rule(
        "lip rail splitting",
        "EN 1995-1-1 (8.4)",
        "N",
        _splitting,
        "bolts in the middle of the rail's depth, at least {bolt_loaded_edge_d} d from the edge"
        " they push to",
    ),
    Rule(
        "lip bolts' room",
        "EN 1995-1-1 Table 8.4",
        "-",
        _room,
        "{bolt_loaded_edge_d} d to the edge the bolts push to, {bolt_unloaded_edge_d} d to the"
        " other, {lip_bolt_apart_d} d from one to the next; an outer mount's bolts stand on the"
        " last stud's inner side, {lip_bolt_end_d} d and {lip_bolt_end_mm} mm or more from the"
        " rail's end (table 8.4, from memory), their washers clear of the studs",
    ),
)
