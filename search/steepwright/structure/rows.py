"""One batch of walls with its look-ups done and its loads worked out, ready for the checks.

The wall is a set of studs on a simple span from the kicker to the lip. To let a box of designs
be judged by its least corner, every load here is non-decreasing in the board's length, the
kicker's height, the width, the bay and the angle (up to 90 degrees): the part of a weight
along the slope counts in full (cos t = 1), across it as sin t.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from steepwright.structure.codes import MEMBER_RULES, MemberRules
from steepwright.structure.grillage_share import Share, stud_share
from steepwright.structure.tables import (
    Bars,
    CeilingBeams,
    Hangers,
    Joints,
    Lips,
    Sheets,
    Tables,
    TieProducts,
)
from steepwright.structure.tables_rigs import Ledgers, Spreads, Stands
from steepwright.structure.types import Batch, BoolArray, FloatArray, IntArray


@dataclass(frozen=True)
class Rows:
    """A batch with its look-ups, each done when first asked for; arrays of one value per wall.

    Made by `look_up`.
    """

    tables: Tables
    batch: Batch
    spread: Spreads
    """What holds the beam up when it hangs from joists along the room."""

    @cached_property
    def beam(self) -> CeilingBeams:
        """The beam the wall hangs from."""
        return self.tables.beams.take(self.batch.beam)

    @cached_property
    def lift(self) -> CeilingBeams:
        """The beam over the lifting eye, any one if there is none."""
        return self.tables.beams.take(np.maximum(self.batch.lift_beam, 0))

    @cached_property
    def stand(self) -> Stands:
        """What holds the beam up when it is that of a freestanding frame."""
        return self.tables.stands.take(self.batch.beam)

    @cached_property
    def ledger(self) -> Ledgers:
        """What holds the beam up when it lies on two ledgers."""
        return self.tables.ledgers.take(self.batch.beam)

    @cached_property
    def sheet(self) -> Sheets:
        """The board's sheet with its grain."""
        return self.tables.sheets.take(self.batch.sheet, self.batch.grain_across.astype(np.int64))

    @cached_property
    def bar(self) -> Bars:
        """The section of the frame."""
        return self.tables.timber.take(self.batch.timber)

    @cached_property
    def joint(self) -> Joints:
        """The sheet on the section."""
        return self.tables.joints.take(self.batch.sheet, self.batch.timber)

    @cached_property
    def mount(self) -> Hangers:
        """The mount on its beam."""
        return self.tables.mounts.take(self.batch.mount, self.batch.beam)

    @cached_property
    def lip(self) -> Lips:
        """The lip of the section."""
        return self.tables.lips.take(self.batch.timber)

    @cached_property
    def tie(self) -> TieProducts:
        """The tie of each stud."""
        return self.tables.ties.products.take(self.batch.tie)

    @cached_property
    def tied(self) -> BoolArray:
        """Whether there is a tie."""
        return self.batch.tie > 0

    @cached_property
    def stiffer(self) -> FloatArray:
        """The worst stud's stiffness in service over that of the bar alone.

        The sheet helps where no seam across the slope cuts it.
        """
        return stiffening(self.batch, self.sheet, self.bar, self.joint)

    @cached_property
    def share(self) -> Share:
        """What the worst stud carries."""
        return _share(self.batch, self.sheet, self.bar, self.stiffer)

    @cached_property
    def lean(self) -> FloatArray:
        """The sine of the overhang angle, sin t [-]."""
        return np.sin(self.batch.angle_rad)

    @cached_property
    def push_n(self) -> FloatArray:
        """Load of all climbers square to the board with the dynamic factor [N].

        It is the larger of F sin t and the outward pull.
        """
        return self._push * self.tables.loads.climber_n

    @cached_property
    def push_static_n(self) -> FloatArray:
        """The same without the dynamic factor [N]."""
        return self._push * self.tables.loads.static_n

    @cached_property
    def _push(self) -> FloatArray:
        return np.maximum(self.lean, self.factor("hold_pull_factor")) * self.tables.loads.climbers

    @cached_property
    def lip_bays(self) -> FloatArray:
        """Most bays between neighbouring mounts."""
        return _gaps(self.batch, np.maximum(self.batch.mount_count, 2))

    @cached_property
    def lip_gap_mm(self) -> FloatArray:
        """Largest distance between neighbouring mounts [mm]."""
        return np.minimum(self.batch.width_mm, self.lip_bays * self.batch.bay_mm)

    @cached_property
    def lost_gap_mm(self) -> FloatArray:
        """How far the lip rail's end hangs over when an outer mount fails [mm].

        Two mounts count as three.
        """
        hung_over = _gaps(self.batch, np.maximum(self.batch.mount_count, 3)) * self.batch.bay_mm
        return np.minimum(self.batch.width_mm, hung_over)

    @cached_property
    def _area_n_per_mm2(self) -> FloatArray:
        return self.sheet.weight_n_per_mm2 + self.tables.loads.hold_n_per_mm2

    @cached_property
    def line_n_per_mm(self) -> FloatArray:
        """Weight on one stud per length up the slope [N/mm]."""
        strip = self.factor("self_weight_continuity") * self.batch.bay_mm * self._area_n_per_mm2
        return strip + self.bar.weight_n_per_mm

    @cached_property
    def board_n(self) -> FloatArray:
        """Weight of the board with its frame and holds [N]."""
        return board_weight_n(self.batch, self.bar, self._area_n_per_mm2)

    @cached_property
    def hang_n(self) -> FloatArray:
        """Weight that hangs on the most loaded mount [N]."""
        continuity = self.factor("self_weight_continuity")
        return _hang_n(self.batch, self.bar, self._area_n_per_mm2, self.board_n, continuity)

    @cached_property
    def lines_n(self) -> FloatArray:
        """Upper bound of the lifting lines' force over the whole lift [N], 0 without one."""
        deep = self.sheet.t_mm + self.bar.h_mm
        return _lines_n(self.tables, self.batch, self.bar, deep, self.board_n)

    def take(self, index: IntArray) -> Rows:
        """Return some of the walls."""
        return Rows(self.tables, self.batch.take(index), self.spread.take(index))

    def factor(self, key: str) -> float:
        """Return one constant of the rules."""
        return self.tables.factors[key]

    @property
    def members(self) -> MemberRules:
        """The member rules of the tables' design code."""
        return MEMBER_RULES[self.tables.code]

    @property
    def all_climbers_n(self) -> float:
        """Weight of all climbers times the dynamic factor [N]."""
        return self.tables.loads.climber_n * self.tables.loads.climbers


