"""Lengths of bars: one, a choice, a range with or without a step, or random."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from steepwright.pricelist.sizes import BAR_MM, IMPERIAL, METRIC, UNIT_MM, element
from steepwright.pricelist.words import fold, has, norm, shape

Form = Literal["none", "fixed", "choice", "range", "random", "two units"]

_NUM = r"\d+(?:[.,]\d+)?"
_UNIT = r"mm|cm|m(?![a-z0-9])|ft\b\.?|feet|foot|lfm\b|mb\b|ml\b|mtr\b|lm\b|'"
_RANGE = re.compile(
    rf"({_NUM})\s?({_UNIT})?\s?(?:-|–|—|\bbis\b|\bto\b|\ba\b|\bdo\b|\btot\b|\bhasta\b|\bal\b|\bau\b)\s?({_NUM})\s?({_UNIT})?"
)
_LIST = re.compile(
    rf"(?<![\w.,x])({_NUM})\s?(?:{_UNIT})?(?:\s?(?:/|;|\+|&|,\s|,(?=\d+,\d)|\bund\b|\bet\b|\boder\b|\bou\b|\bor\b|\band\b|\by\b|\be\b|\bo\b|\bi\b|\blub\b|\ben\b|\bof\b)\s?{_NUM}\s?(?:{_UNIT})?)+"
)
_ONE = re.compile(rf"(?<![\w.,])({_NUM})\s?-?({_UNIT})?")
_COMMA_LIST = re.compile(r"(?<![\d,.])\d{1,2}(?:,\d{1,2}){2,}(?![\d,.])")
_SPACED = re.compile(rf"(?<=\d)\s?m\s+(?={_NUM}\s?m(?![a-z0-9²³]))")
"""Between the lengths of ``3.0m 3.6m 4.2m``."""
_LABEL = re.compile(r"\b(?:l|lg|lang|lange|long|lung|lungh|dl|lengte|length)\s?[.:=]?\s?(?=\d)")
_LABELLED = re.compile(
    r"(?<!\w)(?:l|lg|lang|lange|long|lung|lungh|dl|lengte|length)\s?[.:=]?\s?(\d{3,5})"
    r"(?![\w.,]*\w|\s?(?:mm|cm|m\b|x|/|-))"
)
"""A length with its label and without a unit, such as ``L=5000``."""
_METRES_CM = re.compile(
    r"(?<![\w.,])(\d{1,2})(?:m|\s?m\s(?=\d\d\s*(?:$|[|;)])))(\d\d)(?![\w.,]|\s?[x/])"
)
"""``2m50``, and ``3 m 60`` at the end of a text."""
_UNIT_FIRST = re.compile(
    r"(?<![\w.,/])(?<!\d\s)(?:mt|ml|m)\.?\s(\d{1,2}(?:[.,]\d{1,2})?)(?![\w.,]*\w|\s?(?:x|/|m\b|mm|cm))"
)
"""``m 4`` and ``mt. 4,50``, as Italian lists have it."""
_UP_TO = re.compile(
    r"(?<!\d)(?<!\d\s)(?<!m\s)(?<!\w)(?:bis(?: zu)?|max\.?|up to|jusqu'a|fino a|hasta|tot|do)"
    rf"\s{_NUM}\s?(?:{_UNIT})"
)
"""A longest length, which is no stock length."""
_ODD = re.compile(r"\d\s?m\s?\d|\b(?:mt|ml|m)\.?\s\d|bis|max|up|jusqu|fino|hasta|tot|do")
"""What each of the three odd spellings holds."""
_STEP = re.compile(rf"({_NUM})\s?(?:({_UNIT})|(?=\)|\s*$))")
_TRADE_UNITS = {
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "lfm": "m",
    "mb": "m",
    "ml": "m",
    "mtr": "m",
    "lm": "m",
    "ft": "ft",
    "ft.": "ft",
    "feet": "ft",
    "foot": "ft",
    "'": "ft",
}


@dataclass(frozen=True, slots=True)
class LengthOffer:
    """The lengths that a bar comes in [mm]; a range has its two ends, and its step if known.

    ``two units`` are numbers that fit bars in either of two, such as 1200.
    """

    form: Form
    lengths_mm: tuple[int, ...] = ()
    step_mm: int = 0

    def stock(self, step_mm: Decimal = Decimal(0)) -> tuple[int, ...]:
        """Return the stock lengths that can be planned with; none for random lengths."""
        step = self.step_mm or step_mm
        if self.form in ("fixed", "choice"):
            return self.lengths_mm
        if self.form == "range" and step > 0:
            low, high = self.lengths_mm
            steps = range(int((high + 1 - low) / step) + 1)
            return tuple(mm for n in steps if (mm := int(low + n * step)) <= high)
        return ()


NONE = LengthOffer("none")


@lru_cache(maxsize=65536)
def lengths_in(
    text: str, default_unit: str = "", imperial: bool = False, preferred: str = ""
) -> LengthOffer:
    """Return the lengths that a text names.

    Numbers without a unit count only with a `default_unit` (``?`` for any that fits a bar); those
    that fit in several are in the `preferred` one, or ``two units``.
    """
    plain = fold(text).strip()
    if plain.count(",") > 1:
        plain = _COMMA_LIST.sub(lambda hit: hit[0].replace(",", "/"), plain)
    plain = _SPACED.sub(" m / ", plain)
    plain = _LABEL.sub(" ", _LABELLED.sub(_with_its_unit, plain))
    if _may_hold("odd", shape(plain)):
        plain = _METRES_CM.sub(r"\1.\2 m", plain)
        plain = _UP_TO.sub(" ", _UNIT_FIRST.sub(r"\1 m", plain))
    if not plain:
        return NONE
    words = norm(shape(text))
    bare = _Bare(default_unit, imperial, preferred)
    try:
        found = _range(plain, words, bare) or _list(plain, bare)
        if has("random", words):
            return LengthOffer("random", found.lengths_mm if found else ())
        return found or _single(plain, bare)
    except _TwoUnitsError:
        return LengthOffer("two units")


def _with_its_unit(found: re.Match[str]) -> str:
    """Return a labelled length with the one unit in which it can be that of a bar."""
    units = [one for one in ("cm", "mm") if _fitting((Decimal(found[1]),), one) is not None]
    return f" {found[1]} {units[0]}" if len(units) == 1 else found[0]


@lru_cache(maxsize=16384)
def _may_hold(form: str, text: str) -> bool:
    """Return whether a text may hold a range, a list or an odd spelling of any numbers."""
    return bool({"range": _RANGE, "list": _LIST, "odd": _ODD}[form].search(text))


@dataclass(frozen=True, slots=True)
class _Bare:
    """How numbers without a unit are read; see `lengths_in`."""

    default_unit: str
    imperial: bool
    preferred: str

    def lengths_mm(self, numbers: Sequence[tuple[str, str]]) -> tuple[int | None, ...]:
        """Return the lengths [mm] of numbers that stand together, each with its unit or none.

        The last unit counts for all without. None is no length of a bar.

        Raises
        ------
        _TwoUnitsError
            When none has a unit, and one may be in either of two.
        """
        last = next((unit for _, unit in reversed(numbers) if unit), "")
        default = _TRADE_UNITS.get(last, self.default_unit)
        if default == "?":
            return self._guessed([text for text, _ in numbers])
        stated = ((text, _TRADE_UNITS.get(unit, default)) for text, unit in numbers)
        return tuple(
            _fitting(element(text).values, unit) if unit else None for text, unit in stated
        )

    def _guessed(self, numbers: Sequence[str]) -> tuple[int | None, ...]:
        """Return each number in the unit that fits them all, or else in one that fits it."""
        each = [self._ways(text) for text in numbers]
        shared = set(each[0]).intersection(*each)
        return tuple(
            self._one({unit: mm for unit, mm in ways.items() if not shared or unit in shared})
            for ways in each
        )

    def _ways(self, text: str) -> dict[str, int]:
        """Return the lengths [mm] that a number can be, by their units."""
        values = element(text).values
        for units in (IMPERIAL, METRIC) if self.imperial else (METRIC,):
            # A thousands mark stands in millimetres alone: 1.200 is no 12 m.
            fits = {one: _fitting(values if one == "mm" else values[:1], one) for one in units}
            ways = {unit: mm for unit, mm in fits.items() if mm is not None}
            if ways:
                return ways
        return {}

    def _one(self, ways: dict[str, int]) -> int | None:
        if self.preferred in ways or not ways:
            return ways.get(self.preferred)
        if len(set(ways.values())) > 1:
            raise _TwoUnitsError
        return next(iter(ways.values()))


class _TwoUnitsError(Exception):
    """Numbers without a unit fit bars in either of two."""


def _fitting(values: Sequence[Decimal], unit: str) -> int | None:
    """Return the first value that is the length of a bar [mm]."""
    lengths = (value * UNIT_MM[unit] for value in values)
    return next((int(mm) for mm in lengths if BAR_MM[0] <= mm <= BAR_MM[1]), None)


def _range(plain: str, words: str, bare: _Bare) -> LengthOffer | None:
    found = _RANGE.search(plain) if _may_hold("range", shape(plain)) else None
    if not found:
        return None
    low, high = bare.lengths_mm([(found[1], found[2] or ""), (found[3], found[4] or "")])
    if low is None or high is None or low >= high:
        return None
    unit = _TRADE_UNITS.get(found[4] or found[2] or "", bare.default_unit)
    step_mm = _step_mm(plain[found.end() :], unit) if has("step", words) else 0
    return LengthOffer("range", (low, high), step_mm)


def _step_mm(rest: str, unit: str) -> int:
    """Return the step [mm] that follows a range, else in the range's unit; 0 if unsaid."""
    found = _STEP.search(rest)
    name = _TRADE_UNITS.get(found[2] or "", unit) if found else ""
    return int(element(found[1]).values[0] * UNIT_MM[name]) if found and name in UNIT_MM else 0


def _list(plain: str, bare: _Bare) -> LengthOffer | None:
    for found in _LIST.finditer(plain) if _may_hold("list", shape(plain)) else ():
        numbers = [(one[1], one[2] or "") for one in _ONE.finditer(found[0])]
        if "/" not in found[0] and not bare.default_unit:
            while numbers and not numbers[-1][1]:
                numbers.pop()
        values = bare.lengths_mm(numbers)
        known = tuple(sorted({value for value in values if value is not None}))
        if len(known) > 1 and None not in values:
            return LengthOffer("choice", known)
    return None


def _single(plain: str, bare: _Bare) -> LengthOffer:
    for one in _ONE.finditer(plain):
        (value,) = bare.lengths_mm([(one[1], one[2] or "")])
        if value is not None:
            return LengthOffer("fixed", (value,))
    return NONE
