"""What a list says in words around its table: VAT, currency, date, and what prices are for."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from steepwright.pricelist.basis import Basis, basis_in
from steepwright.pricelist.words import Hit, fold, has, hits, norm

Stance = Literal["", "net", "gross"]

_RATE = re.compile(r"(?<![\d.,])(\d{1,2}(?:[.,]\d{1,2})?)\s*%")
_PLUS = re.compile(r"\+\s*(?:\d{1,2}(?:[.,]\d)?\s*%\s*)?(?:mwst|ust|tva|iva|vat|btw|tax)\b")
_BASIS_IN_NOTE = re.compile(r"(?=(?:/|\b(?:per|pro|je|par|al|por|za)\b)\s*(.{1,20}))")
_WHAT_FOR = re.compile(
    r"(?:[€£$]|eur|euro|chf|zl|pln|gbp|usd|per|pro|je|p|al|m\d?|st|stk|stuk|pz)\b|[€£$]"
)
_NEAR = 34
_YMD = re.compile(r"(?<!\d)(20\d\d)[-./](\d{1,2})[-./](\d{1,2})(?!\d)")
_DMY = re.compile(r"(?<!\d)(\d{1,2})([./-])\s?(\d{1,2})[./-]\s?((?:20)?\d\d)(?!\d)")
_MY = re.compile(r"(?<![\d./-])(\d{1,2})[./-](20\d\d)(?!\d)")
_DAY_NAME_YEAR = re.compile(
    r"(?:(\d{1,2})(?:er|st|nd|rd|th|\.)?\s+)?(?:de\s+)?([a-z]{3,12})\.?,?\s+(?:de\s+)?(20\d\d)"
)
_NAME_DAY_YEAR = re.compile(r"([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(20\d\d)")


@dataclass(frozen=True, slots=True)
class Vat:
    """Whether prices hold VAT, and its rate [%], as far as a text says."""

    stance: Stance = ""
    rate: Decimal | None = None


UNSAID = Vat()


@lru_cache(maxsize=16384)
def vat_in(text: str, is_header: bool) -> Vat:
    """Return what a text says about VAT.

    Outside of a table's header, words such as *netto* count only beside a word for VAT or
    price, so that terms of payment don't decide.
    """
    words = norm(text)
    named = has("vat_word", words)
    rates = {Decimal(rate.replace(",", ".")) for rate in _RATE.findall(fold(text))}
    rates = {rate for rate in rates if 2 <= rate <= 30}
    rate = rates.pop() if named and len(rates) == 1 else None
    if _PLUS.search(fold(text)):
        return Vat("net", rate)
    if named:
        clauses = [norm(part) for part in re.split(r"[,;()]|\s[-–]\s", text)]
        told = {_nearest_stance(one) for one in clauses if has("vat_word", one)} - {""}
        return Vat(told.pop() if len(told) == 1 else _nearest_stance(words), rate)
    if has("not_vat", words) or not (is_header or has("header", words, "price")):
        return Vat()
    net, gross = has("alone_net", words), has("alone_gross", words)
    if is_header and not net and not gross:
        net, gross = _closes("header_net", words), _closes("header_gross", words)
    return Vat("net" if net and not gross else "gross" if gross and not net else "")


def _closes(group: str, words: str) -> bool:
    """Return whether a word such as *excl* or *ex* closes a title, or only what for follows.

    In *price ex works* and *cena z dostawą* it is about something else than VAT.
    """
    rests = (words.split(hit.needle, 1)[1].strip() for hit in hits(group, words))
    return any(not rest or bool(_WHAT_FOR.match(rest)) for rest in rests)


def vat_stated(text: str) -> Vat:
    """Return what a cell that is no price's title says about VAT in words of its own.

    *mit*, *ex* or *bez* alone say it only in the title of a price.
    """
    words = norm(text)
    is_said = has("vat_word", words) or has("alone_net", words) or has("alone_gross", words)
    return vat_in(text, True) if is_said else UNSAID


def _nearest_stance(words: str) -> Stance:
    """Return the stance of the word that stands nearest to a word for VAT."""
    vats = [hit.start for hit in hits("vat_word", words)]
    best: tuple[int, int, Stance] | None = None
    sides: tuple[tuple[str, Stance], ...] = (("net", "net"), ("gross", "gross"))
    for group, stance in sides:
        for hit in hits(group, words):
            gap = min(_gap(hit, vat) for vat in vats)
            key = (gap, -len(hit.needle), stance)
            if gap <= _NEAR and (best is None or key < best):
                best = key
    return best[2] if best else ""


def _gap(hit: Hit, vat: int) -> int:
    end = hit.start + len(hit.needle) - 1
    if hit.start <= vat < end:
        return 0
    return vat - end if vat >= end else hit.start - vat


@lru_cache(maxsize=4096)
def price_basis_in(text: str) -> Basis | None:
    """Return the basis in a note such as *all prices per m3*; None when it is about no price."""
    words = norm(text)
    if not has("header", words, "price") or len(text) > 200:
        return None
    for found in _BASIS_IN_NOTE.finditer(fold(text)):
        basis = basis_in(found[1].split(",")[0])
        if basis:
            return basis
    return None


def dates_in(text: str, month_first: bool) -> list[tuple[str, bool]]:
    """Return the dates in a text as ISO text, each with whether day and month could be swapped."""
    plain = fold(text)
    found: list[tuple[str, bool]] = []
    for year, month, day in _YMD.findall(plain):
        found += _iso(int(year), int(month), int(day), False)
    if not found:
        for one, mark, two, year in _DMY.findall(plain):
            day, month = int(one), int(two)
            if month_first and mark != ".":
                day, month = month, day
            if month > 12:
                day, month = month, day
            full = int(year) + (2000 if len(year) == 2 else 0)
            found += _iso(full, month, day, mark != "." and day <= 12 and day != month)
    if not found:
        found = _worded_dates(plain)
    if not found:
        for month, year in _MY.findall(plain):
            found += _iso(int(year), int(month), 1, False)
    return found


def _worded_dates(plain: str) -> list[tuple[str, bool]]:
    found: list[tuple[str, bool]] = []
    for name, day, year in _NAME_DAY_YEAR.findall(plain):
        month = hits("month", f" {name} ")
        if month:
            found += _iso(int(year), int(month[0].value), int(day), False)
    for day, name, year in () if found else _DAY_NAME_YEAR.findall(plain):
        month = hits("month", f" {name} ")
        if month:
            found += _iso(int(year), int(month[0].value), int(day or 1), False)
    return found


def _iso(year: int, month: int, day: int, swappable: bool) -> list[tuple[str, bool]]:
    try:
        return [(dt.date(year, month, day).isoformat(), swappable)]
    except ValueError:
        return []


def list_date(texts: list[str], month_first: bool) -> tuple[str, bool]:
    """Return the list's date (ISO) from its titles and notes; empty when it has none."""
    told = [text for text in texts if has("list_date", norm(text))]
    for text in told + texts:
        found = dates_in(text, month_first)
        if found:
            return found[0]
    return "", False
