"""What the checker found, collected; nothing here decides anything."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from steepwright.findings import Finding

MOST_ALIKE = 5
"""Findings of one code that are told in full; more are counted."""


@dataclass(slots=True)
class Verdict:
    """The outcome of one check of a folder.

    Attributes
    ----------
    findings
        What is wrong; empty when everything holds.
    degrees
        Per whole degree of angle: the degree and the cheapest design's id and cost [cents], or
        None where no wall is that steep.
    designs, boxes
        How many designs the claim is about, and how many boxes of lengths were gone through.
    widths_mm, step_mm
        The least and the greatest width of the walls that the claim is about, and the grid's step.
    taken
        Per reason taken from the file without deriving it anew: how many designs end by it.
    checks_derived, checks_read
        How many of the designs' checks are worked out anew, and how many are only read.
    open_designs
        Designs that nothing is said against: the claim does not hold for them.
    left_designs
        Designs in boxes that a stopped search did not get to and says so.
    complete
        Whether the search was finished.
    unsettled
        The degrees at which one of these may be cheaper than the cheapest found.
    """

    findings: list[Finding] = field(default_factory=list)
    degrees: list[tuple[int, dict[str, Any] | None]] = field(default_factory=list)
    steps: int = 0
    designs: int = 0
    boxes: int = 0
    open_designs: int = 0
    left_designs: int = 0
    unsettled: set[int] = field(default_factory=set)
    complete: bool = True
    checks_derived: int = 0
    checks_read: int = 0
    widths_mm: tuple[int, int] = (0, 0)
    step_mm: int = 0
    currency: str = ""
    taken: dict[str, int] = field(default_factory=dict)
    _counts: dict[str, int] = field(default_factory=dict)

    def wrong(self, code: str, message: str, seen: object = "", expected: object = "") -> None:
        """Note something wrong; of many alike only the first are kept."""
        count = self._counts.get(code, 0) + 1
        self._counts[code] = count
        if count <= MOST_ALIKE:
            self.findings.append(
                Finding(code, "error", message, "certificate.json", 0, "", str(seen), str(expected))
            )

    def take(self, reason: str, designs: int) -> None:
        """Count designs whose end rests on something taken from the file."""
        if designs:
            self.taken[reason] = self.taken.get(reason, 0) + designs

    @property
    def left_out(self) -> int:
        """How many findings were only counted."""
        return sum(max(0, n - MOST_ALIKE) for n in self._counts.values())

    @property
    def holds(self) -> bool:
        """Whether everything that was looked at holds."""
        return not self.findings

    @property
    def takes(self) -> int:
        """How many designs rest on a reason that was not derived anew."""
        return sum(self.taken.values())
