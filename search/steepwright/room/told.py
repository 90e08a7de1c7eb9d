"""A finding's measures as a builder with a tape in feet reads them: the mm of the file beside."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from dataclasses import replace

from steepwright.findings import Finding
from steepwright.imperial import in_feet

_KEY = re.compile(r"_(mm|kg|n_per_m)(?:\[\d+\])?$")
_UNITS = {"mm": "mm", "kg": "kg", "n_per_m": "N/m"}
"""Units by the ends of keys."""

_QUOTED = re.compile(r"(\"[^\"]*\"|“[^”]*”)")
"""What the builder wrote or named, which stays as it is."""

_FIGURE = re.compile(r"(?<![\w.,/-])\d+(?:\.\d+)?(?![\w/%-]|\.\d)(?: (mm|kg|N/m)\b(?!²))?")
_KINDS = (
    (re.compile(r"a (?:whole )?number of mm\b"), "a length"),
    (re.compile(r"a number of kg\b"), "a mass"),
    (re.compile(r"a number of N/m(?!\w)"), "a load"),
)

_AS_IT_IS = ("too-many-walls", "step-does-not-divide", "not-whole", "unknown-name")
"""Ends of codes whose figures are counts, have to be whole mm, or stand in names to be copied."""


def in_room_units(finding: Finding, names: Collection[str] = ()) -> Finding:
    """Return a finding of a room in inches with its lengths, masses and loads in such units.

    `names` are names of goods in its sentence, which stay as they are. Figures that belong into
    the file have the file's own unit beside, as 1/16 in is coarser.
    """
    found = _KEY.search(finding.key)
    unit = _UNITS[found[1]] if found else ""
    if finding.code.endswith(_AS_IT_IS):
        return finding
    return replace(
        finding,
        message=_outside(lambda text: in_feet(text, names), finding.message),
        seen=_outside(lambda text: _both(text, unit), finding.seen),
        expected=_outside(lambda text: _both(text, unit), finding.expected),
        next_step=_outside(in_feet, finding.next_step),
    )


def _outside(turn: Callable[[str], str], text: str) -> str:
    """Turn a text but for what stands in quotes."""
    parts = _QUOTED.split(text)
    return "".join(part if n % 2 else turn(part) for n, part in enumerate(parts))


def _both(text: str, unit: str) -> str:
    """Return a text with every figure in both units; one without a unit is in that of the key."""
    for kind, word in _KINDS:
        text = kind.sub(word, text)

    def told(figure: re.Match[str]) -> str:
        own = figure[1] or unit
        plain = f"{figure[0].split()[0]} {own}"
        return f"{in_feet(plain)} ({plain})" if own else figure[0]

    return _FIGURE.sub(told, text)
