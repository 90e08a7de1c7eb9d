"""What a note, a heading or a title of a list is about: its sheet, its goods, its columns.

The lists are made up; what is right for each is reasoned beside it.
"""

import pytest

from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping


@pytest.fixture
def read(tmp_path):
    """Read a list given as text or as the bytes of a workbook, with answers by key."""

    def reading(content, **answers):
        path = tmp_path / ("list.csv" if isinstance(content, str) else "list.xlsx")
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return read_price_list(path, from_mapping(answers, "test"), None)

    return reading


def reasons(reading):
    return {one.row: one.reason for one in reading.left_out}


def lines(*rows):
    return "\n".join(";".join(map(str, row)) for row in rows)


def cents(reading):
    return {one.sku: one.price_cents for one in reading.offers}


BARS = [
    ["Art", "Bezeichnung", "Preis EUR inkl. MwSt"],
    ["K1", "KVH C24 60x120 5 m", 4.65],
]
PLATES = [
    ["Art", "Bezeichnung", "Preis EUR inkl. MwSt"],
    ["P1", "OSB/3 2500x1250x18", 9.8],
    ["S1", "Holzschraube 5x60 Paket 100 Stk", 9.9],
]


# 4.65 a metre is 23.25 for 5 m; what the sheet of the bars says is not said of any other, where a
# bar of 5 m for 9.80 a square metre of its face would be billed at 5.88.
def test_a_note_holds_for_its_own_sheet(make, read):
    book = {"Holz": [["Preise je lfm"], *BARS], "Platten": [["Preise je m²"], *PLATES[:2]]}
    found = read(make.xlsx(book))
    assert cents(found) == {"K1": 2325, "P1": 3063}  # 9.80 x 3.125 m2 = 30.625, half a cent up
    mute = read(make.xlsx({"Holz": [["Preise je lfm"], *BARS], "Platten": PLATES}))
    assert cents(mute) == {"K1": 2325}
    assert {one.key for one in mute.questions} == {"basis"}


def test_a_note_that_names_goods_is_about_these_alone(read):
    rows = [BARS[0], ["", "Platten, Preise je m²", ""], PLATES[1], ["", "Bauholz", ""], BARS[1]]
    found = read(lines(*rows))
    assert cents(found) == {"P1": 3063}
    assert {one.key for one in found.questions} == {"basis"}


def test_a_note_between_items_is_about_what_follows(read):
    rows = [*BARS, ["", "Kleinteile, Preise je Stück", ""], ["D1", "OSB/3 900x600x18", 7.5]]
    found = read(lines(*rows))
    assert cents(found) == {"D1": 750}
    assert reasons(found) == {2: "what the price is for is not said"}


# 4.65 x 5 m and 19 % on top are 27.6675.
def test_a_cover_sheet_tells_of_all_others(make, read):
    cover = [
        ["Holzhof Brunnleitner"],
        ["Preisliste gültig ab 01.11.2026"],
        ["Alle Preise in EUR netto zzgl. 19 % MwSt., Preise je lfm"],
        ["Lieferung 30,00 EUR netto"],
    ]
    bars = [["Art", "Bezeichnung", "Preis EUR"], BARS[1]]
    for answers in ({}, {"sheet": "Holz"}):
        found = read(make.xlsx({"Deckblatt": cover, "Holz": bars}), **answers)
        assert cents(found) == {"K1": 2767}
        assert found.date == "2026-11-01"
        assert [one.price_cents for one in found.charges] == [3570]
        assert "price-list-sheets" not in {one.code for one in found.findings}


# A price is what has VAT in it or not: under a title that reaches over both nothing else is said.
@pytest.mark.parametrize(
    ("net", "gross"),
    [("Ex VAT", "Inc VAT"), ("excl. btw", "incl. btw"), ("IVA esclusa", "IVA inclusa")],
)
def test_a_title_that_tells_of_vat_alone_is_that_of_a_price(read, net, gross):
    head = [["", "", "", "Price (£)", "", ""], ["Code", "Product", "Unit", net, gross, "In stock"]]
    row = ["BP18", "Birch ply 2440 x 1220 x 18mm", "Sheet", "78.50", "94.20", "22"]
    found = read(lines(*head, row))
    assert cents(found) == {"BP18": 9420}
    assert not found.questions


def test_a_title_over_single_sizes_leaves_each_its_own(make, read):
    rows = [
        ["Art.-Nr.", "Bezeichnung", "Format (cm)", "Format (cm)", "Preis netto", ""],
        ["", "", "Länge x Breite", "Stärke mm", "EUR/m²", "EUR/Platte"],
        ["P1", "Birke Multiplex", "250 x 125", 12, 26.4, 82.5],
        ["P2", "Birke Multiplex", "250 x 125", 18, 36.9, ""],
    ]
    book = make.xlsx({"Platten": rows}, merged={"Platten": ["C1:D1", "E1:F1"]})
    found = read(book, vat="0", prices="exclude-vat")
    told = [(s.sku, s.thickness_mm, s.length_mm, s.width_mm, s.price_cents) for s in found.sheets]
    assert told == [("P1", 12, 2500, 1250, 8250), ("P2", 18, 2500, 1250, 11531)]  # 3.125 x 36.90


