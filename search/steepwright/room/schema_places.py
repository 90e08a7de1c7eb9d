"""The room file's tables of the room itself, what hangs in it and what stands in it."""

from __future__ import annotations

from typing import Annotated

from steepwright.room.fields import Choice, Flag, Pair, Real, ServiceClass, Text, Whole
from steepwright.room.schema_base import Name, Table

_RoomSide = Annotated[int, Whole(1000, 50_000)]
_PlaceRange = Annotated[tuple[int, int], Pair(Whole(0, 50_000))]


class RoomTable(Table):
    """The room itself. x runs along its length, y across it, z up from the finished floor."""

    name: Name
    """What you call the room; it names the report."""
    length_mm: _RoomSide
    """Clear length along x [mm]."""
    width_mm: _RoomSide
    """Clear width along y [mm]."""
    ceiling_mm: Annotated[int, Whole(1500, 10_000)]
    """Height of the ceiling above the finished floor [mm]."""
    units: Annotated[str, Choice(("mm", "inch"))] = "mm"
    """What lengths are shown in: "mm", or "inch" for feet, inches and sixteenths."""
    service_class: Annotated[int, ServiceClass()] = 1
    """1 for a heated room; 2 for a dry but unheated one, such as a garage or a shed."""
    code: Annotated[str, Choice(("EN 1995", "NDS"))] = "EN 1995"
    """What walls are checked by: "EN 1995" with partial factors, or "NDS" by allowable stress."""


class BeamTable(Table):
    """A ceiling beam that runs across the room, from wall to wall along y."""

    name: Name
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

    name: Name
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

    name: Name
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


class FrameTable(Table):
    """A freestanding timber frame for the lip to hang from, and where it may stand.

    A head beam across the room on two posts, each on a foot along the room with two braces.
    It stands in the middle of the room's width.
    """

    name: Name
    """What you call it; each place gets its number after it."""
    first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the head beam's middle line from the wall at x = 0, at the first place [mm]."""
    spacing_mm: Annotated[int, Whole(10, 5000)] = 250
    """Distance from each place to the next one [mm]."""
    count: Annotated[int, Whole(1, 100, "places")] = 1
    """How many places to look at."""
    underside_mm: Annotated[int, Whole(1000, 10_000)]
    """Height of the head beam's underside above the floor [mm]."""
    width_mm: Annotated[int, Whole(30, 600)]
    """Width of the head beam's section, level [mm]."""
    depth_mm: Annotated[int, Whole(50, 1000)]
    """Depth of the head beam's section, upright [mm]."""
    span_mm: Annotated[int, Whole(500, 50_000)]
    """Distance between the posts' middle lines, across the room [mm]."""
    grade: Annotated[str, Text(20)]
    """Strength class of all its timber, such as "C24"."""
    post_mm: Annotated[
        tuple[int, int], Pair(Whole(38, 400), ("across the room", "along it"), order="")
    ]
    """Section of a post, across the room and along it [mm]; the feet are of the same timber."""
    brace_mm: Annotated[tuple[int, int], Pair(Whole(38, 400), ("thickness", "depth"), order="")]
    """Section of the braces [mm]."""
    brace_up_mm: Annotated[int, Whole(300, 10_000)]
    """Height above the floor at which the braces meet the posts [mm]."""
    foot_mm: Annotated[int, Whole(300, 5000)]
    """How far a foot reaches along the room from its post's middle line, both ways [mm]."""
    floor_rated_n: Annotated[float | None, Real(0, 100_000, "N")] = None
    """Level load that what holds one foot to the floor is rated for [N]; leave out if unknown."""
    owned: Annotated[bool, Flag()] = False
    """Whether its timber and bolts are there already, so that they are no part of the cost."""


