"""The kinds of value a room file holds, each with its limits and its own plain message.

The limits are sanity limits (common practice, no source): outside them a value is surely a slip
of the finger or of the unit. They are also what the shipped JSON Schema states.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, NoReturn

from pydantic import GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from steepwright.imperial import (
    EXAMPLE,
    LENGTH_PATTERN,
    LINE_LOAD_PATTERN,
    MASS_PATTERN,
    length_mm,
    line_load_n_per_m,
    mass_kg,
)
from steepwright.room.syntax import Written
from steepwright.units import cents

JsonSchema = dict[str, Any]


class Field:
    """A kind of value: `check` returns it clean or raises; `json_schema` describes it."""

    __slots__ = ()

    def check(self, value: Any) -> Any:
        """Return the value in its final form or raise a `PydanticCustomError`."""
        raise NotImplementedError

    def json_schema(self) -> JsonSchema:
        """Return the JSON Schema of the value as written in the file."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(
        self, _source: Any, _handler: Callable[[Any], CoreSchema]
    ) -> CoreSchema:
        """Let pydantic use `check`."""
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(
        self, _core: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> JsonSchema:
        """Let pydantic use `json_schema`."""
        return self.json_schema()


def refuse(code: str, message: str, expected: str, step: str = "") -> NoReturn:
    """Raise the error of one bad value: what is wrong, what was expected, what to do."""
    context = {"say": message, "expected": expected, "step": step}
    raise PydanticCustomError(code, "{say}", context) from None


_READERS: dict[str, tuple[Callable[[str], float], str, str]] = {
    "mm": (length_mm, f'text such as "{EXAMPLE}"', LENGTH_PATTERN),
    "kg": (mass_kg, 'text such as "165 lb"', MASS_PATTERN),
    "N/m": (line_load_n_per_m, 'text such as "60 plf"', LINE_LOAD_PATTERN),
}
"""Texts with a unit that stand for a number in this unit: reader, example, pattern."""


def _measured(value: Any, unit: str, expected: str) -> Any:
    """Return the number that a text with a unit stands for; anything else as it is."""
    if not isinstance(value, str) or unit not in _READERS or not _has_unit(value):
        return value
    read, example, _ = _READERS[unit]
    try:
        return read(value)
    except ValueError as error:
        step = f"Write {example}, or the number alone in {unit}."
        refuse("bad-measure", str(error), expected, step)


def _has_unit(text: str) -> bool:
    return any(c.isdigit() for c in text) and not text.strip().replace(".", "", 1).isdigit()


def _in_schema(number: JsonSchema, unit: str) -> JsonSchema:
    """Return a number's schema, or beside it that of a text with a unit."""
    if unit not in _READERS:
        return number
    return {"anyOf": [number, {"type": "string", "pattern": _READERS[unit][2]}]}


def _number(value: Any, expected: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        step = "Write the number without quotes." if isinstance(value, str) else ""
        refuse("wrong-type", "this is not a number", expected, step)
    if isinstance(value, float) and not math.isfinite(value):
        refuse("not-finite", "this is not a finite number", expected)
    return value


@dataclass(frozen=True, slots=True)
class Whole(Field):
    """A whole number from `low` to `high`; `unit` is for the message."""

    low: int
    high: int
    unit: str = "mm"

    def check(self, value: Any) -> int:
        """Return the number as an int; 2400.0 counts as 2400, a text with a unit in mm."""
        number = _number(_measured(value, self.unit, self.expected), self.expected)
        if number != int(number):
            refuse("not-whole", "this is not a whole number", self.expected)
        return int(_within(number, self.low, self.high, self.expected))

    @property
    def expected(self) -> str:
        """The range in words."""
        return f"a whole number{' of ' + self.unit if self.unit else ''} {_span(self)}"

    def json_schema(self) -> JsonSchema:
        """Return type and limits."""
        number = {"type": "integer", "minimum": self.low, "maximum": self.high}
        return _in_schema(number, self.unit)


@dataclass(frozen=True, slots=True)
class ServiceClass(Whole):
    """A service class of EN 1995-1-1 2.3.1.3 that walls can be checked for."""

    low: int = 1
    high: int = 2
    unit: str = ""

    def check(self, value: Any) -> int:
        """Return the class; what is outdoors gets a sentence of its own."""
        if value == 3 and not isinstance(value, bool):
            refuse(
                "wet-room",
                "service class 3 is timber that gets wet: sheets, screws and ropes of this program"
                " are for dry rooms, and no wall of it is checked for rain",
                "1 for a heated room, 2 for a dry unheated one",
                "Put a roof and walls round it, or have an engineer plan a wall for outdoors.",
            )
        return Whole.check(self, value)


@dataclass(frozen=True, slots=True)
class Real(Field):
    """A number from `low` to `high`; `unit` is for the message."""

    low: float
    high: float
    unit: str

    def check(self, value: Any) -> float:
        """Return the number as a plain float; a text with a unit in kg or N/m."""
        number = _number(_measured(value, self.unit, self.expected), self.expected)
        return float(_within(number, self.low, self.high, self.expected))

    @property
    def expected(self) -> str:
        """The range in words."""
        return f"a number{' of ' + self.unit if self.unit else ''} {_span(self)}"

    def json_schema(self) -> JsonSchema:
        """Return type and limits."""
        number = {"type": "number", "minimum": self.low, "maximum": self.high}
        return _in_schema(number, self.unit)


@dataclass(frozen=True, slots=True)
class Money(Field):
    """An amount written like 1.50, read into integer cents; at most `high_cents`."""

    high_cents: int = 1_000_000

    def check(self, value: Any) -> int:
        """Return the amount [cents], exact to the written digits."""
        number = _number(value, self.expected)
        try:
            amount = cents(value.text if isinstance(value, Written) else str(number))
        except ValueError:
            refuse("not-cents", "this is not an amount in whole cents", self.expected)
        return int(_within(amount, 0, self.high_cents, self.expected))

    @property
    def expected(self) -> str:
        """The form and range in words."""
        return f"an amount like 1.50, from 0 to {self.high_cents // 100}"

    def json_schema(self) -> JsonSchema:
        """Return type and limits."""
        return {"type": "number", "minimum": 0, "maximum": self.high_cents // 100}


@dataclass(frozen=True, slots=True)
class Pair(Field):
    """Two values of one kind, in the order that `order` asks for.

    `order` is ``rising`` (a range), ``falling`` (longer side first) or empty (any);
    `single` allows one value to stand for both.
    """

    kind: Whole | Real
    words: tuple[str, str] = ("from", "to")
    order: str = "rising"
    single: bool = False

    def check(self, value: Any) -> tuple[Any, Any]:
        """Return both values clean."""
        if self.single and not isinstance(value, list):
            one = self.kind.check(value)
            return (one, one)
        if not isinstance(value, list) or len(value) != 2:
            self._refuse_shape(value)
        first, second = (self.kind.check(item) for item in value)
        if self.order == "rising" and first > second:
            say = f"the range is reversed: {self.words[0]} is above {self.words[1]}"
            refuse("reversed", say, f"[{second:g}, {first:g}]", "Swap the two numbers.")
        if self.order == "falling" and first < second:
            say = f"the {self.words[0]} is smaller than the {self.words[1]}"
            refuse("reversed", say, f"[{second:g}, {first:g}]", "Write the longer side first.")
        return (first, second)

    def _refuse_shape(self, value: Any) -> None:
        expected = f"[{', '.join(self.words)}], each {self.kind.expected}"
        if self.single:
            expected = f"{self.kind.expected}, or {expected}"
        many = isinstance(value, list) and len(value) > 2
        step = "A comma separates values; write decimals with a point." if many else ""
        refuse("not-a-pair", "this is not a pair of numbers", expected, step)

    def json_schema(self) -> JsonSchema:
        """Return an array of two, or the single value beside it."""
        item = self.kind.json_schema()
        pair = {"type": "array", "items": item, "minItems": 2, "maxItems": 2}
        return {"anyOf": [item, pair]} if self.single else pair


@dataclass(frozen=True, slots=True)
class Text(Field):
    """One line of text, not empty unless `least` is 0."""

    most: int = 80
    least: int = 1

    def check(self, value: Any) -> str:
        """Return the text without blanks around it."""
        if not isinstance(value, str):
            refuse("wrong-type", "this is not text", self.expected, "Put it between quotes.")
        text = value.strip()
        if not self.least <= len(text) <= self.most or not text.isprintable():
            say = "the text is empty" if not text else "the text is too long or not one line"
            refuse("bad-text", say, self.expected)
        return text

    @property
    def expected(self) -> str:
        """The form in words."""
        return f'text in quotes, such as "north", at most {self.most} letters'

    def json_schema(self) -> JsonSchema:
        """Return type and limits."""
        return {"type": "string", "minLength": self.least}


@dataclass(frozen=True, slots=True)
class Choice(Field):
    """One of a few words."""

    words: tuple[str, ...]

    def check(self, value: Any) -> str:
        """Return the word."""
        if value not in self.words:
            refuse("not-a-choice", "this word is not known here", self.expected)
        return str(value)

    @property
    def expected(self) -> str:
        """The words."""
        return "one of " + ", ".join(f'"{word}"' for word in self.words)

    def json_schema(self) -> JsonSchema:
        """Return the words."""
        return {"enum": list(self.words)}


class Flag(Field):
    """True or false."""

    __slots__ = ()

    def check(self, value: Any) -> bool:
        """Return the truth value; words and numbers do not count."""
        if not isinstance(value, bool):
            refuse("wrong-type", "this is neither true nor false", "true or false, without quotes")
        return value

    def json_schema(self) -> JsonSchema:
        """Return the type."""
        return {"type": "boolean"}


def _span(kind: Whole | Real) -> str:
    return f"from {kind.low} to {kind.high}"


def _within(number: float, low: float, high: float, expected: str) -> float:
    if number < low or number > high:
        say = "this is too small" if number < low else "this is too large"
        refuse("out-of-range", say, expected)
    return number
