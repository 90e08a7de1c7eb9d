"""Checks of what lifts the wall and holds it parked, for rooms where it folds up.

The force in the lines is bounded over the whole lift by that of the level board
(`rows.lines_n`); the curve of one wall is in the document.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.types import FloatArray

_SLOW = "slow lifting, no jerk; holds stay on, the kicker is folded onto the face"


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


def _beam(rows: Rows) -> Ratio:
    lines = rows.factor("gamma_g") * rows.lines_n * rows.tables.hoist.turn
    known = (rows.batch.lift_beam >= 0).astype(np.float64) * float(rows.tables.loads.fold_up)
    blocks = lines * rows.lift.span_mm / 4.0
    # Permanent loads alone last; with the beam's other loads the wood bears more (3.1.3).
    lasting = (rows.lift.moment_dead_nmm + blocks) / rows.tables.loads.permanent
    moment = np.maximum(lasting, rows.lift.moment_live_nmm + blocks)
    return Ratio(moment * known, rows.lift.moment_d_nmm)


RULES = (
    Rule(
        "lifting line",
        "design factor {rope_design_factor} on the rope",
        "N",
        _line,
        "two lines share the load; breaking force x {knot_efficiency} for knots, over"
        " {rope_design_factor}, or the maker's working load if less; weakest rope on offer; "
        + _SLOW,
    ),
    Rule(
        "lifting line, one lost",
        "design factor {rope_lost_design_factor} on the rope",
        "N",
        _line_lost,
        "the other line holds all; lower the wall and mend it; " + _SLOW,
    ),
    Rule(
        "lifting block and sling",
        "maker's rating; design factor {block_design_factor}, {sling_design_factor}",
        "N",
        _block,
        "one line lost; its block over the wall turns the other back down: twice its force; "
        + _SLOW,
    ),
    Rule(
        "hoist brake",
        "maker's rating; design factor {block_design_factor}",
        "N",
        _brake,
        "a tackle of {hoist_parts} parts, friction holds nothing; " + _SLOW,
    ),
    Rule(
        "hand force on the hoist",
        "HSE L23 guideline filter",
        "N",
        _hand,
        "a tackle of {hoist_parts} parts and one turning block with the poorest sheaves on offer;"
        " {hand_pull_start_kg} kg to start a pull, carriers of the room together; the brake holds;"
        " " + _SLOW,
    ),
    Rule(
        "latch alone",
        "maker's rating; design factor {block_design_factor}",
        "N",
        _latch,
        "one latch holds the parked wall by itself at the eye; " + _SLOW,
    ),
    Rule(
        "second independent hold",
        "own demand, no clause",
        "-",
        _second,
        "a raised load over people: the hoist with its brake and {hoist_latches} latches are one"
        " each; they share no eye, line, block or screw",
    ),
    Rule(
        "lift beam bending",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "Nmm",
        _beam,
        "its load and both blocks at mid-span, each with twice its line's force; or the permanent"
        " part of its load and the blocks, raised as a load that lasts, if that is more",
        ("lift", "lift grade", "lift load", "lift place"),
    ),
)
