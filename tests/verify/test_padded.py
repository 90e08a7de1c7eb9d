"""Pads on the bill: the checker lays them itself, and bounds every box by the least of them."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from sealing import sealed
from small_rooms import framed_catalog, framed_room, small_catalog, small_room

from steepwright.geometry.pads import Pad, Span, lay_pads
from steepwright.optimise import search
from steepwright.room.types import OwnPad
from steepwright.verify.checker import verify_documents
from steepwright.verify.pads import Pads

Doc = dict[str, Any]
SEED = 13


def kinds_of(r: random.Random) -> tuple[tuple[Pad, ...], Pads]:
    """Some kinds of pads as the search and as the checker have them; own ones are limited."""
    kinds: list[Pad] = []
    room: Doc = {"pads": []}
    given: Doc = {"pads": [], "factors": {"fall_mat_mm": 300, "fall_side_mm": 1500}}
    for n in range(r.choice([1, 2, 2, 3])):
        long = r.randrange(900, 2400, 50)
        wide = r.choice([long, long // 2, r.randrange(500, long + 1, 50)])
        sides = {"length_mm": long, "width_mm": wide, "thickness_mm": 300}
        cents, count = r.randrange(5000, 40000, 100), None
        if n and r.random() < 0.4:
            cents, count = 0, r.choice([1, 2, 3])
            room["pads"].append(sides | {"count": count})
        else:
            given["pads"].append(sides | {"price_cents": cents})
        kinds.append(Pad(str(n), long, wide, cents, count))
    return tuple(kinds), Pads(room, given)


def test_two_ways_to_lay_pads_cost_the_same() -> None:
    r = random.Random(11)
    differ = 0
    for _ in range(150):
        kinds, own = kinds_of(r)
        wanted, ahead = r.randrange(1500, 4500, 7), r.randrange(0, 900, 7)
        left, right = r.randrange(0, 2500, 11), r.randrange(0, 2500, 11)
        own.room |= {"width_mm": 1200 + left + right, "wall": {"align": "left"}}
        low, high = left, left + 1200
        out = Span((0, wanted), (0, wanted + ahead), anchored=True)
        across = Span((low - min(left, 1500), high + min(right, 1500)), (0, high + right))
        plain = lay_pads(kinds, out, across).cost_cents
        floors = np.array([[wanted], [wanted + ahead], [left], [right]])
        differ += plain != own.priced(floors, 1200, [1200])[0, 0]
    assert differ == 0


def test_a_wider_wall_has_less_clear_beside_it_and_more_to_pad() -> None:
    """One pad of 1 m x 1 m; the clear floor, counted by hand, is what the guidance asks for."""
    room: Doc = {"width_mm": 6000, "wall": {"align": "centre"}, "pads": []}
    sides = {"length_mm": 1000, "width_mm": 1000, "thickness_mm": 300}
    factors = {"fall_mat_mm": 300, "fall_side_mm": 1500}
    laid = Pads(room, {"pads": [sides | {"price_cents": 100}], "factors": factors})
    told = np.array([[2000], [2000], [2400], [2400]])  # 1200 mm wide, in the middle
    # 1200 + 2 x 1500 = 4200 want five pads across, 3000 + 3000 want six, all 6000 do as well.
    widths = [1200, 2000, 2100, 3000, 4000]
    assert laid.priced(told, 1200, widths).tolist() == [[1000, 1000, 1200, 1200, 1200]]


@lru_cache(maxsize=4)
def _texts(*own: OwnPad) -> tuple[str, str]:
    room = small_room(SEED)
    room = replace(room, pads=own, yard=replace(room.yard, pads_on_bill=True))
    result = search(room, small_catalog(SEED), changes=False, certify=True)
    return json.dumps(result.certificate), json.dumps(result.document)


def padded(*own: OwnPad) -> tuple[Doc, Doc]:
    """Return a small room's certificate and document, fresh copies at each call."""
    certificate, document = _texts(*own)
    return json.loads(certificate), json.loads(document)


@pytest.mark.parametrize("own", [(), (OwnPad("mine", 2000, 1000, 300, 2),)])
def test_a_certificate_with_pads_holds(own: tuple[OwnPad, ...]) -> None:
    certificate, document = padded(*own)
    verdict = verify_documents(certificate, document)
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.open_designs == 0
    assert any("look at the share that they cover" in text for text in document["assumptions"])
    for design in document["designs"]:
        lines = [line for line in design["bill"] if line["group"] == "pads"]
        assert sum(line["amount_cents"] for line in lines) == design["pads"]["cost_cents"] > 0


def resealed(certificate: Doc, document: Doc) -> list[str]:
    """Return what is told once all digests fit the changed files."""
    return [finding.text() for finding in sealed(certificate, document).findings]


def test_a_pad_left_off_the_bill_is_noticed() -> None:
    certificate, document = padded()
    design = document["designs"][0]
    line = next(line for line in design["bill"] if line["group"] == "pads")
    line["quantity"] -= 1
    line["amount_cents"] -= line["unit_cents"]
    design["cost_cents"] -= line["unit_cents"]
    assert any("cost of pads" in text for text in resealed(certificate, document))


def test_cheaper_pads_that_nobody_searched_with_are_noticed() -> None:
    certificate, document = padded()
    for part in certificate["parts"]:
        for pad in part["given"]["pads"]:
            pad["price_cents"] //= 2
    assert resealed(certificate, document)


def test_an_own_pad_that_nobody_searched_with_is_noticed() -> None:
    certificate, document = padded()
    document["room"]["pads"] = [
        {"name": "x", "length_mm": 2000, "width_mm": 1000, "thickness_mm": 300, "count": 9}
    ]
    assert resealed(certificate, document)


@pytest.mark.parametrize(
    ("where", "key", "value"),
    [("given", "length_mm", 0), ("given", "price_cents", -5), ("own", "count", 10**9),
     ("own", "width_mm", 1), ("room", "length_mm", 10**9)],
)  # fmt: skip
def test_absurd_figures_are_refused_and_not_worked_with(where: str, key: str, value: int) -> None:
    certificate, document = padded(OwnPad("mine", 2000, 1000, 300, 2))
    rows = {
        "given": certificate["parts"][0]["given"]["pads"],
        "own": document["room"]["pads"],
        "room": [document["room"]],
    }[where]
    rows[0][key] = value
    assert any(str(value) in text for text in resealed(certificate, document))


def test_no_pads_at_all_cost_nothing() -> None:
    room: Doc = {"yard": {"pads_on_bill": True}, "pads": []}
    laid = Pads(room, {"pads": [], "factors": {"fall_mat_mm": 300}})
    assert laid.kinds == ()
    assert np.array_equal(laid.cents("+x", None, None, np.zeros((2, 2))), np.zeros((2, 2)))  # type: ignore[arg-type]


def test_pads_lie_between_a_frames_feet_for_both() -> None:
    room, catalog = framed_room(2), framed_catalog(2)
    room = replace(room, yard=replace(room.yard, pads_on_bill=True))
    result = search(room, catalog, changes=False, certify=True)
    verdict = verify_documents(
        *(json.loads(json.dumps(r)) for r in (result.certificate, result.document))
    )
    assert [finding.text() for finding in verdict.findings] == []
    (beam,) = room.beams
    assert beam.stand is not None
    for design in result.document["designs"]:
        foot = (room.width_mm + beam.span_mm) // 2 - beam.stand.post_mm[0] // 2
        assert all(pad["y_mm"][1] <= foot for pad in design["pads"]["laid"])
        assert design["pads"]["cost_cents"] > 0
