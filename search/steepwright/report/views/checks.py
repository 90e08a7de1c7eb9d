"""The checks as bars: how much of what it can bear each part uses, and what that rests on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

CLOSE = 0.9
"""From this share of its capacity on, a part is said to be close to its limit."""


_READABLE = {"Nmm": (1e-6, "kNm"), "N": (1e-3, "kN"), "-": (1.0, "")}
"""Units of the document and the ones that a reader knows, with the factor between them."""


@dataclass(frozen=True, slots=True)
class CheckBar:
    """One check, demand and capacity in a unit that reads well.

    `state` is ``fails``, ``not settled``, ``not loaded``, ``close`` or ``holds``.
    """

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
    return tuple(_bar(row, design["governing_check"]) for row in rows)


def _bar(row: dict[str, Any], governing: str) -> CheckBar:
    scale, unit = _READABLE.get(row["unit"], (1.0, row["unit"]))
    return CheckBar(
        name=row["name"],
        clause=row["clause"],
        use=row["use"],
        demand=_short(row["demand"] * scale),
        capacity=_short(row["capacity"] * scale),
        unit=unit,
        state=_state(row),
        assumption=row["assumption"],
        governs=row["name"] == governing,
    )


def _state(check: dict[str, Any]) -> str:
    if check["use"] > 1:
        return "fails"
    if not check["settled"]:
        return "not settled"
    if check["demand"] == 0:
        return "not loaded"
    return "close" if check["use"] >= CLOSE else "holds"


def _short(value: float) -> float:
    """Keep four significant digits, or all digits before the point."""
    if value == 0 or not math.isfinite(value):
        return 0.0 if value == 0 else value
    places = 3 - math.floor(math.log10(abs(value)))
    return round(value, max(0, places))
