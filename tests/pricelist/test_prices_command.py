"""`steepwright prices` from argument to exit code."""

import json
import tomllib

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.console import run

LIST = """\
Muster Holz;;;
Art.-Nr.;Bezeichnung;Einheit;Preis EUR
1;Siebdruckplatte Birke 18 mm 2500x1250;Stk;80,00
2;OSB/3 22 mm 2500x1250;m²;8,00
3;KVH C24 gehobelt 60x120 mm 3/4/5 m;lfm;3,00
4;Holzlasur 2,5 l;Stk;24,90
5;OSB/3 18 mm 2500x1250;m²;auf Anfrage
"""
VAT = ["--vat", "25", "--prices-exclude-vat"]


@pytest.fixture
def price_list(tmp_path):
    path = tmp_path / "liste.csv"
    path.write_text(LIST, encoding="utf-8")
    return path


def names(folder):
    return sorted(item.name for item in folder.iterdir())


def test_an_open_question_writes_nothing_and_names_its_flags(price_list, tmp_path, capsys):
    assert run(["prices", str(price_list), "--out", str(tmp_path / "yard")]) == 3
    told = capsys.readouterr()
    assert "--prices-include-vat" in told.err
    assert "--prices-exclude-vat" in told.err
    assert names(tmp_path) == ["liste.csv"]


def test_answers_write_a_catalogue_and_are_kept_for_the_next_list(price_list, tmp_path, capsys):
    yard = tmp_path / "yard"
    assert run(["prices", str(price_list), "--out", str(yard), *VAT]) == 0
    told = capsys.readouterr().out
    assert "rows read" in told
    assert "price on request: auf Anfrage" in told
    assert "per m3" in told
    catalog = read_catalog(yard)
    assert [s.price_cents for s in catalog.sheets] == [10000, 3125]
    assert [t.price_cents for t in catalog.timber] == [1125, 1500, 1875]
    assert {s.yard for s in catalog.sheets} == {"liste"}
    assert "liste.csv" in catalog.note
    assert "face grain" in catalog.note
    next_month = tmp_path / "liste-neu.csv"
    next_month.write_text(LIST.replace("80,00", "84,00"), encoding="utf-8")
    assert run(["prices", str(next_month), "--out", str(yard)]) == 0
    assert read_catalog(yard).sheets[0].price_cents == 10500


def test_a_kept_answer_is_overruled_by_a_flag(price_list, tmp_path, capsys):
    yard = tmp_path / "yard"
    assert run(["prices", str(price_list), *VAT]) == 0
    assert run(["prices", str(price_list), "--out", str(yard), "--vat", "50"]) == 0
    assert read_catalog(yard).sheets[0].price_cents == 12000
    capsys.readouterr()


def test_a_misspelt_assumption_is_not_agreed_to(price_list, capsys):
    assert run(["prices", str(price_list), *VAT, "--accept", "price-list-strenght"]) == 2
    assert "did you mean price-list-strength?" in capsys.readouterr().err


def test_what_is_only_read_says_how_it_is_written(price_list, capsys):
    assert run(["prices", str(price_list), *VAT, "--forget"]) == 0
    assert capsys.readouterr().out.splitlines()[-1].startswith("Next: the same command with --out")


def test_forget_keeps_no_answers(price_list, tmp_path, capsys):
    assert run(["prices", str(price_list), "--forget", *VAT]) == 0
    assert names(tmp_path) == ["liste.csv"]
    capsys.readouterr()


def test_forget_uses_no_kept_answers_of_this_list_or_another(price_list, tmp_path, capsys):
    assert run(["prices", str(price_list), *VAT]) == 0
    other = tmp_path / "other.csv"
    other.write_bytes(price_list.read_bytes())
    assert run(["prices", str(other), "--json"]) == 0
    capsys.readouterr()
    for path in (price_list, other):
        assert run(["prices", str(path), "--forget"]) == 3
        assert "kept" not in capsys.readouterr().out


def test_strict_refuses_until_every_assumption_is_settled(price_list, tmp_path, capsys):
    yard = tmp_path / "yard"
    args = ["prices", str(price_list), "--out", str(yard), "--strict", *VAT]
    assert run(args) == 3
    assert not yard.exists()
    settled = ["--face-grain", "long", "--date", "2026-03-01", "--accept", "price-list-strength"]
    assert run([*args, *settled]) == 0
    assert yard.exists()
    capsys.readouterr()


def test_json_is_one_document_in_either_case(price_list, tmp_path, capsys):
    assert run(["prices", str(price_list), "--json"]) == 3
    document = json.loads(capsys.readouterr().out)
    assert document["format"] == "steepwright prices 1"
    assert document["lists"][0]["questions"][0]["key"] == "prices"
    assert run(["prices", str(price_list), "--json", *VAT]) == 0
    document = json.loads(capsys.readouterr().out)
    told = document["lists"][0]
    assert told["rows"] == {"read": 7, "used": 3, "left_out": 2, "headings": 2, "blank": 0}
    assert {one["row"]: one["reason"] for one in told["left_out"]} == {
        6: "paint: not wall material",
        7: "price on request: auf Anfrage",
    }


