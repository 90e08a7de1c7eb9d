"""Where too many choices fail, the proof leans on the search earlier: the certificate still holds.

Rooms here have more than one large box both ways, and only some of those lean.
"""

from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest
from small_rooms import small_catalog, small_room

from steepwright.optimise import search
from steepwright.optimise.certificate import prove
from steepwright.optimise.certificate.levels import Ledger, Level, joined_levels, packed
from steepwright.room.types import Access, Room
from steepwright.verify.checker import verify_documents


def wide_room(seed: int) -> Room:
    """Return a small room with 71 x 71 grid points: two large boxes both ways."""
    room = small_room(seed)
    low = room.wall.kicker_mm[0]
    wall = replace(
        room.wall,
        step_mm=5,
        angle_deg=(30.0, 48.0),
        kicker_mm=(low, low + 350),
        board_mm=(2500, 2850),
    )
    return replace(room, wall=wall)


@pytest.mark.parametrize(("seed", "longest_mm"), [(3, 5000), (20, 5000), (3, 2560), (20, 2560)])
def test_a_proof_that_leans_in_some_boxes_holds(
    seed: int, longest_mm: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[bool] = []
    plain = prove.Proof._levels

    def told(proof: prove.Proof, corner: tuple[int, int], leaning: bool) -> list[Level] | None:
        asked.append(leaning)
        return plain(proof, corner, leaning)

    monkeypatch.setattr(prove, "ENOUGH", 30)
    monkeypatch.setattr(prove.Proof, "_levels", told)
    room = replace(wide_room(seed), access=Access((longest_mm, 1300)))
    result = search(room, small_catalog(seed), changes=False, certify=True, workers=1)
    assert 0 < sum(asked) < asked.count(False), "some large boxes lean and some don't"
    certificate = json.loads(json.dumps(result.certificate))
    verdict = verify_documents(certificate, json.loads(json.dumps(result.document)))
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.open_designs == 0
    levels = [one for part in certificate["parts"] for one in part["levels"]]
    asked_for = [one for one in levels if one["size"] > 1 and one["taken"]]
    assert asked_for, "the search's word was asked for in larger boxes, too"


def test_masks_lie_in_the_order_of_the_grid_and_leave_out_no_box() -> None:
    """Two large boxes side by side: the second one's first row comes before the first's second."""
    left, right = Level(1, 1, [0, 1], [0, 0], [0, 0]), Level(1, 1, [0], [64], [0])
    Ledger(left, np.array([0, 0, 1])).take("way in", np.array([True, False, True]))
    ledger = Ledger(right, np.array([0, 0, 0]))
    ledger.close("cost", np.array([False, True, False]))
    [level] = joined_levels([[left], [right]])
    by_row = np.array([True, False, False, False, True])
    assert level.document()["taken"]["way in"] == packed(by_row)
    assert level.left() == [1, 0, 2]


def test_what_ends_later_is_open_where_a_reason_was_not_asked_for() -> None:
    """One box that leans on the search and one that doesn't, of which two choices don't get in."""
    plain, leans = Level(1, 1, [0], [0], [0]), Level(1, 1, [0], [64], [0])
    Ledger(plain, np.zeros(5, dtype=np.int64)).take("way in", np.array([1, 0, 1, 0, 0], dtype=bool))
    ledger = Ledger(leans, np.zeros(3, dtype=np.int64))
    ledger.take("room with frame and lift", np.array([True, False, False]))
    ledger.take("way in", np.array([False, True]))
    ledger.take("other checks", np.array([True]))
    [level] = joined_levels([[plain], [leans]])
    taken = {
        name: "".join(str(int(x)) for x in np.concatenate(m)) for name, m in level.masks.items()
    }
    assert list(taken) == ["room with frame and lift", "way in", "other checks"]
    assert list(taken.values()) == ["00000" + "100", "10100" + "01", "000" + "1"]
