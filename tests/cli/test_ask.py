"""The guided session: every answer by flag, wrong answers asked again, nothing written early."""

from __future__ import annotations

import io
from pathlib import Path

import click
import pytest

from steepwright.cli.console import run
from steepwright.cli.loading import read_both
from steepwright.room import read_room
from steepwright.room.design_file import read_design
from steepwright.room.questions import HUNG, questions
from steepwright.room.sketches import SKETCHES

ANSWERS = {
    "beams": "1",
    "joists": "0",
    "slabs": "0",
    "frames": "0",
    "room.units": "mm",
    "room.name": "Den",
    "room.code": "en 1995",
    "room.service_class": "1",
    "room.length_mm": "5200",
    "room.width_mm": "3000",
    "room.ceiling_mm": "2600",
    "beams.1.name": "middle",
    "beams.1.x_mm": "2900",
    "beams.1.underside_mm": "2430, 2410",
    "beams.1.width_mm": "140",
    "beams.1.depth_mm": "220",
    "beams.1.span_mm": "3200",
    "beams.1.grade": "C24",
    "beams.1.existing_load_n_per_m": "",
    "climber.mass_kg": "70.5",
    "climber.span_mm": "1700",
    "wall.angle_deg": "30 45",
    "wall.kicker_mm": "[150, 400]",
    "wall.width_mm": "1200 x 1800",
    "wall.fold_up": "no",
    "wall.min_fall_space_mm": "1500",
    "access.max_piece_mm": "",
    "access.carriers": "3",
    "access.doors.1.width_mm": "830",
    "access.doors.1.height_mm": "2000",
    "access.stairs.1.width_mm": "850",
    "access.stairs.1.headroom_mm": "1980",
    "access.stairs.1.rise_mm": "185",
    "access.stairs.1.going_mm": "250",
    "access.stairs.1.height_below_mm": "2400",
    "access.stairs.1.height_above_mm": "2500",
    "yard.vehicle_max_mm": "2600 1300",
}


JOISTS = {
    "joists": "1",
    "joists.1.name": "above",
    "joists.1.first_mm": "400",
    "joists.1.spacing_mm": "600",
    "joists.1.count": "8",
    "joists.1.width_mm": "60",
    "joists.1.depth_mm": "200",
    "joists.1.span_mm": "3100",
    "joists.1.grade": "C24",
    "joists.1.existing_load_n_per_m": "600",
    "joists.1.lining_mm": "12",
    "joists.1.found": "yes",
}
SLAB = {
    "slabs": "1",
    "slabs.1.name": "ceiling",
    "slabs.1.first_mm": "1500",
    "slabs.1.spacing_mm": "500",
    "slabs.1.count": "3",
    "slabs.1.thickness_mm": "160",
    "slabs.1.anchor_rated_n": "6000",
    "slabs.1.anchor_least_mm": "",
}
FRAME = {
    "frames": "1",
    "frames.1.name": "trestle",
    "frames.1.first_mm": "2600",
    "frames.1.spacing_mm": "250",
    "frames.1.count": "2",
    "frames.1.underside_mm": "2350",
    "frames.1.width_mm": "80",
    "frames.1.depth_mm": "200",
    "frames.1.span_mm": "2600",
    "frames.1.grade": "C24",
    "frames.1.post_mm": "100 100",
    "frames.1.brace_mm": "60, 100",
    "frames.1.brace_up_mm": "1200",
    "frames.1.foot_mm": "900",
    "frames.1.floor_rated_n": "4000",
    "frames.1.owned": "no",
}


def flags(answers: dict[str, str]) -> list[str]:
    return [word for key, value in answers.items() for word in ("--answer", f"{key}={value}")]


def typed(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def test_with_every_answer_given_nothing_is_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch)
    folder = tmp_path / "den"
    assert run(["new", str(folder), "--ask", *flags(ANSWERS)]) == 0, capsys.readouterr().err
    room = read_room(folder / "room.toml")
    assert (room.name, room.length_mm, room.width_mm, room.ceiling_mm) == ("Den", 5200, 3000, 2600)
    (beam,) = room.beams
    assert (beam.x_mm, beam.underside_mm, beam.grade) == (2900, (2430, 2410), "C24")
    assert beam.existing_load_n_per_m is None
    assert (room.climber.mass_kg, room.climber.span_mm) == (70.5, 1700)
    assert (room.wall.kicker_mm, room.wall.width_mm) == ((150, 400), (1200, 1800))
    assert not room.wall.fold_up
    assert (room.access.max_piece_mm, room.access.carriers) == (None, 3)
    assert [(d.width_mm, d.height_mm) for d in room.access.doors] == [(830, 2000)]
    assert room.yard.vehicle_max_mm == (2600, 1300)
    assert (folder / room.yard.catalog / "sheets.csv").is_file()
    assert [(s.rise_mm, s.going_mm) for s in room.access.stairs] == [(185, 250)]
    assert (room.code, room.units, room.service_class) == ("EN 1995", "mm", 1)
    asked, catalog = read_both(folder / "room.toml", None)
    design = read_design(folder / "wall.toml", asked, catalog)
    told = {"angle_deg": 30, "kicker_mm": 150, "width_mm": 1200, "beam": "middle", "rows": 2}
    assert design == told


