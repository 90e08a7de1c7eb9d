"""A file where a folder is wanted is refused before any work is done, and left as it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.cli.console import run

COMMANDS = [
    ["search", "room.toml"],
    ["batch", "room.toml"],
    ["sample", "room.toml"],
    ["refine", "answer", "--design", "W01"],
    ["prices", "list.csv"],
]


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command[0])
def test_a_file_is_no_folder_to_write_to(
    command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    there = tmp_path / "notes.txt"
    there.write_text("mine", encoding="utf-8")
    assert run([*command, "--out", str(there)]) == 2
    said = capsys.readouterr().err
    assert "--out" in said
    assert "is a file" in said
    assert there.read_text(encoding="utf-8") == "mine"
