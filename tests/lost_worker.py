"""A Dask cluster of two local workers, one of which is killed when told to."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass

from distributed import Client, LocalCluster


@dataclass(slots=True)
class Losing:
    """The cluster's executor, and the process id of the worker that will be lost."""

    executor: Executor
    first: int
    lost: bool = False

    def lose(self) -> None:
        """Kill the worker, once."""
        if not self.lost:
            os.kill(self.first, signal.SIGKILL)
            self.lost = True


@contextmanager
def losing_one() -> Iterator[Losing]:
    """Run such a cluster."""
    with (
        LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as cluster,
        Client(cluster) as client,
    ):
        yield Losing(client.get_executor(), min(client.run(os.getpid).values()))
