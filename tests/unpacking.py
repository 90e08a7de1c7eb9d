"""The inverse of `steepwright.report.packing.pack`, as the page has it in its own language."""

from __future__ import annotations

import json
from typing import Any

from steepwright.report.packing import (
    BLANK,
    DECIMAL,
    FALSE,
    LAST,
    LETTERS,
    LIST,
    MINUS,
    MORE,
    NEGATIVE,
    NONE,
    OBJECT,
    SENTENCE,
    TEXT,
    TRUE,
)


def unpack(packed: dict[str, Any]) -> Any:
    """Return what `pack` was given."""
    reader = _Reader(packed)
    for _ in range(packed["pool"]):
        reader.pool.append(reader.read())
    return reader.read()


class _Reader:
    """Reads values from letters, one after the other; later parts of the pool read earlier ones."""

    def __init__(self, packed: dict[str, Any]) -> None:
        self._letters = iter(packed["code"])
        self._shapes, self._texts = packed["shapes"], packed["texts"]
        self.pool: list[Any] = []

    def read(self) -> Any:
        """Return the next value."""
        head = self._number()
        kind = head // 4
        if head % 2 == 0:
            return head // 2
        if head % 4 == 1:
            return self.pool[kind]
        if kind >= OBJECT:
            return {name: self.read() for name in self._shapes[kind - OBJECT]}
        return self._told(kind)

    def _told(self, kind: int) -> Any:
        if kind in (FALSE, TRUE, NONE):
            return {FALSE: False, TRUE: True, NONE: None}[kind]
        if kind == LIST:
            return [self.read() for _ in range(self._number())]
        if kind == SENTENCE:
            return self._sentence(self._number())
        if kind in (DECIMAL, MINUS):
            decimals, digits = self._number(), self._number()
            return float(f"{'-' if kind == MINUS else ''}{digits}e-{decimals}")
        if kind == NEGATIVE:
            return -self._number()
        text = self._texts[self._number()]
        return text if kind == TEXT else json.loads(text)

    def _sentence(self, count: int) -> str:
        words = self.read().split(BLANK)
        numbers = [str(self.read()) for _ in range(count)]
        return "".join(a + b for a, b in zip(words, [*numbers, ""], strict=True))

    def _number(self) -> int:
        value = 0
        while (digit := LETTERS.index(next(self._letters))) >= LAST:
            value = value * MORE + digit - LAST
        return value * LAST + digit
