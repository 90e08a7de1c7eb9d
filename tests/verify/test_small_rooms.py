"""Certificates of small random rooms hold, and claim what plain enumeration finds."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from small_rooms import small_catalog, small_room
from test_brute_force import plain_front

from steepwright.optimise.model import build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.walls import workshop
from steepwright.pricing.market import build_market
from steepwright.resources import catalogs_dir
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
Made = Callable[[int], tuple[Doc, Doc]]

SEEDS = [1, 2, 3, 4, 10, 13, 20, 39]


@pytest.mark.parametrize("seed", SEEDS)
def test_the_certificate_holds(certified: Made, seed: int) -> None:
    verdict = verify_documents(*certified(seed))
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.open_designs == 0
    assert verdict.boxes > 1


def test_the_stair_is_that_of_plain_enumeration(certified: Made) -> None:
    """Every whole degree's cheapest cost, by pricing and checking every wall of the room."""
    certificate, document = certified(10)
    verdict = verify_documents(certificate, document)
    room, catalog = small_room(10), small_catalog(10)
    model = build_model(build_space(build_market(room, catalog)))
    scores = [score for score, _ in plain_front(workshop(model)).sorted()]
    for degree, step in verdict.degrees:
        steep = [s.cost_cents for s in scores if s.angle_mdeg >= 1000 * degree]
        assert (None if step is None else step["cost_cents"]) == min(steep, default=None), degree
    assert len({step["cost_cents"] for _, step in verdict.degrees if step}) > 1


def test_the_designs_counted_are_those_of_the_search(certified: Made) -> None:
    certificate, document = certified(1)
    verdict = verify_documents(certificate, document)
    assert verdict.designs == document["counts"]["designs_in_space"]
    closed = sum(
        sum(counts) * cells(part, level, n)
        for part in certificate["parts"]
        for level in part["levels"]
        for counts in [list(level["closed"].values())]
        for n, counts in enumerate(zip(*counts, strict=True))
    )
    space = certificate["parts"][0]["space"]
    hung = 2 * len(space["mount_counts"]) * len(space["screws_mm"])
    assert closed * hung == verdict.designs, "what ends somewhere is all there is"


def cells(part: Doc, level: Doc, n: int) -> int:
    """Return how many grid points of 200 mm lie in a box; the small rooms' step."""
    count = 1
    for name, at in (("boards_mm", "row"), ("kickers_mm", "column")):
        first, last = part["space"][name]
        count *= min(level["size"], (last - first) // 200 + 1 - level[at][n])
    return count


def test_the_certificate_keeps_the_shipped_schema(certified: Made) -> None:
    path = catalogs_dir() / "schemas" / "certificate.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for seed in (1, 10):
        certificate, _ = certified(seed)
        assert [error.message for error in validator.iter_errors(certificate)] == []


def test_a_second_run_gives_the_same_bytes_on_two_workers(certified: Made) -> None:
    from steepwright.optimise import search

    again = search(small_room(4), small_catalog(4), changes=False, certify=True, workers=2)
    assert json.loads(json.dumps(again.certificate)) == certified(4)[0]
