"""From a price per measure to a price per piece, against the measures' definitions.

Sources: the international yard and pound agreement of 1959 (1 ft = 0.3048 m, 1 in = 25.4 mm); the
board foot of the American lumber trade, 1 in x 12 in x 12 in nominal, as in NIST Handbook 44 [M].
"""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.pricelist.basis import Basis, Piece, basis_in, pieces_per_price, to_cents

BAR = Piece(Decimal(60), Decimal(120), Decimal(5000), 10)
SHEET = Piece(Decimal(18), Decimal(1250), Decimal(2500), 20)


@pytest.mark.parametrize(
    ("unit", "piece", "timber", "factor"),
    [
        ("piece", BAR, True, Fraction(1)),
        ("m", BAR, True, Fraction(5)),
        ("m2", SHEET, False, Fraction(25, 8)),
        ("m3", BAR, True, Fraction(36, 1000)),
        ("m3", SHEET, False, Fraction(5625, 100000)),
        ("pack", BAR, True, Fraction(1, 10)),
        ("ft", BAR, True, Fraction(5) / Fraction("0.3048")),
        ("ft2", SHEET, False, Fraction(25, 8) / Fraction("0.3048") ** 2),
        ("msf", SHEET, False, Fraction(25, 8) / Fraction("0.3048") ** 2 / 1000),
        ("ft3", BAR, True, Fraction(36, 1000) / Fraction("0.3048") ** 3),
        ("m", SHEET, False, None),
        ("bf", BAR, True, None),
    ],
)
def test_factor_of_a_measure(unit, piece, timber, factor):
    found = pieces_per_price(Basis(unit), piece, timber)
    assert (found if found is None else Fraction(found)) == factor


def test_a_two_by_four_of_eight_feet_is_five_and_a_third_board_feet():
    length = Decimal("304.8") * 8
    piece = Piece(Decimal(38), Decimal(89), length, 0, (Decimal(2), Decimal(4)))
    assert pieces_per_price(Basis("bf"), piece, True) == Fraction(16, 3)
    assert pieces_per_price(Basis("mbf"), piece, True) == Fraction(16, 3000)


def test_a_price_per_hundred_is_divided():
    assert Fraction(pieces_per_price(Basis("m", Decimal(100)), BAR, True)) == Fraction(1, 20)


@given(
    price=st.decimals("0.01", "9999.99", places=2),
    vat=st.decimals("0", "30", places=1),
    factor=st.fractions(Fraction(1, 1000), Fraction(100)),
)
def test_cents_are_rounded_once_half_up(price, vat, factor):
    exact = Fraction(price) * (1 + Fraction(vat) / 100) * factor * 100
    cents = to_cents(price, 1 + vat / 100, factor)
    assert 0 <= cents + Fraction(1, 2) - exact <= 1
    assert cents - exact > -Fraction(1, 2)


@pytest.mark.parametrize(
    ("text", "unit", "count"),
    [
        ("Stk", "piece", 1),
        ("100 Stk", "piece", 100),
        ("%St", "piece", 100),
        ("€/m²", "m2", 1),
        ("lfm", "m", 1),
        ("lfd. m", "m", 1),
        ("ml", "m", 1),
        ("m.l.", "m", 1),
        ("mq", "m2", 1),
        ("mc", "m3", 1),
        ("m³", "m3", 1),
        ("cbm", "m3", 1),
        ("cad.", "piece", 1),
        ("szt.", "piece", 1),
        ("mb", "m", 1),
        ("m1", "m", 1),
        ("ud", "piece", 1),
        ("Bund", "pack", 1),
        ("paczka", "pack", 1),
        ("MBF", "mbf", 1),
        ("sq ft", "ft2", 1),
        ("lin ft", "ft", 1),
        ("100 m", "m", 100),
        ("per sheet", "piece", 1),
        ("pièce", "piece", 1),
        ("plaat", "piece", 1),
    ],
)
def test_unit_words_of_the_trade(text, unit, count):
    assert basis_in(text) == Basis(unit, Decimal(count))
