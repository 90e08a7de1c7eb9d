"""Checks of studs, rails and blocking."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.tied import along_n, deflection_share, moment_share
from steepwright.structure.timber import Values
from steepwright.structure.types import FloatArray

_CLIMB = (
    "{climbers} of {climber_kg} kg x {dynamic_factor} (dynamic factor) at the worst place, square"
    " to the board F sin t or {hold_pull_factor} F, whichever is more; load of short duration"
)


def stud_moments_nmm(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return the worst stud's design moments [Nmm] by the climbers and by self weight level."""
    span = rows.batch.board_mm
    climb = rows.factor("gamma_q") * rows.push_n * span / 4.0 * moment_share(rows)
    return climb, rows.factor("gamma_g") * rows.line_n_per_mm * span**2 / 8.0


def bending_resistance_nmm(rows: Rows, free_mm: FloatArray) -> FloatArray:
    """Return kcrit fm,d W of a bar on edge, free to tilt over a length [Nmm] (6.33)."""
    bar, lef_mm = rows.bar, rows.factor("lef_ratio") * free_mm
    tilt = rows.members.stability(bar.tilt_fm_mpa, bar.tilt_mm / lef_mm)
    return np.asarray(bar.fm_d_mpa * bar.modulus_mm3 * tilt)


def pressed_use(
    rows: Rows, bend: FloatArray, axial_n: FloatArray, length_mm: FloatArray
) -> FloatArray:
    """Return the use of a bar bent about its strong axis and pressed along it."""
    bar, slender = rows.bar, rows.bar.slender * length_mm
    squeeze = axial_n / (bar.fc0_d_mpa * bar.b_mm * bar.h_mm)
    buckling = np.asarray(rows.members.buckling(slender))
    return rows.members.together(bend, squeeze / buckling, squeeze * slender**2)


def _stud_bending(rows: Rows) -> Ratio:
    bar, span = rows.bar, rows.batch.board_mm
    climb, weight = stud_moments_nmm(rows)
    bend = (climb + weight * rows.lean) / bending_resistance_nmm(rows, span)
    weight_n = rows.factor("gamma_g") * rows.line_n_per_mm * span
    climb_n = rows.all_climbers_n + along_n(rows, rows.push_n)
    axial = rows.factor("gamma_q") * climb_n + weight_n
    pulled = bend + axial / (bar.ft0_d_mpa * bar.b_mm * bar.h_mm)
    use = np.maximum(pulled, pressed_use(rows, bend, axial, span))
    return Ratio(use, np.ones_like(use))


def _stud_parked(rows: Rows) -> Ratio:
    _, weight = stud_moments_nmm(rows)
    strength = bending_resistance_nmm(rows, rows.batch.board_mm)
    return Ratio(weight, strength * rows.tables.loads.permanent)


def stud_end_n(rows: Rows) -> FloatArray:
    """Return the design force of the worst stud on its end, square to the board [N]."""
    climb = rows.factor("gamma_q") * rows.push_n * rows.share.reaction
    weight = rows.line_n_per_mm * rows.lean * rows.batch.board_mm / 2.0
    return climb + rows.factor("gamma_g") * weight


def shear_resistance_n(rows: Rows) -> FloatArray:
    """Return fv,d b h / 1.5 of the frame's bar, cracks counted in fv,d [N] (6.13)."""
    return rows.bar.fv_d_mpa * rows.bar.b_mm * rows.bar.h_mm / 1.5


def _stud_shear(rows: Rows) -> Ratio:
    return Ratio(stud_end_n(rows), shear_resistance_n(rows))


def _stud_deflection(rows: Rows) -> Ratio:
    span, ei = rows.batch.board_mm, rows.bar.ei_nmm2
    soft = span * span * span / (48.0 * ei)
    climb = rows.push_static_n * soft * deflection_share(rows) / rows.stiffer
    # Self weight lasts, and the screws creep: the bar bears it alone.
    weight = 5.0 / 8.0 * rows.line_n_per_mm * rows.lean * span * soft
    sag = climb + weight * (1.0 + rows.factor("kdef_solid"))
    return Ratio(sag, span / rows.factor("deflection_stud_ratio"))


def _rail_weight_n(rows: Rows, gap_mm: FloatArray, bays: FloatArray | float) -> FloatArray:
    """Return the weight that so much of the lip rail carries, with a stud in each bay [N]."""
    batch, bar = rows.batch, rows.bar
    area = rows.sheet.weight_n_per_mm2 + rows.tables.loads.hold_n_per_mm2
    studs = bays * bar.weight_n_per_mm * batch.board_mm / 2.0
    face = area * batch.board_mm / 2.0 * gap_mm
    blocks = 0.5 * (1.0 + batch.rows) * bar.weight_n_per_mm * gap_mm
    return face + studs + blocks


def _lip_bending(rows: Rows) -> Ratio:
    gap, whole = rows.lip_gap_mm, _rail_weight_n(rows, rows.lip_gap_mm, rows.lip_bays)
    climb = rows.factor("gamma_q") * rows.push_n
    weight = rows.factor("gamma_g") * rows.lean
    between = climb * gap / 4.0 + weight * whole * gap / 8.0
    over = (climb + weight * _tip_weight_n(rows)) * rows.lip.over_mm
    return Ratio(np.maximum(between, over), bending_resistance_nmm(rows, gap))


def _tip_weight_n(rows: Rows) -> FloatArray:
    """Return the weight on the lip rail beyond an outer mount, of a whole bay at most [N]."""
    return _rail_weight_n(rows, rows.batch.bay_mm, 1.0)


