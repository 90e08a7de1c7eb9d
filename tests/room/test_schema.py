"""The shipped JSON Schema is fresh, and agrees with the reader on what is right and wrong."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import jsonschema
import pytest

from steepwright.resources import catalogs_dir
from steepwright.room import read_room
from steepwright.room.schema import room_json_schema

SHIPPED = catalogs_dir() / "schemas" / "room.schema.json"
EXAMPLE = catalogs_dir() / "example" / "room.toml"


@pytest.fixture
def example() -> dict[str, Any]:
    return tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def validator() -> jsonschema.Draft202012Validator:
    schema = json.loads(SHIPPED.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_the_shipped_schema_is_fresh() -> None:
    assert SHIPPED.read_text(encoding="utf-8") == room_json_schema()


def test_the_example_is_valid_for_the_schema_and_the_reader(
    validator: jsonschema.Draft202012Validator, example: dict[str, Any]
) -> None:
    assert list(validator.iter_errors(example)) == []
    room = read_room(EXAMPLE)
    assert len(room.beams) == 5
    assert [beam.grade for beam in room.beams].count(None) == 1
    assert any(left != right for left, right in (beam.underside_mm for beam in room.beams))


@pytest.mark.parametrize(
    ("table", "key", "value"),
    [
        ("room", "lenght_mm", 1),
        ("room", "length_mm", 10**9),
        ("room", "length_mm", "6400"),
        ("wall", "angle_deg", [20]),
        ("wall", "angle_deg", [20, 71]),
        ("wall", "fold_up", "yes"),
        ("wall", "align", "center"),
        ("climber", "mass_kg", -1),
        ("yard", "cut_price", -1),
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(
    validator: jsonschema.Draft202012Validator,
    example: dict[str, Any],
    table: str,
    key: str,
    value: object,
) -> None:
    example[table][key] = value
    assert list(validator.iter_errors(example))


def test_every_key_is_described(validator: jsonschema.Draft202012Validator) -> None:
    tables = [*validator.schema["$defs"].values(), validator.schema]
    bare = [
        key
        for table in tables
        for key, about in table["properties"].items()
        if "description" not in about and "$ref" not in about
    ]
    assert bare == []
