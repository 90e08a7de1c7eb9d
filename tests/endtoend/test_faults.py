"""Full disks, kills, wrong clocks, two at once: old files stay whole or the new are complete."""

from __future__ import annotations

import ctypes
import datetime as dt
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from steepwright.optimise.branch import Tally
from steepwright.optimise.journal import Journal
from steepwright.optimise.units import Harvest
from steepwright.writing import write_together

FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")
LIST = "Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n1;OSB/3 22 mm 2500x1250;31,25\n"


PLAIN = "import sys; from steepwright.cli.console import run; sys.exit(run(sys.argv[1:]))"


def child(code: str, *args: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code, *args], cwd=folder, capture_output=True, text=True, check=False
    )


def give_up_rights() -> None:
    """Take from root what lets it write and read against a folder's rights (capabilities(7))."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        for capability in (1, 2):  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH
            if libc.prctl(24, capability, 0, 0, 0):  # PR_CAPBSET_DROP
                raise OSError(ctypes.get_errno(), "root can't give up its rights here")


def like_anyone(*args: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a program of Python that the rights of files bind, also when the tests run as root."""
    return subprocess.run(
        [sys.executable, *args], cwd=folder, capture_output=True, text=True, check=False,
        preexec_fn=give_up_rights,
    )  # fmt: skip


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


@contextmanager
def sealed(folder: Path, names: tuple[str, ...]) -> Iterator[dict[str, bytes]]:
    """Make a folder of old files in which nothing may be written; proven by trying."""
    write_together({folder / name: f"old {name}" for name in names})
    folder.chmod(0o555)
    tried = like_anyone("-c", f"open('{folder}/new', 'w')", folder=folder.parent)
    assert "PermissionError" in tried.stderr, "the folder can be written: this tests nothing"
    yield listing(folder)
    folder.chmod(0o755)


@pytest.mark.parametrize("command", ["search", "prices", "new"])
def test_a_read_only_folder_is_told_and_keeps_the_old(
    command: str, tmp_path: Path, small_room: str
) -> None:
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    args, names = {
        "search": (["mine.toml", "--out", "old", "--no-changes", "--quiet"], FILES),
        "prices": (["list.csv", "--out", "old", "--fill-from", "shipped"], ("sheets.csv",)),
        "new": (["old/loft"], ("room.toml",)),
    }[command]
    with sealed(tmp_path / "old", names) as before:
        done = like_anyone("-c", PLAIN, command, *args, folder=tmp_path)
        assert listing(tmp_path / "old") == before
    assert done.returncode == 2, done.stderr
    assert "old" in done.stderr
    assert "Permission denied. Check the name, the rights and the disk." in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_a_room_that_may_not_be_read_is_told(tmp_path: Path, small_room: str) -> None:
    room = tmp_path / "mine.toml"
    room.write_text(small_room, encoding="utf-8")
    room.chmod(0)
    done = like_anyone("-c", PLAIN, "search", "mine.toml", folder=tmp_path)
    assert done.returncode in (2, 3), done.stderr
    assert "mine.toml" in done.stderr
    assert "not readable" in done.stderr
    assert "Traceback" not in done.stderr


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
        "import sys; from pathlib import Path; from steepwright.writing import write_together\n"
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


def test_a_kill_at_any_step_of_reading_prices_leaves_whole_files(tmp_path: Path) -> None:
    # The program kills itself at the n-th thing it does with files of the folder, for every n.
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    args = ("prices", "list.csv", "--out", "yard", "--fill-from", "shipped")
    assert child(PLAIN, *args, folder=tmp_path).returncode == 0
    old = visible(tmp_path / "yard")
    (tmp_path / "list.csv").write_text(LIST.replace("31,25", "41,25"), encoding="utf-8")
    assert child(PLAIN, *args, folder=tmp_path).returncode == 0
    new = visible(tmp_path / "yard")
    assert b"41.25" in new["sheets.csv"]
    ended, step = -signal.SIGKILL, 0
    while ended == -signal.SIGKILL:
        for name, text in old.items():
            (tmp_path / "yard" / name).write_bytes(text)
        assert visible(tmp_path / "yard") == old
        step += 1
        ended = child(KILLED_AT.format(step=step) + PLAIN, *args, folder=tmp_path).returncode
        after = visible(tmp_path / "yard")
        assert after in (old, new), step
    assert ended == 0
    assert after == new
    assert step > 20


