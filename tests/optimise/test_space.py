"""The space's limits come from the catalogue and are told; its arrays agree with the plain road."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from small_rooms import small_catalog, small_room

from steepwright.catalog import read_catalog
from steepwright.catalog.types import Factors
from steepwright.optimise.assess import assess
from steepwright.optimise.branch import Found, root_entries
from steepwright.optimise.document import search_assumptions
from steepwright.optimise.evaluate import batch_of
from steepwright.optimise.exact import SheetChoice
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.model import build_model
from steepwright.optimise.search import wall_of, workshop
from steepwright.optimise.space import Space, build_space
from steepwright.pricing.market import build_market
from steepwright.room.types import Room

SEED = 4
"""A room whose boards may have two columns and two rows."""


def room_in_odd_steps() -> Room:
    room = small_room(SEED)
    return replace(room, wall=replace(room.wall, board_mm=(2501, 2503), step_mm=1))


def space_with(**limits: float) -> Space:
    catalog = small_catalog(SEED)
    factors = catalog.materials.factors
    values = {**factors.values, **limits}
    materials = replace(catalog.materials, factors=Factors(values, factors.sources))
    return build_space(build_market(small_room(SEED), replace(catalog, materials=materials)))


def test_the_limits_of_the_space_are_the_catalogues() -> None:
    space = space_with(
        search_least_mounts=3, search_most_mounts=5, search_least_studs=5, search_most_studs=6
    )
    assert space.mount_counts == (3, 4, 5)
    assert {sheeting.studs for sheeting in space.sheetings} == {5, 6}
    told = " ".join(search_assumptions(space))
    assert "5 to 6 studs" in told
    assert "3 to 5 mounts" in told


def test_every_number_of_studs_that_fills_the_columns_is_in_the_space() -> None:
    space = space_with()
    for columns in {sheeting.split.columns for sheeting in space.sheetings}:
        studs = {s.studs for s in space.sheetings if s.split.columns == columns}
        assert studs == {n for n in range(3, 10) if (n - 1) % columns == 0}


def test_a_seam_lies_at_the_same_millimetre_in_the_search_and_in_the_plain_road() -> None:
    model = build_model(build_space(build_market(room_in_odd_steps(), small_catalog(SEED))))
    space, shop = model.space, workshop(model)
    entries = root_entries(model, 0)
    s = model.sheetings
    halves = (s.rows[entries.sheeting] == 2) & (s.full_row_mm[entries.sheeting] == 0)
    two_rows = entries.take(halves)
    assert len(two_rows)
    some = two_rows.take(np.arange(0, len(two_rows), 37))
    batch = model.batch(some, Fixing.of(2, 150, len(some)))
    for n in range(len(some)):
        sheeting = int(some.sheeting[n])
        own = SheetChoice(0, space.sheetings[sheeting].family)
        found = Found(
            0, int(some.mount[n]), 2, 150, 0, sheeting, int(some.section[n]), False,
            int(space.boards_mm[0]), int(space.kickers_mm[0]),
            space.width_mm, own,
        )  # fmt: skip
        plain = batch_of(shop, wall_of(model, found))
        assert batch.seam_mm[n] == plain.seam_mm[0]
        assert batch.bay_mm[n] == plain.bay_mm[0]


def test_a_wall_far_larger_than_the_searched_ones_is_assessed() -> None:
    design = {
        "board_mm": 2600, "width_mm": 5900, "columns": 5, "rows": 2, "stud_count": 31,
        "sheet": "OSB/3 18 mm", "stud": "60 x 120 C24 planed",
    }  # fmt: skip
    found = assess(small_room(SEED), read_catalog(), design)["designs"][0]
    assert found["width_mm"] == 5900
    assert not found["passes"]
