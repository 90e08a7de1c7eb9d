"""A search with a tolerance, and the independent check of its certificate."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema

from steepwright.resources import catalogs_dir


def test_a_tolerance_is_told_and_its_certificate_holds(
    call: Callable[..., Any], small_room: str
) -> None:
    Path("room.toml").write_text(small_room, encoding="utf-8")
    quietly = ("--quiet", "--no-changes")
    assert call("search", "room.toml", "--out", "sure", "--tolerance", "5", *quietly).code == 0
    document = json.loads(Path("sure/designs.json").read_text(encoding="utf-8"))
    schema = json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text())
    jsonschema.validate(document, schema)
    assert document["room"]["wall"]["tolerance_mm"] == 5
    for design in document["designs"]:
        least, most = design["angle_range_deg"]
        assert least < design["angle_deg"] < most
    assert call("verify", "sure", "--strict").code == 0
