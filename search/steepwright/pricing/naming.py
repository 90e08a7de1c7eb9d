"""Names of articles on the bill: a name that does not tell its size gets it.

A list may have the size in columns of its own, so that two sections share one name.
"""

from __future__ import annotations

import re

from steepwright.catalog.types import SheetProduct, TimberProduct

_NUMBER = re.compile(
    r"(?<![a-wyz\d.,])(\d++(?:[.,]\d++)?)(?:\s?(mm|cm|m|ft|in)(?![a-z]))?", re.IGNORECASE
)
_CHOICE = re.compile(r"\d[\d.,]*(?:\s?(?:/|-|–)\s?\d[\d.,]*)+\s?m\b")
"""Several lengths, such as ``3/4/5 m``, of which a bar has one."""
_IMPERIAL = re.compile(r"\d\s?(?:ft|in|foot|feet|inch)\b|\d\s?['\"′″]")
_UNIT_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "ft": 304.8, "in": 25.4}
_ROUNDED_MM = 1.0


def sheet_name(product: SheetProduct) -> str:
    """Return a sheet's name with thickness, length and width [mm]."""
    sizes = product.thickness_mm, product.length_mm, product.width_mm
    text = f"{product.thickness_mm} mm, {product.length_mm} x {product.width_mm} mm"
    return _with(product.name, sizes, text)


def bar_name(product: TimberProduct) -> str:
    """Return a bar's name with section and length [mm]."""
    sizes = product.width_mm, product.depth_mm, product.length_mm
    text = f"{product.width_mm} x {product.depth_mm} x {product.length_mm} mm"
    return _with(product.name, sizes, text)


def _with(name: str, sizes_mm: tuple[int, ...], text: str) -> str:
    """Return the name with the text behind it, unless the name tells every size already.

    A name in feet and inches stays as it is: its sizes may be nominal ones.
    """
    if _IMPERIAL.search(name):
        return name
    told = [_readings_mm(*hit) for hit in _NUMBER.findall(_CHOICE.sub(" ", name))]
    is_told = all(
        any(abs(mm - size) < _ROUNDED_MM for mms in told for mm in mms) for size in sizes_mm
    )
    return name if is_told else f"{name}, {text}"


def _readings_mm(number: str, unit: str) -> tuple[float, ...]:
    """Return what a number in a name may be [mm]: without a unit it is in mm or cm."""
    value = float(number.replace(",", "."))
    units = (unit.lower(),) if unit else ("mm", "cm")
    return tuple(value * _UNIT_MM[one] for one in units)
