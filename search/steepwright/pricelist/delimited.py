"""Text -> rows of cells: finds the delimiter, minds inch marks and ragged rows."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from dataclasses import dataclass
from typing import Literal

from steepwright.errors import InputError
from steepwright.findings import Finding, Findings
from steepwright.pricelist.cells import Row, Sheet
from steepwright.pricelist.limits import limit
from steepwright.pricelist.words import hits, norm

DELIMITERS = {";": "semicolon", "\t": "tab", ",": "comma", "|": "pipe"}
_NAMED = {"tab": "\t", "\\t": "\t", "semicolon": ";", "comma": ",", "pipe": "|", "space": "  "}
_GAP = re.compile(r"\s{2,}|\t")
_HEAD_LINES = 400
_PRICE_AT_END = re.compile(
    r"^(?P<name>.*?\S)[\s:.…]*\s(?P<price>(?:€|EUR|CHF|£|\$|zł)?\s?\d[\d.,' ]*(?:[.,]\d{2}|[.,]-+)"
    r"\s*(?:€|EUR|CHF|£|\$|zł|PLN|GBP|USD)?(?:\s*(?:/|per|pro|je)\s*\w+)?)\s*$"
)


@dataclass(frozen=True, slots=True)
class _Split:
    """How one delimiter cuts the head of the text."""

    delimiter: str
    quoting: bool
    score: float
    roles: int = 0


def read_delimited(text: str, file: str, answer: str, findings: Findings) -> Sheet:
    """Return the text as a sheet; `answer` is the user's own delimiter, if any."""
    if "\x00" in text:
        message = f"{file}: holds zero bytes and is neither text nor a spreadsheet that we can read"
        raise InputError(message)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if max(map(len, text.split("\n"))) > limit("max_line_chars"):
        message = (
            f"{file}: has lines of more than {limit('max_line_chars')} characters; is it a table?"
        )
        raise InputError(message)
    first, _, rest = text.partition("\n")
    hint = re.fullmatch(r'"?sep=(.)"?', first.strip())
    skipped = 0
    if hint:
        answer, text, skipped = answer or hint.group(1), rest, 1
    split = _chosen(text, file, _NAMED.get(answer, answer), findings)
    if split is None:
        rows, by_gap = _loose_rows(text, file, findings)
        return Sheet("", rows, roles=() if by_gap else ("name", "price"))
    if not split.quoting and '"' in text:
        findings.add(
            Finding(
                "price-list-inch-marks",
                "assumption",
                "quote marks are read as inch marks, not as quotation marks",
                file=file,
            )
        )
    rows = tuple(_rows(text, split, file, skipped))
    _flag_ragged(rows, file, findings)
    return Sheet("", rows, delimiter=split.delimiter)


def _chosen(text: str, file: str, answer: str, findings: Findings) -> _Split | None:
    """Return how to cut the text; None when it is cut at wide gaps or before a last price."""
    head = "\n".join(text.split("\n", _HEAD_LINES)[:_HEAD_LINES])
    if answer:
        return _split(head, answer) if len(answer) == 1 else None
    ranked = sorted((_split(head, mark) for mark in DELIMITERS), key=lambda s: -s.score)
    best, second = ranked[0], ranked[1]
    if best.score <= 1.0 or _is_loose(head, best.roles):
        return None
    if second.score > 0.8 * best.score:
        findings.add(
            Finding(
                "price-list-delimiter",
                "assumption",
                f"cells are separated by {DELIMITERS[best.delimiter]}; "
                f"{DELIMITERS[second.delimiter]} would fit nearly as well",
                file=file,
                next_step=f"name it with --delimiter {DELIMITERS[best.delimiter]}",
            )
        )
    return best


def _is_loose(head: str, roles: int) -> bool:
    """Return whether wide gaps cut out a better header, or most lines of no table end in a price.

    `roles` are the header words that the best delimiter cuts out of one line.
    """
    lines = [line for line in head.split("\n") if line.strip()]
    gaps = max((_known_cells(_GAP.split(line.strip())) for line in lines[:80]), default=0)
    if gaps > max(1, roles):
        return True
    if roles > 1:
        return False
    return sum(bool(_PRICE_AT_END.match(line)) for line in lines) * 2 > len(lines)


def _split(head: str, delimiter: str) -> _Split:
    quoting = _is_quoted(head, delimiter)
    rows = [cells for _, cells in _cells(head, delimiter, quoting)]
    widths = Counter(len(cells) for cells in rows if any(cells))
    widths.pop(1, None)
    if not widths:
        return _Split(delimiter, quoting, 0.0)
    regular = max(count * min(width, 6) for width, count in widths.items())
    roles = max((_known_cells(cells) for cells in rows[:80]), default=0)
    return _Split(
        delimiter, quoting, regular * (1 + 0.5 * roles) if roles else 0.6 * regular, roles
    )


def _known_cells(cells: list[str]) -> int:
    if len(cells) < 2:
        return 0
    return len({found[0].value for cell in cells if (found := hits("header", norm(cell[:60])))})


