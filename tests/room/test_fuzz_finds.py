"""Inputs that coverage-guided fuzzing (tests/fuzz) found to be told badly."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.room import read_room


@pytest.mark.parametrize("value", ["x" * 3000, "a\x1b[31m", "b\u202ec"])
def test_a_word_without_quotes_is_told_short_and_printable(tmp_path: Path, value: str) -> None:
    path = tmp_path / "room.toml"
    path.write_text(f"[room]\nname = {value}\n", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_room(path)
    text = str(caught.value)
    assert "room.toml:2" in text
    assert len(text) < 3000
    assert text.replace("\n", "").isprintable()


def test_a_finding_is_one_printable_sentence() -> None:
    told = Finding("a-code", "error", "odd\x00\n\x1b[2Jname", "fi\rle", 3, seen="\u2028").text()
    assert told == "fi?le:3: odd???[2Jname; seen: ? [a-code]"
