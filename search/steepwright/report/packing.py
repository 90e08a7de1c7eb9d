"""The page's data made small: equal parts are written once, and so are the names of fields.

The packed form is plain JSON: ``{"shapes": [...], "pool": [...], "root": ...}``. In it a list is
``[0, item, ...]``, an object ``[shape + 1, value, ...]`` with its field names in
``shapes[shape]``, and ``[-1 - n]`` stands for ``pool[n]``. A sentence with numbers in it is
``["", "... ¤ ... ¤ ...", number, number]``: most designs share the words and differ in the numbers.
Everything else stands for itself. `unpack` is the inverse; the page has the same few lines in its
own language.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

_LEAST_CHARACTERS = 8
"""A part shorter than this is written again rather than referred to."""

_LEAST_SENTENCE = 24
"""A text shorter than this is not taken apart."""

_BLANK = "¤"
_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,4})?")

Node = tuple[Any, ...]


class _Interner:
    """Gives equal subtrees equal numbers; children come before their parents."""

    def __init__(self) -> None:
        self.nodes: list[Node] = []
        self.lengths: list[int] = []
        self.uses: Counter[int] = Counter()
        self.shapes: dict[tuple[str, ...], int] = {}
        self._known: dict[Node, int] = {}

    def intern(self, value: Any) -> int:
        """Return the number of a value's subtree."""
        if isinstance(value, dict):
            shape = self.shapes.setdefault(tuple(value), len(self.shapes))
            children = [self.intern(item) for item in value.values()]
            return self._add((shape + 1, *children), children)
        if isinstance(value, list | tuple):
            children = [self.intern(item) for item in value]
            return self._add((0, *children), children)
        if isinstance(value, str) and len(value) >= _LEAST_SENTENCE and _BLANK not in value:
            numbers = _NUMBER.findall(value)
            if numbers:
                children = [self._plain(_NUMBER.sub(_BLANK, value))]
                children += [self._plain(_short(number)) for number in numbers]
                return self._add(("", *children), children)
        return self._plain(value)

    def _plain(self, value: Any) -> int:
        return self._add((type(value), value), [])

    def _add(self, node: Node, children: list[int]) -> int:
        if node in self._known:
            return self._known[node]
        number = self._known[node] = len(self.nodes)
        self.nodes.append(node)
        for child in children:
            self.uses[child] += 1
        self.lengths.append(
            sum(self.lengths[child] + 1 for child in children) + 3
            if not isinstance(node[0], type)
            else len(str(node[1])) + 2 * (node[0] is str)
        )
        return number


def _short(text: str) -> int | float | str:
    """Return the number that both languages write like this; else the text (007, 1.50, 2.0)."""
    number = float(text) if "." in text else int(text)
    return number if str(number) == text and not text.endswith(".0") else text


def pack(value: Any) -> dict[str, Any]:
    """Return the packed form of plain data (None, bool, int, float, str, list, dict).

    Keys of objects must be text. Tuples come back as lists.
    """
    interner = _Interner()
    root = interner.intern(value)
    pool: list[Any] = []
    written: list[Any] = []
    for number, node in enumerate(interner.nodes):
        plain = isinstance(node[0], type)
        form = node[1] if plain else [node[0], *(written[child] for child in node[1:])]
        if interner.uses[number] > 1 and interner.lengths[number] >= _LEAST_CHARACTERS:
            pool.append(form)
            form = [-len(pool)]
        written.append(form)
    return {"shapes": [list(s) for s in interner.shapes], "pool": pool, "root": written[root]}


def unpack(packed: dict[str, Any]) -> Any:
    """Return what `pack` was given."""
    pool: list[Any] = []

    def read(form: Any) -> Any:
        if not isinstance(form, list):
            return form
        head = form[0]
        if head == "":
            words, *numbers = (read(item) for item in form[1:])
            parts = zip(words.split(_BLANK), [*map(str, numbers), ""], strict=True)
            return "".join(word + number for word, number in parts)
        if head < 0:
            return pool[-1 - head]
        if head == 0:
            return [read(item) for item in form[1:]]
        return dict(zip(packed["shapes"][head - 1], map(read, form[1:]), strict=True))

    for entry in packed["pool"]:
        pool.append(read(entry))  # noqa: PERF401  (later entries read earlier ones)
    return read(packed["root"])
