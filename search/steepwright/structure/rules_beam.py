"""Checks of the ceiling beam with what it carries already and the wall's lip."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_mount import design_n, level_n
from steepwright.structure.tables import CeilingBeams
from steepwright.structure.types import FloatArray

_SIDEWAYS = (
    "; {hold_pull_factor} of the climbers' load pulls level at the same time and bends it sideways"
    " (km taken as 1)"
)
_WHERE = (
    "simple span in the middle of the room's width; the climbers hang on the worst mount, half the"
    " board's weight in the worst way on one or two; nothing keeps the beam from tilting"
)


def _lip_n(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return what climbers and self weight put on the beam [N], characteristic."""
    lever = rows.mount.lever
    return rows.all_climbers_n * lever, rows.board_n / 2.0 * lever


def _sideways_nmm(rows: Rows, arm_mm: FloatArray) -> FloatArray:
    """Return the outward pull's level moment, as large as one upright of the same use [Nmm].

    6.1.6 with km = 1: the beam's modulus sideways is b/h of that upright, its kh (3.1) at most
    a little less where a beam is wider than deep, which km = 1 in place of 0.7 outweighs.
    """
    climb, _ = _lip_n(rows)
    level = rows.factor("hold_pull_factor") * climb * arm_mm
    return level * rows.beam.h_mm / rows.beam.b_mm


def _bending(rows: Rows) -> Ratio:
    climb, weight = _lip_n(rows)
    arm_mm = rows.batch.arm_climb_mm
    climbers = climb * arm_mm + _sideways_nmm(rows, arm_mm)
    board = rows.factor("gamma_g") * weight * rows.batch.arm_weight_mm
    load = rows.factor("gamma_q") * climbers + board
    return Ratio(rows.beam.moment_live_nmm + load, rows.beam.moment_d_nmm)


def _bending_lost(rows: Rows) -> Ratio:
    # The existing load keeps its partial factors, which is cautious here.
    climb, weight = _lip_n(rows)
    arm_mm = rows.batch.lost_arm_mm
    board = weight * rows.batch.lost_weight * rows.batch.arm_climb_mm
    load = climb * arm_mm + _sideways_nmm(rows, arm_mm) + board
    moment = rows.beam.moment_live_nmm + rows.factor("gamma_accidental") * load
    return Ratio(moment, rows.beam.moment_d_nmm * rows.tables.loads.accidental)


def _bending_permanent(rows: Rows) -> Ratio:
    _, weight = _lip_n(rows)
    moment = rows.factor("gamma_g") * weight * rows.batch.arm_weight_mm
    strength = rows.beam.moment_d_nmm * rows.tables.loads.permanent
    return Ratio(rows.beam.moment_dead_nmm + moment, strength)


def _bending_without(rows: Rows) -> Ratio:
    return Ratio(rows.beam.moment_live_nmm, rows.beam.moment_d_nmm)


def support_n(rows: Rows) -> FloatArray:
    """Return the greatest design load of one of the beam's supports [N]."""
    climb, weight = _lip_n(rows)
    climbers = rows.factor("gamma_q") * climb * rows.batch.end_climb
    board = rows.factor("gamma_g") * weight * rows.batch.end_weight
    return rows.beam.shear_live_n + climbers + board


def _shear(rows: Rows) -> Ratio:
    return Ratio(support_n(rows), rows.beam.fv_d_mpa * rows.beam.b_mm * rows.beam.h_mm / 1.5)


def _torsion(rows: Rows) -> Ratio:
    torque = level_n(rows) * rows.mount.twist_mm * rows.batch.end_climb
    return Ratio(torque, rows.beam.torsion_d_nmm)


def _shear_and_torsion(rows: Rows) -> Ratio:
    # t + v^2 <= 1 with t and v the uses by twisting and shear, as the least u with
    # t / u + (v / u)^2 <= 1: it grows like the load.
    beam, level = rows.beam, level_n(rows) * rows.batch.end_climb
    twist = _torsion(rows).use
    shear = np.hypot(support_n(rows), level) * 1.5 / (beam.b_mm * beam.h_mm) / beam.fv_d_mpa
    use = (twist + np.sqrt(twist**2 + 4.0 * shear**2)) / 2.0
    return Ratio(use, np.ones_like(use))


def bearing_mm2(rows: Rows, beam: CeilingBeams) -> FloatArray:
    """Return the area that a beam's end bears on, spread along its grain [mm2], 6.1.5(1)."""
    contact = rows.factor("beam_bearing_mm")
    return (contact + min(rows.factor("bearing_extra_mm"), contact)) * beam.b_mm


def _bearing(rows: Rows) -> Ratio:
    return Ratio(support_n(rows), rows.beam.fc90_d_mpa * bearing_mm2(rows, rows.beam))


def _deflection(rows: Rows) -> Ratio:
    loads = rows.tables.loads
    static = loads.static_n * loads.climbers * rows.mount.lever
    _, weight = _lip_n(rows)
    board = weight * (1.0 + rows.factor("kdef_solid")) * rows.batch.sag_weight
    load = static * rows.batch.sag_climb + board
    sag = rows.beam.sag_mm + load * rows.beam.soft_mm_per_n
    return Ratio(sag, rows.beam.span_mm / rows.factor("deflection_beam_ratio"))


def _splitting(rows: Rows) -> Ratio:
    return Ratio(design_n(rows), rows.mount.split_n)


RULES = (
    Rule(
        "ceiling beam bending",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _bending,
        "with its existing load, {beam_permanent_share} of it permanent; " + _WHERE + _SIDEWAYS,
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam, permanent loads",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "Nmm",
        _bending_permanent,
        "permanent part of its load and the board alone, standing or parked; " + _WHERE,
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam, one mount lost",
        "EN 1990 A1.3.2, EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _bending_lost,
        "accidental: climbers and half the board's weight on the worst one of the mounts, with what"
        " they lever on that from a lost corner; simple span in the middle of the room's width",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam without the wall",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _bending_without,
        "existing load alone, to compare; simple span",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam shear",
        "EN 1995-1-1 6.1.7",
        "N",
        _shear,
        "climbers on the mount nearest to a support; cracks by kcr {kcr_solid}",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam torsion",
        "EN 1995-1-1 6.1.8",
        "Nmm",
        _torsion,
        "{hold_pull_factor} of the climbers' load pulls level at the pivot, below the beam, on the"
        " mount nearest to a support; its supports must keep the beam from tilting; cracks by kcr"
        " {kcr_solid} as for shear",
        ("grade", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam shear and torsion",
        "EN 1995-1-1 6.1.7, 6.1.8",
        "-",
        _shear_and_torsion,
        "both at once, upright and level shear too: torsion plus the square of shear (DIN EN"
        " 1995-1-1/NA, from memory), so scaled that it grows like the load",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam bearing",
        "EN 1995-1-1 6.1.5",
        "N",
        _bearing,
        "as for shear; {beam_bearing_mm} mm of bearing: measure it",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam deflection",
        "EN 1995-1-1 Table 7.2",
        "mm",
        _deflection,
        "existing load and board in the end, climbers' static weight, mounts as for"
        " bending; limit: span / {deflection_beam_ratio}",
        ("grade", "load", "place"),
        of="timber",
    ),
    Rule(
        "ceiling beam splitting",
        "EN 1995-1-1 (8.4)",
        "N",
        _splitting,
        "one mount pulls down at the depth its screws reach",
        ("grade", "place"),
        of="timber",
    ),
)
