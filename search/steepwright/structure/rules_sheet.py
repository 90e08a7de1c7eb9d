"""Checks of the sheet, of holds on it, and of the screws that fix it and the frame."""

from __future__ import annotations

import math

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_frame import blocking_forces, stud_end_n
from steepwright.structure.tables import Tables
from steepwright.structure.types import FloatArray

_ONE = (
    "one climber of {climber_kg} kg x {dynamic_factor} on one hold, square to the sheet F sin t or"
    " {hold_pull_factor} F, whichever is more"
)
_STRIP = (
    "; a strip of {sheet_strip_ratio} of the bay, at most {sheet_strip_limit_mm} mm, carries it"
)


def _one_push_n(rows: Rows) -> FloatArray:
    """Return one climber's load square to the board [N]."""
    return rows.push_n / rows.tables.loads.climbers


def _strip_mm(rows: Rows) -> FloatArray:
    bay = rows.factor("sheet_strip_ratio") * rows.batch.bay_mm
    return np.minimum(bay, rows.factor("sheet_strip_limit_mm"))


def _area_n_per_mm2(rows: Rows) -> FloatArray:
    return rows.sheet.weight_n_per_mm2 + rows.tables.loads.hold_n_per_mm2


def _sheet_bending(rows: Rows) -> Ratio:
    bay = rows.batch.bay_mm
    climb = rows.factor("gamma_q") * _one_push_n(rows) * bay / 4.0 / _strip_mm(rows)
    weight = rows.factor("gamma_g") * _area_n_per_mm2(rows) * rows.lean * bay**2 / 8.0
    return Ratio((climb + weight) * 6.0 / rows.sheet.t_mm**2, rows.sheet.fm_d_mpa)


def _sheet_shear(rows: Rows) -> Ratio:
    climb = rows.factor("gamma_q") * _one_push_n(rows) / rows.factor("sheet_shear_width_mm")
    weight = rows.factor("self_weight_continuity") * _area_n_per_mm2(rows) * rows.lean
    shear = climb + rows.factor("gamma_g") * weight * rows.batch.bay_mm / 2.0
    return Ratio(1.5 * shear / rows.sheet.t_mm, rows.sheet.fr_d_mpa)


def _sheet_deflection(rows: Rows) -> Ratio:
    bay = rows.batch.bay_mm
    stiff = rows.sheet.ei_nmm * _strip_mm(rows)
    sag = rows.factor("sheet_test_load_n") * (bay * bay * bay) / (48.0 * stiff)
    return Ratio(sag, bay / rows.factor("deflection_sheet_ratio"))


def _hold_pull_n(tables: Tables) -> float:
    """Return the design pull on one hold [N]."""
    lever = tables.factors["hold_standoff_mm"] / tables.factors["hold_lever_mm"]
    # Largest of lever cos t + sin t over all angles; the pull at a given angle is never more.
    worst = np.hypot(lever, 1.0)
    return float(tables.factors["gamma_q"] * tables.loads.climber_n * worst)


def _hold(rows: Rows) -> Ratio:
    return Ratio(np.full(len(rows.batch), _hold_pull_n(rows.tables)), rows.sheet.hold_n)


def hold_screws_needed(tables: Tables, sheet: int) -> int:
    """Return how many wood screws hold a hold that has no bolt on a sheet family.

    They are of `hold_screw_mm` and reach through the sheet, or `hold_screw_grip_mm` into it; each
    bears the same. Its pull is that of the hold insert's check.
    """
    one = float(tables.sheets.hold_screw_n[sheet, 0])
    return math.ceil(_hold_pull_n(tables) / one - 1e-9)


def _screw_axial_n(rows: Rows) -> FloatArray:
    # A strip on springs at distance s: the nearest takes P (k / (4 EI s))^(1/4) s / 2, ~ s^(3/4).
    apart = rows.batch.screw_mm / rows.factor("sheet_screw_spacing_mm")
    share = np.minimum(rows.factor("sheet_screw_axial_share") * apart**0.75, 1.0)
    climb = rows.factor("gamma_q") * _one_push_n(rows) * share
    area = rows.batch.screw_mm * rows.batch.bay_mm
    weight = rows.factor("self_weight_continuity") * _area_n_per_mm2(rows) * area * rows.lean
    return climb + rows.factor("gamma_g") * weight


def _screw_lateral_n(rows: Rows) -> FloatArray:
    climb = rows.factor("gamma_q") * rows.tables.loads.climber_n
    area = rows.batch.screw_mm * rows.batch.bay_mm
    weight = rows.factor("self_weight_continuity") * _area_n_per_mm2(rows) * area
    length = rows.factor("sheet_screw_lateral_number") * rows.factor("sheet_screw_spacing_mm")
    number = np.maximum(length / rows.batch.screw_mm, 1.0)
    return climb / number + rows.factor("gamma_g") * weight


