"""What a builder must know before spending money, in sentences under a few titles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from steepwright.report.words import count


@dataclass(frozen=True, slots=True)
class Notes:
    """Sentences under one title."""

    title: str
    lines: tuple[str, ...]


def notes_of(design: dict[str, Any]) -> tuple[Notes, ...]:
    """Return a design's notes; what its document does not tell is left out."""
    parts = (("Getting in", "way_in", _way_in),)
    return tuple(
        Notes(title, tuple(words(design[key]))) for title, key, words in parts if key in design
    )


def _way_in(way: dict[str, Any]) -> list[str]:
    length, width = way["largest_piece_mm"]
    first = f"The largest board piece is {length} x {width} mm; "
    if way["longest_mm"] is None:
        first += "nothing that is stated about the way in limits its length."
    else:
        first += (
            f"of this width up to {way['longest_mm']} mm gets in: {way['bottleneck']} "
            "is the narrowest."
        )
    return [first, *(_undivided(row) for row in way["undivided"])]


def _undivided(row: dict[str, Any]) -> str:
    split = f"{count(row['columns'], 'column')} and {count(row['rows'], 'row')}"
    piece = f"{row['piece_mm'][0]} x {row['piece_mm'][1]} mm"
    if row["stopped_by"]:
        return f"In {split} a piece would be {piece}: stopped by {row['stopped_by']}."
    return f"In {split} a piece of {piece} would get in; divided it is cheaper or stronger."
