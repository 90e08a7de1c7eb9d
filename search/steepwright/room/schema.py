"""The room file as pydantic models: every table, key, kind of value and default.

These models live at the edge only: they say what may be written and feed the shipped JSON
Schema. The rest of the package reads the frozen records of `steepwright.room.types`.
"""

from __future__ import annotations

import json
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict

from steepwright.room.fields import Choice, Flag, Money, Pair, Real, Text, Whole

SCHEMA_DIALECT = "https://json-schema.org/draft/2020-12/schema"

_Name = Annotated[str, Text()]
_RoomSide = Annotated[int, Whole(1000, 50_000)]
_PlaceRange = Annotated[tuple[int, int], Pair(Whole(0, 50_000))]
_Opening = Annotated[int, Whole(300, 20_000)]
_Step = Annotated[int, Whole(50, 500)]
_SheetSide = Annotated[int, Whole(20, 10_000)]
_FLAT_PIECE = Pair(Whole(100, 20_000), ("length", "width"), order="falling")


class Table(BaseModel):
    """A TOML table whose keys are all known."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)


class RoomTable(Table):
    """The room itself. x runs along its length, y across it, z up from the finished floor."""

    name: _Name
    """What you call the room; it names the report."""
    length_mm: _RoomSide
    """Clear length along x [mm]."""
    width_mm: _RoomSide
    """Clear width along y [mm]."""
    ceiling_mm: Annotated[int, Whole(1500, 10_000)]
    """Height of the ceiling above the finished floor [mm]."""
    units: Annotated[str, Choice(("mm", "inch"))] = "mm"
    """What lengths are shown in: "mm", or "inch" for feet, inches and sixteenths."""


class BeamTable(Table):
    """A ceiling beam that runs across the room, from wall to wall along y."""

    name: _Name
    """What you call the beam."""
    x_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the beam's middle line from the wall at x = 0 [mm]."""
    underside_mm: Annotated[
        tuple[int, int],
        Pair(Whole(1000, 10_000), ("left end", "right end"), order="", single=True),
    ]
    """Height of the underside above the floor [mm]; two numbers when the beam is not level."""
    width_mm: Annotated[int, Whole(30, 600)]
    """Width of the beam's section, level [mm]."""
    depth_mm: Annotated[int, Whole(50, 1000)]
    """Depth of the beam's section, upright [mm]."""
    span_mm: Annotated[int, Whole(500, 50_000)]
    """Distance between the beam's supports [mm]."""
    grade: Annotated[str | None, Text(20)] = None
    """Strength class such as "C24"; leave it out or write "unknown" when nobody knows."""
    existing_load_n_per_m: Annotated[float | None, Real(0, 100_000, "N/m")] = None
    """What the beam already carries [N per m of beam]; leave it out when nobody knows."""


class JoistsTable(Table):
    """Joists hidden above the ceiling that run across the room, all alike and evenly spaced."""

    name: _Name
    """What you call them; each gets its number after it."""
    first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the first joist's middle line from the wall at x = 0 [mm]."""
    spacing_mm: Annotated[int, Whole(100, 5000)]
    """Distance from each joist's middle line to the next one's [mm]."""
    count: Annotated[int, Whole(1, 100, "joists")]
    """How many there are."""
    width_mm: Annotated[int, Whole(30, 600)]
    """Width of a joist's section, level [mm]."""
    depth_mm: Annotated[int, Whole(50, 1000)]
    """Depth of a joist's section, upright [mm]."""
    span_mm: Annotated[int, Whole(500, 50_000)]
    """Distance between a joist's supports [mm]."""
    grade: Annotated[str | None, Text(20)] = None
    """Strength class such as "C24"; leave it out or write "unknown" when nobody knows."""
    existing_load_n_per_m: Annotated[float | None, Real(0, 100_000, "N/m")] = None
    """What one joist already carries [N per m of joist]; leave it out when nobody knows."""
    lining_mm: Annotated[int, Whole(0, 200)] = 0
    """Thickness of all that is between the joists and the room: ceiling board, battens [mm]."""
    found: Annotated[bool, Flag()] = False
    """Whether both edges of the joists have been found, not only guessed from a plan."""


