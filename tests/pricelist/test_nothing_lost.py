"""What a row says is used, asked about or told as left out: nothing of it is lost.

The lists are made up; what is right for each is reasoned beside it.
"""

import csv
import json

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.console import run
from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping

HEAD = "Art;Bezeichnung;{};Einheit;Preis EUR inkl. USt\n"
WALL = "8;OSB/3 Platte 2500 x 1250 x 18;;Stk;31,90\n9;KVH Fichte C24 60x80 4 m;;Stk;15,90\n"


@pytest.fixture
def read(tmp_path):
    """Read a list given as text, with answers by key."""

    def reading(text, **answers):
        path = tmp_path / "list.csv"
        path.write_text(text, encoding="utf-8")
        return read_price_list(path, from_mapping(answers, "test"), None)

    return reading


def reasons(reading):
    return {one.row: one.reason for one in reading.left_out}


# A catalogue takes T-nuts and screws from a list, and nothing else that is small (see
# `pricelist/parts.py`): a row that no file gets is left out, not used.
@pytest.mark.parametrize(
    "part", ["Schlossschraube M10 x 120", "Scharnier 100 mm", "Seil 10 mm", "Umlenkrolle 50 mm"]
)
def test_a_part_whose_price_no_catalogue_takes_is_left_out(read, part):
    found = read(HEAD.format("Lager") + WALL + f"1;{part};;Stk;1,10\n")
    assert found.hardware == ()
    assert (found.counts.used, found.counts.left_out) == (2, 1)
    assert "screws and T-nuts" in reasons(found)[4]


