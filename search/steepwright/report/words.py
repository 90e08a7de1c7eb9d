"""How numbers are written on the page: one place, so that text and tables agree."""

from __future__ import annotations

import math
from typing import Any

from steepwright.imperial import feet_inches, printed
from steepwright.room.types import place_words
from steepwright.units import degrees_down

Document = dict[str, Any]


def hung_from(document: Document, name: str) -> str:
    """Return in words what a wall or a block hangs from: a beam, a joist, a place in a slab."""
    kinds = {beam["name"]: beam.get("kind", "beam") for beam in document["room"]["beams"]}
    return place_words(name, kinds.get(name, "beam"))


def degrees(angle_deg: float) -> str:
    """Return an angle [deg] with one decimal, rounded down: a wall is never said steeper."""
    return f"{degrees_down(angle_deg)}°"


def in_inches(document: Document) -> bool:
    """Tell whether the document's room is shown in feet and inches."""
    return bool(document["room"].get("units") == "inch")


def product_names(document: Document) -> frozenset[str]:
    """Return what the yards call their sheets, timber and parts: names stay as they are."""
    designs = document["designs"]
    named = {str(design[key]) for design in designs for key in ("sheet", "stud", "mount")}
    bought = {str(line["what"]) for design in designs for line in design["bill"]}
    return frozenset(named | bought | {what.partition(" (")[0] for what in bought})


def sections(document: Document, *, primes: bool = False) -> dict[str, str]:
    """Return how studs are called in a room in inches, by their name in mm; else nothing."""
    if not in_inches(document):
        return {}
    write, by = (printed, "×") if primes else (feet_inches, "x")
    found = {}
    for design in document["designs"]:
        width, depth = design["stud_mm"]
        rest = design["stud"].removeprefix(f"{width} x {depth}")
        found[design["stud"]] = f"{write(width)} {by} {write(depth)}{rest}"
    return found


def renamed(text: str, names: dict[str, str]) -> str:
    """Return a text with names put in other words."""
    for name, words in names.items():
        text = text.replace(name, words)
    return text


def metres(length_mm: float, inches: bool = False) -> str:
    """Return a length [mm] as metres with two decimals, to the nearest (halves up).

    In feet and inches to the nearest 1/16 in, when `inches` is true.
    """
    if inches:
        return printed(length_mm)
    return f"{int(length_mm + 5) // 10 / 100:.2f} m"


def clear_metres(length_mm: float, inches: bool = False) -> str:
    """Return a clear space [mm] as metres with two decimals, rounded down; or as `metres` does."""
    if inches:
        return printed(length_mm)
    return f"{int(length_mm) // 10 / 100:.2f} m"


def count(number: int, noun: str, plural: str = "") -> str:
    """Return ``one sheet`` or ``3 sheets``."""
    names = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
    return f"{names.get(number, str(number))} {noun if number == 1 else plural or noun + 's'}"


def falls(facing: str) -> str:
    """Return the way a climber falls, as the side view shows it: x runs to the right."""
    return "right" if facing == "+x" else "left"


def percent(share: float) -> str:
    """Return a share as whole percent, rounded up: a use is never said smaller."""
    return f"{math.ceil(share * 100 - 1e-9)} %"


def stop(text: str) -> str:
    """Return a text as a sentence: a capital first, one full stop last; empty stays empty."""
    text = text.strip()
    end = "" if not text or text.endswith((".", "!", "?")) else "."
    return text[:1].upper() + text[1:] + end


def sentence(parts: list[str]) -> str:
    """Join parts as ``a, b and c``."""
    return " and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)
