"""Checks of the ledgers on the side walls that a beam of one's own rests on, one end of it."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_beam import support_n
from steepwright.structure.rules_mount import level_n
from steepwright.structure.types import FloatArray


def _there(rows: Rows, demand: FloatArray) -> FloatArray:
    return np.where(rows.ledger.lies, demand, 0.0)


def _on_one(rows: Rows, down_n: FloatArray, level: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return what one fixing bears along the wall and away from it [N].

    The two fixings nearest to the beam carry its end. The level pull at the pivot also turns the
    ledger in the wall's plane, which the outermost fixings hold; the end's weight stands half a
    thickness off the wall and is held back above the ledger's lower edge.
    """
    ledger = rows.ledger
    turn = level * (rows.mount.twist_mm + ledger.deep_mm / 2.0) / ledger.row_mm
    shear = np.hypot(down_n / 2.0 + turn, level / 2.0)
    pull = down_n / 2.0 * ledger.thick_mm / ledger.deep_mm
    return shear, np.asarray(pull)


def _anchor(rows: Rows) -> Ratio:
    lever, batch = rows.mount.lever, rows.batch
    climb = rows.all_climbers_n * lever * batch.end_climb
    down = climb + rows.board_n / 2.0 * lever * batch.end_weight + rows.beam.shear_live_n
    shear, pull = _on_one(rows, down, rows.factor("hold_pull_factor") * climb)
    demand = np.where(rows.ledger.masonry, _there(rows, np.hypot(shear, pull)), 0.0)
    unknown = np.isnan(rows.ledger.rated_n)
    return Ratio(demand, np.where(unknown, np.maximum(demand, 1.0), rows.ledger.rated_n))


def _screws(rows: Rows) -> Ratio:
    level = level_n(rows) * rows.batch.end_climb
    shear, pull = _on_one(rows, support_n(rows), level)
    sheared = Ratio(_there(rows, shear), rows.ledger.lateral_n).use
    pulled = Ratio(_there(rows, pull), rows.ledger.pull_n).use
    use = np.hypot(sheared, pulled)
    return Ratio(use, np.ones_like(use))


def _room(rows: Rows) -> Ratio:
    use = rows.ledger.room_use
    return Ratio(use, np.ones_like(use))


def _bending(rows: Rows) -> Ratio:
    moment = support_n(rows) * rows.ledger.apart_mm / 4.0
    return Ratio(_there(rows, moment), rows.ledger.moment_nmm)


def _shear(rows: Rows) -> Ratio:
    return Ratio(_there(rows, support_n(rows)), rows.ledger.shear_n)


def _bearing(rows: Rows) -> Ratio:
    return Ratio(_there(rows, support_n(rows)), rows.ledger.bearing_n)


_END = "the climbers on the mount nearest to one wall"

RULES = (
    Rule(
        "ledger anchor working load",
        "anchor's approval",
        "N",
        _anchor,
        _END + ", {hold_pull_factor} of their load level; the two anchors nearest to the beam carry"
        " all, the outermost keep the ledger from turning; without partial factors against the load"
        " that one is rated for in any direction; the wall itself isn't checked",
        ("ledger anchor",),
        of="ledger",
    ),
    Rule(
        "ledger screws",
        "EN 1995-1-1 8.2.2, 8.7.2 (A1), (8.28)",
        "-",
        _screws,
        _END + ", {hold_pull_factor} of their load level; the screws in the two studs nearest to"
        " the beam carry all, 5 d apart; studs of the least class; no rope effect; the wall itself"
        " isn't checked",
        ("grade",),
        of="ledger",
    ),
    Rule(
        "ledger screws' room",
        "EN 1995-1-1 Table 8.4, 8.7.2 (A1)",
        "-",
        _room,
        "{bolt_loaded_edge_d} d below and {bolt_unloaded_edge_d} d above in the ledger,"
        " {bolt_unloaded_edge_d} d to both sides in a stud, {screw_least_thread_d} d of thread in"
        " it",
        of="ledger",
    ),
    Rule(
        "ledger bending",
        "EN 1995-1-1 6.1.6",
        "Nmm",
        _bending,
        _END + "; the beam's end midway between two fixings, a simple span",
        ("grade",),
        of="ledger",
    ),
    Rule(
        "ledger shear",
        "EN 1995-1-1 6.1.7",
        "N",
        _shear,
        _END + "; all of it beside a fixing; cracks by kcr {kcr_solid}",
        ("grade",),
        of="ledger",
    ),
    Rule(
        "ledger bearing",
        "EN 1995-1-1 6.1.5",
        "N",
        _bearing,
        _END + "; the beam lies on the ledger's whole thickness; it must be kept from rolling and"
        " sliding, which isn't checked",
        ("grade",),
        of="ledger",
    ),
)
