"""The line index agrees with tomllib on what keys there are, and with the text on where."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.resources import catalogs_dir
from steepwright.room.lines import KeyPath, line_index, line_of

TRICKY = '''\
a = 1
[x."q.r"]
b.c = [1,
 2, # c ] }
 {k = 3, "z" = [4,
 5]},
]
s = """
[no]
n = 1 \\""" "
"""
t = \'\'\'
u = "\'\'\'
d = 1979-05-27 07:32:00
[[t]]
u=1
[[t.v]]
w=2
[[t.v]]
w=3
[[t]]
[t.v]
y = {}
'''


def paths(value: Any, path: KeyPath = ()) -> Iterator[KeyPath]:
    if path:
        yield path
    inside: Any = value.items() if isinstance(value, dict) else ()
    inside = enumerate(value) if isinstance(value, list) else inside
    for key, item in inside:
        yield from paths(item, (*path, key))


def test_every_form_of_key_has_its_line() -> None:
    lines = line_index(TRICKY)
    assert set(lines) == set(paths(tomllib.loads(TRICKY)))
    assert lines["x", "q.r", "b", "c", 1] == 4
    assert lines["x", "q.r", "b", "c", 2, "z", 1] == 6
    assert (lines["x", "q.r", "s"], lines["x", "q.r", "t"], lines["x", "q.r", "d"]) == (8, 12, 14)
    assert (lines["t", 0, "v", 1, "w"], lines["t", 1, "v", "y"]) == (20, 23)
    assert line_of(lines, ("t", 1, "v", "missing")) == 22
    assert line_of(lines, ("missing",)) == 0


def test_the_example_has_a_line_for_every_key() -> None:
    text = (catalogs_dir() / "example" / "room.toml").read_text(encoding="utf-8")
    rows = text.split("\n")
    lines = line_index(text)
    for path in paths(tomllib.loads(text)):
        keys = [part for part in path if isinstance(part, str)]
        assert keys[-1] in rows[lines[path] - 1], path


words = st.text("ab_1", min_size=1, max_size=3)
marks = st.text("a'\"[]{}#=,.\n\\ ", max_size=6)
scalars = st.one_of(st.integers(), st.booleans(), st.floats(allow_nan=False), marks)
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3),
    max_leaves=8,
)


def toml(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        body = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"""{body}"""' if "\n" in body else f'"{body}"'
    if isinstance(value, list):
        return "[" + ",\n# ] }\n".join(toml(item) for item in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {toml(item)}" for key, item in value.items()) + "}"
    return repr(value)


@settings(max_examples=80, deadline=None)
@given(st.dictionaries(words, values, max_size=4), st.dictionaries(words, values, max_size=3))
def test_the_index_knows_the_keys_that_tomllib_knows(
    top: dict[str, Any], row: dict[str, Any]
) -> None:
    text = "".join(f"{key} = {toml(value)}\n" for key, value in top.items())
    text += 2 * ("[[rows.x]]\n" + "".join(f"{key} = {toml(value)}\n" for key, value in row.items()))
    data = tomllib.loads(text)
    lines = line_index(text)
    assert set(lines) == set(paths(data))
    rows = text.split("\n")
    assert all(
        path[-1] in rows[line - 1] for path, line in lines.items() if isinstance(path[-1], str)
    )
