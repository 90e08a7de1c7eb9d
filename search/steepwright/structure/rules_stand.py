"""Checks of a freestanding frame: that it stands, doesn't slide, and that its members hold.

One side carries the share of the mounts nearest to it. Along the room it is a post on a pin at
its foot, propped by the brace it leans on; the level pull at its head is balanced by the foot's
ends. What holds it down counts with the least it can be: the board's weight not at all.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.beam import overhang_deflection_mm, overhang_moment_nmm
from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.types import FloatArray


def _there(rows: Rows, demand: FloatArray) -> FloatArray:
    return np.where(rows.stand.stands, demand, 0.0)


def _climbers_n(rows: Rows) -> FloatArray:
    """Return the design weight of the climbers on one side [N]."""
    return rows.factor("gamma_q") * rows.all_climbers_n * rows.mount.lever * rows.batch.end_climb


def _pull_n(rows: Rows) -> FloatArray:
    """Return the design level pull along the room at one side's head [N]."""
    return rows.factor("hold_pull_factor") * _climbers_n(rows)


def _sideways_n(rows: Rows) -> FloatArray:
    """Return the design level load across the room, on the whole frame [N]."""
    all_n = rows.factor("gamma_q") * rows.all_climbers_n * rows.mount.lever
    return rows.factor("frame_sideways_share") * all_n


def _down_n(rows: Rows) -> FloatArray:
    """Return the greatest design weight on one side, its own included [N]."""
    board = rows.board_n / 2.0 * rows.mount.lever * rows.batch.end_weight
    return _climbers_n(rows) + rows.factor("gamma_g") * (board + rows.stand.weight_n)


def _reach_mm(rows: Rows) -> FloatArray:
    return rows.stand.foot_mm - rows.factor("frame_toe_mm")


def _prop_n(rows: Rows) -> FloatArray:
    """Return the level force of the brace on the post [N]."""
    return _pull_n(rows) * rows.stand.top_mm / rows.stand.brace_up_mm


def _brace_force_n(rows: Rows) -> FloatArray:
    reach = _reach_mm(rows)
    return _prop_n(rows) * np.hypot(reach, rows.stand.brace_up_mm) / reach


def _knee_force_n(rows: Rows) -> FloatArray:
    """Return the force of the brace across the room at one post's head [N]."""
    lever = rows.stand.top_mm / rows.factor("frame_knee_mm")
    return np.asarray(_sideways_n(rows) / np.sqrt(2.0) * lever)


def _tips(rows: Rows) -> Ratio:
    stand = rows.stand
    own = rows.factor("gamma_g_favourable") * stand.weight_n
    moment = _pull_n(rows) * stand.top_mm
    return Ratio(_there(rows, moment), (_climbers_n(rows) + own) * stand.foot_mm)


def _tips_sideways(rows: Rows) -> Ratio:
    stand = rows.stand
    own = rows.factor("gamma_g_favourable") * stand.weight_n * stand.span_mm
    whole = rows.factor("gamma_q") * rows.all_climbers_n * rows.mount.lever
    # end_climb is the nearest support's share, so the climbers hang (1 - end_climb) spans off it.
    climbers = whole * np.maximum(1.0 - rows.batch.end_climb, 0.0) * stand.span_mm
    return Ratio(_there(rows, _sideways_n(rows) * stand.top_mm), own + climbers)


def _slides(rows: Rows) -> Ratio:
    stand, rub = rows.stand, rows.factor("friction_timber_floor")
    held = rub * (_climbers_n(rows) + rows.factor("gamma_g_favourable") * stand.weight_n)
    demand = _there(rows, np.maximum(_pull_n(rows) - held, 0.0))
    unknown = np.isnan(stand.fixing_n)
    return Ratio(demand, np.where(unknown, np.maximum(demand, 1.0), stand.fixing_n))


