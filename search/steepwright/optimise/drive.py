"""The search of one model: its units in order, several at a time, until all are done or time is up.

The front that a unit starts from is that of all units at least `LAG` before it, whoever worked on
them and whenever they were done. So one, two or four workers, a cluster, and a search taken up
again from its journal give the same answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from concurrent.futures import FIRST_COMPLETED, Future, wait
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Literal

from steepwright.optimise.again import same_walls
from steepwright.optimise.angles import Angle, Angles, told
from steepwright.optimise.bounds import Rates, build_rates
from steepwright.optimise.branch import Tally
from steepwright.optimise.found import Found
from steepwright.optimise.front import Front
from steepwright.optimise.model import Model
from steepwright.optimise.terms import Terms, silent
from steepwright.optimise.units import (
    Harvest,
    Member,
    Unit,
    first_told,
    rank_of,
    units_of,
)
from steepwright.optimise.workers import Submit, crew

Stop = Literal["", "interrupted", "time limit"]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a search found, what it looked at and how much, and how it ended.

    Attributes
    ----------
    stopped
        Why it ended before all was searched; empty when it did not.
    angles
        How far it got by then; empty when it is complete.
    open_units
        What it did not get to; empty when it is complete.
    """

    front: Front[Found]
    tally: Tally
    stopped: Stop
    angles: tuple[Angle, ...]
    open_units: tuple[Unit, ...] = ()


def search_front(
    model: Model, terms: Terms, known: tuple[Member, ...] = (), number: int = 0
) -> Outcome:
    """Search the whole space and return its front.

    Parameters
    ----------
    known
        Designs to start from, such as another market's; the front returned holds what of them is
        not beaten.
    number
        Of the market, for the journal.
    """
    rates = build_rates(model)
    units = units_of(model)
    # Made when it is first told how far the search is: by then the others are at work.
    angles = cache(lambda: Angles(model, rates, units))
    run = _Run(terms, units, known, number, angles)
    stopped: Stop = ""
    try:
        run.start(model, rates)
        if len(run.harvests) < len(units):
            with crew(terms, model, rates) as submit:
                run.drive(submit)
    except KeyboardInterrupt:
        stopped = "interrupted"
    except _TimeUpError:
        stopped = "time limit"
    finally:
        run.call_off()
    return run.outcome(stopped)


_START = -1
"""Number, in the journal, of what the earlier search's walls gave."""


class _TimeUpError(Exception):
    """The time allowed is over."""


@dataclass(frozen=True, slots=True)
class _Begun:
    """A unit being done: its number, what it was told, and what it gave so far."""

    index: int
    seeds: tuple[Member, ...]
    so_far: Harvest = field(default=Harvest((), Tally()))


class _Run:
    """The units done so far, and those being done."""

    def __init__(
        self,
        terms: Terms,
        units: tuple[Unit, ...],
        known: tuple[Member, ...],
        number: int,
        angles: Callable[[], Angles],
    ) -> None:
        self._terms, self._units, self._known = terms, units, known
        self._number, self._angles = number, angles
        journal = terms.journal
        self.harvests = {} if journal is None else journal.harvests(number)
        self._start = self.harvests.pop(_START, None)
        self._pending: dict[Future[Harvest], _Begun] = {}
        self._best = self._known_front()
        for harvest in self.harvests.values():
            _offer(self._best, harvest.members)

    def _known_front(self) -> Front[Found]:
        front: Front[Found] = Front(rank_of)
        _offer(front, self._known)
        _offer(front, () if self._start is None else self._start.members)
        return front

    def start(self, model: Model, rates: Rates) -> None:
        """Settle the walls of an earlier search; with enough of them none need be sown.

        What a killed search started from is in its journal: its units were told of these walls
        and did not note them again.
        """
        if self._start is None and self._terms.earlier:
            self._start = same_walls(model, rates, self._terms.earlier)
            if self._terms.journal is not None:
                self._terms.journal.add(self._number, _START, self._start)
            _offer(self._best, self._start.members)
        sowing = [index for index, unit in enumerate(self._units) if unit.sowing]
        if self._start is not None and len(self._start.members) >= len(sowing):
            none = Harvest((), Tally())
            self.harvests = dict.fromkeys(sowing, none) | self.harvests

    def drive(self, submit: Submit) -> None:
        """Have every unit done; each starts from what those some way before it found."""
        seeds, known = self._known_front(), 0
        begins_with = first_told(self._units)
        for index in range(len(self._units)):
            while known < begins_with[index]:
                while known not in self.harvests:
                    self._await(submit)
                _offer(seeds, self.harvests[known].members)
                known += 1
            if index not in self.harvests:
                self._go_on(submit, _Begun(index, tuple(seeds.sorted())))
                self._take_in(submit, [future for future in self._pending if future.done()])
        while self._pending:
            self._await(submit)

    def _go_on(self, submit: Submit, unit: _Begun) -> None:
        seeds = unit.seeds + unit.so_far.members
        future = submit(self._units[unit.index], seeds, unit.so_far.left)
        self._pending[future] = unit

    def _await(self, submit: Submit) -> None:
        done, _ = wait(self._pending, self._terms.left_s(), FIRST_COMPLETED)
        self._take_in(submit, done)

    def _take_in(self, submit: Submit, done: Iterable[Future[Harvest]]) -> None:
        for future in done:
            unit = self._pending.pop(future)
            harvest = unit.so_far.then(future.result())
            if harvest.left:
                self._go_on(submit, replace(unit, so_far=harvest))
            else:
                self._note(unit.index, harvest)
        if self._terms.left_s() == 0 and len(self.harvests) < len(self._units):
            raise _TimeUpError

    def _note(self, index: int, harvest: Harvest) -> None:
        self.harvests[index] = harvest
        if self._terms.journal is not None:
            self._terms.journal.add(self._number, index, harvest)
        _offer(self._best, harvest.members)
        if self._terms.progress is not silent:
            self._terms.progress(told(self._state(self._best)))

    def call_off(self) -> None:
        """Call off what is not yet begun elsewhere, however the search ended.

        Local processes have ended by now.
        """
        if self._terms.executor is not None:
            for future in self._pending:
                future.cancel()

    def _state(self, front: Front[Found]) -> tuple[Angle, ...]:
        """Return how far each angle is settled, given what was found."""
        still_open = [n for n in range(len(self._units)) if n not in self.harvests]
        return self._angles().now(front.members, still_open)

    def outcome(self, stopped: Stop) -> Outcome:
        """Return what the units found, put together in their order.

        An interrupt may have come while the best so far were brought up to date: angles are told
        from the units themselves.
        """
        front = self._known_front()
        tally = Tally() if self._start is None else self._start.tally
        for index in sorted(self.harvests):
            harvest = self.harvests[index]
            _offer(front, harvest.members)
            tally = tally.plus(harvest.tally)
        angles = self._state(front) if stopped else ()
        left = enumerate(self._units) if stopped else ()
        units = (unit for n, unit in left if n not in self.harvests and not unit.sowing)
        return Outcome(front, tally, stopped, angles, tuple(units))


def _offer(front: Front[Found], members: Iterable[Member]) -> None:
    for score, found in members:
        front.offer(score, found)
