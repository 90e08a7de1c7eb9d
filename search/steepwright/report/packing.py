"""The page's data made small: equal parts, names of fields and texts are written once.

The packed form is ``{"shapes": [...], "texts": [...], "pool": n, "code": "..."}``. `shapes` are the
names of fields of objects, `texts` all texts, and `code` is a row of numbers that spell out the
`pool` parts that occur more than once, one after the other, and then the whole. A number is
written in letters: digits of base 45 and a last one of base 44, which its letter tells from the
others.

An even number 2 n is the number n. 4 k + 1 stands for part k of the pool. 4 k + 3 is told by k:
a list (its length and items follow), false, true, none, a negative number, a decimal fraction
(how many decimals and its digits follow) or a negative one, a number or a text that stands in
`texts`, a sentence (how many numbers, its words and the numbers follow: most designs share the
words and differ in the numbers), and from `OBJECT` on an object of shape k - `OBJECT` with its
values. The page has the inverse, assets/js/01-data.js; tests/unpacking.py is the same in Python.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Sequence
from typing import Any

LAST, MORE = 44, 45
"""Letters for a number's last digit, and for those before it."""

LETTERS = "".join(chr(c) for c in range(33, 127) if chr(c) not in '"&<>\\')

LIST, FALSE, TRUE, NONE, NEGATIVE, DECIMAL, MINUS, NUMBER, TEXT, SENTENCE, OBJECT = range(11)

_LEAST_LETTERS = 4
"""A part of no more letters is written again rather than referred to."""

_LEAST_SENTENCE = 24
"""A text shorter than this is not taken apart."""


_MOST_DIGITS = 15
"""Longer numbers are written as texts: the page's language counts in doubles."""

BLANK = "¤"
_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,4})?")

Node = tuple[Any, ...]


class _Interner:
    """Gives equal subtrees equal numbers; children come before their parents."""

    def __init__(self) -> None:
        self.nodes: list[Node] = []
        self.uses: Counter[int] = Counter()
        self.shapes: dict[tuple[str, ...], int] = {}
        self._known: dict[Node, int] = {}

    def intern(self, value: Any) -> int:
        """Return the number of a value's subtree."""
        if isinstance(value, str):
            return self._text(value)
        if isinstance(value, dict):
            shape = self.shapes.setdefault(tuple(value), len(self.shapes))
            return self._add((OBJECT + shape, *map(self.intern, value.values())))
        if isinstance(value, list | tuple):
            return self._add((LIST, *map(self.intern, value)))
        return self._plain(value)

    def _text(self, text: str) -> int:
        if len(text) >= _LEAST_SENTENCE and BLANK not in text:
            numbers = _NUMBER.findall(text)
            if numbers:
                words = self._plain(_NUMBER.sub(BLANK, text))
                return self._add((SENTENCE, words, *(self._plain(_short(n)) for n in numbers)))
        return self._plain(text)

    def _plain(self, value: Any) -> int:
        if isinstance(value, float):
            return self._add((float, value, repr(value)))  # repr tells 0.0 from -0.0
        return self._add((type(value), value))

    def _add(self, node: Node) -> int:
        number = self._known.get(node)
        if number is None:
            number = self._known[node] = len(self.nodes)
            self.nodes.append(node)
            if not isinstance(node[0], type):
                self.uses.update(node[1:])
        return number


class _Writer:
    """Writes nodes in letters and keeps the texts that they refer to."""

    def __init__(self) -> None:
        self.texts: dict[str, int] = {}

    def node(self, node: Node, written: Sequence[str]) -> str:
        """Return a node in letters, its children being written already."""
        head = node[0]
        if isinstance(head, type):
            return self._plain(node[1])
        items = "".join(written[child] for child in node[1:])
        if head == LIST:
            return _told(LIST, len(node) - 1) + items
        return (_told(SENTENCE, len(node) - 2) if head == SENTENCE else _told(head)) + items

    def _plain(self, value: Any) -> str:
        if value is None or isinstance(value, bool):
            return _told(NONE if value is None else TRUE if value else FALSE)
        if isinstance(value, str):
            return _told(TEXT, self._text(value))
        digits = json.dumps(value)
        if len(digits) > _MOST_DIGITS or not re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", digits):
            return _told(NUMBER, self._text(digits))
        if isinstance(value, int):
            return _number(2 * value) if value >= 0 else _told(NEGATIVE, -value)
        whole, _, part = digits.lstrip("-").partition(".")
        return _told(MINUS if digits.startswith("-") else DECIMAL, len(part), int(whole + part))

    def _text(self, text: str) -> int:
        return self.texts.setdefault(text, len(self.texts))


def _told(kind: int, *numbers: int) -> str:
    return "".join(map(_number, (4 * kind + 3, *numbers)))


def _number(value: int) -> str:
    value, digit = divmod(value, LAST)
    letters = LETTERS[digit]
    while value:
        value, digit = divmod(value, MORE)
        letters = LETTERS[LAST + digit] + letters
    return letters


def _short(text: str) -> int | float | str:
    """Return the number that both languages write like this; else the text (007, 1.50, 2.0)."""
    number = float(text) if "." in text else int(text)
    return number if str(number) == text and not text.endswith(".0") else text


def pack(value: Any) -> dict[str, Any]:
    """Return the packed form of plain data (None, bool, int, float, str, list, dict).

    Keys of objects must be text. Tuples come back as lists.
    """
    interner, writer = _Interner(), _Writer()
    interner.intern(value)
    pool: list[str] = []
    written: list[str] = []
    for number, node in enumerate(interner.nodes):
        form = writer.node(node, written)
        if interner.uses[number] > 1 and len(form) > _LEAST_LETTERS:
            pool.append(form)
            form = _number(4 * (len(pool) - 1) + 1)
        written.append(form)
    return {
        "shapes": [list(shape) for shape in interner.shapes],
        "texts": list(writer.texts),
        "pool": len(pool),
        "code": "".join(pool) + written[-1],
    }
