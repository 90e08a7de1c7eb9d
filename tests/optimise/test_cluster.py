"""The search on a Dask cluster of two local workers, one of which is killed midway.

Dask's own executor hands the units out and gives a dead worker's units to the other one.
"""

from __future__ import annotations

from test_drive import model, same, whole

from lost_worker import losing_one
from steepwright.optimise.drive import search_front
from steepwright.optimise.terms import Terms


def test_a_killed_worker_changes_nothing() -> None:
    with losing_one() as cluster:
        terms = Terms(executor=cluster.executor, progress=lambda _: cluster.lose())
        assert same(search_front(model(), terms), whole())
    assert cluster.lost, "no worker was killed"
