"""The room file as pydantic models: every table, key, kind of value and default.

These models live at the edge only: they say what may be written and feed the shipped JSON
Schema. The rest of the package reads the frozen records of `steepwright.room.types`.
"""

from __future__ import annotations

import json
from typing import Annotated, Any

from steepwright.room.fields import Choice, Flag, Money, Pair, Real, Text, Whole
from steepwright.room.schema_base import FLAT_PIECE, Name, Table
from steepwright.room.schema_places import (
    BeamTable,
    FrameTable,
    JoistsTable,
    LedgerTable,
    RoomTable,
    SlabTable,
    SolidTable,
    SpreaderTable,
    TieBackTable,
)
from steepwright.room.schema_way import (
    AccessTable,
    CorridorTable,
    DoorTable,
    LandingTable,
    LiftTable,
    StairTable,
    WindowTable,
)

__all__ = [
    "SCHEMA_DIALECT",
    "AccessTable",
    "BeamTable",
    "ClimberTable",
    "CorridorTable",
    "DoorTable",
    "FrameTable",
    "JoistsTable",
    "LandingTable",
    "LedgerTable",
    "LiftTable",
    "OffcutTable",
    "PadTable",
    "RoomFile",
    "RoomTable",
    "SlabTable",
    "SolidTable",
    "SpreaderTable",
    "StairTable",
    "Table",
    "TieBackTable",
    "WallTable",
    "WindowTable",
    "YardTable",
    "room_json_schema",
]

SCHEMA_DIALECT = "https://json-schema.org/draft/2020-12/schema"

_SheetSide = Annotated[int, Whole(20, 10_000)]


class ClimberTable(Table):
    """Who climbs."""

    mass_kg: Annotated[float, Real(20, 200, "kg")] = 80.0
    """Mass of the heaviest climber [kg]."""
    span_mm: Annotated[int, Whole(800, 2600)] = 1750
    """Distance between the finger tips with arms spread [mm]."""
    dynamic_factor: Annotated[float, Real(1, 6, "")] = 2.0
    """Times the weight: 2 is a load that comes on suddenly. A stated assumption."""
    climbers: Annotated[int, Whole(1, 4, "people")] = 1
    """How many climb at once."""


class WallTable(Table):
    """The walls to look at: ranges [least, most]."""

    angle_deg: Annotated[tuple[float, float], Pair(Real(0, 70, "degrees"))]
    """Overhang from the vertical [degrees]: 0 is upright, 45 steep."""
    kicker_mm: Annotated[tuple[int, int], Pair(Whole(0, 2000))]
    """Height of the vertical strip below the board [mm]; 0 is none."""
    width_mm: Annotated[tuple[int, int], Pair(Whole(300, 20_000))]
    """Width of the wall [mm]."""
    step_mm: Annotated[int, Whole(1, 500)] = 5
    """All lengths are looked at in steps of this size [mm]."""
    fold_up: Annotated[bool, Flag()] = True
    """Whether the board folds up under the ceiling."""
    min_fall_space_mm: Annotated[int, Whole(0, 20_000)] = 2000
    """Clear floor in front of the lip's plumb line that you insist on [mm]."""
    side_passage_mm: Annotated[int, Whole(0, 5000)] = 0
    """Clear passage beside the wall that you insist on [mm]."""
    board_mm: Annotated[tuple[int, int] | None, Pair(Whole(500, 10_000))] = None
    """Length of the board up the slope [mm]; left out, what the angles allow."""
    sheet_kinds: list[Name] = []
    """Kinds of sheet to look at, as the catalogue calls them; empty is all."""
    min_thickness_mm: Annotated[int, Whole(6, 60)] = 15
    """Thinnest sheet to climb on [mm]."""
    max_columns: Annotated[int, Whole(1, 6, "")] = 3
    """Most board pieces side by side."""
    max_rows: Annotated[int, Whole(1, 4, "")] = 2
    """Most board pieces above each other."""
    align: Annotated[str, Choice(("left", "centre", "right"))] = "centre"
    """Where the wall stands across the room: left is at y = 0."""
    hold_spacing_mm: Annotated[int, Whole(50, 1000)] = 200
    """Distance of the hold positions [mm]."""
    min_climbable_mm: Annotated[int, Whole(0, 12_000)] = 0
    """Least length to climb, board and kicker together [mm]."""
    min_moves: Annotated[int, Whole(0, 30, "moves")] = 0
    """Least number of moves up the board, estimated from the climber's span."""
    min_width_spans: Annotated[float, Real(0, 5, "spans")] = 0.0
    """Least width of the wall as a multiple of the climber's span."""
    max_start_mm: Annotated[int | None, Whole(0, 3000)] = None
    """Greatest height of the board's lowest row of holds above the floor [mm]."""
    tolerance_mm: Annotated[int, Whole(0, 200)] = 0
    """How much every length measured in the room may be wrong [mm]; walls must fit even then."""


