"""Beams on wall ledgers in a room file: read place by place, and their slips told."""

from pathlib import Path

import pytest

from frame_tables import LEDGERS
from room_text import errors_of, room_of
from steepwright.room.types import Ledger

ROOM = (
    """
[room]
name = "shed"
length_mm = 6000
width_mm = 3000
ceiling_mm = 2600
"""
    + LEDGERS
    + """
[[solids]]
name = "pipe"
x_mm = [0, 1900]
y_mm = [0, 50]
z_mm = [2000, 2100]

[wall]
angle_deg = [25, 45]
kicker_mm = [200, 400]
width_mm = [1200, 1400]
step_mm = 10
"""
)


def test_every_place_has_its_beam_from_wall_to_wall(tmp_path: Path) -> None:
    room = room_of(tmp_path, ROOM)
    assert [beam.name for beam in room.beams] == ["ledgers 1", "ledgers 2", "ledgers 3"]
    assert [beam.x_mm for beam in room.beams] == [2600, 2900, 3200]
    assert {beam.span_mm for beam in room.beams} == {3000}
    assert {beam.ledger for beam in room.beams} == {Ledger((60, 160), "studs", 4, 400, 60, 3, None)}
    assert {beam.existing_load_n_per_m for beam in room.beams} == {0.0}


def test_an_unknown_anchor_and_grade_are_told(tmp_path: Path) -> None:
    text = ROOM.replace('"studs"', '"masonry"').replace('"C24"', '"unknown"')
    findings = {f.key: f.code for f in room_of(tmp_path, text).findings if "ledgers" in f.key}
    assert findings == {
        "ledgers[1].grade": "room-grade-unknown",
        "ledgers[1].anchor_rated_n": "room-anchor-unknown",
    }


@pytest.mark.parametrize(
    ("old", "new", "code", "key"),
    [
        ("count = 3", "count = 12", "room-beam-outside", "ledgers[1].first_mm"),
        ("depth_mm = 200", "depth_mm = 401", "room-beam-above-ceiling", "ledgers[1].underside_mm"),
        ("[0, 1900]", "[0, 2001]", "room-frame-in-solid", "ledgers[1].first_mm"),
        ("[2000, 2100]\n", "[2000, 2300]\n", None, None),
        ("fixings = 4", "fixings = 1", "room-out-of-range", "ledgers[1].fixings"),
        ('wall = "studs"', 'wall = "glass"', "room-not-a-choice", "ledgers[1].wall"),
        (
            'wall = "studs"',
            'wall = "studs"\nanchor_rated_n = 900',
            "room-ledger-anchors",
            "ledgers[1].anchor_rated_n",
        ),
        ("[[ledgers]]", "[[ledger]]", "room-unknown-key", "ledger"),
    ],
)
def test_slips_are_told(
    tmp_path: Path, old: str, new: str, code: str | None, key: str | None
) -> None:
    assert ROOM.count(old) == 1
    if code is None:
        assert room_of(tmp_path, ROOM.replace(old, new)).beams
        return
    found = errors_of(tmp_path, ROOM.replace(old, new))
    assert [(f.code, f.key) for f in found] == [(code, key)]
