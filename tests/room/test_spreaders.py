"""Timbers under joists along the room in a room file: read place by place, and slips told."""

from dataclasses import asdict, replace
from pathlib import Path

import pytest

from frame_tables import SPREADERS
from room_text import errors_of, room_of
from steepwright.catalog import read_catalog
from steepwright.errors import InputError
from steepwright.geometry.stand_parts import bought_parts
from steepwright.room import check_with_catalog
from steepwright.room.types import Spreader
from steepwright.verify.stands import spreader_ends, stand_pieces
from steepwright.verify.stands_billed import StandWitness

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

TOLERANT = "step_mm = 10\ntolerance_mm = 5"


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


def test_the_timber_reaches_past_its_last_screws(tmp_path: Path) -> None:
    """By hand: Table 8.6 asks for 10 d = 100 mm past d 10, Table 8.4 for 80 mm past d 6.

    NDS 12.5.1A, 12.5.1E, from memory: 4 D of 7/16 in, 44.45 mm, which 11 mm with half a mm covers.
    """
    (beam, *_), factors = room_of(tmp_path, ROOM).beams, read_catalog().materials.factors
    assert beam.spreader is not None
    by_nds = factors.in_code("NDS")
    for told, screw, joist, past in (
        (factors, 10, 80, 100),
        (factors, 6, 80, 80),
        (factors, 6, 200, 100),
        (by_nds, 11, 38, 46),
        (by_nds, 11, 100, 50),
    ):
        own = replace(beam.spreader, screw_mm=(screw, 220), joist_mm=(joist, 240))
        (part,) = bought_parts(told, replace(beam, spreader=own))
        assert part.length_mm == 2500 + 2 * past
        plain = asdict(replace(beam, spreader=own))
        assert spreader_ends(dict(told.values), plain["spreader"]) == (250 - past, 2750 + past)
        assert stand_pieces(dict(told.values), plain) == {(100, 120): {2500 + 2 * past: 1}}
    assert 46 >= 4 * 7 / 16 * 25.4 > 44


@pytest.mark.parametrize(
    ("swaps", "short", "expected"),
    [
        ((("joist_first_mm = 250", "joist_first_mm = 100"),), 10, "from 110 to 2890"),
        ((("joist_first_mm = 250", "joist_first_mm = 395"),), 5, "from 110 to 2890"),
        (
            (("joist_first_mm = 250", "joist_first_mm = 110"), ("step_mm = 10", TOLERANT)),
            5,
            "from 115 to 2885",
        ),
    ],
)
def test_a_screw_too_near_the_timbers_end_is_refused(
    tmp_path: Path, swaps: tuple[tuple[str, str], ...], short: int, expected: str
) -> None:
    text = ROOM
    for old, new in swaps:
        text = text.replace("\n" + old, "\n" + new)
    with pytest.raises(InputError) as failed:
        check_with_catalog(room_of(tmp_path, text), read_catalog())
    (found,) = (f for f in failed.value.findings if f.severity == "error")
    assert (found.code, found.key) == ("room-spreader-end", "spreaders[1].joist_first_mm")
    assert f"{short} mm too short" in found.message
    assert found.expected == expected
    assert "coach screw" in found.message


def test_the_last_joist_may_be_as_near_a_wall_as_that(tmp_path: Path) -> None:
    """10 mm to get the timber up, 100 mm past the screw: from 110 mm on, up to 2890 mm."""
    for first in (110, 390):
        text = ROOM.replace("joist_first_mm = 250", f"joist_first_mm = {first}")
        check_with_catalog(room_of(tmp_path, text), read_catalog())


def test_the_checker_tells_of_a_timber_that_reaches_into_a_wall(tmp_path: Path) -> None:
    """By hand: joists from 99 to 2599 with screws of 10 mm ask for timber from y = -1 to 2699."""
    (beam, *_), factors = room_of(tmp_path, ROOM).beams, read_catalog().materials.factors
    for first, told in ((99, ["-1 to 2699"]), (100, [])):
        joists = tuple(first + 500 * n for n in range(6))
        own = replace(beam, spreader=replace(beam.spreader, joists_mm=joists, owned=True))
        yard = {"kerf_mm": 4, "vehicle_max_mm": None}
        room = {"beams": [asdict(own)], "width_mm": 3000, "yard": yard}
        given = {"factors": dict(factors.values), "sections": []}
        design = {"beam": own.name, "delivered": 0, "cut_plan": {}}
        assert faults_of(StandWitness(design, given, room)) == told


def faults_of(witness: StandWitness) -> list[object]:
    seen: list[object] = []
    witness.sawn(lambda _, found, asked: seen.append(found))
    return seen
