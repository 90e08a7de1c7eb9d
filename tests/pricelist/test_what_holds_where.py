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
    rows = [";".join(map(str, row)) for row in (*BARS[:1], ["", "Platten, Preise je m²", ""])]
    rows += [";".join(map(str, PLATES[1])), ";Bauholz;", ";".join(map(str, BARS[1]))]
    found = read("\n".join(rows))
    assert cents(found) == {"P1": 3063}
    assert {one.key for one in found.questions} == {"basis"}


def test_a_note_between_items_is_about_what_follows(read):
    rows = [*BARS, ["", "Kleinteile, Preise je Stück", ""], ["D1", "OSB/3 900x600x18", 7.5]]
    found = read("\n".join(";".join(map(str, row)) for row in rows))
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
