"""The floor that one wall or many ask to pad, and what the pads for it cost."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Catalog, Hardware
from steepwright.geometry import side_space_mm, wall_y_range_mm
from steepwright.geometry.pad_prices import Lengths, cheapest_cents
from steepwright.geometry.pads import Pad, Padding, Span, lay_pads
from steepwright.geometry.stand_parts import stand_solids
from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing, plan_positions_mm
from steepwright.room.types import Room

IntArray = npt.NDArray[np.int64]

OWN = "own: "
"""Begins the names of pads that are there already."""


def on_offer(catalog: Catalog) -> list[Hardware]:
    """Return the pads that are sold singly."""
    return [row for row in catalog.hardware if row.kind == "pad" and row.pack_quantity == 1]


def pad_thickness_mm(room: Room, catalog: Catalog) -> int | None:
    """Return how thick the pads are: of all at hand the thinnest that meets the guidance.

    The thickest when none does; None when there are no pads at all.
    """
    thicknesses = {row.thickness_mm for row in on_offer(catalog)}
    thicknesses |= {pad.thickness_mm for pad in room.pads}
    asked = catalog.materials.factors["fall_mat_mm"]
    return min((t for t in thicknesses if t >= asked), default=max(thicknesses, default=None))


def pad_kinds(room: Room, catalog: Catalog, thickness_mm: int) -> tuple[Pad, ...]:
    """Return the kinds of one thickness, own ones first; of equal bought ones the cheapest."""
    own = [
        Pad(OWN + pad.name, pad.length_mm, pad.width_mm, 0, pad.count)
        for pad in room.pads
        if pad.thickness_mm == thickness_mm
    ]
    bought: dict[tuple[int, int], Pad] = {}
    for row in sorted(on_offer(catalog), key=lambda row: (row.price_cents, row.sku)):
        if row.thickness_mm == thickness_mm:
            sides = (max(row.length_mm, row.width_mm), min(row.length_mm, row.width_mm))
            bought.setdefault(sides, Pad(row.sku, *sides, row.price_cents, None))
    return (*own, *bought.values())


@dataclass(frozen=True, slots=True)
class Floor:
    """The floor at walls of one facing, arrays of one length in whole mm.

    Attributes
    ----------
    y_mm
        The wall's range across the room.
    run, ahead
        From the kicker's face to the lip's plumb line, and from there to what stands ahead.
    front, side
        What the guidance asks for in front of the lip, as far as it is clear, and at the sides.
    left, right
        Clear floor at the sides.
    """

    y_mm: tuple[int, int]
    run: IntArray
    ahead: IntArray
    front: IntArray
    left: IntArray
    right: IntArray
    side: int

    def spans(self, n: int) -> tuple[Span, Span]:
        """Return one wall's floor away from its foot, and along it."""
        run, ahead, front = int(self.run[n]), int(self.ahead[n]), int(self.front[n])
        left, right, (low, high) = int(self.left[n]), int(self.right[n]), self.y_mm
        wanted = low - min(left, self.side), high + min(right, self.side)
        out = Span((0, run + front), (0, run + ahead), anchored=True)
        return out, Span(wanted, (low - left, high + right))

    def alike(self, kinds: tuple[Pad, ...]) -> tuple[IntArray, IntArray]:
        """Return the floors that differ, and which of them each wall has.

        Rows: to be padded and clear away from the kicker, and clear at both sides [mm]. No layout
        that fits is longer than the clear floor ahead, so only the longest sum of pads' sides that
        fits there counts, and most walls share theirs.
        """
        clear = self.run + self.ahead
        sums = _sums({side for pad in kinds for side in pad[1:3]}, int(clear.max(initial=0)))
        clear = sums[np.searchsorted(sums, clear, side="right") - 1]
        keys = np.stack([self.run + self.front, clear, self.left, self.right])
        every, which = np.unique(keys, axis=1, return_inverse=True)
        return every, which.ravel()


def floor_of(space: Space, walls: Standing, fall_mm: npt.ArrayLike, width_mm: int) -> Floor:
    """Return the floor to pad at walls of some width, whose fall space [mm] is known.

    To be padded is the floor from the kicker's face to the guidance in front of the lip, and to
    the guidance on both sides, as far as it is clear; the sides of a freestanding frame end it.
    """
    room, factors = space.market.room, space.market.catalog.materials.factors
    sign = 1 if space.places[walls.place][1] == "+x" else -1
    y0, y1 = whole_range_mm(room, width_mm)
    foot, lip = (_whole(x) for x in plan_positions_mm(space, walls))
    height = _whole(walls.kicker + walls.board * np.cos(walls.angle))
    low = height <= factors["fall_low_wall_mm"]
    asked = np.where(low, factors["fall_front_low_mm"], factors["fall_front_high_mm"])
    ahead = np.asarray(fall_mm, dtype=np.int64)
    front = np.minimum(ahead, _whole(asked))
    beam = room.beams[space.places[walls.place][0]]
    stands = replace(room, solids=(*room.solids, *stand_solids(room, beam)))
    sides = side_space_mm(stands, y0, y1, (foot, lip + sign * front), height)
    left, right = (np.broadcast_to(side, foot.shape).astype(np.int64) for side in sides)
    run = _whole(walls.board * np.sin(walls.angle))
    return Floor((y0, y1), run, ahead, front, left, right, round(factors["fall_side_mm"]))