def _is_quoted(text: str, delimiter: str) -> bool:
    """Return whether quote marks enclose cells: some cell begins with one, and all balance."""
    mark = re.escape(delimiter)
    if not re.search(rf'(?:^|{mark})[ ]?"', text, re.MULTILINE):
        return False
    try:
        for _ in csv.reader(io.StringIO(text), delimiter=delimiter, strict=True):
            pass
    except csv.Error:
        return not re.search(
            rf'"[^"\n{mark}]|[^"\n{mark}]"[^"\n{mark}]', _without_proper(text, mark)
        )
    return True


def _without_proper(text: str, mark: str) -> str:
    """Return the text without its properly quoted cells, so that stray marks remain."""
    return re.sub(
        rf'(?:(?<=^)|(?<={mark}))"(?:[^"]|"")*"(?={mark}|$)', "", text, flags=re.MULTILINE
    )


def _cells(text: str, delimiter: str, quoting: bool) -> list[tuple[int, list[str]]]:
    csv.field_size_limit(limit("max_field_chars"))
    mode: Literal[0, 3] = csv.QUOTE_MINIMAL if quoting else csv.QUOTE_NONE
    reader = csv.reader(
        io.StringIO(text, newline=""), delimiter=delimiter, quoting=mode, skipinitialspace=quoting
    )
    rows: list[tuple[int, list[str]]] = []
    start = 1
    try:
        for cells in reader:
            rows.append((start, cells))
            start = reader.line_num + 1
    except csv.Error:
        return rows
    return rows


def _rows(text: str, split: _Split, file: str, skipped: int) -> list[Row]:
    most_rows, most_columns = limit("max_rows"), limit("max_columns")
    if text.count("\n") > 2 * most_rows:
        raise InputError(_too_many(file, most_rows))
    raw = _cells(text, split.delimiter, split.quoting)
    if len(raw) > most_rows:
        raise InputError(_too_many(file, most_rows))
    wide = next((number for number, cells in raw if len(cells) > most_columns), None)
    read_to = raw[-1][0] if raw else 0
    if wide is not None:
        message = f"{file}:{wide + skipped}: has more than {most_columns} columns; is it a table?"
        raise InputError(message)
    if text[:-1].count("\n") > read_to + 2000:
        message = (
            f"{file}:{read_to + 1 + skipped}: a cell is longer than "
            f"{limit('max_field_chars')} characters; is a quotation mark left open?"
        )
        raise InputError(message)
    return [
        Row(number + skipped, tuple(" ".join(cell.split()) for cell in cells))
        for number, cells in raw
    ]


def _too_many(file: str, most: int) -> str:
    return f"{file}: has more than {most} rows; cut it down to the goods in question"


def _flag_ragged(rows: tuple[Row, ...], file: str, findings: Findings) -> None:
    widths = Counter(len(row.cells) for row in rows if sum(cell != "" for cell in row.cells) > 1)
    if not widths:
        return
    usual = widths.most_common(1)[0][0]
    longer = [
        row.number
        for row in rows
        if len(row.cells) > usual and any(cell != "" for cell in row.cells[usual:])
    ]
    if longer and len(longer) < 0.3 * len(rows):
        shown = ", ".join(str(number) for number in longer[: limit("max_listed_rows")])
        findings.add(
            Finding(
                "price-list-ragged",
                "warning",
                f"{len(longer)} rows have more cells than the other rows' {usual}: {shown}",
                file=file,
                line=longer[0],
                next_step="look whether a mark inside a cell splits it",
            )
        )


def _loose_rows(text: str, file: str, findings: Findings) -> tuple[tuple[Row, ...], bool]:
    """Read lines without a delimiter: cut at wide gaps, or before a price at the line's end."""
    lines = text.split("\n")
    if len(lines) > limit("max_rows"):
        raise InputError(_too_many(file, limit("max_rows")))
    if any(len(line) > limit("max_field_chars") for line in lines):
        message = f"{file}: has lines longer than {limit('max_field_chars')} characters"
        raise InputError(message)
    gaps = sum(bool(_GAP.search(line.strip())) for line in lines)
    ends = sum(bool(_PRICE_AT_END.match(line)) for line in lines)
    rows = []
    for number, line in enumerate(lines, start=1):
        rows.append(Row(number, tuple(_loose_cells(line, gaps >= ends))))
    if max(gaps, ends):
        findings.add(
            Finding(
                "price-list-loose-text",
                "assumption",
                "no delimiter found; cells are cut at wide gaps"
                if gaps >= ends
                else "no delimiter found; the number at a line's end is its price",
                file=file,
            )
        )
    return tuple(rows), gaps >= ends


def _loose_cells(line: str, by_gap: bool) -> list[str]:
    if by_gap:
        return [cell.strip() for cell in _GAP.split(line.strip())]
    found = _PRICE_AT_END.match(line)
    return [found["name"], found["price"]] if found else [line.strip()]
