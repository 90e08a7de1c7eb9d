"""Sizes in a text or in cells -> millimetres, by what can stand in a yard and nothing else.

A size without a unit is tried in each unit; the readings that fit a real sheet or bar remain.
One reading settles the size; two are a question.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from steepwright.pricelist.words import fold, shape, short_numbers

Shape = Literal["sheet", "sides", "thickness", "bar", "section", "length"]

UNIT_MM = {
    "mm": Decimal(1),
    "cm": Decimal(10),
    "m": Decimal(1000),
    "in": Decimal("25.4"),
    "ft": Decimal("304.8"),
}
"""Millimetres in each unit; the inch is exact by definition (1959 agreement)."""
METRIC, IMPERIAL = ("mm", "cm", "m"), ("in", "ft")

_UNIT = r"mm|cm|m(?![a-z0-9])|inches|inch|in\b\.?|zoll|pouces?|pollici|\"|''|ft\b\.?|feet|foot|'"
_NUM = r"\d+(?:[.,]\d+)?"
_ELEMENT = rf"(?P<num>{_NUM})\s?-?(?P<unit>{_UNIT})?"
_CHAIN = re.compile(
    rf"(?<![\w.,/]){_NUM}\s?-?(?:{_UNIT})?(?:\s?(?:x|/|\*|by)\s?{_NUM}\s?-?(?:{_UNIT})?)+(?![\d/])"
)
_ONE = re.compile(_ELEMENT)
_SINGLE = re.compile(rf"(?<![\w.,/]){_ELEMENT}")
_OTHER_TIMES = re.compile(r"(?<=[\d\"'m ])[хχ*](?=[\d ])")
_FRACTION = re.compile(r"(?<![\d/.,])(?:(\d+)-|(?<!x)(\d+) )?(\d+)/(2|4|8|16|32|64)(?![\d/])")
"""An inch fraction, with its whole inches; the 8 of ``4x8 1/2`` is none of those."""
SPAN_RATING = re.compile(r"(?<![\w.,/])(?:(?:12|16|20|24)/0|24/16|32/16|40/20|48/24)(?![\w.,/])")
"""Rated panels' greatest spacing of roof and floor supports [in], PS 1 and PS 2 [M]; no size."""
_STUCK = re.compile(r"(?<![\w.,])(mm|cm)\.?(?=\d)")
"""A unit before its number, such as ``mm18``."""
_DATE = re.compile(
    r"(?<![\w.,/-])(?:[0-2]?\d|3[01])([./-])(?:[0-2]?\d|3[01])\1\s?20[2-9]\d(?![\w/-]|[.,]\d)"
)
"""A day in full, whose numbers are no size."""
_INCHES = re.compile(r"\d\s*(?:in\b|inch|zoll|ft\b|')")
_INCH_MARKS = re.compile(r"\d\s*(?:\"|''|′|″|in\b|inch|ft\b|feet|'(?!\d{3}))")
_HYPHENED = re.compile(
    r"(?<![\w.,/x])(\d{1,2}x\d{1,2})-(\d{1,3}(?:\.\d+)?)('|\"|\s?ft\b|\s?in\b)?(?![\w.,/x])"
)
_UNITS = {
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    '"': "in",
    "''": "in",
    "in": "in",
    "in.": "in",
    "inch": "in",
    "inches": "in",
    "zoll": "in",
    "pouce": "in",
    "pouces": "in",
    "pollici": "in",
    "'": "ft",
    "ft": "ft",
    "ft.": "ft",
    "feet": "ft",
    "foot": "ft",
}

THICKNESS_MM = (Decimal("2.5"), Decimal(60))
SHORT_SIDE_MM = (Decimal(500), Decimal(2200))
LONG_SIDE_MM = (Decimal(1000), Decimal(6000))
NARROW_MM = (Decimal(15), Decimal(280))
DEEP_MM = (Decimal(20), Decimal(400))
BAR_MM = (Decimal(900), Decimal(15000))


@dataclass(frozen=True, slots=True)
class Element:
    """One number of a size: the values it can have, and its unit when stated."""

    values: tuple[Decimal, ...]
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Chain:
    """Numbers joined by x or a slash, and where they stand in the folded text."""

    elements: tuple[Element, ...]
    start: int
    end: int
    slashed: bool


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read a size: values [mm] in the order written, and the unit of each."""

    mm: tuple[Decimal, ...]
    units: tuple[str, ...]


@lru_cache(maxsize=16384)
def element(text: str, unit: str = "") -> Element:
    """Return one number's possible values: ``2.500`` may be 2.5 or 2500."""
    bare = text.replace(",", ".")
    whole, _, part = bare.partition(".")
    values = [Decimal(bare)]
    if len(part) == 3 and whole != "0":
        values.append(Decimal(whole + part))
    return Element(tuple(values), unit)


@lru_cache(maxsize=65536)
def prepare(text: str, imperial: bool) -> str:
    """Return folded text with inch fractions written as decimals where inches are meant."""
    plain = fold(text).replace("″", '"').replace("”", '"').replace("“", '"').replace("′", "'")
    if not plain.isascii() or "*" in plain:
        plain = _OTHER_TIMES.sub("x", plain)
    plain = _STUCK.sub(r"\1 ", _DATE.sub(";", plain))
    if "/" in plain and imperial:
        plain = SPAN_RATING.sub(";", plain)
    if "/" in plain and (imperial or '"' in plain or _INCHES.search(plain)):
        plain = _FRACTION.sub(_decimal_inches, plain)
    return _HYPHENED.sub(_hyphened_length, plain) if imperial else plain


def _hyphened_length(found: re.Match[str]) -> str:
    """Return the length of ``2x6-12'``, ``2x6-12`` [ft] or ``2x4-92.625`` [in] as third size."""
    return f"{found[1]}x{found[2]}" + (found[3] or ("'" if Decimal(found[2]) <= 24 else '"'))


