"""What is written down of bars, looked up from box to box."""

from __future__ import annotations

from dataclasses import dataclass, field

Key = tuple[int, ...]
"""Frame, section and delivery, then the corner: row, column and number of the width."""

OF_A_FRAME = 3
"""So many numbers of a key tell the frame, the others its lengths."""


@dataclass(slots=True)
class KnownBars:
    """Bounds of the bars' cost, by what they are of, under one of the largest boxes.

    No piece of a frame gets shorter, and none is spared, when board, kicker or width grow; so what
    its bars cost at a corner they cost at least at each corner that is nowhere less.
    """

    _facts: dict[Key, list[tuple[Key, int]]] = field(default_factory=dict)

    def least_cents(self, key: Key) -> int:
        """Return the greatest bound that holds there, 0 where there is none."""
        facts = self._facts.get(key[:OF_A_FRAME], ())
        at = key[OF_A_FRAME:]
        holds = (
            cents for corner, cents in facts if all(a <= b for a, b in zip(corner, at, strict=True))
        )
        return max(holds, default=0)

    def add(self, key: Key, cents: int) -> bool:
        """Note a bound; return whether it says more than those that are there."""
        if cents <= self.least_cents(key):
            return False
        self._facts.setdefault(key[:OF_A_FRAME], []).append((key[OF_A_FRAME:], cents))
        return True
