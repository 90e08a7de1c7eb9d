"""Rows with inches in lists that aren't American throughout: read right, asked about or left out.

Actual sizes of nominal lumber are those of PS 20 (1x4: 3/4 x 3 1/2 in; 2x4: 1 1/2 x 3 1/2 in).
"""

from decimal import Decimal

import pytest

from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping
from steepwright.pricelist.panels import nominal_section


def read(tmp_path, rows, **answers):
    path = tmp_path / "list.csv"
    quoted = [row.replace('"', '""') for row in rows]
    lines = [f'{n},"{row}",ea,3.00' for n, row in enumerate(quoted, start=1)]
    path.write_text("\n".join(["Item,Description,Unit,Price", *lines]) + "\n", encoding="utf-8")
    given = {"currency": "EUR", "prices": "include-vat", **answers}
    return read_price_list(path, from_mapping(given, "test"))


@pytest.mark.parametrize("row", ["1x4x8 SPF #2", "1x6x8 SPF #2", "2x4x8 SPF #2"])
def test_bare_lumber_sizes_are_asked_about_not_guessed(row, tmp_path):
    reading = read(tmp_path, [row])
    assert reading.timber == ()
    assert [one.key for one in reading.blocking if one.key == "size_unit"] == ["size_unit"]


@pytest.mark.parametrize(
    ("row", "size"),
    [("1x4x8 SPF #2", (19, 88, 2438)), ("2x4x8 SPF #2", (38, 88, 2438))],
)
def test_the_answer_inches_reads_lumber_in_inches_and_feet(row, size, tmp_path):
    reading = read(tmp_path, [row], size_unit="in", nominal="us")
    assert [(b.width_mm, b.depth_mm, b.length_mm) for b in reading.timber] == [size]
    asked = read(tmp_path, [row], size_unit="in")
    assert asked.timber == ()
    assert "nominal" in {one.key for one in asked.questions}


def test_a_bar_in_centimetres_and_metres_is_read_as_before(tmp_path):
    reading = read(tmp_path, ["6x12x5m C24"])
    assert [(b.width_mm, b.depth_mm, b.length_mm) for b in reading.timber] == [(60, 120, 5000)]


@pytest.mark.parametrize(
    ("nominal", "inches"),
    [
        ("1x4", (0.75, 3.5)),
        ("1x6", (0.75, 5.5)),
        ("2x4", (1.5, 3.5)),
        ("2x6", (1.5, 5.5)),
        ("2x8", (1.5, 7.25)),
        ("2x10", (1.5, 9.25)),
        ("2x12", (1.5, 11.25)),
    ],
)
def test_us_sizes_are_the_dressed_ones_never_rounded_up(nominal, inches):
    narrow, deep = (Decimal(part) for part in nominal.split("x"))
    found = nominal_section("us", (narrow, deep), "", False)
    assert found[:2] == tuple(int(size * 25.4) for size in inches)


@pytest.mark.parametrize(
    ("row", "size"),
    [
        # ASME B18.6.1: 0.060 + 0.013 N in; No. 8 is 0.164 in, No. 9 0.177, No. 10 0.190.
        ("Wood screw #8 x 1-5/8 in, box of 100", ("4.2", 41, 100)),
        ("Wood screw No. 8 x 1 1/4 in, box of 100", ("4.2", 32, 100)),
        ('Deck screws #9 x 2-1/2", 500 pcs', ("4.5", 64, 500)),
        ("Deck screws #10 x 2-3/4, box of 100", ("4.8", 70, 100)),
        ("Structural screw 1/4 x 4 in, box of 50", ("6.3", 102, 50)),
        ("Lag screw 3/8 x 6 in, box 25", ("9.5", 152, 25)),
        ("Deck screws #10 x 2-1/2, 5 lb box (350 pcs)", ("4.8", 64, 350)),
        ("Wood screw #8 x 40 mm, box of 100", ("4.2", 40, 100)),
        ("Wood screws 5,0x60, box of 200", ("5.0", 60, 200)),
    ],
)
def test_screws_in_inches_are_read_in_inches(row, size, tmp_path):
    found = [
        (str(one.diameter_mm), one.length_mm, one.pack_quantity)
        for one in read(tmp_path, [row]).hardware
    ]
    assert found == [size]


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("Deck screws #10 x 2-1/2, 5 lb box", "screws sold by weight, how many is not said"),
        ("Deck screws #10 x 2-1/2, box 5 lb", "screws sold by weight, how many is not said"),
        ("Wood screw #8 x 40, box of 100", "screw: a size in inches that can't be read"),
        ("Wood screw 5 x 2 in, box of 100", "screw: a size in inches that can't be read"),
    ],
)
def test_screws_whose_size_or_number_is_not_said_are_left_out(row, why, tmp_path):
    reading = read(tmp_path, [row])
    assert reading.hardware == ()
    assert [one.reason for one in reading.left_out] == [why]