def _lip_shear(rows: Rows) -> Ratio:
    climb = rows.factor("gamma_q") * rows.push_n
    whole = _rail_weight_n(rows, rows.lip_gap_mm, rows.lip_bays)
    half = rows.factor("self_weight_continuity") * whole / 2.0
    weight = rows.factor("gamma_g") * np.maximum(half, _tip_weight_n(rows)) * rows.lean
    # Inside an outer mount a load F beyond it shears the rail by (tip_load - 1) F at most.
    climb = climb * np.maximum(rows.batch.tip_load - 1.0, 1.0)
    return Ratio(climb + weight, shear_resistance_n(rows))


def _lip_deflection(rows: Rows) -> Ratio:
    gap, ei = rows.lip_gap_mm, rows.bar.ei_nmm2
    soft = gap * gap * gap / (48.0 * ei)
    weight = 5.0 / 8.0 * _rail_weight_n(rows, gap, rows.lip_bays) * rows.lean * soft
    sag = rows.push_static_n * soft + weight * (1.0 + rows.factor("kdef_solid"))
    return Ratio(sag, gap / rows.factor("deflection_rail_ratio"))


def _lip_lost(rows: Rows) -> Ratio:
    over = rows.lost_gap_mm
    weight = _rail_weight_n(rows, over, rows.lip_bays) * rows.lean
    moment = rows.factor("gamma_accidental") * (rows.push_n + weight / 2.0) * over
    strength = bending_resistance_nmm(rows, over) * rows.tables.loads.accidental
    return Ratio(moment, strength)


def _foot_parked(rows: Rows) -> Ratio:
    width = rows.batch.width_mm
    moment = rows.factor("gamma_g") * rows.board_n / 2.0 * width / 8.0
    strength = bending_resistance_nmm(rows, width) * rows.tables.loads.permanent
    fold = float(rows.tables.loads.fold_up)
    return Ratio(moment * fold, strength)


@dataclass(frozen=True, slots=True)
class BlockingForces:
    """Forces on one piece of blocking between two studs.

    `moment_nmm` [Nmm]; `shear_n` in the piece and `end_n` on the screws at one end [N].
    """

    moment_nmm: Values
    shear_n: Values
    end_n: Values


def seam_blocking(load_n: Values, bay_mm: Values) -> BlockingForces:
    """Return the forces on the blocking under a seam across the slope.

    The sheets' edges hang between the studs, so the piece alone carries a load [N] at the
    seam, as a simple beam over the bay [mm]: mid-span for bending, next to a stud for the
    end screws. Its screwed ends pass no moment on, so it doesn't share load between studs.
    """
    return BlockingForces(load_n * bay_mm / 4.0, load_n, load_n)


def blocking_forces(rows: Rows) -> BlockingForces:
    """Return the design forces on the blocking under a seam across the slope; 0 without one."""
    seam = (rows.batch.rows > 1).astype(np.float64)
    return seam_blocking(rows.factor("gamma_q") * rows.push_n * seam, rows.batch.bay_mm)


def _blocking(rows: Rows) -> Ratio:
    moment = np.asarray(blocking_forces(rows).moment_nmm)
    return Ratio(moment, bending_resistance_nmm(rows, rows.batch.bay_mm))


RULES = (
    Rule(
        "stud bending",
        "EN 1995-1-1 6.2.3, 6.2.4, 6.3.2, 6.3.3",
        "-",
        _stud_bending,
        _CLIMB + "; weight along the slope counted in full and in both directions; neighbours"
        " help through the sheet, but not past a seam across the slope; nothing keeps the stud"
        " from tilting, the sheet's screws keep it from buckling sideways",
        eased=True,
    ),
    Rule(
        "stud shear",
        "EN 1995-1-1 6.1.7",
        "N",
        _stud_shear,
        _CLIMB + "; the load stands at the stud's end; cracks by kcr {kcr_solid}",
    ),
    Rule(
        "stud deflection",
        "limit: own assumption",
        "mm",
        _stud_deflection,
        "static weight of {climbers} of {climber_kg} kg and creep of self weight; a strip of"
        " {composite_strip_mm} mm of sheet helps by Annex B unless a seam across the slope cuts it;"
        " limit: span / {deflection_stud_ratio}",
        eased=True,
        screwed=True,
    ),
    Rule(
        "stud, parked",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "Nmm",
        _stud_parked,
        "board level on its ends, self weight alone as a permanent load",
    ),
    Rule(
        "lip rail bending",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _lip_bending,
        _CLIMB + "; rail as simple spans between mounts, or hanging over an outer one with the"
        " last stud at its tip; the sheet carries the weight along the slope",
    ),
    Rule(
        "lip rail shear",
        "EN 1995-1-1 6.1.7",
        "N",
        _lip_shear,
        _CLIMB
        + "; the load stands beside a mount, {self_weight_continuity} of the weight as on a middle"
        " support; cracks by kcr {kcr_solid}",
    ),
    Rule(
        "lip rail deflection",
        "limit: own assumption",
        "mm",
        _lip_deflection,
        "static weight of {climbers} of {climber_kg} kg and creep of self weight; limit: gap"
        " between mounts / {deflection_rail_ratio}",
    ),
    Rule(
        "lip rail, one mount lost",
        "EN 1990 A1.3.2, EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _lip_lost,
        "accidental: an outer mount has failed, and the rail hangs over the next one with"
        " {climbers} of {climber_kg} kg x {dynamic_factor} at its tip; two mounts are looked at as"
        " three: then the board's own stiffness holds the lost corner: get off and mend it",
    ),
    Rule(
        "foot rail, parked",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "Nmm",
        _foot_parked,
        "board level, held at both ends of its foot; self weight alone as a permanent load",
        of="fold",
    ),
    Rule(
        "seam blocking",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "Nmm",
        _blocking,
        _CLIMB + "; at a seam across the slope a piece on edge carries it all from stud to stud",
    ),
)
