"""How walls that fold up are lifted: eyes, blocks and forces, for the search and the document."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Factors, Mount
from steepwright.geometry import NO_BEAM, EyeSpan, LiftRules, lift_points, usable_spans
from steepwright.optimise.space import Space
from steepwright.pricing.wall import Wall
from steepwright.structure.hoist import Lift, hand_force, lift_forces, redirect_force_n
from steepwright.structure.tables import Hoist
from steepwright.structure.tabulate_lift import hand_limit_n, sheave_efficiency
from steepwright.units import weight_n

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]

CURVE_POINTS = 11


def lift_rules(factors: Factors) -> LiftRules:
    """Return what decides on the lifting lines' place."""
    return LiftRules(
        factors["hoist_margin_mm"], factors["hoist_beside_mm"], factors["hoist_eye_share"]
    )


def lifting(
    space: Space, place: int, mount: Mount, board_mm: npt.ArrayLike
) -> tuple[FloatArray, IntArray]:
    """Return the lifting eyes' distance from the pivot [mm] and the beam above, -1 for none."""
    beam, facing = space.places[place]
    rules = lift_rules(space.market.catalog.materials.factors)
    reach = np.asarray(board_mm, dtype=np.float64) - mount.setback_mm
    return lift_points(space.market.room, beam, facing, reach, rules)


def eye_of(space: Space, place: int, wall: Wall) -> tuple[float, int]:
    """Return a wall's lifting eyes' distance from the pivot [mm] and the beam above, -1 for none.

    Eyes at a place of the wall's own have the nearest beam that a block over them hangs under or
    beside.
    """
    if wall.eye_mm is None:
        eye, above = lifting(space, place, wall.mount, float(wall.board_mm))
        return float(eye), int(above)
    least, most = eye_range_mm(space, wall)
    own = min(max(float(wall.eye_mm), least), most)  # with another mount the board may end before
    spans = [s for s in eye_spans(space, place, wall) if s.low_mm <= own <= s.high_mm]
    near = min(spans, key=lambda s: abs(s.under_mm - own), default=None)
    return own, near.beam if near else NO_BEAM


def eye_spans(space: Space, place: int, wall: Wall) -> tuple[EyeSpan, ...]:
    """Return where along the board eyes may lie under a block that a beam carries."""
    beam, facing = space.places[place]
    rules = lift_rules(space.market.catalog.materials.factors)
    return usable_spans(space.market.room, beam, facing, *eye_range_mm(space, wall), rules)


def eye_range_mm(space: Space, wall: Wall) -> tuple[float, float]:
    """Return the least and the greatest distance of the lifting eyes from the pivot [mm]."""
    rules = lift_rules(space.market.catalog.materials.factors)
    reach = wall.board_mm - wall.mount.setback_mm
    return rules.least_share * reach, reach - rules.margin_mm


def nearest_eye_mm(space: Space, eye_mm: FloatArray) -> FloatArray:
    """Return how near to the pivot the eyes may turn out [mm]: both beams may be elsewhere."""
    return np.maximum(eye_mm - 2 * space.market.room.wall.tolerance_mm, 1.0)


@dataclass(frozen=True, slots=True)
class LiftTables:
    """Eye [mm] and beam above it, arrays [place, mount, board length].

    `same_until` is the last board length, from each one on, whose eye lies under the same beam.
    """

    eye_mm: FloatArray
    beam: IntArray
    same_until: IntArray

    def beam_over(
        self, place: IntArray, mount: IntArray, first: IntArray, last: IntArray
    ) -> IntArray:
        """Return the beam over the eyes of a range of boards; `NO_BEAM` if it isn't one for all."""
        one = self.same_until[place, mount, first] >= last
        return np.where(one, self.beam[place, mount, first], NO_BEAM)


def build_lifts(space: Space) -> LiftTables:
    """Work out the lifting eyes of every board length at every place."""
    mounts = space.market.catalog.mounts
    shape = (len(space.places), len(mounts), len(space.boards_mm))
    eye, beam = np.empty(shape), np.empty(shape, dtype=np.int64)
    for place, number in np.ndindex(shape[:2]):
        eye[place, number], beam[place, number] = lifting(
            space, place, mounts[number], space.boards_mm
        )
    until = np.broadcast_to(np.arange(shape[2]), shape).copy()
    for row in range(shape[2] - 2, -1, -1):
        same = beam[:, :, row] == beam[:, :, row + 1]
        until[:, :, row] = np.where(same, until[:, :, row + 1], row)
    return LiftTables(eye, beam, until)


