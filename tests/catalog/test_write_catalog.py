"""A catalogue that is written reads back equal; the folder is the old or the new one."""

from __future__ import annotations

import csv
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.catalog import (
    Catalog,
    Hardware,
    Mount,
    Screw,
    SheetProduct,
    TimberProduct,
    read_catalog,
    read_materials,
    write_catalog,
)
from steepwright.catalog.rows import HARDWARE_KINDS
from steepwright.errors import UsageError
from steepwright.writing import exchanged

MATERIALS = read_materials()
YARD = 'Høkjær & Søn "3"'
SEEN = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=9)
CATCHES = ["=1+1", "'=x", "''-2", "+49", "@sum", "-", "a,b", 'say "x"', "é;ü", "'", "＝1", "a  b"]
TEXT = SEEN | st.sampled_from(CATCHES)
PRICE = st.integers(1, 10**9)
LIMIT = st.none() | st.integers(0, 99)
FORCE = st.none() | st.floats(1, 1e6)
YARDS = st.sampled_from([YARD, "Other yard"])


def sheets() -> st.SearchStrategy[SheetProduct]:
    def of(panel: str) -> st.SearchStrategy[SheetProduct]:
        row = MATERIALS.panels[panel]
        return st.builds(
            SheetProduct,
            sku=TEXT,
            name=TEXT,
            kind=st.just(row.kind),
            panel=st.just(panel),
            thickness_mm=st.just(row.thickness_mm),
            length_mm=st.integers(300, 6000),
            width_mm=st.integers(300, 6000),
            face_grain=st.sampled_from(["length", "width"]),
            price_cents=PRICE,
            limit=LIMIT,
            yard=YARDS,
        )

    return st.sampled_from(sorted(MATERIALS.panels)).flatmap(of)


TIMBER = st.builds(
    TimberProduct,
    sku=TEXT,
    name=TEXT,
    width_mm=st.integers(10, 60),
    depth_mm=st.integers(60, 600),
    length_mm=st.integers(300, 15000),
    strength_class=st.sampled_from(sorted(MATERIALS.timber_classes)),
    surface=TEXT,
    price_cents=PRICE,
    limit=LIMIT,
    yard=YARDS,
)
SCREWS = st.builds(
    Screw,
    sku=TEXT,
    name=TEXT,
    role=st.sampled_from(["sheet", "frame"]),
    diameter_mm=st.floats(3, 20),
    root_mm=st.floats(1, 2.9),
    length_mm=st.floats(60, 600),
    thread_mm=st.floats(5, 60),
    head_mm=st.floats(3, 60),
    tensile_mpa=st.floats(200, 2000),
    pack_quantity=st.integers(1, 10000),
    price_cents=PRICE,
    yard=YARDS,
)
MOUNTS = st.builds(
    Mount,
    sku=TEXT,
    name=TEXT,
    drop_mm=st.integers(0, 500),
    setback_mm=st.integers(0, 300),
    behind_sheet_mm=st.integers(0, 300),
    screws=st.integers(1, 20),
    diameter_mm=st.floats(4, 24),
    root_mm=st.floats(2, 3.9),
    thread_mm=st.floats(10, 400),
    tensile_mpa=st.floats(200, 2000),
    rated_n=FORCE,
    adjust_mm=st.integers(0, 500),
    thread_pitch_mm=st.floats(0, 20),
    price_cents=PRICE,
    yard=YARDS,
)
HARDWARE = st.builds(
    Hardware,
    sku=TEXT,
    name=TEXT,
    kind=st.sampled_from(HARDWARE_KINDS),
    pack_quantity=st.integers(1, 10000),
    price_cents=PRICE,
    diameter_mm=st.floats(0, 100),
    length_mm=st.integers(0, 500000),
    width_mm=st.integers(0, 5000),
    thickness_mm=st.integers(0, 1000),
    rated_n=FORCE,
    breaking_n=FORCE,
    stiffness_n=FORCE,
    efficiency=st.none() | st.floats(0.3, 1),
    yard=YARDS,
).filter(lambda h: h.kind != "tie" or bool(h.length_mm and h.rated_n and h.stiffness_n))


@st.composite
def catalogs(draw: st.DrawFn) -> Catalog:
    tables = [
        draw(st.lists(rows, min_size=1, max_size=3))
        for rows in (sheets(), TIMBER, SCREWS, MOUNTS, HARDWARE)
    ]
    renamed = [
        tuple(replace(row, sku=f"{row.sku}{i}.{j}") for j, row in enumerate(table))
        for i, table in enumerate(tables)
    ]
    renamed[0] = (replace(renamed[0][0], limit=None), *renamed[0][1:])
    renamed[1] = (replace(renamed[1][0], limit=None), *renamed[1][1:])
    return Catalog(
        name=YARD,
        currency=draw(st.from_regex("[A-Z]{3}", fullmatch=True)),
        date=draw(st.dates()).isoformat(),
        note=draw(TEXT),
        sheets=renamed[0],
        timber=renamed[1],
        screws=renamed[2],
        mounts=renamed[3],
        hardware=renamed[4],
        materials=MATERIALS,
        vat=draw(st.sampled_from(["included", "excluded"])),
    )


