"""The packed form of the page's data loses nothing."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from steepwright.report.packing import pack
from unpacking import unpack

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


@given(st.lists(st.text(alphabet="ab .0123456789¤-", max_size=60), max_size=5))
def test_sentences_with_numbers_come_back_letter_by_letter(texts: list[str]) -> None:
    assert unpack(json.loads(json.dumps(pack(texts)))) == texts


def test_words_shared_by_sentences_are_written_once() -> None:
    texts = [f"The largest board piece is {n} x 007 mm, {n / 10} kg and 1.50." for n in range(50)]
    packed = pack(texts)
    assert json.dumps(packed).count("largest board piece") == 1
    assert unpack(packed) == texts
    assert "2.0" in packed["texts"]  # JavaScript would write the number 2.0 as 2


def test_numbers_of_other_types_are_kept_apart() -> None:
    value = [1, 1.0, True, 0, False, 0.0, "1", None, [], {}]
    assert exact(unpack(pack(value))) == exact(value)


def test_equal_parts_are_written_once() -> None:
    part = {"name": "a long enough name", "sizes": [1, 2, 3]}
    one, fifty = pack([dict(part)]), pack([dict(part) for _ in range(50)])
    assert json.dumps(fifty).count("a long enough name") == 1
    assert len(fifty["code"]) <= len(one["code"]) + 2 * 50
