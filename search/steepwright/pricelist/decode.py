"""Bytes of a text file -> text, without ever guessing an encoding silently."""

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass

from steepwright.errors import InputError
from steepwright.findings import Finding, Findings
from steepwright.pricelist.words import entries, norm

_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_CANDIDATES = ("cp1252", "cp1250", "cp852", "cp850", "mac_roman")
"""Code pages that yards' programs write in our seven languages; latin-1 is never offered."""
_LETTERS = frozenset("äöüßéèêëàâçùûîïôœñáíóúòìąćęłńóśźżÄÖÜÉÈÀÇÑĄĆĘŁŃÓŚŹŻ€£°²³½¼¾–×Ø’“”")
_WORD = re.compile(r"[^\W\d_]*[^\x00-\x7f\W\d_][^\W\d_]*")
_DOUBLED = re.compile("Ã[\u0080-\u00bf\u0152-\u2122]|â‚¬|Å[\u0080-\u00bf\u201a-\u2122]")
_GROUPS = ("header", "kind", "tree", "timber", "surface", "basis", "gross", "list_date")
_SAMPLE = 200_000


@dataclass(frozen=True, slots=True)
class Decoded:
    """The text of a file and the encoding that it was read in."""

    text: str
    encoding: str


def decode(data: bytes, file: str, answer: str, findings: Findings) -> Decoded:
    """Return the file's text.

    A byte-order mark decides; else strict UTF-8; else the code page that makes most words of
    the trade, told as a warning with three of them. `answer` is the user's own choice.
    """
    if answer:
        return _named(data, file, answer)
    for mark, name in _BOMS:
        if data.startswith(mark):
            return _named(data, file, name)
    wide = _wide(data)
    if wide:
        return _named(data, file, wide)
    try:
        return _undoubled(data.decode("utf-8"), file, findings)
    except UnicodeDecodeError:
        return _nearly_utf8(data, file, findings) or _suggested(data, file, findings)


def _undoubled(text: str, file: str, findings: Findings) -> Decoded:
    """Mend text that was encoded twice, such as ``StÃ¤rke`` for *Stärke*."""
    if not _DOUBLED.search(text[:_SAMPLE]):
        return Decoded(text, "utf-8")
    try:
        mended = text.encode("cp1252").decode("utf-8")
    except UnicodeError:
        return Decoded(text, "utf-8")
    _tell(findings, file, "letters were encoded twice; read as they were meant", mended, "utf-8")
    return Decoded(mended, "utf-8")


def _nearly_utf8(data: bytes, file: str, findings: Findings) -> Decoded | None:
    """Read UTF-8 with a few spoilt letters as UTF-8; None when more are spoilt than right."""
    text = data.decode("utf-8", errors="replace")
    spoilt, right = text.count("\ufffd"), sum(ord(mark) > 127 for mark in text)
    if spoilt * 20 > right:
        return None
    _tell(findings, file, f"{spoilt} letters are not UTF-8 and can't be read", text, "utf-8")
    return Decoded(text, "utf-8")


def _tell(findings: Findings, file: str, message: str, text: str, name: str) -> None:
    shown = ", ".join(sorted(set(_WORD.findall(text[:_SAMPLE])), key=len, reverse=True)[:3])
    findings.add(
        Finding(
            "price-list-encoding",
            "assumption",
            message,
            file=file,
            seen=shown,
            next_step=f"settle it with --encoding {name}, or another if these words look wrong",
        )
    )


def _named(data: bytes, file: str, name: str) -> Decoded:
    try:
        return Decoded(data.decode(name).lstrip("\ufeff"), name)
    except LookupError:
        message = f"{file}: no encoding is called {name!r}; try utf-8, cp1252, cp1250 or utf-16"
        raise InputError(message) from None
    except UnicodeDecodeError as problem:
        message = (
            f"{file}: is not text in {name}: byte {problem.start} does not fit; "
            "save it as UTF-8, or name its encoding with --encoding"
        )
        raise InputError(message) from None


def _wide(data: bytes) -> str:
    """Return UTF-16 of either order when every second byte of plain text is nil."""
    head = data[:4000]
    if len(head) < 8:
        return ""
    odd, even = head[1::2].count(0), head[0::2].count(0)
    name = "utf-16-le" if odd > even else "utf-16-be"
    if max(odd, even) < 0.3 * len(head[1::2]) or min(odd, even) > 0.05 * len(head):
        return ""
    text = head[: len(head) // 2 * 2].decode(name, errors="replace")
    plain = sum(mark.isprintable() or mark.isspace() for mark in text)
    return name if plain > 0.9 * len(text) else ""


def _known_words() -> frozenset[str]:
    return frozenset(word.needle.strip() for group in _GROUPS for word in entries(group))


def _score(text: str, known: frozenset[str]) -> tuple[int, int]:
    """Return how many accented words are the trade's, and how many marks are plausible letters."""
    foreign = [mark for mark in text if ord(mark) > 127]
    fit = sum(1 if mark in _LETTERS else -2 for mark in foreign)
    words = {word for word in _WORD.findall(text) if len(word) > 2}
    return sum(norm(word).strip() in known for word in words), fit


def _suggested(data: bytes, file: str, findings: Findings) -> Decoded:
    known = _known_words()
    best: tuple[tuple[int, int], str, str] | None = None
    for name in _CANDIDATES:
        try:
            text = data.decode(name)
        except UnicodeDecodeError:
            continue
        score = _score(text[:_SAMPLE], known)
        if best is None or score > best[0]:
            best = (score, name, text)
    if best is None:
        message = (
            f"{file}: is not text in any encoding we know; save it as UTF-8 or XLSX, "
            "or name its encoding with --encoding"
        )
        raise InputError(message)
    _, name, text = best
    _tell(findings, file, f"the file is not UTF-8; read as {name}", text, name)
    return Decoded(text, name)
