"""Many rooms by many price lists: the same search for every pair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from steepwright.catalog.types import Catalog
from steepwright.errors import InfeasibleError, UnfinishedError
from steepwright.optimise.search import Result, search
from steepwright.room.types import Room


@dataclass(frozen=True)
class Pair:
    """A room at one price list, and what came out.

    Attributes
    ----------
    result
        The finished search; None when there is no wall.
    reason
        Why there is none, in a sentence; empty when there is a result.
    """

    room: Room
    catalog: Catalog
    result: Result | None
    reason: str = ""


def search_many(
    rooms: Sequence[Room], catalogs: Sequence[Catalog], **options: Any
) -> Iterator[Pair]:
    """Search every room at every price list, one pair after the other, as they are asked for.

    Parameters
    ----------
    rooms, catalogs
        Any number of each.
    options
        Whatever `search` takes; a time limit holds for each pair.

    Raises
    ------
    InputError
        When a room names what a catalogue hasn't.
    """
    for room in rooms:
        for catalog in catalogs:
            try:
                yield Pair(room, catalog, search(room, catalog, **options))
            except (InfeasibleError, UnfinishedError) as error:
                yield Pair(room, catalog, None, str(error))