def look_up(tables: Tables, batch: Batch) -> Rows:
    """Return a batch as the checks read it."""
    spread = tables.spreads.take(batch.beam)
    return Rows(tables, _under_joists(batch, spread), spread)


def _under_joists(batch: Batch, spread: Spreads) -> Batch:
    """Return the batch with what mounts do to a timber under joists: the worst, wherever they are.

    One joist may take all that is beside it, and the timber's own sag is part of the joists'.
    """
    if not spread.hangs.any():
        return batch
    here = spread.hangs
    return replace(
        batch,
        arm_climb_mm=np.where(here, spread.arm_mm * batch.tip_load, batch.arm_climb_mm),
        arm_weight_mm=np.where(here, spread.arm_mm, batch.arm_weight_mm),
        end_climb=np.where(here, batch.tip_load, batch.end_climb),
        end_weight=np.where(here, 1.0, batch.end_weight),
        sag_climb=np.where(here, batch.tip_load, batch.sag_climb),
        sag_weight=np.where(here, 1.0, batch.sag_weight),
        lost_arm_mm=np.where(here, spread.arm_mm * batch.lost_load, batch.lost_arm_mm),
    )


def timber_length_mm(batch: Batch, b_mm: FloatArray) -> FloatArray:
    """Return the length of all bars of the board's frame [mm]."""
    studs = batch.stud_count * np.maximum(batch.board_mm - 2.0 * b_mm, 0.0)
    blocks = np.maximum(batch.width_mm - batch.stud_count * b_mm, 0.0)
    return studs + 2.0 * batch.width_mm + (batch.rows - 1) * blocks


def board_weight_n(batch: Batch, bar: Bars, area_n_per_mm2: FloatArray) -> FloatArray:
    """Return the weight of sheet, holds and frame of the board [N]."""
    face = batch.board_mm * batch.width_mm * area_n_per_mm2
    return face + timber_length_mm(batch, bar.b_mm) * bar.weight_n_per_mm


def kicker_weight_n(batch: Batch, bar: Bars, sheet_n_per_mm2: FloatArray | float) -> FloatArray:
    """Return the weight of the kicker's sheet and frame [N], 0 without a kicker."""
    stands = (batch.kicker_mm > 0.0).astype(np.float64)
    uprights = batch.stud_count * np.maximum(batch.kicker_mm - 2.0 * bar.b_mm, 0.0)
    bars = stands * (2.0 * batch.width_mm + uprights) * bar.weight_n_per_mm
    return np.asarray(batch.kicker_mm * batch.width_mm * sheet_n_per_mm2 + bars)


