"""Whatever stands in a file, reading it ends in a room or in an `InputError`, nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.resources import catalogs_dir
from steepwright.room import read_room

EXAMPLE = (catalogs_dir() / "example" / "room.toml").read_text(encoding="utf-8")
PARTS = st.sampled_from(
    ["[", "]", "[[", "]]", "{", "}", "=", '"', '"""', "'", "#", "\n", ",", ".", "-", "nan", "inf",
     "1e999", "0x", "true", "[[beams]]", "[room]", "name = 1", "beams.x = 2", "\\u12", "9" * 30,
     "2024-01-01", "x_mm = 3,2", "\0", "\r", "\ufeff", "é"]
)  # fmt: skip
edit = st.tuples(st.integers(0, len(EXAMPLE)), st.integers(0, 40), PARTS | st.text(max_size=5))


def must_end_well(file: Path, content: bytes) -> None:
    file.write_bytes(content)
    try:
        read_room(file)
    except InputError as error:
        errors = [f for f in error.findings if isinstance(f, Finding) and f.severity == "error"]
        assert errors
        assert all(f.message and f.file == str(file) for f in errors)
        assert all("\n" not in f.text() for f in errors)


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("mangled") / "room.toml"


@settings(max_examples=100, deadline=None)
@given(st.lists(edit, min_size=1, max_size=6))
def test_mangled_text_ends_well(file: Path, edits: list[tuple[int, int, str]]) -> None:
    text = EXAMPLE
    for at, length, part in edits:
        text = text[:at] + part + text[at + length :]
    must_end_well(file, text.encode("utf-8", "surrogatepass"))


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_end_well(file: Path, content: bytes) -> None:
    must_end_well(file, content)


toml_values = st.recursive(
    st.sampled_from(["1", "-1", "2.5", "nan", "true", '"x"', "2024-01-01", "1_0", "1e5"]),
    lambda v: st.lists(v, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
    max_leaves=4,
)


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_any_value_for_any_key_ends_well(file: Path, data: st.DataObject) -> None:
    rows = EXAMPLE.split("\n")
    keys = [number for number, row in enumerate(rows) if " = " in row and not row.startswith("#")]
    for number in data.draw(st.lists(st.sampled_from(keys), min_size=1, max_size=4)):
        rows[number] = f"{rows[number].split(' = ')[0]} = {data.draw(toml_values)}"
    must_end_well(file, "\n".join(rows).encode())
