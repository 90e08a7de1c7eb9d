"""What a wall hangs from: the timber beam, and the freestanding frame that holds it up."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.beams import Beams
from steepwright.verify.hooked import Hooked
from steepwright.verify.mounts import Mounts
from steepwright.verify.standing import OF_FRAMES, Standing
from steepwright.verify.strength import Loads

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]
Uses = dict[str, FloatArray]


class Upheld:
    """All that the walls of one room may hang from."""

    def __init__(self, given: Document, room: Document, mounts: Mounts) -> None:
        self.mounts, self.beams = mounts, Beams(given, room)
        self.frames = {
            n: Standing(given, beam) for n, beam in enumerate(room["beams"]) if beam.get("stand")
        }

    def uses(
        self,
        loads: Loads,
        where: tuple[IntArray, IntArray],
        hooks: Hooked,
        hung: tuple[int, FloatArray],
    ) -> Uses:
        """Return the uses by the checks' names, 0 of a frame where there is none.

        `where` are each wall's beam and mount, `hung` the number of mounts and the width [mm].
        """
        count, width = hung
        lever = self.mounts.lever[where]
        found = dict.fromkeys(OF_FRAMES, np.zeros(len(width))) if self.frames else {}
        found |= self.beams.uses(loads, where, hooks, (lever, count, width))
        for beam, frame in self.frames.items():
            for name, use in frame.uses(loads, hooks, lever, width).items():
                found[name] = np.where(where[0] == beam, use, found[name])
        return found
