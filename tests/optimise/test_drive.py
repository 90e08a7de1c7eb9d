"""The search in units: any executor, any number of workers, stopped, taken up again."""

from __future__ import annotations

import multiprocessing
import time
from concurrent.futures import Executor, Future, ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from small_rooms import small_catalog, small_room

from steepwright.catalog import Catalog
from steepwright.errors import UnfinishedError
from steepwright.optimise.angles import Angles, states, told, whole_degrees
from steepwright.optimise.bounds import build_rates
from steepwright.optimise.drive import Outcome, search_front
from steepwright.optimise.front import NO_COST, Score
from steepwright.optimise.journal import Journal, key_of
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.search import search
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms
from steepwright.optimise.units import LAG, Harvest, units_of
from steepwright.pricing.market import build_market
from steepwright.room.types import Room

SEED = 5


def room() -> Room:
    """Steps fine enough that the search has several times as many units as may run at once."""
    coarse = small_room(SEED)
    wall = replace(coarse.wall, step_mm=10, kicker_mm=(0, 60), board_mm=(2200, 3200))
    return replace(coarse, wall=replace(wall, max_columns=1))


@cache
def catalog() -> Catalog:
    whole = small_catalog(SEED)
    return replace(whole, sheets=whole.sheets[:2], mounts=whole.mounts[:1])


@cache
def model() -> Model:
    return build_model(build_space(build_market(room(), catalog())))


@cache
def whole() -> Outcome:
    return search_front(model(), Terms())


def nothing(_: str) -> None:
    pass


def same(one: Outcome, other: Outcome) -> bool:
    return one.front.sorted() == other.front.sorted() and one.tally == other.tally


def test_there_are_units_enough_to_say_something() -> None:
    assert len(units_of(model())) > 2 * LAG
    assert len(whole().front.members) >= 3
    assert not whole().stopped


@pytest.mark.parametrize("workers", [2, 4])
def test_the_number_of_workers_changes_nothing(workers: int) -> None:
    assert same(search_front(model(), Terms(workers=workers)), whole())


@pytest.mark.parametrize("kind", ["threads", "spawned"])
def test_any_executor_gives_the_same(kind: str) -> None:
    spawn = multiprocessing.get_context("spawn")
    pool: Executor = (
        ThreadPoolExecutor(3) if kind == "threads" else ProcessPoolExecutor(2, mp_context=spawn)
    )
    with pool:
        assert same(search_front(model(), Terms(executor=pool)), whole())


class Interrupting(Executor):
    """Works at once, and is interrupted by the user at a given unit."""

    def __init__(self, at: int) -> None:
        self._left = at

    def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]
        if not self._left:
            raise KeyboardInterrupt
        self._left -= 1
        with ThreadPoolExecutor(1) as one:
            return one.submit(fn, *args, **kwargs)


@pytest.mark.parametrize("at", [0, 3, 9])
def test_an_interrupt_keeps_what_is_proved(at: int) -> None:
    found = search_front(model(), Terms(executor=Interrupting(at)))
    assert found.stopped == "interrupted"
    for angle in found.angles:
        best = min(
            (s.cost_cents for s in whole().front.members if s.angle_mdeg >= 1000 * angle.angle_deg),
            default=None,
        )
        if angle.settled:
            assert best == angle.found_cents
        else:
            assert angle.open_cents is not None
            assert best is None or best >= min(angle.open_cents, angle.found_cents or best)
    assert any(not angle.settled for angle in found.angles)


class InterruptedAtAFind(Journal):
    """Is interrupted by the user when it is to note a unit that found something, at the latest."""

    def __init__(self) -> None:
        pass

    def harvests(self, _market: int) -> dict[int, Harvest]:
        return {}

    def add(self, _market: int, _unit: int, harvest: Harvest) -> None:
        if harvest.members:
            raise KeyboardInterrupt


def test_an_interrupt_between_two_notes_leaves_angles_and_walls_in_agreement() -> None:
    found = search_front(model(), Terms(journal=InterruptedAtAFind()))
    assert found.stopped == "interrupted"
    assert found.front.members
    for angle in found.angles:
        costs = [
            score.cost_cents
            for score in found.front.members
            if score.angle_mdeg >= 1000 * angle.angle_deg
        ]
        assert angle.found_cents == min(costs, default=None)


class Failing(Executor):
    """Fails at a unit while others wait for a worker, as a cluster out of memory does."""

    def __init__(self) -> None:
        self.given: list[Future[Any]] = []

    def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]
        self.given.append(Future())
        if len(self.given) == LAG:
            self.given[-1].set_exception(MemoryError("a worker's"))
        return self.given[-1]


