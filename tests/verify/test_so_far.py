"""The certificate of a stopped search: what is proved holds, what is open is told, in full."""

from __future__ import annotations

import json
from collections.abc import Callable
from concurrent.futures import Executor, Future
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from sealing import sealed

from steepwright.catalog import Catalog
from steepwright.cli.console import SO_FAR, run
from steepwright.room.types import Room
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
Made = Callable[[int], tuple[Doc, Doc]]

SEED = 5


class Interrupting(Executor):
    """Works at once, and is interrupted by the user at a given unit."""

    def __init__(self, at: int) -> None:
        self._left = at

    def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]
        if not self._left:
            raise KeyboardInterrupt
        self._left -= 1
        done: Future[Any] = Future()
        done.set_result(fn(*args, **kwargs))
        return done


def asked() -> tuple[Room, Catalog]:
    """Steps fine enough that the search has several units after those that sow."""
    from small_rooms import small_catalog, small_room

    coarse, whole = small_room(SEED), small_catalog(SEED)
    wall = replace(coarse.wall, step_mm=10, kicker_mm=(0, 60), board_mm=(2200, 3200))
    room = replace(coarse, wall=replace(wall, max_columns=1))
    return room, replace(whole, sheets=whole.sheets[:2], mounts=whole.mounts[:1])


@lru_cache(maxsize=4)
def texts(at: int) -> tuple[str, str]:
    from steepwright.optimise import search

    result = search(*asked(), certify=True, executor=Interrupting(at))
    return json.dumps(result.certificate), json.dumps(result.document)


def stopped(at: int) -> tuple[Doc, Doc]:
    certificate, document = texts(at)
    return json.loads(certificate), json.loads(document)


@lru_cache(maxsize=1)
def cheapest() -> dict[int, int | None]:
    """Return the cheapest of every degree by the whole search."""
    from steepwright.optimise import search

    designs = search(*asked(), changes=False).document["designs"]
    return {
        d: min((row["cost_cents"] for row in designs if row["angle_deg"] >= d), default=None)
        for d in range(90)
    }


@pytest.mark.parametrize("at", [5, 7, 9])
def test_what_is_proved_is_what_the_whole_search_finds(at: int) -> None:
    certificate, document = stopped(at)
    assert document["complete"] is certificate["complete"] is False
    verdict = verify_documents(certificate, document)
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.left_designs > 0
    assert verdict.open_designs == 0
    assert len(verdict.unsettled) > 0
    for degree, said in verdict.degrees:
        if degree not in verdict.unsettled:
            assert (None if said is None else said["cost_cents"]) == cheapest()[degree]
    wrong = {d for d, said in verdict.degrees if said and said["cost_cents"] != cheapest()[d]}
    assert wrong <= verdict.unsettled


def drop_an_open_box(certificate: Doc) -> None:
    certificate["parts"][0]["open_boxes"].pop()


def open_one_more(certificate: Doc) -> None:
    boxes = certificate["parts"][0]["open_boxes"]
    boxes.append(next(box for box in ([64, 0, 0, 0], [64, 0, 64, 0]) if box not in boxes))


def hide_all_that_is_open(certificate: Doc) -> None:
    for part in certificate["parts"]:
        part["open_boxes"] = []
        for level in part["levels"]:
            level["closed"].pop("open", None)


def call_it_cost(certificate: Doc) -> None:
    """The open choices are counted among those whose cost is enough."""
    for part in certificate["parts"]:
        part["open_boxes"] = []
        for level in part["levels"]:
            counts = level["closed"].pop("open", None)
            if counts is not None:
                before = level["closed"].get("cost", [0] * len(counts))
                level["closed"]["cost"] = [a + b for a, b in zip(before, counts, strict=True)]


def cheapen_a_sheet(certificate: Doc) -> None:
    for family in certificate["parts"][0]["given"]["families"]:
        for row in family["stock"]:
            row["price_cents"] //= 4


@pytest.mark.parametrize(
    "change",
    [drop_an_open_box, open_one_more, hide_all_that_is_open, call_it_cost, cheapen_a_sheet],
)
@pytest.mark.parametrize("at", [5, 9])
def test_a_change_is_caught(change: Callable[[Doc], None], at: int) -> None:
    certificate, document = stopped(at)
    change(certificate)
    assert not sealed(certificate, document).holds


def test_it_can_not_be_passed_off_as_finished() -> None:
    for who in (0, 1, 2):
        pair = stopped(7)
        for n, held in enumerate(pair):
            if who in (n, 2):
                held["complete"] = True
        assert not sealed(*pair).holds


def test_a_finished_one_has_nothing_open(certified: Made) -> None:
    certificate, document = certified(1)
    assert certificate["parts"][0]["open_boxes"] == []
    certificate["complete"] = document["complete"] = False
    verdict = sealed(certificate, document)
    assert verdict.holds
    assert not verdict.unsettled
    assert not verdict.left_designs


def test_the_command_tells_what_is_open_and_has_an_exit_code_of_its_own(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name, held in zip(("certificate.json", "designs.json"), stopped(7), strict=True):
        (tmp_path / name).write_text(json.dumps(held), encoding="utf-8")
    assert run(["verify", str(tmp_path)]) == SO_FAR
    out = capsys.readouterr().out
    assert out.startswith("Proved so far, ")
    assert "open, a cheaper one may exist" in out
    assert run(["verify", str(tmp_path), "--json"]) == SO_FAR
    told = json.loads(capsys.readouterr().out)
    assert told["complete"] is False
    assert told["open_designs"] > 0
    assert not all(row["settled"] for row in told["degrees"])
