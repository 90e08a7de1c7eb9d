"""The checker has its own copy of the rules; what changes them has to change it too."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from steepwright.catalog.types import Code

sys.path.insert(0, str(Path(__file__).parents[1] / "optimise"))
sys.path.insert(0, str(Path(__file__).parent))


@pytest.mark.parametrize(("seed", "code"), [(4, "EN 1995"), (13, "EN 1995"), (4, "NDS")])
def test_the_checker_agrees_with_the_search(seed: int, code: Code) -> None:
    """Where this fails, `steepwright.verify` lacks a rule, price or limit that was changed."""
    from small_rooms import in_code, small_catalog, small_room

    from steepwright.optimise import search
    from steepwright.verify.checker import verify_documents

    room, catalog = in_code(code, small_room(seed), small_catalog(seed))
    result = search(room, catalog, changes=False, certify=True)
    pair = (json.loads(json.dumps(one)) for one in (result.certificate, result.document))
    assert [finding.text() for finding in verify_documents(*pair).findings] == []


@pytest.mark.parametrize(
    ("kind", "seed", "code"),
    [
        ("tiny", 1, "EN 1995"),
        ("tiny", 3, "NDS"),
        ("joist", 2, "EN 1995"),
        ("joist", 5, "NDS"),
        ("joist", 8, "EN 1995"),
        ("tied", 22, "EN 1995"),
        ("tied", 71, "EN 1995"),
        ("wide", 5, "EN 1995"),
        ("wide", 18, "EN 1995"),
        ("beside", 3, "EN 1995"),
        ("beside", 5, "NDS"),
        ("framed", 2, "EN 1995"),
        ("weak_frames", 3, "EN 1995"),
        ("weak_frames", 14, "EN 1995"),
        ("weak_frames", 34, "EN 1995"),
        ("weak_ledger", 3, "EN 1995"),
        ("weak_ledger", 8, "EN 1995"),
        ("weak_ledger", 14, "EN 1995"),
        ("weak_slab", 2, "EN 1995"),
        ("weak_slab", 14, "NDS"),
        ("weak_spreader", 8, "EN 1995"),
        ("weak_spreader", 16, "EN 1995"),
        ("weak_spreader", 8, "NDS"),
        ("spreader", 8, "NDS"),
    ],
)
def test_single_walls_are_judged_alike(kind: str, seed: int, code: Code) -> None:
    """What the checker says of walls as they would be built, against the search, wall by wall."""
    from single_walls import both_ways

    seen = both_ways(kind, seed, code)
    for name, (theirs, own) in seen.uses.items():
        assert own == pytest.approx(theirs, rel=1e-5, abs=1e-9), name
    fits, mine = seen.room
    assert (mine == fits).all()


@pytest.mark.parametrize(
    ("kind", "seed", "tolerance_mm"),
    [("tiny", 1, 3), ("small", 5, 20), ("framed", 8, 20), ("beside", 4, 20), ("wide", 13, 5)],
)
def test_walls_fit_alike_where_measures_may_be_off(kind: str, seed: int, tolerance_mm: int) -> None:
    """What the checker says of rooms with a tolerance, against the search, wall by wall."""
    from single_walls import both_ways

    fits, mine = both_ways(kind, seed, "EN 1995", tolerance_mm).room
    assert (mine == fits).all()
    assert fits.any()
    assert not fits.all()


def test_pieces_get_in_alike() -> None:
    """The checker's narrow places against the search's, with pieces and places at random."""
    from narrow_places import random_access, random_pieces

    from steepwright.geometry import passes_mask
    from steepwright.plain import plain
    from steepwright.verify.narrow import gets_in

    passed = 0
    for seed in range(60):
        access, pieces = random_access(seed), random_pieces(seed)
        theirs = passes_mask(access, *pieces)
        assert (gets_in(json.loads(json.dumps(plain(access))), pieces) == theirs).all(), seed
        passed += int(theirs.sum())
    assert 0.2 < passed / (60 * len(pieces[0])) < 0.9
