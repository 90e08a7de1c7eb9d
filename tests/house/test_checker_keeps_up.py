"""The checker has its own copy of the rules; what changes them has to change it too."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "optimise"))


@pytest.mark.parametrize("seed", [4, 13])
def test_the_checker_agrees_with_the_search(seed: int) -> None:
    """Where this fails, `steepwright.verify` lacks a rule, price or limit that was changed."""
    from small_rooms import small_catalog, small_room

    from steepwright.optimise import search
    from steepwright.verify.checker import verify_documents

    result = search(small_room(seed), small_catalog(seed), changes=False, certify=True)
    pair = (json.loads(json.dumps(one)) for one in (result.certificate, result.document))
    assert [finding.text() for finding in verify_documents(*pair).findings] == []
