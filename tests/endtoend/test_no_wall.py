"""Rooms in which no wall is possible: exit code 4, which constraint binds, and by how much.

The amounts are worked out here by plain enumeration from the closed form of the angle,
A cos t + n sin t = H with A = L - a (L board, a set-back, n pivot behind the face, H pivot above
the kicker), and from the catalogue's own rows; nothing of the search is used.
"""

from __future__ import annotations

import csv
import json
import math
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from drawn_rows import ends_mm
from steepwright.resources import catalogs_dir, shipped_catalog_dir

Call = Callable[..., Any]

X_MM, LENGTH_MM, UNDERSIDE_MM = 3000, 6000, 2400
THINNEST_MM = 15
ROOM = f"""\
[room]
name = "Bare room"
length_mm = {LENGTH_MM}
width_mm = 3000
ceiling_mm = 2600

[[beams]]
name = "only"
x_mm = {X_MM}
underside_mm = {UNDERSIDE_MM}
width_mm = 140
depth_mm = 220
span_mm = 3200
grade = "C24"
existing_load_n_per_m = 600

[wall]
angle_deg = [25, 45]
kicker_mm = [300, 400]
width_mm = [1200, 1200]
step_mm = 50
board_mm = [2450, 2550]
sheet_kinds = ["birch"]
min_thickness_mm = {THINNEST_MM}
max_columns = 1
max_rows = 1
fold_up = false
min_fall_space_mm = 1000

[yard]
delivery_price = 39
"""


