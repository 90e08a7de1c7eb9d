"""The declared space of designs: every family and the grid of lengths, counted."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.catalog.families import ties_on_offer
from steepwright.catalog.types import Hardware
from steepwright.geometry.layout import LayoutLimits, Split, divide
from steepwright.pricing.market import Market
from steepwright.pricing.wall import GrainNeed, columns_of
from steepwright.room.types import FACINGS, Facing, Room, stepped_up_mm

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, order=True)
class Sheeting:
    """How the board is made: sheet family (index), face-grain need, split and bays per column."""

    family: int
    grain: GrainNeed
    split: Split
    bays: int

    @property
    def studs(self) -> int:
        """Number of studs."""
        return self.split.columns * self.bays + 1


@dataclass(frozen=True, slots=True)
class Space:
    """Everything the search chooses from.

    Attributes
    ----------
    boards_mm, kickers_mm, widths_mm
        The grid of lengths [mm], ascending.
    places
        (beam index, facing) pairs.
    sheetings
        Ways to make the board at some width searched.
    searched
        How many of the widths are searched: the least one, or all. The least one is searched by
        itself first: costs fall with the width for saw cuts only, so the walls found there rule
        out nearly all that are wider.
    """

    market: Market
    boards_mm: IntArray
    kickers_mm: IntArray
    widths_mm: IntArray
    places: tuple[tuple[int, Facing], ...]
    sheetings: tuple[Sheeting, ...]
    searched: int = 1

    @property
    def width_mm(self) -> int:
        """The least width asked for [mm]."""
        return int(self.widths_mm[0])

    def least_width(self, sheeting: Sheeting) -> int:
        """Return the number of the least width at which the board can be divided so.

        It can at every greater width, too: of unequal columns only the last one grows.
        """
        split, smallest = sheeting.split, self.market.limits.min_piece_mm
        most = split.columns - 1
        rest = split.full_column_mm * most if split.full_column_mm else smallest * most
        need = rest + smallest if most else 0
        return int(np.searchsorted(self.widths_mm, need))

    def columns_mm(self, sheeting: Sheeting, width: int | None = None) -> tuple[int, ...]:
        """Return the columns' widths [mm] at a width's number, or at the least one possible."""
        number = self.least_width(sheeting) if width is None else width
        columns = columns_of(sheeting.split, int(self.widths_mm[number]), self.market.limits)
        assert columns is not None
        return columns

    @property
    def mount_counts(self) -> tuple[int, ...]:
        """How many mounts may carry the lip, ascending."""
        return limit_range(self.market, "mounts")

    @property
    def screws_mm(self) -> tuple[int, ...]:
        """How far apart the sheet's screws may stand [mm], the widest first."""
        factors = self.market.catalog.materials.factors
        least, most, step = (
            int(factors[f"search_{what}_screw_mm"]) for what in ("least", "most", "step")
        )
        return tuple(range(most, least - 1, -step))

    @property
    def ties(self) -> tuple[Hardware | None, ...]:
        """What may tie the studs back to a second beam: nothing, then all that is on offer."""
        if self.market.room.tie_beam is None:
            return (None,)
        return (None, *ties_on_offer(self.market.catalog))

    @property
    def fixings(self) -> tuple[tuple[int, int, int], ...]:
        """Ways to fix a wall: number of mounts, distance of screws [mm], and tie (index).

        For each tie, none first, the cheapest way first.
        """
        return tuple(
            (mounts, screw, tie)
            for tie in range(len(self.ties))
            for mounts in self.mount_counts
            for screw in self.screws_mm
        )

    @property
    def families(self) -> int:
        """Number of choices of everything that is not a length."""
        market = self.market
        return (
            len(self.places)
            * len(self.sheetings)
            * len(market.sections)
            * len(market.catalog.mounts)
            * len(self.mount_counts)
            * len(self.screws_mm)
            * len(self.ties)
            * 2
        )

    @property
    def cells(self) -> int:
        """Number of grid points of board length and kicker."""
        return len(self.boards_mm) * len(self.kickers_mm)

    @property
    def designs(self) -> int:
        """Number of designs in the space: each choice at every width that it can be made at."""
        widths = sum(self.searched - self.least_width(made) for made in self.sheetings)
        return self.families // max(len(self.sheetings), 1) * widths * self.cells


def build_space(market: Market) -> Space:
    """Lay out the space of a room and a market."""
    wall = market.room.wall
    widths = np.arange(least_width_mm(market.room), wall.width_mm[1] + 1, wall.step_mm)
    kickers = np.arange(wall.kicker_mm[0], wall.kicker_mm[1] + 1, wall.step_mm, dtype=np.int64)
    low, high = board_range_mm(market.room, market)
    boards = np.arange(low, high + 1, wall.step_mm, dtype=np.int64)
    places = tuple((beam, facing) for beam in range(len(market.room.beams)) for facing in FACINGS)
    widths = widths.astype(np.int64)
    sheetings = _sheetings(market, widths[:1], high)
    return Space(market, boards, kickers, widths, places, sheetings)