class OffcutTable(Table):
    """A piece of sheet that the yard sells cheaply or that you own already."""

    name: Name
    """What you call it; it becomes its article number."""
    kind: Name
    """Kind of sheet, as the catalogue calls it."""
    thickness_mm: Annotated[int, Whole(3, 60)]
    """Thickness [mm]."""
    length_mm: _SheetSide
    """Length [mm]."""
    width_mm: _SheetSide
    """Width [mm]."""
    face_grain: Annotated[str, Choice(("length", "width"))]
    """The side that the face grain runs along."""
    count: Annotated[int, Whole(1, 100, "pieces")]
    """How many there are."""
    price: Annotated[int, Money()]
    """Price of one [currency of the catalogue]; 0 when it is yours."""
    panel: Annotated[str, Text(80, 0)] = ""
    """Panel as the catalogue calls it; asked for where kind and thickness leave more than one."""


class YardTable(Table):
    """Where you buy, and what cutting and delivery cost."""

    catalog: Annotated[str, Text(400, 0)] = ""
    """Folder of the catalogue, relative to this file; empty is the shipped example yard."""
    cut_price: Annotated[int, Money()] = 0
    """Price of one saw cut in a bought sheet [currency of the catalogue]."""
    free_cuts: Annotated[int, Whole(0, 100, "cuts")] = 0
    """How many cuts in each bought sheet cost nothing."""
    saw_max_mm: Annotated[tuple[int, int] | None, FLAT_PIECE] = None
    """The largest sheet the shop's saw takes, longer side first [mm]; left out, any."""
    saw_least_mm: Annotated[int, Whole(0, 2000)] = 0
    """The narrowest piece that the shop saws off [mm]; narrower ones are left for home."""
    delivery_price: Annotated[int, Money()] = 0
    """Price of one delivery, paid when something does not fit your vehicle."""
    vehicle_max_mm: Annotated[tuple[int, int] | None, FLAT_PIECE] = None
    """The largest flat piece your vehicle takes, longer side first [mm]; left out, any."""
    kerf_mm: Annotated[int, Whole(0, 20)] = 4
    """Width of the saw's cut [mm]."""
    pads_on_bill: Annotated[bool, Flag()] = False
    """Whether the pads that have to be bought are part of the cost that is kept small."""
    offcuts: list[OffcutTable] = []
    """Limited pieces of sheet."""


class PadTable(Table):
    """Floor pads that you have already."""

    name: Name
    """What you call them."""
    length_mm: Annotated[int, Whole(300, 5000)]
    """Longer side [mm]."""
    width_mm: Annotated[int, Whole(300, 5000)]
    """Shorter side [mm]."""
    thickness_mm: Annotated[int, Whole(20, 1000)]
    """Thickness [mm]."""
    count: Annotated[int, Whole(1, 20, "pads")] = 1
    """How many there are."""


class RoomFile(Table):
    """A room, its beams, what stands in it, and the walls to look for."""

    room: RoomTable
    beams: list[BeamTable] = []
    """Ceiling beams, one [[beams]] table each; the wall's lip hangs from one of them."""
    joists: list[JoistsTable] = []
    """Hidden joists, one [[joists]] table for each even row; the lip may hang from any of them."""
    slabs: list[SlabTable] = []
    """Concrete slabs, one [[slabs]] table for each row of places that the lip may hang from."""
    frames: list[FrameTable] = []
    """Freestanding frames, one [[frames]] table for each row of places that one may stand at."""
    ledgers: list[LedgerTable] = []
    """Beams on wall ledgers, one [[ledgers]] table for each row of places that one may lie at."""
    spreaders: list[SpreaderTable] = []
    """Timbers under joists that run along the room, one [[spreaders]] table for each row."""
    solids: list[SolidTable] = []
    """Things that can't be moved or fallen on, one [[solids]] table each."""
    access: AccessTable = AccessTable()
    climber: ClimberTable = ClimberTable()
    wall: WallTable
    yard: YardTable = YardTable()
    pads: list[PadTable] = []
    """Floor pads that you have already, one [[pads]] table for each kind."""
    tie_back: TieBackTable | None = None
    """A second beam that the studs may be tied back to, where that saves money."""


def room_json_schema() -> str:
    """Return the JSON Schema of the room file as text, ready to be written."""
    schema: dict[str, Any] = {"$schema": SCHEMA_DIALECT, **RoomFile.model_json_schema()}
    tidy = _tidy(schema) | {"title": "steepwright room"}
    return json.dumps(tidy, indent=2, ensure_ascii=False) + "\n"


def _tidy(node: Any) -> Any:
    """Drop titles made from key names, and null defaults, which TOML can't hold."""
    if isinstance(node, list):
        return [_tidy(item) for item in node]
    if not isinstance(node, dict):
        return node
    return {
        key: _tidy(value)
        for key, value in node.items()
        if not (key == "title" and isinstance(value, str)) and (key, value) != ("default", None)
    }
