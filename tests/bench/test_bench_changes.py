"""What looking for changes of the answer adds to a search: of the example, and of the garage.

Both are timed in the same run, in seconds of the processors that all processes took together, so
what is asserted is their ratio. The search counts with its certificate, as the command has it.
Without an angle two walls are to be beaten: the cheapest, and the one that gives most degrees for
the money from there.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from results import record
from runs import OTHER_ROOM, ROOM, cpu_s

from steepwright.catalog import read_catalog
from steepwright.optimise import search
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

MOST_OF_SEARCH = 0.4
GARAGE = catalogs_dir() / "example" / "garage.toml"


@pytest.mark.bench
@pytest.mark.parametrize(
    ("name", "file", "angle_deg"),
    [
        ("changes example", ROOM, 35.0),
        ("changes example without an angle", ROOM, None),
        ("changes garage", GARAGE, None),
    ],
)
def test_changes_take_less_than_half_the_search(
    name: str, file: Path, angle_deg: float | None
) -> None:
    room, catalog = read_room(file), read_catalog()
    ends: dict[str, float] = {}

    def told(text: str) -> None:
        ends.setdefault(text, cpu_s())

    began = cpu_s()
    found = search(room, catalog, angle_deg=angle_deg, workers=2, progress=told, certify=True)
    ended = cpu_s()
    changes = (
        ends["proving that nothing cheaper was missed"]
        - ends["looking at what would change the answer"]
    )
    share = changes / (ended - began - changes)
    rows = [row["text"] for row in found.document["changes"]]
    print(
        f"\n{name}: {changes:.1f} CPU s, {share:.2f} of the search (below {MOST_OF_SEARCH}); {rows}"
    )
    record(name, {"share_of_search": round(share, 2), "told": len(rows)})
    # A tiny room has next to nothing to search.
    assert (OTHER_ROOM and file == ROOM) or share < MOST_OF_SEARCH
