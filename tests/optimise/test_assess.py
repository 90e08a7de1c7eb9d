"""What an assessed wall fails by: the way in, the vehicle, its mounts; and how it is bought."""

from __future__ import annotations

import math
import re
import tomllib
from dataclasses import replace
from typing import Any

import pytest

from steepwright.catalog import Catalog, read_catalog
from steepwright.cli.assess import failures, finding_line, verdict
from steepwright.errors import InputError
from steepwright.optimise import assess
from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.types import Access, Room
from steepwright.units import percent_up

ROOM = read_room(catalogs_dir() / "example" / "room.toml")
CATALOG = read_catalog()
WALL: dict[str, Any] = tomllib.loads(
    (catalogs_dir() / "example" / "wall.toml").read_text(encoding="utf-8")
)


def assessed(
    room: Room = ROOM, catalog: Catalog = CATALOG, **changes: Any
) -> tuple[dict[str, Any], dict[str, float]]:
    given = {key: value for key, value in (WALL | changes).items() if value is not None}
    document = assess(room, catalog, given)
    return document["designs"][0], document["room_margins"]


def with_access(access: Access) -> Room:
    return replace(ROOM, access=access)


def with_vehicle(vehicle: tuple[int, int] | None, delivery_cents: int = 3900) -> Room:
    yard = replace(ROOM.yard, vehicle_max_mm=vehicle, delivery_price_cents=delivery_cents)
    return replace(ROOM, yard=yard)


def test_the_example_passes_with_nothing_lacking() -> None:
    design, margins = assessed()
    assert design["passes"]
    assert design["failing"] == []
    assert margins["a stud for every mount"] == WALL["stud_count"] - WALL["mount_count"]
    assert all(margin >= 0 for margin in margins.values())


def test_a_piece_that_does_not_get_in_fails_the_wall() -> None:
    whole, _ = assessed()
    longest = max(piece["length_mm"] for piece in whole["pieces"])
    room = with_access(Access(max_piece_mm=(longest - 30, 1300), carriers=3))
    design, margins = assessed(room)
    assert margins["access.max_piece_mm"] == -30
    assert design["failing"] == ["access.max_piece_mm"]
    assert not design["passes"]
    assert verdict(design, margins) == "This wall FAILS: access.max_piece_mm."
    assert assessed(with_access(Access(max_piece_mm=(longest, 1300), carriers=3)))[0]["passes"]


def test_an_end_wall_in_the_way_of_the_lift_is_told_as_such() -> None:
    """By hand: the frame's far corner turns past the pivot's height at its full distance.

    It lies board - set-back along the board from the pivot, sheet and stud less the pivot's
    offset (mount and sheet) square to it; facing -x the wall at the room's end is behind.
    """
    (beam,) = (beam for beam in ROOM.beams if beam.name == WALL["beam"])
    (mount,) = (mount for mount in CATALOG.mounts if mount.name == WALL["mount"])
    design, _ = assessed()
    behind_mm = 2000
    corner_mm = math.hypot(design["board_mm"] - mount.setback_mm, 95 - mount.behind_sheet_mm)
    assert corner_mm > behind_mm
    solids = tuple(solid for solid in ROOM.solids if solid.x_mm[1] < beam.x_mm)
    short = replace(ROOM, length_mm=round(beam.x_mm) + behind_mm, solids=solids)
    design, margins = assessed(short)
    lack = "the room's end wall in the way of folding up"
    assert margins[lack] == pytest.approx(behind_mm - corner_mm, abs=0.006)
    assert lack in design["failing"]
    assert margins.get("solids in the way of folding up", 0) >= 0


def test_a_piece_too_heavy_to_carry_fails_the_wall() -> None:
    whole, _ = assessed()
    heaviest = max(piece["mass_kg"] for piece in whole["pieces"])
    design, margins = assessed(with_access(Access(max_carry_kg=10, carriers=1)))
    assert margins["access.max_carry_kg"] == pytest.approx(10 - heaviest, abs=0.06)
    assert design["failing"] == ["access.max_carry_kg"]


WEAK: dict[str, Any] = {"stud": "45 x 70 C24 planed", "stud_count": 3, "screw_mm": 200}
"""What makes the example's wall fail five checks."""


def uses_of(design: dict[str, Any]) -> dict[str, float]:
    return {check["name"]: check["use"] for check in design["checks"]}


