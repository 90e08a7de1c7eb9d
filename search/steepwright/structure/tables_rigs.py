"""What the checks look up of what a builder sets up to hang from: frame, ledgers, spreader."""

from __future__ import annotations

from dataclasses import dataclass

from steepwright.structure.columns import Columns
from steepwright.structure.types import BoolArray, FloatArray


@dataclass(frozen=True, slots=True)
class Stands(Columns):
    """What holds up a freestanding frame's head beam, one side of it, arrays (beams,).

    Lengths [mm]: `top_mm` of the head beam above the floor, `brace_up_mm` of the braces' upper
    ends, `foot_mm` from the post to the foot's end, `span_mm` between the posts. Design resistances
    [N, Nmm] under the climber: the post's in compression (buckling counted) and bending along and
    across the room, a brace's and its joint's, the foot's in tension and bending, and on the floor
    under the post; one bolt of a cheek in shear and along its axis, and the cheek's own in bending.
    `head_mm` is the head beam's depth, `clasp_mm` how far a cheek's bolt is from the post's end;
    `bolts_use` the room that bolts need over what there is. `ei_nmm2` and `spring_n_per_mm` are the
    stiffness of the post along the room and of one brace with its joints; `weight_n` that of half
    the frame. `fixing_n` is NaN when unknown. What is no frame has `stands` false and figures that
    can't fail.
    """

    stands: BoolArray
    top_mm: FloatArray
    brace_up_mm: FloatArray
    foot_mm: FloatArray
    span_mm: FloatArray
    weight_n: FloatArray
    post_n: FloatArray
    post_along_nmm: FloatArray
    post_across_nmm: FloatArray
    brace_n: FloatArray
    joint_n: FloatArray
    foot_n: FloatArray
    foot_nmm: FloatArray
    floor_n: FloatArray
    cheek_n: FloatArray
    clasp_n: FloatArray
    cheek_nmm: FloatArray
    clasp_mm: FloatArray
    head_mm: FloatArray
    bolts_use: FloatArray
    ei_nmm2: FloatArray
    spring_n_per_mm: FloatArray
    fixing_n: FloatArray


@dataclass(frozen=True, slots=True)
class Ledgers(Columns):
    """One of the two ledgers that a beam lies on, arrays (beams,).

    Sizes [mm]: the ledger's thickness and depth, the distance of neighbouring fixings and the whole
    row's length. Design resistances [N, Nmm] under the climber: of one screw in a stud along the
    wall and away from it; of the ledger in bending, shear and under the beam. `rated_n` is what an
    anchor in masonry is rated for, NaN when unknown; `room_use` the room that screws need over what
    there is. What lies on none has `lies` false and figures that can't fail.
    """

    lies: BoolArray
    masonry: BoolArray
    thick_mm: FloatArray
    deep_mm: FloatArray
    apart_mm: FloatArray
    row_mm: FloatArray
    rated_n: FloatArray
    moment_nmm: FloatArray
    shear_n: FloatArray
    bearing_n: FloatArray
    lateral_n: FloatArray
    pull_n: FloatArray
    room_use: FloatArray


@dataclass(frozen=True, slots=True)
class Spreads(Columns):
    """One of the joists along the room that a timber hangs from, arrays (beams,).

    `share` of a load that one joist bears at most, `arm_mm` the timber's largest moment per load
    and `soft_mm_per_n` the sag under it; `own_n` the timber's weight on one joist. A load on the
    joist bends it by `reach_mm` and gives one support `end` of it; with what it carries already
    [Nmm, N, mm] and what it bears. `pull_n` and `lateral_n` are one screw's, `room_use` the room
    that it needs over what there is. What is no such timber has `hangs` false and can't fail.
    """

    hangs: BoolArray
    share: FloatArray
    arm_mm: FloatArray
    soft_mm_per_n: FloatArray
    own_n: FloatArray
    reach_mm: FloatArray
    end: FloatArray
    moment_live_nmm: FloatArray
    shear_live_n: FloatArray
    sag_mm: FloatArray
    moment_d_nmm: FloatArray
    shear_d_n: FloatArray
    bearing_d_n: FloatArray
    limit_mm: FloatArray
    pull_n: FloatArray
    lateral_n: FloatArray
    room_use: FloatArray
    grade_known: BoolArray
    load_known: BoolArray
    place_known: BoolArray