def test_two_yards_are_combined_and_keep_their_names(price_list, tmp_path, capsys):
    other = tmp_path / "tarif.csv"
    other.write_text(
        "Réf.;Désignation;Prix TTC €/pièce\n1;Contreplaqué bouleau 18 mm 2500x1250;120,00\n",
        encoding="utf-8",
    )
    yard = tmp_path / "yard"
    args = ["prices", str(price_list), str(other), "--out", str(yard), *VAT]
    names_and_trips = ["--yard", "North", "--yard", "South", "--trip", "15", "--trip", "49.50"]
    assert run([*args, *names_and_trips]) == 0
    catalog = read_catalog(yard)
    assert {s.yard for s in catalog.sheets} == {"North", "South"}
    assert len({s.sku for s in catalog.sheets}) == len(catalog.sheets)
    assert catalog.trips == (("North", 1500), ("South", 4950))
    lists = tomllib.loads((yard / "lists.toml").read_text(encoding="utf-8"))["list"]
    assert [(one["yard"], one["file"], one["trip_price"]) for one in lists] == [
        ("North", "liste.csv", "15.00"),
        ("South", "tarif.csv", "49.50"),
    ]
    assert any("face grain" in line for line in lists[1]["assumptions"])
    capsys.readouterr()


def test_a_trip_that_costs_nothing_or_sells_nothing_is_not_in_the_catalogue(
    price_list, tmp_path, capsys
):
    other = tmp_path / "tarif.csv"
    other.write_text(
        "Réf.;Désignation;Prix TTC €/pièce\n1;Lasure bois 2,5 l;24,90\n", encoding="utf-8"
    )
    yard = tmp_path / "yard"
    args = ["prices", str(price_list), str(other), "--out", str(yard), *VAT]
    assert run([*args, "--yard", "North", "--yard", "South", "--trip", "0", "--trip", "9"]) == 0
    assert read_catalog(yard).trips == ()
    assert run([*args, "--yard", "North", "--yard", "South", "--trip", "7.50"]) == 0
    assert read_catalog(yard).trips == (("North", 750),)
    capsys.readouterr()


def test_lists_in_two_currencies_are_not_combined(price_list, tmp_path, capsys):
    other = tmp_path / "other.csv"
    other.write_text("Item,Price inc VAT GBP each\nOSB/3 18mm 2500x1250,20.00\n", encoding="utf-8")
    yard = tmp_path / "yard"
    args = ["prices", str(price_list), str(other), "--out", str(yard), *VAT]
    assert run([*args, "--yard", "a", "--yard", "b"]) == 3
    assert "currencies" in capsys.readouterr().err
    assert not yard.exists()


@pytest.mark.parametrize(
    "flags",
    [
        ["--vat", "abc"],
        ["--osb", "7"],
        ["--prices-include-vat", "--prices-exclude-vat"],
        ["--yard", "a", "--yard", "b"],
        ["--trip", "x"],
        ["--face-grain", "up"],
    ],
)
def test_answers_that_make_no_sense_are_a_usage_error(price_list, flags, capsys):
    assert run(["prices", str(price_list), *flags]) == 2
    capsys.readouterr()


def test_the_same_list_gives_the_same_bytes(price_list, tmp_path, capsys):
    first, second = tmp_path / "a", tmp_path / "b"
    for folder in (first, second):
        assert run(["prices", str(price_list), "--out", str(folder), *VAT]) == 0
    for name in names(first):
        assert (first / name).read_bytes() == (second / name).read_bytes()
    capsys.readouterr()


def on_a_terminal(monkeypatch, *answers):
    """Have prompts answered in turn; return the list that their texts will be put into."""
    told, asked = iter(answers), []

    def prompt(text, **_):
        asked.append(text)
        return next(told)

    monkeypatch.setattr("click.prompt", prompt)
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    return asked


def test_a_terminal_is_asked_and_its_answers_are_kept(price_list, tmp_path, monkeypatch, capsys):
    asked = on_a_terminal(monkeypatch, "exclude-vat", "25")
    yard = tmp_path / "yard"
    assert run(["prices", str(price_list), "--out", str(yard)]) == 0
    assert len(asked) == 2
    assert read_catalog(yard).sheets[0].price_cents == 10000
    kept = (tmp_path / "liste.csv.answers.toml").read_text(encoding="utf-8")
    assert 'vat = "25"' in kept
    capsys.readouterr()


def test_a_wrong_answer_is_asked_again_with_an_example(tmp_path, monkeypatch, capsys):
    """1 ft is no length of a bar; nothing that was answered before is lost."""
    path = tmp_path / "list.csv"
    rows = "2x4 SPF #2,LF,0.80\n18mm 4x8 Baltic birch,each,80.00\n"
    path.write_text("Description,Unit,Price USD incl. sales tax\n" + rows, encoding="utf-8")
    asked = on_a_terminal(monkeypatch, "eight", "1", "8,10")
    yard = tmp_path / "yard"
    assert run(["prices", str(path), "--out", str(yard)]) == 0
    assert len(asked) == 3
    assert asked[0].endswith("Such as 8,10,12 (in ft)")
    assert capsys.readouterr().err.count("That can't be") == 2
    assert {bar.length_mm for bar in read_catalog(yard, whole=False).timber} == {2438, 3048}