@dataclass(frozen=True, slots=True)
class Turning:
    """What turns on the pivot: weights [N] of board and kicker, angles [rad] of the lift."""

    board_n: float
    kicker_n: float
    standing_rad: float
    parked_rad: float


def lift_of(space: Space, place: int, wall: Wall, turning: Turning) -> tuple[Lift, int]:
    """Return one wall's lift and the beam that carries the blocks, -1 for the ceiling.

    The board's weight lies at the middle of its length and of its frame's depth, the folded
    kicker's at its middle, half its depth in front of the face: both behind what is real, for
    the holds' weight is in front.
    """
    room, mount = space.market.room, wall.mount
    eye, above = eye_of(space, place, wall)
    sheet, deep = wall.sheet.thickness_mm, wall.section.depth_mm
    pivot = mount.behind_sheet_mm + sheet
    back = max(float(sheet + deep - pivot), 0.0)
    weight = turning.board_n + turning.kicker_n
    along = turning.board_n * wall.board_mm / 2 + turning.kicker_n * (
        wall.board_mm - wall.kicker_mm / 2
    )
    across = turning.board_n * (sheet + deep) / 2 - turning.kicker_n * (sheet + deep) / 2
    beam = room.beams[wall.beam]
    height = min(beam.underside_mm) - mount.drop_mm
    over = min(room.beams[above].underside_mm) if above >= 0 else room.ceiling_mm
    rise = space.market.catalog.materials.factors["hoist_block_rise_mm"]
    return Lift(
        weight_n=weight,
        cg_mm=along / weight - mount.setback_mm,
        cg_behind_mm=across / weight - pivot,
        attach_mm=eye,
        attach_behind_mm=back,
        anchor_x_mm=eye,
        anchor_z_mm=max(float(over - height), back + rise),
    ), above


def lift_document(
    space: Space, place: int, wall: Wall, turning: Turning, hoist: Hoist
) -> dict[str, Any]:
    """Return one wall's lift as plain data: places, forces over the lift, people."""
    lift, above = lift_of(space, place, wall, turning)
    catalog, room = space.market.catalog, space.market.room
    factors = catalog.materials.factors
    angles = np.linspace(turning.standing_rad, turning.parked_rad, CURVE_POINTS)
    forces = lift_forces(lift, angles)
    efficiency = sheave_efficiency(catalog)
    most = hand_force(forces.largest_rope_n, hoist.parts, efficiency, 1)
    people = [n for n in (1, 2, 3) if hand_limit_n(factors, n) >= most.raise_n]
    return {
        "beam": room.beams[above].name if above >= 0 else None,
        "eye_mm": round(lift.attach_mm),
        "block_mm": [round(lift.anchor_x_mm), round(lift.anchor_z_mm)],
        "mass_kg": round(lift.weight_n / weight_n(1.0), 1),
        "lines": int(factors["hoist_lines"]),
        "tackle_parts": hoist.parts,
        "sheave_efficiency": efficiency,
        "curve": [
            {
                "angle_deg": round(float(np.degrees(angle)), 2),
                "lines_n": round(float(line)),
                "hand_n": round(float(line) / hoist.gain),
            }
            for angle, line in zip(angles, forces.rope_n, strict=True)
        ],
        "largest_lines_n": round(forces.largest_rope_n),
        "parked_lines_n": round(float(forces.rope_n[-1])),
        "one_line_lost_n": round(forces.largest_rope_n * hoist.share_lost),
        "block_n": round(redirect_force_n(forces.largest_rope_n * hoist.share_lost, 0.0)),
        "hand_raise_n": round(most.raise_n),
        "hand_hold_without_brake_n": round(most.hold_n),
        "hand_hold_with_brake_n": 0,
        "hand_limit_one_n": round(hand_limit_n(factors, 1)),
        "people": min(people) if people else None,
        "holds": int(hoist.holds),
    }
