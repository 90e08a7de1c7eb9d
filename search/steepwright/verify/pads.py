"""Pads over the fall area, laid by the checker itself, where the room has them on the bill.

What is wanted reaches from the kicker's face to the guidance in front of the lip and on both sides,
as far as it is clear. How pads lie on it is in `pad_rows`.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Grid, Pivot, Posed, across_mm, angles_rad
from steepwright.verify.pad_rows import Kind, cheapest

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]


def on_bill(room: Document) -> bool:
    """Tell whether the room has the pads that are to be bought on the bill."""
    return bool(room["yard"].get("pads_on_bill", False))


def kinds(room: Document, given: Document) -> tuple[Kind, ...]:
    """Return the kinds of the thickness that is laid: the thinnest that is enough, or thickest."""
    own, sold = room.get("pads", []), given.get("pads", [])
    thick = sorted({int(pad["thickness_mm"]) for pad in (*own, *sold)})
    if not thick:
        return ()
    enough = [t for t in thick if t >= given["factors"]["fall_mat_mm"]]
    chosen = (enough or thick[-1:])[0]
    mine = [(p["length_mm"], p["width_mm"], 0, p["count"]) for p in own]
    mine = [k for k, p in zip(mine, own, strict=True) if p["thickness_mm"] == chosen]
    bought = [
        (p["length_mm"], p["width_mm"], p["price_cents"], -1)
        for p in sold
        if p["thickness_mm"] == chosen
    ]
    return (*mine, *bought)


class Pads:
    """Costs of pads [cents] in one room."""

    def __init__(self, room: Document, given: Document) -> None:
        self.room, self.given = room, given
        self.kinds = kinds(room, given)

    def cents(self, facing: str, pivot: Pivot, grid: Grid, there: IntArray) -> IntArray:
        """Return the pads' cost over [boards, kickers] where `there` is 0 or more, else 0."""
        found = np.zeros(there.shape, dtype=np.int64)
        rows, columns = np.nonzero(there >= 0)
        if not self.kinds or not len(rows):
            return found
        posed = posed_at(grid, pivot, rows, columns)
        floors = self.floors(facing, pivot, posed, grid.width_mm)
        found[rows, columns] = self.priced(floors, grid.width_mm, [grid.width_mm])[:, 0]
        return found

    def priced(self, floors: IntArray, told_mm: int, widths_mm: list[int]) -> IntArray:
        """Return the cost on some floors at several widths, by floor and width.

        The floors are told of walls `told_mm` wide; wider ones have nothing else beside or before
        them. A side that is clear gets narrower; where there is none, for something stands in
        part under the board, there is none either when the wall is wider.
        """
        ahead, clear, left, right = floors[:, :, None]
        low, high = self._ends_mm(told_mm)
        ends = np.array([self._ends_mm(width) for width in widths_mm], dtype=np.int64)
        from_, to = ends.T[:, None, :]
        side = round(self.given["factors"]["fall_side_mm"])
        wanted = whole = to - from_
        for told, taken in ((left, low - from_), (right, to - high)):
            free = np.maximum(told - taken, 0)
            wanted, whole = wanted + np.minimum(free, side), whole + free
        each = np.stack(np.broadcast_arrays(ahead, clear, wanted, whole)).reshape(4, -1)
        new = (np.diff(each, axis=1, prepend=-1) != 0).any(axis=0)
        found = cheapest(self.kinds, each[:, new])
        return np.asarray(found[np.cumsum(new) - 1].reshape(wanted.shape))

    def _ends_mm(self, width_mm: int) -> tuple[int, int]:
        low, high = (round(y) for y in across_mm(self.room, width_mm))
        return low, high

    def floors(self, facing: str, pivot: Pivot, posed: Posed, width_mm: int) -> IntArray:
        """Return per wall the length wanted and clear from its foot, and the clear sides [mm].

        No row or stack is longer than the longest sum of pads' sides that is clear.
        """
        angle, board, kicker = posed.angle_rad, posed.board_mm, posed.kicker_mm
        room, factors = self.room, self.given["factors"]
        side = 1.0 if facing == "+x" else -1.0
        low, high = self._ends_mm(width_mm)
        lip = side * pivot.x_mm + pivot.setback_mm * np.sin(angle) + pivot.behind_mm * np.cos(angle)
        foot = lip - board * np.sin(angle)
        exact_top = kicker + board * np.cos(angle)
        free = np.floor(_ahead(room, side, lip, exact_top, across_mm(room, width_mm)))
        run, top = np.rint(board * np.sin(angle)), np.rint(exact_top)
        asked = np.where(
            top <= factors["fall_low_wall_mm"],
            factors["fall_front_low_mm"],
            factors["fall_front_high_mm"],
        )
        front = np.minimum(free, np.rint(asked))
        ends = np.rint(foot), np.rint(lip) + front
        left = np.full(len(board), float(low))
        right = np.full(len(board), float(room["width_mm"] - high))
        for solid in (*room["solids"], *sides_of_frame(room, pivot.beam)):
            near, far = sorted(side * x for x in solid["x_mm"])
            y_low, y_high = solid["y_mm"]
            meets = (near < ends[1]) & (far > ends[0]) & (solid["z_mm"][0] < top)
            if y_low < low:
                left = np.where(meets, np.minimum(left, max(low - y_high, 0)), left)
            if y_high > high:
                right = np.where(meets, np.minimum(right, max(y_low - high, 0)), right)
        clear = self._reachable(run + free)
        return np.stack([run + front, clear, left, right]).astype(np.int64)

    def _reachable(self, clear: FloatArray) -> IntArray:
        """Return the longest sum of pads' sides that is clear: no row or stack is longer."""
        sums = {0}
        most, new = int(clear.max(initial=0)), {0}
        while new:
            new = {s + d for s in new for k in self.kinds for d in k[:2] if s + d <= most} - sums
            sums |= new
        ladder = np.array(sorted(sums), dtype=np.int64)
        return ladder[np.searchsorted(ladder, clear, side="right") - 1]