OFFCUT = (
    "an offcut, of which there is one: what you would take goes into the room file, "
    "under [[yard.offcuts]]"
)


# A sheet on a list may be bought as often as one likes, an offcut once.
@pytest.mark.parametrize(
    "heading", ["OFFCUT BIN", "Restbak", "CHUTES (prix à la pièce)", "Scarti di magazzino", "Reste"]
)
def test_what_stands_under_offcuts_is_no_stock_sheet(read, heading):
    head = ["Code", "Description", "Unit", "Price EUR inc VAT"]
    bars = [["B1", "KVH C24 60x120 5 m", "Stk", "30,00"], ["", heading, "", ""]]
    found = read(lines(head, *bars, ["R1", "OSB/3 18 mm 1200 x 600", "Stk", "4,00"]))
    assert cents(found) == {"B1": 3000}
    assert reasons(found) == {4: OFFCUT}


@pytest.mark.parametrize("note", ["Offcuts: ask at the counter", "Platten und Reste"])
def test_a_note_that_only_speaks_of_offcuts_sets_nothing_apart(read, note):
    head = ["Code", "Description", "Unit", "Price EUR inc VAT"]
    found = read(lines(head, ["", note, "", ""], ["R1", "OSB/3 18 mm 1200x600", "pc", "4.00"]))
    assert cents(found) == {"R1": 400}


@pytest.mark.parametrize("word", ["nein", "no", "non", "nee", "Nie"])
def test_what_is_not_available_is_not_sold(read, word):
    head = ["Artikel", "Bezeichnung", "Einheit", "Preis EUR inkl. MwSt", "Verfügbar"]
    rows = [["K1", "KVH C24 60x120 5 m", "Stk", "30,00", "ja"]]
    rows += [["K2", "KVH C24 60x160 5 m", "Stk", "40,00", word]]
    found = read(lines(head, *rows))
    assert cents(found) == {"K1": 3000}
    assert reasons(found) == {3: "out of stock"}


@pytest.mark.parametrize("heading", ["Quincaillerie", "Ferramenta", "Fixings", "Eisenwaren"])
def test_small_parts_without_a_known_name_are_no_timber(read, heading):
    head = ["Code", "Description", "Unit", "Price EUR inc VAT"]
    rows = [["", "Balken KVH C24", "", ""], ["K1", "60x120 5 m", "Stk", "30,00"]]
    rows += [["", heading, "", ""], ["F1", "Bloxo 10x120", "Stk", "1,05"]]
    found = read(lines(head, *rows))
    assert cents(found) == {"K1": 3000}
    assert reasons(found) == {5: "other hardware: not wall material"}
    assert not found.questions


# Packs as they are written: common practice, no source.
@pytest.mark.parametrize(
    ("name", "unit", "pieces"),
    [
        ("Wood screws 5x60", "50 ct", 50),
        ("Wood screws 5x60 bag of 10", "bag", 10),
        ("Tirefond 5x60", "les 100", 100),
        ("Tirefond 5x60", "cent", 100),
        ("Viti 5x60", "cento", 100),
        ("Holzschraube 5x60, Eimer 500 Stk", "Eimer", 500),
    ],
)
def test_what_a_screw_is_sold_by_is_its_pack(read, name, unit, pieces):
    head = ["Code", "Description", "Unit", "Price EUR inc VAT"]
    part = read(lines(head, ["S1", name, unit, "12.50"])).hardware[0]
    assert (part.kind, part.pack_quantity, part.price_cents) == ("screw", pieces, 1250)


def test_a_price_for_a_pack_unit_in_the_title_is_that_of_a_pack(read):
    head = ["Art.-Nr.", "Artikel", "VE", "Preis je VE EUR inkl. MwSt"]
    part = read(lines(head, ["S1", "Holzschraube 5x60", "200 Stk", "11,50"])).hardware[0]
    assert (part.pack_quantity, part.price_cents) == (200, 1150)


# 17.50 and 21 % on top are 21.175, 8.30 and 25 % are 10.375: half a cent up, as of all else.
def test_cents_of_small_parts_and_charges_are_rounded_as_those_of_goods(read):
    head = ["Code", "Description", "Unit", "Price EUR ex VAT"]
    rows = [["T1", "T-nuts M10", "100 pcs", "17.50"], ["C1", "Delivery", "", "17.50"]]
    found = read(lines(head, *rows), vat="21")
    assert [one.price_cents for one in (*found.hardware, *found.charges)] == [2118, 2118]


def test_two_lengths_with_their_unit_are_no_section(read):
    head = ["Product", "Size", "Unit", "Price GBP inc VAT"]
    found = read(lines(head, ["38 x 89 CLS C16", "2.4m / 3.0m", "per metre", "1.98"]))
    told = [(one.width_mm, one.depth_mm, one.length_mm) for one in found.timber]
    assert told == [(38, 89, 2400), (38, 89, 3000)]


