"""How many pieces a pack holds, from its own column or from the words of a row."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from steepwright.pricelist.cells import cell_text
from steepwright.pricelist.draft import Draft
from steepwright.pricelist.words import entries, fold, shape

_PIECES = (
    r"(?:stk|stck|st|stuck|stueck|pcs|pc|pieces?|pces|pce|szt|sztuk|pz|pezzi|uds|ud|unidades|stuks|"
    r"ct|count)"
)
_PACK = "(?:{})".format(
    "|".join(
        word.needle.strip() + ("" if word.needle.endswith(" ") else r"\w*")
        for word in entries("basis")
        if word.value == "pack" and not word.whole
    )
)
_PATTERNS = (
    re.compile(rf"(\d+)\s*{_PIECES}\.?\s*(?:/|per|pro|je|par|por|al|w|na|in)?\s*{_PACK}\b"),
    re.compile(
        rf"\b{_PACK}\.?\s*(?:of|a|=|mit|zu|de|da|po|van|met|:|\()?\s*(\d+)\s*{_PIECES}?\b(?!\s*(?:x|mm|cm|m\b))"
    ),
    re.compile(rf"\(\s*(\d+)\s*{_PIECES}\.?\s*\)"),
    re.compile(rf"(\d+)\s*er[\s-]*{_PACK}\b"),
)
_MAY_NAME = re.compile(rf"(?<![a-z])(?:{_PIECES}|{_PACK})")
_BARE = re.compile(rf"\b(\d+)\s*{_PIECES}\b")
_LEAST = re.compile(
    rf"\b(?:ab|from|od|vanaf|des|desde|a partir de|a partire da|mind(?:estens)?\.?|min\.?)\s*"
    rf"(\d{{1,5}})\s*{_PIECES}\b"
)
_WEIGHT = re.compile(r"(?<![\w.,/])\d+(?:[.,]\d+)?\s*-?\s*(?:lbs?|pounds?|oz|kgs?|kilos?)\b\.?")
_BY_WEIGHT = re.compile(r"\s*(?:/|per|pro|je)?\s*(?:lbs?|pounds?|kgs?|kilos?)\.?\s*")
_NUMBER = re.compile(r"^\s*(\d{1,5})(?:[.,]0+)?\s*[a-z./ ]*$")


@lru_cache(maxsize=16384)
def pieces_in(text: str) -> int:
    """Return the pieces of a pack that a text names; 0 when it names none."""
    if not _may_name(shape(text)):
        return 0
    plain = _WEIGHT.sub(" ; ", fold(text))
    for pattern in _PATTERNS:
        found = pattern.search(plain)
        if found:
            return int(found[1])
    return 0


@lru_cache(maxsize=16384)
def least_pieces_in(text: str) -> int:
    """Return the pieces from which on a row's price holds, as in ``ab 50 Stk``; 0 if unsaid."""
    found = _LEAST.search(fold(text)) if _may_name(shape(text)) else None
    return int(found[1]) if found else 0


@lru_cache(maxsize=16384)
def _may_name(text: str) -> bool:
    """Return whether a text has a word for a pack or for pieces at all."""
    return bool(_MAY_NAME.search(fold(text)))


def pack_pieces(draft: Draft, answer: str) -> int:
    """Return the pieces per pack of a row, by the list or the user's answer; 0 when unknown."""
    return _stated_pieces(draft) or (int(answer) if answer.isdecimal() else 0)


def is_by_weight(draft: Draft) -> bool:
    """Return whether a row names a weight, as ``5 lb box`` does, and no number of pieces."""
    units = [cell_text(draft.item.row, column.index) for column in draft.item.header.of("unit")]
    named = any(_WEIGHT.search(fold(text)) for text in (draft.own, *units))
    named = named or any(_BY_WEIGHT.fullmatch(fold(text)) for text in units)
    return named and not _stated_pieces(draft)


def _stated_pieces(draft: Draft) -> int:
    row = draft.item.row
    for column in draft.item.header.of("pack_pieces"):
        cell = row.cell(column.index)
        if isinstance(cell, Decimal):
            return int(cell) if cell == int(cell) and cell > 0 else 0
        text = cell_text(row, column.index)
        found = _NUMBER.match(fold(text))
        if found:
            return int(found[1])
        named = pieces_in(text)
        if named:
            return named
    for column in draft.item.header.of("unit", "length", "size"):
        named = pieces_in(cell_text(row, column.index))
        if named:
            return named
    named = pieces_in(draft.own)
    if not named and draft.kind.family == "hardware":
        found = _BARE.search(fold(draft.own))
        return int(found[1]) if found else 0
    return named
