"""Numbers as people write them; Python's own formatter is the judge of what was meant."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.pricelist.figures import decimal_vote, is_undecided, number

AMOUNTS = st.decimals("0.01", "9999999.99", places=2)
THOUSANDS = {",": [".", "'", " ", "\u202f", ""], ".": [",", "’", "\u00a0", ""]}


@given(amount=AMOUNTS, data=st.data())
def test_what_a_locale_writes_is_read_back(amount, data):
    mark = data.draw(st.sampled_from(",."))
    group = data.draw(st.sampled_from(THOUSANDS[mark]))
    text = f"{amount:,.2f}".replace(",", "\0").replace(".", mark).replace("\0", group)
    assert number(text, mark) == amount
    assert number(text, "") == amount  # two decimals prove their mark
    assert decimal_vote(text) == mark


@given(whole=st.integers(1, 999), part=st.integers(0, 999), mark=st.sampled_from(",."))
def test_three_digits_after_one_mark_prove_nothing(whole, part, mark):
    text = f"{whole}{mark}{part:03d}"
    assert is_undecided(text)
    assert number(text, "") is None
    assert number(text, mark) == Decimal(f"{whole}.{part:03d}")
    assert number(text, "." if mark == "," else ",") == whole * 1000 + part


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12.-", 12),
        ("12.000,-", 12000),
        ("12,--", 12),
        ("1'250.-", 1250),
        ("0,125", "0.125"),
        ("1.234.567", 1234567),
        ("1,234,567.8", "1234567.8"),
        ("-3,5", "-3.5"),
        (".5", "0.5"),
    ],
)
def test_numbers_that_prove_themselves(text, value):
    assert number(text, "") == Decimal(value)


@pytest.mark.parametrize(
    "text", ["1,5,6", "1.234,567,8", "12..5", "a", "", "1.23.456", "1,2345,67"]
)
def test_what_is_no_number(text):
    assert number(text, ",") is None
    assert number(text, ".") is None