def _screw_axial(rows: Rows) -> Ratio:
    return Ratio(_screw_axial_n(rows), rows.joint.axial_n)


def _screw_lateral(rows: Rows) -> Ratio:
    return Ratio(_screw_lateral_n(rows), rows.joint.lateral_n)


def _screw_combined(rows: Rows) -> Ratio:
    # The root of (8.28): at most 1 as (8.28) is, and in proportion to the load.
    bare = Ratio(_screw_lateral_n(rows), rows.joint.bare_n)
    use = np.hypot(_screw_axial(rows).use, bare.use)
    return Ratio(use, np.ones_like(use))


def _screw_thread(rows: Rows) -> Ratio:
    return Ratio(rows.joint.least_thread_mm, rows.joint.thread_mm)


def _seam_edge(rows: Rows) -> Ratio:
    seam = (rows.batch.columns > 1).astype(np.float64)
    return Ratio(rows.joint.seam_mm * seam, rows.bar.b_mm)


def _frame_joint(rows: Rows) -> Ratio:
    return Ratio(stud_end_n(rows), rows.joint.frame_n)


def _blocking_joint(rows: Rows) -> Ratio:
    return Ratio(np.asarray(blocking_forces(rows).end_n), rows.joint.frame_n)


RULES = (
    Rule(
        "sheet bending",
        "EN 1995-1-1 6.1.6",
        "MPa",
        _sheet_bending,
        _ONE + _STRIP + "; simple span from stud to stud, in the weaker direction unless the"
        " face grain runs across the wall",
    ),
    Rule(
        "sheet rolling shear",
        "EN 1995-1-1 6.1.7",
        "MPa",
        _sheet_shear,
        _ONE + "; {sheet_shear_width_mm} mm of sheet carry a hold beside a stud",
    ),
    Rule(
        "sheet deflection",
        "EN 12572-2 4.6",
        "mm",
        _sheet_deflection,
        "{sheet_test_load_n} N between studs; limit: their distance / {deflection_sheet_ratio}"
        + _STRIP,
    ),
    Rule(
        "hold insert",
        "EN 1995-1-1 (8.40b)",
        "N",
        _hold,
        "one climber of {climber_kg} kg x {dynamic_factor} at {hold_standoff_mm} mm from the sheet,"
        " the hold turning about an edge {hold_lever_mm} mm from its bolt; a flange of"
        " {tnut_flange_mm} mm pulls through like a screw head; no test of the insert",
    ),
    Rule(
        "sheet screw pull-out",
        "EN 1995-1-1 8.7.2",
        "N",
        _screw_axial,
        _ONE
        + "; the nearest screw takes {sheet_screw_axial_share} of it at {sheet_screw_spacing_mm} mm"
        " from screw to screw, more when they stand wider; thread, head and steel",
        screwed=True,
    ),
    Rule(
        "sheet screw shear",
        "EN 1995-1-1 8.2.2",
        "N",
        _screw_lateral,
        "one climber of {climber_kg} kg x {dynamic_factor}, shared in the sheet's plane by"
        " {sheet_screw_lateral_number} screws {sheet_screw_spacing_mm} mm apart, by fewer where"
        " they stand wider; with the rope effect, 8.2.2(2)",
        screwed=True,
    ),
    Rule(
        "sheet screw combined",
        "EN 1995-1-1 (8.28)",
        "-",
        _screw_combined,
        "pull-out and shear at once; the root of (8.28), so that the use grows like the load; no"
        " rope effect, for the same screw's thread and head are pulled already; the weight in the"
        " sheet's plane counts in full at any angle",
        screwed=True,
    ),
    Rule(
        "sheet screw thread",
        "EN 1995-1-1 8.7.2(3)",
        "mm",
        _screw_thread,
        "demand: the least thread in the stud, {screw_least_thread_d} diameters; capacity: the"
        " screw's",
    ),
    Rule(
        "seam stud width",
        "EN 1995-1-1 8.3.1.3, Table 8.2",
        "mm",
        _seam_edge,
        "demand: the least width, capacity: the stud's; two sheets meet on one stud: 3 d to the"
        " sheet's edge and 3 d to the edge of a predrilled stud, on both sides",
    ),
    Rule(
        "stud to rail joint",
        "EN 1995-1-1 8.2.2",
        "N",
        _frame_joint,
        "{frame_screws_per_joint} screws through the rail into the stud's end carry a climber at"
        " the stud's end; embedment in end grain {end_grain_embedment_factor} times lower, no rope"
        " effect; the sheet doesn't help",
    ),
    Rule(
        "seam blocking joint",
        "EN 1995-1-1 8.2.2",
        "N",
        _blocking_joint,
        "as the stud's joint; a climber at the blocking's end",
    ),
)
