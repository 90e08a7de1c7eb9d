"""Rooms whose studs may be tied back: their certificates hold, and no change of them does."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import jsonschema
import pytest
from sealing import sealed
from small_rooms import tied_catalog, tied_room
from test_brute_force import TIED, model_of

from steepwright.optimise import search
from steepwright.optimise.drive import search_front
from steepwright.optimise.terms import Terms
from steepwright.resources import catalogs_dir
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]


@lru_cache(maxsize=8)
def _texts(seed: int) -> tuple[str, str]:
    result = search(tied_room(seed), tied_catalog(seed), changes=False, certify=True)
    return json.dumps(result.certificate), json.dumps(result.document)


def certified(seed: int) -> tuple[Doc, Doc]:
    certificate, document = (json.loads(text) for text in _texts(seed))
    return certificate, document


def tied(document: Doc) -> list[Doc]:
    return [design for design in document["designs"] if "tie_back" in design]


@pytest.mark.parametrize("seed", [8, 22, 71, 97, 120])
def test_the_certificate_holds(seed: int) -> None:
    certificate, document = certified(seed)
    verdict = verify_documents(certificate, document)
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.open_designs == 0
    assert bool(tied(document)) == (seed != 8)


def test_the_stair_is_that_of_plain_enumeration() -> None:
    """The front that `test_brute_force` compares with plain enumeration, which takes a minute."""
    assert 22 in TIED
    verdict = verify_documents(*certified(22))
    front = search_front(model_of(tied_room(22), tied_catalog(22)), Terms()).front
    scores = [score for score, _ in front.sorted()]
    assert len(scores) > 1
    for degree, step in verdict.degrees:
        steep = [s.cost_cents for s in scores if s.angle_mdeg >= 1000 * degree]
        assert (None if step is None else step["cost_cents"]) == min(steep, default=None), degree


@pytest.mark.parametrize("name", ["certificate", "designs"])
def test_files_keep_the_shipped_schema(name: str) -> None:
    path = catalogs_dir() / "schemas" / f"{name}.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    one = certified(71)[0 if name == "certificate" else 1]
    found = jsonschema.Draft202012Validator(schema).iter_errors(one)
    assert [error.message for error in found] == []


def sets(certificate: Doc) -> list[Doc]:
    return list(certificate["parts"][0]["given"]["ties"]["sets"])


def give_ties_away(certificate: Doc, document: Doc) -> None:
    """Given and billed alike for nothing: choices that need ties are then left open."""
    for one in sets(certificate):
        one["price_cents"] = 0


def stiffen_a_tie(certificate: Doc, _: Doc) -> None:
    for one in sets(certificate):
        one["stiffness_n"] *= 4


def stiffen_the_beam(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["given"]["ties"]["soft_mm_per_n"] /= 10


def leave_out_a_tie(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["space"]["ties"].pop()


def leave_the_beam_out(_: Doc, document: Doc) -> None:
    document["room"].pop("tie_beam")


def leave_a_tie_off_the_bill(_: Doc, document: Doc) -> None:
    design = tied(document)[0]
    design["bill"] = [x for x in design["bill"] if x["sku"] != design["tie_back"]["sku"]]


def hide_that_a_wall_is_tied(_: Doc, document: Doc) -> None:
    tied(document)[0].pop("tie_back")


def forget_the_undone_ties(_: Doc, document: Doc) -> None:
    for check in tied(document)[0]["checks"]:
        if check["name"] == "stud bending, ties undone":
            check["use"] *= 0.5


CHANGES: list[Callable[[Doc, Doc], None]] = [
    give_ties_away, stiffen_a_tie, stiffen_the_beam, leave_out_a_tie, leave_the_beam_out,
    leave_a_tie_off_the_bill, hide_that_a_wall_is_tied, forget_the_undone_ties,
]  # fmt: skip


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_caught(change: Callable[[Doc, Doc], None]) -> None:
    certificate, document = certified(71)
    assert sealed(certificate, document).holds, "before the change"
    change(certificate, document)
    assert not sealed(certificate, document).holds


def test_two_workers_write_the_same_bytes() -> None:
    again = search(tied_room(22), tied_catalog(22), changes=False, certify=True, workers=2)
    certificate, document = certified(22)
    assert json.loads(json.dumps(again.certificate)) == certificate
    assert json.loads(json.dumps(again.document))["designs"] == document["designs"]
