"""The shipped JSON Schema, held against documents by an independent library."""

from __future__ import annotations

import copy
import json
from typing import Any

import jsonschema
import pytest

from steepwright.resources import catalogs_dir

Doc = dict[str, Any]


@pytest.fixture(scope="module")
def validator() -> Any:
    path = catalogs_dir() / "schemas" / "designs.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_a_document_satisfies_the_schema(validator: Any, document: Doc) -> None:
    assert [error.message for error in validator.iter_errors(document)] == []


BREAKS: dict[str, Any] = {
    "format": lambda d: d.update(format="steepwright designs 2"),
    "cost as text": lambda d: d["designs"][0].update(cost_cents="12"),
    "cost in parts of a cent": lambda d: d["designs"][0].update(cost_cents=12.5),
    "facing": lambda d: d["designs"][0].update(facing="x"),
    "bill group": lambda d: d["designs"][0]["bill"][0].update(group="other"),
    "unknown key in a cut": lambda d: d["designs"][0]["cut_plan"]["sheets"][0]["cuts"][0].update(
        depth=1
    ),
    "missing caution": lambda d: d.update(cautions=[]),
    "missing part of a design": lambda d: d["designs"][0].pop("fall_space_mm"),
    "negative size": lambda d: d["designs"][0]["pieces"][0].update(length_mm=-1),
    "long cloud": lambda d: d.update(cloud=[[40.0, 1, 2]] * 601),
    "severity": lambda d: d["findings"][0].update(severity="hint"),
}


@pytest.mark.parametrize("name", BREAKS)
def test_a_broken_document_is_refused(validator: Any, document: Doc, name: str) -> None:
    broken = copy.deepcopy(document)
    BREAKS[name](broken)
    assert list(validator.iter_errors(broken))
