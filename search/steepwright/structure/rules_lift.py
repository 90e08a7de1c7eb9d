"""Checks of what lifts the wall and holds it parked, for rooms where it folds up.

The force in the lines is bounded over the whole lift by that of the level board
(`rows.lines_n`); the curve of one wall is in the document.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule, Unknown
from steepwright.structure.rules_beam import bearing_mm2
from steepwright.structure.types import FloatArray

_SLOW = "slow lifting, no jerk; holds stay on, the kicker is folded onto the face"
_BLOCKS = (
    ", each with twice its line's force, over the outer studs; simple span in the middle of the"
    " room's width"
)
_LASTS = (
    "; or the permanent part of its load and the blocks, raised as a load that lasts, if that is"
    " more"
)
_KNOWN: tuple[Unknown, ...] = ("lift", "lift grade", "lift load", "lift place")


def _against(rows: Rows, demand: FloatArray, capacity: float) -> Ratio:
    return Ratio(demand, np.full(len(rows.batch), capacity))


def _line(rows: Rows) -> Ratio:
    hoist = rows.tables.hoist
    return _against(rows, rows.lines_n * hoist.share, hoist.line_n)


def _line_lost(rows: Rows) -> Ratio:
    hoist = rows.tables.hoist
    return _against(rows, rows.lines_n * hoist.share_lost, hoist.line_lost_n)


def _block(rows: Rows) -> Ratio:
    hoist = rows.tables.hoist
    return _against(rows, rows.lines_n * hoist.share_lost * hoist.turn, hoist.block_n)


def _brake(rows: Rows) -> Ratio:
    hoist = rows.tables.hoist
    return _against(rows, rows.lines_n / hoist.parts, hoist.brake_n)


def _hand(rows: Rows) -> Ratio:
    hoist = rows.tables.hoist
    return _against(rows, rows.lines_n / hoist.gain, hoist.hand_n)


def _latch(rows: Rows) -> Ratio:
    return _against(rows, rows.lines_n, rows.tables.hoist.latch_n)


def _second(rows: Rows) -> Ratio:
    fold = float(rows.tables.loads.fold_up)
    return _against(rows, np.full(len(rows.batch), 2.0 * fold), rows.tables.hoist.holds)


def _blocks_n(rows: Rows) -> FloatArray:
    """Return what all blocks put on the beam above the eye [N], characteristic; 0 without it."""
    known = (rows.batch.lift_beam >= 0).astype(np.float64) * float(rows.tables.loads.fold_up)
    return rows.lines_n * rows.tables.hoist.turn * known


def _there(rows: Rows, load: FloatArray) -> FloatArray:
    """Return a load of the beam's own where there is a beam above the eye, else 0."""
    return np.where(_blocks_n(rows) > 0.0, load, 0.0)


def _lasting(rows: Rows, dead: FloatArray, live: FloatArray, blocks: FloatArray) -> FloatArray:
    """Return the worse of both combinations, against a strength under short loads.

    Permanent loads alone last; with the beam's other loads the wood bears more (3.1.3).
    """
    lasting = (dead + blocks) / rows.tables.loads.permanent
    return _there(rows, np.maximum(lasting, live + blocks))


def _beam(rows: Rows) -> Ratio:
    lift, blocks = rows.lift, rows.factor("gamma_g") * _blocks_n(rows) * rows.batch.lift_arm_mm
    moment = _lasting(rows, lift.moment_dead_nmm, lift.moment_live_nmm, blocks)
    return Ratio(moment, lift.moment_d_nmm)


def _beam_lost(rows: Rows) -> Ratio:
    # The existing load keeps its partial factors, which is cautious here.
    one = rows.factor("gamma_accidental") * _blocks_n(rows) * rows.batch.lift_arm_lost_mm
    moment = _there(rows, rows.lift.moment_live_nmm + one)
    return Ratio(moment, rows.lift.moment_d_nmm * rows.tables.loads.accidental)


def _beam_support_n(rows: Rows) -> FloatArray:
    blocks = rows.factor("gamma_g") * _blocks_n(rows) * rows.batch.lift_end
    return _lasting(rows, rows.lift.shear_dead_n, rows.lift.shear_live_n, blocks)


