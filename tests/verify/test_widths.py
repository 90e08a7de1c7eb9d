"""The certificate speaks of every width that is asked for, and whoever takes one out is found out.

Room 216 is one where a wider wall costs less than every wall of the least width; in room 436 single
widths are left to be looked at. Rooms from 600 on have pads on the bill, which cost more or less at
each width. Each change is sealed again, so that the hashes catch nothing.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sealing import columns, sealed
from small_rooms import some_widths, tiny_catalog
from test_brute_force import plain_front

from steepwright.cli.console import run
from steepwright.optimise.model import build_wide_model
from steepwright.optimise.space import build_space
from steepwright.optimise.walls import workshop
from steepwright.pricing.market import build_market
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
Made = Callable[[int], tuple[Doc, Doc]]
Change = Callable[[Doc, Doc], object]

SEEDS = [216, 241, 259, 429, 436, 503, 505, 614, 616, 641, 729, 736]


@pytest.mark.parametrize("seed", SEEDS)
def test_the_certificate_holds_for_every_width(certified: Made, seed: int) -> None:
    certificate, document = certified(seed)
    verdict = verify_documents(certificate, document)
    assert [finding.text() for finding in verdict.findings] == []
    least, most = document["room"]["wall"]["width_mm"]
    step = document["room"]["wall"]["step_mm"]
    assert verdict.widths_mm == (least, most - (most - least) % step)
    assert verdict.designs == document["counts"]["designs_in_space"]
    assert not verdict.taken


def test_a_single_width_is_told_as_one(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    certificate, document = certified(4)
    for name, held in (("certificate.json", certificate), ("designs.json", document)):
        (tmp_path / name).write_text(json.dumps(held), encoding="utf-8")
    assert run(["verify", str(tmp_path)]) == 0
    assert "walls 1200 mm wide" in capsys.readouterr().out


@pytest.mark.parametrize("seed", [16, 41])
def test_the_stair_is_that_of_plain_enumeration(certified: Made, seed: int) -> None:
    """Every whole degree's cheapest cost, by pricing and checking every wall of every width."""
    verdict = verify_documents(*certified(200 + seed))
    model = build_wide_model(build_space(build_market(some_widths(seed), tiny_catalog(seed))))
    assert model.wider is not None
    scores = [score for score, _ in plain_front(workshop(model.wider)).sorted()]
    for degree, step in verdict.degrees:
        steep = [s.cost_cents for s in scores if s.angle_mdeg >= 1000 * degree]
        assert (None if step is None else step["cost_cents"]) == min(steep, default=None), degree