def test_a_name_in_the_column_of_codes_is_the_name(read):
    head = ["SKU", "Description", "UOM", "Price USD plus 6.5% sales tax"]
    rows = [
        ["B1", "3/4 in Baltic birch 5x5", "each", "79.00"],
        ["Delivery (flat)", "", "", "65.00"],
    ]
    found = read(lines(head, *rows))
    assert [(one.name, one.kind) for one in found.charges] == [("Delivery (flat)", "delivery")]
    assert "price-list-filled-down" not in {one.code for one in found.findings}


def test_the_name_of_a_yard_says_no_plywoods_wood(read):
    head = ["SKU", "Description", "UOM", "Price USD plus 6.5% sales tax"]
    rows = [["Pine Hollow Lumber Co."], head, ["A1", "3/4 in 4x8 ACX", "each", "62.00"]]
    found = read(lines(*rows))
    assert not found.sheets
    assert "plywood" in {one.key for one in found.questions}


def test_panels_under_their_heading_are_no_lumber(read):
    head = ["SKU", "Description", "UOM", "Price USD plus 6.5% sales tax"]
    rows = [["DIMENSIONAL LUMBER"], ["L1", "2x4 8 ft SPF #2", "each", "3.98"]]
    found = read(lines(head, *rows, ["PANELS"], ["X1", "4x8 8 ft SuperCore", "each", "50.00"]))
    assert [one.sku for one in found.timber] == ["L1"]
    assert reasons(found) == {5: "neither a sheet nor timber nor hardware that we know"}


US_HEAD = ["SKU", "Description", "UOM", "Price USD incl. sales tax"]


# What the title's day would be as a section of 1.2 by 3.1 cm, the row's own 2x4 is not.
@pytest.mark.parametrize("title", ["Lumber prices thru 12/31/2026", "Lumber, stock 38x140"])
def test_a_row_s_own_nominal_size_goes_before_what_a_title_says(read, title):
    rows = [[title], US_HEAD, ["24", "2x4-8' #2 SPF", "PC", "4.12"]]
    found = read(lines(*rows))
    told = [(one.width_mm, one.depth_mm, one.length_mm) for one in found.timber]
    assert told == [(38, 88, 2438)]  # PS 20: 1 1/2 x 3 1/2 in; 8 ft of 304.8 mm


def test_a_day_in_a_title_is_no_section(read):
    rows = [["KVH Bauholz C24, Stand 16/12/2026"], ["Art", "Bezeichnung", "Preis EUR inkl. USt"]]
    found = read(lines(*rows, ["K1", "KVH 5 m Stk", "20,00"]), basis="piece")
    assert not found.timber
    assert reasons(found) == {3: "no section that fits a bar"}


@pytest.mark.parametrize(
    ("name", "length_mm"),
    [("2x4-8' SPF #2", 2438), ("2x4-8 SPF #2", 2438), ('2x4-92.625" SPF #2', 2352)],
)
def test_a_hyphen_before_a_length_with_or_without_its_mark(read, name, length_mm):
    """A stud of 92 5/8 in is 2352.7 mm."""
    doubled = name.replace('"', '""')
    found = read(lines(US_HEAD, ["24", f'"{doubled}"', "PC", "4.12"]))
    assert [one.length_mm for one in found.timber] == [length_mm]


def test_a_price_for_a_length_is_no_length(read):
    head = ["Section (mm)", "Grade", "Length (m)", "£/m", "£/length"]
    rows = [["Prices inc. VAT"], head, ["47 x 100", "C24", "3.6", "", "10.30"]]
    found = read(lines(*rows, ["47 x 150", "C24", "4.8", "4.35", ""]))
    assert [(one.length_mm, one.price_cents) for one in found.timber] == [
        (3600, 1030),
        (4800, 2088),
    ]


# BB/BB, S/BB, BB/CP: face grades of plywood (EN 635, from memory).
@pytest.mark.parametrize("grade", ["BB/BB", "S/BB", "BB/CP"])
def test_a_grade_of_faces_tells_plywood(read, grade):
    head = ["Description", "Thickness", "Sheet size", "EUR each inc VAT"]
    found = read(lines(head, [f"Birch throughout {grade}", "18mm", "1525 x 1525", "64.00"]))
    assert [(one.kind, one.price_cents) for one in found.sheets] == [("birch", 6400)]


@pytest.mark.parametrize(("title", "unit"), [("Stk/Pkg", "Pkg"), ("Stück Packung", "Packung")])
def test_pieces_of_a_pack_stand_under_their_title(read, title, unit):
    head = ["Dimension", "Type", title, f"EUR inkl. MwSt/{unit}"]
    found = read(lines(head, ["6x120", "Tellerkopf", "100", "38,50"]))
    assert [(one.pack_quantity, one.price_cents) for one in found.hardware] == [(100, 3850)]


def test_a_count_beside_a_box_is_what_it_holds(read):
    found = read(lines(US_HEAD, ["S3", "#9 x 3 in wood screw 100ct", "BX", "14.95"]))
    assert [(one.pack_quantity, one.price_cents) for one in found.hardware] == [(100, 1495)]