def test_a_unit_that_fails_elsewhere_calls_off_those_that_wait() -> None:
    cluster = Failing()
    with pytest.raises(MemoryError, match="a worker's"):
        search_front(model(), Terms(executor=cluster))
    assert len(cluster.given) == LAG
    assert all(unit.cancelled() for unit in cluster.given[:-1])


def test_all_angles_are_settled_when_no_unit_is_open() -> None:
    angles = Angles(model(), build_rates(model()), units_of(model()))
    done = angles.now(whole().front.members, [])
    assert all(angle.settled and angle.gap_cents == 0 for angle in done)
    assert told(done) == f"angles settled {len(done)} of {len(done)}"
    begun = angles.now([], range(len(units_of(model()))))
    assert "gap not known yet" in told(begun)


def test_an_angle_is_settled_by_a_bound_that_is_no_lower() -> None:
    degrees = whole_degrees(model())[:3]
    least = degrees * 0 + [900, 1000, NO_COST]
    rows = states(degrees, [Score(1000, 90_000, 0)], least)
    assert [row.settled for row in rows] == [False, True, True]
    assert [row.gap_cents for row in rows] == [100, 0, 0]
    assert told(rows) == "angles settled 2 of 3, gap at most 1.00"


def test_progress_tells_settled_angles_and_ends_with_all_of_them() -> None:
    said: list[str] = []
    assert same(search_front(model(), Terms(progress=said.append)), whole())
    count = len(whole_degrees(model()))
    assert said[-1] == f"angles settled {count} of {count}"


def test_the_end_of_the_time_keeps_what_was_found() -> None:
    ended = search_front(model(), Terms(ends_s=time.monotonic()))
    assert ended.stopped == "time limit"
    assert any(not angle.settled for angle in ended.angles)
    kept = whole().front.members
    assert all(any(k.at_least(score) for k in kept) for score in ended.front.members)
    with pytest.raises(UnfinishedError, match="more time"):
        search(room(), catalog(), time_limit_s=1e-9)


def test_a_journal_spares_what_is_done_and_changes_nothing(tmp_path: Path) -> None:
    path, key = tmp_path / "journal", key_of(room(), catalog())
    first = Journal(path, key, nothing)
    stopped = search_front(model(), Terms(executor=Interrupting(9), journal=first))
    first.close()
    said: list[str] = []
    second = Journal(path, key, said.append)
    known = second.harvests(0)
    assert stopped.stopped
    assert 0 < len(known) <= 9
    assert said == [f"taking up a search of which {len(known)} parts are done"]
    assert same(search_front(model(), Terms(journal=second)), whole())
    second.close()
    third = Journal(path, key, nothing)
    assert same(search_front(model(), Terms(executor=Interrupting(0), journal=third)), whole())
    third.remove()
    assert not path.exists()


@pytest.mark.parametrize("damage", ["cut", "changed", "garbage"])
def test_a_damaged_journal_is_believed_up_to_the_damage(damage: str, tmp_path: Path) -> None:
    path, key = tmp_path / "journal", key_of(room(), catalog())
    journal = Journal(path, key, nothing)
    search_front(model(), Terms(journal=journal))
    journal.close()
    lines = path.read_bytes().splitlines(keepends=True)
    hurt = {
        "cut": lines[5][: len(lines[5]) // 2],
        "changed": lines[5].replace(b"1", b"2", 3),
        "garbage": b"\xff\x00 no line of ours\n",
    }[damage]
    tail = b"" if damage == "cut" else b"".join(lines[6:])
    path.write_bytes(b"".join(lines[:5]) + hurt + tail)
    said: list[str] = []
    again = Journal(path, key, said.append)
    assert len(again.harvests(0)) == 4
    assert "line 6 is damaged" in said[0]
    assert same(search_front(model(), Terms(journal=again)), whole())
    again.close()
    assert sorted(path.read_bytes().splitlines()) == sorted(line.strip() for line in lines)


def test_a_journal_of_another_search_is_begun_anew(tmp_path: Path) -> None:
    path = tmp_path / "journal"
    dearer = replace(
        catalog(),
        sheets=tuple(replace(s, price_cents=s.price_cents + 1) for s in catalog().sheets),
    )
    assert key_of(room(), dearer) != key_of(room(), catalog())
    Journal(path, key_of(room(), dearer), nothing).close()
    said: list[str] = []
    Journal(path, key_of(room(), catalog()), said.append).close()
    assert "another search" in said[0]
