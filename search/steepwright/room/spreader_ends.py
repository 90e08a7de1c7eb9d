"""How far a timber under joists reaches past its outermost screws, and whether the room lets it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from steepwright.catalog.types import Catalog, Factors
from steepwright.findings import Finding
from steepwright.room.problems import Source
from steepwright.room.types import Beam, Room, Spreader


def spreaders_of(room: Room) -> dict[str, tuple[Beam, Spreader]]:
    """Return each row's timber under joists by the row's name: it may stand at several places."""
    rows: dict[str, tuple[Beam, Spreader]] = {}
    for beam in room.beams:
        if beam.spreader is not None:
            rows.setdefault(beam.row, (beam, beam.spreader))
    return rows


def spreader_past_mm(factors: Factors, spreader: Spreader) -> int:
    """Return how far the timber reaches past the middle of its outermost screws [mm].

    EN 1995-1-1 Tables 8.4 and 8.6, or NDS Tables 12.5.1A and 12.5.1E; never less than to the outer
    edge of the joist above.
    """
    thick = spreader.screw_mm[0] + factors["spreader_screw_over_mm"]
    asked = max(factors["spreader_end_d"] * thick, factors["spreader_end_mm"])
    return math.ceil(max(asked, spreader.joist_mm[0] / 2.0) - 1e-9)


def spreader_ends_mm(factors: Factors, spreader: Spreader) -> tuple[int, int]:
    """Return where the timber begins and ends across the room [mm]."""
    past = spreader_past_mm(factors, spreader)
    return spreader.joists_mm[0] - past, spreader.joists_mm[-1] + past


def spreaders_too_long(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Yield a finding for each row of timbers that the room's side walls leave too short."""
    factors = catalog.materials.factors.in_code(room.code)
    free = math.ceil(factors["spreader_clear_mm"]) + room.wall.tolerance_mm
    for number, (row, (_, spreader)) in enumerate(spreaders_of(room).items()):
        start, end = spreader_ends_mm(factors, spreader)
        short = max(free - start, end + free - room.width_mm)
        if short > 0:
            yield _too_near(room, spreader, (number, row), short, factors, source)


def _too_near(
    room: Room,
    spreader: Spreader,
    place: tuple[int, str],
    short_mm: int,
    factors: Factors,
    source: Source,
) -> Finding:
    """Return what is told where a screw would sit too near the end of the timber."""
    past, (first, *_, last) = spreader_past_mm(factors, spreader), spreader.joists_mm
    away = past + math.ceil(factors["spreader_clear_mm"]) + room.wall.tolerance_mm
    screw = "lag screw" if room.code == "NDS" else "coach screw"
    return source.finding(
        ("spreaders", place[0], "joist_first_mm"),
        "spreader-end",
        f"the side walls leave the timber “{place[1]}” {short_mm} mm too short: the {screw} in its"
        f" outermost joist needs {past} mm of timber past its middle",
        seen=f"joists from {first} to {last}",
        expected=f"from {away} to {room.width_mm - away}",
        next_step="Leave out the joist at that wall (joist_first_mm, joist_count), or take a"
        f" thinner {screw}.",
    )