class LedgerTable(Table):
    """A beam of your own across the room, on a ledger along each side wall, and where it may lie.

    The ledgers are timbers fixed to the side walls; the beam's ends rest on them.
    """

    name: Name
    """What you call it; each place gets its number after it."""
    first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the beam's middle line from the wall at x = 0, at the first place [mm]."""
    spacing_mm: Annotated[int, Whole(10, 5000)] = 250
    """Distance from each place to the next one [mm]."""
    count: Annotated[int, Whole(1, 100, "places")] = 1
    """How many places to look at."""
    underside_mm: Annotated[int, Whole(1000, 10_000)]
    """Height of the beam's underside, which is the ledgers' top, above the floor [mm]."""
    width_mm: Annotated[int, Whole(30, 600)]
    """Width of the beam's section, level [mm]."""
    depth_mm: Annotated[int, Whole(50, 1000)]
    """Depth of the beam's section, upright [mm]."""
    grade: Annotated[str, Text(20)]
    """Strength class of beam and ledgers, such as "C24"."""
    ledger_mm: Annotated[tuple[int, int], Pair(Whole(30, 400), ("thickness", "depth"), order="")]
    """Section of a ledger: thickness off the wall and depth, upright [mm]."""
    wall: Annotated[str, Choice(("masonry", "studs"))]
    """What the side walls are: "masonry" for anchors, or timber "studs" for screws."""
    fixings: Annotated[int, Whole(2, 12, "fixings")]
    """How many anchors, or studs with screws in them, hold each ledger, in one row."""
    fixing_mm: Annotated[int, Whole(50, 2000)]
    """Distance from each fixing to the next one [mm]; in a wall of studs that of the studs."""
    stud_width_mm: Annotated[int, Whole(30, 300)] = 38
    """Width of the wall's studs, as seen from the room [mm]."""
    screws_per_stud: Annotated[int, Whole(1, 4, "screws")] = 2
    """How many screws go through the ledger into each stud, one above the other."""
    anchor_rated_n: Annotated[float | None, Real(100, 100_000, "N")] = None
    """Load in any direction that one anchor is rated for in this masonry [N], by its approval."""
    owned: Annotated[bool, Flag()] = False
    """Whether its timber is there already, so that it is no part of the cost."""


class SpreaderTable(Table):
    """A timber of your own across the room, under hidden joists that run along it, and its places.

    It hangs from every joist it crosses by one coach screw and spreads the load to several.
    """

    name: Name
    """What you call it; each place gets its number after it."""
    first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the timber's middle line from the wall at x = 0, at the first place [mm]."""
    spacing_mm: Annotated[int, Whole(10, 5000)] = 250
    """Distance from each place to the next one [mm]."""
    count: Annotated[int, Whole(1, 100, "places")] = 1
    """How many places to look at."""
    width_mm: Annotated[int, Whole(30, 600)]
    """Width of the timber's section, level [mm]."""
    depth_mm: Annotated[int, Whole(50, 1000)]
    """Depth of the timber's section, upright [mm]."""
    grade: Annotated[str, Text(20)]
    """Strength class of the timber, such as "C24"."""
    screw_mm: Annotated[tuple[int, int], Pair(Whole(6, 1000), ("diameter", "length"), order="")]
    """The coach screw in each joist, through timber and lining: diameter and length [mm]."""
    joist_first_mm: Annotated[int, Whole(0, 50_000)]
    """Distance of the first joist's middle line from the wall at y = 0 [mm]."""
    joist_spacing_mm: Annotated[int, Whole(100, 5000)]
    """Distance from each joist's middle line to the next one's [mm]."""
    joist_count: Annotated[int, Whole(2, 100, "joists")]
    """How many joists the timber crosses."""
    joist_mm: Annotated[tuple[int, int], Pair(Whole(30, 1000), ("width", "depth"), order="")]
    """Section of a joist: width and depth [mm]."""
    joist_span_mm: Annotated[int, Whole(500, 50_000)]
    """Distance between a joist's supports, along the room [mm]."""
    joist_grade: Annotated[str | None, Text(20)] = None
    """Strength class of the joists; leave it out or write "unknown" when nobody knows."""
    joist_load_n_per_m: Annotated[float | None, Real(0, 100_000, "N/m")] = None
    """What one joist already carries [N per m of joist]; leave it out when nobody knows."""
    lining_mm: Annotated[int, Whole(0, 200)] = 0
    """Thickness of all that is between the joists and the room: ceiling board, battens [mm]."""
    found: Annotated[bool, Flag()] = False
    """Whether both edges of the joists have been found, not only guessed from a plan."""
    joist_held: Annotated[bool, Flag()] = False
    """Whether a floor's boards or sheets are nailed to the joists' upper edges all along."""
    owned: Annotated[bool, Flag()] = False
    """Whether the timber is there already, so that it is no part of the cost."""


class SolidTable(Table):
    """A box that can't be moved and must not be fallen on."""

    name: Name
    """What it is."""
    x_mm: _PlaceRange
    """From and to along the room [mm]."""
    y_mm: _PlaceRange
    """From and to across the room [mm]."""
    z_mm: _PlaceRange
    """From and to above the floor [mm]."""


class TieBackTable(Table):
    """The studs' middles may be tied back with ropes or straps to a second beam.

    It lies behind the board, and a wall that folds up is untied first.
    """

    beam: Name
    """Name of that beam, one of the [[beams]]."""
