"""The checks as bars: how much of what it can bear each part uses, and what that rests on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from steepwright.imperial import customary

CLOSE = 0.9
"""From this share of its capacity on, a part is said to be close to its limit."""

_READABLE = {"Nmm": (1e-6, "kNm"), "N": (1e-3, "kN"), "-": (1.0, "")}
"""Units of the document and the ones that a reader knows, with the factor between them."""


@dataclass(frozen=True, slots=True)
class CheckRule:
    """What one check is: the same for most designs."""

    name: str
    clause: str
    unit: str
    assumption: str
    find_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CheckTable:
    """A design's checks, column by column and in the document's order.

    Columns rather than rows, because most designs share whole columns and the page carries a
    shared column once. `state` is one letter per check: f fails, u unsettled, n not loaded, c close
    to its limit, h holds. The use is in thousandths, rounded up; demand and capacity have four
    digits.
    """

    rules: tuple[CheckRule, ...]
    use_permille: tuple[int, ...]
    demand: tuple[float, ...]
    capacity: tuple[float, ...]
    state: str


def check_table(design: dict[str, Any], inches: bool = False) -> CheckTable:
    """Return a design's checks in units that read well; in inches and pounds when `inches`."""
    checks = design["checks"]
    scaled = [readable_unit(row["unit"], inches) for row in checks]
    return CheckTable(
        rules=tuple(
            CheckRule(
                row["name"], row["clause"], unit, row["assumption"], tuple(row.get("find_out", ()))
            )
            for row, (_, unit) in zip(checks, scaled, strict=True)
        ),
        use_permille=tuple(math.ceil(row["use"] * 1000 - 1e-6) for row in checks),
        demand=_column(checks, "demand", scaled),
        capacity=_column(checks, "capacity", scaled),
        state="".join(_state(row) for row in checks),
    )


def readable_unit(unit: str, inches: bool) -> tuple[float, str]:
    """Return by what a figure in a unit of the document is multiplied, and the unit it then has."""
    if inches and unit != "-":
        return customary(1.0, unit)
    return _READABLE.get(unit, (1.0, unit))


def _column(
    checks: list[dict[str, Any]], key: str, scaled: list[tuple[float, str]]
) -> tuple[float, ...]:
    return tuple(_short(row[key] * scale) for row, (scale, _) in zip(checks, scaled, strict=True))


def _state(check: dict[str, Any]) -> str:
    if check["use"] > 1:
        return "f"
    if not check["settled"]:
        return "u"
    if check["demand"] == 0:
        return "n"
    return "c" if check["use"] >= CLOSE else "h"


def _short(value: float) -> float:
    """Keep four significant digits, or all digits before the point."""
    if value == 0 or not math.isfinite(value):
        return 0.0 if value == 0 else value
    places = 3 - math.floor(math.log10(abs(value)))
    return round(value, max(0, places))