class SlabTable(Table):
    """A concrete slab as the ceiling, with a row of places where mounts may be anchored."""

    name: _Name
    """What you call it; each place gets its number after it."""
    first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the first place from the wall at x = 0 [mm]."""
    spacing_mm: Annotated[int, Whole(100, 5000)]
    """Distance from each place to the next one [mm]."""
    count: Annotated[int, Whole(1, 100, "places")]
    """How many places to look at."""
    thickness_mm: Annotated[int, Whole(40, 1000)]
    """Thickness of the concrete, without screed and plaster [mm]."""
    anchor_rated_n: Annotated[float | None, Real(100, 100_000, "N")] = None
    """Load in any direction that one anchor is rated for in this slab [N], by its approval."""
    anchor_least_mm: Annotated[int | None, Whole(40, 1000)] = None
    """Least thickness of slab that the anchor's approval asks for [mm]."""


class SolidTable(Table):
    """A box that can't be moved and must not be fallen on."""

    name: _Name
    """What it is."""
    x_mm: _PlaceRange
    """From and to along the room [mm]."""
    y_mm: _PlaceRange
    """From and to across the room [mm]."""
    z_mm: _PlaceRange
    """From and to above the floor [mm]."""


class CorridorTable(Table):
    """A right-angled corner on the way in: a stair landing, a turn of a corridor."""

    name: _Name
    """Where it is."""
    width_a_mm: _Opening
    """Clear width before the corner [mm]."""
    width_b_mm: _Opening
    """Clear width after the corner [mm]."""
    height_mm: _Opening
    """Clear height at the corner [mm]."""


class DoorTable(Table):
    """A doorway on the way in."""

    name: _Name
    """Where it is."""
    width_mm: _Opening
    """Clear width [mm]."""
    height_mm: _Opening
    """Clear height [mm]."""


class StairTable(Table):
    """A straight flight of stairs on the way in."""

    name: _Name
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

    name: _Name
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

    name: _Name
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

    name: _Name
    """Which one it is."""
    width_mm: _Opening
    """Clear width of the open window [mm]."""
    height_mm: _Opening
    """Clear height of the open window [mm]."""
    inside_mm: _Opening
    """Clear floor straight in from it [mm]."""


class AccessTable(Table):
    """What can be carried into the room."""

    max_piece_mm: Annotated[tuple[int, int] | None, _FLAT_PIECE] = None
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
    sheet_kinds: list[_Name] = []
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
    max_start_mm: Annotated[int | None, Whole(0, 3000)] = None
    """Greatest height of the board's lowest row of holds above the floor [mm]."""
    tolerance_mm: Annotated[int, Whole(0, 200)] = 0
    """How much every length measured in the room may be wrong [mm]; walls must fit even then."""


class OffcutTable(Table):
    """A piece of sheet that the yard sells cheaply or that you own already."""

    name: _Name
    """What you call it; it becomes its article number."""
    kind: _Name
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
    saw_max_mm: Annotated[tuple[int, int] | None, _FLAT_PIECE] = None
    """The largest sheet the shop's saw takes, longer side first [mm]; left out, any."""
    saw_least_mm: Annotated[int, Whole(0, 2000)] = 0
    """The narrowest piece that the shop saws off [mm]; narrower ones are left for home."""
    delivery_price: Annotated[int, Money()] = 0
    """Price of one delivery, paid when something does not fit your vehicle."""
    vehicle_max_mm: Annotated[tuple[int, int] | None, _FLAT_PIECE] = None
    """The largest flat piece your vehicle takes, longer side first [mm]; left out, any."""
    kerf_mm: Annotated[int, Whole(0, 20)] = 4
    """Width of the saw's cut [mm]."""
    offcuts: list[OffcutTable] = []
    """Limited pieces of sheet."""


class PadTable(Table):
    """Floor pads that you have already."""

    name: _Name
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
    solids: list[SolidTable] = []
    """Things that can't be moved or fallen on, one [[solids]] table each."""
    access: AccessTable = AccessTable()
    climber: ClimberTable = ClimberTable()
    wall: WallTable
    yard: YardTable = YardTable()
    pads: list[PadTable] = []
    """Floor pads that you have already, one [[pads]] table for each kind."""


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
