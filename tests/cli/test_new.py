"""A new folder runs as it is, and nothing that is there is ever overwritten."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.cli.console import run
from steepwright.cli.loading import read_both


def test_the_new_folder_reads_without_a_problem(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "my loft"
    assert run(["new", str(folder)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == f"Next: steepwright search '{folder / 'room.toml'}' --angle 40"
    written = sorted(path for path in folder.rglob("*") if path.is_file())
    assert sorted(Path(line) for line in lines[:-1]) == written
    room, catalog = read_both(folder / "room.toml", None)
    assert room.yard.catalog == "catalog"
    assert catalog.sheets
    assert catalog.timber


def test_its_own_catalogue_is_the_one_that_counts(tmp_path: Path) -> None:
    assert run(["new", str(tmp_path / "den")]) == 0
    sheets = tmp_path / "den" / "catalog" / "sheets.csv"
    rows = sheets.read_text(encoding="utf-8").splitlines(keepends=True)
    sheets.write_text("".join(rows[:-1]), encoding="utf-8")
    _, mine = read_both(tmp_path / "den" / "room.toml", None)
    _, shipped = read_both(tmp_path / "den" / "room.toml", Path(mine_is_shipped()))
    assert len(mine.sheets) == len(shipped.sheets) - 1


def mine_is_shipped() -> str:
    from steepwright.resources import shipped_catalog_dir

    return str(shipped_catalog_dir())


@pytest.mark.parametrize("taken", ["room.toml", "catalog/yard.toml"])
def test_nothing_is_overwritten(
    tmp_path: Path, taken: str, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "den" / taken
    mine.parent.mkdir(parents=True)
    mine.write_text("mine", encoding="utf-8")
    assert run(["new", str(tmp_path / "den")]) == 2
    assert str(mine) in capsys.readouterr().err
    assert [p.read_text() for p in tmp_path.rglob("*") if p.is_file()] == ["mine"]


def test_a_file_in_the_place_of_the_folder_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "den").write_text("mine", encoding="utf-8")
    assert run(["new", str(tmp_path / "den")]) == 2
    assert run(["new", str(tmp_path / "den" / "below")]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "Traceback" not in said.err
    assert (tmp_path / "den").read_text() == "mine"
