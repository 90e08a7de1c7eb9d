"""What the checks read (tables and a batch of candidates) and what they return.

A batch is a table with one row per candidate, held column-wise, so that the search can check
hundreds of thousands of walls without a Python loop. Discrete choices are indices into
`Tables`; lengths are floats [mm] so that a row may also be a corner of a box of designs.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.structure.columns import Columns

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]

NO_CAPACITY = 1e6
"""Stands for an infinite use, which JSON can't hold."""


@dataclass(frozen=True, slots=True)
class Batch(Columns):
    """One row per candidate, all arrays of the same length.

    Attributes
    ----------
    beam, sheet, timber, mount
        Indices into `Tables.beams`, `.sheets`, `.timber`, `.mounts`.
    stud_count, mount_count, columns, rows
        Whole numbers of studs, mounts and board pieces across and up.
    bay_mm
        Largest distance between neighbouring stud centres [mm].
    seam_mm
        Distance of the seam across the slope from the board's lower end [mm]; 0 for none.
    grain_across
        True when the face grain runs across the wall (square to the studs), False when it may
        run either way and the weaker direction must do.
    screw_mm
        Distance of the sheet's screws along studs and rails [mm].
    arm_climb_mm, arm_weight_mm, end_climb, end_weight, sag_climb, sag_weight
        What the mounts do to the ceiling beam at their places, as in `hooks.HookEffects`.
    tip_load, lost_load, lost_weight, lost_arm_mm
        What a load beyond an outer mount brings it, and what one brings the next when a mount is
        lost, as there.
    lift_arm_mm, lift_arm_lost_mm, lift_end, lift_sag
        What the lifting blocks do to the beam above the eye, per load on all of them: largest
        moment [mm] with every line whole and on one alone, reaction of a support [-], deflection
        over that by the same load at mid-span [-].
    eye_mm, lift_beam
        For walls that fold up: distance of the lifting lines' eye from the pivot [mm], and the
        beam above it, -1 for the ceiling or when it isn't looked at.
    tie
        The tie-back, an index into `Tables.ties.products`; 0 is none.
    tie_cos, tie_mm, tie_board_mm
        How a tie lies: cosine of its angle to the board's normal [-], its length [mm], and the
        board's length [mm] that its relief is reckoned with. Of a box of walls the most favourable
        of each, the longest board. 1, 0 and the board's own without a tie.
    tie_place
        How far up its stud a tie is fixed, over the board's length [-]: a half, but for a single
        wall with a place of its own.
    board_mm, kicker_mm, width_mm, angle_rad
        Lengths [mm] and overhang angle from the vertical [rad].
    """

    beam: IntArray
    sheet: IntArray
    timber: IntArray
    mount: IntArray
    stud_count: IntArray
    mount_count: IntArray
    columns: IntArray
    rows: IntArray
    bay_mm: FloatArray
    seam_mm: FloatArray
    grain_across: BoolArray
    screw_mm: FloatArray
    arm_climb_mm: FloatArray
    arm_weight_mm: FloatArray
    end_climb: FloatArray
    end_weight: FloatArray
    sag_climb: FloatArray
    sag_weight: FloatArray
    tip_load: FloatArray
    lost_load: FloatArray
    lost_weight: FloatArray
    lost_arm_mm: FloatArray
    lift_arm_mm: FloatArray
    lift_arm_lost_mm: FloatArray
    lift_end: FloatArray
    lift_sag: FloatArray
    eye_mm: FloatArray
    lift_beam: IntArray
    tie: IntArray
    tie_cos: FloatArray
    tie_mm: FloatArray
    tie_board_mm: FloatArray
    tie_place: FloatArray
    board_mm: FloatArray
    kicker_mm: FloatArray
    width_mm: FloatArray
    angle_rad: FloatArray

    def __len__(self) -> int:
        """Return the number of candidates."""
        return len(self.beam)


@dataclass(frozen=True, slots=True)
class Check:
    """One check of one design: `use` is demand over capacity; above 1 it fails.

    `settled` is False when an unknown (a beam's grade or load) had to be assumed: then the
    design is "not settled" whatever the use, and `find_out`, the end of `assumption`, says what
    to find out.
    """

    name: str
    clause: str
    demand: float
    capacity: float
    unit: str
    use: float
    assumption: str
    settled: bool = True
    find_out: tuple[str, ...] = ()
