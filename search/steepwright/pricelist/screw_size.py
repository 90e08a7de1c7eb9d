"""A small part's diameter and length from its words, metric or in inches."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_DOWN, ROUND_HALF_UP, Decimal
from fractions import Fraction

from steepwright.pricelist.sizes import UNIT_MM

_FRACTION = r"\d{1,2}/(?:2|4|8|16|32|64)"
_LENGTH = (
    rf"(?P<length>\d{{1,3}}[ -]{_FRACTION}|{_FRACTION}|\d{{1,3}}(?:\.\d+)?)\s?-?"
    r"(?P<unit>mm|inch(?:es)?\b|in\b|\"|'')?(?![\d/])"
)
_NUMBERED = re.compile(
    rf"(?:#|\b(?:no|nr|number)\b\.?)\s?(?P<number>\d{{1,2}})(?:-\d{{2}})?\s?x\s?{_LENGTH}"
)
_FRACTIONAL = re.compile(
    rf"(?<![\d/.-])(?P<width>{_FRACTION})(?:-\d{{2}})?\s?(?:inch|in\b|\"|'')?\s?x\s?{_LENGTH}"
)
_INCHES = re.compile(rf"(?<![\d/]){_FRACTION}(?![\d/])|\d\s?-?(?:inch|in\b|\"|'')|#\s?\d+\s?x")
_MARKS = str.maketrans("×″”“", 'x"""')
_MOST_BARE_IN = 12
"""A bare length up to this after a numbered or fractional diameter is in inches (common practice,
no source); a larger one may be in millimetres."""


def gauge_in(number: int) -> Fraction:
    """Return the diameter [in] of a numbered screw: 0.060 + 0.013 N, ASME B18.6.1 [M]."""
    return Fraction(60 + 13 * number, 1000)


def screw_size(own: str) -> tuple[Decimal, int] | None:
    """Return diameter and length [mm] of ``M10 x 40``, ``5,0x60``, ``#8 x 1-5/8``; 0 if not said.

    Inch diameters are rounded to the nearest tenth, lengths to the nearest whole millimetre. None
    when a size in inches is named that can't be read.
    """
    plain = own.casefold().translate(_MARKS)
    found = _NUMBERED.search(plain) or _FRACTIONAL.search(plain)
    if found:
        return _inch_size(found)
    if _INCHES.search(plain):
        return None
    plain = plain.replace(",", ".")
    found = re.search(r"\bm\s?(\d{1,2})(?:\s?x\s?(\d{1,4}))?", plain)
    found = found or re.search(r"\b(\d{1,2}(?:\.\d)?)\s?(?:mm)?\s?x\s?(\d{1,4})\b", plain)
    if found:
        return Decimal(found[1]), int(found[2] or 0)
    found = re.search(r"\b(\d{1,2})\s?mm\b", plain)
    return (Decimal(found[1]), 0) if found else (Decimal(0), 0)


def _inch_size(found: re.Match[str]) -> tuple[Decimal, int] | None:
    parts = found.groupdict()
    wide = gauge_in(int(parts["number"])) if "number" in parts else Fraction(parts["width"])
    length = sum((Fraction(part) for part in re.split(r"[ -]", parts["length"])), Fraction(0))
    if not parts["unit"] and length > _MOST_BARE_IN:
        return None
    long_mm = length if parts["unit"] == "mm" else length * Fraction(UNIT_MM["in"])
    wide_mm = _decimal(wide * Fraction(UNIT_MM["in"])).quantize(Decimal("0.1"), ROUND_HALF_DOWN)
    return wide_mm, int(_decimal(long_mm).to_integral_value(ROUND_HALF_UP))


def _decimal(value: Fraction) -> Decimal:
    return Decimal(value.numerator) / Decimal(value.denominator)
