"""From a file to TOML data, with one plain finding for everything that is not TOML.

tomllib stops at the first mistake. Where the mistake lies in a single ``key = value`` line, that
line is set aside and reading goes on, so that the builder sees all mistakes at once.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from steepwright.findings import Finding, Findings
from steepwright.room.lines import KeyPath, line_index

LARGEST_FILE_BYTES = 1_000_000
"""Nobody types a room of this size; a larger file is another kind of file."""

_MOST_REPAIRS = 40
_KEY_LINE = re.compile(r"^\s*([A-Za-z0-9_.-]+)\s*=\s*(.*?)\s*$")
_DECIMAL_COMMA = re.compile(r"^[+-]?\d+,\d+\s*(?:#.*)?$")
_BARE_WORD = re.compile(r"^[^\W\d][^#\"'\[\]{}]*$")
_UNIT = re.compile(
    r"^[+-]?\d[\d_]*(?:[.,]\d+)?\s*(?:[^\W\d_]+\.?\s*(?:#.*)?$|['′’\"″”]|ft\b|feet\b)"
)
_LINE = re.compile(r"\(at line (\d+), column \d+\)")


class Written(float):
    """A TOML float that remembers how it was written, so that money stays exact."""

    text: str

    def __new__(cls, text: str) -> Written:
        """Keep the value and its text."""
        number = super().__new__(cls, text)
        number.text = text.replace("_", "")
        return number


@dataclass(frozen=True, slots=True)
class Document:
    """The data of one file, the line of each key, and the keys whose lines were set aside."""

    data: dict[str, Any]
    lines: Mapping[KeyPath, int] = field(default_factory=dict)
    set_aside: frozenset[str] = frozenset()


def read_text(path: Path, what: str, findings: Findings) -> str | None:
    """Return a file's text, or None after a finding says why it can't be read.

    Parameters
    ----------
    path
        The file.
    what
        What the file should be, for the messages, such as ``room file``.
    findings
        Takes the problem.
    """
    file = str(path)
    try:
        if path.is_dir():
            findings.add(_file(file, f"this is a folder, not a {what}", "Name the file in it."))
            return None
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE_BYTES + 1)
        if len(raw) > LARGEST_FILE_BYTES:
            findings.add(_file(file, f"larger than any {what} (1 MB)", "Name another file."))
            return None
        text = raw.decode("utf-8-sig")
    except FileNotFoundError:
        findings.add(_file(file, "there is no such file", "Start one with: steepwright new DIR"))
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        seen = f"byte 0x{error.object[error.start]:02x}"
        findings.add(
            Finding(
                "file-not-utf8", "error", "the text is not UTF-8", file, line, "", seen,
                "a text file in UTF-8", "Save it again with the encoding UTF-8.",
            )
        )  # fmt: skip
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        findings.add(_file(file, f"the file can't be read: {reason}", "Check its name and rights."))
    else:
        if text.strip():
            return text.replace("\r\n", "\n")
        findings.add(_file(file, "the file is empty", "Start one with: steepwright new DIR"))
    return None


def parse_toml(text: str, file: str, findings: Findings) -> Document | None:
    """Return the data of a TOML text, or None when it can't be read far enough.

    Syntax mistakes become findings; key lines that hold one are set aside, and what remains
    is read.
    """
    rows = text.split("\n")
    set_aside: set[str] = set()
    for _ in range(_MOST_REPAIRS):
        good = "\n".join(rows)
        try:
            data = tomllib.loads(good, parse_float=Written)
        except (ValueError, RecursionError, OverflowError) as error:
            line = _error_line(error, rows)
            findings.add(_syntax_finding(error, file, line, rows))
            key = _set_aside(rows, line)
            if not key:
                return None
            set_aside.add(key)
        else:
            return Document(data, line_index(good), frozenset(set_aside))
    return None


def _set_aside(rows: list[str], line: int) -> str:
    """Blank a key line that is wrong by itself; return its key, empty when it is not such."""
    if not 0 < line <= len(rows):
        return ""
    found = _KEY_LINE.match(rows[line - 1])
    if not found or _parses(rows[line - 1]) or _opens(found[2]):
        return ""
    rows[line - 1] = ""
    return found[1].split(".")[-1]


def _opens(value: str) -> bool:
    """Tell whether a value starts something that may go on in the next line."""
    return value.count("[") > value.count("]") or '"""' in value or "'''" in value


