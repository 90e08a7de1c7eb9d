"""The 34 messes that yards' lists come with: each is handled, flagged or asked, never guessed.

The lists are made up; what is right for each is reasoned beside it.
"""

import datetime as dt
from pathlib import Path

import pytest

from steepwright.errors import InputError
from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping

SAID = "Bezeichnung;Preis EUR/Stk inkl. MwSt.\n"
ONE = "OSB/3 22 mm 2500x1250;31,25\n"


@pytest.fixture
def read(tmp_path):
    """Read a list given as text or bytes, with answers by key."""

    def reading(content, name="list.csv", today=None, **answers):
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_price_list(path, from_mapping(answers, "test"), today)

    return reading


def codes(reading):
    return {finding.code for finding in reading.findings}


def asked(reading):
    return {question.key for question in reading.questions}


def blocked(reading):
    return {question.key for question in reading.blocking}


def reasons(reading):
    return {one.row: one.reason for one in reading.left_out}


# 1: delimiter
def test_a_delimiter_that_another_nearly_matches_is_flagged(read):
    found = read("Name;Preis,EUR;Preis brutto,x\nOSB/3 22mm 2500x1250;a,b;31.25,c\n")
    assert "price-list-delimiter" in codes(found)


# 3: thousands or decimal
def test_prices_that_prove_no_decimal_mark_are_asked(read):
    text = (
        "Bezeichnung;Preis EUR/m3 inkl. MwSt.\nKVH C24 60x120 5 m;1.250\nKVH C24 80x160 4 m;1.300\n"
    )
    assert blocked(read(text)) == {"decimal"}
    point, comma = read(text, decimal="."), read(text, decimal=",")
    assert [o.price_cents for o in point.timber] == [5, 7]  # 1.25 x 0.036 m3
    assert [o.price_cents for o in comma.timber] == [4500, 6656]


def test_one_cell_that_proves_the_mark_decides_for_its_column(read):
    head = "Bezeichnung;Preis EUR/m3 inkl. MwSt.\n"
    text = f"{head}KVH C24 60x120 5 m;1.250\nKVH C24 80x160 4 m;999,50\n"
    found = read(text)
    assert not blocked(found)
    assert [o.price_cents for o in found.timber] == [4500, 5117]  # 999.50 x 0.0512 = 51.1744


def test_an_undecided_column_beside_a_decided_one_is_an_assumption(read):
    text = "Bezeichnung;Länge m;Preis EUR/m3 inkl. MwSt.\nKVH C24 60x120;5,00;1.250\n"
    found = read(text)
    assert not blocked(found)
    assert "price-list-decimal" in codes(found)
    assert found.timber[0].price_cents == 4500


# 5: words in the price column
@pytest.mark.parametrize(
    ("cell", "reason"),
    [
        ("auf Anfrage", "price on request"),
        ("POA", "price on request"),
        ("sur demande", "price on request"),
        ("su richiesta", "price on request"),
        ("a consultar", "price on request"),
        ("na zapytanie", "price on request"),
        ("op aanvraag", "price on request"),
        ("k.A.", "no price"),
        ("60%", "a percentage"),
        ("ab 3,20", "a 'from' price"),
        ("à partir de 3,20", "a 'from' price"),
        ("3,20–4,10", "a price range"),
        ("3,20 - 4,10 €", "a price range"),
        ("0,00", "price is zero"),
        ("-3,50", "price is negative"),
        ("#WERT!", "a spreadsheet error"),
        ("–", "no price"),
        ("", "no price"),
    ],
)
def test_a_price_cell_without_a_price_has_its_reason(read, cell, reason):
    found = read(SAID + ONE + f"OSB/3 18 mm 2500x1250;{cell}\n")
    assert len(found.sheets) == 1
    row = reasons(found).get(3, "")
    # a lone name without any price cell may be a heading: then it is no offer either
    assert row.startswith(reason) or (cell in ("", "–", "k.A.") and found.counts.headings > 1)


# 6, 7: code pages
def test_a_code_page_is_named_with_words_to_judge_it_by(read):
    text = "Bezeichnung;Preis €/Stück brutto\nBirkensperrholz für Böden 18 mm 2500x1250;100,00\n"
    found = read(text.encode("cp1252"))
    finding = next(f for f in found.findings if f.code == "price-list-encoding")
    assert "cp1252" in finding.message
    assert "Stück" in finding.seen
    assert found.currency == "EUR"  # latin-1 would have lost the euro sign


def test_polish_letters_choose_the_eastern_code_page(read):
    text = "Nazwa;Cena brutto zł/szt\nPłyta OSB/3 gęsta żółta 22 mm 2500x1250;31,25\n"
    found = read(text.encode("cp1250"))
    assert "cp1250" in next(f.message for f in found.findings if f.code == "price-list-encoding")
    assert found.currency == "PLN"


