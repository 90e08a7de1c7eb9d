"""The builder's room as frozen records. x runs along the room, y across it, z up from the floor."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from steepwright.catalog.types import Code
from steepwright.findings import Finding

Facing = Literal["+x", "-x"]
FACINGS: tuple[Facing, Facing] = ("+x", "-x")
Align = Literal["left", "centre", "right"]
Units = Literal["mm", "inch"]
MountKind = Literal["beam", "joist", "slab", "frame", "ledger", "spreader"]


_NOUNS = {"beam": "beam", "joist": "joist", "slab": "slab", "frame": "frame", "ledger": "ledgers"}
_NOUNS["spreader"] = "spreader"


def place_words(name: str, kind: str = "beam") -> str:
    """Return what a wall hangs from in words: the beam “oak”; a name that says it stands alone."""
    noun = _NOUNS.get(kind, "")
    return f"“{name}”" if noun in name.lower() else f"the {noun} “{name}”"


@dataclass(frozen=True, slots=True)
class Stand:
    """What holds up the head beam of a freestanding frame: at each end a post on a long foot.

    Two braces lead from near the ends of each foot, which reaches `foot_mm` from the post's middle
    both ways along the room, up to the post at `brace_up_mm` above the floor; two more brace the
    posts' heads across the room. Sections are [across, along] the room for the posts, [width,
    depth] for the braces; the feet are of the posts' section. `floor_rated_n` is the level load
    that what holds one foot to the floor is rated for, None when unknown. What is `owned` is there
    already and isn't bought.
    """

    post_mm: tuple[int, int]
    brace_mm: tuple[int, int]
    brace_up_mm: int
    foot_mm: int
    floor_rated_n: float | None
    owned: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """What both ends of a beam of one's own rest on: a timber along each side wall.

    `section_mm` is [thickness, depth]; `fixings` in one row, `apart_mm` from one to the next, hold
    it to the `wall`: anchors to masonry, which are rated for `rated_n` each in any direction (None
    when unknown), or so many `screws` above each other to each of the studs `stud_mm` wide.
    What is `owned` isn't bought.
    """

    section_mm: tuple[int, int]
    wall: Literal["masonry", "studs"]
    fixings: int
    apart_mm: int
    stud_mm: int
    screws: int
    rated_n: float | None
    owned: bool = False


@dataclass(frozen=True, slots=True)
class Spreader:
    """What a timber across the room hangs from: hidden joists along it, alike and evenly spaced.

    `joists_mm` are their places across the room, `joist_mm` their [width, depth]; a coach screw of
    `screw_mm` = [diameter, length] in each, through `lining_mm` of ceiling. Grade and existing load
    are None when unknown; `found` tells whether the joists' places have been verified, `held`
    whether their upper edges are kept in place all along. What is `owned` isn't bought.
    """

    joists_mm: tuple[int, ...]
    joist_mm: tuple[int, int]
    apart_mm: int
    span_mm: int
    grade: str | None
    load_n_per_m: float | None
    screw_mm: tuple[int, int]
    lining_mm: int
    found: bool
    owned: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True)
class Beam:
    """What a wall may hang from: it runs across the room (along y), its middle line at `x_mm`.

    `underside_mm` holds the heights above the floor at its left (y = 0) and right end; of what
    is hidden it is that of the ceiling below it. `grade` (a strength class) and
    `existing_load_n_per_m` are None when unknown; then a design that hangs from it is "not
    settled". Of a joist, `lining_mm` of ceiling board lie below it, and `found` tells whether its
    place has been verified. A concrete slab is a row of places for mounts: `anchor_rated_n` is
    the load that one anchor in it is rated for in any direction and `anchor_least_mm` the slab
    it needs, None when nobody has looked; grade and existing load aren't asked for. A frame's
    head beam spans from post to post and has a `stand`; a beam across the room on two ledgers has a
    `ledger`; all their timber is of one grade. A timber under joists along the room has a
    `spreader` and spans from one of these to the next.
    """

    name: str
    x_mm: int
    underside_mm: tuple[int, int]
    width_mm: int
    depth_mm: int
    span_mm: int
    grade: str | None
    existing_load_n_per_m: float | None
    kind: MountKind = "beam"
    lining_mm: int = 0
    found: bool = True
    anchor_rated_n: float | None = None
    anchor_least_mm: int | None = None
    stand: Stand | None = None
    ledger: Ledger | None = None
    spreader: Spreader | None = None

    @property
    def seen(self) -> bool:
        """Whether it stands out of the ceiling, in the way of what is below.

        What the builder sets up doesn't: it is only there for the wall that hangs from it.
        """
        return self.kind == "beam"

    @property
    def row(self) -> str:
        """The name of the row that it is one place of, as the room file has it."""
        return self.name if self.seen else self.name.rpartition(" ")[0]


@dataclass(frozen=True, slots=True)
class Solid:
    """A box that can't be moved or fallen on: ranges [from, to] along x, y and z [mm]."""

    name: str
    x_mm: tuple[int, int]
    y_mm: tuple[int, int]
    z_mm: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Corridor:
    """A right-angled corner on the way in: two clear widths and the clear height."""

    name: str
    width_a_mm: int
    width_b_mm: int
    height_mm: int


@dataclass(frozen=True, slots=True)
class Door:
    """A doorway on the way in: clear width and height."""

    name: str
    width_mm: int
    height_mm: int


