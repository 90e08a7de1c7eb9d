"""Feet and inches: exact by the international yard and pound (1959); a tape's sixteenths."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.imperial import (
    customary,
    feet_inches,
    in_feet,
    inches,
    length_mm,
    line_load_n_per_m,
    mass_kg,
    pounds,
    pounds_force,
)

SIXTEENTH_MM = 25.4 / 16


@pytest.mark.parametrize(
    ("text", "expected_mm"),
    [
        # 1 ft = 304.8 mm and 1 in = 25.4 mm exactly; the nearest mm by hand.
        ("8' 2 1/2\"", 2502),  # 2501.9
        ("8'-2 1/2\"", 2502),
        ("8'2-1/2\"", 2502),
        ("8′ 2½″", 2502),
        ("8 ft 2.5 in", 2502),
        ("98 1/2 in", 2502),
        ("98.5 inches", 2502),
        ("8 feet", 2438),  # 2438.4
        ("4'", 1219),
        ("3/4 in.", 19),  # 19.05
        ('1/8"', 3),
        ("8' 0\"", 2438),
        ("2.44 m", 2440),
        ("244 cm", 2440),
        ("2440 mm", 2440),
        ("2.5 in", 64),  # 63.5, halves up
    ],
)
def test_lengths_are_read_to_the_nearest_mm(text: str, expected_mm: int) -> None:
    assert length_mm(text) == expected_mm


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("8' 14\"", "12 inches"),
        ("8.5' 2\"", "whole number"),
        ("1/0 in", "below its line"),
        ("1 1/00 in", "below its line"),
        ("8' 2", "unit"),
        ("2 1/2", "unit"),
        ("8 cubits", "unit"),
        ("-3 in", "unit"),
        ("2\" 8'", "unit"),
        ("", "unit"),
        ("1.5 1/2 in", "unit"),
        ("8'' 2'", "unit"),
    ],
)
def test_other_texts_are_refused_with_a_reason(text: str, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        length_mm(text)


@given(st.text(alphabet="0123456789 '\"-./ftinm½", max_size=14))
def test_any_text_is_a_length_or_a_value_error(text: str) -> None:
    with contextlib.suppress(ValueError):
        assert length_mm(text) >= 0


@given(st.integers(0, 50_000))
def test_what_is_shown_is_within_half_a_sixteenth_and_reads_back(length: int) -> None:
    again = length_mm(feet_inches(length))
    assert abs(again - length) <= SIXTEENTH_MM / 2 + 0.5
    assert feet_inches(again) == feet_inches(length_mm(feet_inches(again)))


@given(st.integers(0, 12 * 16 * 200))
def test_every_tape_mark_survives_paper(sixteenths: int) -> None:
    mark_mm = sixteenths * SIXTEENTH_MM
    shown = feet_inches(mark_mm)
    assert length_mm(shown) == int(sixteenths * 127 / 80 + 0.5)
    assert inches(mark_mm) == sixteenths / 16
    assert feet_inches(length_mm(shown)) == shown  # 0.5 mm is less than half a sixteenth


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a board of 2440 mm.", "a board of 8' 0 1/16\"."),
        ("2440 x 1220 mm sheets", "8' 0 1/16\" x 4' 0 1/16\" sheets"),
        ("at 178 and 305 mm", 'at 7" and 1\' 0"'),
        ("birch 18 mm, 25.4 mm off", 'birch 18 mm, 1" off'),
        ("12 N/mm2, 3 mm2 and 4 N/mm", "12 N/mm2, 3 mm2 and 4 N/mm"),
        ("two pieces", "two pieces"),
        ("1 of 74.84 kg x 2 (dynamic factor)", "1 of 165 lb x 2 (dynamic factor)"),
        ("lift 330 N (34 kg); 23.4 kg hang", "lift 74 lbf; 51.6 lb hang"),
        ("a load of 0.8 kN, 800 N, 4.4 N", "a load of 180 lbf, 180 lbf, 1 lbf"),
        ("500 N/m and 12 MPa at 2 m", "34 lbf/ft and 1740 psi at 2 m"),
        ("weigh 5 kg per m2 of board", "weigh 1 lb per square foot of board"),
        ("12 kNm, 3 kg/m3, 7 Nm", "12 kNm, 3 kg/m3, 7 Nm"),
    ],
)
def test_measures_in_a_text_are_shown_in_feet_but_not_in_names(text: str, shown: str) -> None:
    assert in_feet(text, {"birch 18 mm"}) == shown
    primes = shown.replace("'", "′").replace('"', "″")
    assert in_feet(text, {"birch 18 mm"}, primes=True) == primes


@pytest.mark.parametrize(
    ("length", "shown"),
    [
        (0, '0"'),
        (12.7, '1/2"'),
        (89, '3 1/2"'),
        (304.8, "1' 0\""),
        (2440, "8' 0 1/16\""),
        (2438.4, "8' 0\""),
        (2502, "8' 2 1/2\""),
        (-38, '-1 1/2"'),
    ],
)
def test_lengths_are_shown_as_a_tape_has_them(length: float, shown: str) -> None:
    assert feet_inches(length) == shown


def test_masses_and_loads() -> None:
    # 1 lb = 0.45359237 kg exactly; 1 lbf/ft = 14.5939 N/m (NIST SP 811, appendix B.8).
    assert mass_kg("165 lb") == 74.84
    assert mass_kg("165 lbs") == 74.84
    assert mass_kg("80 kg") == 80
    assert line_load_n_per_m("100 plf") == 1459.4
    assert line_load_n_per_m("60 lb/ft") == 875.6
    assert line_load_n_per_m("0.9 kN/m") == 900
    for read in (mass_kg, line_load_n_per_m):
        with pytest.raises(ValueError, match="unit"):
            read("12 stone")


@pytest.mark.parametrize(
    ("value", "unit", "shown", "shown_unit"),
    [
        # NIST SP 811, appendix B.8: 1 lbf = 4.448222 N, 1 psi = 6.894757 kPa,
        # 1 lbf ft = 1.355818 N m, 1 lbf/ft = 14.59390 N/m.
        (4.448222, "N", 1, "lbf"),
        (6.894757, "MPa", 1000, "psi"),
        (1355.818, "Nmm", 1, "lbf ft"),
        (14.59390, "N/m", 1, "lbf/ft"),
        (25.4, "mm", 1, "in"),
        (0.45359237, "kg", 1, "lb"),
    ],
)
def test_figures_of_checks(value: float, unit: str, shown: float, shown_unit: str) -> None:
    turned, name = customary(value, unit)
    assert turned == pytest.approx(shown, rel=1e-6)
    assert name == shown_unit
    assert customary(2.5, "-") == (2.5, "-")


def test_masses_and_forces_for_tables() -> None:
    assert [pounds(m) for m in (0, 10, 74.84)] == [0, 22.0, 165.0]
    assert [pounds_force(n) for n in (0, 330, 1000)] == [0, 74, 225]
