"""A search that is killed at random moments and taken up again; and one that runs out of time."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path

import jsonschema

from kills import Killer, same_bytes
from steepwright.optimise.journal import NAME
from steepwright.resources import catalogs_dir

KILLS = 20


def finer(room: str) -> str:
    """Return the small room with shorter steps and few choices: dozens of parts, each quick."""
    text = room.replace("step_mm = 50", "step_mm = 5").replace("[2450, 2600]", "[2300, 2700]")
    few = "max_rows = 1\nfold_up = false\nmin_thickness_mm = 18"
    return text.replace("[300, 400]", "[300, 450]").replace("max_rows = 2", few)


def test_a_search_killed_twenty_times_writes_the_same_bytes(
    tmp_path: Path, small_room: str
) -> None:
    room = tmp_path / "mine.toml"
    room.write_text(finer(small_room), encoding="utf-8")
    args = (str(room), "--no-changes", "--workers", "2")
    Killer(args, tmp_path / "whole", random.Random()).finish()
    killer = Killer(args, tmp_path / "again", random.Random(20))
    killer.kill(KILLS)
    said = killer.finish()
    assert "taking up a search" in said
    assert "is damaged" in said
    assert same_bytes(tmp_path / "whole", tmp_path / "again") == []


def test_what_is_found_in_time_is_written_and_marked(
    tmp_path: Path, small_room: str, call: Callable[..., object]
) -> None:
    room = tmp_path / "mine.toml"
    room.write_text(finer(small_room), encoding="utf-8")
    search = ("search", str(room), "--workers", "1", "--no-changes", "--out", "a")
    limit_s, said = 0.25, None
    while said is None or said.code == 130:
        # On a busy machine nothing may be found yet; then the command says so and ends with 130.
        said = call(*search, "--time-limit", f"{limit_s}")
        assert said.code in (0, 130), said.err
        limit_s *= 1.5
    assert "The time is up" in said.err
    assert "How far the search got" in said.out
    folder = Path("a")
    document = json.loads((folder / "designs.json").read_text(encoding="utf-8"))
    schema = json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator(schema).validate(document)
    assert (document["complete"], document["stopped"]) == (False, "time limit")
    assert [row["angle_deg"] for row in document["angles"]] == list(range(25, 46))
    assert not all(row["settled"] for row in document["angles"])
    assert "stopped before it was done" in (folder / "report.html").read_text(encoding="utf-8")
    assert (folder / NAME).exists()
    said = call(*search)
    assert said.code == 0
    assert "taking up a search" in said.err
    assert json.loads((folder / "designs.json").read_text(encoding="utf-8"))["complete"]
    assert not (folder / NAME).exists()
