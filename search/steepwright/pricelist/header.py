"""The header of a table: which column means what, from words in seven languages."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from steepwright.pricelist.basis import Basis, basis_in
from steepwright.pricelist.cells import Cell, column_index
from steepwright.pricelist.money import currencies_in
from steepwright.pricelist.notes import UNSAID, Vat, vat_in
from steepwright.pricelist.words import fold, has, hits, norm

_UNIT = re.compile(r"(?<![a-z0-9])(mm|cm|m|in|inch|inches|zoll|ft|feet)(?![a-z0-9²³])")
_UNIT_NAMES = {"inch": "in", "inches": "in", "zoll": "in", "feet": "ft"}
_TIER = re.compile(
    r"\b(?:ab|from|a partir de|des|da|desde|od|vanaf|over)\s*(\d{1,5})\b|\b(\d{1,5})\s*\+|"
    r"(?:>=|≥|>)\s*(\d{1,5})\b|\b(\d{1,4})\s*-\s*\d{1,5}\s*(?:stk|st|pcs|szt|pz|ud|stuks)?\s*$"
)
_BASIS_PART = re.compile(
    r"[€$£]|\b(?:eur|chf|pln|zl|gbp|usd)\b|/\s*(?:m[23]?|qm|mq|lfm|ml|stk?|szt|pz|ud|pce)\b"
)
_COUNTED = re.compile(
    r"(?:\b(?:per|pro|je|za|pour|por|a)|[€$£/]|\b(?:eur|chf|zl|pln|gbp|usd)\s*/)\s*"
    r"(100|1[.' ]?000)\b(?!\s*(?:x|mm|cm|/))\s*([\w²³]*)"
)
"""A price for a hundred or a thousand, as in ``EUR / 1000 Stk``."""
_PRICE_WORDS = re.compile(
    r"\b(?:preis|prix|prezzo|precio|cena|prijs|price|lange|longueur|lunghezza|largo|dlugosc|lengte|"
    r"length|format|l|starke|dicke|ep|epaisseur|spessore|espesor|grubosc|dikte|thickness)\b\.?"
)
_UNIT_DIGIT = re.compile(r"(?<=m)[23]\b")
_SIGN = r"(?:€|£|\$|eur|chf|zl|pln|gbp|usd)?"
_AMOUNT = re.compile(rf"\s*{_SIGN}\s?\d[\d.,' ]*[.,][\d-]+\s?{_SIGN}\s*(?:/\s?[\w.]+)?\s*")
_MONEY = re.compile(
    r"(?:€|£|\$|\b(?:eur|chf|zl|pln|gbp|usd)\b)\s?\d[\d.,']*[.,]\d\d\b|"
    r"\d[.,]\d\d\s?(?:€|£|\$|\b(?:eur|chf|zl|pln|gbp|usd)\b)"
)
"""A sum of money with its sign, as no header holds."""
_SIZE_TITLE = re.compile(
    r"\d+(?:[.,]\d+)?\s?(?:mm|cm|m)|"
    r"\d+(?:[.,]\d+)?(?:\s?(?:mm|cm|m)?\s?[x/]\s?\d+(?:[.,]\d+)?){1,2}\s?(?:mm|cm|m)?"
)
_PRICE_ROLES = ("price", "list_price")
SINGLE_SIZES = ("thickness", "width", "depth", "length")
_SIZE_ROLES = (*SINGLE_SIZES, "size")
_SECTION = re.compile(r"\d\s?[x*/]\s?\d")
_LONGEST_HEADER = 60


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its role and what its header says about its values.

    `adds` is the size that a price column is for, where the columns are sizes.
    """

    index: int
    title: str
    role: str
    unit: str = ""
    basis: Basis | None = None
    vat: Vat = UNSAID
    currency: str = ""
    tier: int = 1
    adds: str = ""