@dataclass(frozen=True, slots=True)
class Stair:
    """A straight flight on the way in [mm].

    `headroom_mm` is the least clear height straight up from the steps' front edges, `rise_mm`
    and `going_mm` the height and depth of one step, `height_below_mm` and `height_above_mm` the
    ceilings' heights above the floors where the flight begins and ends.
    """

    name: str
    width_mm: int
    headroom_mm: int
    rise_mm: int
    going_mm: int
    height_below_mm: int
    height_above_mm: int


@dataclass(frozen=True, slots=True)
class Landing:
    """A square landing where a stair turns by a right angle [mm].

    Two flights' clear widths, the least clear height straight up from it and from the steps of
    both flights, and the height and depth of one step.
    """

    name: str
    width_a_mm: int
    width_b_mm: int
    height_mm: int
    rise_mm: int
    going_mm: int


@dataclass(frozen=True, slots=True)
class Lift:
    """A lift that things ride in: its door and its cage, clear [mm]."""

    name: str
    door_width_mm: int
    door_height_mm: int
    width_mm: int
    depth_mm: int
    height_mm: int


@dataclass(frozen=True, slots=True)
class Window:
    """A window to hoist things in by, past all else on the way; `inside_mm` is clear behind it."""

    name: str
    width_mm: int
    height_mm: int
    inside_mm: int


@dataclass(frozen=True, slots=True)
class Access:
    """What may be carried in: None and empty mean no limit is stated.

    A piece passes everything on the way, or one of the windows.
    """

    max_piece_mm: tuple[int, int] | None = None
    corridors: tuple[Corridor, ...] = ()
    doors: tuple[Door, ...] = ()
    max_carry_kg: float | None = None
    carriers: int = 2
    stairs: tuple[Stair, ...] = ()
    landings: tuple[Landing, ...] = ()
    lifts: tuple[Lift, ...] = ()
    windows: tuple[Window, ...] = ()


@dataclass(frozen=True, slots=True)
class Climber:
    """Who climbs: `dynamic_factor` multiplies the weight (2 = load applied suddenly)."""

    mass_kg: float = 80.0
    span_mm: int = 1750
    dynamic_factor: float = 2.0
    climbers: int = 1


@dataclass(frozen=True, slots=True)
class WallRange:
    """The space of walls to search: closed ranges [min, max] on a grid of `step_mm`."""

    angle_deg: tuple[float, float]
    kicker_mm: tuple[int, int]
    width_mm: tuple[int, int]
    step_mm: int = 5
    fold_up: bool = True
    min_fall_space_mm: int = 2000
    side_passage_mm: int = 0
    board_mm: tuple[int, int] | None = None
    sheet_kinds: tuple[str, ...] = ()
    min_thickness_mm: int = 15
    max_columns: int = 3
    max_rows: int = 2
    align: Align = "centre"
    hold_spacing_mm: int = 200
    min_climbable_mm: int = 0
    min_moves: int = 0
    min_width_spans: float = 0.0
    max_start_mm: int | None = None
    tolerance_mm: int = 0


def stepped_up_mm(first_mm: int, step_mm: int, least_mm: float) -> int:
    """Return the first length [mm] of a grid that is at least so long."""
    return first_mm + max(0, math.ceil((least_mm - 1e-6 - first_mm) / step_mm)) * step_mm


@dataclass(frozen=True, slots=True)
class Offcut:
    """A limited sheet piece: the builder's own (price 0) or one the yard sells cheap.

    `panel` is asked for only where several panels are of one kind and thickness.
    """

    name: str
    kind: str
    thickness_mm: int
    length_mm: int
    width_mm: int
    face_grain: Literal["length", "width"]
    count: int
    price_cents: int
    panel: str = ""


@dataclass(frozen=True, slots=True)
class OwnPad:
    """Floor pads that the builder has already: sides and thickness [mm], and how many."""

    name: str
    length_mm: int
    width_mm: int
    thickness_mm: int
    count: int


@dataclass(frozen=True, slots=True)
class Yard:
    """Where to buy: `catalog` is a folder (empty: the shipped one); charges in cents.

    `cut_price_cents` is charged per saw cut in a bought sheet beyond the first `free_cuts`.
    `saw_max_mm` is the largest block the shop's saw takes (None: any) and `saw_least_mm` the
    narrowest piece it saws off; other cuts are left for home. `delivery_price_cents` is
    charged once when anything bought does not fit `vehicle_max_mm`; None: everything fits.
    Pads that have to be bought are part of the cost with `pads_on_bill`.
    """

    catalog: str = ""
    cut_price_cents: int = 0
    delivery_price_cents: int = 0
    vehicle_max_mm: tuple[int, int] | None = None
    kerf_mm: int = 4
    offcuts: tuple[Offcut, ...] = ()
    free_cuts: int = 0
    saw_max_mm: tuple[int, int] | None = None
    saw_least_mm: int = 0
    pads_on_bill: bool = False


@dataclass(frozen=True, slots=True)
class Room:
    """Everything the builder told us, checked.

    `beams` holds all that a wall may hang from: the beams first, in the file's order; `units`
    only governs what lengths are shown in; `tie_beam` is the index of the one that studs may be
    tied back to; `service_class` is that of EN 1995-1-1 2.3.1.3; `code` is the design code that
    walls are checked by.
    """

    name: str
    length_mm: int
    width_mm: int
    ceiling_mm: int
    beams: tuple[Beam, ...]
    solids: tuple[Solid, ...]
    access: Access
    climber: Climber
    wall: WallRange
    yard: Yard
    pads: tuple[OwnPad, ...] = ()
    tie_beam: int | None = None
    units: Units = "mm"
    service_class: int = 1
    code: Code = "EN 1995"
    file: str = ""
    findings: tuple[Finding, ...] = field(default=())
