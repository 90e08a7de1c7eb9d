"""One price cell -> an amount with its currency and basis, or the typed reason why it is none."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache
from typing import Literal

from steepwright.pricelist.basis import Basis, basis_in
from steepwright.pricelist.figures import decimal_vote, is_number, is_undecided, number
from steepwright.pricelist.words import fold, has, norm
from steepwright.resources import catalogs_dir

Reason = Literal[
    "",
    "empty",
    "on request",
    "not given",
    "error",
    "percent",
    "from",
    "range",
    "zero",
    "negative",
    "undecided",
    "no number",
]

_NUMBER = re.compile(
    r"[-+]?\d[\d.,'’\u00a0\u202f\u2009]*(?: \d{3}(?!\d)(?:[.,]\d+)?)*(?:\s?[-–—]{1,2}(?!\s*\d))?"
)
_BARE = re.compile(r"\d[\d.,]*")
_RANGE = re.compile(r"\d\s*(?:-|–|—|bis|to|à|do|tot|hasta)\s*[€£$]?\s*\d")
_MAY_NAME = re.compile(r"[a-z€$£]")
_DASHES = re.compile(r"[-–—./*\s]*")


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency's ISO code, its signs, and whether its yards use imperial sizes."""

    code: str
    pattern: re.Pattern[str]
    eur_rough: Decimal
    imperial: bool


@dataclass(frozen=True, slots=True)
class Amount:
    """What a price cell says: `figure` is the bare number's text, still unread."""

    figure: str = ""
    currency: str = ""
    basis: Basis | None = None
    reason: Reason = ""


@cache
def currencies() -> dict[str, Currency]:
    """Return the known currencies by ISO code."""
    path = catalogs_dir() / "pricelist" / "currencies.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {row["code"]: _currency(row) for row in csv.DictReader(stream)}


def _currency(row: dict[str, str]) -> Currency:
    pattern = "|".join(_sign(sign) for sign in row["signs"].split("|"))
    return Currency(
        row["code"], re.compile(pattern), Decimal(row["eur_rough"]), row["imperial"] == "1"
    )


def _sign(sign: str) -> str:
    """Return the pattern of one currency sign; ``re:`` marks a pattern of its own."""
    if sign.startswith("re:"):
        return sign[3:]
    plain = re.escape(fold(sign))
    return rf"(?<![a-z]){plain}(?![a-z])" if sign[0].isalpha() else plain


@lru_cache(maxsize=16384)
def currencies_in(text: str) -> tuple[str, ...]:
    """Return the ISO codes whose signs stand in a text; a lone ``$`` is given as ``$``."""
    folded = fold(text)
    if not _MAY_NAME.search(folded):
        return ()
    found = [code for code, one in currencies().items() if one.pattern.search(folded)]
    if not found and "$" in folded and "r$" not in folded:
        found.append("$")
    return tuple(found)


@lru_cache(maxsize=65536)
def read_amount(text: str) -> Amount:
    """Return what a price cell's text says, without reading its number yet."""
    plain = text.strip()
    if _BARE.fullmatch(plain):
        return Amount(plain)
    if _DASHES.fullmatch(plain):
        return Amount(reason="empty")
    words = norm(plain)
    found = currencies_in(plain)
    currency = found[0] if len(found) == 1 else ""
    if "%" in plain and not has("basis", words, "100"):
        return Amount(reason="percent")
    figures = [hit.strip() for hit in _NUMBER.findall(_without_unit(plain))]
    reason = _worded_reason(plain, words, figures)
    if reason:
        return Amount(currency=currency, reason=reason)
    return Amount(figures[0], currency, _trailing_basis(plain))


def _without_unit(text: str) -> str:
    """Cut what follows a slash, so that the 2 of ``/m2`` or the 100 of ``/100 St`` is no price."""
    return re.split(r"/(?!\s*\d+\s*$)|\b(?:per|pro|je|par|al|por|za)\s", text, maxsplit=1)[0]


def _worded_reason(text: str, words: str, figures: list[str]) -> Reason:
    if has("no_price", words, "on request"):
        return "on request"
    if has("no_price", words, "error") or text.startswith("#"):
        return "error"
    if not figures:
        return "not given" if has("no_price", words, "not given") else "no number"
    if _RANGE.search(text) or len(figures) > 1:
        return "range"
    if has("from", words) and re.match(r"\s*(?:[€£$]\s*)?[^\W\d]", text):
        return "from"
    return ""


def _trailing_basis(text: str) -> Basis | None:
    parts = re.split(r"/|\b(?:per|pro|je|par|al|por|za)\b", text, maxsplit=1)
    return basis_in(parts[1]) if len(parts) == 2 else None


def value_of(figure: str, decimal: str) -> tuple[Decimal | None, Reason]:
    """Return an amount's number under a decimal mark, or why there is none."""
    bare = figure.strip()
    if not is_number(bare):
        return None, "no number"
    read = number(bare, decimal)
    if read is None:
        return None, "undecided" if is_undecided(bare) and not decimal else "no number"
    if read == 0:
        return None, "zero"
    if read < 0:
        return None, "negative"
    return read, ""


def vote_of(text: str) -> tuple[str, bool]:
    """Return the decimal mark that a price cell proves, and whether it is undecided."""
    figure = read_amount(text).figure
    return (decimal_vote(figure), is_undecided(figure)) if figure else ("", False)