def whole_range_mm(room: Room, width_mm: int) -> tuple[int, int]:
    """Return where a wall lies across the room in whole mm."""
    low, high = (round(float(y)) for y in wall_y_range_mm(room, width_mm))
    return low, high


def _whole(value: npt.NDArray[np.float64]) -> IntArray:
    return np.rint(value).astype(np.int64)


def pads_cents(space: Space, walls: Standing, fall_mm: npt.ArrayLike, width_mm: int) -> IntArray:
    """Return what the pads of each wall cost [cents]; 0 where there are none to be had."""
    floor, kinds = floor_of(space, walls, fall_mm, width_mm), kinds_at_hand(space)
    floors, which = floor.alike(kinds)
    return np.asarray(priced(kinds, floors, floor, [floor.y_mm])[which, 0])


def kinds_at_hand(space: Space) -> tuple[Pad, ...]:
    """Return the kinds of pads that are laid; none where there are none to be had."""
    room, catalog = space.market.room, space.market.catalog
    thickness = pad_thickness_mm(room, catalog)
    return () if thickness is None else pad_kinds(room, catalog, thickness)


def priced(
    kinds: tuple[Pad, ...], floors: IntArray, at: Floor, ranges_mm: list[tuple[int, int]]
) -> IntArray:
    """Return what pads cost [cents] on some floors (`Floor.alike`) at walls of some ranges.

    The ranges across the room hold that of the walls that the floors were told of, and reach
    nothing else: what is clear at a side gets narrower. Where there is nothing, for something
    stands in part under the board, it stays so. By floor and range.
    """
    if not kinds:
        return np.zeros((floors.shape[1], len(ranges_mm)), dtype=np.int64)
    ahead, clear, left, right = floors[:, :, None]
    low, high = np.array(ranges_mm, dtype=np.int64).T[:, None, :]
    left = np.maximum(left - (at.y_mm[0] - low), 0)
    right = np.maximum(right - (high - at.y_mm[1]), 0)
    whole = high - low + left + right
    wanted = high - low + np.minimum(left, at.side) + np.minimum(right, at.side)
    # Most floors are padded from side to side at every width: these are laid once.
    columns = np.broadcast_arrays(np.arange(floors.shape[1])[:, None], wanted, whole)
    sizes = tuple(int(column.max(initial=0)) + 1 for column in columns)
    keys, which = np.unique(np.ravel_multi_index(columns, sizes), return_inverse=True)
    floor, *along = np.unravel_index(keys, sizes)
    out = Lengths(ahead[floor, 0], clear[floor, 0])
    cents = cheapest_cents(kinds, out, Lengths(*along))
    return np.asarray(cents[which].reshape(wanted.shape))


def laid_pads(
    space: Space, walls: Standing, fall_mm: int, width_mm: int
) -> tuple[Span, Span, Padding]:
    """Return one wall's floor away from its foot and along it, and the pads on it.

    Raises
    ------
    ValueError
        When there are no pads to be had.
    """
    room, catalog = space.market.room, space.market.catalog
    thickness = pad_thickness_mm(room, catalog)
    if thickness is None:
        message = "there are no pads"
        raise ValueError(message)
    out, across = floor_of(space, walls, [fall_mm], width_mm).spans(0)
    return out, across, lay_pads(pad_kinds(room, catalog, thickness), out, across)


def pads_to_buy(catalog: Catalog, padding: Padding) -> list[tuple[Hardware, int]]:
    """Return the pads of a layout that are bought, and how many of each."""
    counts = Counter(pad.name for pad in padding.pads)
    return [(row, counts[row.sku]) for row in on_offer(catalog) if counts[row.sku]]


def _sums(sides: set[int], most_mm: int) -> IntArray:
    """Return all sums of sides up to a length, ascending, 0 among them."""
    reached = np.zeros(most_mm + 1, dtype=np.bool_)
    reached[0] = True
    for at in range(most_mm + 1):
        if reached[at]:
            for side in sides:
                if at + side <= most_mm:
                    reached[at + side] = True
    return np.flatnonzero(reached)
