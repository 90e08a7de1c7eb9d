"""The search on a Dask cluster of two local workers, one of which is killed midway.

Dask's own executor hands the units out and gives a dead worker's units to the other one.
"""

from __future__ import annotations

import os
import signal

from distributed import Client, LocalCluster
from test_drive import model, same, whole

from steepwright.optimise.drive import search_front
from steepwright.optimise.terms import Terms


def test_a_killed_worker_changes_nothing() -> None:
    killed: list[int] = []
    with (
        LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as cluster,
        Client(cluster) as client,
    ):
        first = min(client.run(os.getpid).values())

        def kill_once(_: str) -> None:
            if not killed:
                os.kill(first, signal.SIGKILL)
                killed.append(first)

        terms = Terms(executor=client.get_executor(), progress=kill_once)
        assert same(search_front(model(), terms), whole())
    assert killed, "no worker was killed"
