"""Whether walls fit a room of which every measure may be wrong by so much, each by itself.

Wrong may be the room's sides, where each beam is and how high, every side of every solid; how far
a beam is out of level is as told. The pivot is so much higher or lower, the board flatter or
steeper; a constraint is looked at with all that it goes by at its worst. A point of the board at
offsets h and v from the pivot moves along the room by dx/dZ = v/D, and by dz/dZ = 1 - h/D upwards,
with D = A sin t - n cos t, dt/dZ = -1/D: so far a standing board keeps off whatever it may meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import (
    SLACK_MM,
    Pivot,
    Posed,
    across_mm,
    back_rise_mm,
    leaning_rad,
    raised,
    whole_mdeg,
)
from steepwright.verify.floors import Floor, lip_ahead_mm
from steepwright.verify.framed import ends_mm, overhead, section_of, solids_about
from steepwright.verify.turning import comes_near, reach

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

LEVEL_RAD = np.pi / 2


@dataclass(frozen=True, slots=True)
class Hangs:
    """How walls hang that hang alike: beam, mount, pivot, facing, the walls' width [mm]."""

    beam: Document
    mount: Document
    pivot: Pivot
    facing: str
    width_mm: int


def flattest_rad(posed: Posed, pivot: Pivot, by_mm: float) -> FloatArray:
    """Return the least angle at which boards may turn out to stand [rad]."""
    return leaning_rad(posed.board_mm, posed.kicker_mm, raised(pivot, by_mm))


def fits_in_doubt(
    room: Document, factors: Document, hangs: Hangs, posed: Posed, depth_mm: FloatArray
) -> BoolArray:
    """Tell which boards fit that are so deep with their frames; what they offer is left out."""
    return _Doubt(room, hangs, posed, depth_mm).fits(factors)


