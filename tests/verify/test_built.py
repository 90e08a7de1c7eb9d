"""Walls that end as they would be built: a loosened rule, or more said than is so, is caught."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import pytest
import small_rooms
from sealing import sealed

from steepwright.optimise import search
from steepwright.verify.joists import OF_JOISTS
from steepwright.verify.ledgers import OF_LEDGERS
from steepwright.verify.slabs import OF_SLABS
from steepwright.verify.standing import OF_FRAMES

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


def ended(certificate: Doc) -> int:
    """Return how many choices end by what is written down one by one."""
    closed = [level["closed"] for level in certificate["parts"][0]["levels"]]
    return sum(sum(one.get(reason, [])) for one in closed for reason in ("built", "way in"))


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


def let_beams_split_later(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["kept_divisor"] /= 10


def oil_the_sheaves(certificate: Doc, _: Doc) -> None:
    given(certificate)["sheaves"][:] = [1.0]


def stiffen_ties(certificate: Doc, _: Doc) -> None:
    for tie in given(certificate)["ties"]["sets"]:
        tie["stiffness_n"] *= 8


def strengthen_tie_bolts(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["lip_bolt_tensile_mpa"] *= 4


def push_frames_less(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["frame_sideways_share"] /= 5


def brace_frames_lower(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["frame_knee_mm"] *= 1.6


def take_the_load_off(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        beam["existing_load_n_per_m"] = 0.0


def let_beams_sag(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["deflection_beam_ratio"] /= 4


def move_supports_apart(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        beam["span_mm"] *= 2


def measure_better(_: Doc, document: Doc) -> None:
    document["room"]["wall"]["tolerance_mm"] = 1


def rate_ledger_anchors_higher(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        if beam["ledger"]["rated_n"]:
            beam["ledger"]["rated_n"] *= 3


def thicken_ledger_screws(certificate: Doc, _: Doc) -> None:
    for screw in given(certificate)["ledger_screws"].values():
        screw["root_mm"] *= 1.3
        screw["tensile_mpa"] *= 2


def let_screws_work_together(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        if beam["ledger"]["wall"] == "studs":
            beam["ledger"]["screws"] += 2


def rate_slab_anchors_higher(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        beam["anchor_rated_n"] = 1.6 * (beam["anchor_rated_n"] or 0.0)


def deepen_joists(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        beam["spreader"]["joist_mm"][1] *= 2


def lengthen_coach_screws(certificate: Doc, document: Doc) -> None:
    given(certificate)["factors"]["washer_bearing_factor"] *= 3
    for beam in document["room"]["beams"]:
        beam["spreader"].update(screw_mm=[10, 300], lining_mm=0)


def share_among_more_joists(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        ends = beam["spreader"]["joists_mm"]
        beam["spreader"]["joists_mm"] = list(range(ends[0], ends[-1] + 1, 100))


def widen_the_way_in(_: Doc, document: Doc) -> None:
    access = document["room"]["access"]
    access.update(max_piece_mm=None, doors=[], corridors=[], stairs=[], max_carry_kg=None)


@pytest.mark.parametrize(
    ("kind", "seed", "change"),
    [
        ("tied", 8, strengthen_mounts),
        ("tied", 8, widen_plates),
        ("spreader", 59, let_screws_sit_closer),
        ("tied", 7, let_beams_split_later),
        ("tiny", 20, oil_the_sheaves),
        ("tied", 120, stiffen_ties),
        ("tied", 71, strengthen_tie_bolts),
        ("weak_frames", 34, push_frames_less),
        ("weak_frames", 34, brace_frames_lower),
        ("weak_frames", 14, take_the_load_off),
        ("weak_frames", 14, let_beams_sag),
        ("weak_frames", 34, move_supports_apart),
        ("weak_ledger", 34, rate_ledger_anchors_higher),
        ("weak_ledger", 3, thicken_ledger_screws),
        ("weak_ledger", 8, let_screws_work_together),
        ("weak_slab", 14, rate_slab_anchors_higher),
        ("spreader", 11, deepen_joists),
        ("spreader", 11, let_beams_sag),
        ("spreader", 8, lengthen_coach_screws),
        ("weak_spreader", 8, share_among_more_joists),
        ("doubtful", 3, measure_better),
        ("small", 3, widen_the_way_in),
    ],
)
def test_a_loosened_rule_is_caught(kind: str, seed: int, change: Change) -> None:
    certificate, document = certified(kind, seed)
    assert sealed(certificate, document).findings == []
    assert ended(certificate) > 0
    change(certificate, document)
    codes = {finding.code for finding in sealed(certificate, document).findings}
    assert "certificate-built" in codes


@pytest.mark.parametrize(
    ("kind", "seed"),
    [
        ("weak_frames", 74),
        ("weak_frames", 14),
        ("weak_frames", 34),
        ("weak_ledger", 2),
        ("weak_ledger", 8),
        ("weak_slab", 14),
        ("weak_spreader", 8),
        ("spreader", 8),
        ("doubtful", 2),
        ("doubtful", 3),
        ("doubtful", 4),
    ],
)
def test_nothing_of_these_rests_on_the_searchs_word(kind: str, seed: int) -> None:
    certificate, document = certified(kind, seed)
    verdict = sealed(certificate, document)
    assert verdict.findings == []
    assert verdict.taken == {}
    assert ended(certificate) > 0


@pytest.mark.parametrize(
    ("kind", "seed", "names"),
    [
        ("weak_ledger", 3, OF_LEDGERS),
        ("weak_ledger", 34, OF_LEDGERS),
        ("weak_slab", 14, OF_SLABS),
        ("spreader", 8, OF_JOISTS),
        ("framed", 2, OF_FRAMES),
    ],
)
def test_designs_are_held_against_what_holds_their_beam_up(
    kind: str, seed: int, names: tuple[str, ...]
) -> None:
    certificate, document = certified(kind, seed)
    design = next(d for d in document["designs"] if names[0] in {c["name"] for c in d["checks"]})
    used = [check for check in design["checks"] if check["name"] in names and check["use"] > 0.01]
    assert len(used) > len(names) - 3
    for check in used:
        right, check["use"] = check["use"], check["use"] / 2
        told = "; ".join(finding.message for finding in sealed(certificate, document).findings)
        assert f"{design['id']}: use of check '{check['name']}'" in told
        check["use"] = right
    assert sealed(certificate, document).findings == []


def test_what_only_the_search_can_tell_is_not_told_as_this() -> None:
    certificate, document = certified("tied", 22)
    level = points(certificate)
    assert sealed(certificate, document).taken, "some rests on the search's word"
    level["closed"]["built"], level["built"] = (
        level[name].pop("other checks") for name in ("closed", "taken")
    )
    verdict = sealed(certificate, document)
    assert "certificate-built" in {finding.code for finding in verdict.findings}


def faults(change: Change, seed: int) -> str:
    certificate, document = certified("small", seed)
    assert sealed(certificate, document).findings == []
    change(certificate, document)
    return "; ".join(finding.message for finding in sealed(certificate, document).findings)


def test_designs_are_held_against_what_is_in_their_frames_way() -> None:
    def hang_a_shelf(_: Doc, document: Doc) -> None:
        design, room = document["designs"][0], document["room"]
        back = -1 if design["facing"] == "+x" else 1
        beam = next(b for b in room["beams"] if b["name"] == design["beam"])
        way = sorted(beam["x_mm"] + back * at for at in (1500, 1800))
        shelf = {"name": "shelf", "x_mm": way, "y_mm": [0, 4000], "z_mm": [1600, 1900]}
        room["solids"].append(shelf)

    assert certified("small", 4)[1]["room"]["wall"]["fold_up"]
    assert "frame or lift" in faults(hang_a_shelf, seed=4)


def test_designs_must_fit_however_the_measures_turn_out() -> None:
    def measure_worse(_: Doc, document: Doc) -> None:
        document["room"]["wall"]["tolerance_mm"] = 60

    certificate, document = certified("doubtful", 2)
    measure_worse(certificate, document)
    told = "; ".join(finding.message for finding in sealed(certificate, document).findings)
    assert "the wall may not fit the room" in told


def test_designs_are_held_against_the_way_in() -> None:
    def narrow_the_door(_: Doc, document: Doc) -> None:
        document["room"]["access"]["doors"] = [{"name": "hatch", "width_mm": 500, "height_mm": 500}]

    assert "a piece does not get in" in faults(narrow_the_door, seed=3)


def test_what_does_not_get_in_ends_at_whole_boxes_and_is_looked_at_there() -> None:
    """Carried down to single lengths, a room with a narrow way took ten times as long to prove."""
    certificate, document = certified("tiny", 20)
    levels = certificate["parts"][0]["levels"]
    large = [one for one in levels if one["size"] > 1 and "way in" in one["taken"]]
    assert sum(sum(one["closed"]["way in"]) for one in large) > 0
    verdict = sealed(certificate, document)
    assert verdict.findings == []
    assert "way in" not in verdict.taken
    widen_the_way_in(certificate, document)
    assert "certificate-built" in {one.code for one in sealed(certificate, document).findings}