@pytest.mark.parametrize("span", ["24/16", "32/16", "40/20", "48/24"])
def test_a_span_rating_is_no_size(span, tmp_path):
    # Span ratings of PS 1 and PS 2: spacing of roof supports / of floor supports [in] [M].
    row = f"Rated softwood plywood sheathing 23/32 {span} 4x8"
    reading = read(tmp_path, [row], currency="USD", plywood="softwood")
    assert [(one.length_mm, one.width_mm) for one in reading.sheets] in (
        [(1219, 2438)],
        [(2438, 1219)],
    )
    assert reading.sheets[0].thickness_mm == 18


def test_a_joist_hanger_is_not_asked_its_strength_class(tmp_path):
    reading = read(tmp_path, ["Joist hanger 2x6", "2x4x8 SPF #2"], currency="USD")
    assert [one.reason for one in reading.left_out] == [
        "joist hangers are not in a wall's parts list"
    ]
    assert "strength" not in {one.key for one in reading.questions}


def by_the_foot(tmp_path, row, **answers):
    """Return what a list of one row in dollars a foot gives without the answers and with them."""
    path = tmp_path / "list.csv"
    path.write_text(f"Item,Description,Unit,Price\n1,{row},LF,3.00\n", encoding="utf-8")
    known = {"currency": "USD", "prices": "include-vat"}
    return [read_price_list(path, from_mapping(known | more, "test")) for more in ({}, answers)]


# A foot is 304.8 mm: 10, 12, 14 and 16 ft are 3048, 3657.6, 4267.2 and 4876.8 mm. In a list in
# dollars a bare 2 is a step of two feet, and 8 a length of eight.
@pytest.mark.parametrize("step", ["2", "2 ft", "2'"])
def test_steps_are_answered_in_the_lists_own_feet(tmp_path, step):
    asked, found = by_the_foot(tmp_path, "2x8 SPF #2 10-16 ft", length_step=step)
    assert [q.flag for q in asked.questions if q.key == "length_step"] == [
        "--length-step 2 (in ft)"
    ]
    assert [bar.length_mm for bar in found.timber] == [3048, 3657, 4267, 4876]


@pytest.mark.parametrize("lengths", ["8,10,12", "8 ft, 10 ft, 12 ft", "8' 10' 12'", "2.5 m"])
def test_lengths_are_answered_in_the_lists_own_feet(tmp_path, lengths):
    asked, found = by_the_foot(tmp_path, "2x8 SPF #2", lengths=lengths)
    assert [q.flag for q in asked.questions if q.key == "lengths"] == ["--lengths 8,10,12 (in ft)"]
    expected = [2500] if "m" in lengths else [2438, 3048, 3657]
    assert [bar.length_mm for bar in found.timber] == expected


def test_a_thickness_without_values_is_told_to_a_tenth(tmp_path):
    """7/16 in are 11.1125 mm, which no caliper tells."""
    found = read(tmp_path, ['7/16" 4x8 OSB'], currency="USD")
    assert [one.reason for one in found.left_out] == ["no strength values for rated OSB 11.1 mm"]