@dataclass(frozen=True, slots=True)
class Header:
    """The columns of one table and the rows its header stands in.

    `width` counts the columns up to the last title; 0 when nobody knows how many there are.
    """

    columns: tuple[Column, ...]
    first_row: int
    last_row: int
    width: int = 0
    _roles: dict[int, str] = field(default_factory=dict, compare=False, repr=False)
    _by_roles: dict[tuple[str, ...], tuple[Column, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )

    @property
    def roles(self) -> dict[int, str]:
        """The role of each column that has one, by its index."""
        if not self._roles:
            self._roles.update((column.index, column.role) for column in self.columns)
        return self._roles

    def of(self, *roles: str) -> tuple[Column, ...]:
        """Return the columns that have one of the roles, from left to right."""
        found = self._by_roles.get(roles)
        if found is None:
            found = tuple(column for column in self.columns if column.role in roles)
            self._by_roles[roles] = found
        return found


@lru_cache(maxsize=8192)
def column_of(index: int, title: str) -> Column:
    """Return what one header cell says; its role is empty when it says nothing we know."""
    if not title.strip() or len(title) > _LONGEST_HEADER:
        return Column(index, title, "")
    role = _role(title)
    if role not in _PRICE_ROLES:
        return Column(index, title, role, unit=_unit(title) if role in _SIZE_ROLES else "")
    found = currencies_in(title)
    tier = _TIER.search(fold(title))
    adds = _size_in(title)
    return Column(
        index,
        title,
        role,
        basis=_title_basis(title, adds),
        vat=vat_in(title, True),
        currency=found[0] if len(found) == 1 else "",
        tier=int(next(group for group in tier.groups() if group)) if tier else 1,
        adds=adds,
    )


def _size_in(title: str) -> str:
    """Return the size that a price column's title consists of, such as ``3,00 m``; else nothing."""
    plain = _PRICE_WORDS.sub(" ", _BASIS_PART.sub(" ", fold(title))).strip(" .:()[]-")
    return plain if _SIZE_TITLE.fullmatch(plain) else ""


def basis_under(text: str) -> Basis | None:
    """Return the basis that a cell of nothing but a money sign and a unit names."""
    plain = fold(text).strip()
    if not plain or len(plain) > 24 or any(mark.isdigit() for mark in _UNIT_DIGIT.sub("", plain)):
        return None
    return basis_in(plain.split("/")[-1]) if _BASIS_PART.search(plain) else None


def _basis_part(title: str) -> str:
    """Return the part of a price header that can name a basis: not the tier's pieces."""
    return _TIER.sub(" ", re.sub(r"\b(?:ab|from|od|vanaf|des)\s*\d+\s*\w+", " ", fold(title)))


def _title_basis(title: str, adds: str) -> Basis | None:
    """Return what a price title's price is for; `adds` is the size that it holds."""
    part = _basis_part(title)
    counted = _COUNTED.search(part)
    if counted:
        count = re.sub(r"\D", "", counted[1])
        return basis_in(f"{count} {counted[2]}") or basis_in(count)
    return basis_in(part.replace(adds, " ") if adds else part)


def _unit(title: str) -> str:
    found = _UNIT.findall(fold(title))
    name = found[-1] if found else ""
    if not name and '"' in title:
        return "in"
    return _UNIT_NAMES.get(name, name)


@lru_cache(maxsize=8192)
def _role(title: str) -> str:
    words = norm(title)
    bare = norm(_UNIT.sub(" ", fold(re.sub(r"[\[(].*?[\])]", " ", title))))
    found = sorted(hits("header", words) + hits("header", bare), key=lambda hit: -hit.weight)
    role = found[0].value if found else ""
    if role and role not in ("unit", "ignore"):
        price = [hit for hit in found if hit.value in _PRICE_ROLES]
        if price and role not in _PRICE_ROLES and price[0].start <= found[0].start:
            return price[0].value
    if role in ("unit", "ignore", "") and _has_sign(title) and (role != "unit" or "/" in title):
        return "price"
    if not role and _is_tier_title(title):
        return "price"
    is_sized = role in ("", "length", "size", "thickness") and _size_in(title)
    if is_sized or (role in _SIZE_ROLES and _has_sign(title)):
        return "price"
    # "Ex VAT" under a title that reaches over several prices: only of a price is that said.
    return "price" if not role and has("vat_word", words) and vat_in(title, True).stance else role


def _has_sign(title: str) -> bool:
    return bool(currencies_in(title)) and not any(mark in title for mark in ":=")


def _is_tier_title(title: str) -> bool:
    found = _TIER.fullmatch(fold(title).strip()) or re.fullmatch(
        r"(?:ab|from|od|vanaf|des|a partir de|desde|da)\s*\d{1,5}\s*[a-z.]*", fold(title).strip()
    )
    return bool(found)


def is_column(column: Column, name: str) -> bool:
    """Return whether an answer names this column: by letter or by its title."""
    by_letter = len(name.strip()) <= 2 and column_index(name) == column.index
    return by_letter or name.strip().casefold() == column.title.strip().casefold()


def read_header(
    titles: Sequence[str], first_row: int, last_row: int, price_column: str = ""
) -> Header:
    """Return the header that a row of titles makes, with its roles settled among each other.

    `price_column` is the user's answer, which makes a price of a column that says nothing.
    """
    columns = [column_of(index, title) for index, title in enumerate(titles)]
    roles = {column.role for column in columns}
    settled = [_settle(column, roles) for column in columns]
    if price_column:
        settled = [
            replace(c, role="price") if not c.role and is_column(c, price_column) else c
            for c in settled
        ]
    others = any(column.role == "price" for column in settled)
    if not others:
        settled = [replace(c, role="price") if c.role == "list_price" else c for c in settled]
    width = max((index for index, title in enumerate(titles, 1) if title.strip()), default=0)
    return Header(tuple(column for column in settled if column.role), first_row, last_row, width)


def _settle(column: Column, roles: set[str]) -> Column:
    if column.role == "article":
        return replace(column, role="sku" if "name" in roles else "name")
    return column


def header_score(titles: Sequence[str]) -> int:
    """Return how many different roles a row of titles names; 0 when it can be no header."""
    filled = [title for title in titles if title.strip()]
    if len(filled) < 2 or any(len(title) > _LONGEST_HEADER for title in filled):
        return 0
    columns = [column_of(index, title) for index, title in enumerate(titles)]
    if any(_AMOUNT.fullmatch(fold(title)) or _MONEY.search(fold(title)) for title in filled):
        return 0
    roles = {column.role for column in columns if column.role not in ("", "ignore", "date")}
    known = sum(bool(column.role) for column in columns)
    if len(roles) < 2 or known * 2 < len(filled):
        return 0
    if not roles & {"price", "list_price"} and len(roles) < 3:
        return 0
    if _is_bar_without_price(columns, filled):
        return 0
    return len(roles) + sum(column.role == "price" for column in columns)


def _is_bar_without_price(columns: Sequence[Column], filled: Sequence[str]) -> bool:
    """Return whether the one length among titles is a bar's own, and no title of its price."""
    priced = any(column.role in _PRICE_ROLES and not column.adds for column in columns)
    if priced or sum(bool(column.adds) for column in columns) != 1:
        return False
    unsaid = any(hit.whole for title in filled for hit in hits("no_price", norm(title)))
    return len(filled) < 3 or unsaid or any(_SECTION.search(fold(title)) for title in filled)


def titles_of(cells: Sequence[Cell]) -> list[str]:
    """Return a row's cells as header titles; numbers become empty."""
    return [cell if isinstance(cell, str) else "" for cell in cells]


def is_subtitle(text: str) -> bool:
    """Return whether a text can be the second line of a header: a unit, VAT or currency word."""
    words = norm(text)
    return bool(
        len(text) <= 30
        and (
            column_of(0, text).role
            or currencies_in(text)
            or vat_in(text, True).stance
            or basis_in(text)
            or has("alone_net", words)
            or re.fullmatch(r"[\[(]?\s*(?:mm|cm|m|in|ft|\"|%|kg|-)\s*[\])]?", fold(text).strip())
        )
    )
