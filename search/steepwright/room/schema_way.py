"""The room file's tables of the way in."""

from __future__ import annotations

from typing import Annotated

from steepwright.room.fields import Real, Whole
from steepwright.room.schema_base import FLAT_PIECE, Name, Table

_Opening = Annotated[int, Whole(300, 20_000)]
_Step = Annotated[int, Whole(50, 500)]


class CorridorTable(Table):
    """A right-angled corner on the way in: a stair landing, a turn of a corridor."""

    name: Name
    """Where it is."""
    width_a_mm: _Opening
    """Clear width before the corner [mm]."""
    width_b_mm: _Opening
    """Clear width after the corner [mm]."""
    height_mm: _Opening
    """Clear height at the corner [mm]."""


class DoorTable(Table):
    """A doorway on the way in."""

    name: Name
    """Where it is."""
    width_mm: _Opening
    """Clear width [mm]."""
    height_mm: _Opening
    """Clear height [mm]."""


class StairTable(Table):
    """A straight flight of stairs on the way in."""

    name: Name
    """Which one it is."""
    width_mm: _Opening
    """Clear width between walls or rails [mm]."""
    headroom_mm: _Opening
    """Least clear height straight up from the front edge of a step [mm]."""
    rise_mm: _Step
    """Height of one step [mm]."""
    going_mm: _Step
    """Depth of one step, from front edge to front edge [mm]."""
    height_below_mm: _Opening
    """Height of the ceiling where the flight begins, above the lower floor [mm]."""
    height_above_mm: _Opening
    """Height of the ceiling where the flight ends, above the upper floor [mm]."""


class LandingTable(Table):
    """A square landing where a stair turns by a right angle."""

    name: Name
    """Where it is."""
    width_a_mm: _Opening
    """Clear width of the flight below it [mm]."""
    width_b_mm: _Opening
    """Clear width of the flight above it [mm]."""
    height_mm: _Opening
    """Least clear height straight up from the landing and from the steps beside it [mm]."""
    rise_mm: _Step
    """Height of one step [mm]."""
    going_mm: _Step
    """Depth of one step, from front edge to front edge [mm]."""


class LiftTable(Table):
    """A lift that takes things up."""

    name: Name
    """Where it is."""
    door_width_mm: _Opening
    """Clear width of its door [mm]."""
    door_height_mm: _Opening
    """Clear height of its door [mm]."""
    width_mm: _Opening
    """Clear width of the cage, along the door's wall [mm]."""
    depth_mm: _Opening
    """Clear depth of the cage behind the closed door [mm]."""
    height_mm: _Opening
    """Clear height of the cage [mm]."""


class WindowTable(Table):
    """A window through which things can be hoisted in, past everything else on the way."""

    name: Name
    """Which one it is."""
    width_mm: _Opening
    """Clear width of the open window [mm]."""
    height_mm: _Opening
    """Clear height of the open window [mm]."""
    inside_mm: _Opening
    """Clear floor straight in from it [mm]."""


class AccessTable(Table):
    """What can be carried into the room."""

    max_piece_mm: Annotated[tuple[int, int] | None, FLAT_PIECE] = None
    """The largest flat piece that gets in, longer side first [mm]."""
    max_carry_kg: Annotated[float | None, Real(1, 500, "kg")] = None
    """What one of you carries at most [kg]; two together count for less than twice that."""
    carriers: Annotated[int, Whole(1, 10, "people")] = 2
    """How many people carry a piece together."""
    corridors: list[CorridorTable] = []
    """Right-angled corners on the way in."""
    doors: list[DoorTable] = []
    """Doorways on the way in."""
    stairs: list[StairTable] = []
    """Straight flights of stairs on the way in."""
    landings: list[LandingTable] = []
    """Landings on the way in where a stair turns."""
    lifts: list[LiftTable] = []
    """Lifts on the way in."""
    windows: list[WindowTable] = []
    """Windows to hoist by: what passes one of them need not pass anything else."""
