"""A list that sells sheets alone: what is missing is told, and taken from another catalogue."""

import json
import shutil

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.console import run
from steepwright.pricelist.fill import KINDS
from steepwright.resources import catalogs_dir

SHEETS = "Réf.;Désignation;Prix TTC €/pièce\nT1;Contreplaqué bouleau 18 mm 2500x1250;120,00\n"
NUTS = "Réf.;Désignation;Prix TTC €/pièce\nE1;Ecrou à griffes M10, lot de 100 pces;19,00\n"
TIMBER = "Art.;Bezeichnung;Preis EUR brutto/Stück\nT1;KVH C24 60x120 5 m;18,00\n"


@pytest.fixture
def lists(tmp_path):
    for name, text in (
        ("sheets", SHEETS),
        ("timber", TIMBER),
        ("parts", SHEETS + NUTS.split("\n", 1)[1]),
    ):
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    return tmp_path


def test_the_command_says_what_is_missing_and_what_to_do(lists, capsys):
    yard = lists / "yard"
    assert run(["prices", str(lists / "sheets.csv"), "--out", str(yard)]) == 0
    told = capsys.readouterr()
    assert "has no timber, so search can't use it by itself" in told.err
    assert "--fill-from DIR" in told.out
    assert run(["prices", str(lists / "sheets.csv"), "--out", str(yard), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["missing"] == ["timber"]


def test_a_list_that_numbers_a_sheet_like_an_offcut_of_the_room_file_makes_a_catalogue(lists):
    yard = lists / "yard"
    (lists / "sheets.csv").write_text(SHEETS.replace("T1;", "offcut-1;"), encoding="utf-8")
    assert run(["prices", str(lists / "sheets.csv"), "--out", str(yard)]) == 0
    assert [row.sku for row in read_catalog(yard, whole=False).sheets] == ["+offcut-1"]


def test_a_search_of_such_a_catalogue_names_the_kind_that_is_missing(lists, capsys):
    yard = lists / "yard"
    assert run(["prices", str(lists / "sheets.csv"), "--out", str(yard)]) == 0
    room = catalogs_dir() / "example" / "room.toml"
    assert run(["search", str(room), "--catalog", str(yard)]) == 3
    assert "no wall is made without timber" in capsys.readouterr().err


def test_missing_kinds_come_from_the_named_catalogue_with_its_yards_name(lists, capsys):
    other, yard = lists / "other", lists / "yard"
    args = ["prices", str(lists / "timber.csv"), "--out", str(other), "--trip", "12"]
    assert run([*args, "--yard", "Bars"]) == 0
    args = ["prices", str(lists / "sheets.csv"), "--out", str(yard), "--yard", "Boards"]
    assert run([*args, "--fill-from", str(other)]) == 0
    made, source = read_catalog(yard), read_catalog(other, whole=False)
    assert [(row.sku, row.yard) for row in made.sheets] == [("T1", "Boards")]
    assert [(row.sku, row.yard) for row in made.timber] == [("+T1", "Bars")]
    assert made.timber[0].price_cents == source.timber[0].price_cents == 1800
    assert made.trips == (("Bars", 1200),)
    assert "timber" in made.note
    assert str(other) in made.note
    capsys.readouterr()


def test_the_shipped_catalogue_fills_every_gap_and_says_that_it_is_invented(lists, capsys):
    yard = lists / "yard"
    args = ["prices", str(lists / "sheets.csv"), "--out", str(yard), "--fill-from", "shipped"]
    assert run(args) == 0
    made, shipped = read_catalog(yard), read_catalog()
    for kind in KINDS[1:]:
        assert getattr(made, kind) == getattr(shipped, kind)
    assert {row.yard for row in made.timber} == {shipped.name}
    assert "invented" in made.note
    capsys.readouterr()


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [('"EUR"', '"PLN"', "in PLN"), ('"included"', '"excluded"', "with VAT excluded")],
)
def test_money_of_another_kind_is_never_mixed_in(lists, old, new, words, capsys):
    other, yard = lists / "other", lists / "yard"
    shutil.copytree(catalogs_dir() / "yard", other)
    heading = (other / "yard.toml").read_text(encoding="utf-8")
    assert heading.count(old) == 1
    (other / "yard.toml").write_text(heading.replace(old, new), encoding="utf-8")
    args = ["prices", str(lists / "sheets.csv"), "--out", str(yard), "--fill-from", str(other)]
    assert run(args) == 3
    assert words in capsys.readouterr().err
    assert not yard.exists()


def test_shipped_parts_beside_a_lists_own_nuts_are_told_with_their_currency(lists, capsys):
    yard = lists / "yard"
    assert run(["prices", str(lists / "parts.csv"), "--out", str(yard)]) == 0
    assert "that the lists don't sell are those of" in read_catalog(yard, whole=False).note
    args = ["prices", str(lists / "parts.csv"), "--out", str(yard), "--currency", "PLN"]
    assert run(args) == 0
    assert "count one to one as PLN" in read_catalog(yard, whole=False).note
    capsys.readouterr()


def test_a_folder_that_is_no_catalogue_fills_nothing(lists, capsys):
    args = ["prices", str(lists / "sheets.csv"), "--out", str(lists / "yard")]
    assert run([*args, "--fill-from", str(lists / "nowhere")]) == 3
    assert "there is no such folder" in capsys.readouterr().err
    assert not (lists / "yard").exists()


US_SHEETS = "Item,Description,Price USD each\nT1,Birch plywood 3/4 in 4x8,90.00\n"


def test_a_list_and_a_filler_both_without_tax_go_together_and_say_so(tmp_path, capsys):
    path, yard = tmp_path / "us.csv", tmp_path / "yard"
    path.write_text(US_SHEETS, encoding="utf-8")
    args = ["prices", str(path), "--out", str(yard), "--fill-from"]
    na, eu = str(catalogs_dir() / "yard-na"), str(catalogs_dir() / "yard")
    assert run([*args, na, "--forget"]) == 3
    asked = capsys.readouterr().err
    assert "Do the prices hold sales tax?" in asked
    assert "20 %" not in asked
    assert "--vat 0 --prices-exclude-vat" in asked
    assert run([*args, na, "--forget", "--prices-include-vat"]) == 3
    assert "read it with --vat 0 --prices-exclude-vat" in capsys.readouterr().err
    assert run([*args, na, "--forget", "--vat", "0", "--prices-exclude-vat"]) == 0
    made = read_catalog(yard)
    assert made.vat == "excluded"
    assert made.sheets[0].price_cents == 9000
    assert made.timber
    assert "catalog-without-vat" in {one.code for one in made.findings}
    assert run([*args, eu, "--forget", "--vat", "0", "--prices-exclude-vat"]) == 3
    capsys.readouterr()


def test_a_list_without_tax_on_which_tax_comes_is_one_with_tax(lists, capsys):
    path, yard = lists / "net.csv", lists / "yard"
    path.write_text(SHEETS.replace("TTC", "HT"), encoding="utf-8")
    args = ["prices", str(path), "--out", str(yard), "--forget", "--vat"]
    other = ["--fill-from", "shipped"]
    assert run([*args, "20", *other]) == 0
    assert read_catalog(yard).vat == "included"
    assert run([*args, "0", *other]) == 3
    assert "--vat RATE --prices-exclude-vat" in capsys.readouterr().err


US = """Item,Description,Price each (USD)
1,2x4x8 SPF #2,4.28
2,"Baltic birch plywood, 18 mm x 5 ft x 5 ft",62.00
3,Wood screws #8 x 1-5/8 in box of 100,9.98
"""


def us_yard(lists, *more):
    path, yard = lists / "us.csv", lists / "yard"
    path.write_text(US, encoding="utf-8")
    taxes = ("--vat", "0", "--prices-exclude-vat", "--nominal", "us")
    assert run(["prices", str(path), *taxes, *more, "--out", str(yard)]) == 0
    return yard


def test_what_a_list_in_dollars_lacks_comes_from_the_shipped_yard_in_dollars(lists, capsys):
    """Its screws too have a make to be like: #8 x 1-5/8 in is no metric size."""
    made = read_catalog(us_yard(lists))
    na, example = read_catalog(catalogs_dir() / "yard-na"), read_catalog()
    assert (na.currency, example.currency) == ("USD", "EUR")
    assert made.mounts == na.mounts
    assert {row.yard for row in made.hardware} == {na.name}
    own = next(row for row in made.screws if row.sku == "3")
    like = next(row for row in na.screws if row.length_mm == own.length_mm)
    assert (own.diameter_mm, own.root_mm, own.price_cents) == (like.diameter_mm, like.root_mm, 998)
    told = capsys.readouterr()
    assert "one to one" not in told.out + told.err + made.note
    assert "catalog-currency" not in {finding.code for finding in made.findings}


def test_filling_a_list_in_dollars_from_the_shipped_one_takes_that_in_dollars(lists, capsys):
    path = lists / "sheets-us.csv"
    rows = [line for line in US.splitlines(keepends=True) if not line.startswith("1,")]
    path.write_text("".join(rows), encoding="utf-8")
    args = ["prices", str(path), "--vat", "0", "--prices-exclude-vat", "--fill-from", "shipped"]
    assert run([*args, "--out", str(lists / "yard")]) == 0
    na = read_catalog(catalogs_dir() / "yard-na")
    assert read_catalog(lists / "yard").timber == na.timber


def test_a_currency_that_no_shipped_yard_has_is_told_beside_the_example(lists):
    yard = us_yard(lists)
    heading = (yard / "yard.toml").read_text(encoding="utf-8").replace('"USD"', '"AUD"')
    (yard / "yard.toml").write_text(heading, encoding="utf-8")
    made = read_catalog(yard)
    assert made.mounts == read_catalog().mounts
    told = [one.message for one in made.findings if one.code == "catalog-currency"]
    assert any("in EUR and count one to one as AUD" in message for message in told)