class _Doubt:
    """Boards as they may turn out to stand: `flat` and `steep` are their least and greatest angle.

    `moved_x` and `moved_z` are how far a point of a board may be from where it is thought to be.
    """

    def __init__(self, room: Document, hangs: Hangs, posed: Posed, depth_mm: FloatArray) -> None:
        self.room, self.hangs, self.deep = room, hangs, depth_mm
        pivot, self.by = hangs.pivot, float(room["wall"]["tolerance_mm"])
        board, kicker = posed.board_mm, posed.kicker_mm
        self.posed = Posed(leaning_rad(board, kicker, pivot), board, kicker)
        self.flat = flattest_rad(posed, pivot, self.by)
        self.steep = leaning_rad(board, kicker, raised(pivot, -self.by))
        self.side = 1.0 if hangs.facing == "+x" else -1.0
        ahead = (board - pivot.setback_mm) * np.sin(self.flat)
        ahead = np.maximum(ahead - pivot.behind_mm * np.cos(self.flat), 1e-3)
        beyond = abs(pivot.setback_mm) + abs(pivot.behind_mm) + depth_mm
        height = pivot.height_mm + self.by - kicker + beyond
        self.moved_x = self.by * (1 + height / ahead)
        self.moved_z = self.by * (1 + beyond / ahead)
        low, high = across_mm(room, hangs.width_mm)
        shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[room["wall"]["align"]] * self.by
        self.across = low - shift, high + shift
        self.around = self.across[0] - self.by, self.across[1] + self.by

    def fits(self, factors: Document) -> BoolArray:
        """Tell which of them fit."""
        least, most = self.room["wall"]["angle_deg"]
        inside = (whole_mdeg(self.flat) >= 1000 * least) & (whole_mdeg(self.steep) <= 1000 * most)
        exists = ~np.isnan(self.flat) & ~np.isnan(self.steep) & ~np.isnan(self.posed.angle_rad)
        inside &= exists & self._levels_out(factors)
        return np.asarray(inside & self._on_the_floor() & self._below_own() & self._clear())

    def _levels_out(self, factors: Document) -> bool:
        """Tell whether mounts level the lip wherever along their beam its ends come to be."""
        left, right = self.hangs.beam["underside_mm"]
        wide, mount = self.room["width_mm"], self.hangs.mount
        let_down = max(left + (right - left) * y / wide for y in self.across) - min(left, right)
        tilt = 2 * abs(right - left) * self.by / (wide - self.by)
        takes_up = max(mount["adjust_mm"], factors["mount_level_tolerance_mm"])
        return bool(takes_up - let_down - tilt >= -SLACK_MM)

    def _on_the_floor(self) -> BoolArray:
        """Tell where there is room before, behind, under and beside the board, and above it."""
        room, wall, by, p = self.room, self.room["wall"], self.by, self.posed
        worst = _smaller(room, by)
        floor, pivot = Floor(worst, self.side, self.across), self.hangs.pivot
        ends = [lip_ahead_mm(pivot, angle) for angle in (self.flat, self.steep)]
        # a sin t + n cos t is largest where tan t = a / n.
        peak = np.clip(np.arctan2(pivot.setback_mm, pivot.behind_mm), self.flat, self.steep)
        farthest = np.maximum(lip_ahead_mm(pivot, peak), np.maximum(*ends))
        beam = self.side * pivot.x_mm
        lip, reaches = beam - by + np.minimum(*ends), beam + by + farthest
        runs = [p.board_mm * np.sin(angle) for angle in (self.flat, self.steep)]
        foot, back = beam + by + ends[0] - runs[0], beam - by + ends[1] - runs[1]
        top = p.kicker_mm + p.board_mm * np.cos(self.flat)
        fall = floor.fall_mm(lip, top) - (reaches - lip)
        thought = beam + lip_ahead_mm(pivot, p.angle_rad)
        start = thought - p.board_mm * np.sin(p.angle_rad)
        run = np.minimum(start, thought) - self.moved_x, np.maximum(start, thought) + self.moved_x
        return np.asarray(
            (fall >= wall["min_fall_space_mm"] - SLACK_MM)
            & (worst["ceiling_mm"] - top >= -SLACK_MM)
            & (floor.behind_mm(foot) >= self.deep + foot - back - SLACK_MM)
            & self._under(floor, start)
            & (floor.passage_mm(*run) >= wall["side_passage_mm"] - SLACK_MM)
        )

    def _under(self, floor: Floor, start: FloatArray) -> BoolArray:
        """Tell where nothing is under or in a board that is larger by what it may be off."""
        p = self.posed
        longer = 2 * self.moved_x / np.maximum(np.sin(p.angle_rad), 1e-6)
        larger = Posed(p.angle_rad, p.board_mm + longer, p.kicker_mm + self.moved_z)
        return floor.clear(larger, start - self.moved_x, self.deep)

    def _below_own(self) -> BoolArray:
        """Tell whose frame stays below its own beam at the angle where its back is highest."""
        pivot = self.hangs.pivot
        back = np.maximum(self.deep - pivot.behind_mm, 0.0)
        highest = np.clip(np.arctan2(back, pivot.setback_mm), self.flat, self.steep)
        rise = back_rise_mm(back, pivot.setback_mm, highest, self.room["wall"]["fold_up"])
        return np.asarray(rise <= self.hangs.mount["drop_mm"] + SLACK_MM)

    def _clear(self) -> BoolArray:
        """Tell whose board keeps off all but its own beam, standing and being folded up."""
        room, pivot, own, by = self.room, self.hangs.pivot, self.hangs.beam, self.by
        board, angle = section_of(pivot, self.posed, self.deep), self.posed.angle_rad
        others = [beam for beam in room["beams"] if beam is not own]
        seen = own.get("kind", "beam") == "beam"
        around = room | {"beams": others, "ceiling_mm": room["ceiling_mm"] * (1 if seen else 10)}
        tilts = [abs(beam["underside_mm"][1] - beam["underside_mm"][0]) for beam in others]
        off = np.hypot(self.moved_x + by, self.moved_z + by)
        off = off + 3 * max(tilts, default=0) * by / room["width_mm"] - SLACK_MM
        solids = solids_about(room, self.side, pivot, self.around)
        clear = self._between_ends(reach(board, angle, angle), off)
        for box in (*solids, *overhead(around, self.side, pivot, self.around)):
            clear &= ~comes_near(board, angle, angle, box, off)
        if not room["wall"]["fold_up"]:
            return clear
        off = np.full_like(angle, np.hypot(2 * by, 2 * by) - SLACK_MM)
        level = np.full_like(angle, LEVEL_RAD)
        clear &= self._between_ends(reach(board, self.flat, level), off)
        for box in solids:
            clear &= ~comes_near(board, self.flat, level, box, off)
        return clear

    def _between_ends(self, spans: tuple[FloatArray, FloatArray], off: FloatArray) -> BoolArray:
        low, high = spans
        near, far = ends_mm(self.room, self.side, self.hangs.pivot)
        return np.asarray((low - near >= off) & (far - high >= off))


def _smaller(room: Document, by: float) -> Document:
    """Return the room with all that may be in the way as large as it may be."""
    solids = [
        solid | {name: [solid[name][0] - by, solid[name][1] + by] for name in _SIDES}
        for solid in room["solids"]
    ]
    sides = {name: room[name] - by for name in ("length_mm", "width_mm", "ceiling_mm")}
    return room | sides | {"solids": solids}


_SIDES = ("x_mm", "y_mm", "z_mm")
