"""What the checks look up: properties of beams, sheets, bars, mounts and joints as arrays.

Everything that doesn't depend on a wall's lengths is worked out here once, so that a check of
a hundred thousand walls only gathers and multiplies.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

import numpy as np

from steepwright.catalog.types import Code
from steepwright.structure.columns import Columns, IntArray
from steepwright.structure.tables_rigs import Ledgers, Spreads, Stands
from steepwright.structure.types import BoolArray, FloatArray

Kept = TypeVar("Kept", bound=Columns)


@dataclass(frozen=True, slots=True)
class Bars(Columns):
    """Timber sections: sizes [mm], design strengths under the climber [MPa], stiffness, weight.

    `ei_nmm2` and `modulus_mm3` are those on edge, W = b h^2 / 6 [mm3].
    `slender` times a length is its relative slenderness about the strong axis; `tilt_mm` over
    a length is its critical stress [MPa] of lateral buckling, `tilt_fm_mpa` the strength it is
    compared with. Strengths under self weight alone are `Loads.permanent` times these.
    """

    b_mm: FloatArray
    h_mm: FloatArray
    fm_d_mpa: FloatArray
    tilt_fm_mpa: FloatArray
    ft0_d_mpa: FloatArray
    fc0_d_mpa: FloatArray
    fc90_d_mpa: FloatArray
    fv_d_mpa: FloatArray
    ei_nmm2: FloatArray
    modulus_mm3: FloatArray
    slender: FloatArray
    tilt_mm: FloatArray
    weight_n_per_mm: FloatArray


@dataclass(frozen=True, slots=True)
class Sheets(Columns):
    """Sheet families, arrays (families, 2): column 0 when the grain may lie either way.

    Column 1 holds for face grain square to the studs. Strengths are design values under the
    climber [MPa]; `ei_nmm` is E t^3 / 12 per width [Nmm2/mm]; `ea_strip_n` the stiffness
    along the studs of the strip that helps one [N]; `hold_n` is the design resistance
    of one hold's insert, `hold_screw_n` that of one screw of a hold without a bolt [N].
    """

    t_mm: FloatArray
    fm_d_mpa: FloatArray
    fr_d_mpa: FloatArray
    ei_nmm: FloatArray
    weight_n_per_mm2: FloatArray
    ea_strip_n: FloatArray
    hold_n: FloatArray
    hold_screw_n: FloatArray
    permanent: FloatArray


@dataclass(frozen=True, slots=True)
class Joints(Columns):
    """Sheet on a section, arrays (families, sections): design resistances of screws [N].

    `axial_n` and `lateral_n` of one sheet screw, `bare_n` the latter without the rope effect,
    `frame_n` of one joint between stud and rail;
    `slip_n_per_mm` is a sheet screw's stiffness Kser [N/mm];
    `thread_mm` is the sheet screw's thread in the stud and `least_thread_mm` what it needs;
    `seam_mm` is the stud width that two sheets meeting on it need. Without a screw on offer
    the resistances are 0.
    """

    axial_n: FloatArray
    lateral_n: FloatArray
    bare_n: FloatArray
    frame_n: FloatArray
    slip_n_per_mm: FloatArray
    thread_mm: FloatArray
    least_thread_mm: FloatArray
    seam_mm: FloatArray


@dataclass(frozen=True, slots=True)
class Hangers(Columns):
    """Mount sets in beams, arrays (mounts, beams): design resistances under the climber [N].

    `rated_n` is the maker's working load or, when none is stated, that of the screws; `lever`
    raises the lip's load because the pivot is set back; `room_use` is the beam width and depth
    that the screws need over what is there. `split_n` is the beam's resistance against
    splitting from below, `lost_n` the screws' along their axis when another mount has failed.
    `twist_mm` is the level pull's lever about the beam's axis, `prise` the load along the screws'
    axis that has the same effect as a level pull that prises the plate off, over that pull [-].
    `in_range` is false when the rule for the screws' thread doesn't cover them.
    """

    axial_n: FloatArray
    lost_n: FloatArray
    lateral_n: FloatArray
    rated_n: FloatArray
    lever: FloatArray
    room_use: FloatArray
    split_n: FloatArray
    twist_mm: FloatArray
    prise: FloatArray
    in_range: BoolArray
    rating_known: BoolArray


@dataclass(frozen=True, slots=True)
class Lips(Columns):
    """Bolts of one mount through a lip rail, arrays (sections,): design resistances [N].

    `axial_n`, `lateral_n` under the climber, `lost_n` along their axis when another mount has
    failed, `split_n` the rail's against splitting; `room_use` is the depth that the bolts need
    over the rail's. `over_mm` is how far an outer stud's middle lies beyond that of its mount,
    `apart_mm` the least distance of that from a mount at the next stud [mm].
    """

    axial_n: FloatArray
    lost_n: FloatArray
    lateral_n: FloatArray
    split_n: FloatArray
    room_use: FloatArray
    over_mm: FloatArray
    apart_mm: FloatArray


@dataclass(frozen=True, slots=True)
class CeilingBeams(Columns):
    """Ceiling beams (beams,): sizes [mm], design strengths [MPa], and what they carry already.

    `moment_d_nmm` and `torsion_d_nmm` are the design resistances in bending and twisting,
    `soft_mm_per_n` the deflection under 1 N
    at mid-span. Moments [Nmm] and forces [N] of the
    existing load and own weight are design values with (`_live`) the climber and always there
    (`_dead`); `sag_mm` is the deflection they cause in the end. `place_known` is false for hidden
    joists that haven't been found; `lining_mm` of ceiling lie below them. A concrete slab
    has no figures of timber that could fail, but `anchor_n`, the load one anchor is rated for,
    and `anchor_least_mm`, the slab it needs; NaN when unknown.
    """

    b_mm: FloatArray
    h_mm: FloatArray
    span_mm: FloatArray
    moment_d_nmm: FloatArray
    torsion_d_nmm: FloatArray
    fv_d_mpa: FloatArray
    fc90_d_mpa: FloatArray
    soft_mm_per_n: FloatArray
    moment_live_nmm: FloatArray
    moment_dead_nmm: FloatArray
    shear_live_n: FloatArray
    shear_dead_n: FloatArray
    sag_mm: FloatArray
    grade_known: BoolArray
    load_known: BoolArray
    place_known: BoolArray
    lining_mm: FloatArray
    slab: BoolArray
    anchor_n: FloatArray
    anchor_least_mm: FloatArray


@dataclass(frozen=True, slots=True)
class TieProducts(Columns):
    """Ties on offer, the first of which is none: axial stiffness EA and working load [N].

    `reach_mm` is the longest distance that one can bridge.
    """

    ea_n: FloatArray
    rated_n: FloatArray
    reach_mm: FloatArray


@dataclass(frozen=True, slots=True)
class TieStuds(Columns):
    """A tie's bolt across a stud (sections,): design resistances [N]; see `TieBacks`.

    `room_use` is the depth that the bolt needs over the stud's.
    """

    bolt_n: FloatArray
    split_n: FloatArray
    room_use: FloatArray


@dataclass(frozen=True, slots=True)
class TieBacks:
    """Ties from the studs' middle back to a second beam.

    `beam` is that beam's index, -1 when the room names none; `pull_n`, `shear_n` and `split_n` are
    the design resistances [N] of an eye bolt through it: along its axis, across it, and of the
    beam against splitting.
    """

    products: TieProducts
    studs: TieStuds
    beam: int
    pull_n: float
    shear_n: float
    split_n: float


@dataclass(frozen=True, slots=True)
class Loads:
    """Loads and factors that hold for every wall of one room.

    Attributes
    ----------
    climber_n, static_n
        Weight of one climber with and without the dynamic factor [N].
    climbers
        How many climb at once.
    permanent
        kmod of self weight alone over kmod with the climber, for solid timber and joints.
    accidental
        kmod over partial factor of an accident, over those with the climber, for solid timber.
    hold_n_per_mm2
        Weight of holds on the board [N/mm2].
    """

    climber_n: float
    static_n: float
    climbers: int
    permanent: float
    accidental: float
    hold_n_per_mm2: float
    fold_up: bool


@dataclass(frozen=True, slots=True)
class Hoist:
    """The lifting gear of walls that fold up: working loads [N] and ratios [-].

    Attributes
    ----------
    line_n, line_lost_n
        One line, as built and with the other one lost.
    block_n, brake_n, latch_n
        Turning block with its sling, brake, one latch.
    holds
        How many independent holds of the parked wall are on offer.
    share, share_lost, turn
        Part of the lines' force on one line, with both and with one lost; force on a turning
        block over that of its line.
    parts, gain
        Rope parts of the tackle; lines' force over the pull by hand.
    hand_n
        What the room's carriers may pull together.
    """

    line_n: float
    line_lost_n: float
    block_n: float
    brake_n: float
    latch_n: float
    holds: float
    share: float
    share_lost: float
    turn: float
    parts: int
    gain: float
    hand_n: float


@dataclass(frozen=True, slots=True)
class Tables:
    """Everything the checks look up for one room and catalogue.

    `beams`, `sheets`, `timber`, `mounts` are in the order of the room, the families and
    sections given, and the catalogue. `words` fill the gaps in the checks' assumptions; `code` is
    the design code of all strengths and factors.
    """

    beams: CeilingBeams
    stands: Stands
    ledgers: Ledgers
    spreads: Spreads
    sheets: Sheets
    timber: Bars
    joints: Joints
    mounts: Hangers
    lips: Lips
    ties: TieBacks
    loads: Loads
    hoist: Hoist
    hinge_n: float
    factors: Mapping[str, float]
    words: Mapping[str, str]
    code: Code

    def only(self, sections: IntArray, mounts: IntArray) -> Tables:
        """Return the tables of some sections and some mounts (indices), in their order."""
        return replace(
            self,
            timber=_kept(self.timber, sections),
            joints=_kept(self.joints, (slice(None), sections)),
            mounts=_kept(self.mounts, mounts),
            lips=_kept(self.lips, sections),
            ties=replace(self.ties, studs=_kept(self.ties.studs, sections)),
        )


def _kept(columns: Kept, index: Any) -> Kept:
    names: tuple[str, ...] = columns.__slots__
    return type(columns)(*(getattr(columns, name)[index] for name in names))


def as_array(values: list[float]) -> FloatArray:
    """Return a list of numbers as an array."""
    return np.array(values, dtype=np.float64)