# 9: rows above the table
def test_the_header_row_that_was_taken_is_told(read):
    found = read("Muster Holz\n\nStand 01.02.2026;;\n" + SAID + ONE)
    assert found.header_rows == (("", 4, 4),)
    assert found.date == "2026-02-01"


# 10: no header
def test_a_list_without_a_header_asks_for_a_column_map(read):
    found = read("1;OSB/3 22 mm 2500x1250;31,25\n2;OSB/3 18 mm 2500x1250;25,00\n")
    assert "columns" in blocked(found)
    assert not found.offers


# 11: headings, totals, blanks
def test_headings_totals_and_blanks_are_counted(read):
    text = SAID + "OSB-Platten;\n" + ONE + ";\nSumme;31,25\nGesamt;31,25\n"
    found = read(text)
    assert (found.counts.used, found.counts.blanks) == (1, 1)
    assert reasons(found) == {5: "total", 6: "total"}


def test_a_heading_gives_its_context_to_what_stands_below_it(read):
    text = (
        "Maße;Preis EUR/Stk brutto\nSiebdruckplatten Birke;\n18x2500x1250;100,00\n"
        "OSB/3;\n22x2500x1250;31,25\n"
    )
    assert [o.kind for o in read(text).sheets] == ["birch film-faced", "OSB/3"]


# 12: blanks that mean "as above"
def test_filling_down_without_a_merge_is_flagged(read):
    text = "Bezeichnung;Maße;Preis EUR/Stk brutto\nOSB/3;22x2500x1250;31,25\n;18x2500x1250;25,00\n"
    found = read(text)
    assert [o.thickness_mm for o in found.sheets] == [22, 18]
    assert "price-list-filled-down" in codes(found)


def test_a_strength_class_is_never_filled_down(read):
    text = (
        "Bezeichnung;Klasse;Maße;Preis EUR/Stk brutto\n"
        "Kantholz Fichte;C24;60x120x5000;18,00\nKantholz Fichte;;80x160x4000;25,60\n"
    )
    found = read(text)
    assert [o.depth_mm for o in found.timber] == [120]
    assert reasons(found)[3].startswith("no strength class")


# 13: ragged rows
def test_a_row_with_too_many_cells_is_kept_and_named(read):
    found = read(SAID + ONE * 4 + "OSB/3 18 mm 2500x1250;25,00;Aktion\n")
    assert {o.thickness_mm for o in found.sheets} == {18, 22}
    assert next(f.line for f in found.findings if f.code == "price-list-ragged") == 6


def test_rows_that_all_go_beyond_their_header_are_an_assumption(read):
    text = "Bezeichnung;Länge;Preis EUR/m brutto\nKVH C24 60x120;4 ; 5 ; 6 m;3,60\n"
    found = read(text)
    finding = next(f for f in found.findings if f.code == "price-list-ragged")
    assert (finding.severity, finding.line) == ("assumption", 2)
    assert "price-list-ragged" not in codes(read(text.replace(" ; ", " / ") + ";;;;\n"))


@pytest.mark.parametrize(
    ("rows", "columns"),
    [
        ("Item,Price USD each incl tax\nOSB/3 22 mm 2500x1250,31,25\n", ""),
        ("Item,Price USD each incl tax\nOSB/3 22 mm 2500x1250,31,25 $\n", ""),
        ("Item,Price USD each incl tax\nOSB/3 22 mm 2500x1250,$1,031.25\n", ""),
        ("Item,Price USD each incl tax,Stock\nOSB/3 22 mm 2500x1250,31,25,4\n", ""),
        ("Item,Length m,Price USD each incl tax\nC24 60x120,5,00,18,00\n", ""),
        ("1,OSB/3 22 mm 2500x1250,31,25\n", "sku,name,price"),
    ],
)
def test_a_price_that_a_comma_cuts_in_two_is_no_price(read, rows, columns):
    found = read(rows, columns=columns, basis="piece", currency="USD", prices="include-vat")
    assert not found.offers
    assert "comma seems to cut the price" in next(iter(reasons(found).values()))


def test_a_whole_price_between_commas_stays_a_price(read):
    text = "Item,Price USD each incl tax,Stock\nOSB/3 22 mm 2500x1250,31,25\n"
    assert [(o.price_cents, o.limit) for o in read(text).sheets] == [(3100, 25)]


# 14: quote marks as inches
def test_inch_marks_are_not_quotation_marks(read):
    text = (
        'Item,Price USD each incl tax\n3/4" birch plywood 4x8,68.00\n1/2" birch plywood 4x8,48.00\n'
    )
    found = read(text)
    assert "price-list-inch-marks" in codes(found)
    assert [o.price_cents for o in found.sheets] == [6800, 4800]
    assert [o.thickness_mm for o in found.sheets] == [18, 12]  # 19.05 and 12.7 mm


# 15: codes
def test_codes_keep_their_leading_zeros(read):
    found = read("Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n00123;OSB/3 22 mm 2500x1250;31,25\n")
    assert found.sheets[0].sku == "00123"


