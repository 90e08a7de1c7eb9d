"""Names in a room file that the catalogue does not know are told with their line."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.catalog import read_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.resources import catalogs_dir
from steepwright.room import check_with_catalog, read_room

EXAMPLE = (catalogs_dir() / "example" / "room.toml").read_text(encoding="utf-8")


def test_the_example_names_what_the_shipped_yard_has() -> None:
    check_with_catalog(read_room(catalogs_dir() / "example" / "room.toml"), read_catalog())


@pytest.mark.parametrize(
    ("row", "instead", "key", "words"),
    [
        ('grade = "C24"', 'grade = "C42"', "beams[1].grade", ("C42", "C24", "unknown")),
        ("fold_up = true", 'sheet_kinds = ["OSB/3",\n  "birk"]', "wall.sheet_kinds[2]",
         ("birk", "Did you mean birch?")),
        ('kind = "OSB/3"', 'kind = "OSB"', "yard.offcuts[2].kind", ("OSB/3",)),
        ("min_thickness_mm = 18", "min_thickness_mm = 55", "wall.min_thickness_mm", ("55",)),
        ('kind = "birch"\nthickness_mm = 18', 'kind = "birch"\nthickness_mm = 17',
         "yard.offcuts[1].thickness_mm", ("17", "9, 12, 15, 18")),
    ],
)  # fmt: skip
def test_an_unknown_name_is_told_with_its_line(
    tmp_path: Path, row: str, instead: str, key: str, words: tuple[str, ...]
) -> None:
    assert row in EXAMPLE
    text = EXAMPLE.replace(row, instead, 1)
    file = tmp_path / "room.toml"
    file.write_text(text, encoding="utf-8")
    room = read_room(file)
    with pytest.raises(InputError) as caught:
        check_with_catalog(room, read_catalog())
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert found.key == key
    assert instead.split("\n")[-1] in text.split("\n")[found.line - 1]
    assert all(word in found.text() for word in words)
