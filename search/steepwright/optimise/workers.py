"""Who does the work: this process, forked ones, or any executor of `concurrent.futures`."""

from __future__ import annotations

import gc
import hashlib
import itertools
import multiprocessing
import os
import pickle
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor, as_completed
from contextlib import contextmanager
from functools import cached_property
from typing import Any, TypeVar

from steepwright.optimise.bounds import Rates, build_rates
from steepwright.optimise.branch import Open
from steepwright.optimise.model import Model, build_wide_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.units import PART_S, Harvest, Member, Unit, work_on
from steepwright.pricing.market import Market
from steepwright.structure import prepare

Result = TypeVar("Result")
Submit = Callable[[Unit, tuple[Member, ...], tuple[Open, ...]], "Future[Harvest]"]
"""Has a unit begun, told of some designs, or gone on with where it has something left."""


def can_fork() -> bool:
    """Tell whether processes can be forked, which spares building the model in each."""
    return "fork" in multiprocessing.get_all_start_methods()


@contextmanager
def crew(terms: Terms, model: Model, rates: Rates) -> Iterator[Submit]:
    """Give what has units of the model's search done."""
    if terms.executor is not None:
        yield _elsewhere(terms.executor, model.space.market)
    elif terms.workers < 2 or not can_fork():
        yield lambda *job: _at_once(model, rates, *job)
    else:
        prepare((sheeting.split.columns, sheeting.studs) for sheeting in model.space.sheetings)
        with _handed_down((model, rates)) as key, local_processes(terms.workers) as pool:
            yield lambda unit, seeds, _: pool.submit(_do_unit_here, key, unit, seeds)


def _at_once(
    model: Model, rates: Rates, unit: Unit, seeds: tuple[Member, ...], left: tuple[Open, ...]
) -> Future[Harvest]:
    done: Future[Harvest] = Future()
    done.set_result(work_on(model, rates, unit, seeds, left, PART_S))
    return done


def _elsewhere(executor: Executor, market: Market) -> Submit:
    packed = pickle.dumps(market)
    key = hashlib.sha256(packed).hexdigest()
    return lambda *job: executor.submit(_do_unit, key, packed, *job)


_models: dict[str, tuple[Model, Rates]] = {}
"""The model that a worker elsewhere has built from its market."""


def _do_unit(
    key: str, packed: bytes, unit: Unit, seeds: tuple[Member, ...], left: tuple[Open, ...]
) -> Harvest:
    found = _models.get(key)
    if found is None:
        # `packed` comes from the process that asks, over a channel that runs its code anyway.
        model = build_wide_model(build_space(pickle.loads(packed)))
        found = model, build_rates(model)
        _models.clear()
        _models[key] = found
    return work_on(*found, unit, seeds, left, PART_S)


_shared: dict[int, Any] = {}
"""What processes find in their memory when they are forked; other threads' things lie there too."""

_keys = itertools.count()


@contextmanager
def _handed_down(what: object) -> Iterator[int]:
    """Keep something for processes that are forked meanwhile; give the key they find it by."""
    key = next(_keys)
    _shared[key] = what
    try:
        yield key
    finally:
        del _shared[key]


def _do_unit_here(key: int, unit: Unit, seeds: tuple[Member, ...]) -> Harvest:
    model, rates = _shared[key]
    return work_on(model, rates, unit, seeds)


@contextmanager
def local_processes(workers: int) -> Iterator[ProcessPoolExecutor]:
    """Give forked processes; when the block fails or is interrupted they end at once.

    Leaving a pool waits for every job that is not called off; and an interrupt, which a terminal
    sends to all processes, is the asking process's alone to answer.
    """
    context = multiprocessing.get_context("fork")
    gc.freeze()  # what a collection doesn't touch stays shared with the forked processes
    with ProcessPoolExecutor(
        workers, mp_context=context, initializer=_serve, initargs=(os.getpid(),)
    ) as pool:
        try:
            with _interrupts_held():
                pool.submit(os.getpid)  # the first job starts the processes
            yield pool
        except BaseException:
            for process in list((pool._processes or {}).values()):  # not those of other threads
                process.terminate()
            raise
        finally:
            gc.unfreeze()


@contextmanager
def _interrupts_held() -> Iterator[None]:
    """Keep interrupts for later: a process forked meanwhile is deaf to them from the start."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _serve(asking: int) -> None:
    """Leave interrupts to the asking process, and end when that one is gone, however it ended."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _renew_locks()
    threading.Thread(target=_end_with, args=(asking,), daemon=True).start()


def _renew_locks() -> None:
    """Renew the locks of cached properties, as Python 3.11 has them.

    A thread of the asking process may have held one when this process was forked, and isn't here.
    """
    ours = [module for name, module in sys.modules.items() if name.startswith("steepwright.")]
    kinds = (kind for module in ours for kind in vars(module).values() if isinstance(kind, type))
    for part in (part for kind in kinds for part in vars(kind).values()):
        if isinstance(part, cached_property) and "lock" in vars(part):
            vars(part)["lock"] = threading.RLock()


def _end_with(asking: int) -> None:
    while os.getppid() == asking:
        time.sleep(0.5)
    os._exit(1)


def shared_out(
    work: Callable[[int], Result],
    count: int,
    workers: int,
    done: Callable[[int], None] = lambda _: None,
) -> list[Result]:
    """Return ``work(0) ... work(count - 1)``, done by several forked processes if there are.

    `done` is told how many of them are finished.
    """
    if workers < 2 or count < 2 or not can_fork():
        return [_told(work(n), n + 1, done) for n in range(count)]
    with _handed_down(work) as key, local_processes(min(workers, count)) as pool:
        jobs = [pool.submit(_do_shared, key, n) for n in range(count)]
        for number, _ in enumerate(as_completed(jobs), start=1):
            done(number)
        return [job.result() for job in jobs]


def _told(result: Result, number: int, done: Callable[[int], None]) -> Result:
    done(number)
    return result


def _do_shared(key: int, number: int) -> Any:
    return _shared[key](number)
