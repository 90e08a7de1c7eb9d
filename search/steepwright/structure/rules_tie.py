"""Checks of ties from the studs' middle back to a second beam, and of that beam."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_beam import bearing_mm2
from steepwright.structure.rules_frame import bending_resistance_nmm, pressed_use
from steepwright.structure.tie_share import most_of_load
from steepwright.structure.tied import tie_beam, tie_loads_n, weights_n
from steepwright.structure.types import FloatArray

_ALL = (
    "the tie beside {climbers} of {climber_kg} kg x {dynamic_factor} takes as much of the load"
    " square to the board, and of its stud's weight, as a firm support there: half-way up all, and"
    " five eighths"
)
_BEAM = (
    "its existing load and one tie at the worst place, " + _ALL + "; all ties' share of the weight"
    " there too; simple span, nothing keeps the beam from tilting"
)
_BOLT = "bolt M{lip_bolt_mm} with washers through the middle of the depth; "


def _design_n(rows: Rows) -> FloatArray:
    climb, weight = tie_loads_n(rows)
    return rows.factor("gamma_q") * climb + rows.factor("gamma_g") * weight


def _none(use: FloatArray, rows: Rows) -> Ratio:
    """Return a ratio of 1 that is 0 where there is no tie."""
    return Ratio(np.where(rows.tied, use, 0.0), np.ones(len(rows.batch)))


def undone_use(rows: Rows) -> FloatArray:
    """Return the use of studs whose ties are undone, by an accident; less than without any.

    Every partial factor is less, and the strength under a shorter action more, than in the check
    of studs that have no ties.
    """
    bar, span = rows.bar, rows.batch.board_mm
    climb = rows.push_n * span / 4.0 * rows.share.moment
    weight = rows.line_n_per_mm * span**2 / 8.0 * rows.lean
    accidental = rows.factor("gamma_accidental") / rows.tables.loads.accidental
    bend = accidental * (climb + weight) / bending_resistance_nmm(rows, span)
    axial = accidental * (rows.all_climbers_n + rows.line_n_per_mm * span)
    pulled = bend + axial / (bar.ft0_d_mpa * bar.b_mm * bar.h_mm)
    return np.maximum(pulled, pressed_use(rows, bend, axial, span))


def _undone(rows: Rows) -> Ratio:
    return _none(undone_use(rows), rows)


def _line(rows: Rows) -> Ratio:
    climb, weight = tie_loads_n(rows)
    return Ratio(climb + weight, rows.tie.rated_n)


def _reach(rows: Rows) -> Ratio:
    return Ratio(np.where(rows.tied, rows.batch.tie_mm, 0.0), rows.tie.reach_mm)


def _stud_bolt(rows: Rows) -> Ratio:
    return Ratio(_design_n(rows), rows.tables.ties.studs.bolt_n[rows.batch.timber])


def _stud_split(rows: Rows) -> Ratio:
    return Ratio(_design_n(rows), rows.tables.ties.studs.split_n[rows.batch.timber])


def _stud_room(rows: Rows) -> Ratio:
    return _none(rows.tables.ties.studs.room_use[rows.batch.timber], rows)


def _eye_bolt(rows: Rows) -> Ratio:
    ties, load = rows.tables.ties, _design_n(rows)
    return _none(load * np.hypot(1.0 / ties.pull_n, 1.0 / ties.shear_n), rows)


def _beam_split(rows: Rows) -> Ratio:
    load = _design_n(rows)
    return Ratio(load, np.full(len(load), rows.tables.ties.split_n))


def _askew(rows: Rows) -> FloatArray:
    """Return by how much a pull in the worst direction bends the beam more than upright [-].

    cos + (h/b) sin is at most the root of 1 + (h/b)^2: 6.1.6 with km = 1.
    """
    beam = tie_beam(rows)
    return np.asarray(np.hypot(1.0, beam.h_mm / beam.b_mm))


def _bending(rows: Rows) -> Ratio:
    beam = tie_beam(rows)
    climb, _ = tie_loads_n(rows)
    load = rows.factor("gamma_q") * climb + rows.factor("gamma_g") * weights_n(rows)
    moment = load * beam.span_mm / 4.0 * _askew(rows)
    return _none((beam.moment_live_nmm + moment) / beam.moment_d_nmm, rows)


def _permanent(rows: Rows) -> Ratio:
    beam = tie_beam(rows)
    load = rows.factor("gamma_g") * weights_n(rows)
    moment = beam.moment_dead_nmm + load * beam.span_mm / 4.0 * _askew(rows)
    return _none(moment / (beam.moment_d_nmm * rows.tables.loads.permanent), rows)


def _support_n(rows: Rows) -> FloatArray:
    climb, _ = tie_loads_n(rows)
    load = rows.factor("gamma_q") * climb + rows.factor("gamma_g") * weights_n(rows)
    return tie_beam(rows).shear_live_n + load


def _shear(rows: Rows) -> Ratio:
    beam = tie_beam(rows)
    return _none(_support_n(rows) / (beam.fv_d_mpa * beam.b_mm * beam.h_mm / 1.5), rows)


def _bearing(rows: Rows) -> Ratio:
    beam = tie_beam(rows)
    return _none(_support_n(rows) / (beam.fc90_d_mpa * bearing_mm2(rows, beam)), rows)


def _deflection(rows: Rows) -> Ratio:
    beam = tie_beam(rows)
    most = most_of_load(rows.batch.tie_place)
    static = rows.push_static_n * rows.share.reaction * most / rows.batch.tie_cos
    load = static + weights_n(rows) * (1.0 + rows.factor("kdef_solid"))
    sag = beam.sag_mm + load * beam.soft_mm_per_n
    return _none(sag / beam.span_mm * rows.factor("deflection_beam_ratio"), rows)


RULES = (
    Rule(
        "stud bending, ties undone",
        "EN 1990 A1.3.2, EN 1995-1-1 6.2.3, 6.2.4, 6.3.2, 6.3.3",
        "-",
        _undone,
        "accidental: climbers on the worst place of a board whose ties are slack or forgotten",
        of="tie",
    ),
    Rule(
        "tie working load",
        "maker's rating",
        "N",
        _line,
        _ALL + "; without partial factors against the maker's working load of the set",
        of="tie",
    ),
    Rule(
        "tie length",
        "maker's sizes",
        "mm",
        _reach,
        "straight from its place on the stud to the beam, at the board's face, against the"
        " longest distance that the set bridges",
        of="tie",
    ),
    Rule(
        "tie bolt at the stud",
        "EN 1995-1-1 8.2.3, 8.5.1.1",
        "N",
        _stud_bolt,
        _BOLT + _ALL + "; thin plate on one side, no rope effect",
        of="tie",
    ),
    Rule(
        "stud splitting at the tie",
        "EN 1995-1-1 (8.4)",
        "N",
        _stud_split,
        _BOLT + _ALL + ", all on one side of the bolt",
        of="tie",
    ),
    Rule(
        "tie bolt's room in the stud",
        "EN 1995-1-1 Table 8.4",
        "-",
        _stud_room,
        "{bolt_loaded_edge_d} d to the edge the bolt pulls to, {bolt_unloaded_edge_d} d to the"
        " other",
        of="tie",
    ),
    Rule(
        "tie bolt at the beam",
        "EN 1995-1-1 8.2.3, 8.5.2, (8.28)",
        "-",
        _eye_bolt,
        "eye " + _BOLT + _ALL + "; pull and shear each as large as the tie's force, in whatever"
        " direction it comes; the root of (8.28)",
        ("tie grade",),
        of="tie",
    ),
    Rule(
        "tie beam splitting",
        "EN 1995-1-1 (8.4)",
        "N",
        _beam_split,
        _BOLT + _ALL,
        ("tie grade",),
        of="tie",
    ),
    Rule(
        "tie beam bending",
        "EN 1995-1-1 6.1.6, 6.3.3",
        "-",
        _bending,
        _BEAM + "; in the worst direction between upright and level (km taken as 1)",
        ("tie grade", "tie load"),
        of="tie",
    ),
    Rule(
        "tie beam, permanent loads",
        "EN 1995-1-1 6.1.6, 6.3.3, 3.1.3",
        "-",
        _permanent,
        "permanent part of its load and all ties' share of the board's weight at mid-span",
        ("tie grade", "tie load"),
        of="tie",
    ),
    Rule(
        "tie beam shear",
        "EN 1995-1-1 6.1.7",
        "-",
        _shear,
        _BEAM + "; beside a support",
        ("tie grade", "tie load"),
        of="tie",
    ),
    Rule(
        "tie beam bearing",
        "EN 1995-1-1 6.1.5",
        "-",
        _bearing,
        "as for shear; {beam_bearing_mm} mm of bearing: measure it",
        ("tie grade", "tie load"),
        of="tie",
    ),
    Rule(
        "tie beam deflection",
        "EN 1995-1-1 Table 7.2",
        "-",
        _deflection,
        "existing load and weight in the end, climbers' static weight on one tie at mid-span; span"
        " over {deflection_beam_ratio}",
        ("tie grade", "tie load"),
        of="tie",
    ),
)