def test_every_failing_check_is_told_what_would_make_it_pass() -> None:
    """Each change that is told is made, and the check looked at again."""
    weak, _ = assessed(**WEAK)
    told = {one["check"]: one["changes"] for one in weak["mend_checks"]}
    assert set(told) == set(weak["failing"])
    made = {
        "stud bending": ("studs of 48 x 98 C18 sawn", {"stud": "48 x 98 C18 sawn"}),
        "stud deflection": ("5 studs instead of 3", {"stud_count": 5}),
        "sheet screw combined": ("sheet screws every 100 mm", {"screw_mm": 100}),
        "stud to rail joint": ("studs of 48 x 98 C18 sawn", {"stud": "48 x 98 C18 sawn"}),
    }
    for name, (words, change) in made.items():
        (line,) = [line for line in told[name] if line.startswith(words)]
        mended, _ = assessed(**WEAK | change)
        use = uses_of(mended)[name]
        assert use <= 1 < uses_of(weak)[name]
        dearer = (mended["cost_cents"] - weak["cost_cents"]) / 100
        assert line == f"{words} ({math.ceil(use * 100)}%, {dearer:+.2f})"


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.139, "14%"), (0.131, "14%"), (1.001, "101%"), (1.0, "100%"), (0.07, "7%"), (0.0, "0%")],
)
def test_a_use_is_never_told_smaller(share: float, words: str) -> None:
    """0.07 * 100 is a little more than 7, and yet it is 7."""
    assert percent_up(share) == words


def test_a_change_that_turns_the_wall_tells_its_angle() -> None:
    weak, _ = assessed(**WEAK)
    lines = [line for one in weak["mend_checks"] for line in one["changes"]]
    (line, *_) = [line for line in lines if line.startswith("mounts of the kind")]
    name = line.removeprefix("mounts of the kind ").split(" (")[0]
    other, _ = assessed(**WEAK | {"mount": name, "angle_deg": None, "board_mm": weak["board_mm"]})
    assert f"the wall then leans {other['angle_deg']:.1f}°" in line


def test_what_nothing_mends_is_told() -> None:
    """No stud, sheet, screw or mount eases a beam under its own existing load."""
    loaded = tuple(replace(beam, existing_load_n_per_m=9000.0) for beam in ROOM.beams)
    design, _ = assessed(replace(ROOM, beams=loaded))
    told = {one["check"]: one["changes"] for one in design["mend_checks"]}
    assert told["ceiling beam without the wall"] == [
        "no other section, number of studs, sheet, mount or screws on offer helps here"
    ]
    assert design["mend"] == []


def test_what_is_not_enough_alone_is_told_with_how_near_it_comes() -> None:
    design, _ = assessed(replace(ROOM, climber=replace(ROOM.climber, dynamic_factor=6.0)))
    lines = [line for one in design["mend_checks"] for line in one["changes"]]
    near = [line for line in lines if line.startswith("nothing on offer is enough alone; nearest")]
    assert near
    assert all(int(re.search(r"\((\d+)%", line)[1]) >= 100 for line in near)  # type: ignore[index]


def test_more_mounts_than_studs_fail_the_wall() -> None:
    design, margins = assessed(mount_count=WALL["stud_count"] + 1)
    assert margins["a stud for every mount"] == -1
    assert "a stud for every mount" in design["failing"]
    assert failures(design, margins)


def test_what_does_not_fit_the_vehicle_fails_unless_it_is_delivered() -> None:
    room = with_vehicle((3200, 1200))
    design, margins = assessed(room, delivered=False)
    narrow = min(max(design["row_lengths_mm"]), max(design["column_widths_mm"]))
    assert margins["yard.vehicle_max_mm"] == 1200 - narrow < 0
    assert design["failing"] == ["yard.vehicle_max_mm"]
    fetched, margins = assessed(room, delivered=True)
    assert fetched["passes"]
    assert "yard.vehicle_max_mm" not in margins


