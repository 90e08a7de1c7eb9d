"""What a wall hangs from: beam or slab, and what holds a beam of one's own up."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.beams import OF_BEAMS, Beams
from steepwright.verify.hooked import Hooked
from steepwright.verify.joists import OF_JOISTS, Joists
from steepwright.verify.ledgers import OF_LEDGERS, Ledger
from steepwright.verify.mounts import Hanging, Mounts
from steepwright.verify.slabs import OF_SLABS, Slab
from steepwright.verify.standing import OF_FRAMES, Standing
from steepwright.verify.strength import Loads

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]
Uses = dict[str, FloatArray]

OF_ALL = *OF_BEAMS, *OF_FRAMES, *OF_SLABS, *OF_LEDGERS, *OF_JOISTS
"""The names in a design of the checks of all that a wall may hang from."""

Rig = Slab | Standing | Ledger | Joists
"""What is checked besides the beam itself."""


class Upheld:
    """All that the walls of one room may hang from."""

    def __init__(self, given: Document, room: Document, mounts: Mounts) -> None:
        self.room, self.mounts, self.beams = room, mounts, Beams(given, room)
        found = {n: rig_of(given, room, beam) for n, beam in enumerate(room["beams"])}
        self.rigs = {n: rig for n, rig in found.items() if rig is not None}

    def uses(
        self,
        loads: Loads,
        where: tuple[IntArray, IntArray],
        hooks: Hooked,
        hung: tuple[int, FloatArray],
    ) -> Uses:
        """Return the uses by the checks' names, 0 of what a wall doesn't hang from.

        `where` are each wall's beam and mount, `hung` the number of mounts and the width [mm].
        """
        hanging = Hanging(*where, self.mounts.lever[where], *hung)
        for beam, rig in self.rigs.items():
            if isinstance(rig, Joists):
                hooks = _either(where[0] == beam, rig.under(hooks), hooks)
        found = self.beams.uses(loads, hooks, hanging)
        for rig in self.rigs.values():
            found |= dict.fromkeys(rig.names, np.zeros(len(hanging.width_mm)))
        for beam, rig in self.rigs.items():
            for name, use in rig.uses(loads, hooks, hanging).items():
                found[name] = np.where(where[0] == beam, use, found[name])
        return found


def rig_of(given: Document, room: Document, beam: Document) -> Rig | None:
    """Return what is checked besides the beam itself; None of a ceiling beam."""
    if beam.get("kind") == "slab":
        return Slab(given, beam)
    if beam.get("stand"):
        return Standing(given, beam)
    if beam.get("ledger"):
        return Ledger(given, room, beam)
    return Joists(given, room, beam) if beam.get("spreader") else None


def _either(here: npt.NDArray[np.bool_], one: Hooked, other: Hooked) -> Hooked:
    """Return one set of effects here and the other elsewhere."""
    names = Hooked.__slots__
    return Hooked(*(np.where(here, getattr(one, n), getattr(other, n)) for n in names))
