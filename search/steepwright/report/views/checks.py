"""The checks as bars: how much of what it can bear each part uses, and what that rests on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

CLOSE = 0.9
"""From this share of its capacity on, a part is said to be close to its limit."""


@dataclass(frozen=True, slots=True)
class CheckBar:
    """One check; `state` is ``fails``, ``not settled``, ``close`` or ``holds``."""

    name: str
    clause: str
    use: float
    demand: float
    capacity: float
    unit: str
    state: str
    assumption: str
    governs: bool


def check_bars(design: dict[str, Any]) -> tuple[CheckBar, ...]:
    """Return a design's checks, the most used first."""
    rows = sorted(design["checks"], key=lambda check: (-check["use"], check["name"]))
    return tuple(
        CheckBar(
            name=row["name"],
            clause=row["clause"],
            use=row["use"],
            demand=_short(row["demand"]),
            capacity=_short(row["capacity"]),
            unit=row["unit"],
            state=_state(row),
            assumption=row["assumption"],
            governs=row["name"] == design["governing_check"],
        )
        for row in rows
    )


def _state(check: dict[str, Any]) -> str:
    if check["use"] > 1:
        return "fails"
    if not check["settled"]:
        return "not settled"
    return "close" if check["use"] >= CLOSE else "holds"


def _short(value: float) -> float:
    """Keep four significant digits, or all digits before the point."""
    if value == 0 or not math.isfinite(value):
        return 0.0 if value == 0 else value
    places = 3 - math.floor(math.log10(abs(value)))
    return round(value, max(0, places))
