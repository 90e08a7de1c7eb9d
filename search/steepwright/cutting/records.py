"""The record types that solvers and verifier share; nothing else is shared between them.

All lengths are integer mm, all money integer cents.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Grain = Literal["length", "width", "any"]


@dataclass(frozen=True, slots=True, order=True)
class SheetPart:
    """`count` equal rectangles to be cut.

    `grain` names the side along which the face grain must run, or ``any`` when the part may be
    turned.
    """

    name: str
    length_mm: int
    width_mm: int
    grain: Grain
    count: int


@dataclass(frozen=True, slots=True, order=True)
class SheetStock:
    """A sheet to cut from.

    `face_grain` is the side its grain runs along; `limit` None means any number.
    `cut_cents` is charged for each saw cut in it (0 for the builder's own offcut) beyond the first
    `free_cuts`.
    """

    sku: str
    length_mm: int
    width_mm: int
    face_grain: Literal["length", "width"]
    price_cents: int
    cut_cents: int
    limit: int | None
    free_cuts: int = 0

    def charge_cents(self, cuts: int) -> int:
        """Return what so many saw cuts in one such sheet cost [cents]."""
        return self.cut_cents * max(0, cuts - self.free_cuts)


@dataclass(frozen=True, slots=True, order=True)
class PlacedPart:
    """A part on a sheet: lower left corner (x along the sheet's length) and its size as laid."""

    name: str
    x_mm: int
    y_mm: int
    length_mm: int
    width_mm: int


@dataclass(frozen=True, slots=True, order=True)
class SawCut:
    """One edge-to-edge cut through a block of the sheet, in the order of the saw.

    `axis` ``x`` cuts at a fixed x (the blade runs along y) and ``y`` the other way; `at_mm` is
    where the kerf begins; the block it divides is given by its corners.
    """

    axis: Literal["x", "y"]
    at_mm: int
    x_mm: tuple[int, int]
    y_mm: tuple[int, int]


@dataclass(frozen=True, slots=True, order=True)
class SheetLayout:
    """One cut sheet: what lies where, and the cuts that free it."""

    sku: str
    length_mm: int
    width_mm: int
    kerf_mm: int
    parts: tuple[PlacedPart, ...]
    cuts: tuple[SawCut, ...]


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """A proven cheapest way to cut a list of parts: sheets, their price and the cuts' charge."""

    layouts: tuple[SheetLayout, ...]
    sheet_cents: int
    cut_cents: int

    @property
    def cost_cents(self) -> int:
        """Sheets and cuts together [cents]."""
        return self.sheet_cents + self.cut_cents


@dataclass(frozen=True, slots=True, order=True)
class BarPart:
    """`count` equal lengths of one timber section to be cut."""

    name: str
    length_mm: int
    count: int


@dataclass(frozen=True, slots=True, order=True)
class BarStock:
    """A stock length of one timber section."""

    sku: str
    length_mm: int
    price_cents: int
    limit: int | None


@dataclass(frozen=True, slots=True, order=True)
class BarLayout:
    """One cut bar: pieces from its start, one kerf between neighbours and one before the rest."""

    sku: str
    stock_mm: int
    kerf_mm: int
    pieces: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class BarPlan:
    """A proven cheapest way to cut a list of lengths."""

    layouts: tuple[BarLayout, ...]
    cost_cents: int