# 16: two price columns of one name
def test_two_price_columns_of_one_name_are_asked(read):
    text = (
        "Bezeichnung;Preis EUR/Stk brutto;Preis EUR/Stk brutto\nOSB/3 22 mm 2500x1250;31,25;25,00\n"
    )
    assert blocked(read(text)) == {"price_column"}
    assert read(text, price_column="C").sheets[0].price_cents == 2500


def test_words_above_two_price_columns_tell_them_apart(read):
    text = "Bezeichnung;netto;brutto\n;EUR/Stk;EUR/Stk\nOSB/3 22 mm 2500x1250;25,00;31,25\n"
    found = read(text)
    assert not blocked(found)
    assert found.sheets[0].price_cents == 3125


# 17: sizes that became dates
def test_a_size_that_became_a_date_is_asked(read, make):
    rows = [
        ["Item", "Thickness", "Size", "Price USD each incl tax"],
        ["Birch plywood", 46085, "4x8 ft", 68],
    ]
    content = make.xlsx({"L": rows}, date_columns=(1,))  # 46085 is 4 March 2026
    found = read(content, "list.xlsx")
    assert "date_sizes" in asked(found)
    assert not found.sheets
    answered = read(content, "list.xlsx", date_sizes="month/day")
    assert answered.sheets[0].thickness_mm == 18  # 3/4 in


def test_a_worded_date_in_a_size_column_is_asked(read):
    text = "Bezeichnung;Maß cm;Länge m;Preis EUR/Stk brutto\nKVH C24;06. Aug;5,00;18,00\n"
    assert "date_sizes" in asked(read(text))
    found = read(text, date_sizes="day/month")
    assert (found.timber[0].width_mm, found.timber[0].depth_mm) == (60, 80)


# 18: formulas without values
def test_a_formula_without_a_saved_value_is_flagged(read, make):
    rows = [
        ["Bezeichnung", "Preis EUR/Stk brutto"],
        ["OSB/3 22 mm 2500x1250", 31.25],
        ["OSB/3 18 mm 2500x1250", ("B2*0.8",)],
    ]
    found = read(make.xlsx({"L": rows}), "list.xlsx")
    finding = next(f for f in found.findings if f.code == "price-list-uncomputed")
    assert "recalculate" in finding.next_step
    assert "3" in finding.message


# 19: a unit that only the number format says
def test_a_basis_in_the_number_format_alone_is_an_assumption(read, make):
    rows = [["Bezeichnung", "Preis inkl. MwSt."], ["OSB/3 22 mm 2500x1250", 10]]
    found = read(make.xlsx({"L": rows}, formats={1: '#,##0.00" €/m²"'}), "list.xlsx")
    assert found.sheets[0].price_cents == 3125
    assert "price-list-basis-implied" in codes(found)


# 20: several sheets, hidden ones
def test_hidden_sheets_and_rows_are_told_and_not_read(read, make):
    rows = [
        ["Bezeichnung", "Preis EUR/Stk brutto"],
        ["OSB/3 22 mm 2500x1250", 31.25],
        ["OSB/3 18 mm 2500x1250", 1],
    ]
    found = read(
        make.xlsx({"Neu": rows, "Alt": rows}, hidden=("Alt",), hidden_rows=(3,)), "list.xlsx"
    )
    assert [o.price_cents for o in found.sheets] == [3125]
    assert "price-list-hidden-sheet" in codes(found)
    assert reasons(found)[3] == "hidden in the spreadsheet"
    both = read(make.xlsx({"Neu": rows}, hidden_rows=(3,)), "list.xlsx", hidden_rows="read")
    assert len(both.sheets) == 2


def test_two_sheets_with_different_prices_are_asked(read, make):
    head = ["Bezeichnung", "Preis EUR/Stk brutto"]
    content = make.xlsx(
        {
            "2025": [head, ["OSB/3 22 mm 2500x1250", 30]],
            "2026": [head, ["OSB/3 22 mm 2500x1250", 31.25]],
        }
    )
    assert blocked(read(content, "list.xlsx")) == {"sheet"}
    assert read(content, "list.xlsx", sheet="2026").sheets[0].price_cents == 3125


# 21: row numbers are the file's own
def test_row_numbers_are_those_that_the_spreadsheet_shows(read, make):
    rows = [["Bezeichnung", "Preis EUR/Stk brutto"], ["OSB/3 22 mm 2500x1250", 31.25]]
    assert read(make.xlsx({"L": rows}, start=(9, 2)), "list.xlsx").sheets[0].row == 11


# 23: what the price is for
def test_a_missing_basis_is_asked_with_what_would_be_usual(read):
    text = (
        "Bezeichnung;Preis EUR brutto\nOSB/3 22 mm 2500x1250;31,25\nOSB/3 18 mm 2500x1250;26,00\n"
    )
    found = read(text)
    assert blocked(found) == {"basis"}
    assert "piece" in next(q.text for q in found.questions if q.key == "basis")
    assert read(text, basis="piece").sheets[0].price_cents == 3125


