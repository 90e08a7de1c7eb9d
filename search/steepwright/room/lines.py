"""Where each key of a TOML text stands.

tomllib tells a line only for syntax errors. This reads text that tomllib has already accepted
and returns the line of every table, key and array item, so that a message can point at it.
Grammar: TOML 1.0.0, https://toml.io/en/v1.0.0.
"""

from __future__ import annotations

import bisect
import re
import tomllib
from collections.abc import Mapping

KeyPath = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_QUOTED_KEY = re.compile(r'"(?:[^"\\\n]|\\.)*"|' + r"'[^'\n]*'")
_TEXT = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|' + r"'''.*?'{3,5}|" + _QUOTED_KEY.pattern,
    re.DOTALL,
)
_SCALAR = re.compile(r"[^,\]}#\n]*")
_REST = re.compile(r"[^\n]*")


def line_index(text: str) -> dict[KeyPath, int]:
    """Return the line (from 1) of every table, key and array item of a TOML text.

    Array items and the tables of an array of tables are counted from 0, as in the data that
    tomllib returns. The text must be valid TOML; on anything else the index may be partial.
    """
    scanner = _Scanner(text)
    try:
        scanner.document()
    except RecursionError:
        return scanner.lines
    return scanner.lines


def line_of(lines: Mapping[KeyPath, int], path: KeyPath) -> int:
    """Return the line of a key, or of the nearest table around it; 0 when there is none."""
    for size in range(len(path), 0, -1):
        if path[:size] in lines:
            return lines[path[:size]]
    return 0


class _Scanner:
    """One walk through the text; `lines` grows as keys are met."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[KeyPath, int] = {}
        self.breaks = [match.start() for match in re.finditer("\n", text)]
        self.last_item: dict[KeyPath, int] = {}

    def document(self) -> None:
        """Read headers and key lines to the end."""
        table: KeyPath = ()
        self.skip(_BLANK)
        while self.at < len(self.text):
            start = self.at
            if self.text[self.at] == "[":
                table = self.header()
            else:
                self.pair(table)
            self.skip(_REST if self.at > start else re.compile(r"[^\n]+"))
            self.skip(_BLANK)

    def header(self) -> KeyPath:
        """Read ``[a.b]`` or ``[[a.b]]`` and return the path of the table it opens."""
        line = self.line()
        array = self.text.startswith("[[", self.at)
        self.at += 2 if array else 1
        parts = self.key()
        path: KeyPath = ()
        for part in parts[:-1]:
            path = self.inside((*path, part))
            self.lines.setdefault(path, line)
        path = (*path, *parts[-1:])
        if array:
            self.last_item[path] = self.last_item.get(path, -1) + 1
        self.lines.setdefault(path, line)
        path = self.inside(path)
        self.lines.setdefault(path, line)
        return path

    def inside(self, path: KeyPath) -> KeyPath:
        """Return the path of an array's last table when `path` names an array of tables."""
        return (*path, self.last_item[path]) if path in self.last_item else path

    def pair(self, table: KeyPath) -> None:
        """Read ``key = value`` and note the key."""
        line = self.line()
        path = table
        for part in self.key():
            path = (*path, part)
            self.lines.setdefault(path, line)
        self.skip(_SPACE)
        if self.text.startswith("=", self.at):
            self.at += 1
            self.value(path)

    def key(self) -> tuple[str, ...]:
        """Read a bare, quoted or dotted key."""
        parts: list[str] = []
        while True:
            self.skip(_SPACE)
            quoted = _QUOTED_KEY.match(self.text, self.at)
            found = quoted or _BARE.match(self.text, self.at)
            if not found:
                return tuple(parts)
            self.at = found.end()
            parts.append(_unquote(found[0]) if quoted else found[0])
            self.skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return tuple(parts)
            self.at += 1

    def value(self, path: KeyPath) -> None:
        """Read one value, noting what lies inside arrays and inline tables."""
        self.skip(_SPACE)
        opening = self.text[self.at : self.at + 1]
        if opening == "[":
            self.items(path)
        elif opening == "{":
            self.inline_table(path)
        else:
            text = _TEXT.match(self.text, self.at)
            self.at = text.end() if text else self.at
            self.skip(_SCALAR)

    def items(self, path: KeyPath) -> None:
        """Read an array from its opening bracket to its closing one."""
        self.at += 1
        number = 0
        while self.more("]"):
            self.lines.setdefault((*path, number), self.line())
            self.value((*path, number))
            number += 1

    def inline_table(self, path: KeyPath) -> None:
        """Read an inline table from its opening brace to its closing one."""
        self.at += 1
        while self.more("}"):
            self.pair(path)

    def more(self, closing: str) -> bool:
        """Step over separators; False at the closing mark, which is taken, or at the end."""
        before = -1
        while self.at != before:
            before = self.at
            self.skip(_BLANK)
            if self.text.startswith(",", self.at):
                self.at += 1
        if self.at >= len(self.text):
            return False
        if self.text.startswith(closing, self.at):
            self.at += 1
            return False
        return self.text[self.at] not in "]}"

    def skip(self, pattern: re.Pattern[str]) -> None:
        """Step over what the pattern matches here."""
        found = pattern.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def line(self) -> int:
        """Return the line [from 1] of the current place."""
        return bisect.bisect_left(self.breaks, self.at) + 1


def _unquote(quoted: str) -> str:
    return next(iter(tomllib.loads(f"{quoted} = 0")))