def _post(rows: Rows) -> Ratio:
    stand = rows.stand
    force = _down_n(rows) + _pull_n(rows) * stand.top_mm / _reach_mm(rows)
    moment = overhang_moment_nmm(_pull_n(rows), stand.top_mm - stand.brace_up_mm)
    use = force / stand.post_n + moment / stand.post_along_nmm
    return Ratio(_there(rows, use), np.ones_like(use))


def _post_across(rows: Rows) -> Ratio:
    stand = rows.stand
    high = np.maximum(stand.top_mm - rows.factor("frame_knee_mm"), 0.0)
    tilt = _sideways_n(rows) * stand.top_mm / stand.span_mm
    force = _down_n(rows) + tilt + _knee_force_n(rows) / np.sqrt(2.0)
    use = force / stand.post_n + _sideways_n(rows) / 2.0 * high / stand.post_across_nmm
    return Ratio(_there(rows, use), np.ones_like(use))


def _brace(rows: Rows) -> Ratio:
    force = np.maximum(_brace_force_n(rows), _knee_force_n(rows))
    return Ratio(_there(rows, force), rows.stand.brace_n)


def _joint(rows: Rows) -> Ratio:
    force = np.maximum(_brace_force_n(rows), _knee_force_n(rows))
    return Ratio(_there(rows, force), rows.stand.joint_n)


def _head_joint(rows: Rows) -> Ratio:
    """Return the worst use of the cheeks that clasp post and head beam.

    The level pull at the head beam's top turns a cheek about its lower end, where its bolt in the
    post pulls and its timber bends. Across the room a bolt bears what
    the brace's level force exceeds the load by, and its upright force.
    """
    stand, pull, across = rows.stand, _pull_n(rows), _sideways_n(rows) / 2.0
    leg = rows.factor("frame_cheek_mm")
    tension = pull * (stand.head_mm + leg) / (leg - stand.clasp_mm) / stand.clasp_n
    bent = pull * (stand.head_mm + stand.clasp_mm) / stand.cheek_nmm
    lever = stand.top_mm / rows.factor("frame_knee_mm")
    shear = across * np.hypot(np.maximum(lever - 1.0, 0.0), lever) / stand.cheek_n
    use = np.maximum(np.maximum(tension, bent), shear)
    return Ratio(_there(rows, use), np.ones_like(use))


def _foot_joint(rows: Rows) -> Ratio:
    """Return the load of the bolts between a post and its foot: level, and where the brace lifts.

    What the frame and the board weigh isn't counted against the lift.
    """
    stand, pull = rows.stand, _pull_n(rows)
    level = _prop_n(rows) - pull
    lift = np.maximum(pull * stand.top_mm / _reach_mm(rows) - _climbers_n(rows), 0.0)
    return Ratio(_there(rows, np.hypot(level, lift)), stand.cheek_n)


def _bolts_room(rows: Rows) -> Ratio:
    use = rows.stand.bolts_use
    return Ratio(_there(rows, use), np.ones_like(use))


def _foot(rows: Rows) -> Ratio:
    bent = _down_n(rows) * rows.factor("frame_toe_mm") / rows.stand.foot_nmm
    use = _prop_n(rows) / rows.stand.foot_n + bent
    return Ratio(_there(rows, use), np.ones_like(use))


def _floor(rows: Rows) -> Ratio:
    force = _down_n(rows) + _pull_n(rows) * rows.stand.top_mm / _reach_mm(rows)
    return Ratio(_there(rows, force), rows.stand.floor_n)


def _sway(rows: Rows) -> Ratio:
    stand, loads = rows.stand, rows.tables.loads
    static = loads.static_n * loads.climbers * rows.mount.lever * rows.batch.end_climb
    pull = rows.factor("hold_pull_factor") * static
    bent = overhang_deflection_mm(
        pull, stand.top_mm - stand.brace_up_mm, stand.brace_up_mm, stand.ei_nmm2
    )
    lever = np.hypot(_reach_mm(rows), stand.brace_up_mm) / _reach_mm(rows)
    lever = lever * stand.top_mm / stand.brace_up_mm
    sway = bent + pull * lever * lever / stand.spring_n_per_mm
    return Ratio(_there(rows, sway), stand.top_mm / rows.factor("frame_sway_ratio"))