def test_a_basis_can_be_answered_per_family(read):
    text = "Bezeichnung;Preis EUR brutto\nOSB/3 22 mm 2500x1250;10,00\nKVH C24 60x120 5 m;3,60\n"
    found = read(text, basis="sheet=m2,timber=m")
    assert found.sheets[0].price_cents == 3125
    assert found.timber[0].price_cents == 1800


def test_a_basis_in_a_heading_is_an_assumption(read):
    text = "Bezeichnung;Preis EUR brutto\nOSB-Platten, Preis je m²;\nOSB/3 22 mm 2500x1250;10,00\n"
    found = read(text)
    assert found.sheets[0].price_cents == 3125
    assert "price-list-basis-implied" in codes(found)


# 24: a unit that contradicts the price
@pytest.mark.parametrize(
    ("line", "cure"),
    [
        ("KVH C24 60x120 6 m;;lfm;21,60", "divided by the length"),
        ("KVH C24 60x120 5 m;10;lfm;180,00", "divided by pieces x length"),
        ("KVH C24 60x120 5 m;;Stk;500,00", "times the volume"),
        ("OSB/3 22 mm 2500x1250;;m²;95,00", "divided by the area"),
        ("OSB/3 22 mm 2500x1250;;Stk;3125,00", "divided by 100"),
    ],
)
def test_a_wrong_basis_is_flagged_with_the_factor_that_would_cure_it(read, line, cure):
    found = read("Bezeichnung;VPE;ME;Preis EUR brutto\n" + line + "\n")
    finding = next(f for f in found.findings if f.code == "price-list-band")
    assert cure in finding.message
    assert found.bands[0].cure in finding.message


# 25: VAT
def test_unsaid_vat_is_asked_with_both_totals(read):
    text = "Bezeichnung;Preis EUR/Stk\nOSB/3 22 mm 2500x1250;30,00\n"
    found = read(text)
    assert blocked(found) == {"prices"}
    assert "30.00 EUR would be 36.00 EUR" in next(q.text for q in found.questions)
    assert read(text, prices="include-vat").sheets[0].price_cents == 3000
    assert blocked(read(text, prices="exclude-vat")) == {"vat"}
    assert read(text, prices="exclude-vat", vat="20").sheets[0].price_cents == 3600
    assert read(text, prices="exclude-vat", vat="8,1").sheets[0].price_cents == 3243


@pytest.mark.parametrize(
    ("note", "cents"),
    [
        ("Preise zzgl. 20 % MwSt.", 3600),
        ("Alle Preise in EUR exkl. 20% MwSt., inkl. Verpackung", 3600),
        ("Preise inkl. 20 % MwSt.", 3000),
        ("Bruttopreise", 3000),
        ("Prix HT, TVA 20 %", 3600),
        ("Tous nos prix s'entendent TTC", 3000),
        ("Prezzi IVA 20% esclusa", 3600),
        ("I prezzi sono + IVA 20%", 3600),
        ("Prezzi IVA inclusa", 3000),
        ("Precios sin IVA (20%)", 3600),
        ("Precios con IVA incluido", 3000),
        ("IVA no incluido 20 %", 3600),
        ("Ceny netto, VAT 20%", 3600),
        ("Ceny zawierają podatek VAT", 3000),
        ("Prijzen exclusief 20% BTW", 3600),
        ("Prijzen inclusief BTW", 3000),
        ("All prices exclude VAT at 20%", 3600),
        ("Prices include VAT", 3000),
        ("Prices are plus VAT @ 20%", 3600),
        ("VAT not included (20 %)", 3600),
    ],
)
def test_what_a_note_says_about_vat(read, note, cents):
    found = read(
        f"{note}\nBezeichnung;Preis EUR/Stk\nOSB/3 22 mm 2500x1250;30,00\n".replace(
            "\nB", ";\nB", 1
        )
    )
    assert not blocked(found)
    assert found.sheets[0].price_cents == cents


def test_each_row_may_say_its_own_vat_rate(read):
    text = (
        "Bezeichnung;MwSt;Preis EUR/Stk netto\nOSB/3 22 mm 2500x1250;20%;31,25\n"
        "OSB/3 18 mm 2500x1250;10%;25,00\nOSB/3 15 mm 2500x1250;;20,00\n"
    )
    assert blocked(read(text)) == {"vat"}
    found = read(text, vat="19")
    assert [o.price_cents for o in found.sheets] == [3750, 2750, 2380]
    assert "10 % or 19 % or 20 %, as each row says" in found.vat
    assert not blocked(read(text.replace(";;", ";10%;")))


def test_a_sum_of_vat_is_no_rate(read):
    text = "Bezeichnung;MwSt;Preis EUR/Stk netto\nOSB/3 22 mm 2500x1250;6,25;31,25\n"
    assert blocked(read(text)) == {"vat"}
    assert read(text, vat="20").sheets[0].price_cents == 3750


