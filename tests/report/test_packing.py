"""The packed form of the page's data loses nothing."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from steepwright.report.packing import pack, unpack

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=5) | st.dictionaries(st.text(max_size=4), inner),
    max_leaves=30,
)


def exact(value: Any) -> str:
    """JSON tells 1, 1.0 and true apart, which Python's == does not."""
    return json.dumps(value)


@given(PLAIN)
def test_unpacking_gives_back_exactly_what_was_packed(value: Any) -> None:
    through_json = json.loads(json.dumps(pack(value)))
    assert exact(unpack(through_json)) == exact(value)


def test_numbers_of_other_types_are_kept_apart() -> None:
    value = [1, 1.0, True, 0, False, 0.0, "1", None, [], {}]
    assert exact(unpack(pack(value))) == exact(value)


def test_equal_parts_are_written_once() -> None:
    part = {"name": "a long enough name", "sizes": [1, 2, 3]}
    packed = pack([dict(part) for _ in range(50)])
    assert json.dumps(packed).count("a long enough name") == 1
    assert packed["root"] == [0] + [[-len(packed["pool"])]] * 50
