"""From a search to its millimetres, and to walls sampled by a measure of one's own."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema

from steepwright.resources import catalogs_dir

OWN = """\
def cuts(design):
    return sum(len(sheet["cuts"]) for sheet in design["cut_plan"]["sheets"])
"""


def document_in(folder: str) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(Path(folder, "designs.json").read_text(encoding="utf-8"))
    schema = json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text())
    jsonschema.validate(document, schema)
    return document


def test_search_then_refine_then_sample(call: Callable[..., Any], small_room: str) -> None:
    Path("room.toml").write_text(small_room, encoding="utf-8")
    Path("mine.py").write_text(OWN, encoding="utf-8")
    assert call("search", "room.toml", "--out", "exact", "--quiet", "--no-changes").code == 0
    exact = document_in("exact")
    assert "changes" not in exact
    design = exact["designs"][0]

    refined = call("refine", "exact", "--design", design["id"], "--quiet")
    assert refined.code == 0
    fine = document_in(f"exact/refined-{design['id']}")
    assert (fine["method"], fine["complete"]) == ("exact", True)
    as_steep = [d["cost_cents"] for d in fine["designs"] if d["angle_deg"] >= design["angle_deg"]]
    assert min(as_steep) <= design["cost_cents"]

    own = ("--objective", "mine.py:cuts", "--trials", "60", "--quiet", "--out", "mine")
    sampled = call("sample", "room.toml", "--from", "exact", *own)
    assert sampled.code == 0
    assert "not certified" in sampled.out
    mine = document_in("mine")
    assert (mine["method"], mine["complete"]) == ("sampled", False)
    assert all(
        d["own_objective"] == sum(len(sheet["cuts"]) for sheet in d["cut_plan"]["sheets"])
        for d in mine["designs"]
    )
    assert "Not certified" in Path("mine/report.html").read_text(encoding="utf-8")


def test_what_cant_be_refined_or_sampled_is_told(call: Callable[..., Any], small_room: str) -> None:
    Path("room.toml").write_text(small_room, encoding="utf-8")
    assert call("refine", ".", "--design", "W01").code == 3
    said = call("sample", "room.toml", "--objective", "none.py:f")
    assert said.code == 2
    assert "no such file" in said.err
    said = call("sample", "room.toml", "--objective", "beauty")
    assert said.code == 2
    assert "there are climbable, moves, spans, start" in said.err
    said = call("sample", "room.toml", "--objective", "moves", "--maximise")
    assert said.code == 2
    assert "knows its direction" in said.err
    Path("mine.py").write_text(OWN, encoding="utf-8")
    said = call("sample", "room.toml", "--objective", "mine.py:other")
    assert said.code == 2
    assert "no function of this name" in said.err