def test_terms_of_payment_say_nothing_about_vat(read):
    found = read("Zahlung 30 Tage netto;\nBezeichnung;Preis EUR/Stk\nOSB/3 22 mm 2500x1250;30,00\n")
    assert blocked(found) == {"prices"}


# 26: nominal sizes
def test_nominal_lumber_takes_the_actual_size_of_its_country(read):
    text = 'Item,Price USD each incl tax\n"2x4x8\' SPF C24",3.98\n'
    bar = read(text).timber[0]
    assert (bar.width_mm, bar.depth_mm, bar.length_mm) == (38, 88, 2438)  # NDS 1.5 x 3.5 in, 8 ft


def test_a_nominal_size_without_a_table_is_asked(read):
    text = 'Item,Price EUR each incl tax\n"2x4 CLS C24, 2.4 m",3.98\n'
    assert "nominal" in asked(read(text))
    assert (read(text, nominal="uk").timber[0].depth_mm) == 89


# 27: order of sizes
@pytest.mark.parametrize(
    ("size", "sides"),
    [
        ("2500x1250x22", (2500, 1250)),
        ("22x1250x2500", (1250, 2500)),
        ("1250/2500/22", (1250, 2500)),
        ("22 mm 2500 x 1250 mm", (2500, 1250)),
        ("2,2x250x125 cm", (2500, 1250)),
        ("2.500 x 1.250 x 22", (2500, 1250)),
        ("2,50 m x 1,25 m x 22 mm", (2500, 1250)),
    ],
)
def test_the_smallest_size_is_the_thickness_and_the_order_is_kept(read, size, sides):
    size = size.replace("22", "21").replace("2,2x", "2,1x")
    found = read(f"Bezeichnung;Preis EUR/Stk brutto\nSperrholz Birke {size};80,00\n")
    sheet = found.sheets[0]
    assert (sheet.thickness_mm, sheet.length_mm, sheet.width_mm) == (21, *sides)
    assert sheet.face_grain == "length"
    assert "price-list-face-grain" in codes(found)


def test_words_for_the_face_grain_decide(read):
    text = "Bezeichnung;Preis EUR/Stk brutto\nSperrholz Birke 21 mm 2500x1250 querfurniert;80,00\n"
    found = read(text)
    assert found.sheets[0].face_grain == "width"
    assert "price-list-face-grain" not in codes(found)


# 28: units of size
def test_a_section_that_fits_two_units_is_settled_by_the_other_rows(read):
    head = "Bezeichnung;Preis EUR/m brutto\n"
    alone = read(head + "Kantholz C24 20/20 4 m;9,00\n")
    assert "size_unit" in asked(alone)
    assert not alone.timber
    found = read(head + "Kantholz C24 20/20 4 m;9,00\nKantholz C24 6/12 5 m;3,60\n")
    assert [(o.width_mm, o.depth_mm) for o in found.timber] == [(200, 200), (60, 120)]
    assert "price-list-size-unit" in codes(found)


