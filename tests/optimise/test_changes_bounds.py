"""What lets changes of the answer be searched quickly must rule out nothing that counts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from small_rooms import small_catalog, small_room

from steepwright.catalog import read_catalog
from steepwright.optimise import search
from steepwright.optimise.access import board_pieces
from steepwright.optimise.bounds import box_table_cents, build_rates
from steepwright.optimise.changes import aims_of, told_of
from steepwright.optimise.changes_floor import floor_cents
from steepwright.optimise.changes_fresh import Before, tables_of
from steepwright.optimise.changes_offers import bar_changes, offcut_changes, sheet_changes
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.yards import markets
from steepwright.pricing.wall import rows_of
from steepwright.structure import build_tables


def model_of(seed: int) -> Model:
    return build_model(build_space(markets(small_room(seed), small_catalog(seed))[-1]))


@pytest.mark.parametrize("seed", [1, 4, 5, 32])
def test_every_offer_told_of_is_what_a_full_search_with_it_finds(seed: int) -> None:
    room, catalog = small_room(seed), small_catalog(seed)
    document = search(room, catalog, changes=False).document
    aims, like = aims_of(document, catalog), model_of(seed)
    groups = [sheet_changes(catalog), bar_changes(catalog)]
    groups += [g for design in document["designs"] for g in offcut_changes(room, catalog, design)]
    told = 0
    for group in groups:
        rows = told_of(group, room, catalog, aims, like)
        told += len(rows)
        best = dict.fromkeys(aims, 0)
        for change in group:
            full = search(*change.apply(room, catalog), changes=False).document["designs"]
            walls = [(d["cost_cents"], round(1000 * d["angle_deg"])) for d in full]
            for aim in aims:
                cents = min(c for c, m in walls if m >= aim.least_mdeg)
                saved = aim.cost_cents - cents if aim.cost_cents - cents >= aim.saving_cents else 0
                best[aim] = max(best[aim], saved)
                steepest = max((m for c, m in walls if c <= aim.most_cents), default=0)
                gained = steepest - aim.angle_mdeg
                for row in rows:
                    if (row.words, row.aim) == (change.words, aim):
                        gains = gained if gained >= aim.gain_mdeg else 0
                        assert (row.saved_cents, row.gained_mdeg) == (saved, gains)
        # Of several like changes that one is told of which saves most.
        for aim in aims:
            assert max((row.saved_cents for row in rows if row.aim == aim), default=0) == best[aim]
    assert told


def test_only_what_is_made_of_a_new_offer_counts_as_new() -> None:
    room, full = small_room(4), read_catalog()
    sheets = tuple(s for s in full.sheets if s.thickness_mm == 18 and s.kind in ("OSB/3", "birch"))
    catalog = replace(small_catalog(4), sheets=sheets)
    choices = markets(room, catalog)
    space = build_space(choices[-1])
    before = Before(build_model(space), choices)
    assert not before.fresh(space).any()
    # No other board takes a kicker of OSB, the weaker sheet; boards of OSB take one of birch.
    for kind, others in (("OSB/3", False), ("birch", True)):
        sheet = next(s for s in sheets if s.kind == kind)
        added = replace(catalog, sheets=(*sheets, replace(sheet, sku="new", price_cents=1)))
        changed = build_space(markets(room, added)[-1])
        families = changed.market.families
        own = np.array([families[s.family].kind == kind for s in changed.sheetings])
        fresh = before.fresh(changed)
        assert own.any()
        assert not own.all()
        assert fresh[own].all()
        assert (fresh[~own] == others).all()
    bar = catalog.timber[0]
    longer = replace(catalog, timber=(*catalog.timber, replace(bar, sku="new", length_mm=9000)))
    fresh = before.fresh(build_space(markets(room, longer)[-1]))
    assert fresh.shape[1] > 1
    assert fresh.any(axis=0).sum() == fresh.all(axis=0).sum() == 1
    # Dearer screws make every wall another one.
    dearer = tuple(replace(screw, price_cents=screw.price_cents + 1) for screw in catalog.screws)
    assert before.fresh(build_space(markets(room, replace(catalog, screws=dearer))[-1])).all()


def test_tables_taken_over_are_those_worked_out_anew() -> None:
    like = model_of(4)
    market = like.space.market
    some = replace(
        market,
        sections=market.sections[1:],
        catalog=replace(market.catalog, mounts=market.catalog.mounts[:1]),
    )
    taken = tables_of(like, some)
    assert taken is not None
    made = build_tables(some.catalog, some.room, some.families, some.sections)
    for part in ("timber", "joints", "mounts", "lips", "sheets", "beams"):
        new, old = getattr(made, part), getattr(taken, part)
        for name in new.__slots__:
            assert np.array_equal(getattr(new, name), getattr(old, name), equal_nan=True)
    heavier = replace(market.room.climber, mass_kg=market.room.climber.mass_kg + 1)
    assert tables_of(like, replace(some, room=replace(some.room, climber=heavier))) is None


def test_floors_of_all_boxes_are_the_least_of_each_box_alone() -> None:
    model = model_of(32)
    rates, number = build_rates(model), np.arange(len(model.space.sheetings)) % 3
    floors = floor_cents(model, rates, number, 3, 8)
    for row, column in np.ndindex(floors.shape[1:]):
        alone = box_table_cents(model, rates, 8 * row, 8 * column).min(axis=(1, 2))
        assert floors[:, row, column].tolist() == [alone[number == n].min() for n in range(3)]


def test_the_largest_pieces_of_all_boards_are_those_of_each_alone() -> None:
    space = model_of(32).space
    limits = space.market.limits
    for sheeting in {sheeting.split: sheeting for sheeting in space.sheetings}.values():
        rows = [rows_of(sheeting.split, board, limits) for board in space.boards_mm.tolist()]
        expected = [(max(row), 1200) if row else (0, 0) for row in rows]
        assert list(map(tuple, board_pieces(space, sheeting, 1200).tolist())) == expected
