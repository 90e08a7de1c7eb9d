"""Walls that end as they would be built: a loosened rule, or more said than is so, is caught."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import pytest
import small_rooms
from test_mutations import sealed

from steepwright.optimise import search

Doc = dict[str, Any]
Change = Callable[[Doc, Doc], object]


@lru_cache(maxsize=8)
def _texts(kind: str, seed: int) -> tuple[str, str]:
    room = getattr(small_rooms, f"{kind}_room")(seed)
    catalog = getattr(small_rooms, f"{kind}_catalog")(seed)
    result = search(room, catalog, changes=False, certify=True)
    return json.dumps(result.certificate), json.dumps(result.document)


def certified(kind: str, seed: int) -> tuple[Doc, Doc]:
    certificate, document = (json.loads(text) for text in _texts(kind, seed))
    return certificate, document


def points(certificate: Doc) -> Doc:
    levels = certificate["parts"][0]["levels"]
    return next(one for one in levels if one["size"] == 1)


def given(certificate: Doc) -> Doc:
    return dict(certificate["parts"][0]["given"])


def strengthen_mounts(certificate: Doc, _: Doc) -> None:
    for mount in given(certificate)["mounts"]:
        mount["screws"] *= 4
        mount["tensile_mpa"] *= 3


def widen_plates(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["prise_arm_share"] *= 2


def let_screws_sit_closer(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["axial_screw_width_d"] /= 3
    given(certificate)["factors"]["axial_screw_depth_d"] /= 3


def oil_the_sheaves(certificate: Doc, _: Doc) -> None:
    given(certificate)["sheaves"][:] = [1.0]


def stiffen_ties(certificate: Doc, _: Doc) -> None:
    for tie in given(certificate)["ties"]["sets"]:
        tie["stiffness_n"] *= 4


@pytest.mark.parametrize(
    ("kind", "seed", "change"),
    [
        ("tied", 8, strengthen_mounts),
        ("tied", 8, widen_plates),
        ("tied", 7, let_screws_sit_closer),
        ("tiny", 20, oil_the_sheaves),
        ("tied", 4, stiffen_ties),
    ],
)
def test_a_loosened_rule_is_caught(kind: str, seed: int, change: Change) -> None:
    certificate, document = certified(kind, seed)
    assert sealed(certificate, document).findings == []
    assert sum(points(certificate)["closed"]["built"]) > 0
    change(certificate, document)
    codes = {finding.code for finding in sealed(certificate, document).findings}
    assert "certificate-built" in codes


def test_what_only_the_search_can_tell_is_not_told_as_this() -> None:
    certificate, document = certified("tied", 22)
    level = points(certificate)
    assert sealed(certificate, document).taken, "some rests on the search's word"
    level["closed"]["built"], level["built"] = (
        level[name].pop("other checks") for name in ("closed", "taken")
    )
    verdict = sealed(certificate, document)
    assert "certificate-built" in {finding.code for finding in verdict.findings}