KILLED_AT = """
import os, sys
left = {step}
def count(event, args):
    global left
    if event.split(".")[0] in ("open", "os", "tempfile") and "yard" in str(args):
        left -= 1
        if not left:
            os.kill(os.getpid(), 9)
sys.addaudithook(count)
"""


def visible(folder: Path) -> dict[str, bytes]:
    """Return a folder's files but for hidden ones, which no command reads."""
    return {name: text for name, text in listing(folder).items() if not name.startswith(".")}


COUNTED = """
import atexit, os, sys
left = {calls}
def count(frame, event, arg):
    global left
    left -= 1
    if not left:
        os.kill(os.getpid(), 9)
atexit.register(lambda: print("calls", {calls} - left, file=sys.stderr))
sys.setprofile(count)
"""


def test_a_kill_while_a_list_is_read_leaves_the_old_catalogue(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    args = ("--out", "yard", "--fill-from", "shipped")
    assert child(PLAIN, "prices", "list.csv", *args, folder=tmp_path).returncode == 0
    old = visible(tmp_path / "yard")
    rows = "".join(f"{n};OSB/3 22 mm 2500x{1000 + n};{n},25\n" for n in range(20, 120))
    (tmp_path / "long.csv").write_text(LIST + rows, encoding="utf-8")
    again = ("prices", "long.csv", "--out", "yard", "--fill-from", "shipped")
    plain = child(COUNTED.format(calls=10**12) + PLAIN, *again[:2], folder=tmp_path)
    assert plain.returncode == 0, plain.stderr
    calls = int(plain.stderr.split()[-1])
    found = []
    for tenth in range(1, 10):
        code = COUNTED.format(calls=calls * tenth // 10) + PLAIN
        assert child(code, *again, folder=tmp_path).returncode == -signal.SIGKILL
        found.append(visible(tmp_path / "yard"))
    assert found[:8] == [old] * 8
    assert child(PLAIN, *again, folder=tmp_path).returncode == 0
    assert visible(tmp_path / "yard") != old
    assert found[8] in (old, visible(tmp_path / "yard"))


def test_two_that_write_at_once_leave_the_files_of_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = [tmp_path / name for name in "abc"]
    replace, first = Path.replace, threading.Event()

    def slow(self: Path, target: Path) -> Path:
        done = replace(self, target)
        if threading.current_thread().name == "slow":
            first.set()
            time.sleep(0.2)
        return done

    monkeypatch.setattr(Path, "replace", slow)
    texts = {name: dict.fromkeys(paths, name) for name in ("slow", "quick")}
    threads = [
        threading.Thread(target=write_together, args=[texts[name]], name=name) for name in texts
    ]
    threads[0].start()
    assert first.wait(60)
    threads[1].start()
    for thread in threads:
        thread.join()
    assert [path.read_text() for path in paths] == ["quick"] * 3


def test_a_clock_that_jumps_changes_nothing(tmp_path: Path, small_room: str) -> None:
    # dt.date.today() asks time.time() as well.
    wild = (
        "import itertools, time; real = time.time; jumps = itertools.cycle((0, -9e8, 4e9));"
        "time.time = lambda: real() + next(jumps); import datetime;"
        "assert len({datetime.date.today() for _ in range(3)}) == 3;"
    )
    (tmp_path / "mine.toml").write_text(small_room, encoding="utf-8")
    args = ("search", "mine.toml", "--no-changes", "--quiet", "--time-limit", "9999")
    for code, out in ((PLAIN, "steady"), (wild + PLAIN, "wild")):
        done = child(code, *args, "--out", out, folder=tmp_path)
        assert done.returncode == 0, done.stderr
    assert listing(tmp_path / "wild") == listing(tmp_path / "steady")


def test_lines_of_another_search_are_not_believed(tmp_path: Path) -> None:
    # Where no file can be held, two searches may leave one's lines behind the other's head.
    path, told = tmp_path / "search.journal", list[str]()
    harvest = Harvest((), Tally(1, 2, 3))
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
