"""Small random rooms and catalogues, invented, for comparing the search with plain enumeration."""

from __future__ import annotations

import random
from dataclasses import replace

from steepwright.catalog import Catalog, read_catalog
from steepwright.catalog.types import Code
from steepwright.room.types import (
    Access,
    Align,
    Beam,
    Climber,
    Corridor,
    Door,
    Ledger,
    Offcut,
    Room,
    Solid,
    Spreader,
    Stair,
    Stand,
    WallRange,
    Window,
    Yard,
)

PADDED = (13, 20)
"""Small rooms that have the pads on the bill, besides every fifth."""


def small_room(seed: int) -> Room:
    """Return one of the rooms; from number 9 on beams slant and climbers have wishes."""
    r = random.Random(seed)
    more = random.Random(5000 + seed)
    low = r.choice([0, 0, 200])
    tilt = more.choice([0, 4, 8]) if seed > 8 else 0
    vehicle = r.choice([None, (2600, 1300), (3200, 1300)])
    return Room(
        name=f"small {seed}",
        length_mm=r.randrange(5200, 6400, 50),
        width_mm=4000,
        ceiling_mm=2700,
        beams=(
            Beam(
                "only",
                r.randrange(2200, 3300, 50),
                (under := min(2460, r.randrange(2350, 2550, 10)), under + tilt),
                140,
                r.choice([200, 240]),
                4000,
                r.choice(["C24", "C30", None]),
                r.choice([500.0, 900.0]),
            ),
        ),
        solids=(Solid("box", (0, r.choice([100, 900])), (1500, 2500), (0, r.choice([400, 2000]))),),
        access=Access(
            r.choice([None, (2700, 1300), (3200, 1300)]),
            doors=(Door("loft", 700, 2000),),
            carriers=r.choice([2, 3]),
            stairs=more.choice([(), (Stair("up", 800, 1900, 190, 240, 2200, 2300),)]),
        ),
        climber=Climber(70.0, 1700, r.choice([1.5, 2.0]), 1),
        wall=WallRange(
            angle_deg=(20.0, 48.0),
            kicker_mm=(low, low + 200),
            width_mm=(1200, 1200),
            step_mm=200,
            fold_up=r.random() < 0.5,
            min_fall_space_mm=1200,
            side_passage_mm=0,
            board_mm=(2500, 2900),
            max_columns=r.choice([1, 1, 2]),
            max_rows=2,
            min_climbable_mm=more.choice([0, 2700]) if seed > 8 else 0,
            min_moves=more.choice([0, 5]) if seed > 8 else 0,
            max_start_mm=more.choice([None, 300]) if seed > 8 else None,
        ),
        yard=Yard(
            cut_price_cents=r.choice([0, 150]),
            delivery_price_cents=3900,
            vehicle_max_mm=vehicle,
            free_cuts=more.choice([0, 2]) if seed > 8 else 0,
            pads_on_bill=seed in PADDED or seed % 5 == 2,
            offcuts=(Offcut("rest", "OSB/3", 18, 1300, r.choice([210, 420]), "length", 1, 0),)
            if r.random() < 0.5
            else (),
        ),
    )


def small_catalog(seed: int) -> Catalog:
    r = random.Random(1000 + seed)
    full = read_catalog()
    kinds = r.sample(["OSB/3", "softwood ply", "birch"], 2)
    sheets = tuple(s for s in full.sheets if s.kind in kinds and s.thickness_mm == 18)
    deep = r.choice([(60, 120), (60, 100), (48, 123)])
    timber = tuple(t for t in full.timber if (t.width_mm, t.depth_mm) in (deep, (80, 120)))
    return replace(
        full,
        sheets=tuple(r.sample(sheets, min(3, len(sheets)))),
        timber=timber,
        mounts=tuple(r.sample(full.mounts, 2)),
    )


