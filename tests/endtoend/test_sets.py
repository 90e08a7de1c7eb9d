"""A search's files belong together: killed anywhere, all are the old ones or all the new ones."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from steepwright.report import write_outputs
from steepwright.report.finished import read_document
from steepwright.verify import verify_folder
from steepwright.writing import READY, finish_writing, write_together

FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")

KILLED_AT = """
import os, sys
from pathlib import Path
from steepwright.writing import write_together
texts = {Path("answer") / name: f"new {name}" for name in sys.argv[1:]} | {Path("answer/old"): None}
step, status = 0, 9
while status:
    step += 1
    os.makedirs(f"{step}/answer")
    for name in (*sys.argv[1:], "old"):
        open(f"{step}/answer/{name}", "w").write(f"old {name}")
    child = os.fork()
    if not child:
        os.chdir(f"{step}")
        left = step
        def count(event, args):
            global left
            if event.split(".")[0] in ("open", "os", "tempfile", "shutil", "fcntl"):
                left -= 1
                if not left:
                    os.kill(os.getpid(), 9)
        sys.addaudithook(count)
        write_together(texts)
        os._exit(0)
    status = os.waitpid(child, 0)[1]
"""


def listing(folder: Path) -> dict[str, str]:
    """Return a folder's files but for hidden ones, which no command reads."""
    return {p.name: p.read_text() for p in folder.iterdir() if p.is_file()}


def test_a_kill_between_any_two_steps_leaves_one_set(tmp_path: Path) -> None:
    # For every n the program kills itself at the n-th thing that it does with files.
    subprocess.run([sys.executable, "-c", KILLED_AT, *FILES], cwd=tmp_path, check=True)
    old = {name: f"old {name}" for name in (*FILES, "old")}
    new = {name: f"new {name}" for name in FILES}
    states, mixed = [], 0
    for step in sorted(tmp_path.iterdir(), key=lambda path: int(path.name)):
        folder = step / "answer"
        mixed += listing(folder) not in (old, new)
        finish_writing(folder)
        assert listing(folder) in (old, new), step
        assert not (folder / READY).exists()
        states.append(listing(folder) == new)
    assert states == sorted(states)
    assert mixed >= len(FILES), "no kill fell between the moves: this tests nothing"
    assert sum(not state for state in states) > 10
    write_together({folder / name: "newer" for name in FILES})
    assert sorted(p.name for p in folder.iterdir()) == sorted(FILES)


def test_what_a_killed_program_began_is_taken_away(tmp_path: Path) -> None:
    left = tmp_path / ".steepwright-begun-x"
    left.mkdir()
    (left / "+a").write_text("half")
    write_together({tmp_path / "a": "whole"})
    assert [p.name for p in tmp_path.iterdir()] == ["a"]


@pytest.fixture
def answer(tmp_path: Path, small_room: str, call: Callable[..., Any]) -> Path:
    """Search the small room; return its folder."""
    room = tmp_path / "mine.toml"
    room.write_text(small_room, encoding="utf-8")
    folder = tmp_path / "answer"
    said = call("search", str(room), "--out", str(folder), "--no-changes", "--workers", "1")
    assert said.code == 0
    return folder


def half_moved(folder: Path, document: dict[str, Any], moved: int) -> None:
    """Leave a folder as a kill does behind so many moves of a new set without certificate."""
    old = {p.name: p.read_bytes() for p in folder.iterdir()}
    write_outputs(document, folder)
    new = {p.name: p.read_bytes() for p in folder.iterdir()}
    names = sorted(FILES)
    ready = folder / READY
    ready.mkdir()
    for name in names[moved:]:
        if name in new:
            (ready / f"+{name}").write_bytes(new[name])
        else:
            (ready / f"-{name}").touch()
        (folder / name).write_bytes(old[name])


@pytest.mark.parametrize("moved", range(4))
def test_readers_see_the_new_set_only(answer: Path, moved: int) -> None:
    document = read_document(answer)
    verdict = verify_folder(answer)
    assert verdict.holds
    document["designs"] = document["designs"][:1]
    half_moved(answer, document, moved)
    assert (answer / READY).exists()
    assert len(read_document(answer)["designs"]) == 1
    assert sorted(p.name for p in answer.iterdir()) == sorted(FILES[1:])
    assert len((answer / "designs.csv").read_text(encoding="utf-8").splitlines()) == 2


def test_verify_finishes_a_set_by_itself(answer: Path, tmp_path: Path) -> None:
    old = {name: (answer / name).read_bytes() for name in FILES}
    document = json.loads(old["designs.json"])
    document["designs"] = document["designs"][:1]
    write_outputs(document, answer)
    ready = answer / READY
    ready.mkdir()
    for name in FILES[:-1]:
        (ready / f"+{name}").write_bytes(old[name])
    (answer / FILES[-1]).write_bytes(old[FILES[-1]])
    assert verify_folder(answer).holds
    assert {name: (answer / name).read_bytes() for name in FILES} == old


def test_a_certificate_stays_with_its_document_alone(answer: Path) -> None:
    document = read_document(answer)
    write_outputs(document, answer)
    assert (answer / "certificate.json").exists()
    write_outputs(document | {"designs": document["designs"][1:]}, answer)
    assert not (answer / "certificate.json").exists()
