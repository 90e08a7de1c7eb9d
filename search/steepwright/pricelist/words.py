"""The trade's words in seven languages, as data, and the one way to look for them in a text."""

from __future__ import annotations

import csv
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from steepwright.resources import catalogs_dir

_PLAIN = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "æ": "ae", "œ": "oe", "’": "'", "×": "x", "✕": "x"}
)
_HALVES = str.maketrans(
    {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8"}
)
_TOKENS = re.compile(r"[€$£%‰|]|[^\W_#]+|#[^\W_]*")
_LONG_NUMBER = re.compile(r"(?<![a-wyz\d])\d{2,}")
"""Numbers of several digits that belong to no word such as C24."""
_UMLAUTS = (("ä", "ae"), ("ö", "oe"), ("ü", "ue"))


_DIGITS = re.compile(r"\d+")
_THREE_DIGITS = re.compile(r"\d{3,}")


@lru_cache(maxsize=65536)
def shape(text: str) -> str:
    """Return text with every number as a nought: what its words say, whatever its sizes."""
    return _DIGITS.sub("0", text)


@lru_cache(maxsize=65536)
def short_numbers(text: str) -> str:
    """Return text with its numbers of three digits and more alike.

    No word for a product, class or surface holds such a number, so that rows which differ in
    their sizes and codes alone are looked up once.
    """
    return _THREE_DIGITS.sub("000", text)


@lru_cache(maxsize=65536)
def fold(text: str) -> str:
    """Return text in lower case without accents, superscripts or typographic signs."""
    if text.isascii():
        return text.lower()
    lowered = text.casefold().translate(_HALVES).translate(_PLAIN)
    if lowered.isascii():
        return lowered
    split = unicodedata.normalize("NFKD", lowered)
    return "".join(mark for mark in split if not unicodedata.combining(mark))


@lru_cache(maxsize=65536)
def norm(text: str) -> str:
    """Return folded text as words between single blanks, with a blank at both ends."""
    words = _TOKENS.findall(fold(text))
    return f" {' '.join(words)} " if words else " "


@dataclass(frozen=True, slots=True)
class Word:
    """One entry of the word list: a needle to be found in normalised text."""

    value: str
    needle: str
    whole: bool


@dataclass(frozen=True, slots=True)
class Hit:
    """A word that was found; a longer needle says more."""

    value: str
    needle: str
    start: int
    whole: bool

    @property
    def weight(self) -> int:
        """How much the hit says: the whole cell, then the first word, then the length."""
        return len(self.needle.strip()) + (100 if self.whole else 0) + (6 if self.start == 0 else 0)


def _variants(entry: str) -> tuple[str, ...]:
    spelled = entry.casefold()
    for mark, pair in _UMLAUTS:
        spelled = spelled.replace(mark, pair)
    return (entry,) if spelled == entry.casefold() else (entry, spelled)


def _word(value: str, entry: str) -> Word:
    whole = entry.startswith("=")
    body = entry.lstrip("=")
    core = norm(body.strip("*")).strip()
    left = "" if body.startswith("*") else " "
    right = "" if body.endswith("*") and not body.endswith(" *") else " "
    return Word(value, f"{left}{core}{right}", whole)


@cache
def _lists() -> dict[str, tuple[Word, ...]]:
    path = catalogs_dir() / "pricelist" / "words.csv"
    found: dict[str, dict[Word, None]] = {}
    with path.open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            if row["group"].startswith("#"):
                continue
            words = found.setdefault(row["group"], {})
            for entry in row["words"].split("|"):
                for spelled in _variants(entry):
                    word = _word(row["value"], spelled)
                    if word.needle.strip():
                        words[word] = None
    return {group: tuple(words) for group, words in found.items()}


def entries(group: str) -> tuple[Word, ...]:
    """Return the word list of one group, such as ``header`` or ``kind``."""
    return _lists()[group]


def hits(group: str, text: str) -> tuple[Hit, ...]:
    """Return the group's words that stand in a normalised text, the most telling first.

    Positions count in the text with every long number shortened, so that rows which differ in
    their numbers alone are looked up once.
    """
    return _hits(group, _masked(text))


@lru_cache(maxsize=65536)
def _masked(text: str) -> str:
    return _LONG_NUMBER.sub("0", text)


@lru_cache(maxsize=65536)
def _hits(group: str, text: str) -> tuple[Hit, ...]:
    found = [
        Hit(word.value, word.needle, text.find(word.needle), word.whole or word.needle == text)
        for word in _lists()[group]
        if (text == word.needle if word.whole else word.needle in text)
    ]
    return tuple(sorted(found, key=lambda hit: (-hit.weight, hit.start, hit.value)))


def has(group: str, text: str, value: str = "") -> bool:
    """Return whether any word of the group (with that value) stands in a normalised text."""
    return any(not value or hit.value == value for hit in hits(group, text))


def first(group: str, text: str) -> str:
    """Return the value of the group's most telling word in a normalised text, or an empty text."""
    found = hits(group, text)
    return found[0].value if found else ""
