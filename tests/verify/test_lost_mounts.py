"""A checker that didn't know what a lost corner levers, or a file that says less, is caught."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from sealing import sealed
from small_rooms import lost_catalog, sideways_room, three_mounts, tiny_catalog, weak_slab_room

from steepwright.catalog.types import Catalog
from steepwright.optimise import search
from steepwright.room.types import Room
from steepwright.verify import hooked

Doc = dict[str, Any]


@lru_cache(maxsize=8)
def _texts(kind: str, seed: int) -> tuple[str, str]:
    room, catalog = made(kind, seed)
    result = search(room, catalog, changes=False, certify=True)
    return json.dumps(result.certificate), json.dumps(result.document)


def made(kind: str, seed: int) -> tuple[Room, Catalog]:
    """Walls on three mounts and more, under a beam or a slab."""
    if kind == "slab":
        return weak_slab_room(seed), three_mounts(tiny_catalog(seed))
    return sideways_room(seed, 260), lost_catalog(seed)


def certified(kind: str, seed: int) -> tuple[Doc, Doc]:
    certificate, document = (json.loads(text) for text in _texts(kind, seed))
    return certificate, document


def nothing_levers(at_mm: Any, middle_mm: Any, beyond: float) -> tuple[Any, Any]:
    return np.ones(at_mm.shape), np.ones(len(at_mm))


@pytest.mark.parametrize(("kind", "seed"), [("beam", 1), ("beam", 2), ("slab", 4), ("slab", 36)])
def test_what_a_lost_corner_levers_ends_walls(
    kind: str, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    certificate, document = certified(kind, seed)
    assert sealed(certificate, document).findings == []
    monkeypatch.setattr(hooked, "_lost", nothing_levers)
    codes = {finding.code for finding in sealed(certificate, document).findings}
    assert "certificate-built" in codes


@pytest.mark.parametrize(
    ("kind", "seed", "name"),
    [
        ("beam", 1, "one mount lost"),
        ("beam", 1, "ceiling beam, one mount lost"),
        ("slab", 4, "anchor working load"),
    ],
)
def test_designs_are_held_against_what_a_lost_corner_levers(
    kind: str, seed: int, name: str
) -> None:
    certificate, document = certified(kind, seed)
    design = document["designs"][0]
    assert design["mount_count"] > 2
    check = next(check for check in design["checks"] if check["name"] == name)
    check["use"] *= 0.99
    told = "; ".join(finding.message for finding in sealed(certificate, document).findings)
    assert f"{design['id']}: use of check '{name}'" in told