def test_a_room_without_a_beam_hangs_from_what_else_there_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    plain = {key: value for key, value in ANSWERS.items() if not key.startswith("beams")}
    typed(monkeypatch)
    given = plain | {"beams": "0"} | JOISTS | SLAB | FRAME
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(given)]) == 0, capsys.readouterr().err
    room = read_room(tmp_path / "den" / "room.toml")
    kinds = [beam.kind for beam in room.beams]
    assert kinds == ["joist"] * 8 + ["slab"] * 3 + ["frame"] * 2
    joist, slab, frame = (room.beams[kinds.index(kind)] for kind in ("joist", "slab", "frame"))
    assert (joist.name, joist.x_mm, joist.lining_mm, joist.found) == ("above 1", 400, 12, True)
    assert joist.existing_load_n_per_m == 600
    assert (slab.x_mm, slab.depth_mm, slab.anchor_rated_n) == (1500, 160, 6000)
    assert slab.anchor_least_mm is None
    assert frame.stand is not None
    assert (frame.underside_mm[0], frame.stand.post_mm, frame.stand.brace_mm) == (
        2350,
        (100, 100),
        (60, 100),
    )


@pytest.mark.parametrize(
    ("table", "answers", "wrong"),
    [
        ("joists", JOISTS, ("joists.1.count", "80", "8")),
        ("slabs", SLAB, ("slabs.1.first_mm", "5300", "1500")),
        ("frames", FRAME, ("frames.1.span_mm", "9000", "2600")),
    ],
)
def test_what_else_a_wall_hangs_from_is_asked_with_a_sketch(
    table: str,
    answers: dict[str, str],
    wrong: tuple[str, str, str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What goes beyond the room is told and asked again, once the table is whole."""
    key, bad, good = wrong
    given = {k: v for k, v in ANSWERS.items() if k.split(".")[0] not in HUNG}
    words = {question.words: question.name for question in questions({table: 1})}
    replies = {name: [answers[name]] for name in words.values() if name in answers}
    if table != "frames":  # where a row begins, and how long it is, are asked again together
        replies |= {
            f"{table}.1.{k}": [answers[f"{table}.1.{k}"]] * 2 for k in ("first_mm", "count")
        }
    replies[key] = [bad, good]
    counts = ["0"] * len(HUNG) + ["1" if name == table else "0" for name in HUNG]

    def prompt(text: str, **_: object) -> str:
        _, found, rest = text.partition("1. ")
        return replies[words[rest]].pop(0) if found else counts.pop(0)

    monkeypatch.setattr(click, "prompt", prompt)
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(given)]) == 0
    said = capsys.readouterr().err
    assert "needs something to hang from" in said
    assert SKETCHES[table].splitlines()[2] in said
    assert key.partition(".")[0] in said.split(SKETCHES[table])[1]
    assert not any(replies.values())
    assert read_room(tmp_path / "den" / "room.toml").beams


def test_the_session_asks_for_the_rest_with_a_sketch(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    rest = {key: value for key, value in ANSWERS.items() if not key.startswith("climber")}
    typed(monkeypatch, "", "1650")
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(rest)]) == 0
    said = capsys.readouterr().err
    assert SKETCHES["climber"].splitlines()[2] in said
    assert SKETCHES["beams"].splitlines()[2] not in said
    room = read_room(tmp_path / "den" / "room.toml")
    assert (room.climber.mass_kg, room.climber.span_mm) == (80, 1650)


def test_what_can_not_be_is_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    rest = {k: v for k, v in ANSWERS.items() if k not in ("room.length_mm", "beams.1.x_mm")}
    typed(monkeypatch, "5,2 m", "52", "5200", "5190", "2900")
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(rest)]) == 0
    said = capsys.readouterr().err
    assert said.count("That can't be") == 2  # not a number, too small
    assert "lies outside the room" in said  # 5190, with its half width, is beyond 5200
    room = read_room(tmp_path / "den" / "room.toml")
    assert (room.length_mm, room.beams[0].x_mm) == (5200, 2900)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"room.length_mm": "abc"}, "room.length_mm=abc"),
        ({"beams.1.x_mm": "9000"}, "beams.1.x_mm=9000"),
        ({"beams": "0"}, "something to hang from"),
        ({"beams": "13"}, "from 0 to 12"),
        ({"frames": "none"}, "from 0 to 4"),
        ({"joist": "1"}, "Did you mean 'joists'"),
        ({"room.lenght_mm": "5200"}, "Did you mean 'room.length_mm'"),
    ],
)
def test_a_wrong_flag_ends_in_a_usage_error(
    change: dict[str, str],
    word: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    typed(monkeypatch)
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(ANSWERS | change)]) == 2
    assert word in capsys.readouterr().err
    assert not (tmp_path / "den").exists()


@pytest.mark.parametrize("after", [0, 3, 20, 25])
def test_ctrl_c_writes_nothing(after: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    count = 0
    values = list(ANSWERS.values())

    def prompt(*_: object, **__: object) -> str:
        nonlocal count
        count += 1
        if count > after:
            raise click.Abort
        return values[count - 1]

    monkeypatch.setattr(click, "prompt", prompt)
    assert run(["new", str(tmp_path / "den"), "--ask"]) == 130
    assert not (tmp_path / "den").exists()


def test_input_that_ends_writes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    typed(monkeypatch, "1", "", "", "", "mm", "Den", "", "", "5200")
    assert run(["new", str(tmp_path / "den"), "--ask"]) == 130
    assert not (tmp_path / "den").exists()


def test_answers_want_the_session(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["new", str(tmp_path / "den"), "--answer", "beams=1"]) == 2
    assert "--ask" in capsys.readouterr().err


def test_who_measures_in_feet_and_inches_gets_a_room_of_the_nds_and_its_yard(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """1 ft is 304.8 mm: 4, 6, 9, 12 and 20 ft are 1219, 1829, 2743, 3658 and 6096 mm."""
    replies = [
        *("1", "0", "0", "0"),
        *("inch", "Garage", "", "2", "20", "20 ft", "12 ft", "9 ft"),
        *("ridge", "10 ft", "8 ft", "3 1/2 in", "9 1/4 in", "13 ft", "SPF No.2", ""),
        *("", "", "30 40", "8 in, 12 in", "no", "5 ft", "4 ft 6 ft"),
        *("4 ft x 8 ft", "8 ft 4 ft", "", "9 ft", "7 ft", "", "8 ft 2 in, 4 ft 2 in"),
    ]
    typed(monkeypatch, *replies)
    folder = tmp_path / "garage"
    code, said = run(["new", str(folder), "--ask"]), capsys.readouterr().err
    assert code == 0, said
    assert "too small; expected: a length from 3' 3 3/8\" (1000 mm) to" in said
    room, catalog = read_both(folder / "room.toml", None)
    assert (room.units, room.code, room.service_class) == ("inch", "NDS", 2)
    assert (room.length_mm, room.width_mm, room.ceiling_mm) == (6096, 3658, 2743)
    assert room.wall.width_mm == (1219, 1829)
    assert room.access.max_piece_mm == (2438, 1219)
    assert room.access.stairs == ()
    assert catalog.currency == "USD"
    assert {bar.strength_class for bar in catalog.timber} <= set(catalog.materials.nds_lumber)
    assert read_design(folder / "wall.toml", room, catalog)["beam"] == "ridge"
    assert said.count("longer side") >= 2  # the short side first is told and asked again
    assert "Height of one step" not in said  # no stairs, so no more of them


# A bare 1 of a lining 1 in thick would count as 1 mm, 170 of a climber of 170 lb as 170 kg.
def test_who_measures_in_inches_is_asked_in_them_and_for_the_unit_of_a_bare_number(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed_keys = ("joists.1.lining_mm", "joists.1.existing_load_n_per_m", "climber.mass_kg")
    given = {k: v for k, v in ANSWERS.items() if not k.startswith("beams")}
    given |= {"beams": "0", "room.units": "inch"} | JOISTS
    given = {k: v for k, v in given.items() if k not in typed_keys}
    typed(monkeypatch, "40", "40 lb/ft", "1", "1 in", "170", "170 lb")
    assert run(["new", str(tmp_path / "den"), "--ask", *flags(given)]) == 0
    said = capsys.readouterr().err
    assert said.count("does not say its unit") == 3
    assert "battens [feet and inches]" in said
    assert "[lb/ft of joist]" in said
    assert "climber [lb]" in said
    assert not any(unit in said for unit in ("[mm]", "[kg]", "[N per m"))
    room = read_room(tmp_path / "den" / "room.toml")
    assert room.beams[0].lining_mm == 25  # 25.4 mm, exact by definition (1959)
    assert room.climber.mass_kg == pytest.approx(77.1, abs=0.05)  # 170 x 0.45359237 kg
    assert room.beams[0].existing_load_n_per_m == pytest.approx(583.8, abs=0.05)  # 1 plf 14.5939


def test_no_length_is_offered_in_mm_to_who_measures_in_inches() -> None:
    asked = questions(dict.fromkeys(HUNG, 1), "inch")
    offered = {one.name: one.offered for one in asked if one.offered not in (None, "", "0")}
    lengths = {name: text for name, text in offered.items() if name.endswith("_mm")}
    assert lengths.keys() >= {"frames.1.spacing_mm", "climber.span_mm", "wall.width_mm"}
    assert all("ft" in text or "in" in text for text in lengths.values())


def test_every_question_has_a_flag_words_and_a_sketch() -> None:
    asked = questions(dict.fromkeys(HUNG, 1))
    answers = set(ANSWERS) | set(JOISTS) | set(SLAB) | set(FRAME)
    assert {question.name for question in asked} | set(HUNG) == answers
    for question in asked:
        assert question.words
        assert question.table in SKETCHES