@settings(max_examples=40, deadline=None)
@given(catalog=catalogs())
def test_what_is_written_reads_back_equal(
    tmp_path_factory: pytest.TempPathFactory, catalog: Catalog
) -> None:
    folder = tmp_path_factory.mktemp("round") / "yard"
    write_catalog(catalog, folder)
    again = replace(read_catalog(folder), findings=())
    assert again == catalog


@settings(max_examples=20, deadline=None)
@given(catalog=catalogs())
def test_no_cell_runs_as_a_formula(
    tmp_path_factory: pytest.TempPathFactory, catalog: Catalog
) -> None:
    folder = tmp_path_factory.mktemp("safe") / "yard"
    write_catalog(catalog, folder)
    for path in sorted(folder.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as stream:
            for cell in (cell for row in csv.reader(stream) for cell in row):
                assert not cell.lstrip().startswith(("=", "+", "-", "@", "\t", "\r")), cell


def test_the_shipped_yard_round_trips(tmp_path: Path) -> None:
    write_catalog(read_catalog(), tmp_path / "a" / "yard")
    assert read_catalog(tmp_path / "a" / "yard") == read_catalog()


def test_control_characters_become_spaces(tmp_path: Path) -> None:
    catalog = read_catalog()
    odd = replace(catalog.sheets[0], name="  two\r\nlines\tand\x07bell ")
    write_catalog(replace(catalog, sheets=(odd,)), tmp_path / "yard")
    assert read_catalog(tmp_path / "yard").sheets[0].name == "two lines and bell"


def test_an_old_catalogue_is_replaced_whole(tmp_path: Path) -> None:
    folder = tmp_path / "yard"
    catalog = read_catalog()
    write_catalog(catalog, folder, beside={"findings.json": "[]\n"})
    write_catalog(replace(catalog, mounts=()), folder, beside={"findings.json": "[1]\n"})
    assert (folder / "findings.json").read_text(encoding="utf-8") == "[1]\n"
    assert sorted(p.name for p in folder.iterdir()) == [
        "findings.json", "hardware.csv", "screws.csv", "sheets.csv", "timber.csv", "yard.toml",
    ]  # fmt: skip
    assert [p.name for p in tmp_path.iterdir()] == ["yard"]


def test_other_things_in_the_folder_are_never_lost(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("years of work", encoding="utf-8")
    with pytest.raises(UsageError, match=r"thesis\.txt.*would be lost") as caught:
        write_catalog(read_catalog(), tmp_path)
    assert caught.value.exit_code == 2
    assert [p.name for p in tmp_path.iterdir()] == ["thesis.txt"]
    with pytest.raises(UsageError, match="is a file"):
        write_catalog(read_catalog(), tmp_path / "thesis.txt")


def test_the_new_folder_takes_the_old_ones_place_in_one_step(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other):
        folder.mkdir()
        (folder / folder.name).touch()
    if not exchanged(one, other):
        assert sys.platform != "linux"
        return
    assert [p.name for folder in (one, other) for p in folder.iterdir()] == ["other", "one"]
    assert not exchanged(one, tmp_path / "missing")
    folder = tmp_path / "yard"
    write_catalog(read_catalog(), folder)
    monkeypatch.setattr(Path, "rename", lambda *_: pytest.fail("two steps"))
    write_catalog(replace(read_catalog(), note="new"), folder)
    assert 'note = "new"' in (folder / "yard.toml").read_text(encoding="utf-8")


def test_a_failed_write_leaves_the_old_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "yard"
    write_catalog(read_catalog(), folder)
    before = {p.name: p.read_bytes() for p in folder.iterdir()}
    real = Path.rename

    def full_disk(self: Path, target: Path) -> Path:
        if target == folder and self.name != "kept":
            raise OSError(28, "No space left on device")
        return real(self, target)

    monkeypatch.setattr("steepwright.catalog.write.exchanged", lambda *_: False)
    monkeypatch.setattr(Path, "rename", full_disk)
    with pytest.raises(OSError, match="No space left"):
        write_catalog(replace(read_catalog(), note="new"), folder)
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == before
    assert [p.name for p in tmp_path.iterdir()] == ["yard"]
