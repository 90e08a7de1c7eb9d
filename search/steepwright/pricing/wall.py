"""One wall, chosen in full: what it is made of and the lists of parts that it asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steepwright.catalog.families import SheetFamily, TimberSection
from steepwright.catalog.types import Hardware, Mount
from steepwright.cutting.records import BarPart, Grain, SheetPart
from steepwright.geometry.layout import FrameShape, LayoutLimits, Split, divide, frame_bars
from steepwright.room.types import Facing

GrainNeed = Literal["across", "any"]


@dataclass(frozen=True, slots=True)
class Wall:
    """A complete design: every choice and the three lengths [mm].

    `grain` ``across`` wants the board's face grain square to the studs. `kicker_sheet` is the
    family the kicker is cut from; it may be the board's own. `delivered` tells whether the
    yard's delivery is paid for, which allows bars longer than the builder's vehicle. `tie` is what
    ties every stud back to the room's second beam, `tie_at_mm` how far up the board and `eye_mm`
    how far from the pivot the lifting lines' eyes are: None for the middle and the usual place.
    """

    beam: int
    facing: Facing
    sheet: SheetFamily
    grain: GrainNeed
    split: Split
    bays: int
    section: TimberSection
    mount: Mount
    mount_count: int
    kicker_sheet: SheetFamily
    delivered: bool
    board_mm: int
    kicker_mm: int
    width_mm: int
    screw_mm: int
    tie: Hardware | None = None
    tie_at_mm: int | None = None
    eye_mm: int | None = None

    @property
    def stud_count(self) -> int:
        """Number of studs."""
        return self.split.columns * self.bays + 1

    @property
    def tie_place(self) -> float:
        """How far up the board ties are fixed, over its length [-]."""
        return 0.5 if self.tie_at_mm is None else self.tie_at_mm / self.board_mm


def columns_of(split: Split, width_mm: int, limits: LayoutLimits) -> tuple[int, ...] | None:
    """Return the widths of the board's columns [mm], None when the split can't be made."""
    return divide(width_mm, split.columns, split.full_column_mm, limits.min_piece_mm)


def rows_of(split: Split, board_mm: int, limits: LayoutLimits) -> tuple[int, ...] | None:
    """Return the lengths of the board's rows [mm] from the lower end up, None when impossible."""
    return divide(board_mm, split.rows, split.full_row_mm, limits.min_piece_mm)


def board_parts(
    rows_mm: tuple[int, ...], columns_mm: tuple[int, ...], grain: GrainNeed
) -> tuple[SheetPart, ...]:
    """Return the board's pieces, equal ones together; a piece's length runs up the slope."""
    need: Grain = "width" if grain == "across" else "any"
    counts: dict[tuple[int, int], int] = {}
    for length in rows_mm:
        for width in columns_mm:
            counts[length, width] = counts.get((length, width), 0) + 1
    return tuple(
        SheetPart(f"board {length} x {width}", length, width, need, count)
        for (length, width), count in sorted(counts.items(), reverse=True)
    )


def kicker_parts(
    kicker_mm: int, columns_mm: tuple[int, ...], grain: GrainNeed
) -> tuple[SheetPart, ...]:
    """Return the kicker's strips, divided like the board's columns; none without a kicker.

    Their face grain runs across the wall when the board's has to.
    """
    need: Grain = "length" if grain == "across" else "any"
    if not kicker_mm:
        return ()
    counts: dict[int, int] = {}
    for width in columns_mm:
        counts[width] = counts.get(width, 0) + 1
    return tuple(
        SheetPart(f"kicker {width} x {kicker_mm}", width, kicker_mm, need, count)
        for width, count in sorted(counts.items(), reverse=True)
    )


def frame_shape(wall: Wall, columns_mm: tuple[int, ...]) -> FrameShape:
    """Return what the frame's bars depend on."""
    return FrameShape(
        wall.board_mm,
        wall.kicker_mm,
        columns_mm,
        wall.split.rows,
        wall.bays,
        wall.section.width_mm,
    )


def bar_parts(shape: FrameShape, limits: LayoutLimits) -> tuple[BarPart, ...] | None:
    """Return the frame's bars for the cutting solver; None when one would be too short."""
    bars = frame_bars(shape, limits)
    return None if bars is None else tuple(BarPart(*bar) for bar in bars)
