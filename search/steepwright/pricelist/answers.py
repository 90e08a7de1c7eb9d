"""The user's answers about one list, and the small file beside it that keeps them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from decimal import Decimal, InvalidOperation
from pathlib import Path

from steepwright.catalog.toml_text import toml_data
from steepwright.errors import InputError
from steepwright.findings import nearest
from steepwright.pricelist.basis import parse_answer
from steepwright.writing import write_whole

SUFFIX = ".answers.toml"
_HEAD = """\
# Answers about a price list, kept by 'steepwright prices' so that the next list of the same
# layout reads without a question. Edit or delete lines freely.
"""


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers by key; an empty text is no answer. The keys are those of the flags.

    Attributes
    ----------
    vat
        Rate [%] as text, such as ``20``.
    prices
        ``include-vat`` or ``exclude-vat``.
    columns
        Roles by position: ``sku,name,,thickness,price``.
    accept
        Codes of assumptions that the user has agreed to.
    """

    encoding: str = ""
    delimiter: str = ""
    sheet: str = ""
    columns: str = ""
    price_column: str = ""
    decimal: str = ""
    currency: str = ""
    vat: str = ""
    prices: str = ""
    basis: str = ""
    discount: str = ""
    min_quantity: str = ""
    pack_pieces: str = ""
    strength: str = ""
    surface: str = ""
    osb: str = ""
    plywood: str = ""
    film_core: str = ""
    tongue_groove: str = ""
    face_grain: str = ""
    nominal: str = ""
    size_unit: str = ""
    date_sizes: str = ""
    lengths: str = ""
    length_step: str = ""
    duplicates: str = ""
    hidden_rows: str = ""
    date: str = ""
    yard: str = ""
    accept: tuple[str, ...] = field(default=())

    def merged(self, stronger: Answers) -> Answers:
        """Return these answers with those of `stronger` on top."""
        changes = {
            one.name: value
            for one in fields(stronger)
            if (value := getattr(stronger, one.name)) and one.name != "accept"
        }
        accept = tuple(dict.fromkeys((*self.accept, *stronger.accept)))
        return replace(self, **changes, accept=accept)

    def given(self) -> dict[str, str | tuple[str, ...]]:
        """Return the answers that were given, by key."""
        return {one.name: value for one in fields(self) if (value := getattr(self, one.name))}

    @property
    def vat_rate(self) -> Decimal | None:
        """The VAT rate [%]; None when not given.

        Raises
        ------
        InputError
            When the answer is no rate between 0 and 50.
        """
        if not self.vat:
            return None
        try:
            rate = Decimal(self.vat.replace(",", ".").strip().rstrip("%"))
        except InvalidOperation:
            rate = Decimal(-1)
        if not 0 <= rate <= 50:
            message = f"--vat {self.vat}: is no VAT rate in percent, such as 20"
            raise InputError(message)
        return rate


_CHOICES = {
    "decimal": (",", "."),
    "prices": ("include-vat", "exclude-vat"),
    "discount": ("ignore", "apply"),
    "plywood": ("birch", "softwood", "none"),
    "film_core": ("birch", "other"),
    "face_grain": ("first", "second", "long", "short"),
    "size_unit": ("mm", "cm", "in"),
    "date_sizes": ("month/day", "day/month"),
    "duplicates": ("dearest", "cheapest", "both"),
    "hidden_rows": ("read", "skip"),
    "osb": ("3", "none"),
    "nominal": ("us", "uk", "none"),
    "surface": ("planed", "sawn"),
}

