"""What looking for changes of the answer adds to the search of the shipped example.

Both are timed in the same run, so what is asserted is their ratio.
"""

from __future__ import annotations

import time

import pytest
from results import record

from steepwright.catalog import read_catalog
from steepwright.optimise import search
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

MOST_OF_SEARCH = 0.5


@pytest.mark.bench
def test_changes_take_less_than_half_the_search() -> None:
    room, catalog = read_room(catalogs_dir() / "example" / "room.toml"), read_catalog()
    ends: dict[str, float] = {}

    def told(text: str) -> None:
        ends.setdefault(text, time.perf_counter())

    began = time.perf_counter()
    document = search(room, catalog, angle_deg=35, workers=2, progress=told).document
    ended = time.perf_counter()
    changes = ended - ends["looking at what would change the answer"]
    share = changes / (ended - began - changes)
    rows = [row["text"] for row in document["changes"]]
    print(f"\nchanges: {changes:.1f} s, {share:.2f} of the search (below {MOST_OF_SEARCH}); {rows}")
    record("changes example", {"share_of_search": round(share, 2), "told": len(rows)})
    assert share < MOST_OF_SEARCH
