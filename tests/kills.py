"""Searches that are begun in a child process and killed with their workers at random moments.

The child is forked: it needs no second start of Python, so twenty of them take seconds.
"""

from __future__ import annotations

import multiprocessing
import os
import random
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

import psutil

from steepwright.optimise.journal import NAME

PATIENCE_S = 600.0
FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")


def search(args: tuple[str, ...], said: Path) -> int:
    """Run the command in this process, with what it says in a file; return its exit code."""
    from steepwright.cli.console import run

    with said.open("a", buffering=1, encoding="utf-8") as file:
        sys.stdout = sys.stderr = file
        return run(["search", *args])


def _child(args: tuple[str, ...], said: Path) -> None:
    os._exit(search(args, said))


def _works(process: psutil.Process) -> bool:
    """Tell whether a process still runs; one that has ended may long wait for init to notice."""
    try:
        return process.status() != psutil.STATUS_ZOMBIE
    except psutil.NoSuchProcess:
        return False


@dataclass(slots=True)
class Killer:
    """Starts one search again and again, and kills it some time after it has got further.

    Attributes
    ----------
    args
        Of ``steepwright search``; its folder is `folder`.
    longest_s
        Up to so long after a new part of the search it is killed.
    """

    args: tuple[str, ...]
    folder: Path
    draw: random.Random
    longest_s: float = 0.25
    said: Path = field(init=False)

    def __post_init__(self) -> None:
        self.said = self.folder.with_name(f"{self.folder.name}.said")

    @property
    def journal(self) -> Path:
        """The file that the search is taken up from."""
        return self.folder / NAME

    def parts(self) -> int:
        """Return how many lines the journal has, its head included."""
        return self.journal.read_bytes().count(b"\n") if self.journal.exists() else 0

    def killed(self) -> bool:
        """Start the search and kill it; return False if it ended before."""
        # A head and a part at least, so that the next one may be damaged.
        before, until = max(self.parts(), 2), time.monotonic() + PATIENCE_S
        args = (*self.args, "--out", str(self.folder))
        child = multiprocessing.get_context("fork").Process(target=_child, args=(args, self.said))
        child.start()
        while self.parts() <= before and child.is_alive():
            assert time.monotonic() < until
            time.sleep(0.005)
        time.sleep(self.draw.choice((0.0, self.draw.random())) * self.longest_s)
        alive = child.is_alive()
        workers = psutil.Process(child.pid).children() if alive else []
        child.kill()
        child.join()
        while any(_works(worker) for worker in workers):
            assert time.monotonic() < until, "workers outlive the search that they work for"
            time.sleep(0.005)
        return alive

    def kill(self, times: int, damage_every: int = 5) -> list[int]:
        """Kill it so many times, damage the journal's end after some; return its parts by then."""
        parts: list[int] = []
        while len(parts) < times:
            if not self.killed():
                # Done before its time: begin anew, so that there are as many kills.
                self.journal.unlink(missing_ok=True)
                continue
            parts.append(self.parts())
            if len(parts) % damage_every == 0:
                whole = self.journal.read_bytes()
                self.journal.write_bytes(whole[: -self.draw.randrange(1, 40)])
        return parts

    def finish(self) -> str:
        """Let the search end, and return all that was said."""
        args = (*self.args, "--out", str(self.folder))
        child = multiprocessing.get_context("fork").Process(target=_child, args=(args, self.said))
        child.start()
        child.join()
        assert child.exitcode == 0
        assert not self.journal.exists()
        return self.said.read_text(encoding="utf-8")


def same_bytes(one: Path, other: Path) -> list[str]:
    """Return the files of two searches that differ."""
    return [n for n in FILES if (one / n).read_bytes() != (other / n).read_bytes()]