def bare_fractions(text: str) -> set[Decimal]:
    """Return the inch fractions in a text that stand alone, such as the 23/32 of a sheet."""
    found = (_decimal_inches(hit) for hit in _FRACTION.finditer(fold(text)))
    return {Decimal(value) for value in found if "/" not in value}


def _decimal_inches(found: re.Match[str]) -> str:
    whole, top, bottom = int(found[1] or found[2] or 0), int(found[3]), int(found[4])
    if top % 2 == 0 or top >= bottom:
        return found[0]
    return f"{whole + Decimal(top) / Decimal(bottom):f}"


def is_imperial(text: str) -> bool:
    """Return whether a text has inch or foot marks on numbers."""
    return _has_inch_mark(short_numbers(text))


@lru_cache(maxsize=65536)
def _has_inch_mark(text: str) -> bool:
    return bool(_INCH_MARKS.search(fold(text)))


@lru_cache(maxsize=65536)
def _has_chain(text: str) -> bool:
    return bool(_CHAIN.search(text))


@lru_cache(maxsize=65536)
def chains(plain: str) -> tuple[Chain, ...]:
    """Return every chain of numbers in prepared text, such as ``18 x 1250 x 2500 mm``."""
    if not _has_chain(shape(plain)):
        return ()
    return tuple(_chain(found) for found in _CHAIN.finditer(plain))


def _chain(found: re.Match[str]) -> Chain:
    text = found[0]
    return Chain(_elements(text), found.start(), found.end(), "x" not in text and "/" in text)


@lru_cache(maxsize=16384)
def _elements(text: str) -> tuple[Element, ...]:
    return tuple(element(num, _UNITS.get(unit, "")) for num, unit in _ONE.findall(text))


def singles(plain: str) -> list[tuple[Element, int, int]]:
    """Return numbers outside of chains that have a unit of length, with their place."""
    bare = _blank_out(plain, chains(plain))
    found = _SINGLE.finditer(bare)
    return [
        (element(one["num"], _UNITS[one["unit"]]), one.start(), one.end())
        for one in found
        if one["unit"] in _UNITS
    ]


def _blank_out(plain: str, parts: Iterable[Chain]) -> str:
    for part in parts:
        plain = plain[: part.start] + " " * (part.end - part.start) + plain[part.end :]
    return plain


def _within(value: Decimal, bounds: tuple[Decimal, Decimal]) -> bool:
    return bounds[0] <= value <= bounds[1]


def _sides_fit(a: Decimal, b: Decimal) -> bool:
    return _within(min(a, b), SHORT_SIDE_MM) and _within(max(a, b), LONG_SIDE_MM)


def _section_fits(a: Decimal, b: Decimal) -> bool:
    return (
        _within(min(a, b), NARROW_MM)
        and _within(max(a, b), DEEP_MM)
        and max(a, b) <= 12 * min(a, b)
    )


def _sheet_fits(mm: Sequence[Decimal]) -> bool:
    thin = min(mm)
    rest = list(mm)
    rest.remove(thin)
    return _within(thin, THICKNESS_MM) and _sides_fit(rest[0], rest[1])


def _bar_fits(mm: Sequence[Decimal]) -> bool:
    long = max(mm)
    rest = list(mm)
    rest.remove(long)
    at_end = mm[0] == long or mm[-1] == long
    return (
        at_end
        and _within(long, BAR_MM)
        and long > 3 * max(rest)
        and _section_fits(rest[0], rest[1])
    )


_FITS: dict[str, tuple[int, Callable[[Sequence[Decimal]], bool]]] = {
    "sheet": (3, _sheet_fits),
    "sides": (2, lambda mm: _sides_fit(mm[0], mm[1])),
    "thickness": (1, lambda mm: _within(mm[0], THICKNESS_MM)),
    "bar": (3, _bar_fits),
    "section": (2, lambda mm: _section_fits(mm[0], mm[1])),
    "length": (1, lambda mm: _within(mm[0], BAR_MM)),
}


@lru_cache(maxsize=65536)
def readings(elements: tuple[Element, ...], shape: Shape, imperial: bool) -> tuple[Reading, ...]:
    """Return the readings of a size that fit a shape, the most uniform in unit only.

    Metric units are tried first unless the list is imperial; the others when nothing fits.
    """
    count, fits = _FITS[shape]
    if len(elements) != count:
        return ()
    orders = (IMPERIAL, METRIC) if imperial else (METRIC, IMPERIAL)
    for allowed in orders:
        found = _enumerate(elements, allowed, fits)
        if found:
            return found
    mixed = _enumerate(elements, METRIC + IMPERIAL, fits)
    if mixed or not any(one.unit for one in elements):
        return mixed
    bare = tuple(Element(one.values) for one in elements)
    return readings(bare, shape, imperial)


def _enumerate(
    elements: tuple[Element, ...],
    allowed: tuple[str, ...],
    fits: Callable[[Sequence[Decimal]], bool],
) -> tuple[Reading, ...]:
    choices = [
        [(value, unit) for value in one.values for unit in ((one.unit,) if one.unit else allowed)]
        for one in elements
    ]
    found: dict[tuple[Decimal, ...], Reading] = {}
    fewest = 9
    for pick in itertools.product(*choices):
        mm = tuple(value * UNIT_MM[unit] for value, unit in pick)
        units = tuple(unit for _, unit in pick)
        kinds = len(set(units))
        if kinds > fewest or not fits(mm):
            continue
        if kinds < fewest:
            fewest, found = kinds, {}
        found.setdefault(mm, Reading(mm, units))
    return tuple(found.values())
