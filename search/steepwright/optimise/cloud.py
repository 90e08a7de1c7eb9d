"""A thinned sample of the designs that others beat, to show where the front lies."""

from __future__ import annotations

from collections.abc import Iterable

from steepwright.optimise.front import Score

MOST_POINTS = 600
"""Points that a page can show and a reader can still take in."""


def dominated_sample(seen: Iterable[Score], most: int = MOST_POINTS) -> list[list[float]]:
    """Return at most `most` scores as [angle [deg], cost [cents], fall space [mm]], evenly thinned.

    The scores are sorted by cost and angle first, so that the sample doesn't depend on the order
    of the search.
    """
    rows = sorted(set(seen))
    stride = max(1, -(-len(rows) // most))
    return [[s.angle_mdeg / 1000, s.cost_cents, s.fall_mm] for s in rows[::stride]]