def test_what_ends_somewhere_is_all_there_is(certified: Made) -> None:
    """Counted with the lengths and widths of each box; here every choice can have every width."""
    certificate, document = certified(436)
    step, counted = document["room"]["wall"]["step_mm"], 0
    space = certificate["parts"][0]["space"]
    count = {name: (last - first) // step + 1 for name, (first, last) in lengths(space).items()}
    for level in certificate["parts"][0]["levels"]:
        for n in range(len(level["row"])):
            ended = sum(reasons[n] for reasons in level["closed"].values())
            rows = min(level["size"], count["boards_mm"] - level["row"][n])
            across = min(level["size"], count["kickers_mm"] - level["column"][n])
            widths = min(level["widths"], count["widths_mm"] - level["width"][n])
            counted += ended * rows * across * widths
    hung = 2 * len(space["mount_counts"]) * len(space["screws_mm"])
    assert counted * hung == certificate["designs_in_space"]


def lengths(space: Doc) -> Doc:
    return {name: space[name] for name in ("boards_mm", "kickers_mm", "widths_mm")}


def first_part(certificate: Doc) -> Doc:
    return dict(certificate["parts"][0])


def ranges(certificate: Doc) -> list[Doc]:
    """Return the levels at single lengths, the widest range first."""
    return [level for level in first_part(certificate)["levels"] if level["size"] == 1]


def drop_the_greatest_width(certificate: Doc, _: Doc) -> None:
    certificate["widths_mm"][1] -= 10
    first_part(certificate)["space"]["widths_mm"][1] -= 10


def claim_the_least_width_alone(certificate: Doc, _: Doc) -> None:
    certificate["widths_mm"][1] = certificate["widths_mm"][0]
    first_part(certificate)["space"]["widths_mm"][1] = certificate["widths_mm"][0]


def claim_a_wider_wall(certificate: Doc, _: Doc) -> None:
    certificate["widths_mm"][1] += 10


def ask_for_a_wider_wall(_: Doc, document: Doc) -> None:
    document["room"]["wall"]["width_mm"][1] += 10


def ask_for_the_least_width_alone(_: Doc, document: Doc) -> None:
    wall = document["room"]["wall"]
    wall["width_mm"][1] = wall["width_mm"][0]


def drop_a_range(certificate: Doc, _: Doc) -> None:
    for column in columns(ranges(certificate)[-1]):
        column.pop()


def drop_a_level_of_ranges(certificate: Doc, _: Doc) -> None:
    first_part(certificate)["levels"].pop()


def widen_the_ranges(certificate: Doc, _: Doc) -> None:
    ranges(certificate)[-1]["widths"] *= 2


def move_a_range(certificate: Doc, _: Doc) -> None:
    last = ranges(certificate)[-1]
    last["width"][-1] += last["widths"]


def close_a_range_at_once(certificate: Doc, _: Doc) -> None:
    """What went on to narrower ranges is said to end in the wider one."""
    before = ranges(certificate)[-2]
    for n, reached in enumerate(before["families"]):
        ended = sum(reasons[n] for reasons in before["closed"].values())
        before["closed"]["solved"][n] += reached - ended
    first_part(certificate)["levels"].pop()


def raise_a_bound_of_sheets_over_a_range(certificate: Doc, _: Doc) -> None:
    ranges(certificate)[-1]["sheets"][0][4] += 1


def begin_a_bound_of_sheets_elsewhere(certificate: Doc, _: Doc) -> None:
    ranges(certificate)[-1]["sheets"][0][2] ^= 1


def take_a_bound_from_another_range(certificate: Doc, _: Doc) -> None:
    """The greatest bound of a level stands for all: sheets of some walls for those of others."""
    every = [level["sheets"] for level in ranges(certificate)]
    facts = [some for some in every if len({fact[4] for fact in some}) > 1][-1]
    most = max(fact[4] for fact in facts)
    for fact in facts:
        fact[4] = most


def cheapen_every_cut(certificate: Doc, _: Doc) -> None:
    for family in first_part(certificate)["given"]["families"]:
        for row in family["stock"]:
            row["cut_cents"] //= 2


CHANGES: list[Change] = [
    drop_the_greatest_width,
    claim_the_least_width_alone,
    claim_a_wider_wall,
    ask_for_a_wider_wall,
    ask_for_the_least_width_alone,
    drop_a_range,
    drop_a_level_of_ranges,
    widen_the_ranges,
    move_a_range,
    close_a_range_at_once,
    raise_a_bound_of_sheets_over_a_range,
    begin_a_bound_of_sheets_elsewhere,
    take_a_bound_from_another_range,
    cheapen_every_cut,
]


@pytest.mark.parametrize("seed", [436, 736])
@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_caught(certified: Made, change: Change, seed: int) -> None:
    certificate, document = certified(seed)
    assert sealed(copy.deepcopy(certificate), document).holds, "before the change"
    change(certificate, document)
    verdict = sealed(certificate, document)
    codes = {finding.code for finding in verdict.findings}
    assert codes - {"certificate-damaged"}, [finding.text() for finding in verdict.findings]


def cheapen_every_pad(certificate: Doc, _: Doc) -> None:
    for pad in first_part(certificate)["given"]["pads"]:
        pad["price_cents"] -= 100


def own_a_pad(_: Doc, document: Doc) -> None:
    pad = {"name": "x", "length_mm": 2000, "width_mm": 1000, "thickness_mm": 300, "count": 9}
    document["room"]["pads"] = [pad]


def take_what_stands_before_wider_walls_away(_: Doc, document: Doc) -> None:
    document["room"]["solids"] = []


def ask_for_no_pads(_: Doc, document: Doc) -> None:
    document["room"]["yard"]["pads_on_bill"] = False


PAD_CHANGES: list[Change] = [
    cheapen_every_pad,
    own_a_pad,
    take_what_stands_before_wider_walls_away,
    ask_for_no_pads,
]


@pytest.mark.parametrize("seed", [616, 641])
@pytest.mark.parametrize("change", PAD_CHANGES)
def test_a_change_of_pads_is_caught(certified: Made, change: Change, seed: int) -> None:
    """And not only by the designs' own bills: something is missed, or can't be shown."""
    certificate, document = certified(seed)
    change(certificate, document)
    codes = {finding.code for finding in sealed(certificate, document).findings}
    assert codes & {"certificate-open", "certificate-closed", "certificate-bound"}, codes


@pytest.mark.parametrize("seed", [216, 616, 641])
def test_a_wider_wall_that_nobody_found_is_missed(certified: Made, seed: int) -> None:
    """Without the walls that are wider than they must be the stair is higher than can be shown.

    In the rooms with pads they are cheaper for having less to pad.
    """
    certificate, document = certified(seed)
    least = document["room"]["wall"]["width_mm"][0]
    kept = [d for d in document["designs"] if d["width_mm"] == least]
    gone = {d["id"] for d in document["designs"]} - {d["id"] for d in kept}
    assert gone
    document["designs"] = kept
    certificate["steps"] = [s for s in certificate["steps"] if s["id"] not in gone]
    for one in certificate["degrees"]:
        if one["cheapest"] and one["cheapest"]["id"] in gone:
            one["cheapest"] = None
    codes = {finding.code for finding in sealed(certificate, document).findings}
    assert codes & {"certificate-open", "certificate-closed"}
