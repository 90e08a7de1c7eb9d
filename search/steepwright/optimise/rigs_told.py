"""What is told of frames, ledgers and timbers under joists: how long they are, and what stays out.

Their timber can't be sawn shorter before it is carried in, as bars of the wall can.
"""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.geometry.stand_parts import StandPart, left_outside
from steepwright.optimise.space import Space
from steepwright.optimise.way_in import narrow_places
from steepwright.room.spreader_ends import spreader_ends_mm, spreader_past_mm, spreaders_of
from steepwright.room.types import Access


def rigs_told(space: Space) -> Iterator[str]:
    """Yield in sentences how long timbers under joists have to be, and what doesn't get in."""
    room, factors = space.market.room, space.market.catalog.materials.factors
    for row, (_, spreader) in spreaders_of(room).items():
        start, end = spreader_ends_mm(factors, spreader)
        past = spreader_past_mm(factors, spreader)
        yield (
            f"The timber “{row}” under the joists is at least {end - start} mm long: at both ends"
            f" {past} mm past the middle of the outermost joist's screw, or that screw tears out."
        )
    stuck = rigs_stuck(space)
    if stuck:
        yield stuck


def rigs_stuck(space: Space) -> str:
    """Return in sentences what walls might hang from and doesn't get in; empty if all does."""
    access = space.market.room.access
    told = (
        f"“{row}” is left out: {_stuck(access, part)}." for row, part in _outside(space).items()
    )
    return " ".join(told)


def beam_stuck(space: Space, number: int) -> str:
    """Return in words which timber below, or of, one beam doesn't get in; empty if none."""
    room, factors = space.market.room, space.market.catalog.materials.factors
    beam = room.beams[number]
    parts = left_outside(factors, room.access, beam)
    return f"of “{beam.name}” {_stuck(room.access, _longest(parts))}" if parts else ""


def _outside(space: Space) -> dict[str, StandPart]:
    """Return by row the largest piece of what a wall would hang from that doesn't get in."""
    market, found = space.market, dict[str, StandPart]()
    for beam in market.room.beams:
        parts = left_outside(market.catalog.materials.factors, market.room.access, beam)
        if parts:
            found[beam.row] = _longest(parts)
    return found


def _longest(parts: tuple[StandPart, ...]) -> StandPart:
    return max(parts, key=lambda part: part.length_mm)


def _stuck(access: Access, part: StandPart) -> str:
    thin, deep = part.section_mm
    what = "timber" if part.name == "spreader" else part.name.removeprefix("frame ")
    most, place = min(narrow_places(access, deep, thin))
    return (
        f"its {what} of {thin} x {deep} mm, {part.length_mm} mm long, doesn't get in: by {place}"
        f" at most {most} mm do. Shorten it, look for a window to bring it in by (access.windows),"
        " or write owned = true once it is there"
    )
