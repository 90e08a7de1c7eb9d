"""Numbers as people write them; a mark is a decimal or a thousands mark by proof, not by guess."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

_GROUPED_BLANKS = re.compile(r"(?<=\d)[\s\u00a0\u202f\u2009\u2007'’](?=\d{3}(?!\d))")
_TAIL = re.compile(r"(?<=\d)([.,])\s*[-–—]{1,2}$")
_SHAPE = re.compile(r"(?!.{41})(?:[-+]?\d+(?:[.,]\d+)*|[-+]?[.,]\d+)$")
"""A number; no price, size or article number has more than 40 signs."""


@lru_cache(maxsize=65536)
def tidy(text: str) -> tuple[str, str]:
    """Return a number's digits and marks only, and the decimal mark that a ``12.-`` betrays."""
    bare = text.strip().replace("−", "-")
    tail = _TAIL.search(bare)
    bare = _GROUPED_BLANKS.sub("", bare[: tail.start()] if tail else bare)
    return bare, tail.group(1) if tail else ""


@lru_cache(maxsize=65536)
def decimal_vote(text: str) -> str:
    """Return the decimal mark that this number proves: ``,`` or ``.``, or an empty text.

    Both marks prove the last one; one mark proves itself when the digits after it are not
    three or nothing but a fraction can stand before it; a repeated mark is for thousands.
    """
    bare, tail = tidy(text)
    if not _SHAPE.match(bare):
        return ""
    if tail:
        return tail
    commas, points = bare.count(","), bare.count(".")
    if commas and points:
        return "," if bare.rfind(",") > bare.rfind(".") else "."
    if commas + points == 0:
        return ""
    mark = "," if commas else "."
    if commas + points > 1:
        return "." if mark == "," else ","
    before, after = bare.lstrip("+-").split(mark)
    if len(after) != 3 or before in ("", "0") or before.startswith("0") or len(before) > 3:
        return mark
    return mark if bare != text.strip() else ""


def is_undecided(text: str) -> bool:
    """Return whether the number has a mark that proves nothing, such as ``1.250``."""
    bare, _ = tidy(text)
    return bool(_SHAPE.match(bare)) and ("," in bare or "." in bare) and not decimal_vote(text)


def is_number(text: str) -> bool:
    """Return whether the text is a number in some convention."""
    return text.isdecimal() or bool(_SHAPE.match(tidy(text)[0]))


@lru_cache(maxsize=65536)
def number(text: str, decimal: str) -> Decimal | None:
    """Return the number under a decimal mark; None when it is none, or can't be one under it.

    An empty `decimal` reads only numbers that prove their own mark or have none.
    """
    bare, tail = tidy(text)
    if not _SHAPE.match(bare):
        return None
    if tail:
        return _whole(bare, "." if "." in bare else ",")
    mark = decimal_vote(text) or decimal
    if not mark and ("," in bare or "." in bare):
        return None
    whole, _, part = bare.partition(mark) if mark else (bare, "", "")
    if not part.isdecimal() and part:
        return None
    head = _whole(whole or "0", "." if mark == "," else ",")
    if head is None:
        return None
    size = Decimal(f"{abs(head):f}.{part}") if part else abs(head)
    return -size if whole.startswith("-") else size


def _whole(text: str, thousands: str) -> Decimal | None:
    """Return a whole number whose groups of three may be parted by a thousands mark."""
    groups = text.lstrip("+-").split(thousands)
    if len(groups) > 1 and (not 1 <= len(groups[0]) <= 3 or any(len(g) != 3 for g in groups[1:])):
        return None
    digits = "".join(groups)
    if not digits.isdecimal():
        return None
    return -Decimal(digits) if text.startswith("-") else Decimal(digits)
