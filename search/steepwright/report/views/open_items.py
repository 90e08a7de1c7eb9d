"""What a wall needs that nobody on the list sells: to be had elsewhere, chosen for the place."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class OpenItem:
    """`count` things to be had without a price; `why` says what they have to bear."""

    count: int
    what: str
    why: str


def open_items(design: dict[str, Any]) -> tuple[OpenItem, ...]:
    """Return what is missing on a design's bill because someone has to choose it for the place."""
    return tuple(_items(design))


def demand_n(design: dict[str, Any], name: str) -> int:
    """Return what a check asks for [N], rounded up; 0 when the design has no such check."""
    asked = [check["demand"] for check in design["checks"] if check["name"] == name]
    return math.ceil(max(asked, default=0.0))


def _items(design: dict[str, Any]) -> Iterator[OpenItem]:
    if design.get("anchors"):
        yield OpenItem(
            design["anchors"],
            "Anchor for the mounts' holes, to be chosen for this slab, and set, by someone licensed"
            " to do so",
            f"one in each hole of the {design['mount_count']} mounts; each rated, as its approval"
            f" says, for at least {demand_n(design, 'anchor working load')} N in any direction: one"
            " anchor of each mount has to bear it all",
        )
    if design.get("frame"):
        yield OpenItem(
            2,
            "Fixing of a foot of the freestanding frame to the floor, to be chosen for this floor"
            " by someone licensed to do so",
            "one set for each foot; each holds it against sliding with at least"
            f" {demand_n(design, 'frame slides')} N, level, beyond the friction that the check"
            " “frame slides” counts on: it rests on both",
        )
