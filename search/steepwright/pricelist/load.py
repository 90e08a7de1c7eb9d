"""A file as it was mailed or downloaded -> sheets of cells; its first bytes tell what it is."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from steepwright.errors import InputError
from steepwright.findings import Findings
from steepwright.pricelist.cells import Sheet
from steepwright.pricelist.decode import decode
from steepwright.pricelist.delimited import read_delimited
from steepwright.pricelist.html_table import read_html
from steepwright.pricelist.limits import limit
from steepwright.pricelist.workbook import read_workbook

_ZIP = b"PK\x03\x04"
_CFB = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_REFUSED = {
    b"%PDF": "a PDF file; ask the yard for its list as a spreadsheet, or copy the table into one",
    b"{\\rtf": "an RTF document; copy the table into a spreadsheet",
    b"\x89PNG": "a picture; ask the yard for its list as a spreadsheet",
    b"\xff\xd8\xff": "a picture; ask the yard for its list as a spreadsheet",
    b"GIF8": "a picture; ask the yard for its list as a spreadsheet",
    b"Rar!": "a packed archive; unpack it first",
    b"7z\xbc\xaf": "a packed archive; unpack it first",
    b"\x1f\x8b": "a packed archive; unpack it first",
}


@dataclass(frozen=True, slots=True)
class Loaded:
    """A file's sheets and what it was: ``text``, ``page`` or ``spreadsheet``."""

    sheets: tuple[Sheet, ...]
    form: str
    encoding: str = ""


def load(path: Path, encoding: str, delimiter: str, findings: Findings) -> Loaded:
    """Return the sheets of a price list file.

    Raises
    ------
    InputError
        When the file is missing, too large, or no table that we can read.
    """
    file = path.name
    data = _bytes(path, file)
    for head, what in _REFUSED.items():
        if data.startswith(head):
            message = f"{file}: is {what}"
            raise InputError(message)
    if data.startswith((_ZIP, _CFB)):
        return Loaded(read_workbook(path, file, findings), "spreadsheet")
    head = data[:2000].lstrip(b"\xef\xbb\xbf \r\n\t").lower()
    if head.startswith((b"<html", b"<!doctype html", b"<table", b"<meta")):
        page = decode(data, file, encoding, findings)
        return Loaded((read_html(page.text, file),), "page", page.encoding)
    if head.startswith((b"<?xml", b"<!doctype")):
        message = f"{file}: is XML; open it in a spreadsheet and save it as XLSX or CSV"
        raise InputError(message)
    text = decode(data, file, encoding, findings)
    return Loaded((read_delimited(text.text, file, delimiter, findings),), "text", text.encoding)


def _bytes(path: Path, file: str) -> bytes:
    try:
        size = path.stat().st_size
        if not path.is_file():
            message = f"{file}: is not a file"
            raise InputError(message)
        if size > limit("max_file_bytes"):
            message = (
                f"{file}: is {size / 1e6:.0f} MB; a price list may hold "
                f"{limit('max_file_bytes') / 1e6:.0f} MB. Cut it down to sheets and timber"
            )
            raise InputError(message)
        data = path.read_bytes()
    except OSError as problem:
        message = f"{path}: can't be read ({problem.strerror or problem})"
        raise InputError(message) from None
    if not data.strip():
        message = f"{file}: is empty"
        raise InputError(message)
    return data
