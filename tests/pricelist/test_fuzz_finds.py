"""Inputs that coverage-guided fuzzing (tests/fuzz) found to break the reader."""

from __future__ import annotations

from pathlib import Path

from steepwright.pricelist import read_price_list


def test_a_price_of_thirty_digits_is_told_as_wrong(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    rows = f"1;OSB/3 22 mm 2500x1250;{'9' * 30},25\n2;OSB/3 18 mm 2500x1250;25,00\n"
    path.write_text("Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n" + rows, encoding="utf-8")
    reading = read_price_list(path)
    assert [sheet.thickness_mm for sheet in reading.sheets] == [18]


def test_a_cell_of_five_thousand_digits_is_no_price(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(f"Bezeichnung;Preis\nOSB/3 22 mm 2500x1250;{'9' * 5000}\n", encoding="utf-8")
    assert not read_price_list(path).sheets
