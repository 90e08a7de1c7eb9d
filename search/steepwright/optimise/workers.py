"""The search shared out: one unit of work per place, in one process or several.

Every unit starts from the same first front, so its result does not depend on which process does
it or when; the results are put together in the order of the places. So one, two or four workers
give the same answer.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from typing import Any, TypeVar

from steepwright.optimise.bounds import Rates, build_rates
from steepwright.optimise.branch import Branch, Found, Tally
from steepwright.optimise.front import Front, Score
from steepwright.optimise.model import Model

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
    place: int
    members: tuple[Member, ...]
    seen: frozenset[Score]
    tally: Tally


@dataclass(slots=True)
class _Field:
    """What every unit needs; forked workers inherit it instead of receiving it."""

    model: Model
    rates: Rates
    seeds: tuple[Member, ...]

    def reap(self, place: int) -> _Harvest:
        """Search one place from the first front."""
        branch = Branch(self.model, self.rates)
        for score, found in self.seeds:
            branch.front.offer(score, found)
        branch.search_place(place)
        return _Harvest(place, tuple(branch.front.sorted()), frozenset(branch.seen), branch.tally)


_inherited: list[_Field] = []


def _reap_inherited(place: int) -> _Harvest:
    return _inherited[0].reap(place)


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
        Told a sentence whenever a place is finished.
    known
        Designs found elsewhere; the front returned holds what of them is not beaten.
    """
    rates = build_rates(model)
    sower = Branch(model, rates)
    for score, found in known:
        sower.front.offer(score, found)
    progress("looking for a first front")
    sower.sow()
    field = _Field(model, rates, tuple(sower.front.sorted()))
    places = sower.roomiest_first()
    harvests = {}
    for harvest in _harvests(field, places, workers):
        harvests[harvest.place] = harvest
        kept = len(harvest.members)
        progress(f"places searched: {len(harvests)} of {len(places)}; designs kept there: {kept}")
    return _together([harvests[place] for place in places], sower)


def _harvests(field: _Field, places: list[int], workers: int) -> Iterator[_Harvest]:
    can_fork = "fork" in multiprocessing.get_all_start_methods()
    if workers < 2 or not can_fork:
        yield from (field.reap(place) for place in places)
        return
    _inherited[:] = [field]
    try:
        context = multiprocessing.get_context("fork")
        with ProcessPoolExecutor(min(workers, len(places)), mp_context=context) as pool:
            jobs: list[Future[_Harvest]] = [pool.submit(_reap_inherited, p) for p in places]
            for job in as_completed(jobs):
                yield job.result()
    finally:
        _inherited.clear()


def shared_out(work: Callable[[int], Result], count: int, workers: int) -> list[Result]:
    """Return ``work(0) ... work(count - 1)``, done by several forked processes if there are."""
    can_fork = "fork" in multiprocessing.get_all_start_methods()
    if workers < 2 or count < 2 or not can_fork:
        return [work(n) for n in range(count)]
    _handed_down[:] = [work]
    try:
        context = multiprocessing.get_context("fork")
        with ProcessPoolExecutor(min(workers, count), mp_context=context) as pool:
            return list(pool.map(_do_handed_down, range(count), chunksize=4))
    finally:
        _handed_down.clear()


_handed_down: list[Callable[[int], Any]] = []


def _do_handed_down(number: int) -> Any:
    return _handed_down[0](number)


def _together(harvests: list[_Harvest], sower: Branch) -> Outcome:
    front: Front[Found] = Front()
    seen = set(sower.seen)
    tally = sower.tally
    for harvest in harvests:
        for score, found in harvest.members:
            front.offer(score, found)
        seen |= harvest.seen
        tally = tally.plus(harvest.tally)
    return Outcome(front, frozenset(seen), tally)
