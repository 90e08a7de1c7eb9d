"""Small searches with their certificates, made once."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "optimise"))
sys.path.insert(0, str(Path(__file__).parent))

Doc = dict[str, Any]
Pair = tuple[Doc, Doc]
"""A certificate and the document it belongs to."""

FRAMED = 100
"""Rooms from this number on are those with freestanding frames."""

WIDE = {
    200: "some_widths",
    400: "wide_room",
    500: "beside_room",
    600: "padded_beside",
    700: "padded_wide",
}
"""Rooms from these numbers on are those with several widths asked for."""

PADDED = 600
"""From this number on they have pads on the bill."""


@lru_cache(maxsize=16)
def _texts(seed: int) -> tuple[str, str]:
    import small_rooms
    from small_rooms import framed_catalog, framed_room, small_catalog, small_room

    from steepwright.optimise import search

    room, catalog = small_room(seed), small_catalog(seed)
    wide = max((first for first in WIDE if first <= seed), default=0)
    if wide:
        room = getattr(small_rooms, WIDE[wide])(seed - wide)
        of = small_rooms.padded_catalog if wide >= PADDED else small_rooms.tiny_catalog
        catalog = of(seed - wide)
    elif seed >= FRAMED:
        room, catalog = framed_room(seed - FRAMED), framed_catalog(seed - FRAMED)
    result = search(room, catalog, changes=False, certify=True)
    return json.dumps(result.certificate), json.dumps(result.document)


@pytest.fixture(scope="session")
def certified() -> Callable[[int], Pair]:
    """Return a small room's certificate and document, fresh copies at each call."""

    def copies(seed: int) -> Pair:
        certificate, document = _texts(seed)
        return json.loads(certificate), json.loads(document)

    return copies
