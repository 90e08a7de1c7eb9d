"""Checks of joists along the room that a timber across it hangs from: one joist, one screw."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_mount import level_on_one_n
from steepwright.structure.types import FloatArray


def _there(rows: Rows, demand: FloatArray) -> FloatArray:
    return np.where(rows.spread.hangs, demand, 0.0)


def _on_one_n(rows: Rows) -> FloatArray:
    """Return the design load on one joist: its share of all that hangs from the timber [N]."""
    lever, spread = rows.mount.lever, rows.spread
    climb = rows.factor("gamma_q") * rows.all_climbers_n * lever * rows.batch.tip_load
    board = rows.factor("gamma_g") * (rows.board_n / 2.0 * lever * spread.share + spread.own_n)
    return climb * spread.share + board


def _bending(rows: Rows) -> Ratio:
    spread = rows.spread
    moment = spread.moment_live_nmm + _on_one_n(rows) * spread.reach_mm
    return Ratio(_there(rows, moment), spread.moment_d_nmm)


def _end_n(rows: Rows) -> FloatArray:
    return rows.spread.shear_live_n + _on_one_n(rows) * rows.spread.end


def _shear(rows: Rows) -> Ratio:
    return Ratio(_there(rows, _end_n(rows)), rows.spread.shear_d_n)


def _bearing(rows: Rows) -> Ratio:
    return Ratio(_there(rows, _end_n(rows)), rows.spread.bearing_d_n)


def _deflection(rows: Rows) -> Ratio:
    spread, loads, lever = rows.spread, rows.tables.loads, rows.mount.lever
    static = loads.static_n * loads.climbers * lever * rows.batch.tip_load
    board = rows.board_n / 2.0 * lever * (1.0 + rows.factor("kdef_solid"))
    sag = spread.sag_mm + (static + board) * spread.soft_mm_per_n
    return Ratio(_there(rows, sag), spread.limit_mm)


def _screw(rows: Rows) -> Ratio:
    spread = rows.spread
    pulled = Ratio(_there(rows, _on_one_n(rows)), spread.pull_n).use
    sheared = Ratio(_there(rows, level_on_one_n(rows) * spread.share), spread.lateral_n).use
    use = np.hypot(pulled, sheared)
    return Ratio(use, np.ones_like(use))


def _room(rows: Rows) -> Ratio:
    use = rows.spread.room_use
    return Ratio(use, np.ones_like(use))


_SHARE = (
    "its share of climbers and board by a beam on springs, at the worst place between the outermost"
    " joists; simple span about the middle of the room's length"
)

RULES = (
    Rule(
        "joist bending",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _bending,
        "with its existing load, {beam_permanent_share} of it permanent; "
        + _SHARE
        + "; free to tilt over its span, unless the room says that its upper edge is held",
        ("joist grade", "joist load", "joist place"),
        of="spreader",
    ),
    Rule(
        "joist shear",
        "EN 1995-1-1 6.1.7",
        "N",
        _shear,
        _SHARE + "; cracks by kcr {kcr_solid}",
        ("joist grade", "joist load", "joist place"),
        of="spreader",
    ),
    Rule(
        "joist bearing",
        "EN 1995-1-1 6.1.5",
        "N",
        _bearing,
        _SHARE + "; {joist_bearing_mm} mm of bearing: measure it",
        ("joist grade", "joist load", "joist place"),
        of="spreader",
    ),
    Rule(
        "joists' deflection",
        "EN 1995-1-1 Table 7.2",
        "mm",
        _deflection,
        "existing load and board in the end, climbers' static weight, timber and joists together;"
        " a joist's span over {deflection_beam_ratio}",
        ("joist grade", "joist load", "joist place"),
        of="spreader",
    ),
    Rule(
        "spreader's screw",
        "EN 1995-1-1 8.7.2 (A1), 8.5.2, 8.2, (8.28)",
        "-",
        _screw,
        "one coach screw with a washer of 3 d in each joist; "
        + _SHARE
        + "; {hold_pull_factor} of the climbers' load level; a lining between bears nothing",
        ("joist grade", "joist place"),
        of="spreader",
    ),
    Rule(
        "spreader's screws' room",
        "EN 1995-1-1 Table 8.6 (A1), 8.7.2",
        "-",
        _room,
        "screws in the middle of joists {joist_screw_width_d} d wide and of a timber"
        " {axial_screw_width_d} d wide, {screw_least_thread_d} d of thread; the timber"
        " reaches past the last ones as far as they ask",
        of="spreader",
    ),
)
