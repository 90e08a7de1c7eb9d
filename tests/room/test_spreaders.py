"""Timbers under joists along the room in a room file: read place by place, and slips told."""

from pathlib import Path

import pytest

from frame_tables import SPREADERS
from room_text import errors_of, room_of
from steepwright.room.types import Spreader

ROOM = (
    """
[room]
name = "shed"
length_mm = 6000
width_mm = 3000
ceiling_mm = 2440
"""
    + SPREADERS
    + """
[wall]
angle_deg = [25, 45]
kicker_mm = [200, 400]
width_mm = [1200, 1400]
step_mm = 10
"""
)


def test_every_place_has_its_timber_below_the_ceiling(tmp_path: Path) -> None:
    room = room_of(tmp_path, ROOM)
    assert [beam.name for beam in room.beams] == ["spreader 1", "spreader 2", "spreader 3"]
    assert {beam.underside_mm for beam in room.beams} == {(2320, 2320)}
    assert {beam.span_mm for beam in room.beams} == {500}
    places = (250, 750, 1250, 1750, 2250, 2750)
    own = Spreader(places, (80, 240), 500, 6000, "C24", 400.0, (10, 220), 15, True)
    assert {beam.spreader for beam in room.beams} == {own}


def test_what_is_unknown_is_told(tmp_path: Path) -> None:
    text = ROOM.replace('joist_grade = "C24"\njoist_load_n_per_m = 400\n', "")
    findings = {
        f.key: f.code for f in room_of(tmp_path, text.replace("found = true\n", "")).findings
    }
    assert findings["spreaders[1].joist_grade"] == "room-grade-unknown"
    assert findings["spreaders[1].joist_load_n_per_m"] == "room-load-unknown"
    assert findings["spreaders[1].found"] == "room-joists-unverified"


@pytest.mark.parametrize(
    ("old", "new", "code", "key"),
    [
        ("first_mm = 2600", "first_mm = 49", "room-beam-outside", "first_mm"),
        ("joist_first_mm = 250", "joist_first_mm = 39", "room-beam-outside", "joist_first_mm"),
        ("joist_count = 6", "joist_count = 4", "room-spreader-short", "joist_count"),
        ("joist_span_mm = 6000", "joist_span_mm = 5999", "room-beam-too-short", "joist_span_mm"),
        ("joist_count = 6", "joist_count = 1", "room-out-of-range", "joist_count"),
    ],
)
def test_slips_are_told(tmp_path: Path, old: str, new: str, code: str, key: str) -> None:
    text = ROOM.replace("\n" + old, "\n" + new)
    assert text != ROOM
    found = [(f.code, f.key) for f in errors_of(tmp_path, text)]
    assert found == [(code, f"spreaders[1].{key}")]
