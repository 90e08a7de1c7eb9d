"""The search killed at random moments, by any number of workers and on a cluster: the same bytes.

And how its work is cut: seconds of the processors per unit, or part of one, as executors get them.
"""

from __future__ import annotations

import random
import statistics
from pathlib import Path

import pytest
from results import record
from runs import OTHER_ROOM, PLAIN, ROOM, Alone, Searched, took

from kills import Killer, same_bytes
from lost_worker import losing_one
from steepwright.catalog import read_catalog
from steepwright.optimise import search
from steepwright.report import write_outputs
from steepwright.room import read_room

KILLS = 20
LEAST_S, MOST_S = 0.01, 0.5

MOST_OF_ALL = 0.1
"""The largest share of all units that one takes until it is left."""


@pytest.mark.bench
def test_killed_twenty_times_it_writes_the_same_bytes(tmp_path: Path, plain: Searched) -> None:
    args = (str(ROOM), "--no-changes", "--workers", "2")
    # Up to so long after it has got further that the kills are spread over the whole search.
    killer = Killer(args, tmp_path / "again", random.Random(20), plain.took.wall_s / KILLS)
    parts = killer.kill(KILLS)
    said = killer.finish()
    assert "taking up a search" in said
    assert same_bytes(plain.folder, tmp_path / "again") == []
    print(f"\nkilled with so many parts done: {parts}")
    figures = {"kills": len(parts), "first_parts": parts[0], "last_parts": parts[-1]}
    record("kills example", figures)


@pytest.mark.bench
def test_one_two_and_four_workers_and_a_cluster_write_the_same_bytes(
    tmp_path: Path, plain: Searched
) -> None:
    for workers in ("1", "4"):
        folder = tmp_path / workers
        took(*PLAIN, "--workers", workers, "--out", str(folder))
        assert same_bytes(plain.folder, folder) == [], f"{workers} workers"
    killed = on_a_cluster(tmp_path / "cluster")
    assert same_bytes(plain.folder, tmp_path / "cluster") == []
    assert killed, "no worker was killed"
    record("workers example", {"who": "1, 2 and 4 workers; a Dask cluster with a worker killed"})


def on_a_cluster(folder: Path) -> bool:
    """Search on two workers of a local cluster, kill one midway; return whether it was."""
    with losing_one() as cluster:

        def lose(told: str) -> None:
            if told.startswith("angles settled"):
                cluster.lose()

        result = search(
            read_room(ROOM),
            read_catalog(),
            changes=False,
            certify=True,
            executor=cluster.executor,
            progress=lose,
        )
    write_outputs(result.document, folder, result.certificate)
    return cluster.lost


@pytest.mark.bench
def test_units_of_work_are_small(alone: Alone) -> None:
    units = sorted(alone.unit_cpu_s)
    above, below = sum(s > MOST_S for s in units), sum(s < LEAST_S for s in units)
    figures = {
        "units": len(units),
        "above_500_ms": above,
        "below_10_ms": below,
        "median_ms": round(1000 * statistics.median(units)),
        "largest_ms": round(1000 * units[-1]),
    }
    print(f"\nunits of work: {figures}, {sum(units):.1f} CPU s in all")
    record("units example", figures)
    assert OTHER_ROOM or units[-1] < MOST_OF_ALL * sum(units)  # a tiny room has but a few
