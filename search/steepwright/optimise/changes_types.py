"""What a change is: words, what it does to room and price list, and which walls rest on it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from steepwright.catalog.types import Catalog
from steepwright.optimise.changes_search import Better
from steepwright.room.types import Room

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Change:
    """One thing let go.

    Attributes
    ----------
    what
        A heading of a few words.
    words
        The beginning of a sentence: ``With a sheet of ...``.
    apply
        Returns the changed room and price list.
    used
        Whether a wall of the changed room rests on this change; several changes are tried at
        once, and those that the walls found rest on then each alone.
    adds
        Whether it only adds an article that `used` knows of: whatever it allows alone it allows
        with others, at the same cost, and a wall that rests on no other it allows alone.
    """

    what: str
    words: str
    apply: Callable[[Room, Catalog], tuple[Room, Catalog]]
    used: Callable[[Room, Better], bool]
    adds: bool = False


def up_to(length_mm: int, step_mm: int) -> int:
    """Round a length [mm] up to a whole number of steps."""
    return -(-length_mm // step_mm) * step_mm


def always(_room: Room, _better: Better) -> bool:
    """Say that every wall may rest on a change."""
    return True
