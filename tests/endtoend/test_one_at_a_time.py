"""Two searches into one folder: the second is refused, unless the first is gone."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from steepwright.errors import UsageError
from steepwright.optimise.branch import Tally
from steepwright.optimise.journal import NAME, Journal
from steepwright.optimise.units import Harvest

PATIENCE_S = 600.0
SEARCH = (sys.executable, "-m", "steepwright", "search", "mine.toml", "--no-changes", "--quiet")


def listing(folder: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in folder.iterdir()}


def finished(folder: Path, *args: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*SEARCH, *args], cwd=folder, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory, small_room: str) -> dict[str, bytes]:
    """What the search writes when nothing disturbs it, whatever the number of workers."""
    folder = tmp_path_factory.mktemp("alone")
    (folder / "mine.toml").write_text(small_room, encoding="utf-8")
    assert finished(folder, "--out", "alone", "--workers", "1").returncode == 0
    return listing(folder / "alone")


@contextmanager
def halted(folder: Path, out: str, workers: int) -> Iterator[subprocess.Popen[bytes]]:
    """Give a search that stands still in the middle of its work, with what it asked for."""
    args = [*SEARCH, "--out", out, "--workers", str(workers)]
    first = subprocess.Popen(args, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    journal, until = folder / out / NAME, time.monotonic() + PATIENCE_S
    try:
        while not journal.exists() or journal.read_bytes().count(b"\n") < 2:
            assert first.poll() is None
            assert time.monotonic() < until
            time.sleep(0.002)
        first.send_signal(signal.SIGSTOP)
        yield first
    finally:
        first.send_signal(signal.SIGCONT)
        first.wait()


def test_a_second_search_into_a_folder_is_refused_and_harms_nothing(
    tmp_path: Path, small_room: str, alone: dict[str, bytes]
) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    with halted(tmp_path, "shared", 1) as first:
        before = listing(tmp_path / "shared")
        for asked in ((), ("--tolerance", "5")):  # the same search, and another one
            second = finished(tmp_path, "--out", "shared", "--workers", "1", *asked)
            assert second.returncode == 2
            assert second.stdout == ""
            assert f"process {first.pid} is searching into this folder" in second.stderr
            assert "--out" in second.stderr
            assert listing(tmp_path / "shared") == before
    assert first.returncode == 0
    assert listing(tmp_path / "shared") == alone


def test_a_killed_search_holds_nothing_though_its_workers_live_on(
    tmp_path: Path, small_room: str, alone: dict[str, bytes]
) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    with halted(tmp_path, "shared", 2) as first:
        first.kill()
        first.wait()
        Journal(tmp_path / "shared" / NAME, "of another search", lambda _: None).close()
    assert finished(tmp_path, "--out", "shared", "--workers", "2").returncode == 0
    assert listing(tmp_path / "shared") == alone


def test_searches_begun_at_the_same_moment(
    tmp_path: Path, small_room: str, alone: dict[str, bytes]
) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    args = [*SEARCH, "--workers", "1", "--out"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    all_ = [subprocess.Popen([*args, "shared"], cwd=tmp_path, **quiet) for _ in range(3)]
    codes = [process.wait() for process in all_]
    assert 0 in codes
    assert set(codes) <= {0, 2}
    assert listing(tmp_path / "shared") == alone


def test_a_journal_is_one_searchs_also_within_one_program(tmp_path: Path) -> None:
    path, told = tmp_path / NAME, list[str]()
    first = Journal(path, "one", told.append)
    first.add(0, 0, Harvest((), Tally(1, 2, 3)))
    with pytest.raises(UsageError, match=f"process {os.getpid()} "):
        Journal(path, "one", told.append)
    first.close()
    second = Journal(path, "one", told.append)
    assert told == ["taking up a search of which 1 parts are done"]
    second.remove()
    assert not path.exists()


def test_a_journal_removed_while_another_search_opens_it_is_not_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other one may have opened the file just before: then it holds what is in no folder."""
    path, opened = tmp_path / NAME, os.open
    first = Journal(path, "one", lambda _: None)

    def just_before(*args: object) -> int:
        handle = opened(*args)  # type: ignore[arg-type]
        if path.exists() and not first._file.closed:
            first.remove()
        return handle

    monkeypatch.setattr(os, "open", just_before)
    second = Journal(path, "one", lambda _: None)
    second.add(0, 0, Harvest((), Tally(1, 2, 3)))
    second.close()
    assert path.read_bytes().count(b"\n") == 2
