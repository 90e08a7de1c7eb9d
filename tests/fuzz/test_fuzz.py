"""The fuzzer itself: a few inputs for every target, so that its seeds keep up with the program."""

from __future__ import annotations

import random
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from seeds import seeds_of
from targets import TARGETS

from fuzz import begun, hostile, shaken


@pytest.mark.parametrize("name", sorted(TARGETS))
def test_hostile_files_are_answered_or_refused(name: str) -> None:
    dice = random.Random(1)
    files = [begun(name, path) for path in seeds_of(name)]
    assert all(files)
    for data in files:
        TARGETS[name](data)
    for _ in range(40):
        TARGETS[name](dice.choice((hostile, shaken))(dice.choice(files), dice))
