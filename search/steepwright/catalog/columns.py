"""What a cell may hold: texts, plain numbers and prices, each refused with its own sentence."""

from __future__ import annotations

import csv
import re
from decimal import Decimal
from functools import cache
from typing import Annotated, NoReturn

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from steepwright.resources import catalogs_dir
from steepwright.units import cents

_PLAIN = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
_COMMA = re.compile(r"[+-]?[0-9]{1,3}([. ']?[0-9]{3})*,[0-9]+|[+-]?[0-9]+,[0-9]+")
_CONTROL = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029]+")
_GUARDED = re.compile(r"'+[=+\-@＝＋－＠]")
_RUNS = re.compile(r"'*[=+\-@＝＋－＠]")


def one_line(text: str) -> str:
    """Return a text without control characters and line breaks, nor spaces at its ends."""
    return _CONTROL.sub(" ", text).strip()


def guard(text: str) -> str:
    """Return a text cell that no spreadsheet will run as a formula.

    A text that begins like a formula gets an apostrophe in front; `unguard` takes it off.
    """
    return f"'{text}" if _RUNS.match(text) else text


def unguard(text: str) -> str:
    """Return the text that `guard` was given."""
    return text[1:] if _GUARDED.match(text) else text


@cache
def row_limits() -> dict[tuple[str, str], tuple[Decimal, Decimal, str]]:
    """Return least and most value and unit by (file, column), from ``row_limits.csv``.

    They are wide: they catch a slip of the pen (cm for mm), not an unusual product.
    """
    path = catalogs_dir() / "materials" / "row_limits.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {
            (row["file"], row["column"]): (Decimal(row["least"]), Decimal(row["most"]), row["unit"])
            for row in csv.DictReader(stream)
        }


def refuse(code: str, message: str, expected: str = "", next_step: str = "") -> NoReturn:
    """Raise the error that pydantic passes on as one finding."""
    kind, template = "catalog", "{message}"
    context = {"code": code, "message": message, "expected": expected, "next_step": next_step}
    raise PydanticCustomError(kind, template, context)


def _text(value: str, info: ValidationInfo) -> str:
    if text := unguard(one_line(value)):
        return text
    if info.field_name == "strength_class":
        refuse(
            "catalog-blank",
            "this cell is empty, and timber without a strength class is no structural timber",
            "a class like C24",
            "ask the yard for timber with a grading stamp",
        )
    refuse("catalog-blank", "this cell is empty", "a text")


def _number(value: str, info: ValidationInfo) -> Decimal:
    """Return a plain number within the limits of its column; the context is the file's name."""
    if not value:
        refuse("catalog-blank", "this cell is empty", "a number")
    if _COMMA.fullmatch(value):
        refuse(
            "catalog-decimal-comma",
            "the number has a decimal comma",
            "a decimal point",
            f"write {_pointed(value)}",
        )
    if not _PLAIN.fullmatch(value):
        refuse("catalog-bad-number", "this is no plain number", "digits only, no unit, like 48.90")
    number = Decimal(value)
    _check_range(number, str(info.context), str(info.field_name))
    return number


def _pointed(value: str) -> str:
    whole, part = value.rsplit(",", 1)
    return f"{re.sub('[^0-9+-]', '', whole)}.{part}"


def _check_range(number: Decimal, file: str, column: str) -> None:
    least, most, unit = row_limits()[file, column]
    if least <= number <= most:
        return
    if column == "price" and number <= 0:
        message = "the price is zero" if number == 0 else "the price is negative"
        step = "leave out the row when the article is not on offer"
        refuse("catalog-price", message, "a price above 0", step)
    refuse(
        "catalog-out-of-range",
        "the value can't be right",
        f"{least:f} to {most:f} {unit}",
        "lengths are in millimetres" if unit == "mm" else "",
    )


def _whole(value: str, info: ValidationInfo) -> int:
    number = _number(value, info)
    if number != number.to_integral_value():
        refuse("catalog-bad-number", "the number has decimals", "a whole number")
    return int(number)


def _real(value: str, info: ValidationInfo) -> float:
    return float(_number(value, info))


def _price(value: str, info: ValidationInfo) -> int:
    number = _number(value, info)
    if number != round(number, 2):
        message = "the price has parts of a cent"
        refuse("catalog-price", message, "at most two decimals, like 48.90")
    return cents(value)


Text = Annotated[str, BeforeValidator(_text)]
Whole = Annotated[int, BeforeValidator(_whole)]
Real = Annotated[float, BeforeValidator(_real)]
Price = Annotated[int, BeforeValidator(_price)]