_NUMBER = r"\d{1,5}(?:[.,]\d{1,3})?"
_SHAPES = {
    "currency": (r"[A-Za-z]{3}", "a currency of three letters, such as EUR"),
    "min_quantity": (r"0*[1-9]\d{0,4}", "a number of pieces, such as 10"),
    "pack_pieces": (r"0*[1-9]\d{0,4}", "a number of pieces, such as 10"),
    "tongue_groove": (rf"none|{_NUMBER}", "a number of mm, such as 15, or none"),
    "lengths": (
        r"\d[\d.,;/ mcft']*",
        "lengths, such as 3,4,5 (m) or 8,10 ft",
    ),
    "length_step": (
        rf"(?=.*[1-9]){_NUMBER}\s*(?:mm|cm|m|ft|')?",
        "a step, such as 0.3 (m) or 2 ft",
    ),
    "delimiter": (r"tab|\\t|semicolon|comma|pipe|space|.|\t", "one mark, such as ; or tab"),
}
"""What answers that are no choice look like, and how to say it."""
_FAMILIES = ("", "sheet", "timber", "hardware")


def _fault(name: str, text: str) -> str:
    """Return what is wrong with an answer; nothing when it can be one."""
    if name in _CHOICES and text not in _CHOICES[name]:
        return f"is not one of {', '.join(_CHOICES[name])}"
    if name in _SHAPES and not re.fullmatch(_SHAPES[name][0], text):
        return f"is not {_SHAPES[name][1]}"
    parts = [part.rpartition("=") for part in text.split(",")] if name == "basis" else []
    if any(family.strip() not in _FAMILIES or not parse_answer(unit) for family, _, unit in parts):
        return "is not piece, m, m2, m3, pack, 100 or 1000, nor such as sheet=m2,timber=m"
    return ""


def from_mapping(values: Mapping[str, object], where: str) -> Answers:
    """Return answers from plain data, each key and choice checked.

    Raises
    ------
    InputError
        Names the key that is not known, or the answer that it does not take.
    """
    known = {one.name for one in fields(Answers)}
    clean: dict[str, str] = {}
    for key, value in values.items():
        name = key.replace("-", "_")
        if name == "accept":
            continue
        if name not in known:
            hint = nearest(name, known)
            message = f"{where}: no answer is called {key!r}" + (
                f"; did you mean {hint}?" if hint else ""
            )
            raise InputError(message)
        text = str(value).strip()
        fault = _fault(name, text) if text else ""
        if fault:
            message = f"{where}: {key} = {text!r} {fault}"
            raise InputError(message)
        clean[name] = text
    accept = values.get("accept", ())
    codes = tuple(str(code) for code in accept) if isinstance(accept, list | tuple) else ()
    return Answers(**clean, accept=codes)


@dataclass(frozen=True, slots=True)
class Kept:
    """Answers from a file, and the layout that they were given for."""

    answers: Answers
    layout: str
    path: Path


def read_kept(path: Path) -> Kept:
    """Return the answers in one file.

    Raises
    ------
    InputError
        When the file is no such file.
    """
    try:
        data = toml_data(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as problem:
        message = f"{path}: can't be read as answers ({problem})"
        raise InputError(message) from None
    layout = str(data.pop("layout", ""))
    return Kept(from_mapping(data, path.name), layout, path)


def own_file(list_path: Path) -> Path:
    """Return where the answers about a list are kept: beside it, with its name."""
    return list_path.with_name(list_path.name + SUFFIX)


def find_kept(list_path: Path, layout: str) -> Kept | None:
    """Return the answers kept for this list, or for another of the same layout beside it."""
    own = own_file(list_path)
    if own.is_file():
        return read_kept(own)
    for path in sorted(list_path.parent.glob("*" + SUFFIX)):
        try:
            kept = read_kept(path)
        except InputError:
            continue
        if layout and kept.layout == layout:
            return kept
    return None


def keep(list_path: Path, layout: str, answers: Answers) -> Path:
    """Write the answers beside the list; return the file."""
    lines = [_HEAD, f'layout = "{layout}"']
    for key, value in answers.given().items():
        if isinstance(value, tuple):
            lines.append(f"{key} = [{', '.join(_quoted(item) for item in value)}]")
        else:
            lines.append(f"{key} = {_quoted(value)}")
    path = own_file(list_path)
    write_whole(path, "\n".join(lines) + "\n")
    return path


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ").replace("\t", "\\t")
    return f'"{escaped}"'
