"""What a search costs once only prices have changed, and what checking its certificate costs.

Both are told in seconds of the processors, of all processes together: a busy machine changes
these least. What is asserted is their share of the search from cold in the same run; the targets
in seconds (3 s and 10 s on two quiet cores) are printed beside them.
"""

from __future__ import annotations

import csv
import os
import random
import resource
import shutil
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import pytest
from results import record

import steepwright
from steepwright.resources import catalogs_dir, shipped_catalog_dir

EXAMPLE = catalogs_dir() / "example" / "room.toml"
FILES = ("certificate.json", "designs.csv", "designs.json", "report.html")

WARM_TARGET_S, CHECK_TARGET_S = 3.0, 10.0

MOST_OF_COLD = 0.9
"""Share of the search from cold that one told of the walls found before may take."""

MOST_CHECKING = 0.5
"""Share of the search from cold that the checker may take: 10 s of 20."""


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds by the clock, and seconds of the processors."""

    wall_s: float
    cpu_s: float


def took(*args: str) -> Took:
    """Run a command to its end."""
    path = str(Path(steepwright.__file__).parents[1])
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "steepwright", *args],
        env={**os.environ, "PYTHONPATH": path},
        stdout=subprocess.DEVNULL,
        check=True,
    )
    wall, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Took(wall, cpu)


def other_prices(folder: Path) -> Path:
    """Copy the shipped yard with every price of sheets and bars changed by up to a tenth."""
    shutil.copytree(shipped_catalog_dir(), folder)
    draw = random.Random(1)
    for name in ("sheets.csv", "timber.csv"):
        with (folder / name).open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        for row in rows:
            row["price"] = f"{float(row['price']) * draw.uniform(0.9, 1.1):.2f}"
        with (folder / name).open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, list(rows[0]))
            writer.writeheader()
            writer.writerows(rows)
    return folder


@pytest.mark.bench
def test_after_a_change_of_prices_the_old_walls_spare_work_and_change_no_byte(
    tmp_path: Path,
) -> None:
    args = ["search", str(EXAMPLE), "--quiet", "--no-changes", "--workers", "2"]
    before = took(*args, "--out", str(tmp_path / "warm"))
    yard = ("--catalog", str(other_prices(tmp_path / "yard")))
    cold = took(*args, *yard, "--out", str(tmp_path / "cold"))
    warm = took(*args, *yard, "--out", str(tmp_path / "warm"))
    for name in FILES:
        one, other = (tmp_path / folder / name for folder in ("cold", "warm"))
        assert one.read_bytes() == other.read_bytes(), name
    check = took("verify", str(tmp_path / "warm"))
    share, checking = warm.cpu_s / cold.cpu_s, check.cpu_s / cold.cpu_s
    print(
        f"\nother prices, certified: {warm.cpu_s:.1f} CPU s ({warm.wall_s:.1f} s, target"
        f" {WARM_TARGET_S:.0f} s) told of the old walls, {cold.cpu_s:.1f} from cold"
        f" ({before.cpu_s:.1f} before), {share:.2f} of it; checker {check.cpu_s:.1f} CPU s"
        f" ({check.wall_s:.1f} s, target {CHECK_TARGET_S:.0f} s), {checking:.2f}"
    )
    figures = {"cpu_s": round(warm.cpu_s, 1), "cold_cpu_s": round(cold.cpu_s, 1)}
    record("other prices", figures | {"share_of_cold": round(share, 2)})
    record("checker", {"cpu_s": round(check.cpu_s, 1), "share_of_cold": round(checking, 2)})
    assert share < MOST_OF_COLD
    assert checking < MOST_CHECKING
