"""A room file's text, read as the program reads it: the room, or the errors that are told."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.room import read_room
from steepwright.room.types import Room


def room_of(tmp_path: Path, text: str) -> Room:
    """Return the room that a file of this text describes."""
    (tmp_path / "room.toml").write_text(text, encoding="utf-8")
    return read_room(tmp_path / "room.toml")


def errors_of(tmp_path: Path, text: str) -> tuple[Finding, ...]:
    """Return the errors for which a file of this text is refused."""
    with pytest.raises(InputError) as failed:
        room_of(tmp_path, text)
    return tuple(f for f in failed.value.findings if f.severity == "error")
