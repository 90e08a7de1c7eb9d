"""Pads over the fall area, laid by the checker itself, where the room has them on the bill.

Pads of one thickness lie square to the wall in rows; all pads of a row are equally deep. Rows lie
along the wall, or away from it. What is wanted reaches from the kicker's face to the guidance in
front of the lip and on both sides, as far as it is clear. Of all layouts that cover the most the
cheapest counts.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Grid, Pivot, across_mm, angles_rad

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]
Kind = tuple[int, int, int, int]
"""Sides [mm], price [cents], and how many there are (-1: any number)."""

Side = tuple[int, int, int, int]
"""What is wanted and what is clear along one direction: from, to, from, to [mm]."""

Used = tuple[int, ...]
"""How many are used of each kind that is limited."""

Row = tuple[int, int, int, Used]
"""Depth [mm], length covered [mm], price [cents], pads used."""


NEVER = 1 << 40
"""Cost of pads where no wall stands; above every other."""


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
    """Costs of pads [cents] in one room, remembered by what they depend on."""

    def __init__(self, room: Document, given: Document) -> None:
        self.room, self.given = room, given
        self.kinds = kinds(room, given)
        self._none: Used = (0,) * len(self.kinds)
        self._known: dict[tuple[Side, Side], int] = {}

    def cents(self, facing: str, pivot: Pivot, grid: Grid, there: IntArray) -> IntArray:
        """Return the pads' cost over [boards, kickers] where `there` is 0 or more, else 0."""
        found = np.zeros(there.shape, dtype=np.int64)
        rows, columns = np.nonzero(there >= 0)
        if not self.kinds or not len(rows):
            return found
        angle = angles_rad(grid, pivot)[rows, columns]
        board = grid.boards_mm[rows].astype(float)
        kicker = grid.kickers_mm[columns].astype(float)
        places = self._floor(facing, pivot, (angle, board, kicker), grid.width_mm)
        keys, index = np.unique(places, axis=1, return_inverse=True)
        own = [self._cost(*(int(v) for v in key)) for key in keys.T]
        found[rows, columns] = np.array(own, dtype=np.int64)[index.ravel()]
        return found

    def _floor(
        self, facing: str, pivot: Pivot, posed: tuple[npt.NDArray[np.float64], ...], width_mm: int
    ) -> IntArray:
        """Return per wall the length wanted and clear from its foot, and the clear sides [mm]."""
        angle, board, kicker = posed
        room, factors = self.room, self.given["factors"]
        side = 1.0 if facing == "+x" else -1.0
        low, high = (round(y) for y in across_mm(room, width_mm))
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
        for solid in (*room["solids"], *_sides_of(room, pivot)):
            near, far = sorted(side * x for x in solid["x_mm"])
            y_low, y_high = solid["y_mm"]
            meets = (near < ends[1]) & (far > ends[0]) & (solid["z_mm"][0] < top)
            if y_low < low:
                left = np.where(meets, np.minimum(left, max(low - y_high, 0)), left)
            if y_high > high:
                right = np.where(meets, np.minimum(right, max(y_low - high, 0)), right)
        clear = self._reachable(run + free)
        wide = np.full(len(board), low), np.full(len(board), high)
        return np.stack([run + front, clear, left, right, *wide]).astype(np.int64)

    def _reachable(self, clear: npt.NDArray[np.float64]) -> IntArray:
        """Return the longest sum of pads' sides that is clear: no row or stack is longer."""
        sums = {0}
        most, new = int(clear.max(initial=0)), {0}
        while new:
            new = {s + d for s in new for k in self.kinds for d in k[:2] if s + d <= most} - sums
            sums |= new
        ladder = np.array(sorted(sums), dtype=np.int64)
        return ladder[np.searchsorted(ladder, clear, side="right") - 1]

    def _cost(self, wanted: int, clear: int, left: int, right: int, low: int, high: int) -> int:
        side = round(self.given["factors"]["fall_side_mm"])
        out = (0, wanted, 0, clear)
        across = (low - min(left, side), high + min(right, side), low - left, high + right)
        key = out, across
        if key not in self._known:
            self._known[key] = min(*self._stacks(out, across), *self._stacks(across, out))[1]
        return self._known[key]

    def _stacks(self, stack: Side, run: Side) -> list[tuple[int, int]]:
        """Return minus the area covered [mm2] and price [cents] of rows laid behind each other.

        A last row that reaches beyond what is wanted covers what the others leave.
        """
        rows, size, clear = self._rows(run), stack[1] - stack[0], stack[3] - stack[2]
        layers: dict[int, dict[Used, tuple[int, int]]] = {0: {self._none: (0, 0)}}
        done = []
        while layers:
            depth = min(layers)
            for used, (less, cents) in layers.pop(depth).items():
                done.append((less, cents))
                for deep, long, price, more in rows if depth < size else []:
                    both = tuple(a + b for a, b in zip(used, more, strict=True))
                    if depth + deep <= clear and self._enough(both):
                        covered = min(deep, size - depth) * long
                        layer = layers.setdefault(depth + deep, {})
                        new = less - covered, cents + price
                        layer[both] = min(layer.get(both, new), new)
        return done

    def _enough(self, used: Used) -> bool:
        pairs = zip(self.kinds, used, strict=True)
        return all(kind[3] < 0 or number <= kind[3] for kind, number in pairs)

    def _rows(self, run: Side) -> list[Row]:
        """Return the rows of every depth: the cheapest per length covered and pads used up."""
        size, clear = run[1] - run[0], run[3] - run[2]
        found: dict[tuple[int, int, Used], int] = {}
        for depth in sorted({d for kind in self.kinds for d in kind[:2]}):
            layers: dict[int, dict[Used, int]] = {0: {self._none: 0}}
            while layers:
                at = min(layers)
                for used, cents in layers.pop(at).items():
                    key = depth, min(at, size), used
                    if at:
                        found[key] = min(found.get(key, cents), cents)
                    for n, wide in self._of_depth(depth) if at < size else []:
                        limited = self.kinds[n][3] >= 0
                        more = (*used[:n], used[n] + limited, *used[n + 1 :])
                        if at + wide <= clear and self._enough(more):
                            layer = layers.setdefault(at + wide, {})
                            new = cents + self.kinds[n][2]
                            layer[more] = min(layer.get(more, new), new)
        return [(*key[:2], cents, key[2]) for key, cents in sorted(found.items())]

    def _of_depth(self, depth: int) -> list[tuple[int, int]]:
        """Return the kinds that can lie in rows of a depth, by number, with their width there."""
        sides = [(n, {k[:2], (k[1], k[0])}) for n, k in enumerate(self.kinds)]
        return [(n, wide) for n, ways in sides for deep, wide in sorted(ways) if deep == depth]


def _ahead(
    room: Document,
    side: float,
    lip: npt.NDArray[np.float64],
    top: npt.NDArray[np.float64],
    across: tuple[float, float],
) -> npt.NDArray[np.float64]:
    """Return the clear floor ahead of the lip [mm]."""
    free = max(0.0, side * room["length_mm"]) - lip
    for solid in room["solids"]:
        near, far = sorted(side * x for x in solid["x_mm"])
        meets = solid["y_mm"][0] < across[1] and solid["y_mm"][1] > across[0]
        stops = (far > lip) & (solid["z_mm"][0] < top)
        if meets:
            free = np.where(stops, np.minimum(free, np.maximum(near - lip, 0.0)), free)
    return np.asarray(free, dtype=np.float64)


def _sides_of(room: Document, pivot: Pivot) -> list[Document]:
    """Return posts and feet of the freestanding frame that a pivot hangs from, as solids."""
    beam: Document = next((b for b in room["beams"] if b["name"] == pivot.beam), {})
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