def rows_of(name: str) -> list[dict[str, str]]:
    with (shipped_catalog_dir() / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def walls(
    underside_mm: int = UNDERSIDE_MM, boards_mm: tuple[int, ...] = (2450, 2500, 2550)
) -> Iterator[tuple[float, float, float]]:
    """Yield angle [deg], fall space [mm] and reach behind the beam [mm] of each possible wall."""
    thick = {
        int(row["thickness_mm"])
        for row in rows_of("sheets.csv")
        if row["kind"] == "birch" and int(row["thickness_mm"]) >= THINNEST_MM
    }
    for mount in rows_of("mounts.csv"):
        setback = int(mount["setback_mm"])
        for thickness in thick:
            behind = int(mount["behind_sheet_mm"]) + thickness
            for board in boards_mm:
                for kicker in (300, 350, 400):
                    rise = underside_mm - int(mount["drop_mm"]) - kicker
                    along = board - setback
                    if rise > math.hypot(along, behind):
                        continue
                    turn = math.acos(rise / math.hypot(along, behind)) + math.atan2(behind, along)
                    ahead = setback * math.sin(turn) + behind * math.cos(turn)
                    fall = math.floor(LENGTH_MM - X_MM - ahead)
                    yield math.degrees(turn), fall, board * math.sin(turn) - ahead


def searched(call: Call, changes: dict[str, str], *args: str) -> Any:
    text = ROOM
    for row, instead in changes.items():
        assert text.count(row) == 1, row
        text = text.replace(row, instead)
    Path("mine.toml").write_text(text, encoding="utf-8")
    return call("search", "mine.toml", "--quiet", "--workers", "1", "--out", "answer", *args)


def hopeless(call: Call, changes: dict[str, str], *args: str) -> str:
    said = searched(call, changes, *args)
    assert said.code == 4, said.err
    assert said.out == ""
    assert "Traceback" not in said.err
    assert [path.name for path in Path.cwd().iterdir()] == ["mine.toml"], "nothing may be written"
    return str(said.err)


def shortfall(told: str, name: str) -> float:
    found = re.search(re.escape(name) + r" binds: ([\d.]+) (?:mm|degrees) short", told)
    assert found, told
    return float(found[1])


def test_the_bare_room_as_it_is_has_walls() -> None:
    fits = [(angle, fall) for angle, fall, _ in walls() if 25 <= angle <= 45 and fall >= 1000]
    assert fits, "each case below changes one thing; without it there are walls"


def test_fall_space_that_the_room_does_not_have(call: Call) -> None:
    asked = 3500
    told = hopeless(call, {"min_fall_space_mm = 1000": f"min_fall_space_mm = {asked}"})
    best = max(fall for angle, fall, _ in walls() if 25 <= angle <= 45)
    assert shortfall(told, "wall.min_fall_space_mm") == asked - best


def test_a_beam_too_low_for_the_angles_asked_for(call: Call) -> None:
    told = hopeless(call, {f"underside_mm = {UNDERSIDE_MM}": "underside_mm = 1850"})
    flattest = min(angle for angle, _, _ in walls(1850))
    assert shortfall(told, "wall.angle_deg (greatest)") == pytest.approx(flattest - 45, abs=0.006)


def test_an_angle_beyond_the_longest_board(call: Call) -> None:
    told = hopeless(call, {"angle_deg = [25, 45]": "angle_deg = [60, 65]"})
    steepest = max(angle for angle, _, _ in walls())
    assert shortfall(told, "wall.angle_deg (least)") == pytest.approx(60 - steepest, abs=0.006)


def test_boards_too_short_to_reach_the_beam(call: Call) -> None:
    short = {"board_mm = [2450, 2550]": "board_mm = [1500, 1600]"}
    assert not list(walls(boards_mm=(1500, 1550, 1600)))
    told = hopeless(call, short)
    found = re.search(r"board long enough to reach the beam \(([\d.]+) mm short\)", told)
    assert found, told
    # The longest board, 1600 mm, on the highest kicker, 400 mm: it needs a + sqrt(H^2 - n^2).
    needs = min(
        setback + math.sqrt((UNDERSIDE_MM - drop - 400) ** 2 - (behind + thick) ** 2)
        for setback, drop, behind in (
            (int(m["setback_mm"]), int(m["drop_mm"]), int(m["behind_sheet_mm"]))
            for m in rows_of("mounts.csv")
        )
        for thick in (15, 18, 21, 24)
    )
    assert float(found[1]) == pytest.approx(needs - 1600, abs=0.11)
    assert "degrees short" not in told


def test_no_way_past_the_wall(call: Call) -> None:
    told = hopeless(call, {"fold_up = false": "fold_up = false\nside_passage_mm = 1300"})
    assert shortfall(told, "wall.side_passage_mm") == 1300 - (3000 - 1200) / 2


def test_no_room_behind_the_foot(call: Call) -> None:
    """In a room this short the frame would stand beyond the end wall, whichever way it faces.

    Behind the kicker's face stand at least its sheet and the shallowest studs on sale.
    """
    middle = {f"length_mm = {LENGTH_MM}": "length_mm = 2400", f"x_mm = {X_MM}": "x_mm = 1200"}
    told = hopeless(call, middle)
    least = min(back for angle, _, back in walls() if 25 <= angle <= 45)
    with (shipped_catalog_dir() / "timber.csv").open(encoding="utf-8") as rows:
        frame_mm = THINNEST_MM + min(int(row["depth_mm"]) for row in csv.DictReader(rows))
    assert shortfall(told, "room behind the kicker") == pytest.approx(
        least + frame_mm - 1200, abs=0.51
    )


def test_a_beam_further_out_of_level_than_any_mount_takes_up(call: Call) -> None:
    told = hopeless(
        call, {f"underside_mm = {UNDERSIDE_MM}": f"underside_mm = [{UNDERSIDE_MM}, 2490]"}
    )
    at_the_high_edge = 90 * (1500 + 600) / 3000
    most = max(int(mount["adjust_mm"]) for mount in rows_of("mounts.csv"))
    assert shortfall(told, "mounts.adjust_mm") == at_the_high_edge - most == 3


def test_more_moves_than_the_longest_board_offers(call: Call) -> None:
    """A span of 1750 mm gains 525 mm a move; rows of 2550 mm span 12 times 200 mm."""
    told = hopeless(call, {"fold_up = false": "fold_up = false\nmin_moves = 6"})
    assert "wall.min_moves binds: 2 moves short" in told


def test_a_start_lower_than_the_lowest_kicker(call: Call) -> None:
    """The lowest row of any board is where its drawing has it: 125 mm up one of 2450."""
    told = hopeless(call, {"fold_up = false": "fold_up = false\nmax_start_mm = 100"})
    flattest, steepest = (math.cos(math.radians(angle)) for angle in (25, 45))
    studs = {int(bar["width_mm"]) for bar in rows_of("timber.csv")}
    lowest = min(ends_mm((b,), stud, 200)[0] for b in (2450, 2500, 2550) for stud in studs)
    assert lowest == 125
    short = shortfall(told, "wall.max_start_mm")
    assert 200 + lowest * steepest - 1 <= short <= 200 + lowest * flattest + 1


def test_more_to_climb_than_board_and_kicker_are_long(call: Call) -> None:
    told = hopeless(call, {"fold_up = false": "fold_up = false\nmin_climbable_mm = 4000"})
    assert shortfall(told, "wall.min_climbable_mm") >= 4000 - 2550 - 400


def test_a_beam_too_weak(call: Call) -> None:
    told = hopeless(call, {"depth_mm = 220": "depth_mm = 60"})
    assert "the check 'ceiling beam" in told
    found = re.search(r"uses ([\d.]+) of what it can bear \((\d+) % too much\)", told)
    assert found, told
    assert float(found[1]) > 1
    assert int(found[2]) == pytest.approx((float(found[1]) - 1) * 100, abs=1)


CORNER = """[[access.corridors]]
name = "stair"
width_a_mm = 700
width_b_mm = 700
height_mm = 1250"""


# The shortest board is 2450 mm, in one piece of 2450 x 1200; 15 mm birch weighs 680 kg/m3.
@pytest.mark.parametrize(
    ("access", "words"),
    [
        ("[access]\nmax_piece_mm = [2400, 1300]",
         "access.max_piece_mm binds: a piece of 2450 x 1200 mm is 50 mm too large"),
        ("[access]\nmax_piece_mm = [900, 600]",
         "access.max_piece_mm binds: a piece of 2450 x 1200 mm is 1850 mm too large"),
        ("[access]\ncarriers = 1\nmax_carry_kg = 15",
         r"access.max_carry_kg binds: a piece of 2450 x 1200 mm is ([\d.]+) kg too heavy"),
        (CORNER, "the corner 'stair' binds: a piece of 2450 x 1200 mm is "),
    ],
)  # fmt: skip
def test_pieces_that_do_not_come_in(call: Call, access: str, words: str) -> None:
    told = hopeless(call, {"[yard]": f"{access}\n\n[yard]"})
    found = re.search(words, told)
    assert found, told
    if found.groups():
        mean_mm = next(
            float(row["mean_thickness_mm"])
            for row in material_rows("panels.csv")
            if row["id"] == "birch-15"
        )
        assert float(found[1]) == pytest.approx(2.45 * 1.2 * mean_mm * 0.68 - 15, abs=0.11)


STUCK = {
    "board_mm = [2450, 2550]\n": "",
    "max_columns = 1": "max_columns = 2",
    "max_rows = 1": "max_rows = 2",
    "step_mm = 50": "step_mm = 100",
}
STAIR = """[[access.landings]]
name = "turn"
width_a_mm = {wide}
width_b_mm = {wide}
height_mm = 1700
rise_mm = 200
going_mm = 200
"""


def test_what_is_told_to_help_a_bar_that_sticks_does_help(call: Call) -> None:
    """No way to divide the board shortens its studs, whatever else there is to divide."""

    def room(wide: int) -> dict[str, str]:
        return STUCK | {"[yard]": f"{STAIR.format(wide=wide)}\n[yard]"}

    told = hopeless(call, room(650))
    stuck = re.search(r"the landing 'turn' binds: a bar of the frame of (\d+) x \d+ mm", told)
    assert stuck, told
    assert "max_rows" not in told
    assert "max_columns" not in told
    assert "carriers" not in told
    wider = re.search(r"the landing 'turn' (\d+) mm wider each way", told)
    window = re.search(r"a window \(.*?\) of (\d+) x (\d+) mm with (\d+) mm clear inside", told)
    kicker = re.search(r"wall.kicker_mm up to (\d+)", told)
    angle = re.search(r"wall.angle_deg from (\d+)", told)
    assert wider, told
    assert window, told
    assert kicker, told
    assert angle, told
    assert int(window[3]) >= int(stuck[1])
    wide, high, inside = window.groups()
    opening = (
        f'[[access.windows]]\nname = "w"\nwidth_mm = {wide}\nheight_mm = {high}\n'
        f"inside_mm = {inside}\n"
    )
    by = int(wider[1])
    helps = [
        room(650 + by),
        room(650) | {"[yard]": f"{STAIR.format(wide=650)}{opening}\n[yard]"},
        room(650) | {"kicker_mm = [300, 400]": f"kicker_mm = [300, {kicker[1]}]"},
        room(650) | {"angle_deg = [25, 45]": f"angle_deg = [{angle[1]}, 45]"},
    ]
    for changed in helps:
        assert "brought in" not in searched(call, changed, "--no-changes").err, changed
    assert "brought in" in searched(call, room(650 + by - 10)).err


def test_a_board_piece_that_sticks_is_told_to_be_divided(call: Call) -> None:
    told = hopeless(call, {"[yard]": "[access]\nmax_piece_mm = [2500, 900]\n\n[yard]"})
    assert "wall.max_columns = 2" in told
    assert "wall.max_rows" not in told, "pieces of 1225 x 1200 mm are no narrower than 900"
    assert "A bar is one piece" not in told


def material_rows(name: str) -> list[dict[str, str]]:
    with (catalogs_dir() / "materials" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def yard_without(table: str, *words: str) -> str:
    folder = Path(shutil.copytree(shipped_catalog_dir(), Path.cwd().parent / "yard"))
    rows = (folder / table).read_text(encoding="utf-8").splitlines()
    kept = [row for row in rows if not any(word in row for word in words)]
    assert len(kept) < len(rows)
    (folder / table).write_text("\n".join(kept) + "\n", encoding="utf-8")
    return str(folder)


@pytest.mark.parametrize(
    ("table", "words", "fold_up", "told"),
    [
        ("hardware.csv", (",tnut,",), False, "no T-nuts (kind tnut in hardware.csv)"),
        ("hardware.csv", (",hinge,",), True, "no hinges for the kicker (kind hinge"),
        ("hardware.csv", (",rope,",), True, "no rope to fold the board up (kind rope"),
        ("hardware.csv", (",latch,", ",pulley,"), True, "no pulleys to fold the board up"),
        # 2.8 x 15 mm (factors.csv) is 42 mm, 2 x 45 mm is 90 mm.
        ("screws.csv", ("SC-4.5x45", "SC-5x60", "SC-5x70"), False,
         "no sheet screw of at least 42 mm"),
        ("screws.csv", ("SC-6x", "SC-8x"), False, "no frame screw of at least 90 mm"),
    ],
)  # fmt: skip
def test_an_article_that_nobody_sells(
    call: Call, table: str, words: tuple[str, ...], fold_up: bool, told: str
) -> None:
    room = {"fold_up = false": "fold_up = true"} if fold_up else {}
    said = hopeless(call, room, "--catalog", yard_without(table, *words))
    assert "No wall can be bought" in said
    assert told in said


def test_boards_too_long_for_sheets_and_bars(call: Call) -> None:
    """The longest birch sheets are taken away, and all bars but those of 2.4 m: 2550 needs 2460."""
    folder = yard_without("sheets.csv", "BI-15-1525", "BI-18", "BI-21", "BI-24")
    timber = Path(folder) / "timber.csv"
    head, *rows = timber.read_text(encoding="utf-8").splitlines()
    kept = [row for row in rows if row.startswith(("T-45x145-C24-2400", "T-45x120-C24-2400"))]
    timber.write_text("\n".join([head, *kept]) + "\n", encoding="utf-8")
    long = {"board_mm = [2450, 2550]": "board_mm = [2550, 2550]"}
    told = hopeless(call, long, "--catalog", folder)
    assert "a piece of 2550 x 1200 mm" in told
    assert "is 50 mm larger than the sheet of birch 15 mm" in told
    assert "a bar of 2460 mm is 60 mm longer than the longest 45 x 1" in told


def test_an_angle_above_the_rooms_own_range(call: Call) -> None:
    told = hopeless(call, {}, "--angle", "60")
    assert "wall.angle_deg in the room file binds" in told
    assert "ends at 45, 15 degrees short" in told


def test_an_angle_out_of_range_leaves_a_stopped_search_to_be_taken_up(call: Call) -> None:
    Path("answer").mkdir()
    journal = Path("answer/search.journal")
    journal.write_bytes(b"what a stopped search has proved\n")
    said = searched(call, {}, "--angle", "60")
    assert said.code == 4, said.err
    assert journal.read_bytes() == b"what a stopped search has proved\n"


def test_an_angle_above_the_steepest_wall_found_is_told_with_what_binds_there(call: Call) -> None:
    """Between 43 and 45 degrees walls stand, but none bears a climber of 110 kg."""
    heavy = {"[yard]": "[climber]\nmass_kg = 110\n\n[yard]"}
    told = hopeless(call, heavy, "--angle", "43")
    found = re.search(r"the steepest has ([\d.]+), ([\d.]+) degrees short", told)
    assert found, told
    assert float(found[1]) + float(found[2]) == pytest.approx(43, abs=0.0011)
    assert [a for a, f, _ in walls() if 43 <= a <= 45 and f >= 1000], "the room is not what binds"
    assert re.search(r"the check '.+' binds; .* uses [\d.]+ of what it can bear", told), told


def test_an_angle_that_the_lengths_do_not_give_is_not_blamed_on_a_check(call: Call) -> None:
    told = hopeless(call, {}, "--angle", "44.9")
    steepest = max(angle for angle, fall, _ in walls() if angle <= 45 and fall >= 1000)
    assert "check" not in told
    found = re.search(r"wall.board_mm and wall.kicker_mm bind: .* nearer than ([\d.]+) deg", told)
    assert found, told
    assert float(found[1]) == pytest.approx(44.9 - steepest, abs=0.011)


def test_an_angle_that_the_fall_space_forbids_is_not_blamed_on_a_check(call: Call) -> None:
    """A solid in front leaves the steeper walls, whose lips hang further out, no room to fall."""
    least = 43
    falls = [fall for angle, fall, _ in walls() if angle >= least]
    asked = max(falls) + 1
    flatter = [f for angle, f, _ in walls() if 25 <= angle < least and f >= asked]
    assert flatter
    room = {"min_fall_space_mm = 1000": f"min_fall_space_mm = {asked}"}
    told = hopeless(call, room, "--angle", str(least))
    assert "check" not in told
    assert shortfall(told, "wall.min_fall_space_mm") == 1


def test_a_budget_below_the_cheapest_wall_found(call: Call) -> None:
    told = hopeless(call, {}, "--max-cost", "100")
    found = re.search(r"at most 100.00: the cheapest costs ([\d.]+) EUR, ([\d.]+) more", told)
    assert found, told
    assert round(float(found[1]) * 100) - 10000 == round(float(found[2]) * 100)


def test_with_json_the_failure_is_one_document(call: Call) -> None:
    Path("mine.toml").write_text(ROOM.replace("[25, 45]", "[60, 65]"), encoding="utf-8")
    said = call("search", "mine.toml", "--json", "--quiet", "--workers", "1")
    document = json.loads(said.out)
    assert (said.code, document["exit_code"], said.err) == (4, 4, "")
    assert "wall.angle_deg (least) binds" in document["message"]


def test_a_room_in_which_no_board_folds_up(call: Call) -> None:
    """Facing +x is too short for the fall, facing -x for the raised board: no wall at all."""
    end = {f"length_mm = {LENGTH_MM}": "length_mm = 5000"}
    folding = {"fold_up = false": "fold_up = true", "fall_space_mm = 1000": "fall_space_mm = 2900"}
    told = hopeless(call, end | folding)
    assert not re.search(r"-\d+ mm short|-\d[\d.]* degrees short", told), told
    assert "fold" in told


def least_room_to_fold_mm(fall_mm: int, beam_mm: int, length_mm: int) -> float:
    """Return the least room behind the pivot that any board needs to turn up to level, by hand.

    The far corner of the frame's back lies L - a along the board from the pivot and the studs'
    depth, less what the pivot is behind the sheet, square to it: turning up it passes the pivot's
    height, where it is as far out as it gets. Only boards that stay below their own beam count.
    """
    stud = min(int(row["depth_mm"]) for row in rows_of("timber.csv"))
    least = math.inf
    for mount in rows_of("mounts.csv"):
        setback, behind = int(mount["setback_mm"]), int(mount["behind_sheet_mm"])
        back = max(stud - behind, 0)
        if math.hypot(back, setback) <= int(mount["drop_mm"]):
            least = min(least, math.hypot(2450 - setback, back))
    assert length_mm - beam_mm - fall_mm > 300, "all lips have room to fall before them"
    return least


END_WALL = {
    f"x_mm = {X_MM}": "x_mm = 2300",
    "fold_up = false": "fold_up = true",
    "fall_space_mm = 1000": "fall_space_mm = 3000",
    "angle_deg = [25, 45]": "angle_deg = [35, 45]",
}


def test_an_end_wall_in_the_way_of_folding_up_is_all_that_binds(call: Call) -> None:
    """No board of 2450 mm or more turns up 2300 mm before a wall, at whatever angle it stands."""
    needs = least_room_to_fold_mm(3000, 2300, LENGTH_MM)
    assert needs > 2300
    told = hopeless(call, END_WALL)
    found = re.search(r"the room's end wall in the way of folding up binds: ([\d.]+) mm", told)
    assert found, told
    assert float(found[1]) == pytest.approx(needs - 2300, abs=0.11)
    assert "solids" not in told, "there are none in this room"
    assert [a for a, fall, _ in walls() if a < 35], "flatter walls stand, but none of them folds"
    assert "angle_deg" not in told
    more = math.ceil(float(found[1]))
    fitting = {f"x_mm = {X_MM}": f"x_mm = {2300 + more}"}
    fitting[f"length_mm = {LENGTH_MM}"] = f"length_mm = {LENGTH_MM + more}"
    assert searched(call, {**END_WALL, **fitting}).code == 0, "moved by what is told, one folds"
    fitting[f"x_mm = {X_MM}"] = f"x_mm = {2300 + more - 1}"
    assert searched(call, {**END_WALL, **fitting}).code == 4


def test_a_solid_in_the_way_of_folding_up_is_no_end_wall(call: Call) -> None:
    """A cupboard under the ceiling begins 2300 mm behind the beam, the end wall 3000 mm."""
    solid = (
        '[[solids]]\nname = "cupboard"\nx_mm = [0, 700]\ny_mm = [0, 3000]\nz_mm = [1500, 2390]\n\n'
    )
    told = hopeless(
        call,
        {
            f"length_mm = {LENGTH_MM}": "length_mm = 6500",
            "fold_up = false": "fold_up = true",
            "fall_space_mm = 1000": "fall_space_mm = 3000",
            "[yard]": f"{solid}[yard]",
        },
    )
    assert re.search(r"solids in the way of folding up binds: [\d.]+ mm short", told), told
    assert "end wall" not in told


def test_a_board_that_no_tolerance_lets_fold_is_told_of_the_end_wall(call: Call) -> None:
    """With measures 10 mm wrong each way the board and the wall each may be off by that much."""
    told = hopeless(
        call,
        {
            f"x_mm = {X_MM}": "x_mm = 2300",
            "fold_up = false": "fold_up = true\ntolerance_mm = 10",
            "fall_space_mm = 1000": "fall_space_mm = 2900",
        },
    )
    found = re.search(r"the room's end wall in the way of folding up binds: ([\d.]+) mm", told)
    assert found, told
    assert float(found[1]) >= least_room_to_fold_mm(2900, 2300, LENGTH_MM) - 2300 + 20 - 0.1
