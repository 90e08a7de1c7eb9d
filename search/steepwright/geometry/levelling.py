"""Hanging a level lip from a beam that is out of level: how far each mount is let down."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from steepwright.geometry.surroundings import straight_between
from steepwright.room.types import Beam


class LevelledMount(NamedTuple):
    """One mount's place across the room and what it is let down beyond its own drop.

    `turns` is `drop_mm` in turns of its thread, None when it has no thread.
    """

    y_mm: float
    drop_mm: float
    turns: float | None


def levelling(
    beam: Beam,
    room_width_mm: float,
    mount_centres_y_mm: Iterable[float],
    thread_pitch_mm: float,
) -> tuple[LevelledMount, ...]:
    """Return how far each mount is let down so that all pivots are at one height.

    That height is the mount's drop below the lower end of the beam, whichever part of the beam
    the wall hangs from, as everywhere in the search; so no mount has to be shortened.

    Parameters
    ----------
    room_width_mm
        Distance between the beam's two ends whose heights were measured [mm].
    mount_centres_y_mm
        Places of the mounts from the side y = 0 [mm].
    thread_pitch_mm
        Height of one turn [mm]; 0 when the mount has no thread.
    """
    low = min(beam.underside_mm)
    places = tuple(mount_centres_y_mm)
    under = straight_between(beam.underside_mm, room_width_mm, np.array(places, dtype=np.float64))
    return tuple(
        LevelledMount(y, drop, drop / thread_pitch_mm if thread_pitch_mm > 0 else None)
        for y, drop in zip(places, (under - low).tolist(), strict=True)
    )
