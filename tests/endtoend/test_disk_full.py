"""A disk that is really full: the old output stays as it was, and that is told."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

LIST = "Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n1;OSB/3 22 mm 2500x1250;31,25\n"
SIZE_KIB = 8_000


@contextmanager
def full_disk(at: Path, holding: Path, spare_kib: int) -> Iterator[Path]:
    """Mount a small disk, copy a folder to it and fill it up but for so much."""
    at.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", f"size={SIZE_KIB}k", "tmpfs", str(at)]
    if (
        not shutil.which("mount")
        or subprocess.run(mount, capture_output=True, check=False).returncode
    ):
        pytest.skip("no disk can be mounted here; test_faults.py limits the size of files instead")
    try:
        kept = Path(shutil.copytree(holding, at / "kept"))
        free = os.statvfs(at)
        (at / "filler").write_bytes(b"x" * (free.f_bavail * free.f_frsize - spare_kib * 1024))
        yield kept
    finally:
        subprocess.run(["umount", str(at)], check=True)


def steepwright(*args: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "steepwright", *args]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def listing(folder: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.suffix != ".journal"}


def told(done: subprocess.CompletedProcess[str], folder: Path) -> bool:
    """Tell whether a run ended with one line that names a file and what is wrong with it."""
    *_, last = done.stderr.splitlines()
    assert "Traceback" not in done.stderr
    where, _, what = last.partition(": ")
    known = "No space left on device. Check the name, the rights and the disk."
    return done.returncode == 2 and Path(where).parent in (folder, folder.parent) and what == known


def test_a_full_disk_leaves_the_old_answer(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    room, answer = tmp_path / "mine.toml", tmp_path / "answer"
    room.write_text(small_room, encoding="utf-8")
    args = ("search", str(room), "--no-changes", "--workers", "1", "--quiet", "--out")
    assert call(*args, str(answer)).code == 0
    new = listing(answer)
    name = json.loads(new["designs.json"])["designs"][0]["id"]
    old = new | {"report.html": b"old", "bill.csv": b"old", "cuts.csv": b"old"}
    for file, content in old.items():
        (answer / file).write_bytes(content)
    for number, spare_kib in enumerate((0, 1000, 3000)):
        with full_disk(tmp_path / f"disk{number}", answer, spare_kib) as folder:
            done = steepwright(*args, str(folder))
            if spare_kib < 3000:
                assert told(done, folder), done
                assert listing(folder) == old
            else:
                assert done.returncode == 0
                assert listing(folder) == old | new
            assert not [p for p in folder.iterdir() if p.name.startswith(".")]
    with full_disk(tmp_path / "disk", answer, 0) as folder:
        done = steepwright("sheets", str(folder), "--design", name, "--csv", str(folder))
        assert told(done, folder), done
        assert listing(folder) == old


@pytest.mark.parametrize("spare_kib", [0, 4, 16])
def test_a_full_disk_leaves_the_old_catalogue(tmp_path: Path, spare_kib: int) -> None:
    prices = tmp_path / "list.csv"
    prices.write_text(LIST, encoding="utf-8")
    args = ("prices", str(prices), "--fill-from", "shipped", "--out")
    assert steepwright(*args, str(tmp_path / "yard")).returncode == 0
    with full_disk(tmp_path / "disk", tmp_path / "yard", spare_kib) as folder:
        before = listing(folder)
        prices.write_text(LIST.replace("31,25", "41,25"), encoding="utf-8")
        done = steepwright(*args, str(folder))
        assert told(done, folder), done
        assert listing(folder) == before
        assert sorted(p.name for p in folder.parent.iterdir()) == ["filler", "kept"]