def posed_at(grid: Grid, pivot: Pivot, rows: IntArray, columns: IntArray) -> Posed:
    """Return walls of some of the grid's lengths as they stand."""
    angle = angles_rad(grid, pivot)[rows, columns]
    lengths = grid.boards_mm[rows].astype(float), grid.kickers_mm[columns].astype(float)
    return Posed(angle, *lengths)


def _ahead(
    room: Document,
    side: float,
    lip: FloatArray,
    top: FloatArray,
    across: tuple[float, float],
) -> FloatArray:
    """Return the clear floor ahead of the lip [mm]."""
    free = max(0.0, side * room["length_mm"]) - lip
    for solid in room["solids"]:
        near, far = sorted(side * x for x in solid["x_mm"])
        meets = solid["y_mm"][0] < across[1] and solid["y_mm"][1] > across[0]
        stops = (far > lip) & (solid["z_mm"][0] < top)
        if meets:
            free = np.where(stops, np.minimum(free, np.maximum(near - lip, 0.0)), free)
    return np.asarray(free, dtype=np.float64)


def sides_of_frame(room: Document, name: str) -> list[Document]:
    """Return posts and feet of the freestanding frame below a beam, if there is one, as solids."""
    beam: Document = next((b for b in room["beams"] if b["name"] == name), {})
    stand = beam.get("stand")
    if not stand:
        return []
    half, reach = stand["post_mm"][0] // 2, stand["foot_mm"]
    middles = [(room["width_mm"] + way * beam["span_mm"]) // 2 for way in (-1, 1)]
    return [
        {
            "x_mm": (beam["x_mm"] - reach, beam["x_mm"] + reach),
            "y_mm": (y - half, y + half),
            "z_mm": (0, min(beam["underside_mm"])),
        }
        for y in middles
    ]
