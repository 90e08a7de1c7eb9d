"""A design file gives what was written, and one clear message for every slip."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.catalog import Catalog, read_catalog
from steepwright.catalog.families import sheet_families, timber_sections
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.resources import catalogs_dir
from steepwright.room import Room, read_design, read_room

GOOD = """\
angle_deg = 35.5
kicker_mm = 250
width_mm = 1250
beam = "middle"
facing = "-x"
columns = 1
rows = 2
stud_count = 4
delivered = false
"""


@pytest.fixture(scope="module")
def room() -> Room:
    return read_room(catalogs_dir() / "example" / "room.toml")


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog()


def test_what_is_written_arrives_and_nothing_else(
    tmp_path: Path, room: Room, catalog: Catalog
) -> None:
    names = {
        "sheet": sheet_families(catalog)[-1].label,
        "stud": timber_sections(catalog)[0].label,
        "mount": catalog.mounts[0].name,
    }
    file = tmp_path / "wall.toml"
    file.write_text(GOOD + "".join(f'{k} = "{v}"\n' for k, v in names.items()), encoding="utf-8")
    assert read_design(file, room, catalog) == {
        "angle_deg": 35.5, "kicker_mm": 250, "width_mm": 1250, "beam": "middle", "facing": "-x",
        "columns": 1, "rows": 2, "stud_count": 4, "delivered": False, **names,
    }  # fmt: skip


def test_json_says_the_same(tmp_path: Path, room: Room, catalog: Catalog) -> None:
    file = tmp_path / "wall.json"
    file.write_text('{"board_mm": 2500, "kicker_mm": 0,\n "width_mm": 1200, "beam": "gable"}')
    wanted = {"board_mm": 2500, "kicker_mm": 0, "width_mm": 1200, "beam": "gable"}
    assert read_design(file, room, catalog) == wanted


SLIPS: list[tuple[str, str, str, int, tuple[str, ...]]] = [
    ("angle_deg = 35.5", "angle_deg = 35,5", "toml-decimal-comma", 1, ("35.5",)),
    ("angle_deg = 35.5", "angle_deg = 75", "design-out-of-range", 1, ("75", "from 0 to 70")),
    ("angle_deg = 35.5", "board_mm = 2500\nangle_deg = 35", "design-board-or-angle", 2, ("both",)),
    ("angle_deg = 35.5", "", "design-board-or-angle", 0, ("board_mm", "missing")),
    ("kicker_mm = 250", "kiker_mm = 250", "design-unknown-key", 2, ("kicker_mm",)),
    ("width_mm = 1250", "", "design-missing-key", 0, ("width_mm", "[mm]")),
    ('beam = "middle"', 'beam = "midle"', "design-unknown-name", 4, ("Did you mean middle?",)),
    ('facing = "-x"', 'facing = "left"', "design-not-a-choice", 5, ('"+x", "-x"',)),
    ("columns = 1", 'sheet = "OSB/3 8 mm"', "design-unknown-name", 6, ("OSB/3 18 mm",)),
    ("columns = 1", 'stud = "45 x 95"', "design-unknown-name", 6, ("C24",)),
    ("columns = 1", 'mount = "glue"', "design-unknown-name", 6, ("one of",)),
    ("stud_count = 4", "stud_count = 4.5", "design-not-whole", 8, ("4.5",)),
]


@pytest.mark.parametrize(("row", "instead", "code", "line", "words"), SLIPS)
def test_one_slip_gives_one_message(
    tmp_path: Path, room: Room, catalog: Catalog, row: str, instead: str, code: str, line: int,
    words: tuple[str, ...],
) -> None:  # fmt: skip
    file = tmp_path / "wall.toml"
    file.write_text(GOOD.replace(row + "\n", instead + "\n"), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_design(file, room, catalog)
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert (found.code, found.line) == (code, line)
    assert all(word in found.text() for word in words)


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ('{"beam": "gable",}', 1, "not JSON"),
        ('{"board_mm": 2500,\n "kicker_mm": 0\n "width_mm": 1}', 3, "not JSON"),
        ("[1, 2]", 1, "not a table"),
        ('{"board_mm": NaN, "kicker_mm": 0, "width_mm": 1200, "beam": "gable"}', 1, "finite"),
        ('{"board_mm": 2500, "kicker_mm": 0,\n "width_mm": "1", "beam": "gable"}', 2, "quotes"),
        ("[" * 20_000, 0, "not JSON"),
    ],
)
def test_slips_in_json_have_their_line(
    tmp_path: Path, room: Room, catalog: Catalog, text: str, line: int, words: str
) -> None:
    file = tmp_path / "wall.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_design(file, room, catalog)
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert found.line == line
    assert words in found.text()
