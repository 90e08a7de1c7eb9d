"""Whether the catalogue sells the timber of a freestanding frame that isn't there already."""

from __future__ import annotations

from collections.abc import Iterator

from steepwright.catalog.types import Catalog, TimberProduct
from steepwright.findings import Finding
from steepwright.room.problems import Source
from steepwright.room.types import Beam, Room


def frames_not_sold(room: Room, catalog: Catalog, source: Source) -> Iterator[Finding]:
    """Yield a finding for each timber of a frame that no bar on sale is the section of."""
    rows: list[str] = []
    for beam in room.beams:
        row = beam.name.rpartition(" ")[0]
        if beam.stand is None or row in rows:
            continue
        rows.append(row)
        for key, what, section, length in _timber(beam):
            sold = [bar for bar in catalog.timber if bar.limit is None]
            alike = [b for b in sold if beam.grade in (None, b.strength_class)]
            fit = [b for b in alike if sorted((b.width_mm, b.depth_mm)) == sorted(section)]
            if not beam.stand.owned and max((b.length_mm for b in fit), default=0) < length:
                grade = beam.grade or "any class"
                yield source.finding(
                    ("frames", len(rows) - 1, key),
                    "frame-not-sold",
                    f"the catalogue sells no timber for the {what} of the frame",
                    seen=f"{section[0]} x {section[1]} {grade}, {length} mm long",
                    expected=f"a section that is sold: {_listed(alike, length)}",
                    next_step="Take one of these, or write owned = true if the frame is there"
                    " already.",
                )


def _timber(beam: Beam) -> Iterator[tuple[str, str, tuple[int, int], int]]:
    """Yield the key, the name, the section and the length of what is longest of each section."""
    assert beam.stand is not None
    stand = beam.stand
    head = (beam.width_mm, beam.depth_mm)
    yield "depth_mm", "head beam", head, beam.span_mm + stand.post_mm[0]
    tall = min(beam.underside_mm) - stand.post_mm[1]
    yield "post_mm", "posts and feet", stand.post_mm, max(tall, 2 * stand.foot_mm)
    yield "brace_mm", "braces", stand.brace_mm, stand.brace_up_mm


def _listed(bars: list[TimberProduct], length_mm: int) -> str:
    sections = {(b.width_mm, b.depth_mm) for b in bars if b.length_mm >= length_mm}
    words = [f"{width} x {depth}" for width, depth in sorted(sections)]
    return ", ".join(words) or "none is long enough"
