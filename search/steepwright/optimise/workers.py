"""The search shared out: one unit of work per large box of lengths, in one process or several.

Every unit starts from the same first front, so its result does not depend on which process does
it or when; the results are put together in the order of the boxes. So one, two or four workers
give the same answer.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from typing import Any, TypeVar

from steepwright.optimise.bounds import build_rates
from steepwright.optimise.branch import Branch, Found, Tally, steepest_first
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import BOX_SIZES, Model

Member = tuple[Score, Found]
Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class Outcome:
    """A finished search: its front, what it looked at and how much."""

    front: Front[Found]
    seen: frozenset[Score]
    tally: Tally


@dataclass(frozen=True, slots=True)
class _Harvest:
    members: tuple[Member, ...]
    seen: frozenset[Score]
    tally: Tally


def search_front(
    model: Model,
    workers: int,
    progress: Callable[[str], None],
    known: tuple[Member, ...] = (),
) -> Outcome:
    """Search the whole space and return its front.

    Parameters
    ----------
    workers
        Number of processes; where processes can't be forked the search runs in this one.
    progress
        Told a sentence whenever a box of lengths is finished.
    known
        Designs to start from, such as another market's; the front returned holds what of them is
        not beaten.
    """
    rates = build_rates(model)
    boxes = steepest_first(model.grid, BOX_SIZES[0])

    def reap(number: int, seeds: tuple[Member, ...], sowing: bool) -> _Harvest:
        branch = Branch(model, rates)
        for score, found in seeds:
            branch.front.offer(score, found)
        (branch.sow_box if sowing else branch.search_box)(boxes[number])
        return _Harvest(tuple(branch.front.sorted()), frozenset(branch.seen), branch.tally)

    progress("looking for a first front")
    sown = shared_out(lambda n: reap(n, known, sowing=True), len(boxes), workers)
    first = _together(sown)
    seeds = tuple(first.front.sorted())

    def told(done: int) -> None:
        progress(f"boxes of lengths searched: {done} of {len(boxes)}")

    reaped = shared_out(lambda n: reap(n, seeds, sowing=False), len(boxes), workers, told)
    return _together([*sown, *reaped])


def shared_out(
    work: Callable[[int], Result],
    count: int,
    workers: int,
    done: Callable[[int], None] = lambda _: None,
) -> list[Result]:
    """Return ``work(0) ... work(count - 1)``, done by several forked processes if there are.

    `done` is told how many of them are finished.
    """
    can_fork = "fork" in multiprocessing.get_all_start_methods()
    if workers < 2 or count < 2 or not can_fork:
        return [_told(work(n), n + 1, done) for n in range(count)]
    _handed_down[:] = [work]
    try:
        context = multiprocessing.get_context("fork")
        with ProcessPoolExecutor(min(workers, count), mp_context=context) as pool:
            try:
                jobs = [pool.submit(_do_handed_down, n) for n in range(count)]
                for number, _ in enumerate(as_completed(jobs), start=1):
                    done(number)
                return [job.result() for job in jobs]
            except BaseException:
                # Leaving the pool waits for every job that is not called off, and a worker goes
                # on to the next one when an interrupt ends its present one.
                pool.shutdown(wait=False, cancel_futures=True)
                for process in multiprocessing.active_children():
                    process.terminate()
                raise
    finally:
        _handed_down.clear()


def _told(result: Result, number: int, done: Callable[[int], None]) -> Result:
    done(number)
    return result


_handed_down: list[Callable[[int], Any]] = []


def _do_handed_down(number: int) -> Any:
    return _handed_down[0](number)


def _together(harvests: list[_Harvest]) -> Outcome:
    front: Front[Found] = Front()
    seen: set[Score] = set()
    tally = Tally()
    for harvest in harvests:
        for score, found in harvest.members:
            front.offer(score, found)
        seen |= harvest.seen
        tally = tally.plus(harvest.tally)
    return Outcome(front, frozenset(seen), tally)
