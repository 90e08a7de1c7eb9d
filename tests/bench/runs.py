"""Searches as a user starts them, measured; and the room that the measurements of searches are of.

``STEEPWRIGHT_BENCH_ROOM=FILE`` takes another room than the shipped example, such as a small one to
try a measurement on; its figures are printed and written nowhere.
"""

from __future__ import annotations

import csv
import os
import resource
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import psutil
import pytest

import steepwright
from steepwright.catalog import Catalog
from steepwright.optimise import workers
from steepwright.optimise.front import Score
from steepwright.optimise.terms import Terms
from steepwright.optimise.units import Harvest, work_on
from steepwright.optimise.yards import search_yards
from steepwright.resources import catalogs_dir, shipped_catalog_dir
from steepwright.room.types import Room

OTHER_ROOM = os.environ.get("STEEPWRIGHT_BENCH_ROOM")
ROOM = Path(OTHER_ROOM or catalogs_dir() / "example" / "room.toml").resolve()
PLAIN = ("search", str(ROOM), "--quiet", "--no-changes", "--workers", "2")


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds by the clock and of all processors, and the most memory held at a time [bytes]."""

    wall_s: float
    cpu_s: float
    peak_bytes: int


@dataclass(frozen=True, slots=True)
class Searched:
    """A finished search's folder and what it took."""

    folder: Path
    took: Took


def environment() -> dict[str, str]:
    """Return an environment in which a child in any folder finds the package under test."""
    return {**os.environ, "PYTHONPATH": str(Path(steepwright.__file__).parents[1])}


def cpu_s() -> float:
    """Return the seconds of the processors taken by this process and its ended children."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)


def took(*args: str, folder: Path | None = None) -> Took:
    """Run a command to its end, in a folder."""
    command = [sys.executable, "-m", "steepwright", *args]
    before, began, peak = cpu_s(), time.perf_counter(), 0
    with psutil.Popen(command, cwd=folder, env=environment(), stdout=subprocess.DEVNULL) as process:
        while process.poll() is None:
            peak = max(peak, held_bytes(process))
            time.sleep(0.05)
        wall = time.perf_counter() - began
    assert process.returncode == 0
    return Took(wall, cpu_s() - before, peak)


def held_bytes(process: psutil.Process) -> int:
    """Return the memory of a process tree; a page that n processes share counts 1/n in each.

    Where the system doesn't tell (the proportional set size is Linux's), it counts in full in each.
    """
    total = 0
    try:
        for one in (process, *process.children(recursive=True)):
            info = one.memory_full_info()
            total += getattr(info, "pss", info.rss)
    except (psutil.NoSuchProcess, psutil.AccessDenied, FileNotFoundError):
        return total
    return total


@dataclass(frozen=True, slots=True)
class Alone:
    """A front that one process found, the seconds it took, and the CPU seconds of every part."""

    front: list[Score]
    seconds: float
    unit_cpu_s: tuple[float, ...]


def search_alone(room: Room, catalog: Catalog) -> Alone:
    """Search in this process, without a certificate, and time every unit."""
    units: list[float] = []

    def timed(*args: Any) -> Harvest:
        began = time.process_time()
        found = work_on(*args)
        units.append(time.process_time() - began)
        return found

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(workers, "work_on", timed)
        began = time.perf_counter()
        front = search_yards(room, catalog, Terms()).front
        seconds = time.perf_counter() - began
    return Alone([score for score, _ in front.sorted()], seconds, tuple(units))


Row = dict[str, str]


def changed_yard(folder: Path, change: Callable[[list[Row]], list[Row]]) -> Path:
    """Copy the shipped yard with the rows of its sheets and bars changed."""
    shutil.copytree(shipped_catalog_dir(), folder)
    for name in ("sheets.csv", "timber.csv"):
        with (folder / name).open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        with (folder / name).open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, list(rows[0]))
            writer.writeheader()
            writer.writerows(change(rows))
    return folder
