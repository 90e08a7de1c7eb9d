"""Freestanding frames in a room file: read place by place, and their slips told."""

from pathlib import Path

import pytest

from frame_tables import FRAMES
from room_text import errors_of, room_of
from steepwright.room.types import Stand

ROOM = (
    """
[room]
name = "shed"
length_mm = 6000
width_mm = 3000
ceiling_mm = 2600
"""
    + FRAMES
    + """
[[solids]]
name = "bench"
x_mm = [0, 500]
y_mm = [0, 3000]
z_mm = [0, 900]

[wall]
angle_deg = [25, 45]
kicker_mm = [200, 400]
width_mm = [1200, 1400]
step_mm = 10
fold_up = false
side_passage_mm = 500
"""
)


def test_every_place_has_its_frame(tmp_path: Path) -> None:
    room = room_of(tmp_path, ROOM)
    assert [beam.name for beam in room.beams] == ["frame 1", "frame 2", "frame 3"]
    assert [beam.x_mm for beam in room.beams] == [2500, 2800, 3100]
    assert {beam.stand for beam in room.beams} == {Stand((100, 120), (60, 120), 1600, 1400, 2000.0)}
    assert not any(beam.seen for beam in room.beams)
    assert {beam.existing_load_n_per_m for beam in room.beams} == {0.0}


def test_what_is_unknown_is_told(tmp_path: Path) -> None:
    text = ROOM.replace("floor_rated_n = 2000\n", "").replace('"C24"', '"unknown"')
    findings = {f.key: f.code for f in room_of(tmp_path, text).findings if "frames" in f.key}
    assert findings == {
        "frames[1].grade": "room-grade-unknown",
        "frames[1].floor_rated_n": "room-floor-unknown",
    }


@pytest.mark.parametrize(
    ("old", "new", "code", "key"),
    [
        ("first_mm = 2500", "first_mm = 4001", "room-beam-outside", "frames[1].first_mm"),
        ("count = 3", "count = 9", "room-beam-outside", "frames[1].first_mm"),
        ("count = 3", "count = 3\ntilt = 1", "room-unknown-key", "frames[1].tilt"),
        ("depth_mm = 200", "depth_mm = 401", "room-beam-above-ceiling", "frames[1].underside_mm"),
        ("brace_up_mm = 1600", "brace_up_mm = 2201", "room-frame-brace-high", None),
        ("span_mm = 1700", "span_mm = 1499", "room-frame-too-narrow", "frames[1].span_mm"),
        ("span_mm = 1700", "span_mm = 1901", "room-frame-too-wide", "frames[1].span_mm"),
        ("fold_up = false", "fold_up = true", "room-frame-folds", "wall.fold_up"),
        ("fold_up = false", 'fold_up = false\nalign = "left"', "room-frame-off-centre", None),
        ("[0, 500]", "[0, 1101]", "room-frame-in-solid", "frames[1].first_mm"),
        ('name = "frame"', 'name = "frame"\npost = 1', "room-unknown-key", "frames[1].post"),
        ("post_mm = [100, 120]", "post_mm = 100", "room-not-a-pair", "frames[1].post_mm"),
        ("[[frames]]", "[[frame]]", "room-unknown-key", "frame"),
    ],
)
def test_slips_are_told(tmp_path: Path, old: str, new: str, code: str, key: str | None) -> None:
    assert ROOM.count(old) == 1
    found = errors_of(tmp_path, ROOM.replace(old, new))
    assert [f.code for f in found] == [code]
    assert key is None or found[0].key == key


def test_the_limits_themselves_are_allowed(tmp_path: Path) -> None:
    changes = {
        "first_mm = 2500": "first_mm = 1900",
        "depth_mm = 200": "depth_mm = 400",
        "brace_up_mm = 1600": "brace_up_mm = 2200",
        "span_mm = 1700": "span_mm = 1900",
    }
    text = ROOM
    for old, new in changes.items():
        text = text.replace(old, new)
    assert room_of(tmp_path, text).beams[0].x_mm == 1900


def test_two_rows_may_not_share_a_name(tmp_path: Path) -> None:
    row = ROOM[ROOM.index("[[frames]]") : ROOM.index("[[solids]]")]
    (twice,) = errors_of(tmp_path, ROOM.replace(row, row + row))
    assert (twice.code, twice.key) == ("room-same-name", "frames[2].name")
