"""What is told of timbers under joists: how long they are, and whether they get in."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.geometry.access import passes_mask
from steepwright.optimise.space import Space
from steepwright.room.spreader_ends import spreader_ends_mm, spreader_past_mm, spreaders_of


def spreaders_told(space: Space) -> Iterator[str]:
    """Yield in sentences how long every row's timber has to be, and whether it passes the way in.

    The timber can't be sawn before it is carried in, as bars of the wall can.
    """
    room, factors = space.market.room, space.market.catalog.materials.factors
    for row, (beam, spreader) in spreaders_of(room).items():
        start, end = spreader_ends_mm(factors, spreader)
        past = spreader_past_mm(factors, spreader)
        told = (
            f"The timber “{row}” under the joists is at least {end - start} mm long: at both ends"
            f" {past} mm past the middle of the outermost joist's screw, or that screw tears out."
        )
        sides = beam.depth_mm, beam.width_mm
        if not spreader.owned and not passes_mask(room.access, float(end - start), *sides):
            told += " In one piece it doesn't get in by the way told: look for another way in."
        yield told
