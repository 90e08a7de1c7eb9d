"""Rooms whose walls hang from a slab, from ledgers, or from joists along them: each proven.

In each what bears too little would have steeper walls, or heavier ones, for less.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

SLABS = """\
[[slabs]]
name = "ceiling"
first_mm = 2700
spacing_mm = 300
count = 3
thickness_mm = 160
anchor_rated_n = 2040
anchor_least_mm = 120
"""

LEDGERS = """\
[[ledgers]]
name = "thin"
first_mm = 2900
underside_mm = 2300
width_mm = 100
depth_mm = 200
grade = "C24"
ledger_mm = [60, 120]
wall = "studs"
fixings = 4
fixing_mm = 600
screws_per_stud = 1
owned = true

[[ledgers]]
name = "anchored"
first_mm = 3100
underside_mm = 2360
width_mm = 100
depth_mm = 240
grade = "C24"
ledger_mm = [60, 160]
wall = "masonry"
fixings = 4
fixing_mm = 300
anchor_rated_n = 4000
owned = true
"""

UNDER_JOISTS = """\
width_mm = 100
grade = "C24"
joist_first_mm = 250
joist_spacing_mm = 500
joist_count = 6
joist_span_mm = 5200
joist_grade = "C24"
joist_load_n_per_m = 300
found = true
joist_held = true
owned = true
"""

SPREADERS = f"""\
[[spreaders]]
name = "slim"
first_mm = 2900
depth_mm = 160
screw_mm = [10, 260]
joist_mm = [80, 160]
{UNDER_JOISTS}
[[spreaders]]
name = "sound"
first_mm = 3100
depth_mm = 120
screw_mm = [10, 220]
joist_mm = [100, 240]
{UNDER_JOISTS}"""

WEAK = {"thin 1", "slim 1"}


@pytest.mark.parametrize("places", [SLABS, LEDGERS, SPREADERS], ids=["slab", "ledger", "spreader"])
def test_nothing_rests_on_the_searchs_word(
    call: Callable[..., Any], small_room: str, places: str
) -> None:
    head, rest = small_room.split("[[beams]]", 1)
    room = head + places + "\n[[solids]]" + rest.split("[[solids]]", 1)[1]
    Path("room.toml").write_text(room, encoding="utf-8")
    said = call("search", "room.toml", "--out", "answer", "--quiet", "--no-changes")
    assert said.code == 0, said.err
    hung = {d["beam"] for d in json.loads(Path("answer/designs.json").read_text())["designs"]}
    assert hung
    assert hung.isdisjoint(WEAK)
    told = call("verify", "answer", "--strict")
    assert told.code == 0, told.err
