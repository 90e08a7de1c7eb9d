"""What gets in: bars as bars, kicker strips by their own sheet; the search against enumeration."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_rooms import small_catalog, small_room
from test_brute_force import plain_front

from steepwright.catalog import Catalog, read_catalog
from steepwright.optimise.access import bars_get_in, too_long_whole_mm
from steepwright.optimise.document import search_assumptions
from steepwright.optimise.drive import search_front
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.search import search, wall_of, workshop
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.pricing.market import build_market
from steepwright.room.types import Access, Corridor, Offcut, Room, WallRange

SEED = 1


def model_of(room: Room, catalog: Catalog) -> Model:
    return build_model(build_space(build_market(room, catalog)))


def compared(model: Model) -> list[tuple[str, int]]:
    """Search, compare with plain enumeration; return kicker sheet and longest stud of each wall."""
    found = search_front(model, Terms()).front.sorted()
    plain = plain_front(workshop(model)).sorted()
    assert found
    assert [score for score, _ in found] == [score for score, _ in plain]
    walls = [wall_of(model, made) for _, made in found]
    return [(w.kicker_sheet.label, w.board_mm - 2 * w.section.width_mm) for w in walls]


def test_a_stud_that_does_not_get_in_makes_no_wall() -> None:
    room, catalog = small_room(SEED), small_catalog(SEED)
    narrow = tuple(t for t in catalog.timber if t.width_mm == 60)
    catalog = replace(catalog, timber=narrow, mounts=catalog.mounts[:1])
    free = replace(room, access=Access(carriers=3), wall=replace(room.wall, kicker_mm=(0, 0)))
    assert max(stud for _, stud in compared(model_of(free, catalog))) > 2500
    # Boards of 2500, 2700 and 2900 mm, so studs of 2380, 2580 and 2780 mm. A rod goes round the
    # corner level up to (2 x 750^(2/3))^(3/2) = 2121 mm and, one end raised by the height h, up to
    # hypot(2121, 1500) = 2598 mm (the textbook's ladder); a bar has sides and so is shorter.
    corner = Corridor("stairs", 750, 750, 1500)
    tight = replace(free, access=Access(corridors=(corner,), carriers=3))
    model = model_of(tight, catalog)
    assert max(stud for _, stud in compared(model)) == 2380
    assert not bars_get_in(model.space, 0, 2598)


def heavy_strips() -> tuple[Room, Catalog]:
    """A kicker taller than the board is long, of birch that is cheaper and heavier than OSB."""
    room = small_room(SEED)
    wall = WallRange(
        angle_deg=(10.0, 60.0), kicker_mm=(1400, 1500), width_mm=(1200, 1200), step_mm=100,
        fold_up=False, min_fall_space_mm=1000, board_mm=(900, 1100), sheet_kinds=("OSB/3",),
        max_columns=1, max_rows=1,
    )  # fmt: skip
    full = read_catalog()
    sheets = {s.panel: replace(s, width_mm=1500) for s in full.sheets if s.length_mm == 2500}
    osb = [replace(sheets["osb3-18"], length_mm=1600)]
    birch = [replace(sheets["birch-24"], price_cents=1000)]
    timber = tuple(t for t in full.timber if (t.width_mm, t.depth_mm) == (60, 120))
    made = replace(full, sheets=(*osb, *birch), timber=timber, mounts=full.mounts[:1])
    return replace(
        room, wall=wall, access=Access(carriers=1), yard=replace(room.yard, offcuts=())
    ), made


# A strip of 1200 x 1400 weighs by hand, from panels.csv: 23.8 mm x 680 kg/m3 = 27.2 kg of birch,
# 18 mm x 620 kg/m3 = 18.7 kg of OSB; one person carries 25 kg (INDG143).
def test_a_strip_of_the_heavier_sheet_is_left_where_it_can_not_be_carried() -> None:
    room, catalog = heavy_strips()
    assert {sheet for sheet, _ in compared(model_of(room, catalog))} == {"OSB/3 18 mm"}
    strong = replace(room, access=Access(carriers=2))
    assert {sheet for sheet, _ in compared(model_of(strong, catalog))} == {"birch 24 mm"}


def test_a_strip_too_heavy_of_the_boards_sheet_may_be_had_of_a_lighter_one() -> None:
    """Invented: OSB as heavy as stone. The board gets in, its strip does not, birch's does."""
    room, catalog = heavy_strips()
    panels = dict(catalog.materials.panels)
    panels["osb3-18"] = replace(panels["osb3-18"], rho_mean_kg_m3=900.0)
    materials = replace(catalog.materials, panels=panels)
    light = replace(catalog, materials=materials)
    one = replace(room, access=Access(max_carry_kg=25, carriers=1))
    # 1200 x 1100 x 18 mm x 900 kg/m3 = 21.4 kg; 1200 x 1400: 27.2 kg, as birch 27.2 kg.
    panels["birch-24"] = replace(panels["birch-24"], rho_mean_kg_m3=600.0)
    light = replace(catalog, materials=replace(materials, panels=panels))
    assert {sheet for sheet, _ in compared(model_of(one, light))} == {"birch 24 mm"}


@pytest.mark.parametrize(("most_mm", "shortest"), [(3200, 4000), (6000, None)])
def test_bars_that_must_be_sawn_outside_are_told(most_mm: int, shortest: int | None) -> None:
    room = replace(small_room(SEED), access=Access(max_piece_mm=(most_mm, 1300), carriers=3))
    space = build_space(build_market(room, small_catalog(SEED)))
    assert too_long_whole_mm(space) == shortest
    told = " ".join(search_assumptions(space))
    assert (f"Some bars of {shortest} mm and more don't get in whole" in told) is bool(shortest)


def test_own_offcuts_are_told_to_be_held_to_the_way_in() -> None:
    own = Offcut("rest", "OSB/3", 18, 1300, 420, "length", 1, 0)
    for offcuts, told in (((own,), True), ((replace(own, price_cents=100),), False)):
        room = small_room(SEED)
        room = replace(room, yard=replace(room.yard, offcuts=offcuts))
        space = build_space(build_market(room, small_catalog(SEED)))
        assert ("your own offcuts" in " ".join(search_assumptions(space))) is told


def test_no_piece_of_a_found_wall_is_longer_than_gets_in() -> None:
    room = replace(small_room(SEED), access=Access(max_piece_mm=(2500, 1300), carriers=3))
    for design in search(room, small_catalog(SEED)).document["designs"]:
        assert max(piece["length_mm"] for piece in design["pieces"]) <= 2500
