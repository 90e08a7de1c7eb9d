"""Full disks, kills, wrong clocks, two at once: old files stay whole or the new are complete."""

from __future__ import annotations

import datetime as dt
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from steepwright.optimise.branch import Tally
from steepwright.optimise.journal import Journal
from steepwright.optimise.units import Harvest
from steepwright.resources import write_together

FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")
LIST = "Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n1;OSB/3 22 mm 2500x1250;31,25\n"


def child(code: str, *args: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code, *args], cwd=folder, capture_output=True, text=True, check=False
    )


def limited(largest_file: int) -> str:
    """Return a program that is a command line in which no file may be larger than that [bytes].

    The system then fails a write as it does on a full disk: with an error that names no file.
    """
    return (
        "import resource, sys; from steepwright.cli.console import run;"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({largest_file},) * 2);"
        "sys.exit(run(sys.argv[1:]))"
    )


def listing(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*.*")}


def test_a_full_disk_leaves_the_old_answer(tmp_path: Path, small_room: str) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    out = tmp_path / "answer"
    write_together({out / name: f"old {name}" for name in FILES})
    before = listing(out)
    args = ("search", "mine.toml", "--out", "answer", "--no-changes", "--workers", "1", "--quiet")
    done = child(limited(60_000), *args, folder=tmp_path)  # the table still fits, the page doesn't
    assert done.returncode == 2
    assert "answer/" in done.stderr
    assert "Check the name, the rights and the disk" in done.stderr
    assert "Traceback" not in done.stderr
    after = listing(out)
    assert {name: after[name] for name in before} == before
    assert set(after) - set(before) <= {"search.journal"}


def test_a_full_disk_leaves_the_old_catalogue(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    args = ("prices", "list.csv", "--out", "yard", "--fill-from", "shipped")
    assert child(limited(10**9), *args, folder=tmp_path).returncode == 0
    before = listing(tmp_path)
    done = child(limited(700), *args, folder=tmp_path)
    assert done.returncode == 2, done.stderr
    assert "Traceback" not in done.stderr
    assert "mistake in steepwright" not in done.stderr
    assert listing(tmp_path) == before


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full")
def test_a_result_that_can_not_be_printed_is_told(tmp_path: Path) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "steepwright", "explain", "room-unknown-key"],
            stdout=full, stderr=subprocess.PIPE, text=True, check=False, cwd=tmp_path,
        )  # fmt: skip
    assert done.returncode == 2
    assert "can't be written" in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_files_written_together_are_all_new_or_all_old(tmp_path: Path) -> None:
    paths = [tmp_path / "a", tmp_path / "deep" / "b"]
    write_together(dict.fromkeys(paths, "old"))
    with pytest.raises(UnicodeEncodeError):
        write_together({paths[0]: "new", paths[1]: "half a character: \ud800"})
    assert [path.read_text() for path in paths] == ["old", "old"]
    assert sum(path.is_file() for path in tmp_path.rglob("*")) == 2


def test_a_kill_while_writing_leaves_whole_files(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from steepwright.resources import write_together\n"
        "while True:\n"
        "    for text in ('a' * 300_000, 'b' * 300_000):\n"
        "        write_together({Path(name): text for name in 'xy'})\n"
    )
    for turn in range(5):
        process = subprocess.Popen([sys.executable, "-c", code], cwd=tmp_path)
        until = time.monotonic() + 60
        while not (tmp_path / "y").exists() and time.monotonic() < until:
            time.sleep(0.01)
        time.sleep(0.013 * turn)
        process.send_signal(signal.SIGKILL)
        process.wait()
        for name in "xy":
            text = (tmp_path / name).read_text(encoding="utf-8")
            assert text in ("a" * 300_000, "b" * 300_000)


def test_two_searches_in_one_folder_both_end_well(tmp_path: Path, small_room: str) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    args = [sys.executable, "-m", "steepwright", "search", "mine.toml", "--no-changes", "--quiet"]
    one = [*args, "--workers", "1", "--out"]
    subprocess.run([*one, "alone"], cwd=tmp_path, check=True, stdout=subprocess.DEVNULL)
    both = [
        subprocess.Popen([*one, "shared"], cwd=tmp_path, stdout=subprocess.DEVNULL)
        for _ in range(2)
    ]
    assert [process.wait() for process in both] == [0, 0]
    assert listing(tmp_path / "shared") == listing(tmp_path / "alone")


def test_lines_of_another_search_are_not_believed(tmp_path: Path) -> None:
    # Two searches at once in one folder may leave one's lines behind the other's head.
    path, told = tmp_path / "search.journal", list[str]()
    harvest = Harvest((), frozenset(), Tally(1, 2, 3))
    first = Journal(path, "one", told.append)
    first.add(0, 0, harvest)
    first.close()
    line = path.read_bytes().splitlines(keepends=True)[1]
    second = Journal(path, "two", told.append)
    second.add(0, 1, harvest)
    second.close()
    with path.open("ab") as stream:
        stream.write(line)
    assert set(Journal(path, "two", told.append).harvests(0)) == {1}
    assert "line 3 is damaged" in told[-2]


@pytest.mark.parametrize("seconds", [4e9, 3e11, 1e13])
def test_a_list_from_the_future_is_of_today(tmp_path: Path, seconds: float) -> None:
    path = tmp_path / "list.csv"
    path.write_text(LIST, encoding="utf-8")
    try:
        os.utime(path, (seconds, seconds))
    except OverflowError:  # this file system has no such year
        return
    done = child(limited(10**9), "prices", "list.csv", "--json", folder=tmp_path)
    assert done.returncode in (0, 3), done.stderr
    assert f"its file is of {dt.date.today()}" in done.stdout
