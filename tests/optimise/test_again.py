"""A search told of an earlier one's walls gives the bytes of one that is told of nothing."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from small_rooms import small_catalog, small_room, tiny_catalog, tiny_room

from steepwright.catalog import Catalog
from steepwright.optimise.again import same_walls
from steepwright.optimise.bounds import build_rates
from steepwright.optimise.drive import search_front
from steepwright.optimise.journal import Journal, key_of
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.search import search
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.pricing.market import build_market
from steepwright.room.types import Room

Designs = list[dict[str, Any]]


def dearer(catalog: Catalog, seed: int) -> Catalog:
    """Return the catalogue with every sheet's and bar's price changed by up to a fifth."""
    draw = random.Random(seed)

    def moved(cents: int) -> int:
        return round(cents * draw.uniform(0.8, 1.2))

    return replace(
        catalog,
        sheets=tuple(replace(s, price_cents=moved(s.price_cents)) for s in catalog.sheets),
        timber=tuple(replace(t, price_cents=moved(t.price_cents)) for t in catalog.timber),
        mounts=tuple(replace(m, price_cents=moved(m.price_cents)) for m in catalog.mounts),
    )


def model_of(room: Room, catalog: Catalog) -> Model:
    return build_model(build_space(build_market(room, catalog)))


def text(room: Room, catalog: Catalog, earlier: Designs, workers: int = 1) -> str:
    result = search(room, catalog, earlier=earlier, workers=workers, changes=False, certify=True)
    return json.dumps([result.document, result.certificate])


@pytest.mark.parametrize("seed", [4, 13])
def test_after_a_change_of_prices_the_bytes_are_those_of_a_cold_search(seed: int) -> None:
    room, before = small_room(seed), small_catalog(seed)
    after = dearer(before, seed)
    earlier = search(room, before, changes=False).document["designs"]
    model = model_of(room, after)
    still = same_walls(model, build_rates(model), earlier)
    assert still.members, "nothing to start from: the test would say nothing"
    cold = text(room, after, [])
    assert text(room, after, earlier) == cold
    assert text(room, after, earlier, workers=2) == cold
    assert cold != text(room, before, [])


@pytest.mark.parametrize("seed", [1, 3, 6, 8, 12, 13])
def test_what_the_search_is_told_of_changes_no_byte(seed: int) -> None:
    """Also when the walls are its own, those of another room, or none at all."""
    room, catalog = tiny_room(seed), tiny_catalog(seed)
    cold = search(room, catalog, changes=False).document
    other = tiny_room(seed + 1)
    walls = cold["designs"]
    broken = [{}, None, 7, walls[0] | {"board_mm": [1]}, walls[0] | {"delivered": "yes"}]
    for told in (walls, walls[:1], walls[::-1] * 2, broken):
        again = search(room, catalog, changes=False, earlier=told).document
        assert again == cold
    changed = replace(other, beams=room.beams)
    model = model_of(changed, catalog)
    assert (
        search_front(model, Terms(earlier=walls)).front.sorted()
        == search_front(model, Terms()).front.sorted()
    )


def test_a_journal_keeps_what_a_killed_search_was_told_of(tmp_path: Path) -> None:
    """Its units noted only what was new to them; taken up by a search told of nothing, too."""
    room, catalog = small_room(4), small_catalog(4)
    model = model_of(room, catalog)
    cold = search_front(model, Terms())
    earlier = search(room, catalog, changes=False).document["designs"]
    path, key = tmp_path / "journal", key_of(room, catalog)
    first = Journal(path, key, lambda _: None)
    search_front(model, Terms(journal=first, earlier=earlier))
    first.close()
    first.close()
    second = Journal(path, key, lambda _: None)
    assert len(second.harvests(0)) > 1
    assert search_front(model, Terms(journal=second)).front.sorted() == cold.front.sorted()
    second.close()


def test_told_of_the_answer_a_search_solves_fewer_walls() -> None:
    room, catalog = small_room(4), small_catalog(4)
    model = model_of(room, catalog)
    cold = search_front(model, Terms())
    earlier = search(room, catalog, changes=False).document["designs"]
    warm = search_front(model, Terms(earlier=earlier))
    assert warm.front.sorted() == cold.front.sorted()
    assert warm.tally.boxes < cold.tally.boxes