def _parses(row: str) -> bool:
    try:
        tomllib.loads(row)
    except (ValueError, RecursionError, OverflowError):
        return False
    return True


def _error_line(error: Exception, rows: list[str]) -> int:
    """Return the line [from 1] a parser's error speaks of; 0 when it names none."""
    found = _LINE.search(str(error))
    if found:
        return int(found[1])
    if "end of document" in str(error):
        return len(rows)
    broken = (number for number, row in enumerate(rows, 1) if not _parses(row))
    return next(broken, 0)


def _syntax_finding(error: Exception, file: str, line: int, rows: list[str]) -> Finding:
    row = rows[line - 1].strip() if 0 < line <= len(rows) else ""
    found = _KEY_LINE.match(row)
    key, value = (found[1], found[2]) if found else ("", row)
    code, message, expected, step = _explain(error, key, value)
    value = value if '"' in value else value.split("#")[0].strip()
    return Finding(code, "error", message, file, line, key, shorten(value), expected, step)


def _explain(error: Exception, key: str, value: str) -> tuple[str, str, str, str]:
    """Return code, message, expectation and next step for one syntax mistake."""
    reason = str(error)
    if key and _DECIMAL_COMMA.match(value):
        return _comma(key, value.split("#")[0].strip())
    if key and _UNIT.match(value):
        return _unit(key)
    if key and _BARE_WORD.match(value):
        return (
            "toml-bare-word", "text needs quotes",
            f'{key} = "{shorten(value)}" (or true, false, a number)',
            "Put the text between double quotes.",
        )  # fmt: skip
    if "Cannot overwrite" in reason or "twice" in reason or "Cannot declare" in reason:
        return (
            "toml-repeated", "the same key or table appears twice", "each key once in its table",
            "Keep one of the two, or write [[beams]] with two brackets for each beam.",
        )  # fmt: skip
    if isinstance(error, tomllib.TOMLDecodeError):
        plain = _LINE.sub("", reason).strip()
        return (
            "toml-syntax", f"this is not TOML: {plain}", "lines like key = 12 or [table]",
            "Look for a missing quote, bracket or equals sign here or in the lines above.",
        )  # fmt: skip
    return (
        "toml-syntax", "this can't be read as TOML", "ordinary numbers and shallow lists",
        "Look for a very long number or very many brackets.",
    )  # fmt: skip


def _unit(key: str) -> tuple[str, str, str, str]:
    """Explain a unit behind a number: some keys take it in quotes, and count in their own."""
    ends = {"_mm": ("mm", "8 ft 2 1/2 in"), "_kg": ("kg", "165 lb"), "_n_per_m": ("N/m", "60 plf")}
    own = next((told for end, told in ends.items() if key.endswith(end)), None)
    say, expected = "a number here is followed by a unit", "the number alone"
    if own is None:
        return "toml-unit", say, expected, "Leave the unit out."
    step = f'Put quotes round number and unit, such as "{own[1]}"; a number alone is in {own[0]}.'
    return "toml-unit", say, f"text in quotes, or {expected} in {own[0]}", step


def _comma(key: str, value: str) -> tuple[str, str, str, str]:
    """Explain a comma inside a number: a decimal sign, or one between thousands."""
    whole, part = value.split(",")
    right, step = f"{whole}.{part}", "Write a point instead of the comma."
    if key.endswith("_mm"):
        right = whole + part if len(part) == 3 else right
        step = "Write whole millimetres, without a comma."
    return (
        "toml-decimal-comma", "a number here is written with a decimal comma",
        f"a number without a comma: {key} = {right}", step,
    )  # fmt: skip


def shorten(text: str, most: int = 60) -> str:
    """Return text cut to a printable length."""
    plain = "".join(c if c.isprintable() else "?" for c in text)
    return plain if len(plain) <= most else plain[: most - 3] + "..."


def show(value: object) -> str:
    """Return a value as its owner would write it in TOML, cut to a printable length."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return shorten(f'"{value}"')
    if isinstance(value, Written):
        return shorten(value.text)
    if isinstance(value, list):
        inside = ", ".join(show(item) for item in value[:4])
        return shorten(f"[{inside}{', ...' if len(value) > 4 else ''}]")
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, int) and value.bit_length() > 200:
        return "a very long number"
    return shorten(str(value))


def _file(file: str, message: str, step: str) -> Finding:
    return Finding("file-unreadable", "error", message, file, next_step=step)