# 29: lengths
@pytest.mark.parametrize(
    ("words", "lengths"),
    [
        ("4/5/6 m", (4000, 5000, 6000)),
        ("3,0 / 3,6 / 4,2 m", (3000, 3600, 4200)),
        ("Längen: 3, 4, 5 m", (3000, 4000, 5000)),
        ("3 und 5 m", (3000, 5000)),
        ("3.0m 3.6m 4.2m", (3000, 3600, 4200)),
        ("Stangenware 13 m", (13000,)),
        ("L=4,50 m", (4500,)),
        ("2,4–3,6 m, Stufung 30 cm", (2400, 2700, 3000, 3300, 3600)),
        ("von 2,0 bis 5,1 m", ()),
        ("R/L 3-5 m", ()),
        ("", ()),
    ],
)
def test_lengths_are_fixed_a_choice_a_range_or_random(read, words, lengths):
    found = read(f"Bezeichnung;Preis EUR/m brutto\nKVH C24 60x120 mm {words};3,60\n" + ONE)
    assert tuple(o.length_mm for o in found.timber) == lengths
    assert [o.price_cents for o in found.timber] == [360 * length // 1000 for length in lengths]


def test_a_range_is_opened_by_a_step(read):
    text = "Bezeichnung;Preis EUR/m brutto\nKVH C24 60x120 mm 2,0–3,2 m;3,60\n"
    assert "length_step" in asked(read(text))
    assert [o.length_mm for o in read(text, length_step="0.3").timber] == [
        2000,
        2300,
        2600,
        2900,
        3200,
    ]


def test_a_missing_length_is_answered(read):
    text = "Bezeichnung;Preis EUR/m brutto\nKVH C24 60x120 mm;3,60\n"
    assert "lengths" in asked(read(text))
    assert [o.length_mm for o in read(text, lengths="3,4,5").timber] == [3000, 4000, 5000]


# 30: tiers, least quantities, charges
def test_tiers_are_kept_and_not_planned_with(read):
    text = "Bezeichnung;Preis EUR/Stk brutto;ab 10;ab 50\nOSB/3 22 mm 2500x1250;31,25;30,00;28,00\n"
    sheet = read(text).sheets[0]
    assert sheet.price_cents == 3125
    assert [(count, str(price)) for count, price in sheet.price.tiers] == [
        (10, "30.00"),
        (50, "28.00"),
    ]


def test_a_least_quantity_leaves_a_row_out(read):
    text = "Bezeichnung;Mindestmenge;Preis EUR/Stk brutto\nOSB/3 22 mm 2500x1250;20;31,25\n"
    found = read(text)
    assert reasons(found)[2] == "sold from 20 pieces on"
    assert len(read(text, min_quantity="20").sheets) == 1


@pytest.mark.parametrize("words", ["ab 50 Stk", "from 50 pcs", "min. 50 szt", "od 50 szt."])
def test_a_least_quantity_in_the_words_leaves_a_row_out(read, words):
    text = SAID + ONE + f"OSB/3 18 mm 2500x1250 {words};20,00\n"
    assert reasons(read(text))[3] == "sold from 50 pieces on"
    assert len(read(text, min_quantity="50").sheets) == 2


def test_charges_are_kept_apart(read):
    text = SAID + ONE + "Zuschnitt je Schnitt;1,50\nAnlieferung pauschal;45,00\n"
    found = read(text)
    assert {(c.kind, c.price_cents) for c in found.charges} == {("cut", 150), ("delivery", 4500)}
    told = next(f for f in found.findings if f.code == "price-list-charges")
    assert "cut_price = 1.50, delivery_price = 45.00" in told.next_step
    assert "price-list-charges" not in codes(read(SAID + ONE))


@pytest.mark.parametrize(
    "cell",
    ["0", "0 Stk", "0,00", "ausverkauft", "Out of stock", "épuisé", "esaurito", "agotado",
     "brak", "uitverkocht", "nicht lieferbar"],
)  # fmt: skip
def test_what_a_stock_column_says_is_gone_is_left_out(read, cell):
    text = f"Bezeichnung;Bestand;Preis EUR/Stk brutto\nOSB/3 22 mm 2500x1250;{cell};31,25\n"
    assert reasons(read(text)) == {2: "out of stock"}


@pytest.mark.parametrize("cell", ["10", "> 100", "ja", "auf Lager", "k.A.", "available", ""])
def test_what_a_stock_column_says_is_there_is_used(read, cell):
    text = f"Bezeichnung;Bestand;Preis EUR/Stk brutto\nOSB/3 22 mm 2500x1250;{cell};31,25\n"
    assert len(read(text).sheets) == 1


# 31: duplicates
def test_one_product_at_two_prices_takes_the_dearest_and_says_so(read):
    text = SAID + ONE + "OSB/3 22 mm 2500x1250;29,00\n"
    found = read(text)
    assert [o.price_cents for o in found.sheets] == [3125]
    assert "price-list-duplicates" in codes(found)
    assert [o.price_cents for o in read(text, duplicates="cheapest").sheets] == [2900]
    assert len({o.sku for o in read(text, duplicates="both").sheets}) == 2


# 32: date and currency
def test_a_missing_currency_is_asked_and_an_old_list_is_flagged(read):
    text = "Stand 01.02.2025;\nBezeichnung;Preis je Stk brutto\nOSB/3 22 mm 2500x1250;31,25\n"
    found = read(text, today=dt.date(2026, 2, 1))
    assert blocked(found) == {"currency"}
    assert "price-list-old" in codes(found)
    assert found.date == "2025-02-01"


@pytest.mark.parametrize(
    ("note", "date"),
    [
        ("Preisliste gültig ab 15.03.2026", "2026-03-15"),
        ("Tarif au 1er mars 2026", "2026-03-01"),
        ("Listino prezzi valido dal 15/03/2026", "2026-03-15"),
        ("Tarifa vigente desde el 15 de marzo de 2026", "2026-03-15"),
        ("Cennik ważny od 15 marca 2026", "2026-03-15"),
        ("Prijslijst per 15 maart 2026", "2026-03-15"),
        ("Price list effective March 15, 2026", "2026-03-15"),
        ("Preisliste 03/2026", "2026-03-01"),
        ("Stand: 2026-03-15", "2026-03-15"),
    ],
)
def test_the_date_of_a_list_in_seven_languages(read, note, date):
    assert read(f"{note};\n{SAID}{ONE}").date == date


# 33: misspelt words
def test_a_misspelt_word_is_read_and_flagged(read):
    found = read("Nazwa;Cena brutto zł/szt\nsklajka brzozowa 18 mm 2500x1250;100,00\n")
    assert found.sheets[0].kind == "birch"
    assert "price-list-spelling" in codes(found)


def test_a_strength_class_is_never_mended(read):
    found = read(SAID + "Kantholz Fichte C25 60x120 5 m;18,00\n" + ONE)
    assert not found.timber


# 34: strength class
def test_timber_without_a_class_is_no_structural_timber(read):
    text = SAID + ONE + "Kantholz Fichte 60x120 5 m;18,00\n"
    found = read(text)
    assert "strength" in blocked(found)
    assert read(text, strength="C16").timber[0].strength_class == "C16"
    assert not read(text, strength="none").questions


def test_osb_without_its_class_is_asked(read):
    text = SAID + "OSB 22 mm 2500x1250;31,25\n"
    assert "osb" in blocked(read(text))
    assert read(text, osb="3").sheets[0].panel == "osb3-22"
    assert not read(SAID + "OSB/2 22 mm 2500x1250;31,25\n").sheets


def test_plywood_without_its_wood_is_asked(read):
    text = SAID + "Multiplex 18 mm 2500x1250;80,00\n"
    assert "plywood" in blocked(read(text))
    assert read(text, plywood="birch").sheets[0].kind == "birch"
    assert not read(SAID + "Multiplex Buche 18 mm 2500x1250;80,00\n").sheets


# answers
@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("currency", "EURO"),
        ("min_quantity", "x"),
        ("pack_pieces", "0"),
        ("tongue_groove", "x"),
        ("lengths", "three"),
        ("length_step", "-1"),
        ("length_step", "0"),
        ("delimiter", "abc"),
        ("basis", "m9"),
        ("basis", "roof=m"),
        ("vat", "500"),
        ("price_column", "ZZZ"),
        ("sheet", "Nope"),
    ],
)
def test_an_answer_that_can_be_none_is_refused(read, key, text):
    with pytest.raises(InputError, match=text):
        read(SAID + ONE, **{key: text})


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("currency", "chf"),
        ("min_quantity", "10"),
        ("tongue_groove", "none"),
        ("tongue_groove", "7,5"),
        ("lengths", "3, 4,5 m"),
        ("length_step", "30 cm"),
        ("delimiter", "semicolon"),
        ("basis", "m3"),
        ("basis", "sheet=m2,timber=m"),
        ("basis", "1000"),
        ("price_column", "b"),
        ("price_column", "Preis EUR/Stk inkl. MwSt."),
    ],
)
def test_an_answer_in_any_of_its_spellings_is_taken(read, key, text):
    assert len(read(SAID + ONE, **{key: text}).sheets) == 1


