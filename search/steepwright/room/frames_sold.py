"""Whether the catalogue sells the timber of a freestanding frame that isn't there already."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.catalog.types import Catalog, Factors, TimberProduct
from steepwright.findings import Finding
from steepwright.room.problems import Source
from steepwright.room.spreader_ends import spreader_ends_mm
from steepwright.room.types import Beam, Room


def frames_not_sold(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Yield a finding for each timber of a frame, or on ledgers, that no bar on sale yields."""
    factors = catalog.materials.factors.in_code(room.code)
    rows: dict[str, list[str]] = {"frame": [], "ledger": [], "spreader": []}
    for beam in room.beams:
        row, rig = beam.row, beam.stand or beam.ledger or beam.spreader
        if rig is None or row in rows[beam.kind]:
            continue
        rows[beam.kind].append(row)
        for key, what, section, length in _timber(factors, beam):
            sold = [bar for bar in catalog.timber if bar.limit is None]
            alike = [b for b in sold if beam.grade in (None, b.strength_class)]
            fit = [b for b in alike if sorted((b.width_mm, b.depth_mm)) == sorted(section)]
            if not rig.owned and max((b.length_mm for b in fit), default=0) < length:
                grade = beam.grade or "any class"
                yield source.finding(
                    (f"{beam.kind}s", len(rows[beam.kind]) - 1, key),
                    "frame-not-sold",
                    f'the catalogue sells no timber for the {what} of "{row}"',
                    seen=f"{section[0]} x {section[1]} {grade}, {length} mm long",
                    expected=f"a section that is sold: {_listed(alike, length)}",
                    next_step="Take one of these, or write owned = true if it is there already.",
                )


def _timber(factors: Factors, beam: Beam) -> Iterator[tuple[str, str, tuple[int, int], int]]:
    """Yield the key, the name, the section and the length of what is longest of each section."""
    stand, head = beam.stand, (beam.width_mm, beam.depth_mm)
    if beam.ledger is not None:
        row = (beam.ledger.fixings - 1) * beam.ledger.apart_mm
        yield "depth_mm", "beam", head, beam.span_mm
        yield "ledger_mm", "ledgers", beam.ledger.section_mm, row
    if beam.spreader is not None:
        start, end = spreader_ends_mm(factors, beam.spreader)
        yield "depth_mm", "timber", head, end - start
    if stand is None:
        return
    yield "depth_mm", "head beam", head, beam.span_mm + stand.post_mm[0]
    tall = min(beam.underside_mm) - stand.post_mm[1]
    yield "post_mm", "posts and feet", stand.post_mm, max(tall, 2 * stand.foot_mm)
    yield "brace_mm", "braces", stand.brace_mm, stand.brace_up_mm


def _listed(bars: list[TimberProduct], length_mm: int) -> str:
    sections = {(b.width_mm, b.depth_mm) for b in bars if b.length_mm >= length_mm}
    words = [f"{width} x {depth}" for width, depth in sorted(sections)]
    return ", ".join(words) or "none is long enough"