def _beam_shear(rows: Rows) -> Ratio:
    lift = rows.lift
    return Ratio(_beam_support_n(rows), lift.fv_d_mpa * lift.b_mm * lift.h_mm / 1.5)


def _beam_bearing(rows: Rows) -> Ratio:
    return Ratio(_beam_support_n(rows), rows.lift.fc90_d_mpa * bearing_mm2(rows, rows.lift))


def _beam_deflection(rows: Rows) -> Ratio:
    # Lifting is short; parked, the board hangs on its latches, once its force, and creeps.
    turn, creep = rows.tables.hoist.turn, 1.0 + rows.factor("kdef_solid")
    worst = _blocks_n(rows) * max(1.0, creep / turn)
    blocks = worst * rows.batch.lift_sag * rows.lift.soft_mm_per_n
    limit = rows.lift.span_mm / rows.factor("deflection_beam_ratio")
    return Ratio(_there(rows, rows.lift.sag_mm + blocks), limit)


RULES = (
    Rule(
        "lifting line",
        "design factor {rope_design_factor} on the rope",
        "N",
        _line,
        "two lines share the load; breaking force x {knot_efficiency} for knots, over"
        " {rope_design_factor}, or the maker's working load if less; weakest rope on offer; "
        + _SLOW,
        of="fold",
    ),
    Rule(
        "lifting line, one lost",
        "design factor {rope_lost_design_factor} on the rope",
        "N",
        _line_lost,
        "the other line holds all; lower the wall and mend it; " + _SLOW,
        of="fold",
    ),
    Rule(
        "lifting block and sling",
        "maker's rating; design factor {block_design_factor}, {sling_design_factor}",
        "N",
        _block,
        "one line lost; its block over the wall turns the other back down: twice its force; "
        + _SLOW,
        of="fold",
    ),
    Rule(
        "hoist brake",
        "maker's rating; design factor {block_design_factor}",
        "N",
        _brake,
        "a tackle of {hoist_parts} parts, friction holds nothing; " + _SLOW,
        of="fold",
    ),
    Rule(
        "hand force on the hoist",
        "HSE L23 guideline filter",
        "N",
        _hand,
        "a tackle of {hoist_parts} parts and one turning block with the poorest sheaves on offer;"
        " {hand_pull_start_kg} kg to start a pull, carriers of the room together; the brake holds;"
        " " + _SLOW,
        of="fold",
    ),
    Rule(
        "latch alone",
        "maker's rating; design factor {block_design_factor}",
        "N",
        _latch,
        "one latch holds the parked wall by itself at the eye; " + _SLOW,
        of="fold",
    ),
    Rule(
        "second independent hold",
        "own demand, no clause",
        "-",
        _second,
        "a raised load over people: the hoist with its brake and {hoist_latches} latches are one"
        " each; they share no eye, line, block or screw",
        of="fold",
    ),
    Rule(
        "lift beam bending",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "Nmm",
        _beam,
        "its load and the blocks" + _BLOCKS + _LASTS,
        _KNOWN,
        of="fold",
    ),
    Rule(
        "lift beam, one line lost",
        "EN 1990 A1.3.2, EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _beam_lost,
        "accidental: the other line's block bears all, with twice its force, at the worse of both"
        " places",
        _KNOWN,
        of="fold",
    ),
    Rule(
        "lift beam shear",
        "EN 1995-1-1 6.1.7, 3.1.3",
        "N",
        _beam_shear,
        "as for its bending; cracks by kcr {kcr_solid}",
        _KNOWN,
        of="fold",
    ),
    Rule(
        "lift beam bearing",
        "EN 1995-1-1 6.1.5, 3.1.3",
        "N",
        _beam_bearing,
        "as for its shear; {beam_bearing_mm} mm of bearing: measure it",
        _KNOWN,
        of="fold",
    ),
    Rule(
        "lift beam deflection",
        "EN 1995-1-1 Table 7.2",
        "mm",
        _beam_deflection,
        "its load in the end, and the blocks"
        + _BLOCKS
        + ", or if that is more the parked board on its latches in the end; limit:"
        " span / {deflection_beam_ratio}",
        _KNOWN,
        of="fold",
    ),
)
