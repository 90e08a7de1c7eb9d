"""A search that is killed at random moments and taken up again; and one that runs out of time."""

from __future__ import annotations

import json
import random
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import jsonschema
import psutil

from steepwright.optimise.journal import NAME
from steepwright.resources import catalogs_dir

FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")
KILLS = 20
PATIENCE_S = 120.0


def finer(room: str) -> str:
    """Return the small room with shorter steps and few choices: dozens of parts, each quick."""
    text = room.replace("step_mm = 50", "step_mm = 5").replace("[2450, 2600]", "[2300, 2700]")
    few = "max_rows = 1\nfold_up = false\nmin_thickness_mm = 18"
    return text.replace("[300, 400]", "[300, 450]").replace("max_rows = 2", few)


def command(room: Path, folder: str) -> list[str]:
    args = [sys.executable, "-m", "steepwright", "search", str(room), "--out", folder]
    return [*args, "--no-changes", "--workers", "2"]


def lines(journal: Path) -> int:
    return journal.read_bytes().count(b"\n") if journal.exists() else 0


def killed(args: list[str], folder: Path, journal: Path, draw: random.Random) -> bool:
    """Start a search, kill it and its workers some time after a new line; False if it ended."""
    before = max(lines(journal), 2)  # a head and a part, so that the next may be damaged
    with subprocess.Popen(
        args, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as process:
        until = time.monotonic() + PATIENCE_S
        while lines(journal) <= before and process.poll() is None:
            assert time.monotonic() < until
            time.sleep(0.005)
        time.sleep(draw.choice((0.0, 0.0, draw.random() / 4)))
        alive = process.poll() is None
        workers = psutil.Process(process.pid).children() if alive else []
        process.kill()
    _, left = psutil.wait_procs(workers, PATIENCE_S)
    assert not left, "workers outlive the search that they work for"
    return alive


def test_a_search_killed_twenty_times_writes_the_same_bytes(
    tmp_path: Path, small_room: str
) -> None:
    room = tmp_path / "mine.toml"
    room.write_text(finer(small_room), encoding="utf-8")
    subprocess.run(command(room, "whole"), cwd=tmp_path, check=True, capture_output=True)
    journal, draw, kills = tmp_path / "again" / NAME, random.Random(20), 0
    while kills < KILLS:
        if not killed(command(room, "again"), tmp_path, journal, draw):
            # Done before its time: begin anew, so that there are twenty kills.
            journal.unlink(missing_ok=True)
            continue
        kills += 1
        if kills % 5 == 0:
            journal.write_bytes(journal.read_bytes()[: -draw.randrange(1, 40)])
    done = subprocess.run(
        command(room, "again"), cwd=tmp_path, check=True, capture_output=True, encoding="utf-8"
    )
    assert "taking up a search" in done.stderr
    assert "is damaged" in done.stderr
    assert not journal.exists()
    for name in FILES:
        whole, again = (tmp_path / folder / name for folder in ("whole", "again"))
        assert whole.read_bytes() == again.read_bytes(), name


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