def _lines_n(
    tables: Tables, batch: Batch, bar: Bars, deep_mm: FloatArray, board_n: FloatArray
) -> FloatArray:
    """Return an upper bound of the lines' force over the whole lift, all together [N].

    With the anchor straight over the level board's eye (at e from the pivot) and the board at
    angle t, the lever arm is at least e sin t: (s S + e C)^2 - S^2 ((e (1 - S))^2 + (s + e C)^2)
    = 2 s e S C (1 - S) + e^2 (1 - S)^2 ((1 + S)^2 - S^2) >= 0 for an anchor s above the pivot,
    S = sin t, C = cos t. The weights lie at most c sin t off the pivot while their centre isn't
    behind its line, so that the force is at most the sum of W c / e. Board: c = L/2; kicker: at
    the foot, of the heaviest sheet on offer, for it may be of another than the board; for centres
    behind the pivot's line c is taken to the back of the frame.
    """
    if not tables.loads.fold_up:
        return np.zeros(len(batch))
    kicker = kicker_weight_n(batch, bar, float(tables.sheets.weight_n_per_mm2.max()))
    moment = board_n * np.hypot(batch.board_mm / 2.0, deep_mm)
    moment = moment + kicker * np.hypot(batch.board_mm, deep_mm)
    return np.asarray(moment / batch.eye_mm)


def _gaps(batch: Batch, mounts: IntArray) -> FloatArray:
    """Return the most bays between neighbouring mounts that are spread over the studs."""
    gaps: FloatArray = np.ceil((batch.stud_count - 1) / (mounts - 1) - 1e-9)
    return gaps


def _hang_n(
    batch: Batch, bar: Bars, area: FloatArray, board_n: FloatArray, continuity: float
) -> FloatArray:
    """Return the weight on the most loaded mount [N].

    The middle one of three and more carries at most `continuity` times its tributary load. Two
    mounts carry half of the lip's weight each; they count at least as much as three, so that
    one mount more never raises a use.
    """
    mounts = np.maximum(batch.mount_count, 3)
    bays = _gaps(batch, mounts)
    width = np.minimum(batch.width_mm, bays * batch.bay_mm)
    face = width * batch.board_mm * area / 2.0
    bars = (bays + 1.0) * batch.board_mm / 2.0 + 0.5 * (1.0 + batch.rows) * width
    inner = np.minimum(continuity * (face + bars * bar.weight_n_per_mm), board_n / 2.0)
    return np.where(batch.mount_count <= 2, np.maximum(inner, board_n / 4.0), inner)


def stiffening(batch: Batch, sheet: Sheets, bar: Bars, joint: Joints) -> FloatArray:
    """Return (EI)ef of a stud with its strip of sheet over the bar's own EI, Annex B [-].

    (B.1) with gamma_2 = 1 is EI + r^2 / (1 / (gamma EA) + 1 / EA_stud), and by (B.5)
    1 / (gamma EA) = 1 / EA + pi^2 s / (K l^2). The strip's own EI is left out. The ratio grows
    slower than the square of the length, so that the deflection over the length never falls.
    """
    helps = (batch.rows == 1) & (joint.slip_n_per_mm > 0.0)
    slip = np.where(helps, joint.slip_n_per_mm / batch.screw_mm, 1.0)
    slip = slip * (batch.board_mm * batch.board_mm)
    ea_stud = bar.ei_nmm2 * 12.0 / (bar.h_mm * bar.h_mm)
    soft = 1.0 / sheet.ea_strip_n + np.pi**2 / slip + 1.0 / ea_stud
    arm = (sheet.t_mm + bar.h_mm) / 2.0
    return np.where(helps, 1.0 + arm * arm / (soft * bar.ei_nmm2), 1.0)


def _share(batch: Batch, sheet: Sheets, bar: Bars, stiffer: FloatArray) -> Share:
    """Return what the worst stud carries; a seam across the slope ends all sharing."""
    across = np.where(batch.rows > 1, 0.0, sheet.ei_nmm)
    return stud_share(
        batch.columns, batch.stud_count, batch.bay_mm, batch.board_mm, bar.ei_nmm2, across, stiffer
    )