# refusals
@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"%PDF-1.4 x", "PDF"),
        (b"<html><table></table></html>", "web page"),
        (b"<?xml version='1.0'?><a/>", "XML"),
        (b"PK\x03\x04 broken", "spreadsheet"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"x" * 600, "spreadsheet"),
        (b"\x00\x01\x02\x03" * 50, "zero bytes"),
    ],
)
def test_what_is_no_table_is_refused_with_a_reason(read, content, words):
    with pytest.raises(InputError, match=words):
        read(content)


def test_a_missing_file_is_refused(tmp_path):
    with pytest.raises(InputError, match="can't be read"):
        read_price_list(Path(tmp_path / "none.csv"))


# more than the 34
def test_a_web_page_under_a_spreadsheets_name_is_read(read):
    page = (
        "<html><body><table><tr><th rowspan=2>Bezeichnung<th colspan=2>Preis EUR/Stk</tr>"
        "<tr><th>netto</th><th>brutto</th></tr>"
        "<tr><td>OSB/3 22&nbsp;mm<br>2500x1250</td><td>25,00</td><td>31,25</td></tr></table>"
    )
    assert read(page, "list.xls").sheets[0].price_cents == 3125


def test_sizes_across_the_head_of_a_table_are_one_offer_each(read):
    text = (
        "KVH C24 gehobelt, Preise je Stück inkl. MwSt. in EUR;;;\n"
        "Querschnitt;3,00 m;4,00 m;5,00 m\n60/80 mm;9,20;12,30;-\n60/120 mm;13,80;18,40;23,00\n"
        "Siebdruckplatten Birke;;;\nStärke;2500x1250;3000x1500;\n18 mm;120,00;175,00;\n"
    )
    found = read(text)
    assert [(o.depth_mm, o.length_mm, o.price_cents) for o in found.timber] == [
        (80, 3000, 920),
        (80, 4000, 1230),
        (120, 3000, 1380),
        (120, 4000, 1840),
        (120, 5000, 2300),
    ]
    assert [(o.length_mm, o.price_cents) for o in found.sheets] == [(2500, 12000), (3000, 17500)]


def test_letters_encoded_twice_are_mended_and_told(read):
    text = "Bezeichnung;Stärke;Länge;Breite;Preis €/Stk brutto\nOSB/3;22;2500;1250;31,25\n"
    found = read(text.encode().decode("cp1252").encode())
    assert found.sheets[0].price_cents == 3125
    assert "price-list-encoding" in codes(found)


