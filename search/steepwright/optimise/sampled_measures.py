"""Measures of climbing by name, as one more objective of a sampled search."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Named:
    """A measure of a design's document: its field, whether more is better, and its words.

    `basis` says what it rests on, for none of these is a rule of any standard.
    """

    group: str
    key: str
    maximise: bool
    words: str
    unit: str
    basis: str

    def __call__(self, design: dict[str, Any]) -> float:
        """Return the measure of a design."""
        return float((design[self.group] if self.group else design)[self.key])


NAMED = {
    "climbable": Named(
        "", "climbable_mm", True, "climbable length", " mm", "board and kicker together"
    ),
    "moves": Named(
        "climbing", "moves", True, "moves up the board", "", "an assumption of a gain per move"
    ),
    "spans": Named(
        "climbing",
        "width_spans",
        True,
        "width in spans of the climber",
        "",
        "common practice, no source",
    ),
    "start": Named(
        "climbing",
        "start_height_mm",
        False,
        "height of the lowest holds on the board",
        " mm",
        "the lowest row of the grid that is drawn",
    ),
}
"""What `--objective` takes by name."""
