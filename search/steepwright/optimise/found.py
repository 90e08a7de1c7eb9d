"""A design of the front before it is worked out."""

from __future__ import annotations

from dataclasses import dataclass

from steepwright.optimise.exact import SheetChoice


@dataclass(frozen=True, slots=True, order=True)
class Found:
    """A design of the front before it is worked out: indices, lengths and its sheets.

    Of two with equal scores the search keeps the lesser one, so that its answer depends neither
    on its order nor on what it is told beforehand.
    """

    place: int
    mount: int
    mount_count: int
    screw_mm: int
    tie: int
    sheeting: int
    section: int
    delivered: bool
    board_mm: int
    kicker_mm: int
    width_mm: int
    sheets: SheetChoice
