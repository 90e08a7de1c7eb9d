"""Checks of the kicker under the board's foot, its hinges and its hold on the floor."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_frame import pressed_use
from steepwright.structure.types import FloatArray


def _stands(rows: Rows) -> FloatArray:
    return (rows.batch.kicker_mm > 0.0).astype(np.float64)


def _foot_n(rows: Rows) -> FloatArray:
    """Return the design load of one upright [N]: all climbers, and half a stud's weight."""
    weight = rows.line_n_per_mm * (rows.batch.board_mm / 2.0 + rows.batch.kicker_mm)
    return rows.factor("gamma_q") * rows.all_climbers_n + rows.factor("gamma_g") * weight


def _pull_n(rows: Rows) -> float:
    return rows.factor("gamma_q") * rows.factor("hold_pull_factor") * rows.all_climbers_n


def _upright(rows: Rows) -> Ratio:
    bar, height = rows.bar, rows.batch.kicker_mm
    bend = _pull_n(rows) * height / 4.0 / (bar.fm_d_mpa * bar.modulus_mm3)
    use = pressed_use(rows, bend, _foot_n(rows), height) * _stands(rows)
    return Ratio(use, np.ones_like(use))


def _plate(rows: Rows) -> Ratio:
    bar = rows.bar
    contact = bar.b_mm + np.minimum(rows.factor("bearing_extra_mm"), bar.b_mm)
    strength = rows.factor("kc90_default") * bar.fc90_d_mpa * contact * bar.h_mm
    return Ratio(_foot_n(rows) * _stands(rows), strength)


def _hinge(rows: Rows) -> Ratio:
    one = rows.factor("hinge_share") * rows.tables.loads.climber_n
    pull = rows.factor("hold_pull_factor") * one
    fold = float(rows.tables.loads.fold_up)
    demand = pull * fold * _stands(rows)
    return Ratio(demand, np.full(len(rows.batch), rows.tables.hinge_n))


def _floor(rows: Rows) -> Ratio:
    strength = rows.joint.frame_n * rows.batch.stud_count
    return Ratio(np.full(len(rows.batch), _pull_n(rows)), strength)


RULES = (
    Rule(
        "kicker upright",
        "EN 1995-1-1 6.3.2",
        "-",
        _upright,
        "{climbers} of {climber_kg} kg x {dynamic_factor} on one upright, and"
        " {hold_pull_factor} of it outward at its middle",
    ),
    Rule(
        "kicker plate bearing",
        "EN 1995-1-1 6.1.5",
        "N",
        _plate,
        "an outer upright on the bottom plate, kc,90 = {kc90_default}",
    ),
    Rule(
        "kicker hinge",
        "maker's rating",
        "N",
        _hinge,
        "the outward pull, {hold_pull_factor} of one climber of {climber_kg} kg x"
        " {dynamic_factor}, {hinge_share} of it on one hinge; the weakest hinge on offer; the"
        " board's weight stands in the line of the kicker's face, whose sheet stands on the floor,"
        " so it pushes no hinge level",
        of="fold",
    ),
    Rule(
        "floor fixing",
        "EN 1995-1-1 8.2.2",
        "N",
        _floor,
        "the outward pull, {hold_pull_factor} of {climbers} x {climber_kg} kg x {dynamic_factor},"
        " at the foot: as many frame screws at each upright as in a stud's joint, all on the bill,"
        " into a timber floor, or anchors as strong; they also keep the kicker from tipping where"
        " a hold stands out from it, which isn't checked; friction isn't counted",
    ),
)
