"""What looking for changes of the answer adds to the search of the shipped example.

Both are timed in the same run, in seconds of the processors that all processes took together, so
what is asserted is their ratio. The search counts with its certificate, as the command has it.
"""

from __future__ import annotations

import pytest
from results import record
from runs import OTHER_ROOM, ROOM, cpu_s

from steepwright.catalog import read_catalog
from steepwright.optimise import search
from steepwright.room import read_room

MOST_OF_SEARCH = 0.4


@pytest.mark.bench
def test_changes_take_less_than_half_the_search() -> None:
    room, catalog = read_room(ROOM), read_catalog()
    ends: dict[str, float] = {}

    def told(text: str) -> None:
        ends.setdefault(text, cpu_s())

    began = cpu_s()
    document = search(room, catalog, angle_deg=35, workers=2, progress=told, certify=True).document
    ended = cpu_s()
    changes = (
        ends["proving that nothing cheaper was missed"]
        - ends["looking at what would change the answer"]
    )
    share = changes / (ended - began - changes)
    rows = [row["text"] for row in document["changes"]]
    print(
        f"\nchanges: {changes:.1f} CPU s, {share:.2f} of the search (below {MOST_OF_SEARCH}); "
        f"{rows}"
    )
    record("changes example", {"share_of_search": round(share, 2), "told": len(rows)})
    assert OTHER_ROOM or share < MOST_OF_SEARCH  # a tiny room has next to nothing to search
