"""Amounts in messages."""

from __future__ import annotations

import math


def amount_short(name: str, gap: float) -> str:
    """Return by how much a constraint is missed, rounded up, in the unit that its name tells."""
    if "angle" in name:
        return f"{math.ceil(gap * 1000 - 1e-6) / 1000:g} degrees short"
    if name == "wall.min_moves":
        return f"{math.ceil(gap)} moves short"
    if name == "a stud for every mount":
        return f"{math.ceil(gap)} more mounts than studs"
    if "solids" in name and gap <= 1:
        return "something stands there"
    return f"{up_to_tenth(gap)} mm short"


def up_to_tenth(amount: float) -> str:
    """Return an amount rounded up to a tenth, whole numbers without decimals."""
    return f"{math.ceil(amount * 10 - 1e-6) / 10:g}"