@pytest.mark.parametrize(
    "words",
    [
        "KVH C24 gebraucht 60x120 5 m",
        "Stegträger C24 60x240 6 m",
        "Rundholz C24 100x100 3 m",
        "Terrassendiele Lärche C24 28x145 4 m",
        "C24 reclaimed joist 60x120 5 m",
    ],
)
def test_what_no_frame_is_built_of_is_left_out(read, words):
    assert not read(SAID + ONE + words + ";18,00\n", strength="C24").timber


@pytest.mark.parametrize(
    "words",
    [
        "Siebdruckplatte Pappel",
        "Film faced poplar plywood",
        "Multiplex Buche",
        "MDF Birke furniert",
        "Leimholzplatte Fichte",
        "Dreischichtplatte Fichte",
        "Tischlerplatte Birke",
        "Spanplatte",
        "Multiplex Birke HPL beschichtet",
        "Contreplaqué okoumé",
        "Sklejka topolowa",
        "OSB/2",
    ],
)
def test_sheets_without_strength_values_are_left_out(read, words):
    found = read(SAID + ONE + words + " 18 mm 2500x1250;60,00\n", plywood="birch", osb="3")
    assert [o.kind for o in found.sheets] == ["OSB/3"]


def test_a_header_without_a_price_asks_for_its_column(read):
    text = "Artikel;Bezeichnung;Stärke;Länge;Breite;Wert\n1;OSB/3;22;2500;1250;31,25\n"
    assert "price_column" in blocked(read(text))
    found = read(text, price_column="F", currency="EUR", prices="include-vat", basis="piece")
    assert found.sheets[0].price_cents == 3125


def test_small_parts_are_read_by_the_pack(read):
    text = (
        "Bezeichnung;Einheit;Preis EUR brutto\nEinschlagmuttern M10 verzinkt 100 Stk;Paket;24,90\n"
        "Holzschrauben 5x60 (200 Stk);Paket;13,99\n" + "OSB/3 22 mm 2500x1250;Stk;31,25\n"
    )
    assert [(o.kind, o.pack_quantity, o.price_cents) for o in read(text).hardware] == [
        ("tnut", 100, 2490),
        ("screw", 200, 1399),
    ]


@pytest.mark.parametrize(
    ("pack", "pieces"),
    [
        ("Pck. à 50", 50),
        ("Pkg. à 50 Stk", 50),
        ("50er Pack", 50),
        ("200er-Packung", 200),
        ("100 St./Pck.", 100),
        ("Schachtel 200", 200),
        ("boîte de 100", 100),
        ("sachet de 25", 25),
        ("scatola da 100", 100),
        ("zak met 200 stuks", 200),
    ],
)
def test_what_is_sold_in_packs_is_no_single_piece(read, pack, pieces):
    """How packs are written on lists: common practice, no source."""
    text = f"Bezeichnung;Preis EUR brutto\nHolzschraube 5x60 {pack};13,99\n"
    part = read(text, basis="piece").hardware[0]
    assert (part.pack_quantity, part.price_cents) == (pieces, 1399)


@pytest.mark.parametrize(
    ("title", "pieces"),
    [
        ("Preis EUR / 1000 Stk brutto", 1000),
        ("Preis EUR/1.000 St brutto", 1000),
        ("Preis EUR per 100 brutto", 100),
        ("€/100 Stück brutto", 100),
        ("Prix € TTC pour 100", 100),
        ("Cena brutto zł za 100 szt", 100),
    ],
)
def test_a_header_may_price_a_hundred_or_a_thousand(read, title, pieces):
    part = read(f"Bezeichnung;{title}\nEinschlagmutter M10;31,25\n").hardware[0]
    assert (part.pack_quantity, part.price_cents) == (pieces, 3125)


def test_a_header_may_price_a_hundred_metres(read):
    found = read("Bezeichnung;Preis EUR je 100 m brutto\nKVH C24 60x120 5 m;360,00\n")
    assert [o.price_cents for o in found.timber] == [1800]


def test_a_pack_without_its_pieces_is_asked(read):
    text = "Description;Price per pack EUR inc VAT;In stock\nOSB/3 18 mm 2500x1250;625.00;3\n"
    assert "pack_pieces" in blocked(read(text))
    sheet = read(text, pack_pieces="25").sheets[0]
    assert (sheet.price_cents, sheet.limit) == (2500, 75)


def test_rows_of_several_sheets_are_named_with_their_sheet(read, make):
    head = ["Bezeichnung", "Preis EUR/Stk brutto"]
    rows = [head, ["Sperrholz Birke 18 mm 2500x1250", 100]]
    bars = [head, ["Kantholz C24 60x120 5 m", 18], ["Kantholz Fichte 80x160 5 m", 25]]
    found = read(make.xlsx({"Platten": rows, "Holz": bars}), "list.xlsx")
    grain = next(f for f in found.findings if f.code == "price-list-face-grain")
    assert "(row Platten 2)" in grain.message
    assert next(q.rows for q in found.questions if q.key == "strength") == ("Holz 3",)
