"""Walls as they would be built: with their frame, their lift, their fixing.

A choice stands for walls that face either way, hang from so many mounts, have screws so far
apart, and are tied back or not. It is done with when each of these that costs less than needed
finds no room or fails a check of which there is a copy here.

A range of widths is done with when the walls of its least one are: a wider wall takes the same
room and more, its bays are no smaller, it weighs and costs no less. Only what is sawn may cost
less, and what is stated of that holds over the whole range.

Over a larger box no check's use is less than at its least corner, the lifting eyes taken from the
longest board. What frame, lift and ties are in the way of, or help, is looked at of single walls
alone; ties only where the room's measures are exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Pivot, Posed, levels_out, pivot_of
from steepwright.verify.bounds import Bounds
from steepwright.verify.choices import Choices, Size
from steepwright.verify.climbing import asks_for_rows, climbs, drawn_ends
from steepwright.verify.divisions import divided
from steepwright.verify.doubtful import Hangs, fits_in_doubt, flattest_rad
from steepwright.verify.floors import stands
from steepwright.verify.framed import fits_framed
from steepwright.verify.hoists import Hoist
from steepwright.verify.hooked import Hooks
from steepwright.verify.mounts import Levered, Mounts
from steepwright.verify.pieces import Pieces
from steepwright.verify.strength import BEYOND, CHECKS, SCREWS, Corners, Figures, Loads, hold_insert
from steepwright.verify.tie_bolts import TieBolts
from steepwright.verify.ties import BENDING, Posts, Ties, lines_of, run_free, tied_bending
from steepwright.verify.upheld import Upheld
from steepwright.verify.verdict import Verdict

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

Uses = dict[str, FloatArray]
"""Uses by the names of checks."""

NOWHERE_MM = 1e9
"""The length of a tie where none can run."""

BUILT = "built"
"""What the file calls the reason."""


@dataclass(frozen=True, slots=True)
class Said:
    """Choices said to end in boxes of a size.

    Attributes
    ----------
    corners
        The walls of their least corners, for the checks.
    cents
        What all but their sheets and bars must be shown to cost.
    """

    choices: Choices
    corners: Corners
    cents: IntArray
    size: Size

    def take(self, index: IntArray) -> Said:
        """Return some of the choices."""
        taken = self.choices.take(index), self.corners.take(index), self.cents[index]
        return Said(*taken, self.size)


@dataclass(frozen=True, slots=True)
class Hung:
    """How walls hang that hang alike, and how wide they are [mm]."""

    beam: Document
    mount: Document
    pivot: Pivot
    width_mm: int


class Built:
    """The walls of one part; `facings` tell per facing where walls fit, their frame left out."""

    def __init__(
        self, part: Document, bounds: Bounds, known: Figures, facings: dict[str, BoolArray]
    ) -> None:
        self.bounds, self.known, self.facings = bounds, known, facings
        given, self.room = part["given"], bounds.room
        self.doubt_mm = float(bounds.wall.get("tolerance_mm", 0))
        self.counts: list[int] = part["space"]["mount_counts"]
        self.ties = Ties(given, self.room)
        self.pieces = Pieces(bounds)
        self.mounts, self.hoist = Mounts(given, self.room), Hoist(given, self.room)
        self.upheld = Upheld(given, self.room, self.mounts)
        self.hooks = {facing: Hooks(bounds, facing) for facing in facings}
        families = given["families"]
        self.thickness_mm = np.array([f["thickness_mm"] for f in families], dtype=np.int64)
        self.depth_mm = np.array([s["depth_mm"] for s in given["sections"]], dtype=np.int64)

    def confirm(self, said: Said, verdict: Verdict) -> None:
        """Tell of choices that don't end as they would be built."""
        ends = self.ends(said)
        if not ends.all():
            row, column = (int(at[~ends][0]) for at in (said.choices.row, said.choices.column))
            message = (
                f"choices said to end as they would be built, one in the box of size {said.size}"
                f" at ({row}, {column})"
            )
            verdict.wrong("certificate-built", message, len(ends), f"{int(ends.sum())} of them")

    def ends(self, said: Said) -> BoolArray:
        """Tell which choices are done with."""
        c, left = said.choices, np.zeros(len(said.choices), dtype=np.bool_)
        single = said.size.cells == 1
        for facing in self.facings:
            if single:
                room = self.has_room(facing, c, said.corners)
            else:
                room = self._may_have_room(facing, c, said.size.cells)
            rows = np.flatnonzero(room)
            left[rows] |= self._holds(facing, said.take(rows), single and not self.doubt_mm)
        return ~left

    def _may_have_room(self, facing: str, c: Choices, size: int) -> BoolArray:
        """Tell in which boxes some wall fits that faces one way, its frame left out."""
        thickness = self.bounds.thickness[c.sheeting]
        keys = np.stack([c.beam, c.mount, thickness, c.row, c.column])
        unique, index = np.unique(keys, axis=1, return_inverse=True)
        faced = self.facings[facing]
        some = [faced[b, m, t, r : r + size, k : k + size].any() for b, m, t, r, k in unique.T]
        return np.array(some, dtype=np.bool_)[index.ravel()]

    def has_room(self, facing: str, c: Choices, corners: Corners) -> BoolArray:
        """Tell which walls fit the room facing one way, standing and being lifted."""
        thickness = self.bounds.thickness[c.sheeting]
        fits = self.facings[facing][c.beam, c.mount, thickness, c.row, c.column].copy()
        flat = corners.angle_rad.copy()
        for rows, hung in self._hung_alike(c, fits):
            keys = np.stack([self.depth_mm[c.section[rows]], c.row[rows], c.column[rows]])
            _, first, index = np.unique(keys, axis=1, return_index=True, return_inverse=True)
            one = rows[first]
            posed = self._posed(c.take(one), corners.take(one))
            deep = self.thickness_mm[corners.family[one]] + self.depth_mm[c.section[one]]
            made = self._stand(facing, hung, posed, deep.astype(float))
            fits[rows] = made[index.ravel()]
            if self.doubt_mm:
                flat[rows] = flattest_rad(posed, hung.pivot, self.doubt_mm)[index.ravel()]
        return np.asarray(fits & self._climbs(c, replace(corners, angle_rad=flat)))

    def _climbs(self, c: Choices, corners: Corners) -> BoolArray:
        """Tell which walls' rows of holds lie as is asked for."""
        if not asks_for_rows(self.room):
            return np.ones(len(c), dtype=np.bool_)
        factors, bounds, ends = self.bounds.factors, self.bounds, []
        stud = np.array([section["width_mm"] for section in bounds.given["sections"]])[c.section]
        boards = bounds.grid.boards_mm[c.row].tolist()
        for made, wide, board in zip(c.sheeting.tolist(), stud.tolist(), boards, strict=True):
            split = bounds.sheetings[made]
            rows = divided(
                board, split.rows, split.full_row_mm, int(factors["layout_min_piece_mm"])
            )
            ends.append(drawn_ends(self.room, factors, rows, board, wide))
        low, high = np.array(ends, dtype=np.float64).reshape(-1, 2).T
        return climbs(self.room, factors, self._posed(c, corners), (low, high))

    def _stand(self, facing: str, hung: Hung, posed: Posed, deep_mm: FloatArray) -> BoolArray:
        """Tell which walls that hang alike fit with their frame; where they are wider, again."""
        room, pivot, wide = self.room, hung.pivot, hung.width_mm
        if self.doubt_mm:
            hangs = Hangs(hung.beam, hung.mount, pivot, facing, wide)
            return fits_in_doubt(room, self.bounds.factors, hangs, posed, deep_mm)
        made = fits_framed(room, facing, pivot, posed, deep_mm, wide)
        if wide > self.bounds.grid.width_mm:
            mount, factors = hung.mount, self.bounds.factors
            made &= stands(room, facing, pivot, posed, wide)
            made &= levels_out(room, hung.beam, mount, factors, wide)
        return made

    def _hung_alike(self, c: Choices, some: BoolArray) -> Iterator[tuple[IntArray, Hung]]:
        """Yield the rows of some choices that hang alike and are as wide, and how."""
        thick = self.thickness_mm[self.bounds.family[c.sheeting]]
        keys = np.stack([c.beam, c.mount, thick, c.width])
        for key in np.unique(keys[:, some], axis=1).T.tolist():
            alike = some & (keys == np.array(key)[:, None]).all(axis=0)
            beam, mount = self.room["beams"][key[0]], self.bounds.given["mounts"][key[1]]
            wide = int(self.bounds.widths_mm[key[3]])
            yield np.flatnonzero(alike), Hung(beam, mount, pivot_of(beam, mount, key[2]), wide)

    def _posed(self, c: Choices, corners: Corners) -> Posed:
        kicker = self.bounds.grid.kickers_mm[c.column].astype(float)
        return Posed(corners.angle_rad, corners.board_mm, kicker)

    def _holds(self, facing: str, said: Said, exact: bool) -> BoolArray:
        """Tell which walls hold with a fixing for less than so much, all but the material."""
        c, corners = said.choices, said.corners
        loads, holds = Loads(self.known, corners), np.zeros(len(c), dtype=np.bool_)
        firm = self.mounts.room_use[c.beam, c.mount] <= 1 + BEYOND
        pulled = self.pulled(facing, c, loads, said.size.cells)
        firm &= np.maximum(pulled, hold_insert(loads)) <= 1 + BEYOND
        nothing: tuple[Uses, IntArray] = {BENDING: np.zeros(len(c))}, np.zeros(len(c), np.int64)
        bent = list(self.bent(facing, c, loads)) if exact or not self.ties.sets else [nothing]
        for count in self.counts:
            stands = np.zeros(len(c), dtype=np.bool_)
            hooks = self.hooks[facing].least(c, count, said.size)
            load = Levered(count, self._wide(c), hooks.outer, hooks.lost, hooks.lost_weight)
            held = self.hung(c, loads, load)
            hung = firm & (corners.studs >= count) & (held <= 1 + BEYOND)
            for screw_mm in self.bounds.screws_mm:
                apart = replace(corners, screw_mm=np.full(len(c), float(screw_mm)))
                screwed = hung & (CHECKS[SCREWS](Loads(self.known, apart)) <= 1 + BEYOND)
                rest = self.bounds.rest_cents(c, screw_mm, count)
                for uses, tie_cents in bent:
                    stays = np.max(list(uses.values()), axis=0) <= 1 + BEYOND
                    stands |= screwed & stays & (rest + tie_cents < said.cents)
            rows = np.flatnonzero(stands & ~holds)
            if len(rows):
                holds[rows] = self.carried(facing, said.take(rows), count) <= 1 + BEYOND
        return holds

    def carried(self, facing: str, said: Said, count: int) -> FloatArray:
        """Return the largest use of what walls hang from by so many mounts."""
        return np.asarray(np.max(list(self.uses_upheld(facing, said, count).values()), axis=0))

    def uses_upheld(self, facing: str, said: Said, count: int) -> Uses:
        """Return its uses, each with the least that mounts do to the beam in the box."""
        c = said.choices
        hooks = self.hooks[facing].least(c, count, said.size)
        hung = count, self._wide(c)
        return self.upheld.uses(Loads(self.known, said.corners), (c.beam, c.mount), hooks, hung)

    def hung(self, c: Choices, loads: Loads, hung: Levered) -> FloatArray:
        """Return the use of the most loaded mount, of its screws or its own."""
        how, mounts = (loads, (c.beam, c.mount), hung), self.mounts
        held = np.maximum(mounts.pulled_and_sheared(*how), mounts.beside_lost(*how))
        return np.maximum(held, mounts.rated(*how))

    def pulled(self, facing: str, c: Choices, loads: Loads, size: int = 1) -> FloatArray:
        """Return the use of the hands that lift a wall, 0 where none folds up.

        Its eyes lie as far out as those of the longest board in a box.
        """
        if not self.bounds.wall["fold_up"]:
            return np.zeros(len(c))
        setback = np.array([m["setback_mm"] for m in self.bounds.given["mounts"]])
        boards = self.bounds.grid.boards_mm
        along = boards[np.minimum(c.row + size, len(boards)) - 1] - setback[c.mount]
        eye = self.hoist.eyes_mm(facing, c.beam, along)
        kicker = self.bounds.grid.kickers_mm[c.column].astype(float)
        return self.hoist.by_hand(loads, eye, kicker, self._wide(c))

    def bent(self, facing: str, c: Choices, loads: Loads) -> Iterator[tuple[Uses, IntArray]]:
        """Yield, without a tie and with each, what becomes of the studs, and the ties' cost.

        Where no tie can run it bears nothing and is too long.
        """
        plain = CHECKS[BENDING](loads)
        yield {BENDING: plain}, np.zeros(len(c), dtype=np.int64)
        if not self.ties.sets:
            return
        posts = self._posts(facing, c, loads.walls)
        least = self.bounds.factors["tie_least_cos"]
        free = self.ties.may_tie(c.beam) & run_free(posts, self.room, self.ties.beam, least)
        cosine, length = lines_of(posts, self.ties.beam)
        cosine, length = np.where(free, cosine, 1.0), np.where(free, length, NOWHERE_MM)
        bolts = TieBolts(self.bounds.given, self.ties.beam)
        for tie in self.ties.sets:
            tied = np.where(free, tied_bending(self.ties, tie, loads, posts), plain)
            cents = -(-loads.walls.studs // tie["pieces"]) * tie["price_cents"]
            yield {BENDING: tied} | bolts.uses(tie, loads, cosine, length), cents

    def _wide(self, c: Choices) -> FloatArray:
        return np.asarray(self.bounds.widths_mm[c.width].astype(float))

    def _posts(self, facing: str, c: Choices, walls: Corners) -> Posts:
        given, side = self.bounds.given, 1 if facing == "+x" else -1
        setback, behind = (
            np.array([mount[name] for mount in given["mounts"]], dtype=np.float64)[c.mount]
            for name in ("setback_mm", "behind_sheet_mm")
        )
        behind = behind + self.thickness_mm[walls.family]
        sine, cosine = np.sin(walls.angle_rad), np.cos(walls.angle_rad)
        beam_x = np.array([beam["x_mm"] for beam in self.room["beams"]])[c.beam]
        lip = beam_x + side * (setback * sine + behind * cosine)
        foot = lip - side * walls.board_mm * sine
        posed = self._posed(c, walls)
        return Posts(facing, posed.angle_rad, posed.board_mm, posed.kicker_mm, foot, lip)
