"""What a trip to each yard costs: read, refused cell by cell, and written back."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from steepwright.catalog import read_catalog, write_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.resources import shipped_catalog_dir

YARD = read_catalog().sheets[0].yard


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped_catalog_dir(), tmp_path / "yard"))


def test_a_catalogue_without_the_file_has_no_trips(folder: Path) -> None:
    assert read_catalog(folder).trips == ()


def test_a_trip_is_read_in_cents(folder: Path) -> None:
    (folder / "trips.csv").write_text(f"yard,price\n{YARD},12.50\n", encoding="utf-8")
    catalog = read_catalog(folder)
    assert catalog.trips == ((YARD, 1250),)


@pytest.mark.parametrize(
    ("text", "code", "line", "key"),
    [
        (f"yard,price\n{YARD},12 EUR\n", "catalog-bad-number", 2, "price"),
        (f'yard,price\n{YARD},"12,50"\n', "catalog-decimal-comma", 2, "price"),
        (f"yard,price\n{YARD},-1\n", "catalog-price", 2, "price"),
        (f"yard,price\n{YARD},\n", "catalog-blank", 2, "price"),
        (f"yard,price\n{YARD},1.005\n", "catalog-price", 2, "price"),
        (f"yard,price\n{YARD},100000.01\n", "catalog-out-of-range", 2, "price"),
        ("yard,price\n,5\n", "catalog-blank", 2, "yard"),
        (f"yard,price\n{YARD}x,5\n", "catalog-unknown-yard", 2, "yard"),
        (f"yard,price\n{YARD},5\n{YARD},6\n", "catalog-double-trip", 3, "yard"),
        (f"yard,prize\n{YARD},5\n", "catalog-missing-column", 1, "price"),
        ("yard,price\n", "catalog-empty-file", 0, ""),
    ],
)
def test_what_is_wrong_is_told_with_its_place(
    folder: Path, text: str, code: str, line: int, key: str
) -> None:
    (folder / "trips.csv").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_catalog(folder)
    (found,) = [f for f in caught.value.findings if isinstance(f, Finding)]
    assert (found.code, found.line, found.key) == (code, line, key)
    assert found.file == str(folder / "trips.csv")


def test_an_unknown_yard_is_told_the_nearest_one(folder: Path) -> None:
    (folder / "trips.csv").write_text(f"yard,price\n{YARD}x,5\n", encoding="utf-8")
    with pytest.raises(InputError, match=f"did you mean '{YARD}'"):
        read_catalog(folder)


def test_trips_that_are_written_read_back_and_go_when_there_are_none(tmp_path: Path) -> None:
    shipped = read_catalog()
    odd = '=Yard, of "odd" name\'s'
    sheets = (replace(shipped.sheets[0], sku="odd", yard=odd), *shipped.sheets)
    catalog = replace(shipped, sheets=sheets, trips=((odd, 0), (YARD, 4999)))
    write_catalog(catalog, tmp_path / "yard")
    assert read_catalog(tmp_path / "yard").trips == catalog.trips
    write_catalog(shipped, tmp_path / "yard")
    assert not (tmp_path / "yard" / "trips.csv").exists()
    assert read_catalog(tmp_path / "yard").trips == ()
