"""One design as it hangs: its frame and lift in the room, its pieces on the way, what bears it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import SLACK_MM, Grid, Pivot, Posed, angles_rad, back_rise_mm
from steepwright.verify.beams import OF_BEAMS, is_timber
from steepwright.verify.carrying import carried_kg
from steepwright.verify.framed import fits_framed
from steepwright.verify.hoists import PULLED, Hoist
from steepwright.verify.hooked import Hooked, beyond_mm, hooks_of, hung_at, studs_hung_mm
from steepwright.verify.mounts import BESIDE_LOST, HELD, RATED, ROOM, Levered, Mounts
from steepwright.verify.narrow import gets_in
from steepwright.verify.standing import OF_FRAMES
from steepwright.verify.strength import HOLD, Loads, hold_insert
from steepwright.verify.tie_bolts import TieBolts
from steepwright.verify.ties import BENDING, Posts, Ties, lines_of, tied_bending
from steepwright.verify.upheld import Upheld

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]


TOLD_MM = 0.06
"""Places are told by the tenth of a millimetre."""


class HungWitness:
    """One design held against what it hangs from and what is around it.

    `made` are the board's and the kicker's family, and the section.
    """

    def __init__(
        self,
        design: Document,
        given: Document,
        room: Document,
        mount: Document,
        made: tuple[int, int, int],
    ) -> None:
        self.design, self.given, self.room, self.mount = design, given, room, mount
        board, kicker, section = made
        self.board, self.kicker = given["families"][board], given["families"][kicker]
        self.section = given["sections"][section]

    def faults(self, pivot: Pivot, one: Grid) -> Iterator[str]:
        """Yield what is wrong with how it stands, is lifted, and gets in.

        Where the room's measures may be off only the last is looked at.
        """
        if not self.room["wall"].get("tolerance_mm", 0):
            yield from self._in_the_way(pivot, one)
        if not all(self._pieces_get_in()):
            yield "a piece does not get in"
        narrow = self.section["width_mm"]
        beyond = beyond_mm(self.given["factors"], narrow)
        own = hung_at(studs_hung_mm(self.design, narrow), beyond)[0]
        told = self.design["mount_centres_mm"]
        if len(told) != len(own) or (np.abs(own - told) > TOLD_MM).any():
            yield "mounts' places along the lip"

    def _in_the_way(self, pivot: Pivot, one: Grid) -> Iterator[str]:
        d, angle = self.design, angles_rad(one, pivot)[0]
        kicker = one.kickers_mm.astype(float)
        posed = Posed(angle, one.boards_mm.astype(float), kicker)
        deep = self.board["thickness_mm"] + self.section["depth_mm"]
        depth = np.array([float(deep)])
        if not fits_framed(self.room, d["facing"], pivot, posed, depth, d["width_mm"])[0]:
            yield "frame or lift"
        back = max(deep - pivot.behind_mm, 0.0)
        rise = back_rise_mm(back, pivot.setback_mm, angle, self.room["wall"]["fold_up"])
        if rise[0] > self.mount["drop_mm"] + SLACK_MM:
            yield "frame under its own beam"

    def _pieces_get_in(self) -> Iterator[bool]:
        """Yield of the largest piece of each kind whether it gets in and can be carried."""
        d, access = self.design, self.room["access"]
        most = carried_kg(access, self.given["factors"])
        wide = max(d["column_widths_mm"])
        for family, long in ((self.board, max(d["row_lengths_mm"])), (self.kicker, d["kicker_mm"])):
            panel = self.given["panels"][family["panel"]]
            kg = panel["rho_mean_kg_m3"] * panel["mean_thickness_mm"] * 1e-9 * long * wide
            passed = gets_in(access, _sides(long, wide, family["thickness_mm"]))[0]
            yield long == 0 or bool(passed and kg <= most * (1 + 1e-9))
        bar = self.section
        long = max(d["board_mm"] - 2 * bar["width_mm"], d["width_mm"])
        rho = self.given["timber_classes"][bar["strength_class"]]["rho_mean_kg_m3"]
        kg = rho * bar["width_mm"] * bar["depth_mm"] * 1e-9 * long
        passed = gets_in(access, _sides(long, bar["depth_mm"], bar["width_mm"]))[0]
        yield bool(passed and kg <= most * (1 + 1e-9))

    def uses(self, loads: Loads) -> dict[str, float]:
        """Return the uses of what the wall hangs from and is lifted by, and of its holds."""
        d, room, given = self.design, self.room, self.given
        wide, kicker = (np.array([float(d[name])]) for name in ("width_mm", "kicker_mm"))
        at = np.array([[beam["name"] for beam in room["beams"]].index(d["beam"])])
        own = {HOLD: float(hold_insert(loads)[0])}
        if room["wall"]["fold_up"]:
            hoist, along = Hoist(given, room), loads.walls.board_mm - self.mount["setback_mm"]
            eye = hoist.eyes_mm(d["facing"], at, along)
            own[PULLED] = float(hoist.by_hand(loads, eye, kicker, wide)[0])
        mounts, where = Mounts(given, room), (at, np.array([given["mounts"].index(self.mount)]))
        made = given["factors"], self.section["width_mm"]
        hooks = hooks_of(d, room, room["beams"][at[0]], made)
        hung = Levered(d["mount_count"], wide, hooks.outer, hooks.lost, hooks.lost_weight)
        own[RATED] = float(mounts.rated(loads, where, hung)[0])
        if room["beams"][at[0]].get("kind") == "slab":
            return own
        own[ROOM] = float(mounts.room_use[where][0])
        own[HELD] = float(mounts.pulled_and_sheared(loads, where, hung)[0])
        own[BESIDE_LOST] = float(mounts.beside_lost(loads, where, hung)[0])
        return own | self._upheld(loads, where, mounts, hooks)

    def _upheld(
        self, loads: Loads, where: tuple[IntArray, IntArray], mounts: Mounts, hooks: Hooked
    ) -> dict[str, float]:
        """Return the uses of the beam that it hangs from, and of the frame that holds this up."""
        d, beam = self.design, self.room["beams"][where[0][0]]
        if not is_timber(beam):
            return {}
        wide = np.array([float(d["width_mm"])])
        upheld = Upheld(self.given, self.room, mounts)
        uses = upheld.uses(loads, where, hooks, (d["mount_count"], wide))
        names = (*OF_BEAMS, *(OF_FRAMES if beam.get("stand") else ()))
        return {name: float(uses[name][0]) for name in names}

    def tied(self, loads: Loads) -> dict[str, float]:
        """Return the uses of the design's ties, their bolts, and its studs by bending."""
        d, ties = self.design, Ties(self.given, self.room)
        found = [tie for tie in ties.sets if tie["sku"] == d["tie_back"]["sku"]]
        if not found:
            message = "a tie that is not on offer"
            raise ValueError(message)
        names = ("board_mm", "kicker_mm", "x_foot_mm", "x_lip_mm")
        sizes = (np.array([float(d[name])]) for name in names)
        posts = Posts(d["facing"], np.radians(np.array([d["angle_deg"]])), *sizes)
        bolts = TieBolts(self.given, ties.beam)
        uses = bolts.uses(found[0], loads, *lines_of(posts, ties.beam))
        uses[BENDING] = tied_bending(ties, found[0], loads, posts)
        return {name: float(use[0]) for name, use in uses.items()}


def _sides(*values: float) -> tuple[Any, Any, Any]:
    one, two, three = (np.array([float(value)]) for value in values)
    return one, two, three
