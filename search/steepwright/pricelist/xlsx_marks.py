"""What an XLSX file says beside its values: hidden rows, units in formats, empty formulas."""

from __future__ import annotations

import re
import zipfile
import zlib
from dataclasses import dataclass, field
from xml.etree import ElementTree

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_REL = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_LITERAL = re.compile(r'"([^"]+)"|\[\$([^\]\-]*)(?:-[^\]]*)?\]|([€£])')
_ROW = re.compile(rb"<(?:\w+:)?row\b([^>]*)>")
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*?)(?:/>|>(.{0,4000}?)</(?:\w+:)?c>)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Marks:
    """One sheet's marks: rows count from 1, columns from 0."""

    hidden_rows: frozenset[int] = frozenset()
    uncomputed: frozenset[int] = frozenset()
    formats: dict[int, str] = field(default_factory=dict)


def read_marks(parts: zipfile.ZipFile) -> dict[str, Marks]:
    """Return the marks of each sheet by its name; a file that is no proper XLSX has none."""
    try:
        literals = _literals(_safe(parts, "xl/styles.xml"))
        return {
            name: _sheet_marks(_safe(parts, target), literals)
            for name, target in _sheet_parts(parts).items()
        }
    except (KeyError, ElementTree.ParseError, ValueError):
        return {}


def _safe(parts: zipfile.ZipFile, name: str) -> bytes:
    """Return one part's bytes; a document type (which may expand without end) is refused."""
    if name not in parts.namelist():
        return b""
    try:
        data = parts.read(name)
    except (zlib.error, zipfile.BadZipFile, EOFError, OSError, NotImplementedError) as problem:
        raise ValueError(name) from problem
    if b"<!DOCTYPE" in data[:4096]:
        message = "a document type in a spreadsheet part"
        raise ValueError(message)
    return data


def _sheet_parts(parts: zipfile.ZipFile) -> dict[str, str]:
    book = ElementTree.fromstring(_safe(parts, "xl/workbook.xml"))
    links = ElementTree.fromstring(_safe(parts, "xl/_rels/workbook.xml.rels"))
    targets = {link.get("Id", ""): link.get("Target", "") for link in links}
    found = {}
    for sheet in book.iter(f"{_MAIN}sheet"):
        target = targets.get(sheet.get(f"{_REL}id", ""), "")
        found[sheet.get("name", "")] = (
            target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        )
    return found


def _literals(styles: bytes) -> dict[int, str]:
    """Return the words in the number format of each cell style, where there are any."""
    if not styles:
        return {}
    root = ElementTree.fromstring(styles)
    codes = {
        int(item.get("numFmtId", "0")): item.get("formatCode", "")
        for item in root.iter(f"{_MAIN}numFmt")
    }
    words: dict[int, str] = {}
    formats = root.find(f"{_MAIN}cellXfs")
    for index, style in enumerate(formats if formats is not None else ()):
        code = codes.get(int(style.get("numFmtId", "0")), "").split(";")[0]
        text = " ".join("".join(hit) for hit in _LITERAL.findall(code)).strip()
        if text:
            words[index] = text
    return words


def _sheet_marks(data: bytes, literals: dict[int, str]) -> Marks:
    hidden = {
        int(number.group(1))
        for row in _ROW.finditer(data)
        if re.search(rb'\bhidden="(?:1|true)"', row.group(1))
        and (number := re.search(rb'\br="(\d+)"', row.group(1)))
    }
    uncomputed: set[int] = set()
    formats: dict[int, str] = {}
    if literals or b"<f" in data or b":f>" in data:
        for cell in _CELL.finditer(data):
            _note_cell(cell, literals, uncomputed, formats)
    return Marks(frozenset(hidden), frozenset(uncomputed), formats)


def _note_cell(
    cell: re.Match[bytes], literals: dict[int, str], uncomputed: set[int], formats: dict[int, str]
) -> None:
    place = re.search(rb'\br="([A-Z]{1,3})(\d+)"', cell.group(1))
    if not place:
        return
    body = cell.group(2) or b""
    if re.search(rb"<(?:\w+:)?f\b", body) and not re.search(rb"<(?:\w+:)?v>[^<]", body):
        uncomputed.add(int(place.group(2)))
    style = re.search(rb'\bs="(\d+)"', cell.group(1))
    text = literals.get(int(style.group(1)), "") if style else ""
    if text and body:
        index = 0
        for mark in place.group(1):
            index = index * 26 + mark - 64
        formats.setdefault(index - 1, text)