_SIDE = "climbers on the mount nearest to one side; {hold_pull_factor} of their load pulls level"

RULES = (
    Rule(
        "frame tips over",
        "EN 1990 6.4.1 (EQU)",
        "Nmm",
        _tips,
        _SIDE + ", at the head beam's upper side, about the foot's end; their weight, the same"
        " action, and {gamma_g_favourable} of the frame's hold it down; the board's weight isn't"
        " counted",
        of="frame",
    ),
    Rule(
        "frame tips sideways",
        "EN 1990 6.4.1 (EQU)",
        "Nmm",
        _tips_sideways,
        "{frame_sideways_share} of the climbers' load across the room, about one post; held down by"
        " their weight on the nearest mount and {gamma_g_favourable} of the frame's",
        of="frame",
    ),
    Rule(
        "frame slides",
        "EN 1990 6.4.1 (EQU), rating",
        "N",
        _slides,
        _SIDE + "; what friction of {friction_timber_floor} doesn't hold, on what holds one foot to"
        " the floor",
        ("floor",),
        of="frame",
    ),
    Rule(
        "frame post",
        "EN 1995-1-1 (6.23, 6.24)",
        "-",
        _post,
        _SIDE
        + "; the brace it leans on props it; it buckles over twice its height; weakened by a bolt",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame post, sideways",
        "EN 1995-1-1 (6.23, 6.24)",
        "-",
        _post_across,
        "{frame_sideways_share} of the climbers' load across the room, half on each post, braced"
        " {frame_knee_mm} mm below its head; it buckles over twice its height",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame brace",
        "EN 1995-1-1 6.1.2, 6.3.2",
        "N",
        _brace,
        _SIDE
        + "; the brace it leans on takes all, pushed; or the one across the room, also pulled",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame brace's joint",
        "EN 1995-1-1 (8.6, 8.31, 8.34)",
        "N",
        _joint,
        "{frame_bolts_per_joint} bolts M{frame_bolt_mm} of class 4.6 in single shear, 5 d apart,"
        " 7 d from the brace's end; the post square to its grain; no rope effect",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame head's joint",
        "EN 1995-1-1 (8.6, 8.31), 8.5.2, 6.1.6",
        "-",
        _head_joint,
        "two cheeks of the braces' section clasp post and head beam, one bolt M{frame_bolt_mm} of"
        " class 4.6 with washers in each, 7 d from the ends; they reach {frame_cheek_mm} mm down"
        " the post; one counted, as the other may be packed; the level pull at the head beam's top"
        " bends it over the post's end, or {frame_sideways_share} of the climbers' load and the"
        " brace across the room shear its bolt",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame post's foot joint",
        "EN 1995-1-1 (8.6, 8.31)",
        "N",
        _foot_joint,
        _SIDE + "; what the brace's level force exceeds the pull by, and its lift, on one bolt of"
        " one cheek, square to the grain of both; weights don't hold it down",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame bolts' room",
        "EN 1995-1-1 Table 8.4",
        "-",
        _bolts_room,
        "bolts in the middle: {bolt_loaded_edge_d} d to both sides of posts, feet and head beam,"
        " {bolt_unloaded_edge_d} d in braces and cheeks",
        of="frame",
    ),
    Rule(
        "frame foot",
        "EN 1995-1-1 6.2.3",
        "-",
        _foot,
        "the brace pulls it, all weight stands on its end, {frame_toe_mm} mm from the brace",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame foot under the post",
        "EN 1995-1-1 6.1.5",
        "N",
        _floor,
        _SIDE + "; the post stands on the foot with its whole section",
        ("grade",),
        of="frame",
    ),
    Rule(
        "frame sway",
        "EN 1995-1-1 7.2, Table 7.1",
        "mm",
        _sway,
        "climbers' static weight and its level pull; post, one brace and the slip of its bolts;"
        " height over {frame_sway_ratio}",
        ("grade",),
        of="frame",
    ),
)