def wider_space(space: Space) -> Space | None:
    """Return the space of all widths of one of the least width; None when there is no other.

    Its sheetings begin with those of the other space, in their order.
    """
    if len(space.widths_mm) == 1:
        return None
    made = _sheetings(space.market, space.widths_mm, int(space.boards_mm[-1]))
    known = set(space.sheetings)
    more = tuple(sheeting for sheeting in made if sheeting not in known)
    return replace(space, searched=len(space.widths_mm), sheetings=(*space.sheetings, *more))


def least_width_mm(room: Room) -> int:
    """Return the least width [mm] that is asked for, in mm and in spans of the climber."""
    wall = room.wall
    return stepped_up_mm(
        wall.width_mm[0], wall.step_mm, wall.min_width_spans * room.climber.span_mm
    )


def limit_range(market: Market, what: str) -> tuple[int, ...]:
    """Return the numbers of ``mounts`` or ``studs`` that the search looks at, ascending."""
    factors = market.catalog.materials.factors
    least, most = factors[f"search_least_{what}"], factors[f"search_most_{what}"]
    return tuple(range(int(least), int(most) + 1))


def board_range_mm(room: Room, market: Market) -> tuple[int, int]:
    """Return the least and greatest board length [mm] that any asked angle can need.

    From L = (Z - k) / cos t over all beams and mounts, widened by the mount's offsets and
    rounded outward to the grid.
    """
    wall, step = room.wall, room.wall.step_mm
    if wall.board_mm is not None:
        return wall.board_mm
    drops = [mount.drop_mm for mount in market.catalog.mounts]
    slack = max(m.setback_mm + m.behind_sheet_mm for m in market.catalog.mounts) + max(
        f.thickness_mm for f in market.families
    )
    highest = max(min(beam.underside_mm) for beam in room.beams) - min(drops)
    lowest = min(min(beam.underside_mm) for beam in room.beams) - max(drops)
    least, most = (math.radians(angle) for angle in wall.angle_deg)
    short = (lowest - wall.kicker_mm[1]) / math.cos(least) - slack
    long = (highest - wall.kicker_mm[0]) / math.cos(most) + slack / math.cos(most)
    return max(step, int(short // step) * step), int(-(-long // step)) * step


def _sheetings(market: Market, widths_mm: IntArray, longest_mm: int) -> tuple[Sheeting, ...]:
    wall, studs = market.room.wall, limit_range(market, "studs")
    widths, made = tuple(widths_mm.tolist()), []
    for index, allowed in enumerate(market.board_allowed):
        if allowed:
            sides = market.split_sides_mm[index]
            rows = tuple(side for side in sides if side < longest_mm)
            most = wall.max_columns, wall.max_rows
            ways = _ways(widths, sides, rows, most, studs, market.limits)
            made += [Sheeting(index, *way) for way in ways]
    return tuple(made)


@lru_cache(maxsize=256)
def _ways(
    widths_mm: tuple[int, ...],
    sides_mm: tuple[int, ...],
    rows_mm: tuple[int, ...],
    most: tuple[int, int],
    studs: tuple[int, ...],
    limits: LayoutLimits,
) -> tuple[tuple[GrainNeed, Split, int], ...]:
    """Return the ways to divide a board of sheets with such sides at some width, in order.

    `most` columns and rows; of the sides only some are shorter than a board.
    """
    columns: dict[tuple[tuple[int, ...], ...], tuple[int, int]] = {}
    for count in range(1, most[0] + 1):
        for full in [0, *sides_mm] if count > 1 else [0]:
            every = (divide(width, count, full, limits.min_piece_mm) for width in widths_mm)
            sizes = tuple(tuple(sorted(one)) if one else () for one in every)
            if any(sizes):
                columns.setdefault(sizes, (count, full))
    rows = [(1, 0)]
    for count in range(2, most[1] + 1):
        rows += [(count, full) for full in (0, *rows_mm)]
    splits = {Split(*column, *row) for column in columns.values() for row in rows}
    grains: tuple[GrainNeed, ...] = ("across", "any")
    ways = {(g, s, bays) for s in splits for bays in _bays(s.columns, studs) for g in grains}
    return tuple(sorted(ways))


def _bays(columns: int, studs: tuple[int, ...]) -> list[int]:
    return [(n - 1) // columns for n in studs if (n - 1) % columns == 0]
