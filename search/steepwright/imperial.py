"""Feet, inches, pounds: the ways from what a builder measures to mm, kg and N/m, and back to paper.

Nothing between reading and showing knows of them. A foot is 304.8 mm, an inch 25.4 mm and a pound
0.45359237 kg, exactly (international yard and pound, 1959).
"""

from __future__ import annotations

import math
import re
from collections.abc import Collection
from fractions import Fraction

MM_PER_INCH = Fraction(127, 5)
"""Exact by definition."""

SIXTEENTHS = 16
"""Lengths are shown to the nearest 1/16 in, as a tape is divided."""

EXAMPLE = "8' 2 1/2\\\""
"""A length as it stands between the quotes of a TOML file."""

LENGTH_PATTERN = "[0-9]\\s*(mm|cm|m|'|′|’|\"|″|”|ft\\.?|feet|foot|in\\.?|inch|inches)\\s*$"
"""How every text that is a length ends; for the JSON Schema."""

MASS_PATTERN = r"[0-9]\s*(kg|lbs?\.?)\s*$"
LINE_LOAD_PATTERN = r"[0-9]\s*(N/m|kN/m|plf|lbs?/ft)\s*$"

_FEET = r"(?:feet|foot|ft\.?|['′’])"
_INCHES = r"(?:inches|inch|in\.?|[\"″”]|'')"
_PLAIN = r"\d{1,7}(?:\.\d{1,6})?"
_MIXED = rf"\d{{1,7}}[ -]+\d{{1,4}}/\d{{1,4}}|\d{{1,4}}/\d{{1,4}}|{_PLAIN}"
_IMPERIAL = re.compile(
    rf"(?:(?P<feet>{_PLAIN})\s*{_FEET}(?:\s*-(?=\s*\d))?)?"
    rf"(?:\s*(?P<inches>{_MIXED})\s*{_INCHES})?"
)
_METRIC = re.compile(rf"(?P<number>{_PLAIN})\s*(?P<unit>mm|cm|m)")
_METRIC_MM = {"mm": 1, "cm": 10, "m": 1000}
_LENGTH = re.compile(
    rf"(?:{_PLAIN}\s*{_FEET}(?:\s*-?\s*(?:{_MIXED})\s*{_INCHES})?|(?:{_MIXED})\s*{_INCHES}"
    rf"|{_PLAIN}\s*(?:mm|cm|m))(?![a-z])"
)
_BETWEEN = re.compile(r"(?:[\s,;x–-]|to|and)*")
_MASS = re.compile(rf"(?P<number>{_PLAIN})\s*(?P<unit>kg|lbs?\.?)")
_LINE_LOAD = re.compile(rf"(?P<number>{_PLAIN})\s*(?P<unit>N/m|kN/m|plf|lbs?/ft)")
_POUND_KG = Fraction(45359237, 10**8)
_POUND_N = _POUND_KG * Fraction(980665, 10**5)
_FOOT_MM = 12 * MM_PER_INCH
_UNITS = {
    "mm": (MM_PER_INCH, "in"),
    "kg": (_POUND_KG, "lb"),
    "kg per m2": (_POUND_KG * 10**6 / _FOOT_MM**2, "lb per square foot"),
    "N": (_POUND_N, "lbf"),
    "kN": (_POUND_N / 1000, "lbf"),
    "N/m": (_POUND_N * 1000 / _FOOT_MM, "lbf/ft"),
    "Nmm": (_POUND_N * _FOOT_MM, "lbf ft"),
    "MPa": (_POUND_N / MM_PER_INCH**2, "psi"),
}
"""Units of the package, with the size of the one shown instead and its name."""

_FIGURE = r"\d+(?:\.\d+)?"
_WORDS = "|".join(re.escape(unit) for unit in sorted(_UNITS, key=len, reverse=True) if unit != "mm")
_SHOWN = (
    rf"(?<![\w./])(?:(?P<lengths>{_FIGURE}(?:(?: [x×] | and | to ){_FIGURE})*)[ \u00a0]mm\b(?![²/])"
    rf"|(?P<pull>{_FIGURE}) N \({_FIGURE} kg\)"
    rf"|(?P<amount>{_FIGURE})[ \u00a0](?P<unit>{_WORDS})(?![\w²/]))"
)
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


def length_mm(text: str) -> int:
    """Return a written length to the nearest mm (halves up).

    Parameters
    ----------
    text
        Feet and inches such as ``8' 2 1/2"``, ``98 1/2 in``, ``8 ft 2.5 in``, or a number with
        ``mm``, ``cm`` or ``m``.

    Raises
    ------
    ValueError
        With what is wrong, in words, when the text is no such length.
    """
    plain = _tidy(text)
    metric = _METRIC.fullmatch(plain)
    if metric:
        return _nearest(Fraction(metric["number"]) * _METRIC_MM[metric["unit"]])
    found = _IMPERIAL.fullmatch(plain)
    if not found or (found["feet"] is None and found["inches"] is None):
        message = "this is not a length with a unit that is known here"
        raise ValueError(message)
    feet, inches = Fraction(found["feet"] or 0), _mixed(found["inches"] or "0")
    if found["feet"] and found["inches"] and (inches >= 12 or feet.denominator != 1):
        message = (
            "after feet, there are 12 inches or more"
            if inches >= 12
            else "the feet are no whole number, though inches follow"
        )
        raise ValueError(message)
    return _nearest((12 * feet + inches) * MM_PER_INCH)