def tiny_room(seed: int) -> Room:
    """A room of at most a dozen grid points, with everything in it that a wall may meet."""
    r = random.Random(2000 + seed)
    room = small_room(seed)
    height = r.randrange(2300, 2500, 10)
    first = replace(
        room.beams[0],
        x_mm=r.randrange(1500, 3600, 50),
        underside_mm=(height, height + r.choice([0, 0, 0, 0, 3, -8])),
        grade=r.choice(["C24", "C30", None]),
    )
    second = replace(first, name="other", x_mm=first.x_mm + r.choice([900, 1300, -1100]))
    low = r.choice([0, 160, 200])
    step = r.choice([40, 100, 200])
    longest = r.randrange(2350, 2900, 10)
    wall = replace(
        room.wall,
        angle_deg=(r.choice([5.0, 20.0, 30.0]), 55.0),
        kicker_mm=(low, low + step),
        width_mm=(r.choice([1000, 1200, 1200, 1220, 1300]),) * 2,
        step_mm=step,
        board_mm=(longest - 2 * step, longest),
        min_fall_space_mm=r.choice([800, 1500, 2000]),
        min_climbable_mm=r.choice([0, 0, 0, 2600]),
        min_moves=r.choice([0, 0, 0, 4]),
        max_start_mm=r.choice([None, None, 300]),
        side_passage_mm=r.choice([0, 0, 600]),
        align=r.choice(["left", "centre", "right"]),
        max_columns=r.choice([1, 1, 2]),
        max_rows=r.choice([1, 2]),
        hold_spacing_mm=r.choice([150, 200]),
    )
    low_shelf = Solid("shelf", (0, 300), (0, 4000), (r.choice([900, 1900]), 2100))
    access = Access(
        max_piece_mm=r.choice([None, (2500, 1250), (3200, 1300)]),
        corridors=r.choice([(), (Corridor("turn", 950, 900, 2200),)]),
        doors=r.choice([(), (Door("door", 830, 2000),)]),
        max_carry_kg=r.choice([None, 25.0]),
        carriers=r.choice([2, 3]),
    )
    return replace(
        room,
        beams=(first, second) if r.random() < 0.4 else (first,),
        solids=(*room.solids, low_shelf) if r.random() < 0.3 else room.solids,
        access=access,
        climber=Climber(r.choice([50.0, 60.0, 75.0]), 1700, r.choice([1.5, 2.0]), 1),
        wall=wall,
    )