@pytest.mark.parametrize(
    ("vehicle", "delivery_cents", "delivered"),
    [
        (None, 3900, False),  # everything fits: nothing to deliver
        ((5000, 1300), 3900, False),  # fits, so delivery would only cost
        ((3200, 1200), 3900, True),  # the pieces are wider than that both ways
    ],
)
def test_delivery_is_assumed_only_where_it_is_needed(
    vehicle: tuple[int, int] | None, delivery_cents: int, delivered: bool
) -> None:
    room = with_vehicle(vehicle, delivery_cents)
    design, _ = assessed(room, delivered=None)
    assert design["delivered"] is delivered
    assert ("delivery" in {line["what"] for line in design["bill"]}) is delivered
    other = [assessed(room, delivered=way)[0] for way in (False, True)]
    passing = [one["cost_cents"] for one in other if one["passes"]]
    assert design["cost_cents"] == min(passing)


def test_of_equally_cheap_ways_the_one_of_fewer_yards_is_taken() -> None:
    """South sells the same sheets for the same money, and its trip costs nothing to speak of."""
    north = tuple(replace(sheet, yard="North") for sheet in CATALOG.sheets)
    offers = replace(CATALOG, sheets=north, trips=(("North", 100), ("South", 0)))
    free = replace(offers.sheets[0], sku="S", yard="South")
    design, _ = assessed(catalog=replace(offers, sheets=(*offers.sheets, free)))
    assert {line["yard"] for line in design["bill"] if line["group"] == "sheets"} <= {"North", ""}


def test_a_board_too_short_is_told_how_long_it_must_be() -> None:
    with pytest.raises(InputError) as caught:
        assessed(angle_deg=None, board_mm=1500)
    (found,) = (f for f in caught.value.findings if f.severity == "error")  # type: ignore[attr-defined]
    least = int(found.expected.split()[2].rstrip(","))  # type: ignore[attr-defined]
    assert assessed(angle_deg=None, board_mm=least)[0]["board_mm"] == least
    with pytest.raises(InputError):
        assessed(angle_deg=None, board_mm=least - 2)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"columns": 1, "rows": 1, "angle_deg": None, "board_mm": 3300},
         "a piece of 3300 x 1250 mm is 800 mm larger than the sheet of OSB/3 18 mm"),
        ({"angle_deg": None, "board_mm": 5000, "rows": 2},
         "a bar of 4910 mm is 110 mm longer than the longest 45 x 95 C24 planed on offer"),
    ],
)  # fmt: skip
def test_what_can_not_be_cut_is_told_with_how_much_is_lacking(
    changes: dict[str, Any], words: str
) -> None:
    sheets = tuple(s for s in CATALOG.sheets if s.length_mm <= 2500)
    with pytest.raises(InputError) as caught:
        assessed(catalog=replace(CATALOG, sheets=sheets), sheet="OSB/3 18 mm", **changes)
    assert words in str(caught.value)


def test_an_angle_that_can_not_be_is_told_what_can() -> None:
    with pytest.raises(InputError) as caught:
        assessed(angle_deg=0)
    found = re.search(r"expected: from ([\d.]+) to 70 degrees", str(caught.value))
    assert found
    assert assessed(angle_deg=float(found[1]))[0]["angle_deg"] >= float(found[1])
    with pytest.raises(InputError):
        assessed(angle_deg=float(found[1]) - 0.5)


def test_parts_too_small_to_make_are_named() -> None:
    with pytest.raises(InputError, match=r"blocking .* is shorter than 100 mm"):
        assessed(width_mm=1200, columns=6, stud_count=13, delivered=None)


def test_a_vehicle_too_small_for_any_bar_is_told_with_the_shortest() -> None:
    with pytest.raises(InputError, match=r"45 x 95 C24 planed, 2400 mm, is 1500 mm too long"):
        assessed(with_vehicle((900, 600)), stud="45 x 95 C24 planed", delivered=False)


def test_a_missing_article_is_named() -> None:
    hardware = tuple(row for row in CATALOG.hardware if row.kind != "tnut")
    with pytest.raises(InputError, match=r"the catalogue sells no T-nuts"):
        assessed(catalog=replace(CATALOG, hardware=hardware))


@pytest.mark.parametrize(
    ("severity", "line"),
    [("assumption", "Assumed: k: m"), ("warning", "Warning: k: m"), ("error", "Problem: k: m")],
)
def test_findings_are_told_by_their_kind(severity: str, line: str) -> None:
    assert finding_line({"severity": severity, "key": "k", "message": "m"}) == line
    assert finding_line({"severity": severity, "key": "", "message": "m"}) == line.replace(
        "k: ", ""
    )