def lengths_written(text: str) -> list[str]:
    """Return the lengths with a unit that a text is made of, such as the two of ``4 ft 6 ft``.

    Feet and the inches after them are one. Empty when anything else stands there.
    """
    plain = _tidy(text)
    return _LENGTH.findall(plain) if _BETWEEN.fullmatch(_LENGTH.sub("", plain)) else []


def mass_kg(text: str) -> float:
    """Return a written mass such as ``165 lb`` [kg, to 0.01]; ValueError when it is none."""
    found = _MASS.fullmatch(_tidy(text))
    if not found:
        message = "this is not a mass with a unit that is known here"
        raise ValueError(message)
    factor = _POUND_KG if found["unit"].startswith("lb") else 1
    return _nearest(Fraction(found["number"]) * factor * 100) / 100


def line_load_n_per_m(text: str) -> float:
    """Return a written load such as ``60 plf`` [N/m, to 0.1]; ValueError when it is none."""
    found = _LINE_LOAD.fullmatch(_tidy(text))
    if not found:
        message = "this is not a load per length with a unit that is known here"
        raise ValueError(message)
    per_foot, _ = _UNITS["N/m"]
    factor = {"N/m": Fraction(1), "kN/m": Fraction(1000)}.get(found["unit"], per_foot)
    return _nearest(Fraction(found["number"]) * factor * 10) / 10


def feet_inches(length: float) -> str:
    """Return a length [mm] such as ``8' 2 1/2"``, to the nearest 1/16 in (halves up).

    Under one foot inches stand alone.
    """
    exact = Fraction(length) * SIXTEENTHS / MM_PER_INCH
    size = _nearest(abs(exact))
    sign = "-" if exact < 0 and size else ""
    feet, rest = divmod(size, 12 * SIXTEENTHS)
    whole, part = divmod(rest, SIXTEENTHS)
    share = Fraction(part, SIXTEENTHS)
    inches = f"{whole} {share}" if part else str(whole)
    if part and not whole and not feet:
        inches = str(share)
    return f"{sign}{feet}' {inches}\"" if feet else f'{sign}{inches}"'


def inches(length: float) -> float:
    """Return a length [mm] in inches, to the nearest 1/16 (halves up): a number for a table."""
    return _nearest(Fraction(length) * SIXTEENTHS / MM_PER_INCH) / SIXTEENTHS


def pounds(mass: float) -> float:
    """Return a mass [kg] in pounds, to the nearest 0.1 (halves up)."""
    return _nearest(Fraction(mass) / _POUND_KG * 10) / 10


def pounds_force(force: float) -> int:
    """Return a force [N] in pounds of force, to the nearest whole one (halves up)."""
    return _nearest(Fraction(force) / _POUND_N)


def customary(value: float, unit: str) -> tuple[float, str]:
    """Return a figure of a check in the unit that a reader in feet and pounds knows, unrounded.

    What has no such unit stays as it is.
    """
    size, name = _UNITS.get(unit, (Fraction(1), unit))
    return (float(value / size) if math.isfinite(value) else value), name


def in_feet(text: str, names: Collection[str] = (), *, primes: bool = False) -> str:
    """Return a text with all its measures in feet and inches, pounds, pounds of force and psi.

    Parameters
    ----------
    text
        What is told to the builder, such as ``a board of 2400 x 1200 mm, 23.4 kg``. A pull that is
        told as a weight as well, ``330 N (34 kg)``, becomes one figure.
    names
        Names that stay as they are: a yard calls its sheet 18 mm thick in any country.
    primes
        Whether to write the marks of print, which need no care inside HTML.
    """
    write = printed if primes else feet_inches
    kept = "|".join(re.escape(name) for name in sorted(names, key=lambda n: (-len(n), n)) if name)
    pattern = rf"(?:{kept})|{_SHOWN}" if kept else _SHOWN

    def told(found: re.Match[str]) -> str:
        if found["lengths"] is not None:
            return re.sub(_FIGURE, lambda n: write(float(n[0])), found["lengths"])
        if found["pull"] is not None:
            return _figure(float(found["pull"]), "N")
        return found[0] if found["unit"] is None else _figure(float(found["amount"]), found["unit"])

    return re.sub(pattern, told, text)


def _figure(value: float, unit: str) -> str:
    """Write a figure: masses and what is small to 0.1, all else whole."""
    exact, name = customary(value, unit)
    tenths = _nearest(Fraction(exact) * 10)
    fine = name == "lb" or tenths < 100
    return f"{tenths / 10:.15g} {name}" if fine else f"{_nearest(Fraction(exact))} {name}"


def printed(length: float) -> str:
    """Return a length [mm] as `feet_inches` does, with the marks of print."""
    return feet_inches(length).replace("'", "′").replace('"', "″")


def _tidy(text: str) -> str:
    for sign, words in _VULGAR.items():
        text = text.replace(sign, f" {words}")
    return " ".join(text.split())


def _mixed(text: str) -> Fraction:
    *whole, last = re.split(r"[ -]+", text)
    if re.search(r"/0+$", last):
        message = "a fraction has nothing below its line"
        raise ValueError(message)
    return Fraction(whole[0] if whole else 0) + Fraction(last)


def _nearest(value: Fraction) -> int:
    return math.floor(value + Fraction(1, 2))