def in_code(code: Code, room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
    """Return the pair checked by a design code; by the NDS all timber is North American."""
    if code != "NDS":
        return room, catalog
    grades = {"C24": "SPF No.2", "C30": "DF-L No.2"}
    beams = tuple(
        replace(
            b,
            grade=b.grade and grades.get(b.grade, "SP No.2"),
            spreader=b.spreader and _lagged(b.spreader, grades),
        )
        for b in room.beams
    )
    timber = tuple(
        replace(bar, strength_class=grades.get(bar.strength_class, "SP No.2"))
        for bar in catalog.timber
    )
    return replace(room, beams=beams, code=code), replace(catalog, timber=timber)


def _lagged(spreader: Spreader, grades: dict[str, str]) -> Spreader:
    """Return joists of 2x12 with a floor on them, and 7/16 in lag screws."""
    grade = spreader.grade and grades[spreader.grade]
    return replace(
        spreader, joist_mm=(38, 286), grade=grade, screw_mm=(11, 229), lining_mm=0, held=True
    )


def wide_room(seed: int) -> Room:
    """A tiny room whose walls may be wider, to where sheets of 1220 and 1250 mm need no cut."""
    r = random.Random(7000 + seed)
    room = tiny_room(seed)
    widths = r.choice([(1210, 1260), (1200, 1250), (1220, 1250), (1190, 1530), (600, 640)])
    wall = replace(room.wall, width_mm=widths, step_mm=10)
    yard = replace(room.yard, cut_price_cents=r.choice([0, 150, 150, 400]))
    return replace(room, wall=wall, yard=yard)


def beside_room(seed: int) -> Room:
    """A tiny room with walls of many widths, and solids that only the wider ones come to."""
    r = random.Random(9000 + seed)
    room = tiny_room(seed)
    first = r.choice([1000, 1200])
    align: Align = r.choice(["left", "centre", "right"])
    free = {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
    edge = round(free * (room.width_mm - first))
    sides = [(edge + first + 60, edge + first + 400)] if align != "right" else []
    sides += [(edge - 400, edge - 60)] if align != "left" and edge >= 400 else []
    solids = []
    for number, y_mm in enumerate(sides * 2):
        x_mm = r.randrange(0, room.length_mm - 500, 50)
        low = r.choice([0, 0, 1500])
        solids.append(Solid(f"shelf {number}", (x_mm, x_mm + 400), y_mm, (low, low + 600)))
    wall = replace(room.wall, width_mm=(first, first + 500), step_mm=20, align=align)
    wall = replace(wall, side_passage_mm=0, min_fall_space_mm=r.choice([0, 400]))
    return replace(room, wall=wall, solids=tuple(solids))


def doubtful_room(seed: int) -> Room:
    """The room of a number with solids beside wider walls, every measure wrong by up to 20 mm."""
    room = beside_room(seed)
    return replace(room, wall=replace(room.wall, tolerance_mm=20))


def some_widths(seed: int) -> Room:
    """A tiny room with two to four widths asked for, about some sheet's side or far apart.

    Where they are far apart the beam may bear only mounts that are.
    """
    r = random.Random(8000 + seed)
    room = tiny_room(seed)
    close, wall = r.random() < 0.7, room.wall
    step = 10 if close else wall.step_mm
    side = r.choice([1250, 1250, 1220, 625, 610]) if close else 1250
    first = side - r.choice([1, 2, 3]) * step
    (low, _), (_, longest) = wall.kicker_mm, wall.board_mm or (0, 0)
    wall = replace(
        wall,
        width_mm=(first, side + r.choice([0, step])),
        step_mm=step,
        kicker_mm=(low, low + step),
        board_mm=(longest - step, longest),
    )
    weak = 0 if close else r.choice([40, 60, 80])
    beams = tuple(replace(beam, depth_mm=beam.depth_mm - weak) for beam in room.beams)
    yard = replace(room.yard, cut_price_cents=r.choice([150, 400, 900]))
    return replace(room, wall=wall, yard=yard, beams=beams)


def sideways_room(seed: int, depth_mm: int) -> Room:
    """A tiny room whose wide walls stand along one side, under a beam of some depth.

    With three mounts it is the middle one that loads the beam most, and it is beside the middle.
    """
    room = tiny_room(seed)
    wall = replace(
        room.wall,
        align="right" if seed % 2 == 0 else "left",
        angle_deg=(5.0, 55.0),
        width_mm=(3000, 3000),
        max_columns=3,
        fold_up=False,
        min_fall_space_mm=800,
        side_passage_mm=0,
        min_climbable_mm=0,
        max_start_mm=None,
    )
    beam = replace(room.beams[0], x_mm=4200, underside_mm=(2400, 2400), span_mm=3800)
    beam = replace(beam, width_mm=140 + 10 * (seed % 7), depth_mm=depth_mm, grade="C30")
    yard = replace(room.yard, vehicle_max_mm=None, pads_on_bill=False)
    return replace(room, beams=(beam,), solids=(), access=Access(None), wall=wall, yard=yard)


def climbers_room(seed: int) -> Room:
    """A tiny room whose climbers limit where holds begin, and how many moves lead up from there.

    Both go by the rows that the frame leaves free, which jump as the board gets longer.
    """
    r = random.Random(11_000 + seed)
    room = tiny_room(seed)
    low, longest = room.wall.kicker_mm[0], (room.wall.board_mm or (0, 0))[1]
    wall = replace(
        room.wall,
        step_mm=10,
        kicker_mm=(low, low + 10),
        board_mm=(longest - 60, longest),
        hold_spacing_mm=r.choice([150, 200, 250]),
        max_rows=2,
        max_columns=1,
        min_climbable_mm=0,
        max_start_mm=low + r.choice([105, 120, 150, 180]),
        min_moves=r.choice([0, 3, 4]),
    )
    return replace(room, wall=wall)


def three_mounts(catalog: Catalog) -> Catalog:
    """The catalogue with no wall that hangs from two mounts alone."""
    return _with_factors(catalog, search_least_mounts=3.0)


def lost_catalog(seed: int) -> Catalog:
    """Three mounts and more, and timber so weak in an accident that a lost one decides."""
    return _with_factors(three_mounts(tiny_catalog(seed)), gamma_m_accidental=2.5)


def _with_factors(catalog: Catalog, **values: float) -> Catalog:
    known = catalog.materials.factors
    factors = replace(known, values={**known.values, **values})
    return replace(catalog, materials=replace(catalog.materials, factors=factors))


def filled_room(seed: int, kerf_mm: int) -> Room:
    """A tiny room whose board is two pieces that fill a sheet of 2500 x 1250 with one cut."""
    room = tiny_room(seed)
    width_mm = 1250 - kerf_mm
    wall = replace(
        room.wall,
        angle_deg=(5.0, 55.0),
        kicker_mm=(0, 0),
        width_mm=(width_mm, width_mm),
        board_mm=(2500, 2500),
        min_fall_space_mm=800,
        side_passage_mm=0,
        min_climbable_mm=0,
        min_moves=0,
        max_start_mm=None,
        max_columns=2,
        max_rows=1,
    )
    yard = replace(room.yard, cut_price_cents=400, kerf_mm=kerf_mm, offcuts=(), vehicle_max_mm=None)
    return replace(room, wall=wall, yard=yard, access=Access((2700, 700), carriers=2))


def filled_catalog(seed: int) -> Catalog:
    """Sheets that are filled, and larger ones that cost less, but not for the cut they take."""
    catalog, sheets = tiny_catalog(seed), read_catalog().sheets
    full, larger = (
        next(s for s in sheets if (s.kind, s.thickness_mm) == (kind, 18))
        for kind in ("softwood ply", "birch")
    )
    full = replace(full, length_mm=2500, width_mm=1250, price_cents=3600)
    larger = replace(larger, length_mm=2600, width_mm=1300, price_cents=3000)
    return replace(catalog, sheets=(full, larger))


BESIDE = {
    14: ("left", (5616, 5816), (616, 1015)),
    16: ("centre", (2092, 2292), (2611, 3010)),
    41: ("centre", (1932, 2132), (2576, 2975)),
}
"""Rooms of several widths: their alignment, and a box that only wider walls have in front."""


def padded_beside(seed: int) -> Room:
    """A room of several widths, pads on the bill: in front of a wider wall there is less to pad."""
    room = some_widths(seed)
    align, x_mm, y_mm = BESIDE[seed]
    fall_mm = min(room.wall.min_fall_space_mm, 600)
    return replace(
        room,
        solids=(Solid("box", x_mm, y_mm, (0, 500)),),
        wall=replace(room.wall, align=align, side_passage_mm=0, min_fall_space_mm=fall_mm),
        yard=replace(room.yard, pads_on_bill=True, cut_price_cents=0),
    )


def padded_wide(seed: int) -> Room:
    """A room of many widths, pads on the bill."""
    room = wide_room(seed)
    return replace(room, yard=replace(room.yard, pads_on_bill=True))


def padded_catalog(seed: int) -> Catalog:
    """A tiny catalogue that has pads."""
    catalog = tiny_catalog(seed)
    pads = [row for row in read_catalog().hardware if row.kind == "pad"]
    there = {row.sku for row in catalog.hardware}
    more = (row for row in pads if row.sku not in there)
    return replace(catalog, hardware=(*catalog.hardware, *more))


def joist_room(seed: int) -> Room:
    """A tiny room whose walls hang from hidden joists or a slab, or a beam in sight beside them."""
    r = random.Random(4000 + seed)
    room = tiny_room(seed)
    ceiling = r.randrange(2350, 2450, 10)
    first = r.randrange(1500, 3000, 50)
    joists = tuple(
        Beam(
            f"joist {number}",
            first + number * 700,
            (ceiling, ceiling),
            r.choice([100, 120]),
            220,
            4000,
            r.choice(["C24", None]),
            r.choice([600.0, 900.0]),
            kind="joist",
            lining_mm=r.choice([0, 12, 15]),
            found=r.random() < 0.5,
        )
        for number in range(r.choice([1, 2]))
    )
    slab = Beam("slab 1", first + 200, (ceiling, ceiling), 1, 160, 4000, None, None, "slab")
    other = random.Random(6000 + seed)
    slab = replace(slab, anchor_rated_n=other.choice([None, 2000.0, 6000.0]))
    joists = (slab,) if other.random() < 0.3 else joists
    low = replace(room.beams[0], x_mm=first - 600, underside_mm=(ceiling - 150, ceiling - 150))
    beside = (low,) if r.random() < 0.4 else ()
    return replace(room, ceiling_mm=ceiling, beams=(*beside, *joists))


def framed_room(seed: int) -> Room:
    """A tiny room with a freestanding frame at one or two places, or a beam in sight beside them.

    Not all stand: some feet are too short, some posts too thin. Some are there already, and of
    some the shop sells bars that only a delivery brings.
    """
    r = random.Random(8000 + seed)
    room = tiny_room(seed)
    under = r.randrange(2050, 2200, 10)
    post = r.choice([(80, 120), (100, 120), (100, 120)])
    foot = r.choice([1000, 1200, 1500])
    owned = random.Random(9000 + seed).random() < 0.25
    stand = Stand(post, (60, 120), 1500, foot, r.choice([None, 2000.0]), owned)
    first = r.randrange(1600, 2400, 50)
    frames = tuple(
        Beam(
            f"frame {number + 1}",
            first + number * 300,
            (under, under),
            100,
            200,
            room.wall.width_mm[1] + 300,
            r.choice(["C24", None]),
            0.0,
            kind="frame",
            stand=stand,
        )
        for number in range(r.choice([1, 2]))
    )
    beside = room.beams if r.random() < 0.4 else ()
    wall = replace(room.wall, fold_up=False, align="centre")
    return replace(room, ceiling_mm=2600, beams=(*beside, *frames), wall=wall)


def weak_frames_room(seed: int) -> Room:
    """The framed room of a number for heavy climbers, some of its frames too weak for them.

    All are there already, each of its own post and foot, so that weak ones cost no less.
    """
    r = random.Random(seed)
    room = framed_room(seed)
    beams = []
    for beam in room.beams:
        if beam.stand is None:
            grade, load = r.choice([None, "C24"]), r.choice([500.0, 2000.0])
            beams.append(replace(beam, grade=grade, existing_load_n_per_m=load))
            continue
        post, foot = r.choice([(80, 120), (100, 120), (60, 100)]), r.choice([900, 1200, 1500])
        held = r.choice([1200.0, 2500.0])
        stand = replace(beam.stand, post_mm=post, foot_mm=foot, floor_rated_n=held, owned=True)
        deep, grade = r.choice([140, 160, 200]), r.choice(["C24", None])
        beams.append(replace(beam, stand=stand, depth_mm=deep, grade=grade))
    mass = r.choice([80.0, 95.0])
    climber = Climber(mass, 1700, r.choice([1.5, 2.0]), r.choice([1, 2]))
    return replace(room, beams=tuple(beams), climber=climber)


def with_a_window(access: Access) -> Access:
    """Return a way in with a small window besides: timbers of the room's width get in by it."""
    return replace(access, windows=(Window("window", 300, 300, 4200),))


def ledger_room(seed: int) -> Room:
    """The framed room of a number with beams on wall ledgers in place of its frames."""
    r = random.Random(10_000 + seed)
    room = framed_room(seed)
    masonry = r.random() < 0.5
    ledger = Ledger(
        (60, 120) if masonry else (60, 160),
        "masonry" if masonry else "studs",
        4,
        r.choice([300, 400]),
        60,
        r.choice([2, 3]),
        r.choice([None, 6000.0]) if masonry else None,
        r.random() < 0.3,
    )
    beams = tuple(
        replace(beam, kind="ledger", stand=None, ledger=ledger, span_mm=room.width_mm)
        if beam.stand
        else beam
        for beam in room.beams
    )
    return replace(room, beams=beams, access=with_a_window(room.access))


def spreader_room(seed: int) -> Room:
    """The framed room of a number with timbers under joists along it in place of its frames.

    Its climber is a tenth lighter: one more heavy is too much for these screws in some of them.
    """
    r = random.Random(12_000 + seed)
    room = framed_room(seed)
    joists = tuple(range(200, 3900, 600))
    grade, load = r.choice(["C24", None]), r.choice([300.0, None])
    spreader = Spreader(
        joists, (100, 220), 600, room.length_mm, grade, load, (10, 220), r.choice([0, 15]), True
    )
    ceiling = room.beams[-1].underside_mm[0] + 120
    beams = tuple(
        replace(
            beam,
            kind="spreader",
            stand=None,
            spreader=spreader,
            depth_mm=120,
            span_mm=600,
            underside_mm=(ceiling - 120, ceiling - 120),
        )
        for beam in room.beams
        if beam.stand
    )
    climber = replace(room.climber, mass_kg=0.9 * room.climber.mass_kg)
    # Timbers as long as the room is wide get in here.
    access = Access(None, carriers=room.access.carriers)
    return replace(room, beams=beams, ceiling_mm=ceiling, climber=climber, access=access)


def weak_ledger_room(seed: int) -> Room:
    """A room of two beams on ledgers for heavy climbers; some of these are too weak for them.

    All are there already, each of its own size and fixings, so that weak ones cost no less.
    """
    r = random.Random(13_000 + seed)
    room, beams = ledger_room(seed), []
    (beam,) = [beam for beam in room.beams if beam.ledger][:1]
    for number in range(2):
        masonry = r.random() < 0.5
        ledger = Ledger(
            r.choice([(40, 160), (60, 120), (60, 200)]),
            "masonry" if masonry else "studs",
            r.choice([3, 4, 6]),
            r.choice([250, 400, 700]),
            r.choice([60, 60, 80]),
            r.choice([1, 2, 3]),
            r.choice([None, 1000.0, 1300.0, 1600.0, 2500.0]) if masonry else None,
            owned=True,
        )
        placed = replace(beam, name=f"beam {number}", x_mm=beam.x_mm + 300 * number, ledger=ledger)
        beams.append(replace(placed, depth_mm=240, grade=r.choice(["C24", None])))
    climber = Climber(r.choice([80.0, 95.0]), 1700, r.choice([1.5, 2.0]), 1)
    return replace(room, beams=tuple(beams), climber=climber)


def weak_slab_room(seed: int) -> Room:
    """A tiny room below concrete, in which some anchors bear too little for some walls."""
    r = random.Random(14_000 + seed)
    room = tiny_room(seed)
    ceiling = room.beams[0].underside_mm[0]
    slabs = tuple(
        Beam(
            f"slab {number}",
            room.beams[0].x_mm + number * 300,
            (ceiling, ceiling),
            1,
            140,
            room.width_mm,
            None,
            None,
            "slab",
            anchor_rated_n=r.choice([None, 1300.0, 1500.0, 2000.0, 2700.0]),
            anchor_least_mm=r.choice([None, 120]),
        )
        for number in range(2)
    )
    climber = Climber(r.choice([50.0, 60.0, 75.0]), 1700, r.choice([1.5, 2.0]), 1)
    wall = replace(room.wall, fold_up=False, min_fall_space_mm=800)
    return replace(room, ceiling_mm=ceiling, beams=slabs, climber=climber, wall=wall)


def weak_spreader_room(seed: int) -> Room:
    """A room of two timbers under joists of many sizes, some too weak for heavy climbers.

    All are there already, at their own places along joists of their own.
    """
    r = random.Random(15_000 + seed)
    room, beams = spreader_room(seed), []
    beam, ceiling = room.beams[0], room.ceiling_mm
    for number in range(2):
        apart, deep = r.choice([400, 600, 800]), r.choice([100, 120, 140])
        spreader = Spreader(
            tuple(range(200, 3900, apart)),
            r.choice([(100, 220), (120, 240), (100, 180), (80, 200)]),
            apart,
            room.length_mm,
            r.choice(["C24", None]),
            r.choice([100.0, 300.0, None]),
            r.choice([(10, 220), (12, 240), (10, 180)]),
            r.choice([0, 0, 15]),
            True,
            owned=True,
            held=r.random() < 0.6,
        )
        placed = replace(beam, name=f"timber {number}", x_mm=beam.x_mm + 300 * number)
        placed = replace(placed, underside_mm=(ceiling - deep,) * 2, depth_mm=deep, width_mm=120)
        beams.append(replace(placed, span_mm=apart, spreader=spreader))
    climber = Climber(r.choice([50.0, 60.0, 75.0]), 1700, r.choice([1.5, 2.0]), 1)
    return replace(room, beams=tuple(beams), climber=climber)


def framed_catalog(seed: int) -> Catalog:
    """A tiny catalogue with the timber that the frames of the same number are made of."""
    tiny, full = tiny_catalog(seed), read_catalog()
    frames = [(b, b.stand) for b in framed_room(seed).beams if b.stand]
    needed = {side for _, s in frames for side in (s.post_mm, s.brace_mm)} | {(60, 160), (100, 120)}
    needed |= {(beam.width_mm, beam.depth_mm) for beam, _ in frames}
    rows = [t for t in full.timber if (t.width_mm, t.depth_mm) in needed]
    return replace(tiny, timber=tuple(rows))


weak_frames_catalog = spreader_catalog = ledger_catalog = framed_catalog
weak_ledger_catalog = weak_spreader_catalog = framed_catalog


def tiny_catalog(seed: int) -> Catalog:
    """Two sheets, two sections and two mounts at random, and frames of a few studs only."""
    r = random.Random(3000 + seed)
    full = read_catalog()
    sheets = [s for s in full.sheets if s.thickness_mm in (18, 21)]
    across = [s for s in sheets if s.face_grain == "width"]
    sections = sorted(
        {
            (t.width_mm, t.depth_mm, t.strength_class, t.surface)
            for t in full.timber
            if t.depth_mm >= 95 and t.width_mm < 100
        }
    )
    kept = r.sample(sections, 2)
    factors = full.materials.factors
    most = r.choice([4, 5, 6])
    few = {**factors.values, "search_most_studs": most, "search_most_mounts": 3}
    return replace(
        full,
        sheets=tuple(dict.fromkeys([*r.sample(sheets, 2), *r.sample(across, 1)])),
        timber=tuple(
            t for t in full.timber if (t.width_mm, t.depth_mm, t.strength_class, t.surface) in kept
        ),
        mounts=tuple(r.sample(full.mounts, 2)),
        materials=replace(full.materials, factors=replace(factors, values=few)),
    )


weak_slab_catalog = doubtful_catalog = tiny_catalog


def tied_room(seed: int) -> Room:
    """A tiny room of two beams for heavy climbers, whose walls may be tied back to one of them.

    Behind some of the walls it is too far, too low, or under another beam.
    """
    r = random.Random(9000 + seed)
    room = tiny_room(seed)
    first = replace(room.beams[0], x_mm=r.randrange(2400, 3000, 50), existing_load_n_per_m=300.0)
    behind = replace(
        first,
        name="behind",
        x_mm=first.x_mm + r.choice([-900, -1200, -1500, 1100]),
        underside_mm=(r.choice([1400, 2300, 2400]),) * 2,
        grade=r.choice(["C24", None]),
        depth_mm=240,
    )
    between = replace(first, name="between", x_mm=(first.x_mm + behind.x_mm) // 2)
    between = replace(between, underside_mm=(r.choice([1900, 2400]),) * 2, width_mm=60)
    return replace(
        room,
        beams=(first, behind, between) if r.random() < 0.2 else (first, behind),
        climber=Climber(r.choice([80.0, 95.0]), 1700, 2.0, r.choice([1, 2])),
        wall=replace(room.wall, angle_deg=(20.0, 55.0), min_fall_space_mm=800, fold_up=False),
        tie_beam=1,
    )


def tied_catalog(seed: int) -> Catalog:
    """A tiny catalogue with thin studs, and ties that cost next to nothing or some money."""
    r = random.Random(9500 + seed)
    catalog, full = tiny_catalog(seed), read_catalog()
    thin = r.choice([(45, 95), (48, 98), (60, 80)])
    bars = tuple(t for t in full.timber if (t.width_mm, t.depth_mm) == thin)
    hardware = tuple(
        replace(h, price_cents=r.choice([80, 300]), pack_quantity=r.choice([1, 2]))
        if h.kind == "tie"
        else h
        for h in full.hardware
    )
    rated = tuple(replace(m, rated_n=9000.0) for m in catalog.mounts)
    return replace(catalog, timber=(*bars, *catalog.timber), hardware=hardware, mounts=rated)
