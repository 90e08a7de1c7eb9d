"""Checks of the mounts at the lip: standing, parked and with one mount lost."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.types import FloatArray

_ALL = (
    "the whole weight of {climbers} of {climber_kg} kg x {dynamic_factor} hangs on one mount, at"
    " any angle; at an outer stud, beyond its mount, it levers on that"
)


def _loads_n(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return the characteristic loads of one mount by climbers and by self weight [N]."""
    lever = rows.mount.lever
    # An outer mount of three and more bears less weight than `hang_n`, of two just that: beyond it
    # lies the outer stud with its share, inside it half a gap or less.
    return rows.all_climbers_n * lever * rows.batch.tip_load, rows.hang_n * lever


def design_n(rows: Rows) -> FloatArray:
    """Return the design load of the most loaded mount [N]."""
    climb, weight = _loads_n(rows)
    return rows.factor("gamma_q") * climb + rows.factor("gamma_g") * weight


def _axial(rows: Rows) -> Ratio:
    return Ratio(design_n(rows), rows.mount.axial_n)


def _rating(rows: Rows) -> Ratio:
    climb, weight = _loads_n(rows)
    return Ratio(climb + weight, rows.mount.rated_n)


def level_n(rows: Rows) -> FloatArray:
    """Return the design value of the climbers' level pull at the pivots, all together [N]."""
    pull = rows.factor("gamma_q") * rows.factor("hold_pull_factor") * rows.all_climbers_n
    return pull * rows.mount.lever


def level_on_one_n(rows: Rows) -> FloatArray:
    """Return the design value of the level pull on one mount [N]."""
    return level_n(rows) * rows.batch.tip_load


def _lateral(rows: Rows) -> Ratio:
    return Ratio(level_on_one_n(rows), rows.mount.lateral_n)


def _prised(rows: Rows) -> Ratio:
    return Ratio(design_n(rows) + level_on_one_n(rows) * rows.mount.prise, rows.mount.axial_n)


def _combined(rows: Rows) -> Ratio:
    use = np.hypot(_prised(rows).use, _lateral(rows).use)
    return Ratio(use, np.ones_like(use))


def _parked(rows: Rows) -> Ratio:
    _, weight = _loads_n(rows)
    return Ratio(rows.factor("gamma_g") * weight, rows.mount.axial_n * rows.tables.loads.permanent)


def lost_n(rows: Rows) -> FloatArray:
    """Return the accidental load of one mount beside a lost one [N]."""
    climb = rows.all_climbers_n * rows.batch.lost_load
    load = (climb + lost_weight_n(rows)) * rows.mount.lever
    return rows.factor("gamma_accidental") * load


def lost_weight_n(rows: Rows) -> FloatArray:
    """Return the weight of the lip on one mount beside a lost one [N].

    Two spans fall to it, but never more than the whole of it, unless two mounts are left on one
    side of the board's middle: then it levers (`geometry.mounts.lost_weight`).
    """
    spans = np.minimum(2.0 * rows.hang_n, rows.board_n / 2.0)
    return spans * rows.batch.lost_weight


def _lost(rows: Rows) -> Ratio:
    return Ratio(lost_n(rows), rows.mount.lost_n)


def _room(rows: Rows) -> Ratio:
    return Ratio(rows.mount.room_use, np.ones_like(rows.mount.room_use))


RULES = (
    Rule(
        "mount pull-out",
        "EN 1995-1-1 8.7.2 (A1)",
        "N",
        _axial,
        _ALL + "; the thread by (8.38) with nef = n^0.9, or the screws' steel if that is less",
        ("grade", "place", "mount"),
        of="timber",
    ),
    Rule(
        "mount working load",
        "maker's rating",
        "N",
        _rating,
        _ALL + " and its part of the board's weight, without partial factors, against the maker's"
        " working load",
        ("rating",),
    ),
    Rule(
        "mount plate prised off",
        "EN 1995-1-1 8.7.2 (A1), statics",
        "N",
        _prised,
        _ALL
        + " and {hold_pull_factor} of it level, as far below the beam as the mount is stiff: the"
        " plate turns about its edge and the farthest row of screws alone holds it, at"
        " {prise_arm_share} of its way; where no plate is stated one of {mount_plate_d} screw"
        " diameters, stiff down to the pivot",
        ("grade", "place", "mount"),
        of="timber",
    ),
    Rule(
        "mount pull-out and shear",
        "EN 1995-1-1 8.2.3, (8.28)",
        "-",
        _combined,
        _ALL
        + " and {hold_pull_factor} of it level, which prises the plate off as well as it shears"
        " the screws; the root of (8.28); thin plate, no rope effect",
        ("grade", "place", "mount"),
        of="timber",
    ),
    Rule(
        "mount, parked",
        "EN 1995-1-1 8.7.2 (A1), 3.1.3",
        "N",
        _parked,
        "self weight alone as a permanent load; a line or latch holds the other end",
        ("grade", "place", "mount"),
        of="timber",
    ),
    Rule(
        "one mount lost",
        "EN 1990 A1.3.2",
        "N",
        _lost,
        "accidental: the next mount takes over the climbers and the lost one's weight; at the lost"
        " corner they lever on it about the mounts behind it, and with two mounts, where none is"
        " behind it, the board hangs by one corner: get off and mend it",
        ("grade", "place", "mount"),
        of="timber",
    ),
    Rule(
        "mount screws' room",
        "EN 1995-1-1 Table 8.6 (A1)",
        "-",
        _room,
        "screws in the beam's middle: 4 d to both sides and a depth of 12 d",
        of="timber",
    ),
)