# 5.5 x 61 mm is no screw of the shipped catalogue, 5 x 60 is one of its screws.csv.
@pytest.mark.parametrize(("size", "is_taken"), [("5,5x61", False), ("5x60", True)])
def test_a_screw_without_a_model_is_told(tmp_path, capsys, size, is_taken):
    path = tmp_path / "list.csv"
    screw = f"7;Holzschrauben {size} (200 Stk);;Paket;13,99\n"
    path.write_text(HEAD.format("Lager") + WALL + screw, encoding="utf-8")
    yard = tmp_path / "yard"
    assert run(["prices", str(path), "--out", str(yard), "--forget"]) == 0
    assert ("row 4" in capsys.readouterr().err) != is_taken
    assert run(["prices", str(path), "--out", str(yard), "--forget", "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)["unused"]) == 1 - is_taken
    screws = yard / "screws.csv"
    rows = csv.DictReader(screws.read_text().splitlines()) if screws.exists() else ()
    assert any(row["sku"] == "7" for row in rows) == is_taken


def test_a_currency_that_the_list_gainsays_is_told(read):
    goods = "Product;Price each inc VAT\nC24 timber 47x100 4.8m;£12.40\n"
    told = [one for one in read(goods, currency="EUR").findings if one.severity == "warning"]
    assert [one.code for one in told] == ["price-list-currency"]
    assert "GBP" in told[0].message
    assert "price-list-currency" not in {one.code for one in read(goods, currency="GBP").findings}


# A bar with its length and no price has three words and a size, as a header with a size for its
# price may have: what stands below belongs to the list's own header.
@pytest.mark.parametrize(
    "row", ["Timber 47x75;3.6m;POA", "Timber;3.6m;POA", "Timber 47x75;3.6m;dry"]
)
def test_a_bar_without_a_price_is_no_header_of_what_follows(read, row):
    goods = f"Product;Size;Price GBP each inc VAT\n{row}\nC24 timber 47x100;4.8m;12.40\n"
    found = read(goods)
    assert [(one.row, one.price_cents) for one in found.timber] == [(3, 1240)]
    assert found.header_rows == (("", 1, 1),)
    assert 2 in reasons(found)


# A head is told of screws (ISO 1891: countersunk, hexagon head); M and a diameter of a thread for a
# nut (ISO 261): both common knowledge, from memory.
@pytest.mark.parametrize(
    "name", ["Senkkopf 5x60", "countersunk 5x60", "Sechskantkopf 5x60", "tête fraisée 5x60"]
)
def test_a_screw_named_by_its_head_alone_is_one(read, name):
    found = read(HEAD.format("Lager") + WALL + f"1;{name} (200 Stk);;Paket;13,90\n").hardware
    assert [(one.kind, one.diameter_mm, one.length_mm) for one in found] == [("screw", 5, 60)]


@pytest.mark.parametrize("name", ["Sechskantkopf M10x120", "Schlossschraube Senkkopf M8x60"])
def test_a_thread_for_a_nut_makes_a_bolt_of_it(read, name):
    found = read(HEAD.format("Lager") + WALL + f"1;{name};;Stk;1,10\n")
    assert found.hardware == ()
    assert reasons(found)[4].startswith("bolt: ")


@pytest.mark.parametrize("name", ["Crash pad 200x100x30 cm", "Weichbodenmatte 2000 x 1000 x 300"])
def test_where_a_pad_s_price_goes_is_told(read, name):
    found = read(HEAD.format("Lager") + WALL + f"1;{name};;Stk;289,00\n")
    assert "hardware.csv" in reasons(found)[4]
    assert "pad" in {one.kind for one in read_catalog().hardware}


# A screw of 5 x 60 mm costs some cents, common practice, no source: 45.00 is the price of a pack.
@pytest.mark.parametrize(
    ("row", "is_told"),
    [
        ("Holzschraube 5x60;;Stk;45,00", True),
        ("Holzschraube 5x60;;Stk;8,90", True),
        ("Holzschraube 5x60;;Stk;0,15", False),
        ("Holzschrauben 5x60 (200 Stk);;Paket;13,90", False),
        ("Holzschrauben 5x60 (200 Stk);;Paket;0,13", True),
        ("Holzschraube 8x200;;Stk;0,90", False),
        ("Einschlagmutter M10;;Stk;0,45", False),
        ("Einschlagmutter M10;;Stk;20,90", True),
    ],
)
def test_a_small_part_s_price_that_can_t_be_is_told(read, row, is_told):
    found = read(HEAD.format("Lager") + WALL + f"1;{row}\n")
    told = [one for one in found.findings if one.code == "price-list-outlier"]
    assert [one.line for one in told] == [4] * is_told
    assert len(found.hardware) == 1


def test_the_pieces_of_a_pack_settle_a_price_that_can_t_be(read):
    text = HEAD.format("Lager") + WALL + "1;Holzschraube 5x60;;Stk;45,00\n"
    told = read(text).findings
    step = next(one.next_step for one in told if one.code == "price-list-outlier")
    assert "--pack-pieces" in step
    settled = read(text, pack_pieces="500")
    assert "price-list-outlier" not in {one.code for one in settled.findings}
    assert (settled.hardware[0].pack_quantity, settled.hardware[0].price_cents) == (500, 4500)


# 1.05 is a usual price for one coach screw of 10 x 120 mm (common practice, no source): what packs
# hold elsewhere in the list is nothing to it.
def test_the_pieces_of_packs_are_not_those_of_what_is_sold_singly(read):
    text = HEAD.format("Lager") + WALL
    text += "1;Holzschraube 10x120;;Stk;1,05\n2;Holzschraube 5x60;;Pack;12,00\n"
    found = read(text, pack_pieces="200").hardware
    assert [(one.pack_quantity, one.price_cents) for one in found] == [(1, 105), (200, 1200)]


# 200 screws of 5 x 60 mm for 7 cents there are not, one for 7 cents there is (common practice, no
# source): 200 x 0.0695 are 13.90.
@pytest.mark.parametrize(
    ("price", "cents", "is_told"), [("0,0695", 1390, True), ("13,90", 1390, False)]
)
def test_a_price_too_low_for_a_pack_is_that_of_one_piece(read, price, cents, is_told):
    head = "Art;Bezeichnung;VPE;Einheit;Preis EUR inkl. USt\n"
    found = read(head + f"1;Holzschraube 5x60;200;Stk;{price}\n")
    assert [(one.pack_quantity, one.price_cents) for one in found.hardware] == [(200, cents)]
    assert ("price-list-packs" in {one.code for one in found.findings}) == is_told
    assert "price-list-outlier" not in {one.code for one in found.findings}


def test_a_small_part_is_told_with_its_size(tmp_path, capsys):
    path = tmp_path / "list.csv"
    rows = "1;Holzschraube 5x60;;Pck. à 200;12,00\n2;Holzschraube 10x120;;Stk;1,05\n"
    path.write_text(HEAD.format("Lager") + WALL + rows, encoding="utf-8")
    assert run(["prices", str(path), "--forget"]) == 0
    said = capsys.readouterr().out
    assert "screw 5 x 60 mm, pack of 200" in said
    assert "screw 10 x 120 mm, one" in said


# N+F: tongue and groove (Nut und Feder). Its mark means the same whatever the column is called.
@pytest.mark.parametrize("title", ["Abmessung (mm)", "Länge (mm)", "Stärke (mm)", "Maße"])
def test_tongue_and_groove_counts_in_any_column(read, title):
    text = HEAD.format(title) + "1;OSB/3 Platte;2500 x 675 x 18 N+F;Stk;19,90\n"
    found = read(text + WALL)
    assert reasons(found)[2].startswith("tongue and groove")
    trimmed = read(text + WALL, tongue_groove="15").sheets[0]
    assert (trimmed.length_mm, trimmed.width_mm) == (2500 - 30, 675 - 30)


def test_a_plain_sheet_in_a_column_of_lengths_stays_plain(read):
    found = read(HEAD.format("Länge (mm)") + "1;OSB/3 Platte;2500 x 675 x 18;Stk;19,90\n" + WALL)
    assert (found.sheets[0].length_mm, found.sheets[0].width_mm) == (2500, 675)


# A bar's only number under a title with a unit is in that unit, as with the unit behind it.
@pytest.mark.parametrize(
    ("title", "cell", "length_mm"),
    [
        ("Abmessung (mm)", "4000", 4000),
        ("Abmessung (mm)", "4000 mm", 4000),
        ("Abmessung (cm)", "450", 4500),
        ("Abmessung (m)", "4,5", 4500),
        ("Abmessung (mm)", "1200", 1200),
        ("Abmessung", "4000", 4000),
        ("Abmessung", "4,5", 4500),
        ("Abmessung", "450", 4500),
    ],
)
def test_a_lone_size_beside_a_section_in_the_name_is_the_length(read, title, cell, length_mm):
    found = read(HEAD.format(title) + f"1;KVH Fichte C24 60x80;{cell};Stk;15,90\n" + WALL)
    assert not found.questions
    first = found.timber[0]
    assert (first.width_mm, first.depth_mm, first.length_mm) == (60, 80, length_mm)


def test_a_lone_number_that_can_be_no_length_is_asked_about(read):
    found = read(HEAD.format("Abmessung (mm)") + "1;KVH Fichte C24 60x80;80;Stk;15,90\n")
    assert {one.key for one in found.questions} == {"lengths"}


# 300 may be the depth of a beam as well as 3 m in centimetres.
def test_a_lone_number_that_may_be_a_depth_is_asked_about(read):
    found = read(HEAD.format("Abmessung") + "1;KVH Fichte C24 60x80;300;Stk;15,90\n")
    assert {one.key for one in found.questions} == {"lengths"}


# 1200 is 1.2 m in mm and 12 m in cm, and both are sold: what the sections of the list are in
# counts and is told; where they are in several units it is asked.
@pytest.mark.parametrize("title", ["Länge", "Abmessung"])
def test_a_length_in_two_units_follows_the_sections_or_is_asked_about(read, title):
    row = "1;KVH Fichte C24 60x80;1200;Stk;4,90\n"
    found = read(HEAD.format(title) + row + WALL)
    assert found.timber[0].length_mm == 1200
    assert "price-list-size-unit" in {one.code for one in found.findings}
    mixed = HEAD.format(title) + row + "2;KVH Fichte C24 6x8;4000;Stk;15,90\n" + WALL
    found = read(mixed)
    assert {one.key for one in found.questions} == {"size_unit"}
    assert reasons(found) == {2: "the length can be read in two units"}
    assert read(mixed, size_unit="cm").timber[0].length_mm == 12000


# Numbers that stand together are in one unit: 1200 beside 3000 is no 12 m.
@pytest.mark.parametrize(
    ("cell", "lengths_mm"),
    [
        ("1200/2000/3000", (1200, 2000, 3000)),
        ("1.200 / 2.400", (1200, 2400)),
        ("120/300", (1200, 3000)),
        ("3/4/5", (3000, 4000, 5000)),
        ("1200/1500", (1200, 1500)),
        ("3,0/4,0/1200", (1200, 3000, 4000)),
        ("ca. 1200", (1200,)),
    ],
)
def test_lengths_in_one_cell_are_in_one_unit(read, cell, lengths_mm):
    row = f"1;KVH Fichte C24 60x80;{cell};lfm;4,00\n"
    found = read(HEAD.format("Länge") + row + WALL).timber
    assert tuple(one.length_mm for one in found if one.row == 2) == lengths_mm


@pytest.mark.parametrize("cell", ["3,0/4,0/1200", "ca. 1200", "1200 - 1500"])
def test_a_length_in_two_units_is_asked_about_in_any_company(read, cell):
    row = f"1;KVH Fichte C24 60x80;{cell};lfm;4,00\n"
    mixed = HEAD.format("Länge") + row + "2;KVH Fichte C24 6x8;4000;Stk;15,90\n" + WALL
    found = read(mixed, length_step="0.3")
    assert {one.key for one in found.questions} == {"size_unit"}
    assert reasons(found) == {2: "the length can be read in two units"}


def test_a_range_is_in_one_unit_too(read):
    row = "1;KVH Fichte C24 60x80;1200 bis 3000;lfm;4,00\n"
    found = read(HEAD.format("Länge") + row + WALL, length_step="0.6").timber
    assert [one.length_mm for one in found if one.row == 2] == [1200, 1800, 2400, 3000]


# 4 m to 5 m in steps of 50 cm: the step's own unit, else that of the column.
@pytest.mark.parametrize(
    ("title", "cell"),
    [
        ("Länge", "4 a 5 m de 50 en 50 cm"),
        ("Länge (cm)", "400 - 500 (per 50)"),
        ("Länge (mm)", "4000-5000, je 500"),
    ],
)
def test_a_step_behind_a_range_is_read(read, title, cell):
    found = read(HEAD.format(title) + f"1;KVH Fichte C24 60x80;{cell};lfm;4,00\n" + WALL)
    assert [one.length_mm for one in found.timber if one.row == 2] == [4000, 4500, 5000]
    assert not found.questions


def test_pieces_of_a_bundle_are_read_beside_its_length(read):
    row = "1;Latte C24 24x48;Bund 10 Stk à 4 m;Bund;28,50\n"
    found = read(HEAD.format("Länge (mm)") + row + WALL)
    assert [(one.length_mm, one.price_cents) for one in found.timber if one.row == 2] == [
        (4000, 285)
    ]


# 30 in stock of a row with two lengths are not 30 of each.
def test_a_stock_of_several_lengths_limits_none(read):
    head = "Alle Preise in EUR inkl. 19 % USt\nBezeichnung;3,00 m;4,00 m;Bestand\n"
    found = read(
        head + "KVH C24 60x120;14,40;19,20;30\nKVH C24 60x160;24,40;29,20;0\n", basis="piece"
    )
    assert [(one.length_mm, one.limit) for one in found.timber] == [(3000, None), (4000, None)]
    assert reasons(found) == {4: "out of stock"}


# What is told of VAT is what the list says, whatever else it leaves open.
@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("alle Preise inkl. 20 % USt.", "printed prices hold VAT"),
        ("alle Preise zzgl. 20 % USt.", "printed prices are without VAT; 20 % was added"),
        ("", "see the questions"),
    ],
)
def test_vat_is_told_though_another_question_is_open(tmp_path, capsys, note, told):
    path = tmp_path / "list.csv"
    rows = "1;KVH Fichte C24 60 x 80 x 4000;15,90\n2;OSB/3 Platte 2500 x 1250 x 18;31,90\n"
    path.write_text(f"{note};;\nArt;Bezeichnung;Preis EUR\n{rows}", encoding="utf-8")
    assert run(["prices", str(path)]) == 3
    seen = capsys.readouterr()
    assert "--basis" in seen.err
    assert ("--prices-include-vat" in seen.err) == (note == "")
    line = next(one for one in seen.out.splitlines() if one.strip().startswith("VAT"))
    assert line.split(maxsplit=1)[1].strip() == told
