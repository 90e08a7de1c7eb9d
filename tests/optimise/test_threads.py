"""Two searches in two threads of one program: neither sees what the other looks at."""

from __future__ import annotations

import gc
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from functools import cached_property
from typing import Any

import pytest
from small_rooms import small_catalog, small_room

from steepwright.optimise import search, workers

pytestmark = pytest.mark.skipif(not workers.can_fork(), reason="without forks nothing is shared")

Pools = Callable[[int], AbstractContextManager[ProcessPoolExecutor]]
SEEDS = (5, 6)
PATIENCE_S = 120.0


def answer(seed: int, workers: int) -> dict[str, Any]:
    room = small_room(seed)
    wall = replace(room.wall, step_mm=20, kicker_mm=(0, 60), board_mm=(2200, 3200), max_columns=1)
    return search(replace(room, wall=wall), small_catalog(seed), workers=workers).document


def forking_together(pools: Pools) -> Pools:
    """Let both threads prepare their first processes before either forks them."""
    first, barrier = threading.local(), threading.Barrier(len(SEEDS))

    @contextmanager
    def waiting(count: int) -> Iterator[ProcessPoolExecutor]:
        if not hasattr(first, "done"):
            first.done = barrier.wait(PATIENCE_S)
        with pools(count) as pool:
            yield pool

    return waiting


def test_two_searches_at_once_find_what_each_finds_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    alone = [answer(seed, 1) for seed in SEEDS]
    monkeypatch.setattr(workers, "local_processes", forking_together(workers.local_processes))
    with ThreadPoolExecutor(len(SEEDS)) as threads:
        assert list(threads.map(answer, SEEDS, (2, 2))) == alone


def test_work_shared_out_in_two_threads_is_each_threads_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(workers, "local_processes", forking_together(workers.local_processes))

    def both(tens: int) -> list[int]:
        return workers.shared_out(lambda n: 10 * tens + n, 3, 2)

    with ThreadPoolExecutor(len(SEEDS)) as threads:
        assert list(threads.map(both, (1, 2))) == [[10, 11, 12], [20, 21, 22]]


def test_an_interrupted_search_ends_no_processes_but_its_own() -> None:
    one, other = workers.local_processes(1), workers.local_processes(1)
    one.__enter__()
    pool = other.__enter__()
    assert not one.__exit__(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert pool.submit(os.getpid).result(PATIENCE_S) != os.getpid()
    other.__exit__(None, None, None)


def test_an_interrupt_while_processes_are_forked_leaves_nothing_behind(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first = ProcessPoolExecutor.submit
    forked: list[int] = []

    def interrupted(pool: ProcessPoolExecutor, *job: Any) -> Any:
        done = first(pool, *job)
        forked.append(done.result())
        signal.raise_signal(signal.SIGINT)
        return done

    monkeypatch.setattr(ProcessPoolExecutor, "submit", interrupted)
    # What a script starts in the background is deaf to interrupts.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt), workers.local_processes(2):
            pass
    finally:
        signal.signal(signal.SIGINT, before)
    assert gc.get_freeze_count() == 0
    with pytest.raises(ProcessLookupError):
        os.kill(forked[0], 0)


def test_a_process_forked_while_another_thread_holds_a_lock_does_not_wait_for_it() -> None:
    lock = getattr(vars(Lazy)["value"], "lock", None)  # Python 3.12 has none
    held, done = threading.Event(), threading.Event()

    def hold() -> None:
        if lock is not None:
            with lock:
                held.set()
                done.wait(PATIENCE_S)
        held.set()

    thread = threading.Thread(target=hold)
    thread.start()
    assert held.wait(PATIENCE_S)
    try:
        with workers.local_processes(1) as pool:
            assert pool.submit(_value).result(PATIENCE_S) == 7
    finally:
        done.set()
        thread.join()


class Lazy:
    @cached_property
    def value(self) -> int:
        return 7


def _value() -> int:
    return Lazy().value


@pytest.fixture(autouse=True)
def _a_module_of_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "Lazy", Lazy, raising=False)
